package elevation_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	_ "tarepage/internal/fixedseed"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A measured is a dimension line read back: the length its text states and the length
// it is drawn at.
type measured struct {
	text   string
	inches float64
	drawn  float64
	from   xy
	level  bool
}

var labelForm = regexp.MustCompile(`^(?:about )?(?:([0-9]) x )?([0-9./-]+ ft [0-9/-]+ in|[0-9./-]+ (?:ft|in))( .*)?$`)

// dimensions pairs every text with the line it stands on: 10 units under a level line's
// text; 14 units left of an upright's.
func dimensions(t *testing.T, p picture) []measured {
	t.Helper()
	var out []measured
	for i, l := range p.labels {
		if l.text == "about" {
			continue // it stands over the number that follows
		}
		m := labelForm.FindStringSubmatch(l.text)
		if m == nil {
			t.Errorf("text %q states no length", l.text)
			continue
		}
		w, err := measure.ParseLength(m[2])
		if err != nil {
			t.Errorf("text %q: %v", l.text, err)
			continue
		}
		d := measured{text: l.text, inches: float64(w.Value)}
		if m[1] != "" {
			d.inches *= float64(m[1][0] - '0')
		}
		y := l.y - 31.5 + 20
		if i > 0 && p.labels[i-1].text == "about" {
			y -= 20
		}
		wide := l.box(0.6)
		for _, sub := range p.paths["el-dim"] {
			a, b := sub[0], sub[1]
			switch {
			case a.y == b.y && near(a.y, l.y+10, 0.11) && b.x-a.x > 9 &&
				(l.middle && near((a.x+b.x)/2, l.x, 0.2) || near(b.x, l.x-14, 0.11) || near(a.x, wide.right+14, 0.11)):
				d.drawn, d.from, d.level = b.x-a.x, a, true
			case !d.level && !l.middle && a.x == b.x && near(a.x, l.x-14, 0.11) && near((a.y+b.y)/2, y, 0.3):
				d.drawn, d.from = math.Abs(a.y-b.y), a
			}
		}
		if d.drawn == 0 {
			t.Errorf("text %q stands on no line", l.text)
			continue
		}
		out = append(out, d)
	}
	return out
}

func near(a, b, by float64) bool { return math.Abs(a-b) <= by }

// within reports a and b equal to 0.5%, or to what rounding two coordinates to a tenth
// of a unit can do.
func within(a, b float64) bool { return near(a, b, max(0.005*math.Abs(b), 0.11)) }

// The measures of the archives, in inches, read off their unit files by hand. tire is
// rim + 2 x section width x aspect, by the writing of metric sizes (ISO 4000-1 gives
// the outer diameter so; from memory).
var truth = map[string]struct {
	front, deck, center, spacing, floor, tire float64
	axles                                     int
}{
	"gooseneck_hydraulic": {90, 336, 306, 50, 35, 16 + 2*235*0.80/25.4, 2},
	"fifth_wheel_flatbed": {78, 480, 396, 42, 37, 16 + 2*235*0.80/25.4, 3},
	"equipment_standup":   {56, 240, 194, 35, 25, 16 + 2*235*0.80/25.4, 2},
	"tilt":                {56, 264, 204, 36, 27, 16 + 2*235*0.85/25.4, 2},
	"dump":                {54, 168, 157, 35, 30, 16 + 2*235*0.80/25.4, 2},
	"utility_gate":        {48, 144, 136, 0, 20, 15 + 2*205*0.75/25.4, 1},
	"enclosed":            {52, 240, 195, 34, 21, 15 + 2*225*0.75/25.4, 2},
	"livestock_gooseneck": {84, 288, 252, 34, 17, 16 + 2*235*0.80/25.4, 2},
	"pintle_deckover":     {72, 300, 242, 52, 36, 17.5 + 2*215*0.75/25.4, 2},
}

