package elevation

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// drawnUnits are the demo's units and those of the archives that can be drawn.
func drawnUnits(t *testing.T) map[string]*compute.Work {
	t.Helper()
	out := map[string]*compute.Work{}
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range stock.Units {
		out[u.Stock.Value] = compute.Unit(u, compute.SettingsOf(stock.Yard))
	}
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatal("no archives", err)
	}
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		u, _ := unit.ReadUnit("content/units/case.md", a.Files[0].Data)
		out[file] = compute.Unit(u, compute.SettingsOf(&unit.Yard{}))
	}
	return out
}

// A part is a shape or a wheel by its corners, for finding what touches what.
type part struct {
	name string
	at   []point
}

// parts are what belongs to the trailer: no lines on its walls and no phantom positions.
func (d *drawing) parts() []part {
	var out []part
	for _, s := range d.shapes {
		if s.layer != swing && s.layer != trim {
			out = append(out, part{"a shape", s.at})
		}
	}
	for _, r := range d.rings {
		c := r.center
		out = append(out, part{"a wheel", []point{{c.x - r.r, c.y}, {c.x, c.y + r.r}, {c.x + r.r, c.y}, {c.x, c.y - r.r}}})
	}
	return out
}

// apart is how far two outlines are from each other; 0 if they meet.
func apart(a, b part) float64 {
	if inside(a.at[0], b.at) || inside(b.at[0], a.at) {
		return 0
	}
	least := 1e9
	for i := range a.at {
		for k := range b.at {
			least = min(least, segments(a.at[i], a.at[(i+1)%len(a.at)], b.at[k], b.at[(k+1)%len(b.at)]))
		}
	}
	return least
}

func inside(p point, outline []point) bool {
	in := false
	for i := range outline {
		a, b := outline[i], outline[(i+1)%len(outline)]
		if (a.y > p.y) != (b.y > p.y) && p.x < (b.x-a.x)*(p.y-a.y)/(b.y-a.y)+a.x {
			in = !in
		}
	}
	return in
}

// segments is how far two straight lines are from each other.
func segments(a, b, c, d point) float64 {
	side := func(p, q, r point) measure.Inches { return (q.x-p.x)*(r.y-p.y) - (q.y-p.y)*(r.x-p.x) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	return min(toLine(a, c, d), toLine(b, c, d), toLine(c, a, b), toLine(d, a, b))
}

// toLine is how far p is from the line from a to b.
func toLine(p, a, b point) float64 {
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	along := 0.0
	if long := dx*dx + dy*dy; long > 0 {
		along = max(0, min(1, (float64(p.x-a.x)*dx+float64(p.y-a.y)*dy)/long))
	}
	x, y := float64(p.x-a.x)-along*dx, float64(p.y-a.y)-along*dy
	return max(x, -x, y, -y)
}

// TestNothingFloats: every part of a trailer touches another one, and all hang together: the
// jack on the tongue, the ramp at the deck, the fender over its wheels. The light line between
// two pieces of steel counts as touching.
func TestNothingFloats(t *testing.T) {
	for name, w := range drawnUnits(t) {
		f, ok := factsOf(w)
		if !ok {
			continue
		}
		all := draw(&f).parts()
		reached := map[int]bool{0: true}
		for queue := []int{0}; len(queue) > 0; queue = queue[1:] {
			for i, p := range all {
				if !reached[i] && apart(all[queue[0]], p) <= float64(reveal)+0.3 {
					reached[i] = true
					queue = append(queue, i)
				}
			}
		}
		for i, p := range all {
			if !reached[i] {
				t.Errorf("%s: %s at %v touches nothing", name, p.name, p.at)
			}
		}
	}
}

// TestDetailsStayWithin: a door is in the wall, a vent on the roof, a well within the deck, a
// V-nose ahead of the box and behind the coupler.
func TestDetailsStayWithin(t *testing.T) {
	for name, w := range drawnUnits(t) {
		f, ok := factsOf(w)
		if !ok {
			continue
		}
		d := draw(&f)
		low, top := f.floor.Inches, f.floor.Inches+f.sides.Inches
		if from, to, high, ok := f.sideDoor(); ok && (from < f.front.Inches || to > f.rear() || high > f.sides.Inches) {
			t.Errorf("%s: a door from %v to %v, %v high, in a box from %v to %v", name, from, to, high, f.front.Inches, f.rear())
		}
		for _, s := range d.shapes {
			for _, p := range s.at {
				if s.layer == trim && (p.x < f.front.Inches-0.1 || p.x > f.rear()+0.1 || p.y < low-0.1 || p.y > top+0.1) {
					t.Errorf("%s: a line at %v is outside the walls", name, p)
				}
				if p.y < 0 {
					t.Errorf("%s: %v is below the ground", name, p)
				}
			}
		}
		if n := f.nose(); n > 0 && f.front.Inches-n < 12 {
			t.Errorf("%s: the nose reaches over the coupler", name)
		}
	}
}

// TestDetailsAreDrawn takes one detail away at a time: without it the drawing has fewer
// strokes, and the words do not name it.
func TestDetailsAreDrawn(t *testing.T) {
	for _, c := range []struct{ file, keys, words string }{
		{"enclosed_details", "  nose: V-nose\n  nose-length: 2 ft\n", "V-nose, 2 ft ahead of the box."},
		{"enclosed_details", "  side-door: left\n", "Side door on the left, 32 in wide and 72 in high, 3 ft behind the front of the box."},
		{"enclosed_details", "  door-height: 80 in\n", "Rear opening, clear: 90 in wide and 80 in high."},
		{"enclosed_details", "  roof-vents: 2\n", "2 roof vents."},
		{"dump_gate", "gate:\n  kind: spreader\n", "Rear gate: spreader."},
		{"dump_hoist", "hoist:\n  kind: scissor\n", "Hoist: scissor, drawn in a usual place."},
		{"dump_gate", "hoist:\n  kind: scissor\n", "Hoist: scissor, not drawn."}, // the wheels take its space
		{"dump_gate", "  fenders: drive-over\n", "The fenders can be driven over."},
		{"lowboy", "  well: 24 ft\n", "The well is 24 ft long and 22 in above the ground"},
		{"livestock_gates", "gate:\n  kind: swing gate\n  center: 1\n", "Slats above the solid lower walls; the center gate"},
		{"utility_gate", "  kind: gate\n", "The gate is drawn as stowed."},
	} {
		a, err := txtar.ParseFile("testdata/" + c.file + ".txtar")
		if err != nil {
			t.Fatal(err)
		}
		text := string(a.Files[0].Data)
		if !strings.Contains(text, c.keys) {
			t.Fatalf("%s does not have %q", c.file, c.keys)
		}
		made := func(text string) (string, string) {
			u, _ := unit.ReadUnit("content/units/case.md", []byte(text))
			w := compute.Unit(u, compute.SettingsOf(&unit.Yard{}))
			svg, _ := Side(w)
			return svg, Words(w)
		}
		with, said := made(text)
		without, silent := made(strings.Replace(text, c.keys, "", 1))
		if with == without || !strings.Contains(said, c.words) || strings.Contains(silent, c.words) {
			t.Errorf("%s without %q: the drawing differs: %v; the words are %q", c.file, c.keys, with != without, said)
		}
	}
}
