package compute_test

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// stated makes a field that was given.
func stated[T any](v T) unit.Field[T] {
	return unit.Field[T]{Value: v, Pos: unit.Pos{File: "a.md", Line: 1, Column: 1}}
}

// settings are what figures are worked with where the yard says nothing.
func settings() compute.Settings { return compute.SettingsOf(&unit.Yard{}) }

// work reads a unit from front matter written in a test and works it.
func work(t testing.TB, text string) *compute.Work {
	t.Helper()
	u, problems := unit.ReadUnit("a.md", []byte("---\n"+text+"\n---\n"))
	if len(problems) > 0 {
		t.Fatalf("the test's unit does not read: %+v", problems)
	}
	return compute.Unit(u, settings())
}

// example is the unit of docs/design.md.
func example(t testing.TB) *unit.Unit {
	t.Helper()
	src, err := os.ReadFile("../unit/testdata/sb-1043.md")
	if err != nil {
		t.Fatal(err)
	}
	u, problems := unit.ReadUnit("content/units/sb-1043.md", src)
	if len(problems) > 0 {
		t.Fatalf("%+v", problems)
	}
	return u
}

func value(t testing.TB, w *compute.Work, name string) float64 {
	t.Helper()
	f := w.Figure(name)
	if f == nil {
		t.Fatalf("%s is not worked: %+v", name, w.Absent)
	}
	return f.Value
}

func near(got, want, off float64) bool { return math.Abs(got-want) <= off }

// trailer is a random but possible trailer in plain numbers: pounds and inches.
type trailer struct {
	gvwr, empty, tongue                float64
	center, spacing, front, length     float64
	axles                              int
	rating                             float64
	perAxle                            int
	tire, wheel, hitch, ball, topLimit float64
}

// random draws lengths in quarter inches and weights in whole pounds, as people state them.
func random(r *rand.Rand) trailer {
	quarter := func(low, high int) float64 { return float64(low*4+r.IntN((high-low)*4)) / 4 }
	pounds := func(low, high int) float64 { return float64(low + r.IntN(high-low)) }
	t := trailer{
		axles: 1 + r.IntN(3), perAxle: 2 + 2*r.IntN(2),
		front: quarter(36, 120), length: quarter(96, 480), spacing: quarter(30, 60),
	}
	// The axles are under the deck, mostly to the rear of its middle, sometimes ahead of it.
	t.center = math.Round((t.front+t.length*(0.4+0.4*r.Float64()))*4) / 4
	t.empty = pounds(800, 12000)
	t.tongue = math.Round(t.empty * 0.4 * r.Float64())
	t.gvwr = t.empty + pounds(0, 20000)
	t.rating = pounds(2000, 12000)
	t.tire = pounds(800, 4000)
	t.wheel = pounds(800, 4000)
	t.hitch = pounds(2000, 30000)
	t.ball = pounds(2000, 30000)
	t.topLimit = pounds(200, 7500)
	return t
}

// unit states the trailer as a unit file would.
func (t trailer) unit() *unit.Unit {
	u := &unit.Unit{File: "a.md"}
	u.Weights.GVWR = stated(measure.Pounds(t.gvwr))
	u.Weights.Empty = stated(measure.Pounds(t.empty))
	u.Weights.TongueEmpty = stated(measure.Pounds(t.tongue))
	u.Axles.Count = stated(t.axles)
	u.Axles.Rating = stated(measure.Pounds(t.rating))
	u.Axles.Center = stated(measure.Inches(t.center))
	u.Axles.Spacing = stated(measure.Inches(t.spacing))
	u.Deck.Front = stated(measure.Inches(t.front))
	u.Deck.Length = stated(measure.Inches(t.length))
	u.Tires.PerAxle = stated(t.perAxle)
	u.Tires.Size = stated("ST235/80R16")
	u.Tires.LoadRange = stated("E")
	if t.perAxle == 4 {
		u.Tires.Sidewall.Dual = stated(measure.Pounds(t.tire))
	} else {
		u.Tires.Sidewall.Single = stated(measure.Pounds(t.tire))
	}
	u.Tires.Wheel = stated(measure.Pounds(t.wheel))
	u.Hitch.Kind = stated("gooseneck")
	u.Hitch.Rating = stated(measure.Pounds(t.hitch))
	u.Hitch.BallRating = stated(measure.Pounds(t.ball))
	u.Hitch.TongueLimit = stated(measure.Pounds(t.topLimit))
	return u
}

// many is how many random trailers a figure is compared on with an independent solver: ten
// thousand in the long tests, else the first 2,500 of them. The mutation check
// (internal/policy/mutation) asks the same tests thousands of times and takes fewer.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("TAREPAGE_TRAILERS")); err == nil && n > 0 {
		return n
	}
	if os.Getenv("TAREPAGE_LONG") == "" {
		return 2500
	}
	return 10000
}

// lines joins what a test's unit states.
func lines(s ...string) string { return strings.Join(s, "\n") }
