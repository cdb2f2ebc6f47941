// Package policy holds the project's own rules as tests: which package may import which, no
// product of two units outside internal/measure, no fused multiply-add that could change a
// printed figure, names of our own, plain English, functions of a readable size, and the
// licenses of what the binary contains. It has no production code, and nothing imports it.
//
// The command in policy/mutation checks the tests of the other packages.
package policy
