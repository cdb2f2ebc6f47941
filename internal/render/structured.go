package render

import (
	"encoding/json"
	"html/template"
	"regexp"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tarepage/internal/unit"
)

// What a page states for programs, in the words of schema.org, as JSON-LD 1.1. It says
// nothing that the page does not say to people: every number in it stands in the page's
// text, in the unit that the page shows it in.
//
// tongueWeight and trailerWeight are not used: they mean what a towing vehicle may carry
// and pull ("of a trailer attached to the vehicle"). Nor is there an Offer without a
// price, nor an address where the yard's file gives none.

const schemaOrg = "https://schema.org"

type graph struct {
	Context string `json:"@context"`
	Nodes   []any  `json:"@graph"`
}

// data is the nodes as the text of a script element: no < can end it early (HTML
// Standard, 4.12.1.3), since encoding/json writes it as \u003c.
func data(nodes ...any) (template.JS, error) {
	out, err := json.Marshal(graph{schemaOrg, nodes})
	return template.JS(out), err
}

type business struct {
	Type    string  `json:"@type"`
	ID      string  `json:"@id,omitempty"`
	Name    string  `json:"name"`
	URL     string  `json:"url,omitempty"`
	Phone   string  `json:"telephone,omitempty"`
	Email   string  `json:"email,omitempty"`
	Address *postal `json:"address,omitempty"`
}

type postal struct {
	Type   string `json:"@type"`
	Street string `json:"streetAddress,omitempty"`
	Town   string `json:"addressLocality,omitempty"`
}

type product struct {
	Type      []string   `json:"@type"`
	ID        string     `json:"@id,omitempty"`
	Name      string     `json:"name"`
	SKU       string     `json:"sku"`
	URL       string     `json:"url,omitempty"`
	Image     []string   `json:"image,omitempty"`
	Brand     *named     `json:"brand,omitempty"`
	Year      string     `json:"vehicleModelDate,omitempty"`
	Serial    string     `json:"vehicleIdentificationNumber,omitempty"`
	Color     string     `json:"color,omitempty"`
	Body      string     `json:"bodyType,omitempty"`
	Condition string     `json:"itemCondition,omitempty"`
	Axles     int        `json:"numberOfAxles,omitempty"`
	Weight    *quantity  `json:"weight,omitempty"`
	Total     *quantity  `json:"weightTotal,omitempty"`
	Payload   *quantity  `json:"payload,omitempty"`
	More      []property `json:"additionalProperty,omitempty"`
	Offers    *offer     `json:"offers,omitempty"`
	Video     *video     `json:"subjectOf,omitempty"`
}

type named struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

// quantity is a number with its unit; Name says where it comes from.
type quantity struct {
	Type  string `json:"@type"`
	Value any    `json:"value"`
	Unit  string `json:"unitCode,omitempty"`
	Name  string `json:"name,omitempty"`
}

type property struct {
	Type  string `json:"@type"`
	Name  string `json:"name"`
	Value any    `json:"value"`
	Term  string `json:"valueReference,omitempty"`
	Unit  string `json:"unitCode,omitempty"`
	From  string `json:"description,omitempty"`
}

type offer struct {
	Type         string      `json:"@type"`
	Price        json.Number `json:"price"`
	Currency     string      `json:"priceCurrency"`
	Since        string      `json:"validFrom,omitempty"`
	Availability string      `json:"availability,omitempty"`
	Expected     string      `json:"availabilityStarts,omitempty"`
	Terms        string      `json:"description"`
	URL          string      `json:"url,omitempty"`
	Seller       business    `json:"seller"`
}

type video struct {
	Type     string `json:"@type"`
	Name     string `json:"name"`
	Content  string `json:"contentUrl,omitempty"`
	URL      string `json:"url,omitempty"`
	Picture  string `json:"thumbnailUrl,omitempty"`
	Duration string `json:"duration,omitempty"`
	Clips    []clip `json:"hasPart,omitempty"`
}

type clip struct {
	Type  string `json:"@type"`
	Name  string `json:"name"`
	Start int    `json:"startOffset"`
	End   int    `json:"endOffset,omitempty"`
	URL   string `json:"url,omitempty"`
}

type list struct {
	Type  string `json:"@type"`
	Count int    `json:"numberOfItems,omitempty"`
	Items []item `json:"itemListElement"`
}

