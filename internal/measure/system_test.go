package measure_test

import (
	"testing"

	"tarepage/internal/measure"
)

// The factors are NIST SP 811 (2008), B.8: 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm. A
// certification label that reads 20,000 lb is 9,071.847 4 kg.
func TestSystem(t *testing.T) {
	us, si := measure.American, measure.Metric
	for _, c := range []struct{ got, want string }{
		{us.Weight(20000), "20,000 lb"}, {si.Weight(20000), "9,072 kg"},
		{us.Limit(12959.7), "12,959 lb"}, {si.Limit(20000), "9,071 kg"},
		{us.Load(3642.2), "3,643 lb"}, {si.Load(3642.2), "1,653 kg"}, // 1,652.07 kg
		{si.Limit(measure.FromKilograms(9072)), "9,072 kg"}, {si.Load(measure.FromKilograms(9072)), "9,072 kg"},
		{si.Limit(-0.4), "-1 kg"}, {si.Load(-0.4), "0 kg"},
		{us.Length(336), "28 ft"}, {si.Length(336), "8.53 m"}, // 8,534.4 mm
		{us.AtLeast(110.1), "9 ft 2-1/4 in"}, {si.AtLeast(110.1), "2.80 m"}, // 2,796.54 mm
		{us.AtMost(110.1), "9 ft 2 in"}, {si.AtMost(110.1), "2.79 m"},
		{us.Stretch(110, 140), "9 ft 2 in to 11 ft 8 in"}, {si.Stretch(110, 140), "2.80 m to 3.55 m"}, // 2,794 to 3,556 mm
		{us.Stretch(110, 110), "only at 9 ft 2 in"}, {si.Stretch(110, 110), "only at 2.794 m"},
		{us.Stretch(110.01, 110.1), "9 ft 2-1/64 in to 9 ft 2-3/32 in"}, {si.Stretch(110.01, 110.1), "2.795 m to 2.796 m"}, // 2,794.25 to 2,796.54 mm
	} {
		if c.got != c.want {
			t.Errorf("%s, want %s", c.got, c.want)
		}
	}
}
