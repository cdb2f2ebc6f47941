package render

import (
	"os"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

func TestShortTitle(t *testing.T) {
	for title, want := range map[string][2]string{
		"102 in x 28 ft gooseneck deck-over, hydraulic tail": {"102 in x 28 ft gooseneck deck-over", "hydraulic tail"},
		"83 in x 14 ft dump, 24 in sides":                    {"83 in x 14 ft dump, 24 in sides", ""},
		"A very long title for one trailer without a comma":  {"A very long title for one trailer without a comma", ""},
		"7,000 lb equipment trailer with ramps, spare tire":  {"7,000 lb equipment trailer with ramps", "spare tire"},
	} {
		if short, more := shortTitle(title); short != want[0] || more != want[1] {
			t.Errorf("%q becomes %q and %q", title, short, more)
		}
	}
}

func TestTold(t *testing.T) {
	for from, want := range map[string]string{
		"said 1:42":               "as told at 1:42, not yet measured",
		"said by the owner":       "as told, not yet measured",
		"tag":                     "from its label",
		"scale ticket 2026-11-03": "scale ticket, November 3, 2026",
		"scale ticket":            "scale ticket",
		"tape":                    "tape",
		"":                        "",
	} {
		if got := english.saidFrom(from); got != want {
			t.Errorf("%q is told as %q, want %q", from, got, want)
		}
	}
}

// Equipment that was only said has a mark until somebody has looked.
func TestEquipmentAsTold(t *testing.T) {
	u, problems := unit.ReadUnit("u.md", []byte("---\nstandard:\n  - tarp kit (said 1:31)\n  - gate (said by the driver)\n  - winch (used)\noptions:\n  - side gate\n---\n"))
	got := strings.Join(append(english.equipment(u.Standard), english.equipment(u.Options)...), "; ")
	want := "tarp kit (as told at 1:31, not yet checked); gate (as told, not yet checked); winch (used); side gate"
	if len(problems) > 0 || got != want {
		t.Errorf("%v\n%s\nwant\n%s", problems, got, want)
	}
}

// The plate of the payload names what decides: the label, or a part that carries less.
func TestPlateSaysWhatDecides(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]int{}
	for _, w := range compute.Stock(stock) {
		if w == nil || !w.Payload.Known {
			continue
		}
		from := english.plates(w.Unit, w)[0].From
		said[from]++
		if label := w.Ladder[0].Name == "tag" && w.Unit.Weights.GVWR.From.Origin == measure.Tag; label != (from == "the label decides") {
			t.Errorf("%s: the lowest limit is %s, and the plate says that %s", w.Unit.Stock.Value, w.Ladder[0].Label, from)
		}
	}
	if len(said) < 2 {
		t.Errorf("the demo shows only %v", said)
	}
}

// TestFills: filled to the height that the page names, no material weighs more than the
// payload, and an inch more of those that are not the whole bed does. The weight is worked
// out here from the floor and the density alone.
func TestFills(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	beds, levels := 0, 0
	for _, w := range compute.Stock(stock) {
		if w == nil || len(w.Heaps) == 0 {
			continue
		}
		beds++
		for i, row := range english.fills(&entry{Unit: w.Unit, work: w}) {
			if row.Metric == "" {
				continue
			}
			high, err := measure.ParseLength(row.Text)
			if err != nil {
				t.Fatal(err)
			}
			levels++
			var h *compute.Heap
			for k := range w.Heaps {
				if upper(w.Heaps[k].Material) == row.Label {
					h = &w.Heaps[k]
				}
			}
			weighs := func(in measure.Inches) float64 {
				return float64(w.Unit.Bed.Length.Value) * float64(w.Unit.Bed.Width.Value) * float64(in) / (36 * 36 * 36) * float64(h.Density)
			}
			if payload := float64(w.Payload.Value); weighs(high.Value) > payload+1e-6 || weighs(high.Value+1) <= payload {
				t.Errorf("%s, row %d: %s of %s weigh %.0f lb, the payload is %.0f", w.Unit.Stock.Value, i, row.Text, row.Label, weighs(high.Value), payload)
			}
		}
	}
	if beds == 0 || levels == 0 {
		t.Errorf("the demo has %d dump beds and %d materials with a level", beds, levels)
	}
}

// english makes pages in English.
var english = &maker{templates: &templates{lang: phrases.English}}
