package render

import "testing"

// TestCoupled: the sentences on the handover card. Chains are crossed under a tongue, and not
// under a gooseneck, which has them in the bed; a kingpin has none unless the file says so.
// Common practice, no source.
func TestCoupled(t *testing.T) {
	for _, c := range []struct {
		hitch        string
		ball, chains bool
		how, chained string
	}{
		{"bumper-pull", true, true, "card coupled bumper-pull ball", "card chains crossed"},
		{"bumper-pull", false, false, "card coupled bumper-pull", "card chains crossed unknown"},
		{"pintle", true, true, "card coupled pintle", "card chains crossed"},
		{"gooseneck", true, true, "card coupled gooseneck ball", "card chains"},
		{"gooseneck", false, false, "card coupled gooseneck", "card chains unknown"},
		{"fifth-wheel", false, false, "card coupled fifth-wheel", ""},
		{"fifth-wheel", false, true, "card coupled fifth-wheel", "card chains"},
	} {
		if how, chained := coupled(c.hitch, c.ball, c.chains); how != c.how || chained != c.chained {
			t.Errorf("%+v: %q and %q", c, how, chained)
		}
	}
}
