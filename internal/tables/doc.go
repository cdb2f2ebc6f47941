// Package tables holds the published tables that figures are worked from: tires, load
// indexes, chains, rolled sections, densities, what loads weigh. Each is a CSV in data/,
// embedded in the binary, and every row carries where it comes from and how far it may
// be trusted (Grade). A number without a source does not load.
//
// The tables are for checking a unit file and for filling in what it leaves out. What
// is molded on the tire, stamped on the wheel, marked on the chain or printed on the
// certification label governs over any row here.
//
// Lookups read a table the first time it is asked for. A table with a fault in it gives
// no rows at all, so that a figure is absent and not wrong; Validate says what the
// fault is, with file and line.
//
// The package imports the standard library and measure. It opens no file at run time
// and reads no clock, and it may not know of units, rules or pages.
package tables
