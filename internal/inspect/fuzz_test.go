package inspect_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// FuzzTrailer works out and inspects trailers whose measures are anything that can be typed:
// zero, absurd, contradictory, not given. Nothing panics, every figure is finite, no text
// says NaN or Inf, and each finding has a place and says what to do.
func FuzzTrailer(f *testing.F) {
	f.Add(7000.0, 2000.0, 260.0, 3500.0, 186.0, 60.0, 216.0, 2, 2, uint16(0))
	f.Add(20000.0, 7040.0, 1610.0, 10000.0, 306.0, 90.0, 336.0, 2, 4, uint16(1))
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0, 0, uint16(2))
	f.Add(7000.0, 2000.0, 3000.0, 3500.0, -186.0, 260.0, 1e9, 2, 3, uint16(3))
	f.Add(1e-9, 1e9, 1e9, 1e-300, 1e-9, 1e9, 1e-9, 99, 99, uint16(0x3ff0))
	yard := &unit.Yard{File: "content/yard.md"}
	settings := compute.SettingsOf(yard)
	f.Fuzz(func(t *testing.T, gvwr, empty, tongue, rating, center, front, length float64, axles, perAxle int, leave uint16) {
		m := fuzzed{
			kind: int(leave>>2) % len(kinds.Names()), hitch: int(leave & 3), leave: leave >> 4,
			texts: [12]string{
				amount(gvwr, "lb"), amount(tongue, "kg"), amount(length, "in"), amount(front, "in"), amount(center/10, "mm"),
				strconv.Itoa(axles), amount(rating, "lb"), amount(center, "in"), strconv.Itoa(perAxle),
				amount(gvwr, "lb"), amount(empty, "lb"), amount(tongue, "lb"),
			},
		}
		u, problems := m.built(), []unit.Problem(nil)
		// Reading YAML takes longer than all the rest together. So most trailers are made from
		// one that was read before, and one in eight is read as a whole.
		if leave*40503>>13 == 0 {
			u, problems = unit.ReadUnit("content/units/ex-1.md", []byte(m.text()))
		}
		s := &unit.Stock{Yard: yard, Units: []*unit.Unit{u}}
		w := compute.Unit(u, settings)
		for _, fig := range w.Figures {
			if math.IsNaN(fig.Value) || math.IsInf(fig.Value, 0) || unending(fig.Text) || unending(fig.Working()) {
				t.Fatalf("%s is %v (%s = %s)\n%s", fig.Name, fig.Value, fig.Working(), fig.Text, m.text())
			}
		}
		if p := w.Payload; p.Known && p.Value < 0 {
			t.Fatalf("a payload of %s\n%s", p.Value, m.text())
		}
		for _, found := range inspect.Stock(s, []*compute.Work{w}, problems) {
			if found.Unit != u.File {
				continue // the yard is none of ours here
			}
			if !found.At.Known() || found.Message == "" || found.Remedy == "" || unending(found.Message) || unending(found.Remedy) {
				t.Fatalf("%+v\n%s", found, m.text())
			}
		}
	})
}

// fuzzed is a trailer of which any number may be anything and any key may be missing.
type fuzzed struct {
	kind, hitch int
	leave       uint16     // a bit for each text: its key is left out
	texts       [12]string // in the order of the file
}

func amount(v float64, unit string) string { return strconv.FormatFloat(v, 'f', -1, 64) + " " + unit }

var fuzzedHitches = []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle"}

// text is the trailer's file.
func (m fuzzed) text() string {
	var b strings.Builder
	b.WriteString("---\ntitle: fuzzed\nstock: EX-1\nkind: " + kinds.Names()[m.kind] + "\nyear: 2026\ncondition: new\navailability: on the yard\n")
	b.WriteString("hitch:\n  kind: " + fuzzedHitches[m.hitch] + "\n")
	next := 0
	line := func(key string) {
		if m.leave>>next&1 == 0 {
			b.WriteString("  " + key + ": " + m.texts[next] + "\n")
		}
		next++
	}
	line("rating")
	line("tongue-limit")
	b.WriteString("deck:\n  width: 102 in\n")
	line("length")
	line("front")
	line("height")
	b.WriteString("axles:\n  suspension: leaf spring\n")
	line("count")
	line("rating")
	line("center")
	b.WriteString("tires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi\n")
	line("per-axle")
	b.WriteString("brakes:\n  kind: surge\nweights:\n")
	line("gvwr")
	line("empty")
	line("tongue-empty")
	b.WriteString("---\n\nA text.\n")
	return b.String()
}

