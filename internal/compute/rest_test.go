package compute

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// someOf is a unit of a few lines of front matter, whatever else it lacks.
func someOf(t *testing.T, front string) *Work {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/x.md", []byte("---\nstock: X-1\n"+front+"---\n"))
	for _, p := range problems {
		if p.Rule == "unknown-key" || p.Rule == "value-unreadable" {
			t.Fatalf("%s: %s in\n%s", p.At, p.Message, front)
		}
	}
	return Unit(u, SettingsOf(&unit.Yard{}))
}

// A dump trailer with every measure that its load needs. Its bed reaches from 60 in to 228 in, so
// an even load is at 144 in; its axles are at 153 in.
const wholeDump = `kind: dump
hitch:
  kind: bumper-pull
  rating: 14,000 lb
bed:
  length: 14 ft
  width: 83 in
  height: 24 in
  front: 5 ft
axles:
  count: 2
  rating: 7,000 lb
  center: 12 ft 9 in
tires:
  size: ST235/80R16
  load-range: E
  per-axle: 2
weights:
  gvwr: 14,000 lb
  empty: 4,100 lb
  tongue-empty: 560 lb
`

func with(front string, edits ...string) string {
	for i := 0; i+1 < len(edits); i += 2 {
		front = strings.Replace(front, edits[i], edits[i+1], 1)
	}
	return front
}

// TestLoadThatWouldLift: an even load behind the axles takes weight off the hitch, and the payload
// ends where nothing is left on it.
func TestLoadThatWouldLift(t *testing.T) {
	if w := someOf(t, with(wholeDump, "center: 12 ft 9 in", "center: 11 ft")); w.Payload.Value < 6159.9 || w.Payload.Value > 6160.1 {
		t.Errorf("a payload of %v", w.Payload.Value)
	}
}

// TestBriefHasItsFigures: a brief has the figures that many pages show, as they were, comes back
// from what is kept of it, and does not with a figure of another program.
func TestBriefHasItsFigures(t *testing.T) {
	w := someOf(t, wholeDump)
	b := w.Brief()
	if len(b.Figures) < 4 {
		t.Fatalf("%d figures", len(b.Figures))
	}
	for _, f := range b.Figures {
		whole := w.Figure(f.Name)
		if !slices.Contains(briefFigures[:], f.Name) || whole == nil || f.Text != whole.Text || f.Value != whole.Value || f.Source != whole.Source || w.Metric(whole) != b.Metric(&f) {
			t.Errorf("%s is %q, it was %+v", f.Name, f.Text, whole)
		}
	}
	for _, name := range briefFigures {
		if (w.Figure(name) == nil) != (b.Figure(name) == nil) {
			t.Errorf("%s is in one of the two", name)
		}
	}
	k := b.Keep()
	again := k.Brief(w.Unit, w.Settings)
	if again == nil || !reflect.DeepEqual(again.Figures, b.Figures) || again.Payload != b.Payload || again.OnTruck() != w.OnTruck() {
		t.Errorf("kept %+v, came back %+v", k, again)
	}
	k.Figures[0].Name = "a figure of another program"
	if k.Brief(w.Unit, w.Settings) != nil {
		t.Error("a figure that is not known came back")
	}
	for _, d := range All {
		if definitionOf(d.Name) != d {
			t.Errorf("%s has another definition", d.Name)
		}
	}
}

// TestWhatAPayloadSays next to it, worked by hand: 560 + 9,900 x (1 - 144/153) = 1,142.4 lb on the
// truck, which is 8.16% of 14,000 lb.
func TestWhatAPayloadSays(t *testing.T) {
	for _, c := range []struct{ front, want string }{
		{wholeDump, "spread evenly, 8.2% of the loaded trailer (1,143 lb) is on the truck"},
		{with(wholeDump, "  tongue-empty: 560 lb\n", ""), TongueUnknown},
		{with(wholeDump, "  center: 12 ft 9 in\n", ""), "how much of it is on the truck is not known"},
		// With its axles at 132 in, 560 x 132 / 12 = 6,160 lb leave nothing on the hitch.
		{with(wholeDump, "center: 12 ft 9 in", "center: 11 ft"), "spread evenly, 0% of the loaded trailer (0 lb) is on the truck"},
		{with(wholeDump, "  empty: 4,100 lb\n", ""), ""},
	} {
		if got := someOf(t, c.front).PayloadSays(); got != c.want {
			t.Errorf("%q, want %q in\n%s", got, c.want, c.front)
		}
	}
}

