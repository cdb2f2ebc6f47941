package inspect

import (
	"regexp"
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var wordsOverPayload = &Rule{
	Name: "words-over-payload", Severity: Stop,
	Title:  "no words of the file or of the yard promise more load than the trailer may take",
	Why:    "Whoever reads that it takes 12,000 lb loads 12,000 lb. Every text of the page is read; captions next to a video are what was said, and are not.",
	Source: "49 CFR 567.4(g)(3): the GVWR covers the trailer and its cargo",
	Remedy: "correct the words; the page prints the payload by itself",
	check: func(c *Case, f *Findings) {
		own := c.Work.Payload
		if !own.Known {
			return
		}
		// A text may round the payload up to the next 50 lb.
		most := measure.Up(own.Value, 50)
		for _, t := range c.writing() {
			for _, p := range promises(t.text) {
				if t.spoken && !p.plain || measure.NotOver(p.load, most) || t.checked(p.says) {
					continue
				}
				f.add(t.pos(p.says), "the words say %s; the payload is %s", p.says, own.Value.Limit()).
					figures(p.says, own.Value.Limit()).also(c.Weights.GVWR.Pos, "gvwr is here")
			}
		}
	},
	checkYard: func(y *Yard, f *Findings) {
		// What the yard says of all its trailers is held against the one that takes most.
		var most measure.Pounds
		for _, c := range y.Cases {
			if !c.Work.Payload.Known {
				return
			}
			most = max(most, c.Work.Payload.Value)
		}
		if len(y.Cases) == 0 {
			return
		}
		for _, p := range y.Stock.Yard.Body.Passages(func(string) string { return "" }) {
			for _, m := range promises(p.Text) {
				if measure.NotOver(m.load, measure.Up(most, 50)) {
					continue
				}
				f.add(p.Pos(strings.Index(strings.ToLower(p.Text), m.says)), "the words say %s; the largest payload in the yard is %s", m.says, most.Limit()).
					figures(m.says, most.Limit())
			}
		}
	},
}

// writing is a text of the author's that customers read.
type writing struct {
	text   string
	at     unit.Pos
	of     *unit.Passage // nil for a value
	spoken bool          // a note with a time: what somebody said
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
func (c *Case) writing() (out []writing) {
	list := c.Passages()
	for i := range list {
		p := &list[i]
		out = append(out, writing{text: p.Text, of: p, spoken: p.Note != nil})
	}
	for _, m := range pictureWords.FindAllStringSubmatch(string(c.Body.Source), -1) {
		out = append(out, writing{text: m[1], at: c.Top})
	}
	for _, g := range c.Givens() {
		if text, ok := g.Value.(string); ok && g.Path != "title" {
			out = append(out, writing{text: text, at: g.Pos})
		}
		if g.From.Origin == measure.Other {
			out = append(out, writing{text: g.From.Text, at: g.Pos})
		}
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
