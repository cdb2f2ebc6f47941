// Package render makes the pages from finished values: what was stated, worked out
// and found. It computes nothing: there is no arithmetic in its templates and no
// figure is born here. A node of the notes, a figure or a template that it does not
// know is an error, never a silent gap.
//
// It writes no file: finished pages go to the function it is given, by their path.
package render