func absentOf(w *Work, name string) *Absence {
	for i := range w.Absent {
		if w.Absent[i].Name == name {
			return &w.Absent[i]
		}
	}
	return nil
}

// TestSkippedAndMissing: a figure of another kind of trailer is not missing; what nobody knows of
// the tires says why the payload is not known; a propane bottle is counted and told.
func TestSkippedAndMissing(t *testing.T) {
	if w := someOf(t, wholeDump); w.Figure("tongue-by-foot") != nil || absentOf(w, "tongue-by-foot") != nil {
		t.Errorf("the seller's rule for goosenecks: %+v", absentOf(w, "tongue-by-foot"))
	}
	if w := someOf(t, with(wholeDump, "bumper-pull", "gooseneck")); w.Figure("tongue-by-foot") == nil && absentOf(w, "tongue-by-foot") == nil {
		t.Error("a gooseneck has no such figure, and nothing is missing for it")
	}
	for _, key := range []string{"size: ST235/80R16", "load-range: E"} {
		name, _, _ := strings.Cut(key, ":")
		w := someOf(t, with(wholeDump, key, name+`: "unknown: painted over"`))
		a := absentOf(w, "payload")
		if a == nil {
			t.Fatalf("%s: the payload is known without the tires", name)
		}
		because := ""
		for _, n := range a.Needs {
			because += n.Because
		}
		if because != "painted over" {
			t.Errorf("%s: %+v", name, a)
		}
	}
	plain, gas := someOf(t, wholeDump), someOf(t, with(wholeDump, "  empty: 4,100 lb\n", "  empty: 4,100 lb\n  propane: 40 lb\n"))
	if plain.Payload.Value-gas.Payload.Value != 40 {
		t.Errorf("payloads of %v and %v", plain.Payload.Value, gas.Payload.Value)
	}
	if notes := strings.Join(gas.Figure("tag-payload").Notes(), "; "); !strings.Contains(notes, "the empty weight counts 40 lb of propane") {
		t.Errorf("notes %q", notes)
	}
	if notes := strings.Join(plain.Figure("tag-payload").Notes(), "; "); strings.Contains(notes, "propane") {
		t.Errorf("notes %q", notes)
	}
}

// TestUsualEmptyNeedsBoth: the usual empty weight of a kind needs a rating and a length; the
// example is from the table of empty weights.
func TestUsualEmptyNeedsBoth(t *testing.T) {
	const front = "kind: equipment\nhitch:\n  kind: bumper-pull\ndeck:\n  length: 18 ft\naxles:\n  count: 2\nweights:\n  gvwr: 14,000 lb\n"
	if band, row, ok := someOf(t, front).UsualEmpty(); !ok || band.Low != 2900 || band.High != 4300 || row.Kind == "" {
		t.Errorf("%v, %+v, %v", band, row, ok)
	}
	for _, less := range []string{with(front, "  gvwr: 14,000 lb\n", "  empty: 3,000 lb\n"), with(front, "  length: 18 ft\n", "  width: 82 in\n")} {
		if band, row, ok := someOf(t, less).UsualEmpty(); ok || band.Low != 0 || band.High != 0 || row.Kind != "" {
			t.Errorf("%v, %+v, %v of\n%s", band, row, ok, less)
		}
	}
}

