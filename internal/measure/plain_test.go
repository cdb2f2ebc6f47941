package measure

import "testing"

// How people write a number with its unit is plain English; the cases are made up.
func TestParsePlain(t *testing.T) {
	for _, c := range []struct {
		in, unit string
		want     Plain
		about    bool
		fine     bool
	}{
		{"20 lamps", "lamps", 20, false, true},
		{"about 7.2 cu yd", "cu yd", 7.2, true, true},
		{"1,200 lamps", "lamps", 1200, false, true},
		{"20", "lamps", 0, false, false},
		{"20 tie-downs", "lamps", 0, false, false},
		{"lamps", "lamps", 0, false, false},
		{"", "lamps", 0, false, false},
	} {
		w, err := ParsePlain(c.in, c.unit)
		if (err == nil) != c.fine || w.Value != c.want || w.About != c.about {
			t.Errorf("%q in %s: %v, %v, %v", c.in, c.unit, w.Value, w.About, err)
		}
	}
}
