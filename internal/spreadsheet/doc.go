// Package spreadsheet reads the yard's own spreadsheet: it says which column is which key, which
// rows are new units, and what changes in those that the yard has. Only Plan.Write writes.
//
// A column that no row of the table of words knows is not taken. Yards keep what they paid in
// such columns, and it must never reach a page.
package spreadsheet
