package walkback

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"tarepage/internal/unit"
)

// mostNote is how long a note may be, in characters.
const mostNote = 1000

// marks are the characters that CommonMark reads within a line (CommonMark 0.31.2, 2.4).
var marks = strings.NewReplacer(`\`, `\\`, "`", "\\`", `*`, `\*`, `_`, `\_`, `[`, `\[`, `]`, `\]`, `<`, `\<`, `>`, `\>`, `&`, `\&`, `~`, `\~`, `|`, `\|`)

// blockStart matches what would begin a heading, a list or a rule at the start of a line
// (CommonMark 0.31.2, 4 and 5).
var blockStart = regexp.MustCompile(`^(?:[#+=-]|[0-9]+[.)])`)

// AddNote adds a paragraph of plain words at the end of a unit file, where customers read it. A
// note that the file has already is not added again: a phone that lost the signal sends twice.
func AddNote(file []byte, words string) ([]byte, error) {
	words = strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(words, ""))), " ")
	if n := len([]rune(words)); n == 0 || n > mostNote {
		return nil, fmt.Errorf("a note has 1 to %d characters; this one has %d", mostNote, n)
	}
	text := marks.Replace(words)
	if at := blockStart.FindStringIndex(text); at != nil {
		text = text[:at[1]-1] + `\` + text[at[1]-1:]
	}
	eol := "\n"
	if bytes.Contains(file, []byte("\r\n")) {
		eol = "\r\n"
	}
	for line := range bytes.Lines(file) {
		if string(bytes.TrimRight(line, "\r\n")) == text {
			return file, nil
		}
	}
	out := bytes.Clone(file)
	if len(out) > 0 && out[len(out)-1] != '\n' {
		out = append(out, eol...)
	}
	out = append(out, eol+text+eol...)
	if _, problems := unit.ReadUnit("note", out); len(out) > unit.MostBytes || unreadable(problems) {
		return nil, fmt.Errorf("the note does not fit into the file; write it at the desk")
	}
	return out, nil
}

// unreadable reports whether a file cannot be read at all.
func unreadable(problems []unit.Problem) bool {
	for _, p := range problems {
		if p.Rule == unit.FileUnreadable {
			return true
		}
	}
	return false
}
