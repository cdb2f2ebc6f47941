package render

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/dop251/goja"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/oracle"
	"tarepage/internal/pagedata"
	"tarepage/internal/phrases"
	"tarepage/internal/thorough"
	theme "tarepage/themes/default"
)

// statics runs the theme's script in an engine of its own (github.com/dop251/goja, an
// ECMAScript 5.1 interpreter with most of ES6): what the page computes is compared
// with the Go code, to the last printed digit. It is run as the site has it, made small.
type statics struct {
	*goja.Runtime
	t *testing.T
}

func newStatics(t *testing.T) *statics {
	t.Helper()
	sources, err := readSources(theme.Files)
	if err != nil {
		t.Fatal(err)
	}
	s := &statics{goja.New(), t}
	if _, err := s.RunString(string(worded(sources, phrases.English)["statics.js"].text)); err != nil {
		t.Fatal(err)
	}
	return s
}

// function compiles one function over the script.
func (s *statics) function(text string) goja.Callable {
	s.t.Helper()
	v, err := s.RunString("(" + text + ")")
	if err != nil {
		s.t.Fatal(err)
	}
	call, ok := goja.AssertFunction(v)
	if !ok {
		s.t.Fatalf("%s is not a function", text)
	}
	return call
}

// ask calls it with data that goes the way of a page: written as JSON and read back.
func (s *statics) ask(f goja.Callable, args ...any) string {
	s.t.Helper()
	text, err := json.Marshal(args)
	if err != nil {
		s.t.Fatal(err)
	}
	v, err := f(goja.Undefined(), s.ToValue(string(text)))
	if err != nil {
		s.t.Fatal(err)
	}
	return v.String()
}

var cases = func() int {
	if os.Getenv("TAREPAGE_LONG") != "" {
		return 10_000
	}
	if thorough.BeforePush() {
		return 500
	}
	return 250
}()

// chance makes trailers, loads and trucks: most of them possible, some on an edge, some
// nonsense.
type chance struct{ *rand.Rand }

func (c chance) between(a, b float64) float64 { return a + c.Float64()*(b-a) }

// odd picks one of a few values that sit on edges, else a drawn one: whole, in hundredths,
// or with every bit of a float64.
func (c chance) odd(a, b float64, edges ...float64) float64 {
	v := c.between(a, b)
	switch n := c.IntN(10); {
	case n == 0 && len(edges) > 0 && c.IntN(3) == 0:
		return edges[c.IntN(len(edges))]
	case n < 6:
		return math.Round(v)
	case n < 8:
		return math.Round(v*100) / 100
	}
	return v
}

func (c chance) pounds(a, b float64, edges ...float64) measure.Pounds {
	v := c.odd(a, b, edges...)
	if c.IntN(5) == 0 {
		return measure.FromKilograms(math.Round(v * measure.KilogramsPerPound)) // typed in kilograms
	}
	return measure.Pounds(v)
}

func (c chance) inches(a, b float64, edges ...float64) measure.Inches {
	v := c.odd(a, b, edges...)
	switch c.IntN(6) {
	case 0:
		return measure.FromMillimeters(math.Round(v * measure.MillimetersPerInch))
	case 1:
		return measure.Inches(math.Round(v*64) / 64)
	}
	return measure.Inches(v)
}

func (c chance) maybe(p measure.Pounds) compute.Result[measure.Pounds] {
	if c.IntN(6) == 0 {
		return compute.Result[measure.Pounds]{}
	}
	return compute.Result[measure.Pounds]{Value: p, Known: true}
}

func (c chance) maybeInches(in measure.Inches) compute.Result[measure.Inches] {
	if c.IntN(6) == 0 {
		return compute.Result[measure.Inches]{}
	}
	return compute.Result[measure.Inches]{Value: in, Known: true}
}

func (c chance) system() measure.System { return measure.System(c.IntN(2)) }

func (c chance) rig() compute.Rig {
	r := compute.Rig{
		Empty: c.pounds(500, 9000, 0, 1, -5, 2e9), GVWR: c.pounds(8000, 40000, 0, 26000),
		Front: c.inches(-10, 150, 0), Length: c.inches(60, 640, 0),
	}
	if r.Axles = c.inches(80, 450, 0, 1); c.IntN(3) > 0 {
		r.Axles = r.Front + measure.Share(c.between(0.5, 0.8)).OfLength(r.Length) // a usual place
	}
	r.Tongue = measure.Share([]float64{0, 1, 1.5, -1, 0.1, 0.15, c.between(-0.1, 0.4), c.between(0.05, 0.3), c.between(0.05, 0.3), c.between(0.05, 0.3)}[c.IntN(10)]).Of(r.Empty)
	bands := [][2]measure.Share{{0.10, 0.15}, {0.10, 0.15}, {0.15, 0.25}, {0.15, 0.25}, {0, 0}, {0, 1}, {0.12, 0.12}, {0.3, 0.2}, {0.1234567, 0.2}}
	b := bands[c.IntN(len(bands))]
	r.Least, r.Most = b[0], b[1]
	for i := range r.Holds {
		if i == 0 || c.IntN(4) > 0 {
			r.Holds[i] = c.pounds(6000, 45000)
		}
	}
	r.Hold, r.HoldBy = r.Holds[0], compute.AxleHold
	for i, h := range r.Holds {
		if h > 0 && h < r.Hold {
			r.Hold, r.HoldBy = h, compute.AxleHold+compute.Constraint(i)
		}
	}
	if c.IntN(2) == 0 {
		r.TongueMost = c.pounds(300, 8000, -1)
	}
	if c.IntN(2) == 0 {
		r.Coupler = c.pounds(2000, 40000)
	}
	if c.IntN(2) == 0 {
		r.Ball = c.pounds(2000, 40000)
	}
	return r
}

func (c chance) load(r compute.Rig) compute.Load {
	l := compute.Load{Weight: c.pounds(100, 16000, 0, 1, 0.5, -3, 2e9), Length: c.inches(0, 300, 0, -1)}
	switch c.IntN(8) {
	case 0: // all that is left, to the pound and to the bit
		l.Weight = r.GVWR - r.Empty
	case 1:
		l.Length = r.Length
	}
	return l
}

// TestStaticsWindow: where a load may be, as the page says it, on many trailers.
func TestStaticsWindow(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(5, 1))}
	f := s.function(`function(a) { a = JSON.parse(a); var w = Statics.window(a[0], a[1], a[2]); return w.room + " " + Statics.windowText(w, a[3]); }`)
	rooms, said := 0, map[string]int{}
	for i := range 2 * max(cases, 500) { // one of the nine answers is rare
		r := c.rig()
		l, in := c.load(r), c.system()
		w := r.Window(l)
		want := fmt.Sprint(w.Room, " ", w.In(in))
		if got := s.ask(f, pagedata.Calculator(r, compute.Towed{}), float64(l.Weight), float64(l.Length), in == measure.Metric); got != want {
			t.Fatalf("case %d: %+v with %+v\n page %s\n Go   %s", i, r, l, got, want)
		}
		if w.Room {
			rooms++
		}
		for _, part := range []string{"only at", "not a load", "leaves for a load", "is longer than", "no farther forward", "weigh and measure", " m ", "0 in", "-"} {
			if strings.Contains(want, part) {
				said[part]++
			}
		}
	}
	if rooms < cases/10 || len(said) != 9 {
		t.Errorf("the cases reach too little: %d with room, %v", rooms, said)
	}
}

