// Package stockfile writes the yard's stock for other programs: stock.json with every
// fact and the main figures, stock.csv with a row for each trailer, the same for
// spreadsheets, and stock.schema.json, which describes stock.json.
//
// Every number comes with its source. A value that nobody stated and that cannot be computed is
// absent, never zero: a program that adds up zeros would sell capacity that does not exist. The
// order is the stock's own, and the same stock gives the same bytes.
//
// The package computes nothing and writes no file. It imports internal/measure, internal/unit
// and internal/compute.
package stockfile