type item struct {
	Type     string `json:"@type"`
	Position int    `json:"position"`
	Name     string `json:"name,omitempty"`
	Item     string `json:"item,omitempty"`
	URL      string `json:"url,omitempty"`
}

type webPage struct {
	Type      string   `json:"@type"`
	ID        string   `json:"@id,omitempty"`
	Name      string   `json:"name"`
	Publisher business `json:"publisher"`
}

// at is the whole address of a page of the site, or nothing where the site's own is not
// known. The yard is the site's folder itself.
func (m *maker) at(page string) string {
	site := m.in.Stock.Yard.Site()
	if site == "" || page == "index.html" {
		return site
	}
	return site + address(page)
}

// seller names the yard where another thing is stated.
func (m *maker) seller() business {
	b := business{Type: "LocalBusiness", Name: m.frame.Yard.Name}
	if site := m.at("index.html"); site != "" {
		b.ID = site + "#yard"
	}
	return b
}

// business is the yard itself, on its own page.
func (m *maker) business() business {
	b := m.seller()
	y := m.frame.Yard
	b.URL, b.Phone, b.Email = m.at("index.html"), y.Phone, y.Email
	if y.Street != "" || y.Town != "" {
		b.Address = &postal{"PostalAddress", y.Street, y.Town}
	}
	return b
}

// trail is the way from the yard to a page, or nothing without the site's address: each
// step but the last needs one.
func (m *maker) trail(steps ...link) []any {
	if m.at("index.html") == "" {
		return nil
	}
	l := list{Type: "BreadcrumbList"}
	for i, s := range append([]link{{Link: "index.html", Name: m.frame.Yard.Name}}, steps...) {
		step := item{Type: "ListItem", Position: i + 1, Name: s.Name}
		if i < len(steps) {
			step.Item = m.at(s.Link)
		}
		l.Items = append(l.Items, step)
	}
	return []any{l}
}

// plain states a page that is about no trailer.
func (m *maker) plain(path, name string) (template.JS, error) {
	p := webPage{Type: "WebPage", Name: name, Publisher: m.seller()}
	if path != "" {
		p.ID = m.at(path) // the page for addresses that lead nowhere has none itself
	}
	return data(append([]any{p}, m.trail(link{Name: name})...)...)
}

// listed states a page of the yard: who sells, where the page stands, and which trailers
// it lists. Their facts stand on their own pages.
func (m *maker) listed(file, name string, part []*entry) (template.JS, error) {
	var nodes []any
	if file == "index.html" {
		nodes = append(nodes, m.business())
	} else {
		nodes = append(nodes, webPage{Type: "WebPage", ID: m.at(file), Name: name, Publisher: m.seller()})
		nodes = append(nodes, m.trail(link{Name: name})...)
	}
	if m.at(file) != "" && len(part) > 0 {
		l := list{Type: "ItemList"}
		for i, e := range part {
			l.Items = append(l.Items, item{Type: "ListItem", Position: i + 1, URL: m.at(e.path)})
		}
		nodes = append(nodes, l)
	}
	return data(nodes...)
}

// availabilityTerms are the trade's states in the vocabulary's words.
var availabilityTerms = map[string]string{
	"on the yard": "InStock", "on order": "BackOrder", "spoken for": "Reserved", "sold": "SoldOut",
}

var conditions = map[string]string{"new": "NewCondition", "used": "UsedCondition"}

func term(word string) string {
	if word == "" {
		return ""
	}
	return schemaOrg + "/" + word
}

// stated is one trailer and the way to its page.
func (m *maker) stated(e *entry) (template.JS, error) {
	u, at := e.Unit, m.at(e.path)
	p := product{Type: []string{"Product", "Vehicle"}, URL: at, Name: u.Title.Value, SKU: u.Stock.Value,
		Color: u.Color.Value, Body: kindName[u.Kind.Value], Condition: term(conditions[u.Condition.Value])}
	if at != "" {
		p.ID = at + "#unit"
	}
	p.Image = m.images(e)
	if u.Make.Given() {
		p.Brand = &named{"Brand", u.Make.Value}
	}
	if u.Year.Given() {
		p.Year = u.Year.Words()
	}
	// A number of another form, state-assigned or home-built, is no VIN.
	if u.Serial.Given() && u.Serial.From.String() == "" {
		p.Serial = u.Serial.Value
	}
	p.Axles = u.Axles.Count.Value
	m.weights(&p, e)
	m.properties(&p, e)
	m.offers(&p, e)
	p.Video = m.video(e)
	kind := kindName[u.Kind.Value]
	return data(append([]any{p}, m.trail(link{Link: e.kind, Name: kind}, link{Name: u.Title.Value})...)...)
}

