package measure_test

import (
	"testing"

	"tarepage/internal/measure"
)

// What was written in metric units is shown in them, as it stood. The sums are worked by
// hand: 1 ft is 304.8 mm exactly (NIST SP 811, B.8).
func TestMetricWritingStaysShort(t *testing.T) {
	for text, want := range map[string]string{
		"3.8 bar": "380 kPa", "550 kPa": "550 kPa", "552.5 kPa": "552.5 kPa", "341 kPa": "341 kPa", "3.456 bar": "345.6 kPa",
		"80 psi": "80 psi", "27.5 psi": "27.5 psi", "27.55 psi": "27.55 psi", "0.5 kPa": "0.5 kPa",
	} {
		if w, err := measure.ParsePressure(text); err != nil || w.Value.String() != want {
			t.Errorf("%s prints as %q (%v), want %q", text, w.Value, err, want)
		}
	}
	for _, sum := range []struct{ a, b, want string }{
		{"20 ft", "2,440 mm", "8,536 mm"},
		{"8 ft", "1,711.5 mm", "4,149.9 mm"},
		{"1,524 mm", "1,524 mm", "10 ft"},
		{"2 ft", "812.345 mm", "1,421.9 mm"},
		{"1.7 m", "2.45 m", "4,150 mm"},
		{"20 ft", "8 ft 6 in", "28 ft 6 in"},
	} {
		a, errA := measure.ParseLength(sum.a)
		b, errB := measure.ParseLength(sum.b)
		if got := (a.Value + b.Value).Near(); errA != nil || errB != nil || got != sum.want {
			t.Errorf("%s and %s print as %q, want %q", sum.a, sum.b, got, sum.want)
		}
	}
}
