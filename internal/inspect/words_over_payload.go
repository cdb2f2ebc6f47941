package inspect

import (
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var wordsOverPayload = &Rule{
	Name: "words-over-payload", Severity: Stop,
	Title:  "nothing written in the unit's file or the yard's promises more load than the trailer may take",
	Why:    "Whoever reads that it takes 12,000 lb loads 12,000 lb. Every text on the page is checked except the captions next to a video, which are what was said.",
	Source: "49 CFR 567.4(g)(3): the GVWR covers the trailer and its cargo",
	Remedy: "correct the words; the page prints the payload by itself",
	check: func(c *Case, f *Findings) {
		own := c.Work.Payload
		stated := c.statedWeights()
		texts := c.writing()
		for i := range texts {
			t := &texts[i]
			if word := measure.LookAlike(norm.NFC.String(t.text)); word != "" {
				f.add(t.at, "the word %q has letters of two alphabets that look alike", word).fix("type the word again")
			}
			for _, p := range t.read().promises() {
				switch {
				case t.checked(p.says):
				case p.bare:
					c.unstated(p, t, stated, f)
				case !own.Known:
					if !claimedPayload(c, p) && (!t.spoken || p.plain) {
						f.add(t.pos(p.says), "the words say %s, and nobody knows the payload: it takes the gvwr and the empty weight", p.says).
							fix("weigh it and write weights.empty, or take the words out; if it is the rating of a part, name the part: a 9,000 lb winch")
					}
				case !measure.NotOver(p.load, measure.Up(own.Value, 50)): // a text may round the payload up to the next 50 lb
					f.add(t.pos(p.says), "the words say %s; the payload is %s", p.says, own.Value.Limit()).
						figures(p.says, own.Value.Limit()).also(c.Weights.GVWR.Pos, "gvwr is here")
				}
			}
		}
	},
	checkYard: func(y *Yard, f *Findings) {
		// What the yard says of all its trailers is held against the one that takes most.
		var most measure.Pounds
		for _, c := range y.Cases {
			if c.Work.Payload.Known {
				most = max(most, c.Work.Payload.Value)
			}
		}
		if len(y.Cases) == 0 {
			return
		}
		for _, t := range y.writing() {
			for _, m := range promises(t.text) {
				if measure.NotOver(m.load, measure.Up(most, 50)) || t.checked(m.says) {
					continue
				}
				f.add(t.pos(m.says), "the words say %s; the largest payload in the yard is %s", m.says, most.Limit()).
					figures(m.says, most.Limit())
			}
		}
	},
}

// unstated judges a weight in the words of which they do not say what it is of. It must be one
// that the file gives, because a customer may take it for the load.
func (c *Case) unstated(p promise, t *writing, stated []measure.Pounds, f *Findings) {
	most := c.Work.Payload.Value
	if t.code {
		return
	}
	if !c.Work.Payload.Known {
		most = c.Weights.GVWR.Value
	}
	if most <= 0 || measure.NotOver(p.load, measure.Up(most, 50)) || near(p.load, stated) {
		return
	}
	f.add(t.pos(p.says), "the words say %s, which is more than the trailer may take (%s), and no value of the file is that much", p.says, most.Limit()).
		figures(p.says, most.Limit()).also(c.Weights.GVWR.Pos, "gvwr is here").
		fix("correct the number, or say what weighs that much, as in: a 9,000 lb winch; seven yards of wet dirt weigh 21,000 lb; or delete the sentence")
}

// near reports whether a weight in words is one of those that are stated.
func near(load measure.Pounds, stated []measure.Pounds) bool {
	return slices.ContainsFunc(stated, func(w measure.Pounds) bool {
		return measure.NotOver(max(load-w, w-load), nearStated.Of(w))
	})
}

// nearStated is how far a weight in words may be from the one in the file: a 9,990 lb trailer
// is called a 10,000 lb one. Common practice, no source.
const nearStated measure.Share = 0.025

// statedWeights are the weights that the file gives and those that are worked out from them.
func (c *Case) statedWeights() (out []measure.Pounds) {
	for _, g := range c.Givens() {
		if w, ok := g.Value.(measure.Pounds); ok && w > 0 {
			out = append(out, w)
		}
	}
	for i := range c.Work.Figures {
		if f := &c.Work.Figures[i]; f.Unit == "lb" && f.Value > 0 {
			out = append(out, measure.Pounds(f.Value))
		}
	}
	return out
}

// claimedPayload reports whether a promise is the payload that the maker claims.
func claimedPayload(c *Case, p promise) bool {
	claim := c.Claimed.Payload
	return claim.Given() && measure.NotOver(p.load, claim.Value)
}

// writing is a text of the author's that customers read.
type writing struct {
	text   string
	at     unit.Pos
	of     *unit.Passage // nil for a value
	spoken bool          // a note with a time: what somebody said
	code   bool          // what is on a tire, whose numbers are not weights

	words *promising // once somebody has asked
}

// read cuts the text into words.
func (w *writing) read() *promising {
	if w.words == nil {
		w.words = promisingIn(w.text)
	}
	return w.words
}

// pos is the place of words in it.
func (w *writing) pos(says string) unit.Pos {
	if w.of != nil {
		return w.of.Pos(strings.Index(strings.ToLower(w.text), says))
	}
	return w.at
}

// checked reports whether the words hold a checked figure, which figure-disagrees judges.
func (w *writing) checked(says string) bool {
	at := -1
	if w.of != nil {
		at = strings.Index(strings.ToLower(w.text), says)
	}
	return at >= 0 && w.of.Checked(at, at+len(says))
}

// pictureWords are the words that are shown in place of a picture in the notes.
var pictureWords = regexp.MustCompile(`!\[([^\]]*)\]`)

// writing lists the texts of the unit, but not its title, which title-contradicts reads.
func (c *Case) writing() []writing {
	if c.texts == nil {
		c.texts = c.written()
	}
	return c.texts
}

func (c *Case) written() (out []writing) {
	out = passagesOf(c.Passages())
	for _, b := range c.Bodies() {
		out = append(out, passagesOf(b.Unread(c.filled))...)
		for _, m := range pictureWords.FindAllStringSubmatch(string(b.Source), -1) {
			out = append(out, writing{text: m[1], at: c.Top})
		}
	}
	for _, g := range c.Givens() {
		if text, ok := g.Value.(string); ok && g.Path != "title" {
			out = append(out, writing{text: text, at: g.Pos, code: strings.HasPrefix(g.Path, "tires.")})
		}
		if g.From.Text != "" {
			out = append(out, writing{text: g.From.Text, at: g.Pos})
		}
	}
	for _, g := range c.Unknown() {
		out = append(out, writing{text: g.From.Text, at: g.Pos})
	}
	texts := slices.Concat(c.Standard, c.Options)
	for _, p := range c.Photos {
		texts = append(texts, p.Alt, p.Caption)
	}
	for _, w := range c.Waive {
		texts = append(texts, w.Reason)
	}
	for _, t := range texts {
		out = append(out, writing{text: t.Value, at: t.Pos})
	}
	return out
}

func passagesOf(lists ...[]unit.Passage) (out []writing) {
	for _, list := range lists {
		for i := range list {
			p := &list[i]
			out = append(out, writing{text: p.Text, at: p.Pos(0), of: p, spoken: p.Note != nil})
		}
	}
	return out
}

// writing lists the texts of the yard's own file.
func (y *Yard) writing() []writing {
	yard := y.Stock.Yard
	none := func(string) string { return "" }
	out := passagesOf(yard.Body.Passages(none), yard.Body.Unread(none))
	for _, m := range pictureWords.FindAllStringSubmatch(string(yard.Body.Source), -1) {
		out = append(out, writing{text: m[1], at: yard.Top})
	}
	for _, t := range append([]unit.Text{yard.Name, yard.Street, yard.Town, yard.Excludes}, yard.Hours...) {
		if t.Given() {
			out = append(out, writing{text: t.Value, at: t.Pos})
		}
	}
	return out
}
