package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var measureImpossible = &Rule{
	Name: "measure-impossible", Severity: Stop,
	Title:  "no measure is impossible",
	Why:    "Figures worked from a zero, or from an axle in front of the ball, mean nothing.",
	Source: "geometry and statics",
	Remedy: "measure or weigh again",
	check: func(c *Case, f *Findings) {
		zero := func(given bool, v float64, at unit.Pos, what string) {
			if given && v <= 0 {
				f.add(at, "%s is zero", what)
			}
		}
		w, ax, d := c.Weights, c.Axles, c.Deck
		zero(w.GVWR.Given(), float64(w.GVWR.Value), w.GVWR.Pos, "gvwr")
		zero(w.Empty.Given(), float64(w.Empty.Value), w.Empty.Pos, "the empty weight")
		zero(ax.Rating.Given(), float64(ax.Rating.Value), ax.Rating.Pos, "the axle rating")
		zero(ax.Count.Given(), float64(ax.Count.Value), ax.Count.Pos, "the number of axles")
		zero(ax.Center.Given(), float64(ax.Center.Value), ax.Center.Pos, "the distance from the ball to the axles")
		zero(ax.Spacing.Given(), float64(ax.Spacing.Value), ax.Spacing.Pos, "the axle spacing")
		zero(d.Length.Given(), float64(d.Length.Value), d.Length.Pos, "the deck's length")
		zero(c.Hitch.Rating.Given(), float64(c.Hitch.Rating.Value), c.Hitch.Rating.Pos, "the coupler's rating")

		if ax.Count.Value > 6 {
			f.add(ax.Count.Pos, "%d axles are more than a trailer has", ax.Count.Value).figures(measure.Count(ax.Count.Value), "6")
		}
		if per := c.Tires.PerAxle; per.Given() && per.Value != 2 && per.Value != 4 {
			f.add(per.Pos, "%d tires on an axle: an axle has 2, or 4 where they are duals", per.Value).
				fix("count the tires on one axle")
		}
		if w.TongueEmpty.Given() && w.Empty.Given() && w.TongueEmpty.Value > w.Empty.Value {
			f.add(w.TongueEmpty.Pos, "the tongue puts %s on the truck, the whole trailer weighs %s", w.TongueEmpty.Value, w.Empty.Value).
				figures(w.TongueEmpty.Value.String(), w.Empty.Value.String()).
				also(w.Empty.Pos, "the empty weight stands here")
		}
		s := c.Work.Space
		if ax.Center.Given() && s.Front.Given() && s.Length.Given() && s.Length.Value > 0 {
			if end := s.Front.Value + s.Length.Value; ax.Center.Value > end {
				f.add(ax.Center.Pos, "the axles stand %s behind the ball, the %s ends at %s", ax.Center.Value, s.Name, end.Near()).
					figures(ax.Center.Value.String(), end.Near()).
					also(s.Length.Pos, "the length stands here")
			}
		}
		if ax.Center.Given() && ax.Spacing.Given() && ax.Count.Value > 1 {
			if front := ax.Center.Value - ax.Spacing.Value.Times(ax.Count.Value-1).Half(); front <= 0 {
				f.add(ax.Spacing.Pos, "with %s between axles the first one stands in front of the ball", ax.Spacing.Value).
					also(ax.Center.Pos, "the middle of the group stands here")
			}
		}
	},
}