// TestToScale holds the drawing against the unit's own numbers: every dimension line is
// drawn at one scale, and the wheels and the rear edge stand where they say.
func TestToScale(t *testing.T) {
	for _, a := range archives(t) {
		want, full := truth[a.name]
		svg, _ := elevation.Side(a.work)
		p := parse(t, svg)
		for _, f := range p.faults(3) {
			t.Errorf("%s: %s", a.name, f)
		}
		if !full {
			continue
		}
		t.Run(a.name, func(t *testing.T) {
			ds := dimensions(t, p)
			find := func(part string) measured {
				for _, d := range ds {
					if strings.Contains(d.text, part) {
						return d
					}
				}
				t.Fatalf("no dimension %q among %v", part, ds)
				return measured{}
			}
			deck := find(" " + a.work.Space.Name)
			scale := deck.drawn / want.deck
			for _, d := range ds {
				if !within(d.drawn, d.inches*scale) {
					t.Errorf("%q is drawn %.1f long, at the deck's scale it is %.1f", d.text, d.drawn, d.inches*scale)
				}
			}
			ball := find(" to rear").from.x
			// Its words are short where the long ones do not fit.
			toAxles := slices.IndexFunc(ds, func(d measured) bool { return d.level && near(d.inches, want.center, 0.01) })
			if toAxles < 0 || !near(ds[toAxles].from.x, ball, 0.05) {
				t.Errorf("no line to the axles begins where the other one from the ball does")
			}
			if got := (deck.from.x - ball) / scale; !within(got, want.front) {
				t.Errorf("the deck begins at %.2f in, it stands at %g", got, want.front)
			}
			wheels := p.circles["el-wheel"]
			if a.name == "pintle_deckover" {
				// The pintle's eye is a ring too; it is drawn first, at x = 0.
				if !near(wheels[0].x, ball, 0.11) {
					t.Errorf("the eye stands at %g, x = 0 is %g", wheels[0].x, ball)
				}
				wheels = wheels[1:]
			}
			if len(wheels) != want.axles {
				t.Fatalf("%d wheels, %d axles", len(wheels), want.axles)
			}
			mean := 0.0
			for i, w := range wheels {
				mean += w.x / float64(len(wheels))
				if !near(w.y+w.r, p.ground()-1.5, 0.11) {
					t.Errorf("the tire's foot is at %g, the ground at %g", w.y+w.r, p.ground()-1.5)
				}
				if !within(2*w.r, want.tire*scale) {
					t.Errorf("the tire is %.2f in across, its size says %.2f", 2*w.r/scale, want.tire)
				}
				if i > 0 && !within(w.x-wheels[i-1].x, want.spacing*scale) {
					t.Errorf("the axles stand %.2f in apart, it says %g", (w.x-wheels[i-1].x)/scale, want.spacing)
				}
			}
			if got, want := (mean-ball)/deck.drawn, want.center/want.deck; !near(got, want, 0.005*want) {
				t.Errorf("axle center to deck length is drawn %.4f, it is %.4f", got, want)
			}
			height := (p.ground() - 1.5 - top(p, deck.from.x, deck.from.x+deck.drawn)) / scale
			if !near(height, want.floor, 0.005*want.floor+0.1/scale) {
				t.Errorf("the deck's top is drawn at %.2f in, it stands at %g", height, want.floor)
			}
		})
	}
}

// top is the upper edge of the first outline of steel that begins where the deck does.
func top(p picture, from, to float64) float64 {
	for _, sub := range p.paths["el-body"] {
		if sub[0].x == from && sub[0].y == sub[1].y {
			return sub[0].y
		}
	}
	return math.NaN()
}

// TestPhantomPositions: what swings down keeps its length and rests on the ground.
func TestPhantomPositions(t *testing.T) {
	for name, inches := range map[string]float64{"gooseneck_hydraulic": 96, "tilt": 192} {
		for _, a := range archives(t) {
			if a.name != name {
				continue
			}
			svg, _ := elevation.Side(a.work)
			p := parse(t, svg)
			scale := 0.0
			for _, d := range dimensions(t, p) {
				if strings.HasSuffix(d.text, " deck") {
					scale = d.drawn / d.inches
				}
			}
			sub := p.paths["el-swing"][0]
			if got := math.Hypot(sub[1].x-sub[0].x, sub[1].y-sub[0].y) / scale; !near(got, inches, 0.005*inches) {
				t.Errorf("%s: what swings is %.2f in long, it is %g", name, got, inches)
			}
			if !near(sub[1].y, p.ground()-1.5, 0.11) {
				t.Errorf("%s: its end is at %g, the ground at %g", name, sub[1].y, p.ground()-1.5)
			}
		}
	}
}

