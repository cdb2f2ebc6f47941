package stockfile

import "tarepage/internal/unit"

// offered is what a row of stock.json says about the offer.
type offered struct {
	Stock, Availability, Changed string
	AvailSince                   string `json:"availability-since"`
	Price                        *amount
}

// as reports whether both rows offer the trailer in the same way.
func (o *offered) as(other *offered) bool {
	if o.Availability != other.Availability || (o.Price == nil) != (other.Price == nil) {
		return false
	}
	return o.Price == nil || o.samePrice(other)
}

// samePrice compares the prices of two rows that have one.
func (o *offered) samePrice(other *offered) bool {
	return o.Price.Amount == other.Price.Amount && o.Price.About == other.Price.About
}

// Unsaid returns the stock numbers of trailers whose price or availability differs from the
// offers of before, although their files give no later day for it. Feeds and sitemaps go by
// days and do not report such a change. A trailer that was not among them gives nothing.
func Unsaid(before Offers, units []*unit.Unit) []string {
	was := before.byStock()
	var out []string
	for _, u := range units {
		now := offerOf(u)
		then, ok := was[now.Stock]
		// Days in this form sort like texts: RFC 3339, 5.1.
		if ok && !now.as(then) && now.Changed <= then.Changed {
			out = append(out, now.Stock)
		}
	}
	return out
}
