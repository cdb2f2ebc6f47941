package render

import (
	"fmt"
	"html/template"
	"strings"
	"unicode"
	"unicode/utf8"

	qr "github.com/piglig/go-qr"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/pagedata"
)

func (m *maker) printed(e *entry, path, title string) (printedPage, error) {
	s := printedPage{frame: m.frame, Heading: m.title(e), Stock: e.Stock.Value, Serial: e.Serial.Value}
	s.Root, s.Hidden = "../", true
	m.dress(&s.frame, m.sheetStyle, m.sheetPolicy)
	s.Back = s.Root + e.path
	m.place(&s.frame, path)
	s.Title = m.lang.Say("sheet titled", title, m.title(e), e.Stock.Value, m.frame.Yard.Name)
	s.Description = m.lang.Say("sheet about", title, e.Stock.Value)
	var err error
	s.Data, err = stated(m.says.Page(path, m.lang.Say("sheet of", title, e.Stock.Value)))
	return s, err
}

func (m *maker) lot(e *entry) ([]byte, error) {
	s, err := m.printed(e, e.lot, m.lang.Say("print lot"))
	if err != nil {
		return nil, err
	}
	p := &lotSheet{printedPage: s, Availability: e.Availability.Value, Price: pagedata.Price(m.lang, e.Unit), Excludes: m.offered(e.Unit)}
	p.Big = kinds.Of(e.Kind.Value).Noun
	l := e.work.Figure("deck-length")
	switch noun, ok := m.lang.Fact("noun/" + e.Kind.Value); {
	case ok && m.lang.Foreign() && l != nil:
		p.Big = upper(m.lang.Plain(m.lang.Say("made title", noun, l.Text)))
		p.Big = m.lang.Said(p.Big)
	case l != nil:
		p.Big = l.Text + " " + p.Big
	}
	p.Numbers = m.keyNumbers(e)
	if svg, ok := elevation.Side(e.work); ok {
		// internal/elevation draws it and escapes what it writes.
		p.View = template.HTML(svg)
	}
	if p.Address = m.at(e.path); p.Address != "" {
		if p.Code, err = code(p.Address); err != nil {
			return nil, err
		}
	}
	p.Cautions, p.Proven = m.messages(e), m.proven(e)
	return m.page("lot", p)
}

// keyNumbers are what the trailer weighs, carries and measures. Nothing switches units on
// paper, so each is in both systems.
func (m *maker) keyNumbers(e *entry) []labeled {
	space := e.work.Space
	payload := m.lang.Say("not figured")
	if f := e.work.Figure("payload"); f != nil {
		payload = f.Text
	}
	out := []labeled{
		{Label: m.lang.Say("card gvwr"), Text: e.Weights.GVWR.Words()},
		{Label: m.lang.Say("tag empty"), Text: e.Weights.Empty.Words()},
		{Label: m.lang.Say("compare payload"), Text: payload},
	}
	if l := e.work.Figure("deck-length"); l != nil {
		text := l.Text
		if space.Width.Given() {
			text += " x " + space.Width.Words()
		}
		out = append(out, labeled{Label: label(space.Name), Text: text})
	}
	for i, exact := 0, e.work.MetricOf(); i < len(out); i++ {
		if metric := measure.InMetric(out[i].Text, exact); metric != out[i].Text {
			out[i].Metric = metric
		}
	}
	return out
}

// inBoth is a text in which the metric form follows each quantity.
func inBoth(text string, exact map[string]string) string {
	var b strings.Builder
	from := 0
	for _, q := range measure.Quantities(text, exact) {
		b.WriteString(text[from:q.End] + " (" + q.Metric + ")")
		from = q.End
	}
	return b.String() + text[from:]
}