func (c chance) towed(r compute.Rig) compute.Towed {
	known := func(p measure.Pounds) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: p, Known: true}
	}
	t := compute.Towed{
		Empty: known(r.Empty), GVWR: known(r.GVWR), TongueEmpty: c.maybe(r.Tongue), Payload: c.maybe(c.pounds(0, 25000, 0, -1)),
		Axles:  compute.Result[measure.Inches]{Value: r.Axles, Known: true},
		Center: compute.Result[measure.Inches]{Value: r.Front + r.Length.Half(), Known: true},
		NoBall: c.IntN(4) == 0, Unbraked: c.IntN(4) == 0, NoMachines: c.IntN(12) == 0,
	}
	if c.IntN(16) > 0 {
		t.Room = c.maybeInches(c.inches(82, 130, 82, 72))
		t.Room.Known = true
	}
	t.Floor = c.maybeInches(c.inches(10, 60, 0, 42))
	t.NoWay = c.IntN(8) == 0
	if t.Closed = c.IntN(5) == 0; t.Closed {
		t.Inside = c.maybeInches(c.inches(60, 120, 120))
	}
	if c.IntN(2) == 0 {
		t.WayUp = compute.Result[measure.Degrees]{Value: 20, Known: true}
	}
	if c.IntN(4) == 0 {
		t.SurgeTruck = known(c.pounds(2000, 16000))
	}
	return t
}

// rated gives the trailer ratings of its way up and of a short part of its deck.
func (c chance) rated(t compute.Towed) compute.Towed {
	if t.WayBy = compute.RampsHold + compute.Constraint(c.IntN(3)); c.IntN(3) == 0 {
		t.WayHolds = c.maybe(c.pounds(1000, 16000))
	}
	if c.IntN(3) == 0 {
		t.PartHolds, t.Part = c.maybe(c.pounds(1000, 16000)), c.maybeInches(c.inches(24, 200))
	}
	return t
}

func (c chance) truck() oracle.Truck {
	if c.IntN(50) == 0 {
		return oracle.Truck{} // nothing known
	}
	return oracle.Truck{
		GVWR: c.maybe(c.pounds(5000, 33000, 26001, 14000, 0)), Weight: c.maybe(c.pounds(4000, 15000, 0)),
		RearRating: c.maybe(c.pounds(3000, 21000)), RearWeight: c.maybe(c.pounds(1000, 6000, 0, 20000)), FrontRating: c.maybe(c.pounds(3000, 9000)),
		GCWR: c.maybe(c.pounds(8000, 45000, 26001)), GCWROnLabel: c.IntN(3) == 0,
		Unbraked:    c.maybe(c.pounds(1000, 9000, 0)),
		HitchRating: c.maybe(c.pounds(2000, 40000, 0)), HitchTongue: c.maybe(c.pounds(200, 8000)), BallRating: c.maybe(c.pounds(2000, 40000)),
		Wheelbase: c.maybeInches(c.inches(100, 220, 0)), BallBehind: c.maybeInches(c.inches(-30, 70, 0, -400)),
		In: c.system(),
	}
}

// truckData is a truck as statics.js takes it.
func truckData(t oracle.Truck) map[string]any {
	out := map[string]any{"onLabel": t.GCWROnLabel}
	for name, p := range map[string]compute.Result[measure.Pounds]{
		"gvwr": t.GVWR, "weight": t.Weight, "rear": t.RearRating, "rearWeight": t.RearWeight, "front": t.FrontRating,
		"gcwr": t.GCWR, "hitch": t.HitchRating, "tongue": t.HitchTongue, "ball": t.BallRating, "unbraked": t.Unbraked,
	} {
		if p.Known {
			out[name] = float64(p.Value)
		}
	}
	for name, in := range map[string]compute.Result[measure.Inches]{"base": t.Wheelbase, "behind": t.BallBehind} {
		if in.Known {
			out[name] = float64(in.Value)
		}
	}
	return out
}

// typing makes texts as people type them: most can be read, some nearly.
func (c chance) typing() string {
	pick := func(from ...string) string { return from[c.IntN(len(from))] }
	digits := func() string {
		n := c.IntN(1_000_000)
		switch c.IntN(8) {
		case 0:
			return measure.Count(n)
		case 1:
			return fmt.Sprintf("%d.%d", n%20_000, c.IntN(1000))
		case 2:
			return fmt.Sprintf("%d.%03d", n%1200, c.IntN(1000))
		case 3:
			return fmt.Sprintf("%d,%d", n%1000, c.IntN(10_000))
		case 4:
			return fmt.Sprint(n % 30)
		case 5:
			return "." + fmt.Sprint(n%100)
		case 6:
			return fmt.Sprintf("%d%s%d/%d", n%20, pick(" ", "-", "  ", "- ", ""), c.IntN(9), []int{2, 4, 8, 16, 32, 64, 3, 10, 0, 15}[c.IntN(10)])
		}
		return fmt.Sprint(n % 40_000)
	}
	unit := func() string {
		return pick("", "", "lb", "lbs", "LB.", "#", "kg", "kilos", "k", "K", "k lb", "thousand", "thousand pounds", "t", "ton", "Tons", "metric tons", "short ton", "tonnes", "klb",
			"ft", "'", "’", "′", "foot", "in", "\"", "″", "''", "inches", "mm", "cm", "m", "meters", "yd", "psi", "$", "%", "Kg", "Kg", "ſ")
	}
	space := func() string { return pick("", " ", " ", "  ", " ", "-", "\t", " ") }
	s := pick("", "", "", "", " ", "-", "− ", "+", "about ", "$", "~") + digits() + space() + unit()
	switch c.IntN(6) {
	case 0, 1:
		s += pick(" ", "", "-", ", ", " and ", ",", " - ") + digits() + space() + unit()
	case 2:
		s += pick("½", " ½", "¾ in", "⅛\"", "x", " and a half", " lb lb", "/2", "1/2", " 6", "—", "e5", ".", ",")
	}
	if c.IntN(40) == 0 {
		s = pick("", " ", "abc", "-5", "0", "7k", "9.5k", "9500 kg", "11 ft 6 in", "11,5", "0/0", "1½5", "11'6", "11' 6\"", "8'-6\"", "11.5 ft 6 in", "11 ft 13 in", "1e5", "Infinity", "NaN", "0x10",
			"١٢", "9.500", "18.450 lb", "10/15 in", "999999999999999999999", "1/2/4 in", "6 in 2 ft", "5 ft 3 cm", "5 t 3", "--4", ".", ",", "1,234,567", "− 4 ft")
	}
	return s
}