// TestOneScale: every silhouette has the same paper and the same scale, measured between
// the wheels and the rear edge; the longest fills the width.
func TestOneScale(t *testing.T) {
	all := archives(t)
	scale := elevation.ScaleOf(works(all))
	var paper xy
	first, longest := 0.0, 0.0
	for _, a := range all {
		svg, ok := elevation.Silhouette(a.work, scale)
		if !ok {
			t.Fatalf("%s: no silhouette", a.name)
		}
		p := parse(t, svg)
		for _, f := range p.faults(1) {
			t.Errorf("%s: %s", a.name, f)
		}
		if paper == (xy{}) {
			paper = xy{p.wide, p.tall}
		}
		if paper != (xy{p.wide, p.tall}) {
			t.Errorf("%s is drawn on %g x %g, another on %v", a.name, p.wide, p.tall, paper)
		}
		longest = max(longest, p.right(steel...))
		want, full := truth[a.name]
		if !full {
			continue
		}
		wheels := p.circles["el-wheel"]
		last := wheels[len(wheels)-1].x
		rear := p.right("el-body", "el-shell")
		toLast := want.front + want.deck - want.center - want.spacing*float64(want.axles-1)/2
		switch a.name {
		case "gooseneck_hydraulic", "equipment_standup", "pintle_deckover", "utility_gate", "tilt":
			// Ramps and tails are el-tail and may reach past the deck: compare the wheels alone.
			if want.axles == 1 {
				continue
			}
			rear, toLast = last, want.spacing
			last = wheels[len(wheels)-2].x
		}
		got := (rear - last) / toLast
		if first == 0 {
			first = got
		}
		// Each of the two coordinates was rounded to a tenth.
		if !near(got, first, 0.1/toLast+0.005*first) {
			t.Errorf("%s is drawn at %.4f units an inch, another at %.4f", a.name, got, first)
		}
	}
	if longest < 316 || longest > 320 {
		t.Errorf("the longest unit reaches to %g of 320", longest)
	}
}

// A silhouette whose unit the scale was not made for is refused, not cut off.
func TestTooLargeForTheScale(t *testing.T) {
	all := archives(t)
	byName := map[string]archive{}
	for _, a := range all {
		byName[a.name] = a
	}
	scale := elevation.ScaleOf([]*compute.Work{byName["utility_gate"].work, nil})
	if _, ok := elevation.Silhouette(byName["fifth_wheel_flatbed"].work, scale); ok {
		t.Error("a 46 ft unit is drawn on the paper of a 16 ft one")
	}
	if _, ok := elevation.Silhouette(byName["utility_gate"].work, scale); !ok {
		t.Error("the unit the scale was made for is refused")
	}
	if _, ok := elevation.Silhouette(byName["utility_gate"].work, elevation.ScaleOf(nil)); ok {
		t.Error("a yard without units has a scale")
	}
}

// stated is a unit whose every measure is known.
func stated() *unit.Unit {
	u := &unit.Unit{File: "content/units/case.md"}
	u.Stock, u.Kind, u.Hitch.Kind = text("SB-1"), text("equipment"), text("bumper-pull")
	u.Deck.Length, u.Deck.Width, u.Deck.Height, u.Deck.Front = inches(240), inches(82), inches(25), inches(56)
	u.Deck.Flat, u.Deck.Tail, u.Deck.TailEnd, u.Deck.TailKind = inches(204), inches(36), inches(18), text("fixed dovetail")
	u.Axles.Count, u.Axles.Center, u.Axles.Spacing = count(2), inches(194), inches(35)
	u.Tires.Size, u.Tires.PerAxle = text("ST235/80R16"), count(2)
	u.Ramps.Kind, u.Ramps.Length = text("stand-up"), inches(60)
	return u
}

var here = unit.Pos{File: "content/units/case.md", Line: 1, Column: 1}

func inches(v float64) unit.Length { return unit.Length{Value: measure.Inches(v), Pos: here} }
func count(n int) unit.Count       { return unit.Count{Value: n, Pos: here} }
func text(s string) unit.Text      { return unit.Text{Value: s, Pos: here} }

func worked(u *unit.Unit) *compute.Work {
	return compute.Unit(u, compute.SettingsOf(&unit.Yard{}))
}

