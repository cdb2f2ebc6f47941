package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
)

var lampsMissing = &Rule{
	Name: "lamps-missing", Severity: Stop,
	Title:  "somebody has looked at the lamps and the tape of a wide, long or heavy trailer",
	Why:    "Other drivers cannot see the corners of a trailer without them, and no new one may be sold that way. Where nobody looked, nobody knows.",
	Source: "49 CFR 571.108 Table I-b, S8.2 (2015); 49 USC 30112(a), from memory",
	Remedy: "count the lamps, and write lights with clearance, identification and side-markers, and conspicuity for the tape",
	check: func(c *Case, f *Findings) {
		want, has := c.Work.Lamps, c.Lights
		if !want.Known || c.Availability.Value == "on order" {
			return
		}
		counted := has.Clearance.Given() || has.Identification.Given() || has.SideMarkers.Given() || has.Intermediate.Given()
		spoiled := has.Clearance.Spoiled || has.Identification.Spoiled || has.SideMarkers.Spoiled || has.Intermediate.Spoiled
		taped := has.Conspicuity.Given() || has.Tape.Given() || has.Conspicuity.Spoiled || has.Tape.Spoiled
		at := c.Weights.GVWR.Pos
		if has.At.Known() {
			at = has.At
		}
		if (want.Clearance() > 0 || want.Intermediate > 0) && !counted && !spoiled {
			fd := f.add(at, "nobody has counted its lamps; a trailer of this size needs %s", countedLamps(want))
			c.here(fd)
			if kinds.Of(c.Kind.Value).HidesLamps {
				fd.only(Caution).by("49 CFR 571.108 Table I-b (2015); NHTSA interpretation nht73-1.26: the standard is for the new trailer, and on the road the lamps that a load hides may be off")
			}
		}
		if want.Tape && !taped {
			c.here(f.add(at, "nobody has looked for its red and white tape; with this size and rating it needs %s along each side", tapeLeast(want)))
		}
	},
}

// atHand reports whether it is a new trailer that is in the yard, where somebody can look before
// it is sold: its availability says so, or the day on which it came.
func (c *Case) atHand() bool {
	here := c.Arrived.Given() || c.Availability.Value == "on the yard"
	return c.Condition.Value == "new" && here && c.Availability.Value != "on order"
}

// here leaves a finding a stop on a trailer at hand. On another one it is a caution.
func (c *Case) here(f *Finding) {
	switch {
	case !c.atHand():
		f.only(Caution)
	case c.Arrived.Given():
		f.also(c.Arrived.Pos, "it is new and has arrived, so somebody can look")
	default:
		f.also(c.Availability.Pos, "it is new and on the yard, so somebody can look")
	}
}

// orUnknown ends a remedy with how to say that nobody can look, where that can be published.
func (c *Case) orUnknown(key string) string {
	if c.atHand() || c.Work.Tire.Because != "" {
		return ""
	}
	return "; if nobody can look yet, write " + key + ": unknown (why)"
}

// countedLamps lists the lamps that the unit file has a key for.
func countedLamps(want compute.LampSchedule) string {
	var out []string
	for _, l := range []struct {
		n    int
		what string
	}{
		{want.Clearance(), "clearance"}, {want.Identification, "identification"},
		{want.SideMarkers(), "side marker"}, {want.Intermediate, "intermediate side marker"},
	} {
		if l.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", l.n, l.what))
		}
	}
	last := len(out) - 1
	return strings.Join(out[:last], ", ") + " and " + out[last] + " lamps"
}
