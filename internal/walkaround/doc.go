// Package walkaround turns the recording of a walk-around into what a unit file can
// use: captions in, timed notes and spoken figures out.
//
// A spoken figure is a Candidate that a person accepts or refuses. Nothing here is
// ever published by itself: a figure whose part or unit cannot be told is handed over
// without a Role, with the reason in Doubt, so that it can be listed as heard and not
// understood.
//
// The rooms, in the order a recording walks through them: captions.go and decode.go read
// the file, spoken.go says each word once, token.go cuts words, numeral.go and quantity.go
// read numbers and their units, context.go sets aside what is of no unit or another,
// roles.go lists the phrases that name parts and the windows of sense, hear.go takes a
// sentence at a time, near.go tells how far a part is from a figure, tires.go, dates.go,
// sections.go, counts.go and pairs.go know the set phrases, place.go gives what is left
// its role. words.go hears words instead of figures, notes.go cuts the timed notes.
//
// The package reads bytes and returns values. It opens no file, knows no unit file and
// no page, and reads no clock. It imports the units of internal/measure, the standard
// library and the text encodings of golang.org/x/text.
package walkaround
