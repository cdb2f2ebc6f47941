package intake

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

func heard(role walkaround.Role, v walkaround.Value, at float64, quote string) walkaround.Candidate {
	return walkaround.Candidate{Role: role, Value: v, Compare: walkaround.Equal, Start: at, Quote: quote}
}

// TestSettle: one value of all that was said for a key. An exact figure takes the place of an
// approximate one that it agrees with (within 2.5%), and what says something else is kept.
func TestSettle(t *testing.T) {
	about := func(c walkaround.Candidate) walkaround.Candidate { c.Compare = walkaround.About; return c }
	gvwr := func(p measure.Pounds, at float64) walkaround.Candidate {
		return heard(walkaround.GVWR, p, at, p.String()+" it says")
	}
	under := gvwr(10000, 1)
	under.Compare = walkaround.Under
	span := gvwr(9000, 1)
	span.High = measure.Pounds(10000)
	guessed := gvwr(9990, 1)
	guessed.UnitInferred = true
	for _, c := range []struct {
		name           string
		said           []walkaround.Candidate
		value, remarks string
		others         string
	}{
		{"once", []walkaround.Candidate{gvwr(9990, 61)}, "9,990 lb (said 1:01)", "", ""},
		{"exact after about", []walkaround.Candidate{about(gvwr(10000, 1)), gvwr(9990, 2)}, "9,990 lb (said 0:02)", "", ""},
		{"about after exact", []walkaround.Candidate{gvwr(9990, 1), about(gvwr(10000, 2))}, "9,990 lb (said 0:01)", "", ""},
		{"exact twice", []walkaround.Candidate{gvwr(9990, 1), gvwr(9990, 2)}, "9,990 lb (said 0:01)", "", ""},
		{"about twice", []walkaround.Candidate{about(gvwr(10000, 1)), about(gvwr(9900, 2))}, "about 10,000 lb (said 0:01)", "", ""},
		{"10,000 is less than 2.5% above 9,757", []walkaround.Candidate{about(gvwr(10000, 1)), gvwr(9757, 2)}, "9,757 lb (said 0:02)", "", ""},
		{"a pound less", []walkaround.Candidate{about(gvwr(10000, 1)), gvwr(9756, 2)}, "about 10,000 lb (said 0:01)", "", "9,756 lb 2"},
		{"two exact ones differ", []walkaround.Candidate{gvwr(9990, 1), gvwr(9900, 2), gvwr(9900, 3)}, "9,990 lb (said 0:01)", "", "9,900 lb 2"},
		{"three differ", []walkaround.Candidate{gvwr(9990, 1), gvwr(9900, 2), gvwr(7000, 3)}, "9,990 lb (said 0:01)", "", "9,900 lb 2, 7,000 lb 3"},
		{"under", []walkaround.Candidate{under}, "about 10,000 lb (said 0:01)", "said as under", ""},
		{"a range", []walkaround.Candidate{span}, "9,000 lb (said 0:01)", "a range, 9,000 lb to 10,000 lb", ""},
		{"no unit", []walkaround.Candidate{guessed}, "9,990 lb (said 0:01)", "the unit was not said", ""},
	} {
		got := settle("weights.gvwr", c.said)
		var others []string
		for _, o := range got.Others {
			others = append(others, strings.TrimSpace(o.Value+" "+measure.Count(o.At)))
		}
		if got.Value != c.value || strings.Join(got.Remarks, "; ") != c.remarks || strings.Join(others, ", ") != c.others {
			t.Errorf("%s: %q, remarks %q, others %q", c.name, got.Value, got.Remarks, others)
		}
	}
	if !same(heard("", measure.PSI(80), 0, ""), heard("", measure.PSI(80), 0, "")) || same(heard("", measure.PSI(80), 0, ""), heard("", measure.Inches(80), 0, "")) ||
		same(heard("", measure.Inches(80), 0, ""), heard("", measure.Inches(81), 0, "")) || !same(heard("", measure.Dollars(9), 0, ""), heard("", measure.Dollars(9), 0, "")) {
		t.Error("a pressure is not a length, and 80 in are not 81 in")
	}
}

// TestSettleManyValues settles 60,000 values of one key. When each was compared with all others, it took
// minutes.
func TestSettleManyValues(t *testing.T) {
	said := make([]walkaround.Candidate, 60_000)
	for i := range said {
		said[i] = heard(walkaround.GVWR, measure.Pounds(7000+i/2), 1, "")
	}
	began := time.Now()
	got := settle("weights.gvwr", said)
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("60,000 values of one key took %v; want at most a moment", took)
	}
	if len(got.Others) != 29_999 {
		t.Errorf("%d others, want 29,999", len(got.Others))
	}
}

