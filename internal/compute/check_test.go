package compute

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// The numbers in the names of cases are those of the project's fact sheet of the
// regulations; next to each is the clause it restates.

func ft(v float64) measure.Inches { return measure.Feet(v).Inches() }

// 49 CFR 571.108 Table I-b and S8.2 (2015 annual edition).
func TestLamps(t *testing.T) {
	for _, c := range []struct {
		name          string
		width, length measure.Inches
		gvwr          measure.Pounds
		want          LampSchedule
	}{
		{"3.1: 76 in, 18 ft: no clearance or identification", 76, ft(18), 7000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Reflectors: 6}},
		{"just under 80 in", 79.9, ft(24), 9990,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Reflectors: 6}},
		{"3.2: 80.0 in is inclusive", 80, ft(24), 9990,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 6}},
		{"just under 30 ft", 102, ft(30) - 0.25, 14000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 6,
				Tape: true, TapeSide: ft(15) - 0.125}},
		{"3.3: 30.0 ft is inclusive (571.108; 393.11 says more than), and tape", 102, ft(30), 14000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 8,
				Tape: true, TapeSide: ft(15)}},
		{"3.4: 10,000 lb itself has no tape", 102, ft(40), 10000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 8}},
		{"nor has 4,536 kg, which 393.11(b) asks to be passed", 102, ft(40), measure.FromKilograms(4536),
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 8}},
		{"10,001 lb has", 102, ft(40), 10001,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 8,
				Tape: true, TapeSide: ft(20)}},
		{"narrow trailers have no tape whatever they weigh", 79.9, ft(40), 14000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, Reflectors: 8}},
		{"3.5: 48 ft with its 8 ft neck: 24 ft a side (NHTSA aiam5198)", 102, ft(48), 20000,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Intermediate: 2, FrontClearance: 2, RearClearance: 2, Identification: 3, Reflectors: 8,
				Tape: true, TapeSide: ft(24)}},
		{"3.6: 5.5 ft with its tongue: no front side markers", 48, ft(5.5), 1500,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, RearSide: 2, Reflectors: 4}},
		{"6 ft itself has them", 48, ft(6), 1500,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Reflectors: 6}},
		{"under 30 in wide one does where two are asked", 29.9, ft(8), 1500,
			LampSchedule{Tail: 1, Stop: 1, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Reflectors: 5}},
		{"30 in itself takes two", 30, ft(8), 1500,
			LampSchedule{Tail: 2, Stop: 2, Turn: 2, Plate: 1, FrontSide: 2, RearSide: 2, Reflectors: 6}},
	} {
		c.want.Known = true
		if got := Lamps(c.width, c.length, c.gvwr); got != c.want {
			t.Errorf("%s:\ngot  %+v\nwant %+v", c.name, got, c.want)
		}
	}
}

// 49 CFR 571.110 S10.1: more than the lesser of 1.5% of GVWR and 100 lb.
func TestRelabel(t *testing.T) {
	for _, c := range []struct {
		name        string
		gvwr, added measure.Pounds
		due         bool
	}{
		{"2.5: 75 lb on 5,000 lb is just 1.5%", 5000, 75, false},
		{"2.5: 76 lb is more", 5000, 76, true},
		{"2.6: 100 lb on 7,000 lb, where 1.5% is 105", 7000, 100, false},
		{"2.6: 101 lb is more", 7000, 101, true},
		{"10,000 lb is still a light trailer", 10000, 101, true},
		{"and so is 4,536 kg, as S3 prints it", measure.FromKilograms(4536), 101, true},
		{"4,537 kg is not", measure.FromKilograms(4537), 101, false},
		{"2.7: 14,000 lb and no RV: no federal duty (571.120 S10.5.1)", 14000, 400, false},
	} {
		limit, has := RelabelAt(c.gvwr)
		if due := has && c.added > limit; due != c.due {
			t.Errorf("%s: due %v (limit %s, %v)", c.name, due, limit, has)
		}
	}
}

