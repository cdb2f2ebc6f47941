package unit

import (
	"bytes"
	"regexp"

	"tarepage/internal/measure"
)

// unknownForm is a value that its author says nobody knows, with the reason: "unknown: the
// label is painted over" or "unknown (the label is painted over)".
var unknownForm = regexp.MustCompile(`^(?i)unknown(?:\s*:\s*(\S.*?)|\s*\(\s*([^()]*?[^()\s])\s*\))\s*$`)

// mayBeUnknown reports that the key is for something that is read off a trailer or measured
// on it. Leave other keys out instead.
func (k *key) mayBeUnknown() bool {
	if k.choices != nil {
		return false
	}
	switch k.kind {
	case "text":
		return k.noted
	case "money", "share", "date", "time in the recording":
		return false
	}
	return !k.list && k.kids == nil
}

// readUnknown takes a value that says that it is not known.
func (f *Field[T]) readUnknown(text string, k *key) bool {
	if k == nil || !k.mayBeUnknown() {
		return false
	}
	m := unknownForm.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	f.From = measure.Provenance{Origin: measure.Unknown, Text: m[1] + m[2]}
	return true
}

// Unknown returns why the value is not known, where the author says so.
func (f *Field[T]) Unknown() (reason string, unknown bool) {
	return f.From.Text, f.From.Origin == measure.Unknown
}

// unknown is Unknown without the reason.
func (f *Field[T]) unknown() bool { return f.From.Origin == measure.Unknown }

// unknownLine is "gvwr: unknown: the label is painted over" as people write it. YAML wants
// quotes around a value that holds a colon.
var unknownLine = regexp.MustCompile(`(?im)^(\s*[a-z][a-z-]*:\s+)(unknown:\s+[^\s"'].*?)\s*$`)

// quoteUnknown puts the quotes around such values. Lines and columns stay where they are.
func quoteUnknown(front []byte) []byte {
	if !bytes.Contains(bytes.ToLower(front), []byte("unknown:")) {
		return front // as most are; the expression is slow
	}
	return unknownLine.ReplaceAllFunc(front, func(line []byte) []byte {
		m := unknownLine.FindSubmatch(line)
		out := append([]byte{}, m[1]...)
		out = append(out, '\'')
		for _, c := range m[2] {
			if c == '\'' {
				out = append(out, '\'')
			}
			out = append(out, c)
		}
		return append(out, '\'')
	})
}

// inherit says of a value that a model filled in that it comes from there. Somebody read
// the model's label or measured its deck, not this unit's. An estimate, a price's day and
// a spoken figure stay what they are.
func (f *Field[T]) inherit() {
	switch any(f.Value).(type) {
	case measure.Dollars, measure.Share, Day, Clock:
		return // nobody reads these off a trailer
	}
	switch f.From.Origin {
	case measure.Estimate, measure.Since, measure.Said, measure.Unknown:
		return
	case measure.Unstated:
		switch any(f.Value).(type) {
		case string, bool:
			return // a word is not a figure that somebody read
		}
	}
	f.From = measure.Provenance{Origin: measure.Model, Text: measure.Model.String()}
}
