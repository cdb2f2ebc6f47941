package unit_test

import (
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// TestPassages holds what the body says, and where, against places found by searching
// the file's text.
func TestPassages(t *testing.T) {
	const src = `---
stock: EX-1
---

## Weights

1:12 It weighs **7,040 lb** empty,
and [12,960 lb](worked:tag-payload) is left, or [?](worked:payload).

- loose \& 2:05 no time here
- ~~9,000 lb~~ struck

| what | says |
| --- | --- |
| GVWR | 20,000 lb |

    code says nothing

<b>raw</b> ![picture](x.jpg) words
`
	u, problems := unit.ReadUnit("content/units/ex-1.md", []byte(src))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	ps := u.Body.Passages(func(name string) string { return "<" + name + ">" })
	var got []string
	for _, p := range ps {
		got = append(got, p.Text)
	}
	want := []string{
		"Weights",
		"It weighs 7,040 lb empty, and 12,960 lb is left, or <payload>.",
		"loose & 2:05 no time here",
		" struck",
		"what: says",
		"GVWR: 20,000 lb",
		"raw  words",
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Fatalf("got\n%q\nwant\n%q", got, want)
	}
	if ps[1].Note == nil || ps[1].Note.At != 72 || ps[2].Note != nil {
		t.Errorf("the timed note is %v, the other %v", ps[1].Note, ps[2].Note)
	}
	for _, c := range []struct {
		passage int
		words   string
		checked bool
	}{
		{1, "7,040 lb", false}, {1, "12,960 lb", true}, {1, "is left", false}, {2, "2:05", false}, {5, "20,000", false},
	} {
		p := &ps[c.passage]
		at := strings.Index(p.Text, c.words)
		line := strings.Count(src[:strings.Index(src, c.words)], "\n") + 1
		column := strings.Index(src, c.words) - strings.LastIndex(src[:strings.Index(src, c.words)], "\n")
		if pos := p.Pos(at); pos.Line != int32(line) || pos.Column != int32(column) {
			t.Errorf("%q stands at %v, want %d:%d", c.words, pos, line, column)
		}
		if got := p.Checked(at, at+len(c.words)); got != c.checked {
			t.Errorf("%q checked: %v", c.words, got)
		}
	}
	at := strings.Index(ps[1].Text, "<payload>")
	if !ps[1].Checked(at, at+3) {
		t.Error("the words filled into an empty link are not marked as checked")
	}
}

// TestGivens holds that every key given is listed with its place and provenance.
func TestGivens(t *testing.T) {
	u, problems := unit.ReadUnit("content/units/ex-1.md", []byte(`---
stock: EX-1
weights:
  gvwr: about 7,000 lb (said 0:40)
tie-downs:
  - Stake Pockets: 22 (said 1:13)
  - d-rings: 8 at 5,000 lb (tag)
---
`))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, g := range u.Givens() {
		got = append(got, g.Path+"="+g.Text+"("+g.From.String()+")")
	}
	want := "stock=EX-1() weights.gvwr=about 7,000 lb(said 0:40) tie-downs.stake-pockets=22(said 1:13) tie-downs.d-rings=8() tie-downs.d-rings.rating=5,000 lb(tag)"
	if strings.Join(got, " ") != want {
		t.Errorf("got  %s\nwant %s", strings.Join(got, " "), want)
	}
}
