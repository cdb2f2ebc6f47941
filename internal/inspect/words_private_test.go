package inspect

import (
	"testing"

	"tarepage/internal/unit"
)

// TestAffairs reads each row's examples. How people write what is not for customers is common
// practice, no source.
func TestAffairs(t *testing.T) {
	c := &Case{Unit: &unit.Unit{}}
	first := func(text string) (p tell) {
		for _, p := range c.private(text) {
			return p
		}
		return p
	}
	for _, a := range affairs {
		for _, text := range []string{a.eg, "18 ft deck. " + a.eg, a.eg + " in 2026"} {
			if p := first(text); p.what != a.what {
				t.Errorf("%q is %q, want %q", text, p.what, a.what)
			}
		}
		if p := first(a.not); p.what != "" {
			t.Errorf("%q is %q for %q", a.not, p.what, p.says)
		}
	}
	for text, what := range map[string]string{
		"call Ann at 555-0161": somebodysPhone, "(555) 555-0161": somebodysPhone, "write ann@buyer.example": somebodysPhone,
		"part no. 555-0161": "", "bearing 555-0161": "", "11-555-01610": "",
		"$4,100 cost": "", "paid 4100": yardsPaid, "spare tire (cost 80)": yardsPaid, "paid 10 days ago": "", "Oxbow (floor plan)": yardsLender, "traded in by Bob": somebody, "hold for Ann until Friday": somebody,
		"we gave 3,100": yardsPaid, "will take $5k": yardsTakes, "minimum 3,500 lb axle": "", "deposit from a customer": "",
		"Buyer Responsible For Title": "", "sold to the highest bidder": "", "owner's manual": "", "One Owner Trailer": "",
	} {
		if p := first(text); p.what != what {
			t.Errorf("%q is %q for %q, want %q", text, p.what, p.says, what)
		}
	}
}
