package inspect

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

var tapeShort = &Rule{
	Name: "tape-short", Severity: Stop,
	Title:  "a wide trailer over 10,000 lb has its red and white tape",
	Why:    "At night other drivers see the tape of a trailer across the road before they see its lamps.",
	Source: "49 CFR 571.108 S8.2 (2015), for trailers built since 1 December 1993; in service 393.11(b) (2015); older trailers are under 393.13; no new trailer may be sold without it: 49 USC 30112(a), from memory",
	Remedy: "put tape along half the length of both sides and across the rear",
	check: func(c *Case, f *Findings) {
		want, has := c.Work.Lamps, c.Lights
		if !want.Known || !want.Tape {
			return
		}
		least := tapeLeast(want)
		if has.Conspicuity.Given() && !has.Conspicuity.Value {
			c.unlawfulNew(f.add(has.Conspicuity.Pos, "the trailer has no red and white tape; with this size and rating it needs %s along each side", least).
				figures("no", least.String()).
				also(c.Weights.GVWR.Pos, "gvwr is here"))
			return
		}
		if has.Tape.Given() && has.Tape.Value < want.TapeSide {
			c.unlawfulNew(f.add(has.Tape.Pos, "the trailer has %s of tape along each side; it needs half its length, %s", has.Tape.Value, least).
				figures(has.Tape.Value.String(), least.String()).
				also(c.Work.Space.Length.Pos, "the length is here"))
		}
	},
}

// tapeLeast is the least tape along one side, up to the quarter inch.
func tapeLeast(want compute.LampSchedule) measure.Inches { return measure.Up(want.TapeSide, 0.25) }
