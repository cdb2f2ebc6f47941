package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var saidNotConfirmed = &Rule{
	Name: "said-not-confirmed", Severity: Stop,
	Title:  "what was only said in the recording is confirmed by reading or measuring it",
	Why:    "Everything rests on the GVWR, the axle rating, the tires, the hitch and the empty weight, and a slip of the tongue would be on every page. A price is a promise, and a number that was meant for something else must not become one. Measure whatever else was only said before you count on it.",
	Source: "49 CFR 567.4 (2015): the label states the ratings; a recording does not",
	Remedy: "read it off the label or the part and write where you read it, as in (tag)",
	check: func(c *Case, f *Findings) {
		rest := ratingsSaid(c, f)
		switch len(rest) {
		case 0:
			return
		case 1:
			f.add(rest[0].Pos, "the %s was only said%s: %s", worded(rest[0].Path), when(rest[0]), rest[0].Text).
				only(Caution).fix("measure it or read it, and write where it comes from, as in (tape) or (scale ticket 2026-11-03)")
			return
		}
		// One finding for all of them: a customer reads one warning, not twenty.
		text := fmt.Sprintf("%d values were only said: ", len(rest))
		for i, g := range rest {
			if i > 0 {
				text += ", "
			}
			text += worded(g.Path) + " " + g.Text
		}
		found := f.add(rest[0].Pos, "%s", text).only(Caution).
			fix("measure or read each, and write where it comes from, as in (tape) or (scale ticket 2026-11-03)")
		for _, g := range rest[1:] {
			found.also(g.Pos, worded(g.Path)+" is here")
		}
	},
}

// ratingsSaid asks to confirm the ratings and returns the other values. What is read off one
// part is one stop: the owner walks up to the part once, not once for each value.
func ratingsSaid(c *Case, f *Findings) (rest []unit.Given) {
	said := c.Said()
	byPart := map[string][]unit.Given{}
	for _, g := range said {
		if part := ratings[g.Path].part; part != "" {
			byPart[part] = append(byPart[part], g)
		}
	}
	for _, g := range said {
		r, stops := ratings[g.Path]
		same := byPart[r.part]
		switch {
		case !stops:
			rest = append(rest, g)
		case len(same) < 2:
			f.add(g.Pos, "%s was only said%s: %s", r.what, when(g), g.Text).fix("%s%s", r.fix(), c.loadToo(g))
		case g.Path == same[0].Path:
			onePart(c, same, f)
		}
	}
	return rest
}

// onePart is the stop for several values that are read off one part, at the first of them.
func onePart(c *Case, said []unit.Given, f *Findings) {
	var list []string
	for _, g := range said {
		list = append(list, worded(g.Path)+" "+g.Text)
	}
	r := ratings[said[0].Path]
	found := f.add(said[0].Pos, "%d values to read off the %s were only said: %s", len(said), r.part, strings.Join(list, ", ")).
		fix("read the %s and write (%s) after each of them, or tap Same next to each on the phone%s", r.part, r.note, c.loadToo(said[0]))
	for _, g := range said[1:] {
		found.also(g.Pos, worded(g.Path)+" is here")
	}
}

// loadToo asks for the load on the sidewall where a tire's size was only said and no table knows it,
// so that the owner walks up to the tire once.
func (c *Case) loadToo(said unit.Given) string {
	if t := c.Work.Tire; said.Path != "tires.size" || t.Known || t.PerAxle == 0 || t.Because != "" {
		return ""
	}
	return "; what this tire carries is not known here: read its maximum load too, and write it " + c.sidewallLines("3,520 lb")
}

// worded is a key in words, because customers read the caution: hitch ball, not hitch.ball.
func worded(key string) string {
	if w, ok := ownWords[key]; ok {
		return w
	}
	if r, ok := ratings[key]; ok {
		return strings.TrimPrefix(r.what, "the ")
	}
	return strings.NewReplacer("tie-downs.d-rings", "D-rings", "tie-downs.", "", ".", " ", "-", " ").Replace(key)
}

// ownWords are the keys that a customer would not understand by their sections and names.
var ownWords = map[string]string{
	"tires.per-axle": "number of tires on an axle", "axles.count": "number of axles", "brakes.axles": "number of axles with brakes",
	"weights.tongue-empty": "empty tongue weight", "weights.max-load": "MAX LOAD on the plate", "weights.loaded": "weight with a load",
	"claimed.payload": "payload that somebody claims", "brakes.breakaway": "breakaway device", "brakes.abs": "ABS", "jack.rating": "jack's rating",
	"deck.between-fenders": "width between the fenders", "lights.conspicuity": "red and white tape", "hitch.chains.count": "number of safety chains",
}

// when is the time at which a value was said, if it was written down.
func when(g unit.Given) string {
	if !g.From.Timed {
		return ""
	}
	return " at " + measure.Clock(int(g.From.At))
}

// spoken is a value for which a recording is not enough: what it is called, the part where it
// is read and the note for that part. What is not read off a part has its own remedy.
type spoken struct{ what, part, note, remedy string }

func (s spoken) fix() string {
	if s.remedy != "" {
		return s.remedy
	}
	return "read it off the " + s.part + " and write (" + s.note + ") after it"
}

// ratings are the values for which a recording is not enough. The sidewall governs over any
// table, and the rest set limits. The payload is what is left of the gvwr after the empty
// weight, and a customer holds the yard to its price: both are numbers that an ear takes from
// somewhere else in the talk without anybody noticing.
var ratings = map[string]spoken{
	"price": {what: "the price",
		remedy: "compare it with the tag; if it is right, delete the words in parentheses after it, or tap Same next to it on the phone"},
	"weights.empty": {what: "the empty weight",
		remedy: "weigh it, or read the maker's sheet, and write where it comes from, as in (scale ticket 2026-11-03) or (maker's sheet)"},
	"weights.gvwr":            {what: "gvwr", part: "label", note: "tag"},
	"axles.rating":            {what: "the axle rating", part: "label", note: "tag"},
	"tires.size":              {what: "the tire size", part: "tire", note: "sidewall"},
	"tires.load-range":        {what: "the load range", part: "tire", note: "sidewall"},
	"tires.ply":               {what: "the ply rating", part: "tire", note: "sidewall"},
	"tires.sidewall.single":   {what: "the sidewall's single rating", part: "tire", note: "sidewall"},
	"tires.sidewall.dual":     {what: "the sidewall's dual rating", part: "tire", note: "sidewall"},
	"tires.sidewall.pressure": {what: "the sidewall's pressure", part: "tire", note: "sidewall"},
	"tires.wheel":             {what: "the wheel's rating", part: "wheel", note: "stamp"},
	"hitch.rating":            {what: "the coupler's rating", part: "coupler plate", note: "coupler plate"},
	"hitch.ball-rating":       {what: "the ball's rating", part: "ball", note: "stamp"},
	"hitch.tongue-limit":      {what: "the tongue limit", part: "coupler plate", note: "coupler plate"},
	"hitch.chains.breaking":   {what: "the chains' breaking force", part: "chain's tag", note: "tag"},
}
