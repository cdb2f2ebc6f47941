package render_test

import (
	"maps"
	"strings"
	"testing"
)

// TestBar: the bar has a button for what the yard's file gives, and none for the rest.
// The schemes are those of RFC 3966 (tel) and RFC 5724 (sms).
func TestBar(t *testing.T) {
	units := map[string]string{"content/units/ex-1.md": sound}
	const street, way = "street: 1 Example Road\ntown: Dunnock Gap\n", "directions: https://map.example/?to=1+Example+Road&by=truck\n"
	for _, c := range []struct {
		name, keys string
		has, lacks []string
	}{
		{"a number alone", "", []string{`href="tel:555-0100"`, `id="share"`}, []string{"sms:", ">Directions<"}},
		{"texts", "text: 555-0101\n", []string{`<a href="sms:555-0101">Text</a>`}, []string{"map.example"}},
		{"a street", street, []string{`value="1 Example Road, Dunnock Gap"`}, []string{"map.example"}},
		{"a map", street + way, []string{`<a href="https://map.example/?to=1+Example+Road&amp;by=truck" rel="noopener noreferrer" referrerpolicy="no-referrer">Directions</a>`}, []string{`id="street"`}},
	} {
		files, err := filesOf(maps.Clone(units), strings.Replace(yard, "as-of:", c.keys+"as-of:", 1))
		if err != nil {
			t.Fatal(err)
		}
		bar := between(files["u/ex-1.html"], `<nav class="bar"`, `</nav>`)
		for _, s := range c.has {
			if !strings.Contains(bar, s) {
				t.Errorf("%s: the bar lacks %s: %s", c.name, s, bar)
			}
		}
		for _, s := range c.lacks {
			if strings.Contains(bar, s) {
				t.Errorf("%s: the bar has %s: %s", c.name, s, bar)
			}
		}
	}
}
