// Package unit reads what the yard wrote: content/yard.md, the models and one
// Markdown file per unit. It turns front matter into fields that keep the file, line
// and column they stand at, and the body into a goldmark tree with positions.
//
// It believes nothing and works nothing out: what does not read becomes a Problem
// with a place, and the rest of the file, and of the yard, is read all the same.
//
// The package opens files only through the fs.FS it is given. It imports
// internal/measure and nothing else of Tarepage.
package unit
