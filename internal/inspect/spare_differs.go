package inspect

import (
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/tables"
)

var spareDiffers = &Rule{
	Name: "spare-differs", Severity: Caution,
	Title:  "the spare has the size and the load range of the tires on the axles",
	Why:    "A spare of another size carries another load at another height, and next to a dual it drags. One of a lower load range is overloaded as soon as it is on.",
	Source: Practice,
	Remedy: "read both sidewalls, or tell the customer how the spare differs",
	check: func(c *Case, f *Findings) {
		on, err := tables.ParseTireSize(c.Tires.Size.Value)
		if err != nil {
			return
		}
		if c.spareKeys(f, on) || !c.Spare.Given() {
			return
		}
		for _, word := range strings.Fields(c.Spare.Value) {
			spare, err := tables.ParseTireSize(strings.Trim(word, ",.;()"))
			// Only a metric size cannot be taken for another measure.
			if err == nil && spare.Form == tables.Metric && spare.String() != on.String() {
				f.add(c.Spare.Pos, "the spare is %s; the tires on the axles are %s", spare, on).
					figures(spare.String(), on.String()).
					also(c.Tires.Size.Pos, "the size on the axles is here")
				return
			}
		}
		if spare, lower := lowerRange(c.Spare.Value, c.Tires.LoadRange.Value); lower {
			f.add(c.Spare.Pos, "the spare is load range %s; the tires on the axles are load range %s", spare, c.Tires.LoadRange.Value).
				figures(spare, c.Tires.LoadRange.Value).
				also(c.Tires.LoadRange.Pos, "the load range on the axles is here")
		}
	},
}

// spareKeys compares the keys for the spare with the tires on the axles, and reports whether
// they differ. The words about the spare then say the same.
func (c *Case) spareKeys(f *Findings, on tables.TireSize) bool {
	t, found := c.Tires, false
	if spare, err := tables.ParseTireSize(t.SpareSize.Value); t.SpareSize.Given() && err == nil && spare.String() != on.String() {
		f.add(t.SpareSize.Pos, "the spare is %s; the tires on the axles are %s", spare, on).
			figures(spare.String(), on.String()).
			also(t.Size.Pos, "the size on the axles is here")
		found = true
	}
	spare, err := tables.LoadRange(t.SpareRange.Value)
	axle, err2 := tables.LoadRange(t.LoadRange.Value)
	if err == nil && err2 == nil && spare.Ply < axle.Ply {
		f.add(t.SpareRange.Pos, "the spare is load range %s; the tires on the axles are load range %s", spare.Letter, axle.Letter).
			figures(spare.Letter, axle.Letter).
			also(t.LoadRange.Pos, "the load range on the axles is here")
		found = true
	}
	return found
}

// spareRange finds a load range in words about the spare: "load range D", "LR-D", the
// letter after a tire size, "8 ply".
var (
	spareRange = regexp.MustCompile(`(?i)(?:\bload range|\brange|\blr|[rd][0-9]{2}(?:\.5)?)[\s:-]*([b-n])\b`)
	sparePly   = regexp.MustCompile(`(?i)\b([0-9]{1,2})[\s-]*ply\b`)
)

// lowerRange is the load range that the words about the spare state, and whether it is
// below the one on the axles. Letters are compared by their ply rating.
func lowerRange(words, on string) (string, bool) {
	axle, err := tables.LoadRange(on)
	if err != nil {
		return "", false
	}
	if m := spareRange.FindStringSubmatch(words); m != nil {
		if spare, err := tables.LoadRange(strings.ToUpper(m[1])); err == nil {
			return spare.Letter, spare.Ply < axle.Ply
		}
	}
	if m := sparePly.FindStringSubmatch(words); m != nil {
		for letter := 'B'; letter <= 'N'; letter++ {
			if spare, err := tables.LoadRange(string(letter)); err == nil && strconv.Itoa(spare.Ply) == m[1] {
				return spare.Letter, spare.Ply < axle.Ply
			}
		}
	}
	return "", false
}
