// Package oracle works out in Go what the page's script works out on the phone: what a
// trailer may carry behind a truck, and which license that may take. Tests compare the two.
// The program does not use it.
package oracle
