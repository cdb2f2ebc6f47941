package compute

import (
	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

const exciseSource = "26 USC 4051(a)(1), (a)(3), (c) and 26 USC 4053 (undated copies); 26 CFR 145.4051-1(e)(3)(iv) (2015)"

// A StatedRating is a gross rating and who states it.
type StatedRating struct {
	Weight measure.Pounds
	// By says where it is written: "on the label", "on the maker's sheet", "in the title", "in the text".
	By    string
	About bool
	At    unit.Pos

	key string
}

// An Excise says how the federal excise tax applies to a trailer.
type Excise struct {
	Known bool
	// Ratings are all that somebody states, the highest first.
	Ratings []StatedRating
	// Over is the weight that must be passed, and Passed whether the highest does.
	Over   measure.Pounds
	Passed bool
	// ByLabel reports that the label alone passes it.
	ByLabel bool
	Rate    measure.Share
}

// Highest is the rating that counts.
func (e Excise) Highest() StatedRating { return e.Ratings[0] }

// statedRatings are the label's, the maker's and the listing's own, the highest first; of
// equal ones the label's.
func statedRatings(u *unit.Unit) []StatedRating {
	var out []StatedRating
	add := func(r StatedRating) {
		i := 0
		for i < len(out) && out[i].Weight >= r.Weight {
			i++
		}
		out = append(out[:i], append([]StatedRating{r}, out[i:]...)...)
	}
	if g := u.Weights.GVWR; g.Given() && g.Value > 0 {
		by := "on the label"
		if g.From.Origin == measure.MakersSheet {
			by = "on the maker's sheet"
		}
		add(StatedRating{g.Value, by, g.About, g.Pos, "weights.gvwr"})
	}
	if g := u.Claimed.GVWR; g.Given() && g.Value > 0 {
		add(StatedRating{g.Value, "on the maker's sheet", g.About, g.Pos, "claimed.gvwr"})
	}
	for _, w := range u.WrittenRatings() {
		key := "title"
		if w.Where != "the title" {
			key = "body"
		}
		add(StatedRating{w.Weight, "in " + w.Where, false, w.Pos, key})
	}
	return out
}

// exciseFree are the kinds of trailer that 26 USC 4053 exempts: house trailers.
var exciseFree = map[string]bool{"camper": true}

var excise = &Definition{
	Name: "excise", Label: "Federal excise tax at the asking price",
	What: "The tax on the first retail sale of a new trailer over 26,000 lb gross. The highest rating counts that the label, the maker's papers or the listing state. " +
		"A tax adviser decides, not this page.",
	Formula: "12% of the price where the highest of all stated ratings is over 26,000 lb",
	Unit:    "USD", Source: exciseSource,
	work: func(p *calc) {
		u, day := p.Unit, p.Settings.AsOf
		if u.Condition.Value != "new" || !day.Known() {
			// Only the first retail sale is taxed.
			p.skip()
			return
		}
		if exciseFree[u.Kind.Value] {
			p.skip()
			return
		}
		row, ok := tables.Excise("trailer", day.String())
		if !ok {
			p.skip()
			return
		}
		need(p, u.Weights.GVWR, "weights.gvwr")
		if !p.ready() {
			return
		}
		e := Excise{Known: true, Ratings: statedRatings(u), Over: row.Over, Rate: row.Rate}
		e.Passed = e.Highest().Weight > row.Over
		e.ByLabel = u.Weights.GVWR.Value > row.Over
		p.Excise = e
		top := e.Highest()
		p.use(top.key, top.Weight, top.About, measure.Provenance{}, top.At)
		p.note("as the law was when it was looked at on %s; it ends on %s", row.Checked, row.Ends)
		if !e.Passed {
			p.enter(0, "$0", 1, say("%s (%s) is not over %s", limit(top.Weight), top.By, row.Over))
			return
		}
		price := need(p, u.Price, "price")
		if !p.ready() {
			return
		}
		tax := row.Rate.OfMoney(price)
		p.enter(float64(tax), measure.Up(tax, 1).String(), 1,
			say("%s x %s, %s being stated %s", row.Rate, price, limit(top.Weight), top.By))
	},
}
