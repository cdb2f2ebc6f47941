package walkaround

import "testing"

// TestTakesIt reads the example of each phrase that says that a load goes on: it is a claim of more than
// the 5,000 lb that the table speaks of.
func TestTakesIt(t *testing.T) {
	for _, s := range takesIt {
		heavy := false
		for _, c := range ReadProse(s.example).Claims() {
			heavy = heavy || c.Load && c.Operation == Holds && c.Result[len(c.Result)-1] > 5000
		}
		if !heavy {
			t.Errorf("%s: no load in %q: %+v", s.phrase, s.example, ReadProse(s.example).Claims())
		}
	}
}