// upper makes the first letter of a sentence a capital.
func upper(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// messages are a unit's cautions in short.
func (m *maker) messages(e *entry) []string {
	var out []string
	exact := e.work.MetricOf()
	for _, c := range e.cautions {
		out = append(out, inBoth(m.lang.Told(upper(ending(c.Message))), exact))
	}
	return out
}

// code is an address as a QR code with the quiet zone of four modules that ISO/IEC 18004
// asks for. Its medium correction allows for a smear of mud.
func code(address string) (template.HTML, error) {
	c, err := qr.EncodeText(address, qr.Medium)
	if err != nil {
		return "", fmt.Errorf("the address %q makes no QR code: %w", address, err)
	}
	svg, err := c.ToSVGBytes(qr.NewQrCodeImgConfig(1, 4, qr.WithOptimalSVG()))
	// The library writes only numbers and colors; no text of the address is in it.
	return template.HTML(svg), err
}

func (m *maker) handOver(e *entry) ([]byte, error) {
	s, err := m.printed(e, e.handOver, m.lang.Say("print hand-over"))
	if err != nil {
		return nil, err
	}
	p := &handOver{printedPage: s, Numbers: m.keyNumbers(e), Cautions: m.messages(e)}
	t, exact := e.Tires, e.work.MetricOf()
	for _, r := range compute.Rechecks {
		p.Rechecks = append(p.Rechecks, inBoth(m.lang.Say("card miles", r), exact))
	}
	if t.Pressure.Given() {
		p.Pressure, p.PressureFrom = inBoth(t.Pressure.Words(), exact), t.Pressure.From.String()
	}
	p.Wheels = t.Size.Value
	if t.PerAxle.Given() {
		p.Wheels = m.lang.Say("card tire count", p.Wheels, t.PerAxle.Words())
	}
	if f := e.work.Figure("wheel-torque"); f != nil {
		p.TorqueMetric = strings.Join(e.work.TorqueMetric, ", ")
		p.Torque, p.TorqueFrom = e.work.TorqueStages, t.Stud.Value+"; "+f.Source
	}
	if b := e.Unit.Hitch.Ball; b.Given() {
		p.Ball = inBoth(b.Words(), exact)
	}
	if c := e.Unit.Hitch.Chains; c.Count.Given() {
		p.Chains = c.Count.Words()
		if c.Breaking.Given() {
			p.Chains = m.lang.Say("card chain strength", p.Chains, inBoth(c.Breaking.Words(), exact))
		}
	}
	p.Coupled, p.Chained = coupled(e.Unit.Hitch.Kind.Value, p.Ball != "", p.Chains != "")
	p.Brakes, p.Breakaway = e.Unit.Brakes.Kind.Value, e.Unit.Brakes.Breakaway.Value
	for _, d := range e.TieDowns {
		text := m.lang.Say("card point unrated", d.Count.Words())
		if d.Rating.Given() {
			text = m.lang.Say("card point rated", d.Count.Words(), inBoth(d.Rating.Words(), exact))
		}
		p.Points = append(p.Points, labeled{Label: label(d.Kind.Value), Text: text})
	}
	if f := e.work.Figure("tie-down-points"); f != nil {
		p.PointsText = inBoth(f.Text, exact)
	}
	p.Tail = e.Deck.TailKind.Given() || e.Ramps.Kind.Given()
	return m.page("handover", p)
}

// coupled are the keys of the sentences about how a trailer is coupled: its hitch, and its
// safety chains, or nothing where a kingpin's chains are not recorded.
func coupled(hitch string, ball, chains bool) (how, chained string) {
	how, chained = "card coupled fifth-wheel", "card chains"
	switch hitch {
	case "bumper-pull", "gooseneck", "pintle":
		how = "card coupled " + hitch
		if ball && hitch != "pintle" {
			how += " ball"
		}
		if hitch != "gooseneck" {
			chained += " crossed"
		}
		if !chains {
			chained += " unknown"
		}
		return how, chained
	}
	if !chains {
		chained = ""
	}
	return how, chained
}
