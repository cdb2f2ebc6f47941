// Package theme is the built-in theme: templates and the stylesheet, embedded in the
// binary. It holds no code; a folder of the same files can stand in for it (-look).
package theme

import "embed"

// Files are the theme's files: frame.html (the outer skeleton of every page), one
// template per kind of page, the stylesheets, and the scripts: units.js and walk.js
// stand in the pages that need them, the others are loaded.
//
//go:embed *.html *.js *.css
var Files embed.FS