// TestTies: tie-downs are a number and, where it was said, what each is rated. A rating without a
// number makes no entry.
func TestTies(t *testing.T) {
	said := func(list ...walkaround.Candidate) *Talk {
		by := map[string][]walkaround.Candidate{}
		for _, c := range list {
			by[string(c.Role)] = append(by[string(c.Role)], c)
		}
		talk := &Talk{}
		talk.ties(by)
		return talk
	}
	rings := heard(walkaround.DRings, walkaround.Count(8), 70, "eight d-rings")
	rating := heard(walkaround.DRingRating, measure.Pounds(5000), 72, "five thousand each")
	another := heard(walkaround.DRingRating, measure.Pounds(6000), 80, "or six")
	pockets := heard(walkaround.StakePockets, walkaround.Count(22), 90, "22 pockets")

	talk := said(rings, rating, another, pockets)
	if len(talk.Taken) != 2 || len(talk.Unclear) != 0 {
		t.Fatalf("%+v", talk)
	}
	for _, v := range talk.Taken {
		switch v.Path {
		case "tie-downs.d-rings":
			if v.Value != "8 at 5,000 lb (said 1:12)" || !slices.Contains(v.Remarks, `"five thousand each"`) || len(v.Others) != 1 || v.Others[0].Value != "6,000 lb" {
				t.Errorf("%+v", v)
			}
		case "tie-downs.stake-pockets":
			if v.Value != "22 (said 1:30)" || v.Remarks != nil {
				t.Errorf("%+v", v)
			}
		}
	}
	if talk := said(rating); len(talk.Taken) != 0 || len(talk.Unclear) != 1 || talk.Unclear[0].Role != "" || !strings.Contains(talk.Unclear[0].Doubt, "number was not said") {
		t.Errorf("a rating alone: %+v", talk)
	}
	w := &writer{}
	w.ties(append(said(rings, rating, another, pockets).Taken, Taken{Path: "color", Value: "plum"}))
	got := w.b.String()
	for _, want := range []string{"tie-downs:\n  - stake pockets: 22 (said 1:30)  # \"22 pockets\"\n", "  - d-rings: 8 at 5,000 lb (said 1:12)  # \"eight d-rings\"; \"five thousand each\"\n",
		"  #   but 1:20 says 6,000 lb: \"or six\"\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("it lacks %q:\n%s", want, got)
		}
	}
	if strings.Count(got, "tie-downs:") != 1 || strings.Contains(got, "plum") {
		t.Errorf("%s", got)
	}
}

// TestChoose: a word that the key does not know is written as the key has it, or goes to what is
// unclear.
func TestChoose(t *testing.T) {
	key := unit.KeyDoc{Path: "axles.suspension", Kind: "choice", Choices: []string{"leaf spring", "rubber-torsion", "air"}}
	word := func(w string, at float64) walkaround.Candidate {
		return heard("axles.suspension", walkaround.Word(w), at, w)
	}
	talk := &Talk{}
	v, ok := talk.choose(key, []walkaround.Candidate{word("jelly", 1), word("slipper spring", 2), word("leaf spring", 3), word("rubber torsion", 4), word("rubber torsion", 5), word("air", 6)})
	if !ok || v.Value != "leaf spring" || v.At != 2 || len(v.Others) != 2 || v.Others[0].Value != "rubber-torsion" || v.Others[0].At != 4 || v.Others[1].Value != "air" {
		t.Errorf("%v %+v", ok, v)
	}
	if len(talk.Unclear) != 1 || talk.Unclear[0].Role != "" || talk.Unclear[0].Doubt != "axles.suspension is one of leaf spring, rubber-torsion, air" || len(talk.heard) != 5 {
		t.Errorf("%+v, %d heard", talk.Unclear, len(talk.heard))
	}
	if _, ok := (&Talk{}).choose(key, []walkaround.Candidate{word("jelly", 1)}); ok {
		t.Error("a word that is not a choice was chosen")
	}
}

// TestComments: the comment after a value stays on its line, and there is an end to the others.
func TestComments(t *testing.T) {
	long := strings.Repeat("a", 160)
	for s, want := range map[string]string{long: `"` + long + `"`, long + "b": `"` + long + `..."`, "say \"x\"\nand y": `"say \"x\" and y"`} {
		if got := quoted(s); got != want {
			t.Errorf("%q is quoted %s", s, got)
		}
	}
	if got := words(Taken{Value: "plum", At: 65, Quote: "plum", Remarks: []string{"one", "two"}}); got != `said 1:05: "plum"; one; two` {
		t.Error(got)
	}
	for n, want := range map[int]string{5: "", 6: "#   and 1 more\n", 8: "#   and 3 more\n"} {
		w := &writer{}
		w.others(0, Taken{Others: make([]Other, n)})
		if lines := strings.SplitAfter(w.b.String(), "\n"); lines[min(5, len(lines)-1)] != want || strings.Count(w.b.String(), "but ") != 5 {
			t.Errorf("%d others:\n%s", n, w.b.String())
		}
	}
}