// mostImages is how many of its photos a unit states: whoever shows a product shows a few.
const mostImages = 4

// images are the addresses of the unit's first photos and of its card; none without the
// site's address.
func (m *maker) images(e *entry) (out []string) {
	if m.at("index.html") == "" {
		return nil
	}
	for _, made := range m.worked(e) {
		if made != nil && len(out) < mostImages {
			out = append(out, m.at(made.JPEG.Name))
		}
	}
	if c, err := e.card(); err == nil && c != nil {
		out = append(out, c.picture.Address)
	}
	return out
}

// offers states the price with what stands in its line: as of when, and what it leaves out.
// There is no offer without a price, and so none of a unit that is sold; whether it can be had
// is then a property, in the page's word and in the vocabulary's.
func (m *maker) offers(p *product, e *entry) {
	u, terms := e.Unit, m.offered(e.Unit)
	available := term(availabilityTerms[u.Availability.Value])
	if u.Price.Value <= 0 || u.Availability.Value == "sold" {
		if u.Availability.Given() {
			p.More = append(p.More, property{Type: "PropertyValue", Name: "Availability", Value: u.Availability.Value, Term: available, From: terms})
		}
		return
	}
	p.Offers = &offer{Type: "Offer", Price: bare(u.Price.Value.String()), Currency: "USD", Availability: available, Terms: terms, URL: m.at(e.path), Seller: m.seller()}
	if d := u.Price.Since(); d.Known() {
		p.Offers.Since = d.String()
	}
	if d := u.Arrived.Value; d.Known() && u.Availability.Value == "on order" {
		p.Offers.Expected = d.String()
	}
}

// bare is a printed amount without its marks: $18,450 is 18450.
func bare(text string) json.Number {
	return json.Number(strings.NewReplacer("$", "", ",", "").Replace(text))
}

// weights states what it weighs, what it may carry and what it may weigh loaded. The
// vocabulary makes the last the sum of the first two; where another limit than the label
// governs the payload the sum would not come out, so the label's rating is then stated as
// a property by its name, and nobody subtracts his way past the lower limit.
func (m *maker) weights(p *product, e *entry) {
	w := e.Weights
	f := e.work.Figure("payload")
	if w.Empty.Given() {
		p.Weight = quantityOf(w.Empty.Words(), w.Empty.From.String())
	}
	if f != nil {
		p.Payload = quantityOf(f.Text, "worked out")
	}
	if !w.GVWR.Given() {
		return
	}
	if tag := e.work.Figure("tag-payload"); f != nil && tag != nil && f.Text == tag.Text {
		p.Total = quantityOf(w.GVWR.Words(), w.GVWR.From.String())
	} else {
		p.More = append(p.More, propertyOf("GVWR", w.GVWR.Words(), w.GVWR.From.String()))
	}
}

// properties are the facts that the vocabulary has no word for.
func (m *maker) properties(p *product, e *entry) {
	add := func(name string, given bool, text, from string) {
		if given {
			p.More = append(p.More, propertyOf(name, text, from))
		}
	}
	length := func(name string, f unit.Length) { add(name, f.Given(), f.Words(), f.From.String()) }
	s := e.work.Space
	name := sectionNames[s.Name]
	length(name+" length", s.Length)
	length(name+" width", s.Width)
	length("Between fenders", e.Deck.Between)
	length(name+" height", s.Floor)
	add("Axle rating", e.Axles.Rating.Given(), e.Axles.Rating.Words(), e.Axles.Rating.From.String())
	add("Hitch", e.Hitch.Kind.Given(), e.Hitch.Kind.Words(), "")
	length("Ball", e.Hitch.Ball)
	add("Coupler rating", e.Hitch.Rating.Given(), e.Hitch.Rating.Words(), e.Hitch.Rating.From.String())
	add("Tires", e.Tires.Size.Given(), e.Tires.Size.Value, "")
	if f := e.work.Figure("tongue-at-gvwr"); f != nil {
		add(f.Label, true, f.Text, "worked out")
	}
}

