package main

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/thorough"
)

// Changes to the sample package are tried, in three samples since no sample holds
// two changes that overlap. What its tests leave open is found, and nothing else.
func TestSample(t *testing.T) {
	// Worked out by hand from the sample's tests.
	want := []string{
		// Nobody asks at the limit.
		"notices: load > limit => load >= limit",
		// Nobody asks about the larger rating.
		"notices: 3500 => 3500 + 1",
		// Nobody calls Unasked.
		"reaches: 1 => 1 + 1",
		"reaches: load + 1 => load - 1",
		"reaches: load + 1 => the zero value",
		// Nobody asks Half about what is not known. That case returns 0 and false already.
		"reaches: 0 => 0 + 1",
	}
	var got []string
	seeds := []uint64{1, 5, 21}
	if !thorough.BeforePush() {
		seeds = seeds[:1] // which finds a part of them
	}
	for _, seed := range seeds {
		var out strings.Builder
		r, err := check("./testdata/hitch", options{sample: 1000, seed: seed, atMost: 1 << 40}, &out)
		if err != nil {
			t.Fatal(err)
		}
		if share := r.share(); share < 0.5 || share > 0.95 || r.margin(0.8) != 0 {
			t.Errorf("seed %d: a share of %v with a margin of %v\n%s", seed, share, r.margin(0.8), &out)
		}
		for line := range strings.Lines(out.String()) {
			if _, what, ok := strings.Cut(strings.TrimSpace(line), ": no test "); ok {
				got = append(got, what)
			}
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if !thorough.BeforePush() && len(got) > 1 {
		want = slices.DeleteFunc(want, func(w string) bool { return !slices.Contains(got, w) })
	}
	if got = slices.Compact(got); !slices.Equal(got, want) {
		t.Errorf("open are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A part of a sample is judged with a standard deviation to spare: of 16 changes that are noticed
// four times out of five, 0.4 / 4.
func TestMargin(t *testing.T) {
	for _, c := range []struct {
		r    result
		want float64
	}{
		{result{noticed: 12, tried: 16, sample: 100}, 0.1},
		{result{noticed: 12, tried: 16, sample: 16}, 0},
	} {
		if got := c.r.margin(0.8); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: a margin of %v, want %v", c.r, got, c.want)
		}
	}
}

// The same seed draws the same changes, and another seed draws others.
func TestSampleIsTheSame(t *testing.T) {
	p, err := load("./testdata/hitch")
	if err != nil {
		t.Fatal(err)
	}
	drawn := func(seed uint64) (out string) {
		all, _, err := possible(p, seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range draw(all, 6) {
			out += c.place + " " + c.what + "\n"
		}
		return out
	}
	if a, b := drawn(1), drawn(1); a != b || strings.Count(a, "\n") != 6 {
		t.Errorf("drawn were\n%sand then\n%s", a, b)
	}
	if drawn(1) == drawn(2) {
		t.Error("two seeds draw the same changes")
	}
}
