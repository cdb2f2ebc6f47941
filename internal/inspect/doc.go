// Package inspect judges what was worked out. Each rule has a file, its examples are in
// an archive of the same name, and the list All has a line for it.
//
// A rule is a value. It looks at one Case (a unit with its work) or at the whole
// Yard, and returns findings: the places, the two values in conflict, the source and
// the remedy. Rules print nothing, stop nothing and keep no state. They read no file
// and no clock, and they never change what compute worked out.
//
// # Is it a rule?
//
// A rule belongs here if it guards against a real hazard or a legal duty (stop), tells
// a customer something to be careful of (caution), or saves the owner a question
// (remark); if it has a citable source or says "common practice, no source"; if false
// alarms are near zero; and if it can say what to do. Its archive shows a unit below
// the limit, one at it and one above.
package inspect
