package stockfile_test

import (
	"strings"
	"testing"

	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// A price's day may be left out: it is the as-of day of the first build that published it, and
// each later build reads it from the site before.
func TestDateChanges(t *testing.T) {
	asOf := unit.Day{Year: 2026, Month: 11, Day: 24}
	bare := strings.NewReplacer(" (since 2026-11-12)", "", " (since 2026-11-10)", "").Replace(full)
	published := func(file string) []byte {
		text, err := written(fullYard(t, file), "stock.json")
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	for _, c := range []struct {
		name, before, now   string
		price, availability string
	}{
		{"nothing changed, no day before", bare, bare, "", ""},
		{"nothing changed, days before", full, bare, "2026-11-10", "2026-11-12"},
		{"another price", bare, strings.Replace(bare, "$2,600", "$2,500", 1), "2026-11-24", ""},
		{"another price with a day of its own", bare, strings.Replace(bare, "$2,600", "$2,500 (since 2026-11-22)", 1), "2026-11-22", ""},
		{"a first price", strings.Replace(bare, "price: about $2,600\n", "", 1), bare, "2026-11-24", ""},
		{"sold", full, strings.Replace(bare, "spoken for", "sold", 1), "", "2026-11-24"},
		{"back again", strings.Replace(full, "spoken for", "sold", 1), strings.Replace(bare, "spoken for", "on the yard", 1), "2026-11-24", "2026-11-24"},
		{"new in the yard", strings.Replace(bare, "EX-7", "EX-8", 1), bare, "", ""},
	} {
		u := fullYard(t, c.now).Units[0].Work.Unit
		stockfile.DateChanges(stockfile.ReadOffers(published(c.before)), []*unit.Unit{u}, asOf)
		dated := func(d unit.Day) string {
			if !d.Known() {
				return ""
			}
			return d.String()
		}
		if price, availability := dated(u.Price.Since()), dated(u.Availability.Since()); price != c.price || availability != c.availability {
			t.Errorf("%s: price since %q, availability since %q; want %q and %q", c.name, price, availability, c.price, c.availability)
		}
	}
	u := fullYard(t, bare).Units[0].Work.Unit
	stockfile.DateChanges(nil, []*unit.Unit{u}, asOf)
	if u.Changed() != u.Arrived.Value {
		t.Errorf("a first build dates it %v", u.Changed())
	}
}