// unitCodes are the codes of the common units: UN/CEFACT Recommendation 20.
var unitCodes = map[string]string{"lb": "LBR", "lbs": "LBR", "kg": "KGM", "in": "INH", "ft": "FOT", "mm": "MMT", "m": "MTR"}

var numberForm = regexp.MustCompile(`^(?i:(about) )?([0-9][0-9,]*(?:\.[0-9]+)?) ?([a-z]+)$`)

// numbered takes the number and the code of its unit out of what the page shows. What is
// no plain number (8 ft 6 in, 2-5/16 in) stays as it is written.
func numbered(text string) (value any, code string, about bool) {
	m := numberForm.FindStringSubmatch(text)
	if m == nil || unitCodes[m[3]] == "" {
		return text, "", false
	}
	number := bare(m[2])
	if len(number) > 1 && number[0] == '0' && number[1] != '.' {
		return text, "", false // 007 is no number to JSON (RFC 8259, 6)
	}
	return number, unitCodes[m[3]], m[1] != ""
}

// approximate puts about in front of where a value comes from: the number alone would
// lose it.
func approximate(from string, about bool) string {
	switch {
	case !about:
		return from
	case from == "":
		return "about"
	}
	return "about, " + from
}

func quantityOf(text, from string) *quantity {
	value, code, about := numbered(text)
	return &quantity{"QuantitativeValue", value, code, approximate(from, about)}
}

func propertyOf(name, text, from string) property {
	value, code, about := numbered(text)
	return property{Type: "PropertyValue", Name: name, Value: value, Unit: code, From: approximate(from, about)}
}

// video states the walk-around's recording with its moments, or nothing where no address
// leads to it. On which day it was put up no file states, so it is not told.
func (m *maker) video(e *entry) *video {
	v := &video{Type: "VideoObject", Name: "Walk-around of " + e.Stock.Value}
	var moment func(unit.Clock) string
	if own := e.video(); own != nil {
		if v.Content = m.at(MediaPath(own.Name)); v.Content == "" {
			return nil
		}
		if name, ok := strings.CutPrefix(poster(m.photos(e)), "../"); ok {
			v.Picture = m.at(name)
		}
		moment = func(at unit.Clock) string { return v.Content + "#t=" + strconv.Itoa(int(at)) }
	} else {
		id := e.Recording.ID.Value
		moment = func(at unit.Clock) string { return m.in.Stock.Yard.VideoAt(id, at) }
		if v.URL = moment(0); v.URL == "" {
			return nil
		}
	}
	length := e.Recording.Length
	if v.Content == "" {
		length = unit.Moment{} // the page does not say how long another host's is
	}
	if length.Given() && length.Value > 0 {
		v.Duration = "PT" + strconv.Itoa(int(length.Value)) + "S"
	}
	for _, n := range e.Body.Whole().Notes {
		name := e.gist(n)
		last := len(v.Clips) - 1
		if name == "" || last >= 0 && int(n.At) <= v.Clips[last].Start || length.Given() && n.At >= length.Value {
			continue
		}
		if last >= 0 {
			v.Clips[last].End = int(n.At)
		}
		v.Clips = append(v.Clips, clip{Type: "Clip", Name: name, Start: int(n.At), URL: moment(n.At)})
	}
	if last := len(v.Clips) - 1; last >= 0 && length.Given() {
		v.Clips[last].End = int(length.Value)
	}
	return v
}

// gist is the first sentence of a timed note, as the page says it.
func (e *entry) gist(n unit.Note) string {
	var b strings.Builder
	_ = ast.Walk(n.Node, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch node := node.(type) {
		case *ast.Link:
			if name, ok := unit.FigureName(node); ok && unit.PlainText(node, e.Body.Source) == "" {
				if f := e.work.Figure(name); f != nil {
					b.WriteString(f.Text)
				}
			}
		case *ast.Text:
			b.Write(node.Segment.Value(e.Body.Source))
			if node.SoftLineBreak() || node.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.String:
			b.Write(node.Value)
		}
		return ast.WalkContinue, nil
	})
	text := b.String()
	text = strings.TrimSpace(text[min(n.Skip, len(text)):])
	if m := sentence.FindStringIndex(text); m != nil {
		text = text[:m[0]+1]
	}
	return strings.TrimRight(text, ".,;:")
}

// sentence is where a sentence ends.
var sentence = regexp.MustCompile(`[.;:!?](\s|$)`)
