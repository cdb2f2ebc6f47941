package unit

import "testing"

// Each guess makes of its example what it says, the example does not read, and the guess does.
func TestGuesses(t *testing.T) {
	of := map[string]string{"9,900 lb (tag": "weights.gvwr", "3,900": "price", "$6480 OBO": "price", "6.5k": "price", "9.9k (tag)": "weights.gvwr",
		"11/2/2026": "arrived", "17-11-2026": "arrived", "11/17/26": "arrived", "sold 11/20/2026": "availability", "equipment trailer": "kind", "4 tires": "tires.per-axle"}
	for _, g := range guesses {
		k := keyNamed(of[g.example])
		if k == nil {
			t.Fatalf("no key is named for %q", g.example)
		}
		l := new(Unit).leafAt(k.path)
		if err := l.read(g.example, k); err == nil {
			t.Errorf("%s: %q reads as it is", k.path, g.example)
		}
		if got := meantValue(l, k, g.example); got != g.meant {
			t.Errorf("%s: %q is taken for %q, want %q", k.path, g.example, got, g.meant)
		}
	}
	// What can be read two ways, or is another kind of thing, is not guessed at.
	for value, path := range map[string]string{"$6.480": "price", "5,200 or 4,900": "price", "call": "price", "11/12": "arrived", "13/13/2026": "arrived",
		"used, like new": "condition", "two": "tires.per-axle"} {
		k := keyNamed(path)
		if got := meantValue(new(Unit).leafAt(path), k, value); got != "" {
			t.Errorf("%s: %q is taken for %q", path, value, got)
		}
	}
}
