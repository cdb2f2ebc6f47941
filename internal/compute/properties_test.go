package compute_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tarepage/internal/compute"
	_ "tarepage/internal/fixedseed"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// absurd fills every field of a unit with something a file could hold, however
// senseless: missing, zero, the smallest and the largest number a parser takes.
func absurd(t *rapid.T) *unit.Unit {
	u := &unit.Unit{File: "a.md"}
	words := map[string][]string{
		"hitch.kind":       {"gooseneck", "bumper-pull", "fifth-wheel", "pintle"},
		"deck.tail-kind":   {"hydraulic dovetail", "fixed dovetail", "tilt"},
		"tires.size":       {"ST235/80R16", "ST225/75R15", "P205/75R15", "LT235/85R16", "4.80-8", "215/75R17.5", "round"},
		"tires.load-range": {"B", "C", "D", "E", "F", "G", "H", "Z"},
		"axles.suspension": {"torsion", "leaf spring"},
	}
	var fill func(v reflect.Value, path string)
	fill = func(v reflect.Value, path string) {
		for i := range v.NumField() {
			name, ok := v.Type().Field(i).Tag.Lookup("key")
			if !ok || v.Field(i).Kind() != reflect.Struct {
				continue
			}
			f, at := v.Field(i), strings.TrimPrefix(path+"."+name, ".")
			value := f.FieldByName("Value")
			if !value.IsValid() {
				fill(f, at)
				continue
			}
			if rapid.IntRange(0, 5).Draw(t, at+" given") == 0 {
				continue
			}
			switch value.Kind() {
			case reflect.Float64:
				x := rapid.OneOf(rapid.Float64Range(0, 1e9), rapid.Float64Range(0, 500), rapid.SampledFrom([]float64{0, 1e-9, 1, 96, 1e9})).Draw(t, at)
				if x < 1e-9 {
					x = 0 // the least above zero that a parser takes
				}
				value.SetFloat(x)
			case reflect.Int:
				value.SetInt(int64(rapid.SampledFrom([]int{0, 1, 2, 3, 4, 5, 100000}).Draw(t, at)))
			case reflect.String:
				if w := words[at]; w != nil {
					value.SetString(rapid.SampledFrom(w).Draw(t, at))
				}
			}
			f.FieldByName("Pos").Set(reflect.ValueOf(unit.Pos{File: "a.md", Line: int32(i + 1), Column: 1}))
			f.FieldByName("About").SetBool(rapid.IntRange(0, 9).Draw(t, at+" about") == 0)
		}
	}
	fill(reflect.ValueOf(u).Elem(), "")
	return u
}

// Whatever a file holds: no figure is senseless, the payload is not below zero, not
// above any rung and not above the tag; every figure is either there or says what it lacks.
func TestNoSenselessFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := compute.Unit(absurd(t), settings())
		for _, f := range w.Figures {
			if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
				t.Fatalf("%s is %v", f.Name, f.Value)
			}
			for _, text := range []string{f.Text, f.Working()} {
				if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
					t.Fatalf("%s: %q (%s)", f.Name, f.Text, f.Working())
				}
			}
			if f.About != strings.HasPrefix(f.Text, "about ") {
				t.Fatalf("%s is %q, about %v", f.Name, f.Text, f.About)
			}
			for _, in := range f.Inputs {
				if !in.At.Known() || in.Key == "" || in.Text() == "" {
					t.Fatalf("%s rests on %+v", f.Name, in)
				}
			}
			for _, a := range w.Absent {
				if a.Name == f.Name {
					t.Fatalf("%s is there and absent", f.Name)
				}
			}
		}
		for _, a := range w.Absent {
			if len(a.Needs) == 0 {
				t.Fatalf("%s is absent and lacks nothing", a.Name)
			}
			for _, n := range a.Needs {
				if n.Key == "" || n.Advice == "" {
					t.Fatalf("%s needs %+v", a.Name, n)
				}
			}
		}
		if !w.Payload.Known {
			return
		}
		v := w.Payload.Value
		if v < 0 || v > w.TagPayload.Value {
			t.Fatalf("payload %v, by the tag %v", v, w.TagPayload.Value)
		}
		governing := 0
		for _, rung := range w.Ladder {
			if v > rung.Value || rung.Value < 0 || !measure.Finite(rung.Value) {
				t.Fatalf("payload %v, rung %s %v", v, rung.Name, rung.Value)
			}
			if rung.Governs {
				governing++
			}
		}
		if governing != 1 {
			t.Fatalf("%d rungs govern", governing)
		}
		if p := w.WorkingPayload; p.Known && (p.Value > v || p.Value < 0) {
			t.Fatalf("working payload %v of %v", p.Value, v)
		}
	})
}

