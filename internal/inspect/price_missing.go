package inspect

var priceMissing = &Rule{
	Name: "price-missing", Severity: Remark,
	Title:  "a unit for sale has a price",
	Why:    "It is the first thing a customer asks.",
	Source: Practice,
	Remedy: "give the price, or leave it out so that the page asks the customer to call",
	check: func(c *Case, f *Findings) {
		if !c.Price.Given() && !c.Price.Spoiled && c.Availability.Value != "sold" {
			f.add(c.Top, "no price is given")
		}
	},
}
