// Package unit reads what the yard wrote: content/yard.md, the models and one
// Markdown file per unit. It turns front matter into fields that know their file, line and
// column, and the body into a goldmark tree with positions.
//
// It judges nothing and computes nothing. A value that it cannot read becomes a Problem with
// a place. It still reads the rest of the file and of the yard.
//
// The package opens files only through the fs.FS it is given. It imports
// internal/measure and nothing else of Tarepage.
package unit
