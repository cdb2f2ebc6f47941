package compute

import (
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
)

// HalfOf is the aggregate working load limit that a load needs: half its weight, and
// just half is enough (49 CFR 393.106(d)).
func HalfOf(weight measure.Pounds) measure.Pounds { return weight.Half() }

// LeastByLength is the least number of tie-downs for an article of a length and weight,
// blocked against moving forward or not (49 CFR 393.110(b), (c)).
func LeastByLength(length measure.Inches, weight measure.Pounds, blocked bool) int {
	five, ten := measure.Feet(5).Inches(), measure.Feet(10).Inches()
	switch {
	case blocked:
		return max(length.Steps(ten), 1)
	case length <= five && weight <= 1100:
		return 1
	case length <= ten:
		return 2
	}
	return 2 + (length - ten).Steps(ten)
}

// tiedDown skips what carries nothing that is tied down.
func (p *calc) tiedDown() bool {
	if kinds.Of(p.Unit.Kind.Value).Securing == kinds.Contained {
		p.skip()
		return false
	}
	return true
}

var tieDownNeed = &Definition{
	Name: "tie-down-need", Label: "Tie-downs, together",
	What: "The working load limits that the tie-downs of a full load must count together. A tie-down from the trailer to an anchor on the load counts half, one over the load to the other side counts whole; " +
		"the weakest of chain, hook, binder and anchor is its limit.",
	Formula: "payload / 2",
	Unit:    "lb", Source: "49 CFR 393.106(d), 393.108(a) (2015 edition, text of 2006)",
	work: func(p *calc) {
		if !p.tiedDown() {
			return
		}
		full := rest(p, p.Payload, "payload")
		if !p.ready() {
			return
		}
		p.TieDownNeed = p.load(HalfOf(full), say("%s / 2", near{full}))
	},
}

var tieDownCount = &Definition{
	Name: "tie-down-count", Label: "Tie-downs, at least",
	What:    "How many tie-downs one load as long as the deck and as heavy as the payload takes by its length, not blocked in front. The strength must be reached too; the larger number counts.",
	Formula: "2 for the first 10 ft and 1 for every 10 ft or part of it beyond; 1 only for 5 ft and 1,100 lb or less",
	Unit:    "tie-downs", Source: "49 CFR 393.110(b), (c); 393.128; 393.130 (2015 edition)",
	work: func(p *calc) {
		if !p.tiedDown() {
			return
		}
		full := rest(p, p.Payload, "payload")
		length := need(p, p.Space.Length, p.Space.key("length"))
		if !p.ready() {
			return
		}
		n := LeastByLength(length, full, false)
		p.note("blocked or braced against moving forward: %d", LeastByLength(length, full, true))
		p.note("a car, light truck or van of 10,000 lb or less: 2 at least, front and rear; a wheeled or tracked machine of 10,000 lb or more: 4 at least")
		p.enter(float64(n), measure.Count(n)+" tie-downs", 1, say("one load of %s over %s", near{full}, length))
	},
}

var tieDownPoints = &Definition{
	Name: "tie-down-points", Label: "Rated tie-down points, together",
	What:    "What the rated points on the trailer can count together: half of each for a tie-down that runs straight to the load; two points that share a strap over the load come to the same. Points without a rating count nothing.",
	Formula: "sum of points x rating / 2",
	Unit:    "lb", Source: "49 CFR 393.106(d)(1), (3); 393.108(a) (2015 edition)",
	work: func(p *calc) {
		var sum measure.Pounds
		var points sums
		for _, t := range p.Unit.TieDowns {
			if !t.Rating.Given() || !t.Count.Given() || t.Rating.Value <= 0 {
				continue
			}
			key := "tie-downs." + t.Kind.Value
			p.use(key, say("%d at %s", t.Count.Value, t.Rating.Value), t.Rating.About, t.Rating.From, t.Count.Pos)
			sum += t.Rating.Value.Times(t.Count.Value)
			points = append(points, say("%d x %s", t.Count.Value, t.Rating.Value))
		}
		if points == nil {
			p.skip()
			return
		}
		p.TieDownPoints = p.limit(sum.Half(), say("(%s) / 2", points))
	},
}
