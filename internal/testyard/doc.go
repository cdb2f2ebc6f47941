// Package testyard makes yards for tests and benchmarks: any number of sound units of every
// kind, with models, cautions and notes of 150 to 900 words. No production code may import it;
// the import table in internal/policy holds that.
//
// The same number gives the same bytes on every computer. It uses no clock, no map order and
// no global random numbers, and unit i is the same in a yard of any size. It imports nothing
// of Tarepage, so a mistake in the reader is not repeated in the data that tests the reader.
//
// Every maker, name, place and number is invented. Telephone numbers are from the block that is
// reserved for that (555-0100 to 555-0199).
package testyard
