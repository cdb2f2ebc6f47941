// Package testyard makes yards to prove the tool on: any number of sound units of every
// kind, with models, cautions and notes of 150 to 900 words. It is for tests and
// benchmarks; nothing that a customer uses may import it, and a test of the house holds
// that.
//
// The same number gives the same bytes on every computer: there is no clock, no map
// order and no global random number in it, and unit i is the same unit in a yard of any
// size. It imports nothing of Tarepage, so that a slip of the reader is not repeated
// in what the reader is proved with.
//
// Every maker, name, place and number in it is invented; telephone numbers are from the
// block that is reserved for that (555-0100 to 555-0199).
package testyard