// TestTanks: the liquid that a tank is made for, and how far it may be filled: 2,100 lb of payload
// are 2,100 / 8.34 = 251.8 gal of water, rounded down, and no more than the tank holds.
func TestTanks(t *testing.T) {
	const front = "kind: water-tank\nhitch:\n  kind: bumper-pull\ntank:\n  length: 8 ft\n  volume: 500 gal\naxles:\n  count: 1\n  rating: 5,200 lb\ntires:\n  size: ST225/75R15\n  load-range: E\n  per-axle: 2\nweights:\n  gvwr: 4,000 lb\n  empty: 1,900 lb\n"
	for _, c := range []struct{ front, liquid string }{
		{front, "water"},
		{with(front, "volume: 500 gal\n", "volume: 500 gal\n  liquid: diesel\n"), "diesel"},
		{with(front, "  volume: 500 gal\n", ""), ""},
		{"kind: utility\ndeck:\n  length: 14 ft\n", ""},
	} {
		if got := someOf(t, c.front).Liquid(); got != c.liquid {
			t.Errorf("the liquid is %q, want %q of\n%s", got, c.liquid, c.front)
		}
	}
	w := someOf(t, front)
	density := float64(w.Payload.Value) / float64(w.TankMost.Value)
	if f := w.Figure("tank-most"); f == nil || f.Text != "251 gal" || density < 8.32 || density > 8.35 {
		t.Errorf("%+v at %v lb a gallon", f, density)
	}
	small := someOf(t, with(front, "500 gal", "100 gal"))
	if f := small.Figure("tank-most"); f == nil || f.Text != "100 gal" || !strings.Contains(f.Working(), "the tank's 100 gal; the payload would allow 251 gal") {
		t.Errorf("%+v", f)
	}
}

// TestMoldedLoads: a load index below the sidewall's load counts, single or dual, each against its
// own sidewall (UN R54 annex 4: index 121 is 1,450 kg, 3,195 lb; 120 is 1,400 kg, 3,085 lb).
func TestMoldedLoads(t *testing.T) {
	const front = "tires:\n  size: ST235/80R16\n  load-range: E\n  per-axle: %N\n  service: 121/120R\n  sidewall:\n    single: 3,000 lb\n    dual: 3,500 lb\n"
	said := func(n string) string {
		w := someOf(t, strings.Replace(front, "%N", n, 1))
		return strings.Join(w.Tire.Notes, "; ")
	}
	const low = "the sidewall's 3,500 lb is more than its load index allows"
	if got := said("4"); !strings.Contains(got, low) {
		t.Errorf("in pairs: %q", got)
	}
	if got := said("2"); strings.Contains(got, "more than its load index allows") {
		t.Errorf("single: %q", got)
	}
}

// TestPressureOfATire: at 65 psi of 80 the load follows the published exponent, whose three
// decimals the working shows.
func TestPressureOfATire(t *testing.T) {
	w := someOf(t, "tires:\n  size: ST235/80R16\n  load-range: E\n  per-axle: 2\n  pressure: 65 psi\n")
	text := w.Tire.formula.String()
	_, exponent, ok := strings.Cut(text, ")^")
	if !ok || len(strings.TrimRight(exponent, "0123456789."))+5 < len(exponent) || !strings.Contains(text, "65 psi / 80 psi") {
		t.Errorf("the working is %q", text)
	}
	if e := w.Tire.Each; e <= 0 || e >= w.Tire.Rating || measure.Pounds(float64(w.Tire.Rating)*65/80) > e {
		t.Errorf("%v of %v", e, w.Tire.Rating)
	}
}

// TestLoadBehindTheAxles: where nobody weighed the tongue, a load that is centered behind the axles
// puts more on them than it weighs: (12,000 - 4,100) x 132 / 144 = 7,241.7 lb.
func TestLoadBehindTheAxles(t *testing.T) {
	w := someOf(t, with(wholeDump, "center: 12 ft 9 in", "center: 11 ft", "7,000 lb", "6,000 lb", "  tongue-empty: 560 lb\n", ""))
	var told []string
	for _, r := range w.Ladder {
		told = append(told, r.Label+" "+r.Text()+" = "+r.Working())
	}
	if got := strings.Join(told, "; "); !strings.Contains(got, "7,241 lb = (12,000 lb - 4,100 lb) x 11 ft / 12 ft") {
		t.Errorf("the limits are %s", got)
	}
}

// TestPlaceOnALine: a load that weighs nothing is placed by the slope alone.
func TestPlaceOnALine(t *testing.T) {
	l := line{at: 1200, slope: 30}
	if got := l.place(100); got != 42 { // 30 + 1200/100
		t.Errorf("100 lb are at %v", got)
	}
	if got := l.place(0); got != 30 {
		t.Errorf("nothing is at %v", got)
	}
	if got := (line{slope: 30}).place(100); got != 30 {
		t.Errorf("on a line through zero 100 lb are at %v", got)
	}
	if got := (line{at: 1, slope: 30}).place(100); got != 30.01 {
		t.Errorf("100 lb are at %v", got)
	}
	if got := l.place(1); got != 1230 {
		t.Errorf("1 lb is at %v", got)
	}
}
