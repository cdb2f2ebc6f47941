package kinds_test

import (
	"slices"
	"strings"
	"testing"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// TestEntriesAreComplete checks every entry of the table for the values that no reader of
// the table can do without.
func TestEntriesAreComplete(t *testing.T) {
	names, labels, said := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, k := range kinds.All() {
		if k.Name == "" || k.Label == "" || k.Noun == "" || k.Silhouette == "" {
			t.Errorf("%+v: name, label, noun and silhouette are all needed", k)
		}
		if names[k.Name] || labels[k.Label] {
			t.Errorf("%s: two kinds share this name or label", k.Name)
		}
		names[k.Name], labels[k.Label] = true, true
		if k.Name != strings.ToLower(k.Name) || strings.Contains(k.Name, " ") {
			t.Errorf("%q: write the name in lower case, with hyphens", k.Name)
		}
		// Lower than the lowest dolly and higher than a loading dock are slips of the pen.
		if k.Floor < 8 || k.Floor > 60 {
			t.Errorf("%s: a floor is not usually %v above the ground", k.Name, k.Floor)
		}
		// Nobody measured them, so they claim no more than two inches (common practice, no
		// source).
		for _, usual := range []measure.Inches{k.Floor, k.Usual} {
			if measure.Nearest(usual, 2) != usual {
				t.Errorf("%s: write the usual %v in even inches", k.Name, usual)
			}
		}
		for _, c := range k.Cautions {
			if c.Text == "" || c.Source == "" || strings.HasSuffix(c.Text, ".") || c.Text[:1] != strings.ToLower(c.Text[:1]) {
				t.Errorf("%s: a caution is one lower-case clause with a source, not %q (%q)", k.Name, c.Text, c.Source)
			}
		}
		if (k.Space == kinds.Tank) != (k.Liquid != "") {
			t.Errorf("%s: a tank has a liquid, and nothing else has one", k.Name)
		}
		for _, s := range k.Said {
			if said[s] {
				t.Errorf("%s: the phrase %q already means another kind", k.Name, s)
			}
			said[s] = true
			if s != strings.ToLower(s) || strings.ContainsAny(s, "-,.") || strings.Join(strings.Fields(s), " ") != s {
				t.Errorf("%s: write %q in lower case, words apart, without hyphens", k.Name, s)
			}
		}
		if k.Space != kinds.None && k.Usual == 0 && !slices.Contains(k.Needs, string(k.Space)+".length") {
			t.Errorf("%s has a %s and does not need its length", k.Name, k.Space)
		}
	}
}

func TestOf(t *testing.T) {
	if k := kinds.Of("dump"); k.Space != kinds.Bed || k.Securing != kinds.Contained || !k.Known() {
		t.Errorf("dump is %+v", k)
	}
	if k := kinds.Of("hovercraft"); k.Known() {
		t.Errorf("hovercraft is %+v, and the table has none", k)
	}
	if !kinds.Of("deck-over").OverWheels || kinds.Of("flatbed").OverWheels {
		t.Error("only the floor of a deck-over is always above its wheels")
	}
}

func TestNamesAndNeeds(t *testing.T) {
	names := kinds.Names()
	if len(names) != len(kinds.All()) || names[0] != "deck-over" || names[len(names)-1] != "other" {
		t.Errorf("names are %v", names)
	}
	if got := kinds.Needing("box.length"); !slices.Equal(got, []string{"enclosed", "livestock", "concession", "camper"}) {
		t.Errorf("%v need box.length", got)
	}
	if got := kinds.Needing("color"); len(got) > 0 {
		t.Errorf("%v need a color", got)
	}
	// What a caller does with the list must not reach the table.
	kinds.All()[0].Name = "changed"
	if kinds.Names()[0] != "deck-over" {
		t.Error("a caller changed the table")
	}
}