// fields lists the float fields of a unit that figures could rest on, by path.
func fields(u *unit.Unit) map[string]reflect.Value {
	out := map[string]reflect.Value{}
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		for i := range v.NumField() {
			name, ok := v.Type().Field(i).Tag.Lookup("key")
			if !ok || v.Field(i).Kind() != reflect.Struct {
				continue
			}
			f, at := v.Field(i), strings.TrimPrefix(path+"."+name, ".")
			value := f.FieldByName("Value")
			if !value.IsValid() {
				walk(f, at)
			} else if (value.Kind() == reflect.Float64 || value.Kind() == reflect.Int) && f.FieldByName("Pos").Interface().(unit.Pos).Known() {
				out[at] = f
			}
		}
	}
	walk(reflect.ValueOf(u).Elem(), "")
	return out
}

// A figure is approximate exactly if one of the fields that it names as its inputs is.
func TestApproximationsPropagate(t *testing.T) {
	marked := 0
	for key := range fields(example(t)) {
		u := example(t)
		fields(u)[key].FieldByName("About").SetBool(true)
		w := compute.Unit(u, settings())
		for _, f := range w.Figures {
			rests := false
			for _, in := range f.Inputs {
				if in.Key == key {
					rests = true
					if !strings.HasPrefix(in.Text(), "about ") {
						t.Errorf("%s about: %s shows its input as %q", key, f.Name, in.Text())
					}
				}
			}
			if rests {
				marked++
			}
			if strings.HasPrefix(f.Name, "estimated-") {
				if !f.About {
					t.Errorf("%s is an estimate and not marked approximate", f.Name)
				}
				continue
			}
			if f.About != rests {
				t.Errorf("%s about: %s is about %v, rests on it %v", key, f.Name, f.About, rests)
			}
		}
	}
	if marked < 50 {
		t.Errorf("only %d figures were marked", marked)
	}
}

// A figure names every field that it rests on: move a field a little, and each figure
// whose value moves must list it.
func TestInputsAreComplete(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range many() * 6 / 250 {
		tr := random(r)
		before := compute.Unit(tr.unit(), settings())
		for key := range fields(tr.unit()) {
			for _, part := range []float64{0.9, 1.1} {
				u := tr.unit()
				v := fields(u)[key].FieldByName("Value")
				if v.Kind() == reflect.Int {
					v.SetInt(v.Int() + int64(math.Round(part*10-10)))
				} else {
					v.SetFloat(v.Float() * part)
				}
				after := compute.Unit(u, settings())
				for _, f := range before.Figures {
					g := after.Figure(f.Name)
					if g == nil || g.Value == f.Value {
						continue
					}
					listed := false
					// Where a rung comes into play only by the move, the figure after it must list it.
					for _, in := range append(f.Inputs, g.Inputs...) {
						listed = listed || in.Key == key
					}
					if !listed {
						t.Fatalf("%s moves with %s (%v to %v) and does not list it among %+v", f.Name, key, f.Value, g.Value, f.Inputs)
					}
				}
			}
		}
	}
}

// Take one field away, and what is absent asks for it.
func TestWhatIsMissingIsAskedFor(t *testing.T) {
	for key, want := range map[string]string{
		"weights.gvwr": "tag-payload", "weights.empty": "tag-payload", "weights.tongue-empty": "tongue-at-gvwr",
		"axles.count": "axle-capacity", "axles.rating": "axle-capacity", "axles.center": "tongue-at-gvwr", "axles.spacing": "tongue-by-foot",
		"deck.front": "tongue-at-gvwr", "deck.length": "deck-length", "deck.width": "deck-area", "deck.height": "loading-angle", "deck.tail": "loading-angle",
	} {
		for _, how := range []string{"missing", "zero"} {
			u := example(t)
			// With the parts of the frame known, the tongue that was not weighed is estimated.
			u.Frame = unit.Frame{}
			f := fields(u)[key]
			if how == "missing" {
				f.SetZero()
			} else {
				f.FieldByName("Value").SetZero()
			}
			w := compute.Unit(u, settings())
			asked := false
			for _, a := range w.Absent {
				for _, n := range a.Needs {
					asked = asked || a.Name == want && n.Key == key && n.Advice != "" && n.Advice != "give "+key
				}
			}
			// An empty tongue of zero is a measure: a trailer balanced on its axles.
			if key == "weights.tongue-empty" && how == "zero" {
				if asked || w.Figure(want) == nil {
					t.Error("an empty tongue of zero counts as missing")
				}
				continue
			}
			if !asked || w.Figure(want) != nil {
				t.Errorf("%s %s: %s does not ask for it: %+v", key, how, want, w.Absent)
			}
		}
	}
}