// 49 CFR 571.110 S4.3.5, and 1 kg = 2.20462 lb as the examples of S4.3.3 convert.
func TestPlacard(t *testing.T) {
	for _, c := range []struct {
		limit measure.Pounds
		kg    int
		lb    measure.Pounds
	}{
		{4987, 2262, 4987}, // 2.8: back to 4,987
		{1003, 454, 1001},  // 2.9, the trap: 455 kg would be 1,003.1 lb
		{0, 0, 0},
		{-50, 0, 0},
	} {
		if kg, lb := Placard(c.limit); kg != c.kg || lb != c.lb {
			t.Errorf("%s: %d kg or %s, want %d kg or %s", c.limit, kg, lb, c.kg, c.lb)
		}
	}
	// Neither number may pass the limit, whatever it is: the exact pound is 0.45359237 kg
	// (NIST SP 811).
	for lb := measure.Pounds(1); lb <= 10000; lb++ {
		kg, printed := Placard(lb)
		if float64(kg) > float64(lb)*0.45359237 || printed > lb {
			t.Fatalf("%s prints %d kg or %s", lb, kg, printed)
		}
		if float64(kg)+1 <= float64(lb)*0.45359237-1e-6 {
			t.Fatalf("%s prints %d kg, a whole kilogram too little", lb, kg)
		}
	}
	// 2.11: the truck example printed in S4.3.3 converts by the same factor.
	for kg, lb := range map[float64]measure.Pounds{2441: 5381, 1299: 2864} {
		if got := measure.Nearest(measure.FromKilograms(kg), 1); got != lb {
			t.Errorf("%v kg is %s, the standard prints %s", kg, got, lb)
		}
	}
}

