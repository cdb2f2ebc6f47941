// Package measure has the units that a trailer yard uses: their names, how people write
// them, how they are multiplied, and how they are rounded.
//
// Every quantity is a named float64 in one base unit: weights in pounds, lengths
// in inches, pressures in psi. Lengths are in inches, not in feet, because every length
// that the trade writes (8 ft 6-1/2 in) is then an exact binary number. So a limit that is
// inclusive in its clause stays inclusive here.
//
// A product or a quotient of two quantities is a named function (Moment, WeightAt,
// ShareOf). Nothing outside this package multiplies or divides a unit type; a test
// in internal/policy holds that. Each product is converted explicitly, which by the
// Go specification forbids a fused multiply-add, so that every processor prints the
// same figure.
//
// Rounding happens only in round.go: limits go down, loads and needs go up.
//
// The package imports nothing of Tarepage, opens no file and reads no clock.
package measure
