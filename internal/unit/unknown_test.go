package unit_test

import (
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A key may say that nobody knows its value, in four forms, with the reason.
func TestUnknown(t *testing.T) {
	const why = "the label's paint is gone"
	for name, text := range map[string]string{
		"in quotes":            `  gvwr: "unknown: the label's paint is gone"`,
		"without quotes":       `  gvwr: unknown: the label's paint is gone`,
		"in parentheses":       `  gvwr: Unknown (the label's paint is gone)`,
		"on a line of its own": "  gvwr:\n    unknown: the label's paint is gone",
	} {
		u, problems := unit.ReadUnit("a.md", []byte("---\nweights:\n"+text+"\n  empty: 2,000 lb (scale ticket 2026-11-03)\n---\n"))
		g := u.Weights.GVWR
		reason, unknown := g.Unknown()
		if len(problems) > 0 || g.Given() || !unknown || reason != why || !g.Pos.Known() || g.Value != 0 {
			t.Errorf("%s: %+v %+v", name, g, problems)
		}
		if g.Words() != "not known: "+why {
			t.Errorf("%s: in words %q", name, g.Words())
		}
		if e := u.Weights.Empty; !e.Given() || e.Pos.Line != g.Pos.Line+1 || e.From.Date() != "2026-11-03" {
			t.Errorf("%s: the line after it: %+v", name, e)
		}
	}
	// Without a reason, and where the key is not a figure, it does not read or is a word like another.
	for _, text := range []string{"weights:\n  gvwr: unknown", "weights:\n  gvwr: unknown ()", "price: unknown (call)", "arrived: unknown (lost)", "hitch:\n  kind: unknown (rust)"} {
		if _, problems := unit.ReadUnit("a.md", []byte("---\n"+text+"\n---\n")); len(problems) != 1 {
			t.Errorf("%q: %+v", text, problems)
		}
	}
	u, problems := unit.ReadUnit("a.md", []byte("---\ntitle: \"unknown: a riddle\"\nserial: unknown (ground off)\naxles:\n  count: unknown (in the mud)\n---\n"))
	if len(problems) > 0 || u.Title.Value != "unknown: a riddle" || u.Serial.Given() || u.Axles.Count.Given() {
		t.Errorf("%+v %+v %+v %+v", u.Title, u.Serial, u.Axles.Count, problems)
	}
}

// A model does not fill in what the unit says nobody knows, and what it fills in is from
// the model. An estimate and a spoken figure stay what they are.
func TestFromTheModel(t *testing.T) {
	s, problems, err := unit.Read(folder(map[string]string{
		"content/yard.md": "---\nname: x\nas-of: 2026-11-20\n---\n",
		"content/models/m.md": "---\ntitle: m\nprice: $5 (since 2026-11-10)\nhitch:\n  kind: gooseneck\n  rating: 30,000 lb (coupler plate)\n  ball-rating: 30,000 lb\n" +
			"axles:\n  rating: 7,000 lb (tag)\n  center: 20 ft (estimate)\n  spacing: 50 in (said 1:10)\ntires:\n  load-range: E (sidewall)\n  size: ST235/80R16\n---\n",
		"content/units/a.md": "---\nmodel: m\nstock: A\naxles:\n  rating: unknown (the label is gone)\n---\n",
	}))
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	u := s.Units[0]
	if _, unknown := u.Axles.Rating.Unknown(); !unknown || u.Axles.Rating.Given() {
		t.Errorf("the model filled in what nobody knows: %+v", u.Axles.Rating)
	}
	for name, c := range map[string]struct {
		from measure.Provenance
		want string
	}{
		"a plate":                 {u.Hitch.Rating.From, "from the model"},
		"no note":                 {u.Hitch.BallRating.From, "from the model"},
		"a sidewall":              {u.Tires.LoadRange.From, "from the model"},
		"an estimate":             {u.Axles.Center.From, "estimate"},
		"a spoken figure":         {u.Axles.Spacing.From, "said 1:10"},
		"a price":                 {u.Price.From, "since 2026-11-10"},
		"a word":                  {u.Hitch.Kind.From, ""},
		"a word, may have a note": {u.Tires.Size.From, ""},
	} {
		if c.from.String() != c.want {
			t.Errorf("%s: %q, want %q", name, c.from, c.want)
		}
	}
}
