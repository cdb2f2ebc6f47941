package compute_test

import (
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

// The order was set by hand: lengths and payloads as shares of the greater one, added.
// To EX-0 (16 ft, 5,000 lb): EX-1 is 2/18 + 0 = 0.11 away, EX-2 0 + 1,000/6,000 = 0.17,
// EX-3 4/20 + 1,000/6,000 = 0.37, EX-5 has no length: 1 + 0. EX-4 is the same but
// another kind; EX-6 and EX-7 cannot be had today.
func TestNearest(t *testing.T) {
	works := map[string]*compute.Work{}
	var all []*compute.Work
	for _, line := range strings.Split(`EX-0 utility sold 16 7,000
EX-7 utility on-order 16 7,000
EX-6 utility sold 16 7,000
EX-5 utility on-the-yard - 7,000
EX-4 equipment on-the-yard 16 7,000
EX-3 utility on-the-yard 20 8,000
EX-2 utility on-the-yard 16 8,000
EX-1 utility on-the-yard 18 7,000`, "\n") {
		f := strings.Fields(line)
		src := "---\nstock: " + f[0] + "\nkind: " + f[1] + "\navailability: " + strings.ReplaceAll(f[2], "-", " ") + "\nhitch:\n  kind: pintle\n" +
			"weights:\n  gvwr: " + f[4] + " lb\n  empty: 2,000 lb\n"
		if f[3] != "-" {
			src += "deck:\n  length: " + f[3] + " ft\n"
		}
		u, problems := unit.ReadUnit("content/units/x.md", []byte(src+"---\n"))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		works[f[0]] = compute.Unit(u, compute.Settings{})
		all = append(all, works[f[0]])
	}
	for _, c := range []struct {
		most int
		want string
	}{{9, "EX-1 EX-2 EX-3 EX-5 EX-4"}, {2, "EX-1 EX-2"}, {0, ""}} {
		var got []string
		for _, w := range compute.Nearest(works["EX-0"], all, c.most) {
			got = append(got, w.Unit.Stock.Value)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("nearest %d: %s, want %s", c.most, s, c.want)
		}
	}
}