// 26 USC 4051; 26 CFR 145.4051-1(e)(3).
func TestExcise(t *testing.T) {
	for _, c := range []struct{ name, price, highest, day, want string }{
		{"6.10: 12% of $48,000", "$48,000", "30,000 lb", "2026-11-20", "$5,760"},
		{"6.11: 26,000 lb itself is free", "$48,000", "26,000 lb", "2026-11-20", "$0"},
		{"6.11: 26,001 lb is not", "$48,000", "26,001 lb", "2026-11-20", "$5,760"},
		{"6.12: advertised 26,500 lb", "$40,000", "26,500 lb", "2026-11-20", "$4,800"},
		{"6.15: the last taxed day", "$48,000", "30,000 lb", "2028-09-30", "$5,760"},
		{"6.15: the first free day", "$48,000", "30,000 lb", "2028-10-01", "none"},
		{"nobody says on which day", "$48,000", "30,000 lb", "", "none"},
	} {
		u, problems := unit.ReadUnit("content/units/x.md", []byte("---\ncondition: new\nprice: "+c.price+"\nweights:\n  gvwr: "+c.highest+"\n---\n"))
		if len(problems) > 0 {
			t.Fatalf("%+v", problems)
		}
		s := SettingsOf(&unit.Yard{})
		if c.day != "" {
			day, err := unit.ParseDay(c.day)
			if err != nil {
				t.Fatal(err)
			}
			s.AsOf = day
		}
		got := "none"
		if f := Unit(u, s).Figure("excise"); f != nil {
			got = f.Text
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// trailerFor is a unit read from front matter, worked with the default settings.
func trailerFor(t *testing.T, front, body string) *Work {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/x.md", []byte("---\n"+front+"---\n\n"+body))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	y, _ := unit.ReadYard("content/yard.md", []byte("---\nname: x\nas-of: 2026-11-20\n---\n"))
	return Unit(u, SettingsOf(y))
}

const heavy = `title: 102 in gooseneck
stock: X-1
kind: deck-over
condition: new
price: $40,000
hitch:
  kind: gooseneck
  ball: 2-5/16 in
deck:
  length: 28 ft
  width: 102 in
  height: 35 in
  front: 7 ft 6 in
  tail: 8 ft
  tail-kind: hydraulic dovetail
axles:
  count: 2
  rating: 12,000 lb
  center: 25 ft 6 in
  suspension: leaf spring
tires:
  size: ST235/80R16
  load-range: E
  per-axle: 4
  sidewall: {single: "3,520 lb", dual: "3,080 lb"}
frame:
  beam: W10x22
  crossmember: C3x4.1
  crossmember-spacing: 18 in
  floor: treated pine 2x6
weights:
  gvwr: 25,900 lb (tag)
  empty: 7,500 lb
`

// 6.12 from a whole unit: label 25,900 lb, the listing's own words say 26,500 lb GVWR.
func TestListingMakesTheTax(t *testing.T) {
	w := trailerFor(t, heavy, "Rated 26,500 lb GVWR.\n")
	if f := w.Figure("excise"); f == nil || f.Text != "$4,800" {
		t.Errorf("the listing says 26,500 lb: %+v", f)
	}
	if w.Excise.ByLabel || w.Excise.Highest().By != "in the text" || w.Excise.Highest().At.Line == 0 {
		t.Errorf("the text makes it: %+v", w.Excise)
	}
	if f := trailerFor(t, heavy, "Rated 25,900 lb GVWR.\n").Figure("excise"); f == nil || f.Value != 0 {
		t.Errorf("no rating is over: %+v", f)
	}
	if f := trailerFor(t, heavy+"claimed:\n  gvwr: 26,001 lb\n", "").Figure("excise"); f == nil || f.Text != "$4,800" {
		t.Errorf("the maker's sheet says 26,001 lb: %+v", f)
	}
	if f := trailerFor(t, strings.Replace(heavy, "condition: new", "condition: used", 1), "26,500 lb GVWR\n").Figure("excise"); f != nil {
		t.Errorf("only the first retail sale is taxed: %+v", f)
	}
}

// 49 CFR 393.110(b), (c).
func TestTieDownsByLength(t *testing.T) {
	for _, c := range []struct {
		name    string
		length  measure.Inches
		weight  measure.Pounds
		blocked bool
		want    int
	}{
		{"4.7", ft(5), 1100, false, 1},
		{"4.8", ft(5), 1101, false, 2},
		{"4.9", measure.Inches(5.1 * 12), 300, false, 2},
		{"4.9", ft(10), 300, false, 2},
		{"4.10", measure.Inches(10.1 * 12), 5000, false, 3},
		{"4.10", ft(20), 5000, false, 3},
		{"4.10", measure.Inches(20.1 * 12), 5000, false, 4},
		{"4.10", ft(30), 5000, false, 4},
		{"4.11", ft(20), 5000, true, 2},
		{"4.11", measure.Inches(20.1 * 12), 5000, true, 3},
		{"blocked and short", ft(4), 500, true, 1},
		{"4.12: the published case counts 3 by its 18 ft", ft(18), 40200, false, 3},
		{"4.17: a Canadian handbook's 3.65 m and 600 kg take 3 (by meters; the feet agree)", measure.FromMillimeters(3650), measure.FromKilograms(600), false, 3},
	} {
		if got := LeastByLength(c.length, c.weight, c.blocked); got != c.want {
			t.Errorf("%s: %s, %s, blocked %v: %d, want %d", c.name, c.length, c.weight, c.blocked, got, c.want)
		}
	}
	// 4.12, Water Well Journal, June 2015, p. 30: 40,200 lb under straps of 5,000 lb over
	// the top asks for 20,100 lb, and so for five.
	if got := HalfOf(40200); got != 20100 {
		t.Errorf("half of 40,200 lb is %s", got)
	}
}

// The heap is a hipped roof of slope 1:2; its volume is held against a sum over a grid
// of the height above the floor, which is half the distance to the nearest edge.
func TestHeap(t *testing.T) {
	for _, c := range []struct{ l, w float64 }{{168, 83}, {96, 60}, {60, 60}, {60, 96}} {
		const n = 600
		sum := 0.0
		for i := range n {
			for j := range n {
				x, y := (float64(i)+0.5)*c.l/n, (float64(j)+0.5)*c.w/n
				sum += min(x, c.l-x, y, c.w-y) / 2
			}
		}
		want := sum * (c.l / n) * (c.w / n) / 46656
		got := float64(measure.HeapedOn(measure.Inches(c.l), measure.Inches(c.w)))
		if math.Abs(got-want) > 0.001*want {
			t.Errorf("%v x %v in: %v cu yd, by summing %v", c.l, c.w, got, want)
		}
	}
}

const dump = `title: dump
stock: X-2
kind: dump
condition: new
hitch: {kind: bumper-pull}
bed: {length: 9 ft, width: 72 in, height: 12 in, front: 4 ft}
axles: {count: 2, rating: "7,000 lb", center: 10 ft}
tires: {size: ST235/80R16, load-range: E, per-axle: 2}
weights: {gvwr: "12,000 lb", empty: "4,000 lb"}
`

// 9 x 6 x 1 ft is 2 cu yd exactly; loose gravel is 2,600 lb/cu yd (CalRecycle), so struck
// it is 5,200 lb. The heap is W W (3 L - W) / 24 = 36 x 21 / 24 = 31.5 cu ft.
func TestHeaps(t *testing.T) {
	w := trailerFor(t, dump, "")
	if f := w.Figure("struck-volume"); f == nil || f.Value != 2 {
		t.Fatalf("struck: %+v", f)
	}
	if f := w.Figure("heaped-volume"); f == nil || math.Abs(f.Value-(2+31.5/27)) > 1e-12 {
		t.Fatalf("heaped: %+v", f)
	}
	for _, h := range w.Heaps {
		// Wet it is 3,120 lb/cu yd, and 6,240 lb struck.
		if h.Material == "gravel or crushed stone, loose wet" && (h.Struck != 6240 || !h.FitsStruck || h.FitsHeaped) {
			t.Errorf("wet gravel: %+v", h)
		}
		if h.Material != "gravel or crushed stone, loose dry" {
			continue
		}
		if h.Struck != 5200 || !h.FitsStruck || h.FitsHeaped || math.Abs(float64(h.Fits)-8000.0/2600) > 1e-12 {
			t.Errorf("gravel: %+v", h)
		}
		return
	}
	t.Error("gravel is not among the heaps")
}

// The parts of the heavy trailer by hand: 2 x 35.5 ft x 22 lb/ft; 19 crossmembers (336 in /
// 18 in = 18.67, and one) of 8.5 ft x 4.1 lb/ft; 238 sq ft of 1-1/2 in pine at 38 to 42
// lb/cu ft; the rest are rows of the component table.
func TestEstimate(t *testing.T) {
	w := trailerFor(t, heavy, "")
	by := map[string]Part{}
	for _, p := range w.Parts {
		by[p.Name] = p
	}
	for _, c := range []struct {
		name          string
		low, high, at float64
	}{
		{"2 main beams W10x22", 1562, 1562, 213},
		{"19 crossmembers C3x4.1", 662.15, 662.15, 258},
		{"floor of treated pine 2x6", 1130.5, 1249.5, 258},
		{"2 x axle complete 12,000-15,000 lb", 1400, 1900, 306},
		{"leaf springs of 2 axles", 180, 250, 306},
		{"8 x tire and wheel ST235/80R16", 544, 656, 306},
		{"gooseneck coupler 20-30k", 50, 90, 0},
		{"battery and hydraulic pump unit", 90, 140, 90},
	} {
		p, ok := by[c.name]
		if !ok || math.Abs(float64(p.Low)-c.low) > 0.01 || math.Abs(float64(p.High)-c.high) > 0.01 || float64(p.At) != c.at {
			t.Errorf("%s: %+v, want %v to %v at %v in", c.name, p, c.low, c.high, c.at)
		}
	}
	if len(w.Parts) != 8 {
		t.Errorf("%d parts, want 8", len(w.Parts))
	}
	// Sums by hand: 5,618.65 to 6,509.65; the middle 6,064.15, and 15% more.
	if got := float64(w.EstimatedEmpty.Value); math.Abs(got-6064.15*1.15) > 0.01 {
		t.Errorf("estimated empty is %v, by hand %v", got, 6064.15*1.15)
	}
	if r := w.EstimatedRange; math.Abs(float64(r[0])-5618.65) > 0.01 || math.Abs(float64(r[1])-6509.65*1.3) > 0.01 {
		t.Errorf("the range is %v", r)
	}
	// Moments about the ball by hand, in lb-in.
	moment := 1562*213.0 + 662.15*258 + 1190*258 + 1650*306 + 215*306 + 600*306 + 0 + 115*90
	x := moment / 6064.15
	if got := float64(w.EstimatedCenter.Value); math.Abs(got-x) > 1e-6 {
		t.Errorf("the center is %v in, by hand %v", got, x)
	}
	// T0 = E (1 - x / A), to the nearest ten.
	t0 := math.Round(7500*(1-x/306)/10) * 10
	if got := float64(w.EstimatedTongue.Value); got != t0 {
		t.Errorf("T0 is %v, by hand %v", got, t0)
	}
	// Everything that rests on it is about, and says why.
	for _, name := range []string{"empty-axle-load", "empty-tongue-share", "empty-center", "tongue-at-gvwr", "tongue-share",
		"axle-load-at-gvwr", "even-load-payload", "tongue-at-payload", "tongue-share-at-payload", "axles-at-payload"} {
		f := w.Figure(name)
		if f == nil || !f.About || !f.Estimated || !strings.Contains(f.Working(), "estimated from the parts") || !strings.HasPrefix(f.Text, "about ") {
			t.Errorf("%s does not say that it is estimated: %+v", name, f)
		}
	}
	// Nothing else is. The payload counts the whole load on the axles, 24,000 lb - 7,500 lb.
	for _, name := range []string{"tag-payload", "payload", "working-payload", "tie-down-need", "tie-down-count"} {
		if f := w.Figure(name); f.About || f.Estimated {
			t.Errorf("%s rests on no estimate and says that it does: %s", name, f.Text)
		}
	}
	if f := w.Figure("payload"); f.Text != "16,500 lb" {
		t.Errorf("payload %s, by hand 16,500 lb", f.Text)
	}
	// Once weighed, the scale governs.
	weighed := trailerFor(t, strings.Replace(heavy, "empty: 7,500 lb", "empty: 7,500 lb\n  tongue-empty: 1,500 lb", 1), "")
	if f := weighed.Figure("tongue-at-gvwr"); f == nil || f.About || f.Estimated || weighed.EstimatedTongue.Known {
		t.Errorf("weighed, and still estimated: %+v", f)
	}
	// A part that the tables do not know leaves the estimate out, with the reason.
	for from, to := range map[string]string{"beam: W10x22": "beam: W10x2200", "floor: treated pine 2x6": "floor: moon cheese", "size: ST235/80R16": "size: 11R22.5"} {
		odd := trailerFor(t, strings.Replace(heavy, from, to, 1), "")
		if odd.Figure("estimated-empty") != nil || odd.EstimatedTongue.Known || odd.Figure("tongue-at-gvwr") != nil {
			t.Errorf("%s: still estimated", to)
		}
	}
}

// Estimates of usual trailers lie within the bands of empty weights that the table has
// for their kinds (graded M: from memory, no source found), so neither is far from the
// other.
func TestEstimatesAgainstBands(t *testing.T) {
	const form = `title: x
stock: X-3
kind: %s
condition: new
hitch: {kind: %s, ball: 2-5/16 in}
deck: {length: %s, width: %s, front: %s}
axles: {count: 2, rating: "%s", center: 14 ft, suspension: leaf spring}
tires: {size: %s, load-range: E, per-axle: %d}
frame: {beam: %s, crossmember: C3x4.1, crossmember-spacing: 16 in, floor: treated pine 2x8}
jack: {count: 1, rating: "12,000 lb"}
weights: {gvwr: "14,000 lb", empty: "4,000 lb"}
`
	for _, c := range []struct {
		kind, size string // the band's row
		front      string
	}{
		{"equipment, bumper 14k", "18-20", fmt.Sprintf(form, "equipment", "bumper-pull", "20 ft", "82 in", "5 ft", "7,000 lb", "ST235/80R16", 2, "C8x11.5") + "ramps: {kind: stand-up, length: 5 ft}\n"},
		{"gooseneck flatbed, 2 x 10k dual", "25-30", fmt.Sprintf(form, "flatbed", "gooseneck", "28 ft", "102 in", "7 ft", "10,000 lb", "ST235/80R16", 4, "W12x22")},
		{"gooseneck flatbed, 2 x 7k", "20-25", fmt.Sprintf(form, "flatbed", "gooseneck", "22 ft", "102 in", "7 ft", "7,000 lb", "ST235/80R16", 2, "W10x19")},
	} {
		front := c.front
		if strings.Contains(front, `rating: "10,000 lb"`) {
			front = strings.Replace(front, `gvwr: "14,000 lb"`, `gvwr: "20,000 lb"`, 1)
		}
		w := trailerFor(t, front, "")
		band, row, ok := w.UsualEmpty()
		if v := w.EstimatedEmpty; !ok || row.Kind != c.kind || row.Size != c.size || !v.Known || !band.Holds(v.Value) {
			t.Errorf("%s %s: estimated %s, the band of %s %s is %s to %s", c.kind, c.size, v.Value.Near(), row.Kind, row.Size, band.Low, band.High)
		}
	}
}

// The least that the running gear weighs, summed by hand from the parts table: two axles of
// 220 lb, springs of 180 lb, four tires with wheels of 68 lb; one axle without brakes of 70 lb
// with half of the springs' 110 lb and two tires of 45 lb.
func TestRunningGear(t *testing.T) {
	for _, c := range []struct {
		text string
		want measure.Pounds
	}{
		{`axles: {count: 2, rating: "7,000 lb", suspension: leaf spring}` + "\n" + `tires: {size: ST235/80R16, per-axle: 2}`, 2*220 + 180 + 4*68},
		{`axles: {count: 1, rating: "3,500 lb", suspension: leaf spring}` + "\n" + `tires: {size: ST205/75R15, per-axle: 2}` + "\nbrakes: {kind: none}", 70 + 55 + 2*45},
		{`axles: {count: 2, rating: "7,000 lb", suspension: torsion}` + "\n" + `tires: {size: ST235/80R16, per-axle: 2}`, 2*220 + 4*68},
		// A tire that the table does not know leaves the axles.
		{`axles: {count: 2, rating: "7,000 lb"}` + "\n" + `tires: {size: 11R22.5, per-axle: 2}`, 2 * 220},
		{`axles: {count: 2, rating: "7,000 lb"}` + "\n" + `tires: {per-axle: 2}`, 2 * 220},
		{`axles: {count: 2, rating: "7,000 lb"}`, 0},
		{`axles: {count: 2}` + "\n" + `tires: {size: ST235/80R16, per-axle: 2}`, 0},
		{`axles: {rating: "7,000 lb"}` + "\n" + `tires: {size: ST235/80R16, per-axle: 2}`, 0},
		{`axles: {count: 90000, rating: "7,000 lb"}` + "\n" + `tires: {size: ST235/80R16, per-axle: 2}`, 0},
	} {
		if got, ok := trailerFor(t, c.text+"\n", "").RunningGear(); got != c.want || ok != (c.want > 0) {
			t.Errorf("%s: %v %v, want %v", c.text, got, ok, c.want)
		}
	}
}

// Axle maker's owner manual, p. 16, as the table of wheel torques cites it: the same 5/8
// in stud takes 190 to 210 lb-ft with a cone nut and 275 to 325 with a flange nut.
func TestTorque(t *testing.T) {
	for _, c := range []struct {
		stud      string
		rim       measure.Inches
		dual      bool
		low, high float64 // 0 for none
	}{
		{"1/2-20", 13, false, 50, 60},
		{"1/2-20 cone", 15, false, 90, 120},
		{"1/2-20", 15, false, 90, 120},
		{"9/16-18 cone", 16, false, 120, 130},
		{"5/8-18 cone", 16, true, 190, 210},
		{"5/8-18 flange", 17.5, false, 275, 325},
		{" 5/8-18   cone ", 16, true, 190, 210},
		{"5/8-18", 17.5, false, 0, 0},
		{"5/8-18 cone", 16, false, 0, 0},
		{"M22x1.5", 22.5, true, 450, 500},
		{"7/8-14", 16, false, 0, 0},
		{"big ones", 16, false, 0, 0},
	} {
		row, err := torqueFor(c.stud, c.rim, c.dual)
		if (err == nil) != (c.low > 0) || float64(row.Final.Low) != c.low || float64(row.Final.High) != c.high {
			t.Errorf("%s on %v: %v to %v, %v; want %v to %v", c.stud, c.rim, row.Final.Low, row.Final.High, err, c.low, c.high)
		}
	}
}

// UN R30: L is 120 km/h, J is 100 km/h; ISO 4000-1: load index 135 is 2,180 kg. Common
// practice, no source: electric drum brakes are quoted at about 300 ft from 60 mph where
// electric-over-hydraulic stops in about 200; by v v / 2 d that is 0.4 g against 0.6 g.
func TestServiceAndStopping(t *testing.T) {
	w := trailerFor(t, strings.Replace(strings.Replace(heavy, "tires:\n", "tires:\n  service: 135/133J\n  stud: 5/8-18 flange\n  made: week 47 2024\n", 1),
		"frame:", "brakes:\n  kind: electric-over-hydraulic\n  stopping: 200 ft at 60 mph\nframe:", 1), "")
	for name, want := range map[string]string{
		"tire-speed":        "62 mph",
		"mean-deceleration": "19.4 ft/s2",
		"stopping-at-45":    "113 ft", // 200 x 0.5625 = 112.5
		"stopping-at-70":    "273 ft", // 200 x 1.3611 = 272.2
		"beam-weight":       "22 lb/ft",
		"tire-age":          "2 years", // the Monday was 2024-11-18: 732 days
	} {
		if f := w.Figure(name); f == nil || f.Text != want {
			t.Errorf("%s is %+v, want %s", name, f, want)
		}
	}
	if f := w.Figure("mean-deceleration"); !strings.Contains(strings.Join(f.Notes(), " "), "comparison only") || !strings.Contains(strings.Join(f.Notes(), " "), "60.2%") {
		t.Errorf("the caution or the share of gravity is missing: %v", f.Notes())
	}
	if f := w.Figure("beam-weight"); !strings.Contains(strings.Join(f.Notes(), " "), "not a structural rating") {
		t.Errorf("beam-weight says nothing of strength: %v", f.Notes())
	}
	// M3x2.9 is the lightest beam in the table: 1.00 cu in, AISC shapes database v16.0.
	light := trailerFor(t, strings.Replace(heavy, "W10x22", "M3x2.9", 1), "")
	if f := light.Figure("beam-weight"); f == nil || f.Text != "2.9 lb/ft" || !strings.Contains(strings.Join(f.Notes(), " "), "section modulus 1 cu in") {
		t.Errorf("the lightest beam of the table is %+v", f)
	}
	// A stud that is in no row has no torque, and no torque is not zero.
	if f := trailerFor(t, strings.Replace(heavy, "tires:\n", "tires:\n  stud: 7/16-20 cone\n", 1), "").Figure("wheel-torque"); f != nil {
		t.Errorf("wheel-torque of a stud that is not listed is %+v", f)
	}
	// A trailer on one axle has no spacing, and its front axle is the axle: 1% of 25,900 lb
	// for each of 25.5 ft.
	single := trailerFor(t, strings.NewReplacer("count: 2", "count: 1", "  spacing: 50 in\n", "").Replace(heavy), "")
	if f := single.Figure("tongue-by-foot"); f == nil || f.Text != "6,605 lb" || !strings.HasSuffix(f.Working(), "the feet being 25 ft 6 in") {
		t.Errorf("tongue-by-foot on one axle is %+v: %+v", f, single.Absent)
	}
	// No modulus of this one was found: it is said, and no zero is printed.
	bare := trailerFor(t, strings.Replace(heavy, "W10x22", "W16x26", 1), "")
	if f := bare.Figure("beam-weight"); f == nil || !strings.Contains(strings.Join(f.Notes(), " "), "the section modulus is not in the table") {
		t.Errorf("a beam without a modulus in the table is %+v", f)
	}
	if f := w.Figure("wheel-torque"); f == nil || f.Text != "275 to 325 lb-ft" || !strings.Contains(strings.Join(f.Notes(), " "), "10, 25 and 50 miles") {
		t.Errorf("wheel-torque of a 5/8 in flange nut on a 16 in dual is %+v", f)
	}
	for _, bad := range []string{"M124", "124/", "fast", ""} {
		if _, err := ParseService(bad); err == nil {
			t.Errorf("%q reads as a service description", bad)
		}
	}
}