// TestGuesses takes one measure away at a time: what rested on it is dashed, it has no
// dimension line, and the words name it.
func TestGuesses(t *testing.T) {
	whole, _ := elevation.Side(worked(stated()))
	if p := parse(t, whole); p.classes["el-guess"] || strings.Contains(elevation.Words(worked(stated())), "guess") {
		t.Fatal("a unit with every measure has a guess in it")
	}
	for _, c := range []struct {
		what   string
		take   func(u *unit.Unit)
		words  string
		absent []string // texts that must not stand in the drawing
	}{
		{"front", func(u *unit.Unit) { u.Deck.Front = unit.Length{} }, "Front of the deck not measured", []string{"4 ft 8 in", "to rear"}},
		{"height", func(u *unit.Unit) { u.Deck.Height = unit.Length{} }, "Height of the deck not measured", []string{"25 in"}},
		{"tail end", func(u *unit.Unit) { u.Deck.TailEnd = unit.Length{} }, "Height of the tail's end not measured", nil},
		{"wheels", func(u *unit.Unit) { u.Axles.Center = unit.Length{} }, "Wheel position not measured, drawn as a guess, dashed.", []string{"to axles", "35 in"}},
		{"spacing", func(u *unit.Unit) { u.Axles.Spacing = unit.Length{} }, "Axle spacing not measured", []string{"35 in"}},
		{"axles", func(u *unit.Unit) { u.Axles.Count = unit.Count{} }, "Number of axles not known", []string{"35 in"}},
		{"tires", func(u *unit.Unit) { u.Tires.Size = unit.Text{} }, "Tire size not stated", nil},
		{"unreadable tires", func(u *unit.Unit) { u.Tires.Size = text("<big> ones") }, `Tire size "<big> ones" cannot be read`, nil},
		{"hitch", func(u *unit.Unit) { u.Hitch.Kind = unit.Text{} }, "Kind of hitch not stated", nil},
		{"ramps", func(u *unit.Unit) { u.Ramps.Length = unit.Length{} }, "Length of the ramps not measured", nil},
		{"a height of 90 ft", func(u *unit.Unit) { u.Deck.Height = inches(1080) }, "Height of the deck cannot be 1,080 in", []string{"1,080 in"}},
		{"wheels behind the rear", func(u *unit.Unit) { u.Axles.Center = inches(400) }, "Wheel position cannot be 33 ft 4 in", []string{"33 ft 4 in"}},
	} {
		u := stated()
		c.take(u)
		w := worked(u)
		svg, ok := elevation.Side(w)
		if !ok {
			t.Errorf("%s: no drawing", c.what)
			continue
		}
		p := parse(t, svg)
		if !p.classes["el-guess"] {
			t.Errorf("%s: nothing is dashed", c.what)
		}
		if words := elevation.Words(w); !strings.Contains(words, c.words) {
			t.Errorf("%s: the words do not say %q: %s", c.what, c.words, words)
		}
		for _, l := range p.labels {
			for _, a := range c.absent {
				if strings.Contains(l.text, a) {
					t.Errorf("%s: a dimension says %q", c.what, l.text)
				}
			}
		}
		for _, f := range p.faults(3) {
			t.Errorf("%s: %s", c.what, f)
		}
	}
}

// Without a length there is no drawing, and the words say what to measure.
func TestNoLength(t *testing.T) {
	for _, l := range []unit.Length{{}, inches(0), inches(-4), inches(99999)} {
		u := stated()
		u.Deck.Length = l
		w := worked(u)
		_, side := elevation.Side(w)
		_, small := elevation.Silhouette(w, elevation.ScaleOf([]*compute.Work{w, worked(stated())}))
		if side || small || !strings.Contains(elevation.Words(w), "Measure the deck") {
			t.Errorf("length %v: side %v, silhouette %v, words %q", l.Value, side, small, elevation.Words(w))
		}
	}
	if _, ok := elevation.Side(nil); ok || elevation.Words(nil) != "" {
		t.Error("a file that could not be read is drawn")
	}
}

// TestFenders: wheels next to the deck have them, wheels under it do not. The rule is
// common practice, no source.
func TestFenders(t *testing.T) {
	tire := 16 + 2*235*0.8/25.4
	for _, c := range []struct {
		kind          string
		width, height float64
		want          bool
	}{
		{"equipment", 82, tire - 1, true},
		{"equipment", 82, tire + 10, false},
		{"deck-over", 102, tire + 2, false},
		{"flatbed", 102, tire + 0.1, false},
		{"flatbed", 95, tire + 3.9, true},
		{"flatbed", 96, tire + 3.9, false},
	} {
		u := stated()
		u.Kind, u.Deck.Width, u.Deck.Height = text(c.kind), inches(c.width), inches(c.height)
		svg, _ := elevation.Side(worked(u))
		if got := parse(t, svg).classes["el-fender"]; got != c.want {
			t.Errorf("%s %g in wide, %g in high: fenders %v", c.kind, c.width, c.height, got)
		}
	}
}

