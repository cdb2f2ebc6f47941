package render

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"tarepage/internal/elevation"
	"tarepage/internal/linkcard"
	"tarepage/internal/pagedata"
	"tarepage/internal/sitepath"
)

// linkCard is the card that a link to a unit's page shows.
type linkCard struct {
	// path is where it is in the site, from where it is on the disk.
	path, from string
	picture    picture
}

// carded gets the unit's card, or nothing where the site's address is not known: og:image
// is a whole address (ogp.me, "Basic Metadata").
func (m *maker) carded(e *entry) (*linkCard, error) {
	if m.in.Cards == nil || m.in.Stock.Yard.Site() == "" {
		return nil, nil
	}
	say := m.lang.Plain
	f := linkcard.Face{Yard: m.frame.Yard.Name, Title: say(m.title(e)), Caution: say(m.lang.Say("link label"))}
	add := func(label, text string) {
		f.Figures = append(f.Figures, linkcard.Figure{Label: say(label), Text: say(text)})
	}
	if e.Weights.GVWR.Given() {
		add(m.lang.Say("card gvwr"), e.Weights.GVWR.Words())
	}
	if p := e.work.Figure("payload"); p != nil {
		add(m.lang.Say("compare payload"), p.Text)
	} else {
		add(m.lang.Say("compare payload"), m.lang.Say("not figured"))
	}
	// People pass a picture on for months, so it says as of when it was true.
	label, asOf := m.lang.Say("compare price"), m.shortMonth(m.frame.Yard.AsOf)
	switch {
	case e.sold():
		label = m.lang.Say("link as of", asOf)
	case e.Price.Given():
		label = m.lang.Say("link price", asOf)
	}
	add(label, pagedata.Price(m.lang, e.Unit))
	for _, p := range m.worked(e) {
		if f.Photo == nil {
			f.Photo = p
		}
	}
	if k, ok := elevation.SketchOf(e.work, linkcard.SketchWide, linkcard.SketchHigh); ok && f.Photo == nil {
		f.Sketch = &k
	}
	made, err := linkcard.Drawn(m.in.Cards, f)
	if err != nil {
		return nil, fmt.Errorf("the card of its link: %w", err)
	}
	var facts []string
	for _, g := range f.Figures {
		facts = append(facts, g.Label+" "+g.Text)
	}
	c := &linkCard{path: "s/card-" + strings.ToLower(e.Stock.Value) + "-" + made.Hash + ".jpg", from: made.From}
	c.picture = picture{Address: sitepath.Whole(m.in.Stock.Yard.Site(), c.path), Width: linkcard.Wide, Height: linkcard.High,
		Alt: f.Title + ": " + strings.Join(facts, ", ") + ". " + f.Caution + "."}
	return c, nil
}

// shortMonth writes November 20, 2026 as Nov 20, 2026, for which a card has room, and 20 de
// noviembre de 2026 as 20 nov 2026.
func (m *maker) shortMonth(long string) string {
	var out []string
	for _, w := range strings.Fields(m.lang.Plain(long)) {
		letters := []rune(w)
		switch {
		case !unicode.IsLetter(letters[0]):
			out = append(out, w)
		case len(letters) >= len("May"):
			out = append(out, string(letters[:len("May")]))
		}
	}
	return strings.Join(out, " ")
}

// linkCard is the card of a unit in the maker's language.
func (m *maker) linkCard(e *entry) (*linkCard, error) { return e.cards[m.under]() }

// linked readies the cards of the units in the maker's language.
func (m *maker) linked() {
	for _, e := range m.units {
		e.cards[m.under] = sync.OnceValues(func() (*linkCard, error) { return m.carded(e) })
	}
}

// linkCards lists the cards of every unit. If a card could not be made, its page has failed
// with the error already.
func (m *maker) linkCards() (out []File) {
	for _, e := range m.units {
		for _, l := range m.languages() {
			if c, err := l.linkCard(e); err == nil && c != nil {
				out = append(out, File{Path: c.path, From: c.from, At: e.File})
			}
		}
	}
	return out
}
