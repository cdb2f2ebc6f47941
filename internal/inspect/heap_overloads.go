package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
)

var heapOverloads = &Rule{
	Name: "heap-overloads", Severity: Caution,
	Title:  "a dump trailer says from which material on a full bed overloads it",
	Why:    "A bed that looks half empty can be overloaded. Soil and stone are heavy, and heavier when wet.",
	Source: "densities as the table of loose materials cites them; the heap of 2:1 is from memory",
	Remedy: "tell the customer how full the bed may be with what they haul, and to weigh it loaded",
	check: func(c *Case, f *Findings) {
		payload, heap := c.Work.Payload, c.Bed.Heap
		if !payload.Known || len(c.Work.Heaps) == 0 {
			return
		}
		// A bed that must not be heaped is judged struck level.
		heaped := (!heap.Given() || heap.Value) && !c.Bed.Volume.Given()
		over, only := c.lightestOver(heaped)
		var words []string
		if over != nil {
			words = append(words, "overloaded before it is level with "+tooMuch(over))
		}
		if only != nil {
			words = append(words, "full level but never heaped with "+tooMuch(only))
		}
		if words == nil {
			return
		}
		at := c.Bed.Height.Pos
		if c.Bed.Volume.Given() {
			at = c.Bed.Volume.Pos
		}
		f.add(at, "with a payload of %s the bed is %s", payload.Value.Limit(), strings.Join(words, "; ")).
			also(c.Bed.Length.Pos, "the bed is here")
	},
}

// lightestOver are the lightest material that overloads the bed when it is level, and the
// lightest that does so only when it is heaped; nil where there is none. The page lists them all.
func (c *Case) lightestOver(heaped bool) (level, heap *compute.Heap) {
	lighter := func(than *compute.Heap, h *compute.Heap) *compute.Heap {
		if than == nil || h.Density < than.Density {
			return h
		}
		return than
	}
	for i := range c.Work.Heaps {
		switch h := &c.Work.Heaps[i]; {
		case !h.FitsStruck:
			level = lighter(level, h)
		case heaped && !h.FitsHeaped:
			heap = lighter(heap, h)
		}
	}
	return level, heap
}

// tooMuch names a material that overloads the bed. What is heavier does so too.
func tooMuch(h *compute.Heap) string {
	return fmt.Sprintf("%s at %s and anything heavier", inWords(h.Material), h.Density)
}

// inWords writes a material for use in a list: "earth, loose dry" to "earth (loose dry)".
func inWords(material string) string {
	name, rest, ok := strings.Cut(strings.TrimSuffix(material, ", loose"), ", ")
	if !ok {
		return name
	}
	return name + " (" + rest + ")"
}
