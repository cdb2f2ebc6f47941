// Package render makes the pages from finished values: what was stated, worked out and
// found. It computes nothing: its templates do no arithmetic, and every figure comes from
// internal/compute. An unknown node in the notes, an unknown figure or an unknown template
// field is an error, never a silent gap.
//
// It writes no files: it hands finished pages to its Target, by their paths. What the
// templates receive is in fields.go and described in docs/theme.md.
package render