// Two units on a page never share an id, whatever their stock numbers hold.
func TestIDs(t *testing.T) {
	seen := map[string]string{}
	scale := elevation.ScaleOf([]*compute.Work{worked(stated())})
	for _, stock := range []string{"SB-1", "SB 1", "SB_1", "SB.1", `"><b>`, "é", "è", "SB-1-t"} {
		u := stated()
		u.Stock = text(stock)
		side, _ := elevation.Side(worked(u))
		small, _ := elevation.Silhouette(worked(u), scale)
		for _, id := range append(parse(t, side).ids, parse(t, small).ids...) {
			if strings.ContainsAny(id, " \"<>") {
				t.Errorf("stock %q gives the id %q", stock, id)
			}
			if other, twice := seen[id]; twice {
				t.Errorf("stocks %q and %q both give the id %q", stock, other, id)
			}
			seen[id] = stock
		}
	}
}

// The stylesheet speaks of classes that are drawn.
func TestCSS(t *testing.T) {
	drawn := map[string]bool{}
	all := archives(t)
	scale := elevation.ScaleOf(works(all))
	for _, a := range all {
		side, _ := elevation.Side(a.work)
		small, _ := elevation.Silhouette(a.work, scale)
		for _, svg := range []string{side, small} {
			for c := range parse(t, svg).classes {
				drawn[c] = true
			}
		}
	}
	for _, m := range regexp.MustCompile(`\.(el[a-z-]*)`).FindAllStringSubmatch(elevation.CSS, -1) {
		if !drawn[m[1]] {
			t.Errorf("the stylesheet speaks of %s, no drawing has it", m[1])
		}
	}
	for _, c := range []string{"el-body", "el-line", "el-dim", "el-dim-text", "el-ground", "el-wheel", "el-guess", "el-tail"} {
		if !drawn[c] {
			t.Errorf("no drawing has the class %s", c)
		}
	}
}

// sound checks what must hold for any measures at all.
func sound(t testing.TB, u *unit.Unit) []string {
	w := worked(u)
	if elevation.Words(w) == "" {
		return []string{"no words"}
	}
	svg, ok := elevation.Side(w)
	small, same := elevation.Silhouette(w, elevation.ScaleOf([]*compute.Work{w}))
	if ok != same {
		return []string{"the drawing and the silhouette disagree whether there is one"}
	}
	if !ok {
		return nil
	}
	return append(parse(t, svg).faults(3), parse(t, small).faults(1)...)
}

var (
	kinds   = []string{"deck-over", "flatbed", "equipment", "car-hauler", "utility", "dump", "tilt", "enclosed", "livestock", "other", "", "boat"}
	hitches = []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle", ""}
	tails   = []string{"", "hydraulic dovetail", "fixed dovetail", "tilt"}
	ramps   = []string{"", "slide-in", "stand-up", "fold-over", "gate", "ramp door"}
	sizes   = []string{"", "ST235/80R16", "4.80-8", "215/75R17.5", "no size", "500/100R30"}
	spaces  = []string{"deck", "bed", "box"}
)

// build makes a unit of measures; one that is exactly -1 is not stated.
func build(kind, hitch, tail, ramp, size, space string, axles, perAxle int, about bool,
	length, front, floor, height, center, spacing, tailLong, flat, tailEnd, rampLong, width float64) *unit.Unit {
	m := func(v float64) unit.Length {
		if v == -1 {
			return unit.Length{}
		}
		l := inches(v)
		l.About = about
		return l
	}
	word := func(s string) unit.Text {
		if s == "" {
			return unit.Text{}
		}
		return text(s)
	}
	u := &unit.Unit{File: "content/units/case.md", Stock: text("SB-1"), Kind: word(kind)}
	u.Hitch.Kind, u.Ramps.Kind, u.Ramps.Length, u.Tires.Size = word(hitch), word(ramp), m(rampLong), word(size)
	u.Tires.PerAxle, u.Axles.Count, u.Axles.Center, u.Axles.Spacing = count(perAxle), count(axles), m(center), m(spacing)
	switch space {
	case "bed":
		u.Bed.Length, u.Bed.Front, u.Bed.Floor, u.Bed.Height, u.Bed.Width = m(length), m(front), m(floor), m(height), m(width)
	case "box":
		u.Box.Length, u.Box.Front, u.Box.Floor, u.Box.Height, u.Box.Width = m(length), m(front), m(floor), m(height), m(width)
	default:
		u.Deck.Length, u.Deck.Front, u.Deck.Height, u.Deck.Width = m(length), m(front), m(floor), m(width)
		u.Deck.Tail, u.Deck.Flat, u.Deck.TailEnd, u.Deck.TailKind = m(tailLong), m(flat), m(tailEnd), word(tail)
	}
	return u
}

