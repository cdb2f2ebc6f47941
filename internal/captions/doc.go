// Package captions reads the captions of a recording and writes them for a player.
//
// Read takes a WebVTT or SubRip file as it comes and gives its cues in order; what it had
// to repair or leave out is a Doubt. Track.Words is what was said, each word once.
// Track.WebVTT and Chapters write text tracks.
//
// The package knows nothing about trailers. It takes bytes and returns values: it opens
// no file and reads no clock.
package captions
