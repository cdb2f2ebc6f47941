package compute

import (
	"fmt"
	"testing"

	"tarepage/internal/measure"
)

// Tires against the axle they stand on: 49 CFR 571.110 S4.2.2.1, S4.2.2.2 and 571.120
// S5.1.2. No tolerance is allowed (NHTSA 77-3.29), so the sums are exact.
func TestTiresAgainstAxle(t *testing.T) {
	const form = `title: x
stock: X-4
kind: utility
condition: new
hitch: {kind: bumper-pull}
deck: {length: 16 ft}
axles: {count: 1, rating: "%s"}
tires: {size: %s, per-axle: %d, sidewall: {single: "%s"%s}}
weights: {gvwr: "%s", empty: "2,000 lb"}
`
	for _, c := range []struct {
		name   string
		axle   string
		size   string
		per    int
		single string
		dual   string
		want   measure.Pounds
		holds  bool
	}{
		{"2.1: two of 1,760 lb on 3,500", "3,500 lb", "ST205/75R14", 2, "1,760 lb", "", 3520, true},
		{"2.2: two passenger tires of 1,900 lb: 3,454.5", "3,500 lb", "P205/75R15", 2, "1,900 lb", "", measure.Pounds(1900).Part(10, 11).Times(2), false},
		{"2.3: of 1,925 lb: 3,500 exactly, inclusive", "3,500 lb", "P205/75R15", 2, "1,925 lb", "", 3500, true},
		{"2.3 and a pound less", "3,500 lb", "P205/75R15", 2, "1,924 lb", "", measure.Pounds(1924).Part(10, 11).Times(2), false},
		{"2.4: four by their dual rating of 3,042 lb", "12,000 lb", "LT235/85R16", 4, "3,415 lb", `, dual: "3,042 lb"`, 12168, true},
	} {
		w := trailerFor(t, fmt.Sprintf(form, c.axle, c.size, c.per, c.single, c.dual, "7,000 lb"), "")
		if !w.TireCapacity.Known || w.TireCapacity.Value != c.want {
			t.Errorf("%s: %v, want %v", c.name, float64(w.TireCapacity.Value), float64(c.want))
		}
		if holds := w.TireCapacity.Value >= w.Unit.Axles.Rating.Value; holds != c.holds {
			t.Errorf("%s: holds %v, want %v", c.name, holds, c.holds)
		}
	}
}

func BenchmarkUnit(b *testing.B) {
	w := trailerFor(&testing.T{}, heavy, "A paragraph of the usual length, with a figure or two in it. Rated 25,900 lb GVWR.\n")
	b.ReportAllocs()
	for b.Loop() {
		Unit(w.Unit, w.Settings)
	}
}

func BenchmarkUnitDump(b *testing.B) {
	w := trailerFor(&testing.T{}, dump, "")
	b.ReportAllocs()
	for b.Loop() {
		Unit(w.Unit, w.Settings)
	}
}
