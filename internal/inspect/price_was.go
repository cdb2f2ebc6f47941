package inspect

var priceWas = &Rule{
	Name: "price-was", Severity: Stop,
	Title:  "an earlier price was really asked, on days that can be named",
	Why:    "A price that nobody was asked makes a discount out of nothing, and that is deceptive. The customer, a competitor or the state can ask when it was.",
	Source: "16 CFR 233.1(a), (b): a former price must be the actual price at which it was openly offered, in the recent course of business",
	Remedy: "write the day from which it was asked, was: $19,900 (since 2026-08-01), or take it out",
	check: func(c *Case, f *Findings) {
		was, price := c.Offer.Was, c.Price
		if !was.Given() {
			return
		}
		if price.Given() && was.Value <= price.Value {
			f.add(was.Pos, "the earlier price is %s, which is not more than the price now, %s", was.Value, price.Value).
				figures(was.Value.String(), price.Value.String()).
				also(price.Pos, "the price is here").
				fix("take it out: there is no discount")
		}
		since, now := was.Since(), price.Since()
		switch {
		case !since.Known():
			f.add(was.Pos, "the earlier price %s has no day on which it was asked", was.Value)
		case now.Known() && !now.After(since):
			f.add(was.Pos, "the earlier price is from %s, and today's price has held since %s", since, now).
				figures(since.String(), now.String()).
				also(price.Pos, "the price is here").
				fix("correct the days: the earlier price was asked before the price now")
		}
	},
}
