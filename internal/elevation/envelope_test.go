package elevation_test

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// TestEnvelopeDrawn: on each trailer of the demo yard a point well within the drawn region
// is allowed and one well outside of it is not, as the beam's own equilibrium says (stand.go
// works one load's place without the polygon). Inside is told by counting the crossings of
// the drawn outline (Shimrat 1962, the even-odd rule of SVG 2, 13.4.2).
func TestEnvelopeDrawn(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	form := regexp.MustCompile(`class="el-room" d="M([^Z]*)Z"`)
	inside, outside := 0, 0
	for _, w := range compute.Stock(stock) {
		e, ok := elevation.EnvelopeOf(w)
		if !ok {
			continue
		}
		rig, _ := compute.RigOf(w)
		long := min(120, rig.Length)
		var xs, ys []float64
		for _, c := range strings.Split(form.FindStringSubmatch(e.SVG)[1], "L") {
			var x, y float64
			if _, err := fmt.Sscan(c, &x, &y); err != nil {
				t.Fatal(err)
			}
			xs, ys = append(xs, x), append(ys, y)
		}
		within := func(x, y float64) bool {
			in := false
			for i := range xs {
				j := (i + 1) % len(xs)
				if (ys[i] > y) != (ys[j] > y) && x < (xs[j]-xs[i])*(y-ys[i])/(ys[j]-ys[i])+xs[i] {
					in = !in
				}
			}
			return in
		}
		most := 0.0
		for _, c := range rig.Envelope(long) {
			most = max(most, float64(c.Weight))
		}
		for i := range 40 {
			for k := range 20 {
				x, y := 8+344*(float64(i)+0.5)/40, 34+150*(float64(k)+0.5)/20
				load := compute.Load{Weight: measure.Pounds((184 - y) / 150 * most), Length: long}
				at := compute.Placed{Load: load, Behind: measure.Inches((x - 8) / 344 * float64(rig.Length))}
				in := within(x, y)
				// Not where a tenth of the drawing's unit may decide.
				if in != within(x-0.5, y) || in != within(x+0.5, y) || in != within(x, y-0.5) || in != within(x, y+0.5) {
					continue
				}
				if keeps := rig.Stand(at).Keeps; keeps != in {
					t.Fatalf("%s: %v at %v: it keeps its limits %v, it is drawn inside %v", w.Unit.Stock.Value, load, at.Behind, keeps, in)
				}
				if in {
					inside++
				} else {
					outside++
				}
			}
		}
		if len(e.Words) != 3 || strings.Contains(fmt.Sprint(e.Words), "nowhere") {
			t.Errorf("%s: the words say %q", w.Unit.Stock.Value, e.Words)
		}
	}
	if inside < 500 || outside < 500 {
		t.Errorf("%d points met inside, %d outside", inside, outside)
	}
}