// TestStaticsRead: what somebody types is read or refused by the page as Go does it, in every
// kind of field.
func TestStaticsRead(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 1))}
	f := s.function(`function(a) { a = JSON.parse(a); var o = Statics.read(a[0], { name: "It", unit: a[1], signed: a[2], zero: a[3] }, a[4]);
		return [o.is, o.is == "ok" ? o.value : 0, o.echo || "", o.code || "", o.what || "", (o.choices || []).map(function (c) { return c.text; }).join("|")].join("; "); }`)
	said := map[string]int{}
	for i := range 2 * cases {
		text, in := c.typing(), c.system()
		field := oracle.Field{Unit: []string{"lb", "ft", "in"}[c.IntN(3)], Signed: c.IntN(3) == 0, Zero: c.IntN(3) == 0}
		g := oracle.ReadTyped(text, field, in)
		value, err := json.Marshal(g.Value)
		if err != nil {
			t.Fatal(err)
		}
		want := strings.Join([]string{g.Is, string(value), g.Echo, g.Code, g.What, strings.Join(g.Choices, "|")}, "; ")
		if got := s.ask(f, text, field.Unit, field.Signed, field.Zero, in == measure.Metric); got != want && !(g.Value == 0 && strings.Replace(want, "-0", "0", 1) == got) {
			t.Fatalf("case %d: %q in %+v\n page %s\n Go   %s", i, text, field, got, want)
		}
		said[g.Is+" "+g.Code]++
	}
	for _, k := range []string{"ok ", "blank ", "ask ton", "bad number", "bad below", "bad commas", "bad decimals", "bad fraction", "bad unit", "bad rest", "bad inches", "bad large", "bad zero"} {
		if said[k] < cases/1000 {
			t.Errorf("%q came %d times; the cases reach too little", k, said[k])
		}
	}
}

func (c chance) machine(r compute.Rig) compute.Machine {
	l := c.load(r)
	m := compute.Machine{Load: l, Center: measure.Share(c.between(0.3, 0.7)).OfLength(l.Length)}
	m.Margin = measure.Share(c.between(0, 0.1)).OfLength(l.Length)
	if c.IntN(10) == 0 {
		m.Margin = 0
	}
	if c.IntN(16) > 0 {
		m.Narrow = c.inches(30, 90, 82)
		m.Wide = m.Narrow + measure.Inches(c.IntN(3)*c.IntN(12))
	}
	if c.IntN(4) == 0 {
		m.Tall = c.inches(60, 150, 120)
	}
	m.Lifted = c.IntN(2) == 0
	return m
}

func machineData(m compute.Machine) map[string]any {
	var wide any
	if m.Wide > 0 {
		wide = []any{float64(m.Narrow), float64(m.Wide)}
	}
	shape := ""
	if m.Lifted {
		shape = "freight"
	}
	return map[string]any{"shape": shape, "wide": wide, "w": float64(m.Weight), "L": float64(m.Length), "a": float64(m.Center), "m": float64(m.Margin), "head": "front", "tail": "rear", "tall": float64(m.Tall)}
}

func setData(sets []compute.Set) []map[string]any {
	out := []map[string]any{}
	for _, s := range sets {
		d := machineData(s.Machine)
		d["x"] = float64(s.At)
		out = append(out, d)
	}
	return out
}

// TestStaticsSpots: where a machine may be among none to two others, and what the trailer
// bears with it there. Every end of a spot is checked with Bear, which places the machine
// and asks each limit by itself, with its center a margin off either way.
func TestStaticsSpots(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 2))}
	f := s.function(`function(a) { a = JSON.parse(a); var si = a[4], b = Statics.bear(a[0], a[3]);
		return Statics.spots(a[0], a[1], a[2]).map(function (s) { return s.is + " " + Statics.spotText(s, a[1], "deck", si); }).concat([b.keeps, b.apart, Statics.load(b.total, si), Statics.load(b.tongue, si), Statics.share(b.share)],
			b.margins.map(function (m) { return Statics.NAMES[m.by] + " " + Statics.marginText(m, si); })).join("; "); }`)
	fits, among := map[compute.Fit]int{}, 0
	for i := range 2 * cases {
		r, in := c.rig(), c.system()
		m := c.machine(r)
		others := []compute.Set{}
		for range c.IntN(3) * c.IntN(2) {
			o := compute.Set{Machine: c.machine(r), At: c.inches(0, 400, 0)}
			o.Weight, o.Length = o.Weight/4, o.Length/4
			others = append(others, o)
		}
		spots := r.Spots(m, others)
		var words []string
		for _, sp := range spots {
			words = append(words, string(sp.Fit)+" "+oracle.SpotText(sp, m.Length, "front", "deck", in))
			fits[sp.Fit]++
			if sp.Fit != compute.Fits || m.Length < 0 {
				continue
			}
			among += len(others)
			for _, off := range []measure.Inches{-m.Margin, m.Margin} {
				for _, at := range []measure.Inches{sp.First, sp.Last, sp.Best()} {
					placed := compute.Set{Machine: m, At: at}
					placed.Center += off
					if b, _ := r.Bear(append([]compute.Set{placed}, others...)); !b.Keeps && apart(append(others, placed), r.Length) {
						t.Fatalf("case %d: %+v of %+v among %+v breaks a limit: %+v", i, placed, sp, others, b)
					}
				}
			}
		}
		sets := append(others[:len(others):len(others)], compute.Set{Machine: m, At: c.inches(0, 300, 0)})
		b, isApart := r.Bear(sets)
		words = append(words, fmt.Sprint(b.Keeps), fmt.Sprint(isApart), in.Load(b.Total), in.Load(b.Tongue), b.Share.Near())
		for _, g := range b.Margins {
			words = append(words, g.By.String()+" "+g.In(in))
		}
		want := strings.Join(words, "; ")
		if got := s.ask(f, pagedata.Calculator(r, compute.Towed{}), machineData(m), setData(others), setData(sets), in == measure.Metric); got != want {
			t.Fatalf("case %d: %+v on %+v among %+v\n page %s\n Go   %s", i, m, r, others, got, want)
		}
	}
	if fits[compute.Fits] < cases/10 || fits[compute.Close] < cases/100 || among < cases/100 {
		t.Errorf("the cases reach too little: %v, %d among others", fits, among)
	}
}

// apart reports whether no two overlap and none is over an end.
func apart(sets []compute.Set, length measure.Inches) bool {
	for i, a := range sets {
		if a.At < 0 || a.Length <= 0 || a.Weight < 1 || a.At+a.Length > length {
			return false
		}
		for _, b := range sets[:i] {
			if a.At < b.At+b.Length && b.At < a.At+a.Length {
				return false
			}
		}
	}
	return true
}

