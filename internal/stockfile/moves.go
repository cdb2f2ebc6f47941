package stockfile

import (
	"encoding/json"

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
	Prices, Offers []string
	// Listed is how many trailers were listed before, and AsBefore how many are offered as before.
	Listed, AsBefore int
}

// MovesSince compares an earlier stock.json with the trailers that are listed now. It
// returns false if the text is not a stock.json of this form.
func MovesSince(before []byte, units []*unit.Unit) (Moves, bool) {
	was, order := offeredIn(before)
	if was == nil {
		return Moves{}, false
	}
	m := Moves{Listed: len(order)}
	now := map[string]bool{}
	for _, u := range units {
		o := offerOf(u)
		now[o.Stock] = true
		then, known := was[o.Stock]
		switch {
		case !known:
			m.New = append(m.New, o.Stock)
		case o.as(then):
			m.AsBefore++
		case o.Availability == "sold" && then.Availability != "sold":
			m.Sold = append(m.Sold, o.Stock)
		case o.Availability == then.Availability:
			m.Prices = append(m.Prices, o.Stock)
		default:
			m.Offers = append(m.Offers, o.Stock)
		}
	}
	for _, stock := range order {
		if !now[stock] {
			m.Gone = append(m.Gone, stock)
			if was[stock].Availability != "sold" {
				m.Unsold = append(m.Unsold, stock)
			}
		}
	}
	return m, true
}

// offeredIn reads what an earlier stock.json says about each offer, by stock number, and the
// numbers in their order. It is nil for a text that is not a stock.json of this form.
func offeredIn(text []byte) (byStock map[string]offered, order []string) {
	var old struct {
		Form  string
		Units []offered
	}
	if json.Unmarshal(text, &old) != nil || old.Form != version {
		return nil, nil
	}
	byStock = map[string]offered{}
	for _, o := range old.Units {
		byStock[o.Stock] = o
		order = append(order, o.Stock)
	}
	return byStock, order
}

// offerOf is what stock.json says about the offer of a trailer.
func offerOf(u *unit.Unit) offered {
	return offered{u.Stock.Value, u.Availability.Value, dated(u.Changed()), dated(u.Availability.Since()), amountOf(u)}
}
