package inspect

var cashOverPrice = &Rule{
	Name: "cash-over-price", Severity: Stop,
	Title:  "the price for cash is lower than the price",
	Why:    "The page would show two prices, and the one for cash would be no advantage. One of the two is a slip.",
	Source: Practice,
	Remedy: "correct one of the two, or take offer.cash out",
	check: func(c *Case, f *Findings) {
		if cash, price := c.Offer.Cash, c.Price; cash.Given() && price.Given() && cash.Value >= price.Value {
			f.add(cash.Pos, "the price for cash is %s, which is not less than the price, %s", cash.Value, price.Value).
				figures(cash.Value.String(), price.Value.String()).
				also(price.Pos, "the price is here")
		}
	},
}