// TestStaticsCarry: will it carry mine, for one machine or several.
func TestStaticsCarry(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 3))}
	f := s.function(`function(a) { a = JSON.parse(a); var v = Statics.carry(a[0], a[1], a[2], a[3]);
		return [v.is, v.text, v.needs.map(function (n) { return n.key; }).join(" "), v.limits.map(function (l) { return l.key + " " + l.label + " " + l.text; }).join("; "), v.notes.join("; "), v.best ? Statics.load(v.best.tongue, a[2]) : ""].join("\n"); }`)
	is, closest := map[string]int{}, map[string]int{}
	for i := range 2 * cases {
		r, in := c.rig(), c.system()
		towed := c.rated(c.towed(r))
		if towed.Payload.Known && c.IntN(2) == 0 {
			towed.Payload.Value = r.GVWR - r.Empty
		}
		if c.IntN(2) == 0 { // one that a machine drives onto, or few answers would be a yes
			towed.NoWay, towed.Closed, towed.WayUp.Known, towed.Floor.Known = false, false, false, false
			towed.Inside.Known = false
			if c.IntN(2) == 0 {
				towed.NoMachines, towed.WayHolds.Known, towed.PartHolds.Known, towed.Room.Value = false, false, false, 130
				towed.TongueEmpty = compute.Result[measure.Pounds]{Value: r.Tongue, Known: true}
			}
		}
		var list []compute.Machine
		words := []map[string]any{}
		for range []int{1, 1, 1, 2, 3, 0}[c.IntN(6)] {
			m := c.machine(r)
			if len(list) > 0 {
				m.Weight, m.Length, m.Center, m.Margin = m.Weight/3, m.Length/3, m.Center/3, m.Margin/3
			}
			if towed.Closed && c.IntN(3) > 0 {
				m.Tall = c.inches(40, 100)
			}
			w := machineData(m)
			// By hand: 100 in between the wheels on a way up of 20 degrees need 50 tan 10 = 8.8 in.
			if under := c.inches(5, 14); c.IntN(5) == 0 {
				m.Drags = towed.WayUp.Known && under < 8.81
				w["base"], w["under"] = 100, float64(under)
			}
			list = append(list, m)
			words = append(words, w)
		}
		c.edge(&towed, list)
		trailer := oracle.Trailer{Rig: r, Towed: towed, Whole: true, Deck: compute.Result[measure.Inches]{Value: r.Length, Known: true}}
		data := pagedata.Calculator(r, towed)
		if c.IntN(6) == 0 { // a measurement is missing
			k := []int{0, 1, 2, 3, 4, 5, 6, 11}[c.IntN(8)]
			trailer.Whole, data[k] = false, nil
			trailer.Deck.Known = k != 4
		}
		var truck *oracle.Truck
		var truckWords any
		if c.IntN(2) == 0 {
			k := c.fullTruck()
			k.In = in
			truck, truckWords = &k, pullData(k)
		}
		v := oracle.Carry(trailer, list, "front", truck, in)
		is[v.Is]++
		if strings.Contains(v.Text, "drags") {
			is["drags"]++
		}
		for _, n := range v.Notes {
			is[n[:12]]++
		}
		var limits []string
		for _, l := range v.Limits {
			closest[l.Key+fmt.Sprint(l.Over)]++
			limits = append(limits, l.Key+" "+l.Label+" "+l.Text)
		}
		tongue := ""
		if len(v.Sets) > 0 {
			tongue = in.Load(v.Best.Tongue)
		}
		want := strings.Join([]string{v.Is, v.Text, strings.Join(v.Needs, " "), strings.Join(limits, "; "), strings.Join(v.Notes, "; "), tongue}, "\n")
		if got := s.ask(f, data, words, in == measure.Metric, truckWords); got != want {
			t.Fatalf("case %d: %+v on %+v\n page %s\n Go   %s", i, list, trailer, got, want)
		}
		if v.Is == "yes" && (len(v.Needs) > 0 || !v.Best.Keeps || !towed.TongueEmpty.Known) {
			t.Fatalf("case %d: a yes that should not be one: %+v", i, v)
		}
		if over := slices.ContainsFunc(towed.Held(v.Sets), func(m compute.Margin) bool { return m.Over }); over && v.Is == "yes" {
			t.Fatalf("case %d: a yes over the rating of the way up or of a part of the deck: %+v with %+v", i, v, towed)
		}
		wide := func(m compute.Machine) bool { return !(m.Wide > 0) || !measure.NotOver(m.Wide, towed.Room.Value) }
		if v.Is == "yes" && (!towed.Room.Known || slices.ContainsFunc(list, wide)) {
			t.Fatalf("case %d: a yes to a machine that may be too wide: %+v on %+v", i, list, towed.Room)
		}
		if v.Is == "yes" && slices.ContainsFunc(list, func(m compute.Machine) bool {
			return m.Drags || towed.NoWay && !m.Lifted || towed.Closed && !(m.Tall > 0 && towed.Inside.Known && m.Tall <= towed.Inside.Value)
		}) {
			t.Fatalf("case %d: a yes to what drags, has no way up or stands through the roof: %+v on %+v", i, list, towed)
		}
		if high := func(m compute.Machine) bool {
			return towed.Floor.Known && towed.Floor.Value > 0 && towed.Floor.Value+m.Tall > 162
		}; v.Is == "yes" && slices.ContainsFunc(list, high) {
			t.Fatalf("case %d: a yes to a load above 13 ft 6 in: %+v on %+v", i, list, towed.Floor)
		}
		for _, n := range v.Needs {
			is[n]++
		}
	}
	if closest["widthtrue"] < cases/50 || closest["widthfalse"] < cases/10 || is["width"] < cases/20 || is["room"] < cases/50 || is["top"] < cases/50 || is["way"] < cases/50 || is["inside"] < cases/100 || closest["insidetrue"] < cases/100 || is["drags"] < cases/100 {
		t.Errorf("the cases reach too little of widths and heights: %v, %v", closest, is)
	}
	if is["yes"] < cases/20 || is["no"] < cases/10 || is["unknown"] < cases/10 || is["part"] < cases/100 || is["order"] < cases/100 || is["This place a"] < cases/200 || is["No place on "] < cases/200 {
		t.Errorf("the cases reach too little: %v", is)
	}
	for by := compute.RampsHold; by <= compute.PartHold; by++ {
		for _, over := range []string{"true", "false"} {
			if key := "by" + fmt.Sprint(int(by)) + over; closest[key] < cases/50 {
				t.Errorf("%s came %d times; the cases reach too little", key, closest[key])
			}
		}
	}
}

// edge puts a rating of the way up, or of a part of the deck, at what the machines weigh, or the
// part at their length.
func (c chance) edge(t *compute.Towed, list []compute.Machine) {
	if len(list) == 0 || c.IntN(3) > 0 {
		return
	}
	m := list[c.IntN(len(list))]
	t.WayHolds.Value, t.PartHolds.Value = m.Weight, m.Weight
	if c.IntN(2) == 0 {
		t.Part.Value = m.Length
	}
}