// wholes are read trailers by hitch and kind, each with every key.
var wholes = map[[2]int]*unit.Unit{}

// built is the trailer made from one that was read, its numbers set as the reader sets them: a number that
// cannot be read is spoiled.
func (m fuzzed) built() *unit.Unit {
	at := [2]int{m.hitch, m.kind}
	if wholes[at] == nil {
		read := m
		read.leave = 0
		read.texts = [12]string{"7000 lb", "400 kg", "216 in", "60 in", "610 mm", "2", "3500 lb", "186 in", "2", "7000 lb", "2000 lb", "260 lb"}
		wholes[at], _ = unit.ReadUnit("content/units/ex-1.md", []byte(read.text()))
	}
	u := *wholes[at]
	for i, set := range []func(string){
		setTo(&u.Hitch.Rating, measure.ParseWeight), setTo(&u.Hitch.TongueLimit, measure.ParseWeight),
		setTo(&u.Deck.Length, measure.ParseLength), setTo(&u.Deck.Front, measure.ParseLength), setTo(&u.Deck.Height, measure.ParseLength),
		setCount(&u.Axles.Count), setTo(&u.Axles.Rating, measure.ParseWeight), setTo(&u.Axles.Center, measure.ParseLength),
		setCount(&u.Tires.PerAxle),
		setTo(&u.Weights.GVWR, measure.ParseWeight), setTo(&u.Weights.Empty, measure.ParseWeight), setTo(&u.Weights.TongueEmpty, measure.ParseWeight),
	} {
		text := m.texts[i]
		if m.leave>>i&1 == 1 {
			text = ""
		}
		set(text)
	}
	return &u
}

// setTo sets a field to a text as its parser reads it, or takes the field out.
func setTo[T ~float64](f *unit.Field[T], parse func(string) (measure.Written[T], error)) func(string) {
	return func(text string) {
		if w, err := parse(text); err == nil {
			f.Value, f.Raw = w.Value, text
		} else {
			*f = unit.Field[T]{Spoiled: text != ""}
		}
	}
}

func setCount(f *unit.Count) func(string) {
	return func(text string) {
		// A hundred thousand is the most that the reader takes.
		if n, err := strconv.Atoi(text); err == nil && n >= 0 && n <= 100_000 {
			f.Value, f.Raw = n, text
		} else {
			*f = unit.Count{Spoiled: text != ""}
		}
	}
}

// TestFuzzedAsRead: a trailer that FuzzTrailer builds gives what the same trailer read from
// its file gives.
func TestFuzzedAsRead(t *testing.T) {
	settings := compute.SettingsOf(&unit.Yard{File: "content/yard.md"})
	m := fuzzed{texts: [12]string{"9000.5 lb", "700 kg", "240 in", "71.25 in", "880 mm", "3", "5200 lb", "190 in", "2", "9990 lb", "2345.75 lb", "312 lb"}}
	as := func(m fuzzed) {
		read, _ := unit.ReadUnit("content/units/ex-1.md", []byte(m.text()))
		want, got := compute.Unit(read, settings), compute.Unit(m.built(), settings)
		if len(got.Figures) != len(want.Figures) || len(got.Absent) != len(want.Absent) {
			t.Fatalf("%d figures, %d absent, read %d and %d\n%s", len(got.Figures), len(got.Absent), len(want.Figures), len(want.Absent), m.text())
		}
		for i, fig := range want.Figures {
			if g := got.Figures[i]; g.Text != fig.Text || g.Working() != fig.Working() {
				t.Errorf("%s is %s = %s, read %s = %s\n%s", fig.Name, g.Text, g.Working(), fig.Text, fig.Working(), m.text())
			}
		}
	}
	leaves := []uint16{0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048, 0xfff}
	if !thorough.BeforePush() {
		leaves = []uint16{0, 0xfff}
	}
	for m.hitch = range fuzzedHitches {
		for m.kind = range kinds.Names() {
			for _, m.leave = range leaves {
				as(m)
			}
		}
	}
	m.leave = 0
	for i := range m.texts {
		for _, spoil := range []string{"NaN lb", "+Inf in", "-1", "-1 lb", "1e300 mm"} {
			spoiled := m
			spoiled.texts[i] = spoil
			as(spoiled)
		}
	}
}

// unending reports a text that shows a number that is not finite.
func unending(s string) bool {
	return strings.Contains(s, "NaN") || strings.Contains(s, "+Inf") || strings.Contains(s, "-Inf")
}
