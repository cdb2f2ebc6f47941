package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var afterAsOf = &Rule{
	Name: "after-as-of", Severity: Stop,
	Title:  "no date is after the day the stock was walked",
	Why:    "Either a date is mistyped or nobody updated the yard's as-of day. A ticket with a date in the future proves no weight, and a tire made in the future has no age.",
	Source: "the yard file's format, docs/unit-file.md: as-of",
	Remedy: "correct the date, or update as-of in content/yard.md",
	check: func(c *Case, f *Findings) {
		asOf := c.Work.Settings.AsOf
		if !asOf.Known() {
			return
		}
		later := func(at unit.Pos, day unit.Day, what string) {
			if day.Known() && day.After(asOf) {
				f.add(at, "%s on %s, which is after the stock was walked on %s", what, day, asOf)
			}
		}
		weighed := func(at unit.Pos, from measure.Provenance, what string) {
			if from.Origin == measure.ScaleTicket {
				if day, err := unit.ParseDay(from.Date()); err == nil {
					later(at, day, what)
				}
			}
		}
		tooLate := func(at unit.Pos, day unit.Day, what string) {
			if day.Known() && day.Days() > asOf.Days()+mostAhead {
				f.add(at, "%s on %s, which is over a year after the stock was walked on %s", what, day, asOf).
					fix("check the year of this day, and of as-of in content/yard.md")
			}
		}
		if c.Availability.Value != "on order" {
			tooLate(c.Arrived.Pos, c.Arrived.Value, "it came into the yard")
		}
		tooLate(c.Price.Pos, c.Price.Since(), "its price changed")
		tooLate(c.Availability.Pos, c.Availability.Since(), "its availability changed")
		later(c.Recording.Day.Pos, c.Recording.Day.Value, "it was recorded")
		later(c.Relabeled.Pos, c.Relabeled.Value, "relabeled")
		later(c.Wear.Checked.Pos, c.Wear.Checked.Value, "inspected")
		if m := c.Tank.Tested; m.Given() {
			later(m.Pos, m.Value.First(), "its tank was tested")
		}
		weighed(c.Weights.Loaded.Pos, c.Weights.Loaded.From, "it was weighed with a load")
		weighed(c.Weights.Empty.Pos, c.Weights.Empty.From, "the empty trailer was weighed")
		weighed(c.DealerAdded.Pos, c.DealerAdded.From, "weight was added")
		if made := c.Tires.Made; made.Given() && made.Value.Days() > asOf.Days() {
			f.add(made.Pos, "the tires were made in %s, after the stock was walked on %s", made.Value, asOf).
				figures(made.Value.String(), asOf.String()).
				fix("read the date code again, or update as-of in content/yard.md")
		}
		weighed(c.Weights.TongueEmpty.Pos, c.Weights.TongueEmpty.From, "the tongue was weighed")
	},
	checkYard: walkedBefore,
}

// mostAhead is how many days after the stock was walked something may have happened: nobody has
// brought the yard's day up to date for a while. A day that is further ahead is mistyped. Common
// practice, no source.
const mostAhead = 366

// walkedBefore is one remark for all that changed after the stock was walked: the mistake is
// one day in the yard's file, not each of them.
func walkedBefore(y *Yard, f *Findings) {
	asOf := y.Stock.Yard.AsOf
	if !asOf.Given() {
		return
	}
	// The day of another time zone may be ahead by one.
	if today := y.Stock.Today; today.Known() && asOf.Value.Days() > today.Days()+1 {
		f.add(asOf.Pos, "as-of is %s, a day that has not come yet: by this computer's clock today is %s", asOf.Value, today).
			figures(asOf.Value.String(), today.String()).
			fix("write the day on which you walked the stock; if the computer's clock is wrong, set it")
	}
	var after []unit.Place
	var last unit.Day
	today := y.Stock.Today
	later := func(c *Case, at unit.Pos, day unit.Day, what string) {
		if today.Known() && day.Known() && day.Days() > today.Days()+1 && day.Days() <= asOf.Value.Days()+mostAhead {
			f.add(at, "%s on %s, a day that has not come yet: by this computer's clock today is %s", what, day, today).
				figures(day.String(), today.String()).
				fix("correct the day; if the computer's clock is wrong, set it")
			return
		}
		if day.Known() && day.After(asOf.Value) && day.Days() <= asOf.Value.Days()+mostAhead {
			after = append(after, unit.Place{At: at, What: c.Stock.Value + " " + strings.TrimPrefix(what, "it ") + " on " + day.String()})
			if day.After(last) {
				last = day
			}
		}
	}
	for _, c := range y.Cases {
		if c.Availability.Value != "on order" {
			later(c, c.Arrived.Pos, c.Arrived.Value, "it arrived")
		}
		later(c, c.Price.Pos, c.Price.Since(), "it has another price")
		later(c, c.Availability.Pos, c.Availability.Since(), "it has another availability")
	}
	if len(after) == 0 {
		return
	}
	found := f.add(asOf.Pos, "the stock was walked on %s, and %s after it, the last on %s", asOf.Value, days(len(after)), last).
		only(Remark).fix("walk the stock and write its day here, as in as-of: %s; or correct the days that are wrong", last)
	for _, p := range after[:min(len(after), mostOfOne)] {
		found.also(p.At, p.What)
	}
}

func days(n int) string {
	if n == 1 {
		return "1 day that a unit states is"
	}
	return fmt.Sprintf("%d days that units state are", n)
}