// TestStaticsHeld: what machines anywhere on the deck put on the way up and on a short part of
// it, as the page has it while one is dragged.
func TestStaticsHeld(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 6))}
	f := s.function(`function(a) { a = JSON.parse(a); return Statics.held(a[0], a[1]).map(function (m) {
		return [Statics.NAMES[m.by], Statics.limit(m.limit), Statics.load(m.used), m.over].join(" "); }).join("; "); }`)
	over := 0
	for i := range cases {
		r := c.rig()
		towed := c.rated(c.towed(r))
		var sets []compute.Set
		for range 1 + c.IntN(3) {
			sets = append(sets, compute.Set{Machine: c.machine(r), At: c.inches(0, 400, 0)})
		}
		var words []string
		for _, m := range towed.Held(sets) {
			words = append(words, fmt.Sprint(m.By, " ", measure.American.Limit(m.Limit), " ", measure.American.Load(m.Used), " ", m.Over))
			if m.Over {
				over++
			}
		}
		want := strings.Join(words, "; ")
		if got := s.ask(f, pagedata.Calculator(r, towed), setData(sets)); got != want {
			t.Fatalf("case %d: %+v on %+v\n page %s\n Go   %s", i, sets, towed, got, want)
		}
	}
	if over < cases/10 {
		t.Errorf("only %d of the ratings were broken", over)
	}
}

// fullTruck is a truck with what the verdict asks for too.
func (c chance) fullTruck() oracle.Truck {
	k := c.truck()
	if c.IntN(3) > 0 { // one that could be: most drawn ones contradict themselves
		k.GVWR, k.GCWR = c.maybe(c.pounds(6000, 14000, 10000)), c.maybe(c.pounds(14000, 45000))
		k.Weight, k.RearWeight = c.maybe(c.pounds(5000, 9000)), c.maybe(c.pounds(2000, 4500))
		k.Unbraked = c.maybe(c.pounds(1000, 9000))
		k.HitchRating, k.HitchTongue, k.BallRating = c.maybe(c.pounds(5000, 40000)), c.maybe(c.pounds(500, 5000)), c.maybe(c.pounds(5000, 40000))
		k.Wheelbase, k.BallBehind = c.maybeInches(c.inches(120, 180)), c.maybeInches(c.inches(-10, 60))
	}
	k.Kind = []string{"", "receiver", "receiver", "receiver", "gooseneck", "gooseneck", "fifth-wheel", "pintle"}[c.IntN(8)]
	k.Sticker, k.People, k.Tow = c.maybe(c.pounds(800, 5000)), c.maybe(c.pounds(60, 1200, 75)), c.maybe(c.pounds(5000, 35000))
	k.Distributes = []string{"", "yes", "no"}[c.IntN(3)]
	if c.IntN(2) == 0 {
		k.HitchWD, k.TongueWD = c.maybe(c.pounds(8000, 20000)), c.maybe(c.pounds(800, 2000))
	}
	k.BallSize = c.maybeInches([]measure.Inches{1.875, 2, 2.3125, 2.3125}[c.IntN(4)])
	k.RearTires = c.maybe(c.pounds(4000, 9000))
	return k
}

// pullData is a truck as Statics.pull takes it.
func pullData(k oracle.Truck) map[string]any {
	out := truckData(k)
	for name, p := range map[string]compute.Result[measure.Pounds]{
		"sticker": k.Sticker, "people": k.People, "tow": k.Tow, "hitchWD": k.HitchWD, "tongueWD": k.TongueWD, "tires": k.RearTires,
	} {
		if p.Known {
			out[name] = float64(p.Value)
		}
	}
	if k.BallSize.Known {
		out["size"] = float64(k.BallSize.Value)
	}
	if k.Kind != "" {
		out["kind"] = k.Kind
	}
	if k.Distributes != "" {
		out["wd"] = k.Distributes == "yes"
	}
	return out
}

// TestStaticsPull: can my truck pull it, with every limit, need, note and the license. No
// yes comes with a need or a broken limit.
func TestStaticsPull(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 4))}
	f := s.function(`function(a) { a = JSON.parse(a); var si = a[4], on = a[2], v;
		if (on && on.place) on.stand = Statics.bear(a[0], on.place);
		v = Statics.pull(a[0], a[1], on, a[3], si);
		return [v.is, v.text, v.needs.map(function (n) { return n.key; }).join(" "), v.limits.map(function (l) { return [l.key, l.label, l.text].join(" "); }).join("; "),
			v.notes.join("; "), v.most == null ? "" : Statics.limit(v.most, si), v.license, v.licenseKnown, v.business].join("\n"); }`)
	is, closest, needs, notes, broken := map[string]int{}, map[string]int{}, map[string]int{}, 0, 0
	for i := range 2 * cases {
		r := c.rig()
		towed, truck := c.towed(r), c.fullTruck()
		towed.Kind = []string{"", "bumper-pull", "bumper-pull", "gooseneck", "fifth-wheel", "pintle", truck.Kind, truck.Kind}[c.IntN(8)]
		if towed.Kind == "receiver" {
			towed.Kind = "bumper-pull"
		}
		towed.Ball = []measure.Inches{0, 2, 2.3125}[c.IntN(3)]
		if truck.BallSize.Known && c.IntN(2) == 0 {
			towed.Ball = truck.BallSize.Value
		}
		towed.Unbraked = towed.Unbraked && c.IntN(3) > 0
		towed.Least, towed.Most = r.Least, r.Most
		if towed.Payload.Known && c.IntN(2) == 0 {
			towed.Payload.Value = max(r.GVWR-r.Empty, 0)
		}
		var on *oracle.On
		var data any
		if c.IntN(2) == 0 {
			on = &oracle.On{Load: c.pounds(100, 14000, -1, 0), Tongue: c.maybe(c.pounds(-200, 3000))}
			d := map[string]any{"w": float64(on.Load), "tongue": nil}
			if on.Tongue.Known {
				d["tongue"] = float64(on.Tongue.Value)
			}
			if c.IntN(3) > 0 {
				d["place"] = setData(c.placed(r, on))
			}
			data = d
		}
		v := oracle.Pull(towed, truck, on)
		in := truck.In
		var limits []string
		for _, l := range v.Limits {
			limits = append(limits, l.Key+" "+l.Label+" "+l.Text)
		}
		most := ""
		if v.Most.Known {
			most = in.Limit(v.Most.Value)
		}
		want := strings.Join([]string{v.Is, v.Text, strings.Join(v.Needs, " "), strings.Join(limits, "; "), strings.Join(v.Notes, "; "), most, fmt.Sprint(int(v.License)),
			fmt.Sprint(v.LicenseKnown), fmt.Sprint(v.MayBeCommercial)}, "\n")
		if got := s.ask(f, pagedata.Calculator(r, towed), pullData(truck), data, pagedata.LicenseLimits(), in == measure.Metric); got != want {
			t.Fatalf("case %d: %+v behind %+v with %+v\n page %s\n Go   %s", i, towed, truck, on, got, want)
		}
		is[v.Is]++
		notes += len(v.Notes)
		for _, n := range v.Needs {
			needs[n]++
		}
		if len(v.Limits) > 0 {
			closest[v.Limits[0].Key]++
		}
		if on != nil && on.Placed != nil && !on.Placed.Keeps {
			broken++
		}
		if v.Is == "yes" && (len(v.Needs) > 0 || v.Limits[0].Over || on != nil && on.Placed != nil && !on.Placed.Keeps) {
			t.Fatalf("case %d: a yes that should not be one: %+v", i, v)
		}
	}
	if is["yes"] < cases/100 || is["no"] < cases/10 || is["unknown"] < cases/10 || len(closest) < 14 || len(needs) < 15 || notes < cases || broken < cases/10 {
		t.Errorf("the cases reach too little: %v, closest %v, needs %v, %d notes, %d places that break a limit", is, closest, needs, notes, broken)
	}
}

