package unit

import (
	"testing"

	"tarepage/internal/measure"
)

// 26 CFR 145.4051-1(e)(3)(iv): an advertised rating counts. The phrases are invented; how
// they must be read is plain English.
func TestRatingsInWords(t *testing.T) {
	for _, c := range []struct {
		text string
		want []measure.Pounds
	}{
		{"26,500 lb GVWR gooseneck", []measure.Pounds{26500}},
		{"GVWR: 26,500 lbs", []measure.Pounds{26500}},
		{"GVWR of 26500", []measure.Pounds{26500}},
		{"a 26.5k GVW trailer", []measure.Pounds{26500}},
		{"14k lb gross weight", []measure.Pounds{14000}},
		{"**26,500 lb** GVWR", []measure.Pounds{26500}},
		{"| GVWR | 26,500 lb |", []measure.Pounds{26500}},
		{"rated 26,500 pounds gross.", []measure.Pounds{26500}},
		{"[26,500 lb](worked:payload) GVWR", []measure.Pounds{26500}},
		{"12,000 kg GVWR", []measure.Pounds{measure.FromKilograms(12000)}},
		{"Two 12,000 lb axles. GVWR 25,900 lb.", []measure.Pounds{25900}},
		// Not the trailer's own gross rating.
		{"behind a truck of 33,000 lb GVWR", nil},
		{"26,001 lb gross combined weight", nil},
		{"GCWR 40,000 lb", nil},
		{"10,000 lb gross axle weight rating", nil},
		{"carries 26,500 lb of gravel", nil},
		{"26,500 lb of gravel; GVWR on the label", nil},
		{"26,500 miles, grossly overbuilt", nil},
		{"it weighs 7,040 lb empty", nil},
	} {
		var got []measure.Pounds
		for _, r := range ratingsIn(c.text) {
			got = append(got, r.Weight)
		}
		if len(got) != len(c.want) || len(got) > 0 && got[0] != c.want[0] {
			t.Errorf("%q gives %v, want %v", c.text, got, c.want)
		}
	}
}

func TestWrittenRatingsHavePlaces(t *testing.T) {
	u, problems := ReadUnit("content/units/a.md", []byte("---\ntitle: big one, 26,100 lb GVWR\n---\n\nFirst line.\n\nHere it says 26,500 lb GVWR plainly.\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	got := u.WrittenRatings()
	if len(got) != 2 || got[0].Pos != (Pos{"content/units/a.md", 2, 8}) || got[1].Pos != (Pos{"content/units/a.md", 7, 14}) {
		t.Errorf("got %+v", got)
	}
}

// A waiver is a list item with three keys; what does not read is told with its place.
func TestWaivers(t *testing.T) {
	u, problems := ReadUnit("a.md", []byte("---\nwaive:\n  - rule: relabel-due\n    reason: on its way\n    until: 2026-12-15\n---\n"))
	if len(problems) > 0 || len(u.Waive) != 1 || u.Waive[0].Until.Value != (Day{2026, 12, 15}) || u.Waive[0].Rule.Pos != (Pos{"a.md", 3, 11}) {
		t.Errorf("got %+v, %v", u.Waive, problems)
	}
	for _, bad := range []string{"waive: relabel-due", "waive:\n  - relabel-due", "waive:\n  - rule: a\n    until: soon"} {
		if _, problems := ReadUnit("a.md", []byte("---\n"+bad+"\n---\n")); len(problems) != 1 || problems[0].Rule != ValueUnreadable {
			t.Errorf("%q gives %v", bad, problems)
		}
	}
}
