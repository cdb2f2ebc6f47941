package report

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// harmless writes text in which a terminal finds nothing to obey.
type harmless struct {
	to   io.Writer
	json bool
}

// Harmless is a writer on which controls, and the marks that turn text round, are written as
// Visible writes them, whatever they came in with: the name of a folder, of a file, of a column.
// Line ends and tabs stay. In JSON they become its own escapes, so that it reads back the same.
// What is written to it at once has to end with a whole character.
func Harmless(to io.Writer, json bool) io.Writer { return harmless{to, json} }

// Write implements io.Writer.
func (h harmless) Write(text []byte) (int, error) {
	var b strings.Builder
	b.Grow(len(text))
	for rest := string(text); rest != ""; {
		c, size := utf8.DecodeRuneInString(rest)
		switch {
		case c == '\n' || c == '\t':
			b.WriteRune(c)
		case h.json && hidden(c) && !(c == utf8.RuneError && size == 1):
			for _, unit := range utf16.Encode([]rune{c}) {
				fmt.Fprintf(&b, "\\u%04x", unit)
			}
		default:
			b.WriteString(Visible(rest[:size]))
		}
		rest = rest[size:]
	}
	_, err := io.WriteString(h.to, b.String())
	return len(text), err
}