// placed sets one or two machines somewhere on the trailer and returns what the trailer bears.
func (c chance) placed(r compute.Rig, on *oracle.On) []compute.Set {
	var sets []compute.Set
	for range 1 + c.IntN(2) {
		m := c.machine(r)
		sets = append(sets, compute.Set{Machine: m, At: measure.Share(c.between(0, 0.8)).OfLength(max(r.Length, 0))})
	}
	b, isApart := r.Bear(sets)
	on.Placed = &oracle.Placed{Stand: b, Apart: isApart, Alone: len(sets) == 1}
	return sets
}

// TestStaticsAnswer: both answers of a card and of a page, for what a customer brings. No truck gets
// a yes for machines that the trailer's own answer is not a yes for, and the best place is one that
// the truck's hitch takes where there is such a place at all.
func TestStaticsAnswer(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 8))}
	f := s.function(`function(a) { a = JSON.parse(a); var o = Statics.answer(a[0], a[1], a[2], a[3], a[4]);
		return [o.m, o.t].map(function (v) { return v ? [v.is, v.text, v.notes.join("; "), v.needs.map(function (n) { return n.key; }).join(" "), (v.put || []).map(function (c) { return Math.round(c.x * 1000); }).join(" ")].join("\n") : "none"; }).join("\n\n"); }`)
	is, places := map[string]int{}, 0
	for i := range 2 * cases {
		trailer, data := c.answerable()
		list, heads, words := c.brought(trailer.Rig)
		doubt := ""
		if len(list) > 0 && c.IntN(8) == 0 {
			doubt = "is it really so"
			words[0]["doubt"] = doubt
		}
		var truck *oracle.Truck
		var truckWords any
		in := c.system()
		if c.IntN(6) > 0 {
			k := c.fitTruck()
			k.In = in
			truck, truckWords = &k, pullData(k)
		}
		m, p := oracle.Answer(trailer, list, heads, doubt, truck, in)
		var said []string
		if m == nil {
			said = append(said, "none")
		} else {
			var put []string
			for _, o := range m.Put {
				put = append(put, fmt.Sprint(math.Floor(float64(o.At)*1000+0.5)))
			}
			said = append(said, answerWords(m.Verdict, strings.Join(put, " ")))
		}
		if p == nil {
			said = append(said, "none")
		} else {
			said = append(said, answerWords(p.Verdict, ""))
		}
		want := strings.Join(said, "\n\n")
		if got := s.ask(f, data, words, truckWords, pagedata.LicenseLimits(), in == measure.Metric); got != want {
			t.Fatalf("case %d: %+v on %+v behind %+v\n page %s\n Go   %s", i, list, trailer, truck, got, want)
		}
		if m == nil || p == nil {
			continue
		}
		is[m.Is+" "+p.Is]++
		if p.Is == "yes" && m.All > 0 && (m.Is != "yes" || doubt != "") {
			t.Fatalf("case %d: the truck's yes, and the machine's %s: %+v\n%+v", i, m.Text, trailer, p)
		}
		if m.Is == "yes" && p.Is == "no" && len(list) == 1 && c.IntN(4) > 0 {
			places++
			betterPlace(t, trailer, *truck, m, list[0])
		}
	}
	for _, k := range []string{"yes yes", "yes no", "yes unknown", "no no", "unknown unknown", "unknown no"} {
		if is[k] < max(cases/300, 1) {
			t.Errorf("%q came %d times; the cases reach too little: %v", k, is[k], is)
		}
	}
	if places < max(cases/150, 1) {
		t.Errorf("only %d places were sought", places)
	}
}

func answerWords(v oracle.Verdict, put string) string {
	return strings.Join([]string{v.Is, v.Text, strings.Join(v.Notes, "; "), strings.Join(v.Needs, " "), put}, "\n")
}

// betterPlace fails where a truck that says no with the machine at its best place says yes with it
// somewhere else, with its center off by its margin either way.
func betterPlace(t *testing.T, trailer oracle.Trailer, truck oracle.Truck, m *oracle.Carried, machine compute.Machine) {
	t.Helper()
	for x := measure.Inches(0); x+machine.Length <= trailer.Length; x++ {
		yes := true
		for _, off := range []measure.Inches{-machine.Margin, 0, machine.Margin} {
			set := compute.Set{Machine: machine, At: x}
			set.Center += off
			yes = yes && oracle.PullWith(trailer, truck, m, []compute.Set{set}).Is == "yes"
		}
		if yes {
			t.Fatalf("best at %v, where the truck says no; at %v it says yes: %+v on %+v behind %+v", m.Put[0].At, x, machine, trailer, truck)
		}
	}
}

// answerable is a trailer with ratings of its way up, at times without a measurement.
func (c chance) answerable() (oracle.Trailer, []any) {
	r := c.rig()
	towed := c.towed(r)
	if c.IntN(2) == 0 {
		towed = c.rated(towed)
	} else { // one that most machines fit, or few answers would be a yes
		towed.NoMachines, towed.NoBall, towed.Unbraked = false, false, false
		towed.Payload = compute.Result[measure.Pounds]{Value: max(r.GVWR-r.Empty, 0), Known: true}
	}
	towed.Kind = []string{"", "bumper-pull", "bumper-pull", "gooseneck"}[c.IntN(4)]
	towed.Least, towed.Most = r.Least, r.Most
	if towed.Payload.Known && c.IntN(3) > 0 {
		towed.Payload.Value = max(r.GVWR-r.Empty, 0)
	}
	trailer := oracle.Trailer{Rig: r, Towed: towed, Whole: true, Deck: compute.Result[measure.Inches]{Value: r.Length, Known: true}}
	data := pagedata.Calculator(r, towed)
	if c.IntN(8) == 0 {
		k := []int{6, 11}[c.IntN(2)]
		trailer.Whole, data[k] = false, nil
		if k == 11 {
			trailer.Towed.Least = 0
		}
	}
	return trailer, data
}

// brought are one or two machines that could be, or none.
func (c chance) brought(r compute.Rig) (list []compute.Machine, heads []string, words []map[string]any) {
	words = []map[string]any{}
	for k := range []int{1, 1, 1, 2, 0, 3}[c.IntN(6)] {
		m := c.machine(r)
		if c.IntN(3) > 0 {
			m.Weight = measure.Pounds(c.between(0.2, []float64{0.6, 1.02}[c.IntN(2)])) * max(r.GVWR-r.Empty, 1)
			if c.IntN(4) > 0 {
				m.Narrow, m.Wide = 48, 64 // narrow enough for every trailer here
			}
			long := m.Length
			m.Length = measure.Share(c.between(0.2, 0.6)).OfLength(r.Length)
			if long > 0 {
				m.Center, m.Margin = measure.ShareOfLength(m.Center, long).OfLength(m.Length), measure.ShareOfLength(m.Margin, long).OfLength(m.Length)
			}
		}
		if k > 0 {
			m.Weight, m.Length, m.Center, m.Margin = m.Weight/3, m.Length/3, m.Center/3, m.Margin/3
		}
		list, heads = append(list, m), append(heads, "front "+fmt.Sprint(k))
		d := machineData(m)
		d["head"] = heads[k]
		words = append(words, d)
	}
	return list, heads, words
}

