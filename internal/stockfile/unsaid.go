package stockfile

import (
	"encoding/json"

	"tarepage/internal/unit"
)

// offered is how a row of stock.json offers its trailer.
type offered struct {
	Stock, Availability, Changed string
	Price                        *amount
}

// as reports whether another row offers the trailer in the same way.
func (o offered) as(other offered) bool {
	if o.Availability != other.Availability || (o.Price == nil) != (other.Price == nil) {
		return false
	}
	return o.Price == nil || o.Price.Amount == other.Price.Amount && o.Price.About == other.Price.About
}

// Unsaid are the stock numbers of the trailers whose price or availability is another than in a
// stock.json that was published before, while their files give no later day for it. Whoever
// goes by days, a feed or a sitemap, is not told of those. A text that is no such list says
// nothing, and neither does a trailer that was not in it.
func Unsaid(before []byte, units []*unit.Unit) []string {
	var old struct {
		Form  string
		Units []offered
	}
	if json.Unmarshal(before, &old) != nil || old.Form != version {
		return nil
	}
	was := map[string]offered{}
	for _, o := range old.Units {
		was[o.Stock] = o
	}
	var out []string
	for _, u := range units {
		now := offered{u.Stock.Value, u.Availability.Value, dated(u.Changed()), amountOf(u)}
		then, ok := was[now.Stock]
		// Days of this form come one behind the other as texts do: RFC 3339, 5.1.
		if ok && !now.as(then) && now.Changed <= then.Changed {
			out = append(out, now.Stock)
		}
	}
	return out
}
