package compute_test

import (
	"go/constant"
	"go/token"
	"go/types"
	"maps"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/compute"
)

// evaluate works out a working as it is printed, and nothing else: quantities become
// plain numbers in pounds and inches, and Go's own constant arithmetic, which is exact,
// does the sum. It uses nothing of internal/measure.
func evaluate(t *testing.T, working string) float64 {
	t.Helper()
	if arg, ok := strings.CutPrefix(working, "arcsin("); ok {
		return math.Asin(evaluate(t, strings.TrimSuffix(arg, ")"))) * 180 / math.Pi
	}
	if base, exponent, ok := strings.Cut(working, "^"); ok {
		// The only power stands on a parenthesis: rating x (p / P)^n, with what follows.
		open := strings.LastIndex(base, "(")
		digits := regexp.MustCompile(`^[0-9.]+`).FindString(exponent)
		n, err := strconv.ParseFloat(digits, 64)
		if err != nil {
			t.Fatalf("the exponent of %q: %v", working, err)
		}
		power := math.Pow(evaluate(t, strings.TrimSuffix(base[open+1:], ")")), n)
		return evaluate(t, base[:open]+strconv.FormatFloat(power, 'f', 15, 64)+exponent[len(digits):])
	}
	s := strings.ReplaceAll(working, ",", "")
	s = regexp.MustCompile(`([0-9.]+)%`).ReplaceAllString(s, "($1/100.0)")
	fraction := func(s string) string { // 2-5/16, 5/16, 7
		s = regexp.MustCompile(`^([0-9]+)-([0-9]+)/([0-9]+)$`).ReplaceAllString(s, "$1+$2.0/$3.0")
		return regexp.MustCompile(`^([0-9]+)/([0-9]+)$`).ReplaceAllString(s, "$1.0/$2.0")
	}
	s = regexp.MustCompile(`([0-9.]+) ft(?: ([0-9]+(?:-[0-9]+/[0-9]+|/[0-9]+)?) in)?`).ReplaceAllStringFunc(s, func(q string) string {
		m := regexp.MustCompile(`^([0-9.]+) ft(?: (\S+) in)?$`).FindStringSubmatch(q)
		if m[2] == "" {
			return "(" + m[1] + "*12.0)"
		}
		return "(" + m[1] + "*12.0+" + fraction(m[2]) + ")"
	})
	s = regexp.MustCompile(`([0-9]+-[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9.]+) in`).ReplaceAllStringFunc(s, func(q string) string {
		return "(" + fraction(strings.TrimSuffix(q, " in")) + ")"
	})
	s = regexp.MustCompile(`([0-9.]+) kg`).ReplaceAllString(s, "($1/0.45359237)")
	s = regexp.MustCompile(`([0-9.]+) mm`).ReplaceAllString(s, "($1/25.4)")
	s = regexp.MustCompile(`([0-9.]+) bar`).ReplaceAllString(s, "($1*14.503773773020923)") // NIST SP 811, B.8: 6.894 757 kPa
	s = regexp.MustCompile(`([0-9.]+) kPa`).ReplaceAllString(s, "($1*0.14503773773020923)")
	s = strings.NewReplacer(" lb/gal", "", " gal", "", " lb", "", " psi", "", " flat", "", " tail", "", " x ", " * ").Replace(s)
	// A decimal point makes every division exact and not one of whole numbers.
	s = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`).ReplaceAllStringFunc(s, func(n string) string {
		if !strings.Contains(n, ".") {
			return n + ".0"
		}
		return n
	})
	v, err := types.Eval(token.NewFileSet(), nil, token.NoPos, s)
	if err != nil {
		t.Fatalf("the working %q does not evaluate (%s): %v", working, s, err)
	}
	f, _ := constant.Float64Val(constant.ToFloat(v.Value))
	return f
}

// check evaluates a figure's working and holds it to the figure's value, within what the
// printed numbers were rounded by.
func check(t *testing.T, w *compute.Work, f compute.Figure) {
	t.Helper()
	working := f.Working()
	off := 0.15 // most weights print to a tenth of a pound, and some are stretched by A / xc
	factor := 1.0
	switch f.Unit {
	case "ft":
		factor, off = 12, 0.01
	case "sq ft":
		factor, off = 144, 1e-9
	case "%":
		factor, off = 0.01, 0.02
	case "degrees":
		off = 1e-9
	}
	switch f.Name {
	case "deck-length":
		// 28 ft = 20 ft flat + 8 ft tail: both sides.
		if left, right, ok := strings.Cut(working, " = "); ok {
			if l, r := evaluate(t, left), evaluate(t, right); !near(l, r, 1e-9) {
				t.Errorf("%s: %q: the sides are %v and %v", f.Name, working, l, r)
			}
			working = left
		}
	case "tongue-by-foot":
		// The feet print to a hundredth, and their own sum follows them.
		thumb, feet, ok := strings.Cut(working, ", the feet being ")
		if !ok {
			t.Fatalf("%s: %q", f.Name, working)
		}
		printed := regexp.MustCompile(`x ([0-9.]+) ft$`).FindStringSubmatch(strings.ReplaceAll(thumb, ",", ""))
		inFeet, err := strconv.ParseFloat(printed[1], 64)
		if err != nil || !near(inFeet*12, evaluate(t, feet), 0.0601) {
			t.Errorf("%s: %q: the feet are %v", f.Name, working, evaluate(t, feet)/12)
		}
		// The length stands for its number of feet.
		working = strings.Replace(thumb, printed[1]+" ft", printed[1], 1)
		off = 0.00501 * evaluate(t, strings.Split(thumb, " x ")[1]) / 100
	case "tire-capacity":
		working, _, _ = strings.Cut(working, ", the wheel's rating")
		// Each tire goes down to the whole pound below its maximum pressure.
		if strings.Contains(working, "^") {
			off = float64(w.Unit.Tires.PerAxle.Value)
		}
	case "payload":
		least := math.Inf(1)
		for _, m := range regexp.MustCompile(`([0-9,]+) lb \(`).FindAllStringSubmatch(working, -1) {
			v, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", ""), 64)
			if err != nil {
				t.Fatal(err)
			}
			least = math.Min(least, v)
		}
		if !near(least, f.Value, 1) {
			t.Errorf("%s: %q says %v, the figure is %v", f.Name, working, least, f.Value)
		}
		return
	case "working-payload":
		// Less a share of itself, down to the hundred.
		before, share, ok := strings.Cut(strings.TrimSuffix(working, ", down to the hundred"), " - ")
		if !ok {
			t.Fatalf("%s: %q", f.Name, working)
		}
		v := evaluate(t, before) * (1 - evaluate(t, share))
		if f.Value > v+0.1 || f.Value <= v-100.1 {
			t.Errorf("%s: %q is %v before rounding, the figure is %v", f.Name, working, v, f.Value)
		}
		return
	case "tag-payload":
		if f.Value == 0 {
			if v := evaluate(t, working); v > 0 {
				t.Errorf("%s: %q is %v, the figure is 0", f.Name, working, v)
			}
			return
		}
	case "even-load-payload", "class-a-truck":
		if f.Value == 0 {
			if v := evaluate(t, working); v > off {
				t.Errorf("%s: %q is %v, the figure is 0", f.Name, working, v)
			}
			return
		}
	}
	if v := evaluate(t, working) / factor; !near(v, f.Value, off) {
		t.Errorf("%s: the working %q is %v, the figure is %v", f.Name, f.Working(), v, f.Value)
	}
}

// inWords are the figures whose working is a list or a sentence, not a sum; each has
// tests of its own.
var inWords = map[string]bool{
	"lamp-schedule": true, "beam-weight": true, "estimated-empty": true, "estimated-center": true, "estimated-tongue": true,
	"tape-length": true, "cargo-placard": true, "excise": true, "tire-age": true, "tire-speed": true, "wheel-torque": true,
	// Only units of a kind that the list above lacks have these sums.
	"relabel-limit": true, "mean-deceleration": true, "stopping-at-45": true, "stopping-at-70": true, "surge-truck": true, "unbraked-truck": true,
	"tie-down-count": true, "struck-volume": true, "heaped-volume": true, "load-window": true,
}

// Every working, worked out as it is printed, gives its figure.
func TestWorkingsAddUp(t *testing.T) {
	works := []*compute.Work{
		compute.Unit(example(t), settings()),
		work(t, lines(`tires: {size: P205/75R15, per-axle: 2, pressure: 30 psi, sidewall: {single: "1,925 lb", pressure: 35 psi}}`, `axles: {count: 2, rating: "3,500 lb"}`)),
		work(t, lines(`tires: {size: ST235/80R16, load-range: E, per-axle: 4, pressure: 65 psi, wheel: "2,000 lb"}`, `axles: {count: 3, rating: "8,000 lb"}`)),
		work(t, lines(`tires: {size: ST235/80R16, load-range: E, per-axle: 4, pressure: 65 psi}`, `axles: {count: 3, rating: "8,000 lb"}`)),
		work(t, lines(`deck: {length: 5.3 m, width: 2.1 m, front: 1.1 m, height: 33-1/2 in}`, `ramps: {length: 5 ft 3/4 in}`)),
		work(t, lines(`bed: {length: 14 ft, width: 83 in, front: 4 ft 8 in}`)),
		work(t, lines(`weights: {gvwr: "7,000 lb", empty: "5,000 lb", water: "332 lb"}`)),
		work(t, lines(`tank: {length: 8 ft, volume: "5,000 gal", liquid: diesel}`, `weights: {gvwr: "7,000 lb", empty: "2,000 lb"}`)),
		work(t, lines(`deck: {tail-kind: tilt, tail: 16 ft, height: 2-5/16 in}`)),
	}
	r := rand.New(rand.NewPCG(11, 11))
	for range many() / 50 {
		works = append(works, compute.Unit(random(r).unit(), settings()))
	}
	checked := map[string]int{}
	for i, w := range works {
		for _, f := range w.Figures {
			if inWords[f.Name] {
				continue
			}
			if strings.Contains(f.Working(), "mm") {
				continue // printed in millimeters where feet and inches are not exact
			}
			check(t, w, f)
			checked[f.Name]++
		}
		for _, rung := range w.Ladder {
			v := evaluate(t, rung.Working())
			if v < 0 {
				v = 0
			}
			if !near(v, float64(rung.Value), 0.15) {
				t.Errorf("trailer %d: rung %s: the working %q is %v, the rung is %v", i, rung.Name, rung.Working(), v, rung.Value)
			}
			checked["rung "+rung.Name]++
		}
		if t.Failed() {
			return
		}
	}
	gone := maps.Clone(inWords)
	for _, d := range compute.All {
		delete(gone, d.Name)
		if checked[d.Name] == 0 && !inWords[d.Name] {
			t.Errorf("no working of %s was checked", d.Name)
		}
	}
	for name := range gone {
		t.Errorf("inWords lists %s, which is not a figure; take it off", name)
	}
	for _, name := range []string{"tag", "axles", "tires", "wheels", "hitch", "ball", "tongue"} {
		if checked["rung "+name] == 0 {
			t.Errorf("no working of the %s rung was checked", name)
		}
	}
}