// fitTruck is a truck of which most is known and much is enough.
func (c chance) fitTruck() oracle.Truck {
	k := c.fullTruck()
	if c.IntN(3) == 0 {
		return k
	}
	known := func(a, b float64) compute.Result[measure.Pounds] {
		return compute.Result[measure.Pounds]{Value: measure.Pounds(math.Round(c.between(a, b))), Known: true}
	}
	k = oracle.Truck{Kind: []string{"receiver", "receiver", "gooseneck"}[c.IntN(3)], GVWR: known(9000, 14000), Sticker: known(1500, 6000), People: known(75, 600),
		Tow: known(10000, 35000), GCWR: c.maybe(known(30000, 50000).Value), HitchRating: known(10000, 40000), HitchTongue: known(800, 5000), BallRating: known(10000, 40000),
		BallSize: compute.Result[measure.Inches]{Value: 2.3125, Known: true}, Unbraked: known(3000, 9000),
		RearRating: c.maybe(known(6000, 9000).Value), RearWeight: c.maybe(known(2500, 4000).Value), Weight: c.maybe(known(6000, 8000).Value),
		Wheelbase: c.maybeInches(150), BallBehind: c.maybeInches(measure.Inches(c.between(-10, 55)))}
	// One truck in four lacks a number that its answer needs.
	switch c.IntN(8) {
	case 0:
		k.HitchTongue.Known = false
	case 1:
		k.Sticker.Known, k.GVWR.Known = false, false
	}
	return k
}

// TestStaticsDoubt: what is far outside its class is questioned, and its verdict is never yes.
func TestStaticsDoubt(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 6))}
	f := s.function(`function(a) { a = JSON.parse(a); var d = Statics.doubt(a[0], a[1], a[2]), v = Statics.question({ is: a[3], text: "", limits: [{ over: a[4] }] }, d);
		return d + "; " + v.is + "; " + v.text; }`)
	said := map[string]int{}
	for i := range 2 * cases {
		k := oracle.Class{Light: measure.Pounds(c.odd(500, 9000)), Shortest: measure.Inches(math.Round(c.between(2, 20)) * 12), Narrow: c.inches(30, 90)}
		k.Heavy, k.Longest, k.Wide = k.Light*1.5, k.Shortest+24, k.Narrow+12
		row := []any{"", float64(k.Light), 0, float64(k.Heavy), float64(k.Longest) / 12, 0, 0, "", "", "", float64(k.Shortest) / 12, float64(k.Narrow), float64(k.Wide)}
		typed, in := oracle.Measured{Weight: k.Light, Length: k.Shortest, Width: k.Narrow}, c.system()
		if c.IntN(3) == 0 {
			k, row = oracle.Class{}, nil
			typed = oracle.Measured{Weight: 9500, Length: 132, Width: 72}
		}
		switch c.IntN(6) {
		case 0:
			typed.Weight = c.pounds(20, 30000, float64(k.Light)*0.85, float64(k.Heavy)*2, 50)
		case 1:
			typed.Length = c.inches(1, 500, float64(k.Shortest)*0.85, float64(k.Longest)*2, 24)
		case 2:
			typed.Width = c.inches(1, 150, float64(k.Narrow)*0.85, float64(k.Wide)*2, 24, 0)
		case 3:
			typed.Tall = c.inches(1, 200, 12, 162, 0)
		}
		v := oracle.Verdict{Is: "yes", Limits: []oracle.Checked{{Over: c.IntN(3) == 0}}}
		if v.Limits[0].Over {
			v.Is = "no"
		}
		is, over := v.Is, v.Limits[0].Over
		doubt := oracle.Doubt(k, typed, in)
		v.Question(doubt)
		want := doubt + "; " + v.Is + "; " + v.Text
		words := map[string]any{"w": float64(typed.Weight), "l": float64(typed.Length), "s": float64(typed.Width), "h": float64(typed.Tall)}
		if got := s.ask(f, row, words, in == measure.Metric, is, over); got != want {
			t.Fatalf("case %d: %+v of %+v\n page %s\n Go   %s", i, typed, k, got, want)
		}
		if doubt != "" && v.Is == "yes" {
			t.Fatalf("case %d: a yes for what is doubtful: %s", i, doubt)
		}
		said[v.Is]++
		for _, word := range []string{"long", "wide", "high", "weighs"} {
			if strings.Contains(doubt, word) {
				said[word]++
			}
		}
	}
	for _, k := range []string{"yes", "no", "unknown", "long", "wide", "high", "weighs"} {
		if said[k] < cases/50 {
			t.Errorf("%q came %d times; the cases reach too little: %v", k, said[k], said)
		}
	}
}

// TestStaticsClimb: whether a machine drags on the way up.
func TestStaticsClimb(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 5))}
	f := s.function(`function(a) { a = JSON.parse(a); var v = Statics.climb(a[0], a[1], a[2]); return v ? v.is + "; " + v.texts.join("; ") : "none"; }`)
	is := map[string]int{}
	for i := range 2 * cases {
		angle := measure.Degrees(c.odd(2, 32, 0, 60, -1, 59.95))
		w := oracle.Wheels{Base: c.maybeInches(c.inches(30, 160, 0, -1)), Under: c.maybeInches(c.inches(2, 20, 0)),
			Over: c.maybeInches(c.inches(5, 60, 0)), Tip: c.maybeInches(c.inches(2, 30, 0, -2))}
		if w.Base.Known && c.IntN(20) == 0 { // what it needs, to the bit
			w.Under = compute.Result[measure.Inches]{Value: oracle.CrestUnder(w.Base.Value, angle), Known: true}
		}
		data := map[string]any{}
		for key, in := range map[string]compute.Result[measure.Inches]{"base": w.Base, "under": w.Under, "over": w.Over, "tip": w.Tip} {
			if in.Known {
				data[key] = float64(in.Value)
			}
		}
		in := c.system()
		want := "none"
		if v, ok := oracle.Climb(angle, w, in); ok {
			want = v.Is + "; " + strings.Join(v.Texts, "; ")
		}
		is[strings.SplitN(want, ";", 2)[0]]++
		if got := s.ask(f, float64(angle), data, in == measure.Metric); got != want {
			t.Fatalf("case %d: %v degrees, %+v\n page %s\n Go   %s", i, angle, w, got, want)
		}
	}
	for _, k := range []string{"yes", "no", "unknown", "none"} {
		if is[k] < cases/100 {
			t.Errorf("the cases reach too little: %v", is)
		}
	}
}

