package stockfile

import "tarepage/internal/unit"

// DateChanges dates prices and availabilities whose files state no day since when they hold.
// One that is the same in an offer of before holds since the day that is stated there. One
// that differs is published now for the first time, and holds since the as-of day. A trailer
// that was not there before gets no day: it is new, and its day is that on which it arrived.
func DateChanges(before Offers, units []*unit.Unit, asOf unit.Day) {
	was := before.byStock()
	for _, u := range units {
		now := offerOf(u)
		then, known := was[now.Stock]
		if !known {
			continue
		}
		if now.Availability == then.Availability {
			u.Availability.HoldsSince(dayOf(then.AvailSince))
		} else {
			u.Availability.HoldsSince(asOf)
		}
		switch {
		case now.Price == nil:
		case then.Price != nil && now.samePrice(then):
			u.Price.HoldsSince(dayOf(then.Price.Since))
		default:
			u.Price.HoldsSince(asOf)
		}
	}
}

// dayOf reads a day of stock.json; the zero day for one that does not read.
func dayOf(text string) unit.Day {
	day, err := unit.ParseDay(text)
	if err != nil {
		return unit.Day{}
	}
	return day
}
