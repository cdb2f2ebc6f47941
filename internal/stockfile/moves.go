package stockfile

import (
	"encoding/json"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// Moves are what a build changes for customers, as stock numbers in the order of the units.
// Each trailer is in one list at most: one that was sold at another price is sold.
type Moves struct {
	// New were not offered before, and Gone are not listed any more.
	New, Gone []string
	// Unsold are those of Gone that were not listed as sold.
	Unsold []string
	// Sold were offered before and are sold now.
	Sold []string
	// Prices have another price, and Offers another availability.
	Prices []PriceMove
	Offers []string
	// Jumps have a price of less than half of that of before, or of more than twice as much, sold or not.
	Jumps []PriceMove
	// Listed is how many trailers were listed before, and AsBefore how many are offered as before.
	Listed, AsBefore int
}

// A PriceMove is a price that changed, as customers read it: "$3,995". One that was not given is "no
// price".
type PriceMove struct{ Stock, From, To string }

// jumps reports whether a price is less than half of the other, or more than twice as much: a digit
// too few or too many is likelier than such a sale. The limits are our own.
func (o *offered) jumps(then *offered) bool {
	if o.Price == nil || then.Price == nil {
		return false
	}
	now, err1 := o.Price.Amount.Float64()
	was, err2 := then.Price.Amount.Float64()
	return err1 == nil && err2 == nil && (2*now < was || now > 2*was)
}

// priceMove is the change of price from one offer to another.
func priceMove(then, now *offered) PriceMove {
	return PriceMove{now.Stock, then.Price.words(), now.Price.words()}
}

// words are the amount as customers read it.
func (a *amount) words() string {
	if a == nil {
		return "no price"
	}
	v, err := a.Amount.Float64()
	if err != nil {
		return a.Amount.String()
	}
	if a.About {
		return "about " + measure.Dollars(v).String()
	}
	return measure.Dollars(v).String()
}

// MovesSince compares the offers of before with the trailers that are listed now. It
// returns false if there are none to compare with.
func MovesSince(before Offers, units []*unit.Unit) (Moves, bool) {
	if before == nil {
		return Moves{}, false
	}
	was, m := before.byStock(), Moves{Listed: len(before)}
	now := map[string]bool{}
	for _, u := range units {
		o := offerOf(u)
		now[o.Stock] = true
		then, known := was[o.Stock]
		if known && o.jumps(then) {
			m.Jumps = append(m.Jumps, priceMove(then, &o))
		}
		switch {
		case !known:
			m.New = append(m.New, o.Stock)
		case o.as(then):
			m.AsBefore++
		case o.Availability == "sold" && then.Availability != "sold":
			m.Sold = append(m.Sold, o.Stock)
		case o.Availability == then.Availability:
			m.Prices = append(m.Prices, priceMove(then, &o))
		default:
			m.Offers = append(m.Offers, o.Stock)
		}
	}
	for _, o := range before {
		if !now[o.Stock] {
			m.Gone = append(m.Gone, o.Stock)
			if was[o.Stock].Availability != "sold" {
				m.Unsold = append(m.Unsold, o.Stock)
			}
		}
	}
	return m, true
}

// Offers are what a stock.json says about the offers of its trailers, in its order; nil if there
// is none. It can be packed (internal/packed).
type Offers []offered

// ReadOffers reads the offers of a stock.json. They are nil for a text that is not a stock.json
// of this form.
func ReadOffers(text []byte) Offers {
	var old struct {
		Form  string
		Units Offers
	}
	if json.Unmarshal(text, &old) != nil || old.Form != version {
		return nil
	}
	if old.Units == nil {
		return Offers{}
	}
	return old.Units
}

// OffersOf are the offers that ReadOffers reads from the stock.json of these trailers.
func OffersOf(units []*unit.Unit) Offers {
	out := make(Offers, len(units))
	for i, u := range units {
		out[i] = offerOf(u)
	}
	return out
}

func (o Offers) byStock() map[string]*offered {
	out := make(map[string]*offered, len(o))
	for i := range o {
		out[o[i].Stock] = &o[i]
	}
	return out
}

// offerOf is what stock.json says about the offer of a trailer.
func offerOf(u *unit.Unit) offered {
	return offered{u.Stock.Value, u.Availability.Value, dated(u.Changed()), dated(u.Availability.Since()), amountOf(u)}
}