// TestStaticsFits: whether a trailer goes into a barn.
func TestStaticsFits(t *testing.T) {
	t.Parallel()
	s, c := newStatics(t), chance{rand.New(rand.NewPCG(17, 9))}
	f := s.function(`function(a) { a = JSON.parse(a); var v = Statics.fits(a[0], a[1], a[2]); return [v.is, v.text].join("; "); }`)
	is := map[string]int{}
	for i := range cases {
		near := c.inches(60, 300)
		size := oracle.Size{Width: c.maybeInches(c.inches(60, 110)), Height: c.maybeInches(c.inches(20, 160, 0)), Length: c.maybeInches(near), Worked: c.maybeInches(near)}
		barn := oracle.Barn{Wide: c.maybeInches(c.inches(80, 160, 0)), High: c.maybeInches(c.inches(80, 200)), Deep: c.maybeInches(c.inches(200, 500, float64(near)))}
		in := c.system()
		value := func(r compute.Result[measure.Inches]) any {
			if !r.Known {
				return nil
			}
			return float64(r.Value)
		}
		v := oracle.Fits(size, barn, in)
		is[v.Is]++
		want := v.Is + "; " + v.Text
		got := s.ask(f, []any{value(size.Width), value(size.Height), value(size.Length), value(size.Worked)}, map[string]any{"wide": value(barn.Wide), "high": value(barn.High), "deep": value(barn.Deep)}, in == measure.Metric)
		if got != want {
			t.Fatalf("case %d: %+v into %+v\n page %s\n Go   %s", i, size, barn, got, want)
		}
	}
	if is["yes"] < cases/50 || is["no"] < cases/50 || is["unknown"] < cases/50 {
		t.Errorf("the cases reach too little: %v", is)
	}
}

// The two lists of names are one.
func TestStaticsNames(t *testing.T) {
	s := newStatics(t)
	f := s.function(`function() { return JSON.stringify(Statics.NAMES); }`)
	var got []string
	if err := json.Unmarshal([]byte(s.ask(f)), &got); err != nil {
		t.Fatal(err)
	}
	var names []string
	for c := compute.NoConstraint; c < compute.TheOthers; c++ {
		names = append(names, c.String())
	}
	if !slices.Equal(got, names) {
		t.Errorf("the page has %v\nGo has %v", got, names)
	}
}

// TestYardKilograms: what yard.js writes in kilograms is what internal/measure writes, to
// the last digit.
func TestYardKilograms(t *testing.T) {
	p, err := newTemplates(theme.Files, phrases.English)
	if err != nil {
		t.Fatal(err)
	}
	s := &statics{goja.New(), t}
	// A page without trailers to find among.
	if _, err := s.RunString("var window = {units: {}}, document = {getElementById: function () { return null; }};" + string(p.scripts["yard.js"].text)); err != nil {
		t.Fatal(err)
	}
	kg := s.function("function (text) { var a = JSON.parse(text); return window.units.kg(a[0], true) + \", \" + window.units.kg(a[0]); }")
	c := chance{rand.New(rand.NewPCG(1, 2))}
	for i := range cases {
		lb := measure.Pounds(math.Round(c.between(0, 90_000)))
		switch i % 4 {
		case 0: // as typed with decimals, or figured
			lb = measure.Pounds(c.between(0, 2000))
		case 1: // whole kilograms, which must not lose one
			lb = measure.FromKilograms(math.Round(c.between(0, 40_000)))
		}
		if got, want := s.ask(kg, lb), measure.Metric.Limit(lb)+", "+measure.Metric.Weight(lb); got != want {
			t.Fatalf("%v lb: the script writes %s, Go %s", float64(lb), got, want)
		}
	}
}

// TestAsked: which prices and loads asked.js reads out of what is searched for, and which it
// leaves among the words.
func TestAsked(t *testing.T) {
	p, err := newTemplates(theme.Files, phrases.English)
	if err != nil {
		t.Fatal(err)
	}
	s := newStatics(t)
	if _, err := s.RunString("var window = this, units = {}, document = {getElementById: function () { return null; }};" + string(p.scripts["yard.js"].text) + ";var asked, COLUMN = function (_, f) { asked = f; };" + string(p.scripts["asked.js"].text)); err != nil {
		t.Fatal(err)
	}
	f := s.function(`function (text) { var w = asked(Statics, JSON.parse(text)[0], units.plain); return [w.most, w.load, w.words].concat(w.size ? "size " + w.size : [], w.machine ? "machine " + Math.round(w.machine.w) + "," + Math.round(w.machine.l) : []).join("; "); }`)
	for _, c := range []struct{ text, want string }{
		{"under $10,000 7,000 lb", "10000; 7000; "},
		{"Which trailers under $10,000 carry 7,000 lb?", "10000; 7000; "},
		{"under 10k carry 7k lb", "10000; 7000; "},
		{"$9.5k", "9500; 0; "},
		{"10,000 dollars dump", "10000; 0; dump"},
		{"dump less than $12000", "12000; 0; dump"},
		{"up to 8000 gooseneck", "8000; 0; gooseneck"},
		{"7,000 lb", "0; 7000; "},
		{"7000 lbs", "0; 7000; "},
		{"payload of 7,000 lb", "0; 7000; "},
		{"7,000 lb payload gooseneck", "0; 7000; gooseneck"},
		{"3000 kg", "0; 6613.87; "},
		{"carries at least 3,175 kg under $10,000", "10000; 6999.68; "},
		// Not a price, not a load.
		{"7000 lb axles", "0; 0; 7000 lb axles"},
		{"14,000 lb dump", "0; 0; 14,000 lb dump"},
		{"under 20 ft", "0; 0; under 20 ft"},
		{"under 7,000 lb", "0; 0; under 7,000 lb"},
		{"20 ft", "0; 0; 20 ft"},
		{"under $10,00", "0; 0; under $10,00"},
		{"2 5/16", "0; 0; 2 5/16"},
		{"SB-1043", "0; 0; SB-1043"},
		{"max 300", "0; 0; max 300"},
		// Sizes as people say them, and what may be a machine.
		{"7x14 dump", "0; 0; dump; size 84,168"},
		{"7 x 14", "0; 0; ; size 84,168"},
		{"dump 7' x 14' under $12,000", "12000; 0; dump; size 84,168"},
		{"8.5x20 enclosed", "0; 0; enclosed; size 102,240"},
		{"83 x 14", "0; 0; ; size 83,168"},
		{"83 in x 14 ft dump", "0; 0; 83 in x 14 ft dump"},
		{"2x4 stake pockets", "0; 0; 2x4 stake pockets"},
		{"9500 lb 11 ft", "0; 0; 9500 lb 11 ft; machine 9500,132"},
		{"track loader 9,500 lb 11'", "0; 0; track loader 9,500 lb 11'; machine 9500,132"},
		{"loader 4300 kg 3.5 m", "0; 0; loader 4300 kg 3.5 m; machine 9480,138"},
		{"9.5k lb, 11 ft 6 in", "0; 0; 9.5k lb, 11 ft 6 in; machine 9500,138"},
		{"", "0; 0; "},
	} {
		if got := s.ask(f, c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
