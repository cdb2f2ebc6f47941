package render

import (
	"fmt"
	"strings"

	"tarepage/internal/elevation"
	"tarepage/internal/linkcard"
)

// carded gets the unit's card and returns it as its page names it, or nothing where the
// site's address is not known: og:image is a whole address (ogp.me, "Basic Metadata").
func (m *maker) carded(e *entry, shots []shownPhoto) (*picture, error) {
	if m.in.Card == nil || m.in.File == nil || m.in.Stock.Yard.Site() == "" {
		return nil, nil
	}
	f := linkcard.Face{Yard: m.frame.Yard.Name, Title: e.Title.Value, Caution: "The label governs"}
	add := func(label, text string) {
		if text != "" {
			f.Figures = append(f.Figures, linkcard.Figure{Label: label, Text: text})
		}
	}
	if e.Weights.GVWR.Given() {
		add("GVWR", e.Weights.GVWR.Words())
	}
	if p := e.work.Figure("payload"); p != nil {
		add("Payload", p.Text)
	} else {
		add("Payload", "Not figured")
	}
	add("Price", price(e.Unit))
	if len(shots) > 0 {
		f.Photo = shots[0].made
	} else if k, ok := elevation.SketchOf(e.work, linkcard.SketchWide, linkcard.SketchHigh); ok {
		f.Sketch = &k
	}
	made, err := m.in.Card(f)
	if err != nil {
		return nil, fmt.Errorf("the card: %w", err)
	}
	e.card = made.From
	e.cardPath = "s/card-" + strings.ToLower(e.Stock.Value) + "-" + made.Hash + ".jpg"
	alt := f.Title
	for i, g := range f.Figures {
		alt += []string{": ", ", ", ", "}[i] + g.Label + " " + g.Text
	}
	return &picture{Address: m.at(e.cardPath), Alt: alt + ". " + f.Caution + ".", Width: linkcard.Wide, Height: linkcard.High}, nil
}

// linkCards tells of the card of every unit whose page was made.
func (m *maker) linkCards() error {
	for _, e := range m.units {
		if e.card == "" {
			continue
		}
		if err := m.in.File(e.cardPath, e.card); err != nil {
			return fmt.Errorf("%s: %w", e.File, err)
		}
	}
	return nil
}