// The note on a payload that lacks rungs says what was not counted, and only that.
func TestPayloadSaysWhatIsNotCounted(t *testing.T) {
	note := func(u *unit.Unit) string {
		return strings.Join(compute.Unit(u, settings()).Figure("payload").Notes(), "; ")
	}
	u := example(t)
	if got := note(u); strings.Contains(got, "not counted") {
		t.Errorf("everything is there, and the note says %q", got)
	}
	u.Weights.TongueEmpty, u.Frame = unit.Weight{}, unit.Frame{}
	if got := note(u); !strings.Contains(got, compute.TongueUnknown) {
		t.Errorf("without the tongue's weight the note says %q", got)
	}
	u = example(t)
	u.Tires.Sidewall, u.Tires.Size = unit.Sidewall{}, unit.Text{}
	if got := note(u); !strings.Contains(got, "not counted") || strings.Contains(got, "axles") || strings.Contains(got, "tongue") {
		t.Errorf("without the tires' rating the note says %q", got)
	}
}

// The page names what the payload rests on where that is not the label: a limit that is
// lowered under it.
func TestPayloadSaysWhatDecides(t *testing.T) {
	for want, lower := range map[string]func(u *unit.Unit){
		"":                         func(*unit.Unit) {},
		"the GVWR decides":         func(u *unit.Unit) { u.Weights.GVWR.From = measure.Provenance{Origin: measure.MakersSheet} },
		"the axles decide":         func(u *unit.Unit) { u.Axles.Rating.Value = 5000 },
		"the wheels decide":        func(u *unit.Unit) { u.Tires.Wheel.Value = 1000 },
		"the coupler decides":      func(u *unit.Unit) { u.Hitch.Rating.Value = u.Weights.Empty.Value + 1000 },
		"the tongue limit decides": func(u *unit.Unit) { u.Hitch.TongueLimit.Value = u.Weights.TongueEmpty.Value + 10 },
	} {
		u := example(t)
		lower(u)
		w := compute.Unit(u, settings())
		if got := w.Decides(); got != want {
			t.Errorf("the page says %q, want %q; the lowest limit is %s", got, want, w.Ladder[0].Label)
		}
	}
	u := example(t)
	u.Weights.GVWR = unit.Weight{}
	if got := compute.Unit(u, settings()).Decides(); got != "" {
		t.Errorf("without a payload the page says that %s", got)
	}
}

func TestSettings(t *testing.T) {
	yard := func(text string) compute.Settings {
		y, problems := unit.ReadYard("content/yard.md", []byte("---\n"+text+"\n---\n"))
		if len(problems) > 0 {
			t.Fatalf("%+v", problems)
		}
		return compute.SettingsOf(y)
	}
	if s := yard("name: x"); s.Allowance != 0.05 || len(s.Bands) != 5 || s.LookAgain != 180 {
		t.Errorf("defaults: %+v", s)
	}
	for days, want := range map[string]int{"90 days": 90, "1 day": 1, "12 weeks": 84} {
		if s := yard("look-again-after: " + days); s.LookAgain != want {
			t.Errorf("look again after %s: %d days, want %d", days, s.LookAgain, want)
		}
	}
	s := yard("allowance: 12%\nas-of: 2026-11-20\ntongue-band: {gooseneck: {least: 18%, most: 24%}, bumper-pull: {least: 15%, most: 10%}, pintle: {least: 5%}}")
	if s.Allowance != 0.12 || s.AsOf.String() != "2026-11-20" {
		t.Errorf("settings: %+v", s)
	}
	// A band upside down or with one end keeps the table's.
	got := fmt.Sprint(s.Bands["gooseneck"].Least, s.Bands["gooseneck"].Most, s.Bands["bumper-pull"].Least, s.Bands["bumper-pull"].Most, s.Bands["pintle"].Least)
	want := fmt.Sprint(measure.Share(0.18), measure.Share(0.24), measure.Share(0.10), measure.Share(0.15), yard("name: x").Bands["pintle"].Least)
	if got != want {
		t.Errorf("bands %s, want %s", got, want)
	}
	// The yard's band is advice; what every publication leaves outside stays outside.
	if b := s.Bands["gooseneck"]; b.Widest != [2]measure.Share{0.15, 0.25} || !b.At.Known() {
		t.Errorf("a band of the yard's own: %+v", b)
	}
	w := compute.Unit(example(t), s)
	if f := w.Figure("working-payload"); f.Value != 11400 { // 12,960 less 12% is 11,404.8
		t.Errorf("working payload with 12%% is %v", f.Value)
	}
}

// The order of a stock's work is the stock's, whatever works it; a broken file has none.
func TestStockOrder(t *testing.T) {
	s := &unit.Stock{Yard: &unit.Yard{}}
	r := rand.New(rand.NewPCG(3, 3))
	for i := range 50 {
		u := random(r).unit()
		u.Broken = i%7 == 0
		s.Units = append(s.Units, u)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, hands := range []int{4, 1} {
		runtime.GOMAXPROCS(hands)
		got := compute.Stock(s)
		for i, u := range s.Units {
			if u.Broken != (got[i] == nil) || got[i] != nil && got[i].Unit != u {
				t.Fatalf("unit %d has another's work", i)
			}
			if got[i] != nil && !reflect.DeepEqual(got[i].Figures, compute.Unit(u, settings()).Figures) {
				t.Fatalf("unit %d was worked differently beside others", i)
			}
		}
	}
}
