package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

// The sequences are those of ECMA-48: one that sets the title of a window, one that clears the
// screen, and one of a single byte. U+202E turns text round (Unicode Standard Annex 9).
func TestHarmless(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"wrote a.md\n\tb ñ 8½ 🚚\n", "wrote a.md\n\tb ñ 8½ 🚚\n"},
		{"a\x1b]0;x\x07b", `a\x1b]0;x\ab`},
		{"a\x1b[2Jb\r", `a\x1b[2Jb\r`},
		{"a\u009b2J\u202eb", `a\u009b2J\u202eb`},
		{"a\xffb", `a\xffb`},
		{"", ""},
	} {
		var b bytes.Buffer
		if n, err := Harmless(&b, false).Write([]byte(c.text)); n != len(c.text) || err != nil || b.String() != c.want {
			t.Errorf("%q is written as %q (%d bytes, %v), want %q", c.text, b.String(), n, err, c.want)
		}
	}
}

func TestHarmlessJSON(t *testing.T) {
	const title = "a\x1b[2J\u202e\x7f\u200d\U000e0001 ñ 🚚"
	text, err := json.Marshal(title)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if _, err := Harmless(&b, true).Write(text); err != nil {
		t.Fatal(err)
	}
	var again string
	if err := json.Unmarshal(b.Bytes(), &again); err != nil || again != title {
		t.Errorf("%s reads back as %q (%v)", b.String(), again, err)
	}
	if strings.ContainsFunc(b.String(), hidden) {
		t.Errorf("%s has what a terminal obeys", b.String())
	}
}
