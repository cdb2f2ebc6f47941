// Package stockfile writes the yard's stock for other programs: stock.json with every
// fact and the main figures, stock.csv with a row for each trailer, the same for
// spreadsheets, and stock.schema.json, which says what stock.json holds.
//
// Every number stands beside where it comes from. What nobody stated and nobody could
// work out is absent, never a zero: a program that adds up zeros sells capacity that is
// not there. The order is the stock's own, and the same stock gives the same bytes.
//
// It works nothing out and writes no file. It imports internal/measure, internal/unit
// and internal/compute.
package stockfile