// TestAnyMeasures draws trailers of every kind with plausible, missing and absurd
// measures: never a panic, nothing outside the paper, no text on text.
func TestAnyMeasures(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		in := func(name string, low, high float64) float64 {
			return rapid.OneOf(rapid.Map(rapid.IntRange(int(low*4), int(high*4)), func(n int) float64 { return float64(n) / 4 }),
				rapid.Float64Range(low, high), rapid.SampledFrom([]float64{-1, -1, 0, 1e-9, 1e9})).Draw(r, name)
		}
		pick := func(name string, from []string) string { return rapid.SampledFrom(from).Draw(r, name) }
		u := build(pick("kind", kinds), pick("hitch", hitches), pick("tail", tails), pick("ramp", ramps), pick("size", sizes), pick("space", spaces),
			rapid.IntRange(0, 7).Draw(r, "axles"), rapid.SampledFrom([]int{0, 2, 4}).Draw(r, "per axle"), rapid.Bool().Draw(r, "about"),
			rapid.Float64Range(1, 700).Draw(r, "length"), in("front", 1, 140), in("floor", 4, 60), in("height", 4, 110), in("center", 30, 600),
			in("spacing", 20, 80), in("tail long", 12, 200), in("flat", 12, 500), in("tail end", 4, 40), in("ramp long", 20, 90), in("width", 50, 104))
		for _, f := range sound(t, u) {
			r.Error(f)
		}
	})
}

func FuzzMeasures(f *testing.F) {
	f.Add(uint8(0), uint8(1), uint8(1), uint8(2), uint8(1), uint8(0), 2, 336.0, 90.0, 35.0, 24.0, 306.0, 50.0, 96.0)
	f.Add(uint8(5), uint8(0), uint8(0), uint8(1), uint8(3), uint8(1), 2, 168.0, 54.0, 30.0, 24.0, 157.0, 35.0, -1.0)
	f.Add(uint8(7), uint8(3), uint8(0), uint8(5), uint8(2), uint8(2), 1, 144.0, 50.0, 19.0, 75.0, 137.0, -1.0, -1.0)
	f.Add(uint8(6), uint8(2), uint8(3), uint8(4), uint8(5), uint8(0), 6, 1e-300, 1e300, math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 5e-324)
	// A text whose room ends at the edge of the paper.
	f.Add(uint8('9'), uint8(1), uint8(1), uint8(2), uint8(20), uint8(':'), 78, 384.0, 90.0, -38.0, 4.8, 327.0, 126.0, 96.0)
	f.Fuzz(func(t *testing.T, kind, hitch, tail, ramp, size, space uint8, axles int, length, front, floor, height, center, spacing, tailLong float64) {
		pick := func(n uint8, from []string) string { return from[int(n)%len(from)] }
		u := build(pick(kind, kinds), pick(hitch, hitches), pick(tail, tails), pick(ramp, ramps), pick(size, sizes), pick(space, spaces),
			axles, 4, tailLong > floor, length, front, floor, height, center, spacing, tailLong, length-tailLong, floor/2, height, 82)
		for _, f := range sound(t, u) {
			t.Error(f)
		}
	})
}

func BenchmarkSide(b *testing.B) {
	w := worked(stated())
	for b.Loop() {
		if _, ok := elevation.Side(w); !ok {
			b.Fatal("no drawing")
		}
	}
}

// Every archive is in the table of measures, or is about missing ones.
func TestTruthIsUsed(t *testing.T) {
	var names []string
	for _, a := range archives(t) {
		names = append(names, a.name)
	}
	for name := range truth {
		if !slices.Contains(names, name) {
			t.Errorf("no archive %s", name)
		}
	}
}
