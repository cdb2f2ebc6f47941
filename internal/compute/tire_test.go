package compute_test

import (
	"math"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

func tires(t *testing.T, text string) *compute.Work {
	t.Helper()
	return work(t, "tires: {"+text+"}\naxles: {count: 2, rating: \"3,500 lb\"}")
}

// 49 CFR 571.110 S4.2.2.1 and S4.2.2.2, 571.120 S5.1.2: what the tires of one axle
// carry together, duals at the dual rating, a passenger tire divided by 1.10 first.
func TestTireCapacity(t *testing.T) {
	for _, c := range []struct {
		name, text    string
		gawr          float64
		capacity      float64
		passes, known bool
	}{
		{"two ST tires of 1,760 lb", `size: ST205/75R14, load-range: C, per-axle: 2, sidewall: {single: "1,760 lb"}`, 3500, 3520, true, true},
		{"two passenger tires of 1,900 lb", `size: P205/75R15, per-axle: 2, sidewall: {single: "1,900 lb"}`, 3500, 2 * 1900 / 1.1, false, true},
		{"two passenger tires of 1,925 lb", `size: P205/75R15, per-axle: 2, sidewall: {single: "1,925 lb"}`, 3500, 3500, true, true},
		{"a metric tire without a prefix is a passenger one", `size: 205/75R15, per-axle: 2, sidewall: {single: "1,925 lb"}`, 3500, 3500, true, true},
		{"four duals of 3,042 lb", `size: LT235/85R16, load-range: E, per-axle: 4, sidewall: {single: "3,500 lb", dual: "3,042 lb"}`, 12000, 12168, true, true},
		{"the wheel is the weaker", `size: ST235/80R16, load-range: E, per-axle: 4, sidewall: {dual: "3,080 lb"}, wheel: "2,910 lb"`, 12000, 11640, false, true},
		{"the wheel is the stronger", `size: ST235/80R16, load-range: E, per-axle: 4, sidewall: {dual: "3,080 lb"}, wheel: "3,750 lb"`, 12000, 12320, true, true},
		// Published tables, see internal/tables: the lower of two ratings counts until the
		// sidewall is read (3,420 and 3,520 lb; dual 3,000 and 3,080).
		{"two ratings in the table", `size: ST235/80R16, load-range: E, per-axle: 2, pressure: 80 psi`, 6800, 6840, true, true},
		{"two dual ratings in the table", `size: ST235/80R16, load-range: E, per-axle: 4, pressure: 80 psi`, 12000, 12000, true, true},
		{"the sidewall above the table governs", `size: ST235/80R16, load-range: E, per-axle: 2, pressure: 80 psi, sidewall: {single: "3,520 lb"}`, 7000, 7040, true, true},
		{"the sidewall below the table governs", `size: ST235/80R16, load-range: E, per-axle: 2, pressure: 80 psi, sidewall: {single: "3,000 lb"}`, 7000, 6000, false, true},
		{"the table's dual does not hold for a weaker tire", `size: ST235/80R16, load-range: E, per-axle: 4, pressure: 80 psi, sidewall: {single: "3,000 lb"}`, 0, 0, false, false},
		{"no dual in the table", `size: ST235/80R16, load-range: D, per-axle: 4`, 0, 0, false, false},
		{"a pressure of zero is none", `size: ST235/80R16, load-range: E, per-axle: 2, pressure: 0 psi, sidewall: {single: "3,520 lb", pressure: 80 psi}`, 7000, 7040, true, true},
		// 3,520 x (1 / 80)^0.585 = 271.1 lb, down to the pound.
		{"a pressure of 1 psi is one", `size: ST235/80R16, load-range: E, per-axle: 2, pressure: 1 psi, sidewall: {single: "3,520 lb", pressure: 80 psi}`, 7000, 542, false, true},
		{"size not listed", `size: ST225/75R16, load-range: E, per-axle: 2`, 0, 0, false, false},
		{"size does not read", `size: round, load-range: E, per-axle: 2`, 0, 0, false, false},
		{"no load range", `size: ST235/80R16, per-axle: 2`, 0, 0, false, false},
		{"not counted", `size: ST235/80R16, load-range: E`, 0, 0, false, false},
	} {
		w := tires(t, c.text)
		if w.Tire.Known != c.known || (w.Tire.Lack == "") != c.known {
			t.Errorf("%s: known %v, lack %q", c.name, w.Tire.Known, w.Tire.Lack)
			continue
		}
		f := w.Figure("tire-capacity")
		if !c.known {
			if f != nil {
				t.Errorf("%s: %v", c.name, f.Value)
			}
			continue
		}
		if !near(f.Value, c.capacity, 1e-9) {
			t.Errorf("%s: %v, want %v", c.name, f.Value, c.capacity)
		}
		// No tolerance: NHTSA refused one of 95% (interpretation 77-3.29).
		if passes := f.Value >= c.gawr; passes != c.passes {
			t.Errorf("%s: %v on an axle of %v passes: %v", c.name, f.Value, c.gawr, passes)
		}
	}
}

// What is molded on the fitted tire counts, the lower of pounds and load index; the table
// counts only where neither is given. Load indexes by ISO 4000-1 and UN R54 annex 4:
// 97 730 kg, 101 825 kg, 116 1,250 kg, 120 1,400 kg, 124 1,600 kg, 126 1,700 kg; the pounds
// are kg x 2.20462, rounded, as load index tables print them.
func TestMoldedLoad(t *testing.T) {
	const lb = 2.20462
	rounded := func(kg float64) float64 { return math.Round(kg * lb) }
	for _, c := range []struct {
		name, text string
		each       float64
		index      int
	}{
		// The table gives 4,805 lb and 4,940 lb for this size and load range.
		{"an index far below the table", "size: 215/75R17.5, load-range: H, per-axle: 2, service: 126/124L", rounded(1700), 126},
		{"its pair", "size: 215/75R17.5, load-range: H, per-axle: 4, service: 126/124L", rounded(1600), 124},
		// The table gives 2,150 lb for load range D.
		{"an index of the load range below", "size: ST205/75R15, load-range: D, per-axle: 2, service: 101/97M", rounded(825), 101},
		{"its pair counts after the slash", "size: ST205/75R15, load-range: D, per-axle: 4, service: 101/97M", rounded(730), 97},
		{"an index above the table's lower row", "size: ST235/80R16, load-range: E, per-axle: 2, service: 124/120M", rounded(1600), 124},
		{"without a speed symbol", "size: ST205/75R15, load-range: D, per-axle: 2, service: 101/97", rounded(825), 101},
		{"with a second description for a lower speed", "size: ST205/75R15, load-range: D, per-axle: 2, service: 101/97M 103/99J", rounded(825), 101},
		{"pounds below the index", `size: ST235/80R16, load-range: E, per-axle: 2, service: 124/120M, sidewall: {single: "3,520 lb"}`, 3520, 0},
		{"pounds above the index", `size: ST205/75R15, load-range: C, per-axle: 2, service: 101/97M, sidewall: {single: "1,820 lb"}`, rounded(825), 101},
		{"pounds of the pair above the index", `size: LT235/85R16, load-range: E, per-axle: 4, service: 120/116Q, sidewall: {single: "3,042 lb", dual: "2,778 lb"}`, rounded(1250), 116},
		{"without a load range", "size: ST205/75R15, per-axle: 2, service: 101M", rounded(825), 101},
		{"a passenger tire is divided by 1.10 after that", "size: P205/75R15, per-axle: 2, service: 97S", rounded(730) / 1.1, 97},
		{"an index that is not listed leaves the table", "size: ST205/75R15, load-range: C, per-axle: 2, service: 301M", 1820, 0},
		{"a description that does not read leaves the table", "size: ST205/75R15, load-range: C, per-axle: 2, service: M101", 1820, 0},
	} {
		w := tires(t, c.text)
		if !w.Tire.Known || !near(float64(w.Tire.Each), c.each, 1e-9) || w.Tire.Index != c.index {
			t.Errorf("%s: %v from index %d (%s), want %v from %d", c.name, w.Tire.Each, w.Tire.Index, w.Tire.Lack, c.each, c.index)
		}
	}
	// With one index only, the pair's load comes from the table, as long as the index is the
	// table's: 123 is 1,550 kg, 3,417 lb, and the table's row is 3,420 lb and 3,000 lb.
	if w := tires(t, "size: ST235/80R16, load-range: E, per-axle: 4, service: 123M"); w.Tire.Rating != 3000 {
		t.Errorf("index 123 in a pair: %v, %s", w.Tire.Rating, w.Tire.Lack)
	}
	// 122 is 1,500 kg, 3,307 lb.
	if w := tires(t, "size: ST235/80R16, load-range: E, per-axle: 4, service: 122M"); w.Tire.Known {
		t.Errorf("index 122 in a pair: %v", w.Tire.Rating)
	}
	w := tires(t, `size: ST205/75R15, load-range: C, per-axle: 2, service: 101/97M, sidewall: {single: "1,830 lb"}`)
	if text := strings.Join(w.Figure("tire-capacity").Notes(), "\n"); !strings.Contains(text, "load index 101 molded on the tire: 1,819 lb") ||
		!strings.Contains(text, "the sidewall's 1,830 lb is more than its load index allows") {
		t.Errorf("notes: %s", text)
	}
	found := map[string]bool{}
	for _, in := range w.Figure("tire-capacity").Inputs {
		found[in.Key] = true
	}
	if !found["tires.service"] || !found["tires.sidewall.single"] {
		t.Errorf("inputs: %v", found)
	}
}

// A figure from weak memory is never used, whatever else the row holds.
func TestWeakMemoryIsNeverUsed(t *testing.T) {
	weak := 0
	for _, size := range tables.Sizes() {
		for _, letter := range tables.LoadRanges(size) {
			rows := tables.Tires(size, letter)
			for _, per := range []int{2, 4} {
				lowest := measure.Pounds(0)
				for _, row := range rows {
					load, grade := row.Single, row.SingleGrade
					if per == 4 {
						load, grade = row.Dual, row.DualGrade
					}
					if grade == tables.MemoryWeak {
						weak++
					} else if load > 0 && (lowest == 0 || load < lowest) {
						lowest = load
					}
				}
				if per == 4 && size == "ST235/85R16" && letter == "G" {
					// Sold with two single ratings and one dual: whose dual it is nobody says, so
					// the sidewall is asked for.
					lowest = 0
				}
				u := &unit.Unit{}
				u.Tires.Size, u.Tires.LoadRange, u.Tires.PerAxle = stated(size), stated(letter), stated(per)
				got := compute.Unit(u, settings()).Tire
				if got.Known != (lowest > 0) || got.Rating != lowest || got.Grade == tables.MemoryWeak {
					t.Errorf("%s %s, %d on an axle: rating %v grade %q, want %v", size, letter, per, got.Rating, got.Grade, lowest)
				}
			}
		}
	}
	if weak == 0 {
		t.Error("the table holds no weak memory; the test proves nothing")
	}
	// ST225/75R15 F and ST235/80R16 F are such rows.
	for _, size := range []string{"ST225/75R15", "ST235/80R16"} {
		if w := tires(t, "size: "+size+", load-range: F, per-axle: 2"); w.Tire.Known {
			t.Errorf("%s F is taken as %v", size, w.Tire.Rating)
		}
	}
}

// Below the maximum the load falls with the pressure as the published points do: the
// sourced ones are met within -1.6% and +1.1%, the remembered ones within -0.4% and
// +0.9%, each curve taken from its own highest point (what the tables' maker measured).
func TestPressureAgainstPublishedPoints(t *testing.T) {
	type curve struct {
		size string
		dual bool
	}
	points := map[curve][]tables.LoadPointRow{}
	for _, p := range compute.LoadPoints(t) {
		c := curve{p.Size, p.Dual}
		points[c] = append(points[c], p)
	}
	checked := 0
	for c, ps := range points {
		top := ps[0]
		for _, p := range ps {
			if p.Pressure > top.Pressure {
				top = p
			}
		}
		for _, p := range ps {
			u := &unit.Unit{}
			u.Tires.Size, u.Tires.PerAxle, u.Tires.Pressure = stated(c.size), stated(2), stated(p.Pressure)
			u.Tires.Sidewall.Single, u.Tires.Sidewall.Pressure = stated(top.Load), stated(top.Pressure)
			if c.dual {
				u.Tires.PerAxle, u.Tires.Sidewall.Dual = stated(4), stated(top.Load)
			}
			got := compute.Unit(u, settings()).Tire
			if !got.Known {
				t.Fatalf("%v: %s", c, got.Lack)
			}
			low, high := -0.0165, 0.0115
			if p.Grade == tables.Memory {
				low, high = -0.0045, 0.0095
			}
			// The charts print whole tens, so the worked load is compared at its ten below.
			if off := float64(measure.Down(got.Each, 10))/float64(p.Load) - 1; off < low || off > high {
				t.Errorf("%v at %v: %v, published %v (%s), off by %.2f%%", c, p.Pressure, got.Each, p.Load, p.Grade, 100*off)
			}
			if float64(got.Each) > float64(top.Load) {
				t.Errorf("%v at %v carries more than its rating", c, p.Pressure)
			}
			checked++
		}
	}
	if checked < 50 {
		t.Errorf("only %d points", checked)
	}
}

// A pressure above the maximum adds nothing; one below takes the load down, to the whole
// pound.
func TestPressure(t *testing.T) {
	base := `size: ST235/80R16, load-range: E, per-axle: 2, sidewall: {single: "3,520 lb", pressure: 80 psi}, pressure: `
	for psi, want := range map[string]float64{"80 psi": 3520, "95 psi": 3520, "552 kPa": 3520} {
		if w := tires(t, base+psi); float64(w.Tire.Each) != want {
			t.Errorf("at %s one tire carries %v, want %v", psi, w.Tire.Each, want)
		}
	}
	// 3,520 x (65/80)^0.585: log10(0.8125) = -0.0901766, x 0.585 = -0.0527533, 10^ = 0.885619,
	// 3,117 lb; but the load and pressure table prints 3,000 lb at 65 psi for this size.
	if w := tires(t, base+"65 psi"); w.Tire.Each != 3000 || w.Tire.Full != 7040 || w.Tire.Axle != 6000 {
		t.Errorf("at 65 psi: each %v, axle %v, full %v; want 3,000, 6,000, 7,040", w.Tire.Each, w.Tire.Axle, w.Tire.Full)
	}
	// The same curve where no point is published for the size.
	if w := tires(t, strings.Replace(base, "ST235/80R16", "ST235/85R16", 1)+"65 psi"); w.Tire.Each != 3117 {
		t.Errorf("at 65 psi, no point published: each %v, want 3,117", w.Tire.Each)
	}
	w := tires(t, `size: somewhat round, per-axle: 2, sidewall: {single: "3,000 lb", pressure: 60 psi}, pressure: 30 psi`)
	if w.Tire.Known || w.Tire.Lack == "" {
		t.Errorf("a size that does not read counts as %v a tire; it may be a passenger tire", w.Tire.Each)
	}
	w = tires(t, `size: ST235/80R16, per-axle: 2, sidewall: {single: "3,520 lb"}, pressure: 30 psi`)
	if w.Tire.Each != 3520 || !strings.Contains(strings.Join(w.Tire.Notes, ";"), "own pressure was not written down") {
		t.Errorf("without the sidewall's pressure: %v, notes %v", w.Tire.Each, w.Tire.Notes)
	}
}
