package inspect

import "tarepage/internal/measure"

// What a pound of trailer costs, in dollars: a new one costs more than half a dollar a pound,
// scrap brings more than a tenth, and not even living quarters cost forty.
const (
	leastNew  measure.Dollars = 0.5
	leastUsed measure.Dollars = 0.15
	mostPound measure.Dollars = 40
)

var priceImplausible = &Rule{
	Name: "price-implausible", Severity: Stop,
	Title:  "the price has the right number of digits",
	Why:    "A digit short or one too many brings people out for nothing, and some states hold a seller to a published price.",
	Source: "the price for each pound that the trailer weighs: " + Practice,
	Remedy: "write the price again; if it is right, waive this with the reason",
	check: func(c *Case, f *Findings) {
		price, empty := c.Price, c.Weights.Empty
		if !price.Given() || price.Value <= 0 || !empty.Given() || empty.Value <= 0 || c.Condition.Value == "" {
			return
		}
		least := leastNew
		if c.Condition.Value == "used" {
			least = leastUsed
		}
		low, high := empty.Value.AtPrice(least), empty.Value.AtPrice(mostPound)
		low, high = measure.Down(low, 1), measure.Up(high, 1)
		switch {
		case price.Value < low:
			f.add(price.Pos, "%s is less than %s, the least that a %s trailer of %s sells for", price.Words(), low, c.Condition.Value, empty.Value).
				figures(price.Words(), low.String())
		case price.Value > high:
			f.add(price.Pos, "%s is more than %s, the most that a trailer of %s sells for", price.Words(), high, empty.Value).
				figures(price.Words(), high.String())
		default:
			return
		}
	},
}
