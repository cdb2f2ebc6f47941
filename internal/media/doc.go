// Package media tells what a photo's or a video's file says of itself: its kind, its
// size, how it must be turned, where its index stands. It reads heads and tables only
// and no pixel, a few kilobytes of each file, and never allocates what a file claims to
// need: what a file says of itself may be wrong, or meant to do harm.
//
// It may not open files, decode pictures or decide what is published: internal/unit
// hands it open files, internal/inspect judges what it tells, internal/photo does the
// work on the pixels.
package media
