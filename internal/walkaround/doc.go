// Package walkaround turns the recording of a walk-around into what a unit file can
// use: captions in, timed notes and spoken figures out.
//
// A spoken figure is a Candidate that a person accepts or refuses. Nothing here is
// ever published by itself: a figure whose part or unit cannot be told is handed over
// without a Role, with the reason in Doubt, so that it can be listed as heard and not
// understood.
//
// The package reads bytes and returns values. It opens no file, knows no unit file and
// no page, and reads no clock. It imports the units of internal/measure, the standard
// library and the text encodings of golang.org/x/text.
package walkaround
