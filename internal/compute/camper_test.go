package compute

import "testing"

// Check values of 49 CFR 571.110 S9.3.2: potable water is cargo, 40 gal at 8.3 lb are 332 lb,
// and full propane is part of the empty weight. By hand: 7,000 - 5,000 - 40 = 1,960 lb, and
// 1,628 lb with full tanks.
func TestCamper(t *testing.T) {
	const camper = "hitch:\n  kind: bumper-pull\naxles:\n  count: 2\n  rating: 3,500 lb\n  center: 15 ft\ndeck:\n  front: 4 ft\n  length: 20 ft\n" +
		"weights:\n  gvwr: 7,000 lb (tag)\n  empty: 5,000 lb\n  tongue-empty: 600 lb\n"
	for _, c := range []struct{ more, figure, want string }{
		{"", "payload", "2,000 lb"},
		{"", "cargo-with-water", "none"},
		{"  water: 332 lb\n", "payload", "2,000 lb"},
		{"  water: 332 lb\n", "cargo-with-water", "1,668 lb"},
		{"  water: 332 lb\n  propane: 40 lb\n", "payload", "1,960 lb"},
		{"  water: 332 lb\n  propane: 40 lb\n", "cargo-with-water", "1,628 lb"},
		{"  water: 2,332 lb\n", "cargo-with-water", "0 lb"},
		{"  water: 0 lb\n", "cargo-with-water", "none"},
	} {
		got := "none"
		if f := trailerFor(t, camper+c.more, "").Figure(c.figure); f != nil {
			got = f.Text
		}
		if got != c.want {
			t.Errorf("%q: %s is %s, want %s", c.more, c.figure, got, c.want)
		}
	}
}
