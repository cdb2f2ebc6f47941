package inspect

import "strings"

var heapOverloads = &Rule{
	Name: "heap-overloads", Severity: Caution,
	Title:  "a dump trailer says which materials overload it when the bed is full",
	Why:    "A bed that looks half empty can be overloaded. Soil and stone are heavy, and heavier when wet.",
	Source: "densities as the table of loose materials cites them; the heap of 2:1 is from memory",
	Remedy: "tell the customer how full the bed may be with what they haul, and to weigh it loaded",
	check: func(c *Case, f *Findings) {
		payload, heap := c.Work.Payload, c.Bed.Heap
		if !payload.Known || len(c.Work.Heaps) == 0 {
			return
		}
		// A bed that is not to be heaped is judged struck level.
		heaped := (!heap.Given() || heap.Value) && !c.Bed.Volume.Given()
		var over, only, fits []string
		for _, h := range c.Work.Heaps {
			switch {
			case !h.FitsStruck:
				over = append(over, inWords(h.Material))
			case heaped && !h.FitsHeaped:
				only = append(only, inWords(h.Material))
			default:
				fits = append(fits, inWords(h.Material))
			}
		}
		if over == nil && only == nil {
			return
		}
		var words []string
		say := func(what string, list []string) {
			if list != nil {
				words = append(words, what+" "+strings.Join(list, ", "))
			}
		}
		say("overloaded before it is level with", over)
		say("full level but never heaped with", only)
		if heaped {
			say("fit to be heaped with", fits)
		} else {
			say("fit to be filled level with", fits)
		}
		at := c.Bed.Height.Pos
		if c.Bed.Volume.Given() {
			at = c.Bed.Volume.Pos
		}
		f.add(at, "with a payload of %s the bed is %s", payload.Value.Limit(), strings.Join(words, "; ")).
			also(c.Bed.Length.Pos, "the bed is here")
	},
}

// inWords writes a material for use in a list: "earth, loose dry" to "earth (loose dry)".
func inWords(material string) string {
	name, rest, ok := strings.Cut(strings.TrimSuffix(material, ", loose"), ", ")
	if !ok {
		return name
	}
	return name + " (" + rest + ")"
}
