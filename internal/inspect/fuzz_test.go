package inspect_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// FuzzTrailer works and inspects trailers whose measures are anything that can be typed:
// zero, absurd, contradictory, not given. Nothing panics, no figure is without end, no text
// says NaN or Inf, and each finding has a place and says what to do.
func FuzzTrailer(f *testing.F) {
	f.Add(7000.0, 2000.0, 260.0, 3500.0, 186.0, 60.0, 216.0, 2, 2, uint16(0))
	f.Add(20000.0, 7040.0, 1610.0, 10000.0, 306.0, 90.0, 336.0, 2, 4, uint16(1))
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0, 0, uint16(2))
	f.Add(7000.0, 2000.0, 3000.0, 3500.0, -186.0, 260.0, 1e9, 2, 3, uint16(3))
	f.Add(1e-9, 1e9, 1e9, 1e-300, 1e-9, 1e9, 1e-9, 99, 99, uint16(0x3ff0))
	yard := &unit.Yard{File: "content/yard.md"}
	settings := compute.SettingsOf(yard)
	f.Fuzz(func(t *testing.T, gvwr, empty, tongue, rating, center, front, length float64, axles, perAxle int, leave uint16) {
		var b strings.Builder
		bit := 0
		line := func(format string, args ...any) {
			// Any key may be missing.
			if leave>>(4+bit)&1 == 0 {
				fmt.Fprintf(&b, format+"\n", args...)
			}
			bit = (bit + 1) % 12
		}
		n := func(v float64, unit string) string { return strconv.FormatFloat(v, 'f', -1, 64) + " " + unit }
		b.WriteString("---\ntitle: fuzzed\nstock: EX-1\nkind: " + unit.Kinds()[int(leave>>2)%len(unit.Kinds())] + "\nyear: 2026\ncondition: new\navailability: on the yard\nhitch:\n")
		b.WriteString("  kind: " + []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle"}[leave&3] + "\n")
		line("  rating: %s", n(gvwr, "lb"))
		line("  tongue-limit: %s", n(tongue, "kg"))
		b.WriteString("deck:\n  width: 102 in\n")
		line("  length: %s", n(length, "in"))
		line("  front: %s", n(front, "in"))
		line("  height: %s", n(center/10, "mm"))
		b.WriteString("axles:\n  suspension: leaf spring\n")
		line("  count: %d", axles)
		line("  rating: %s", n(rating, "lb"))
		line("  center: %s", n(center, "in"))
		b.WriteString("tires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi\n")
		line("  per-axle: %d", perAxle)
		b.WriteString("brakes:\n  kind: surge\nweights:\n")
		line("  gvwr: %s", n(gvwr, "lb"))
		line("  empty: %s", n(empty, "lb"))
		line("  tongue-empty: %s", n(tongue, "lb"))
		b.WriteString("---\n\nA text.\n")

		u, problems := unit.ReadUnit("content/units/ex-1.md", []byte(b.String()))
		s := &unit.Stock{Yard: yard, Units: []*unit.Unit{u}}
		w := compute.Unit(u, settings)
		for _, fig := range w.Figures {
			if math.IsNaN(fig.Value) || math.IsInf(fig.Value, 0) || unending(fig.Text) || unending(fig.Working()) {
				t.Fatalf("%s is %v (%s = %s)\n%s", fig.Name, fig.Value, fig.Working(), fig.Text, b.String())
			}
		}
		if p := w.Payload; p.Known && p.Value < 0 {
			t.Fatalf("a payload of %s\n%s", p.Value, b.String())
		}
		for _, found := range inspect.Stock(s, []*compute.Work{w}, problems) {
			if found.Unit != u.File {
				continue // the yard is none of ours here
			}
			if !found.At.Known() || found.Message == "" || found.Remedy == "" || unending(found.Message) || unending(found.Remedy) {
				t.Fatalf("%+v\n%s", found, b.String())
			}
		}
	})
}

// unending reports a text that shows a number without end.
func unending(s string) bool {
	return strings.Contains(s, "NaN") || strings.Contains(s, "+Inf") || strings.Contains(s, "-Inf")
}
