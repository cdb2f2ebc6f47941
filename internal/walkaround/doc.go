// Package walkaround turns the recording of a walk-around into what a unit file can use:
// spoken figures, words, equipment and timed notes.
//
// The talk goes through these files in order:
//
//   - token.go cuts words, digits.go writes mixed numbers in words, numeral.go reads numbers,
//     quantity.go reads their units.
//   - candidates.go lists each figure with every role that its unit and its size allow;
//     roles.go is the table of roles.
//   - features.go describes what is around a figure, evidence.go its place in arithmetic and in
//     what is stated, scope.go what is said of other trailers, and model.go scores each role with the trained weights in model.bin.
//   - decide.go and settle.go choose over the whole talk.
//   - words.go hears values that are words, floor.go the thickness of a floor,
//     equipment.go what comes with the trailer.
//   - notes.go cuts the notes, omit.go leaves private talk out of them, sayings.go cuts
//     clauses.
//
// What the ear knows is in tables; each row has an example that a test hears. The model is
// trained by TestTrain on the labelled talk in testdata.
//
// A spoken figure is a Candidate that a person accepts or refuses. Nothing here is ever
// published by itself: a figure whose role or unit is not clear is handed over without a
// Role, with the reason in Doubt, so that it can be listed as heard and not understood.
//
// The package takes bytes and returns values. It opens no file, knows no unit file and no
// page, and reads no clock.
package walkaround
