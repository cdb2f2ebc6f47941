// Package schemaorg states for other programs what a page says to people: JSON-LD 1.1 in
// the vocabulary of schema.org. It says nothing that the page does not say: every number
// in it is in the page's text, in the unit in which the page shows it.
//
// tongueWeight and trailerWeight are not used: they mean what a towing vehicle may carry
// and pull ("of a trailer attached to the vehicle"). There is no Offer without a price,
// and no address where the yard's file gives none.
package schemaorg

import (
	"cmp"
	"encoding/json"
	"regexp"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/sitepath"
	"tarepage/internal/unit"
)

const vocabulary = "https://schema.org"

type graph struct {
	Context string `json:"@context"`
	Nodes   []any  `json:"@graph"`
}

// data is the nodes as the text of a script element: no < can end it early (HTML
// Standard, 4.12.1.3), since encoding/json writes it as \u003c.
func data(nodes ...any) ([]byte, error) { return json.Marshal(graph{vocabulary, nodes}) }

type business struct {
	Type    string  `json:"@type"`
	ID      string  `json:"@id,omitempty"`
	Name    string  `json:"name"`
	URL     string  `json:"url,omitempty"`
	Phone   string  `json:"telephone,omitempty"`
	Email   string  `json:"email,omitempty"`
	Address *postal `json:"address,omitempty"`
	Hours   []hours `json:"openingHoursSpecification,omitempty"`
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
	Uploaded string `json:"uploadDate,omitempty"`
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

// A Yard is who sells, and whose site the pages are of.
type Yard struct {
	*unit.Yard
	// Under is the folder of the pages of this language: "es/", or nothing.
	Under string
}

// page is the whole address of a page of this language, or nothing where the site's own is not
// known.
func (y Yard) page(path string) string { return y.at(sitepath.In(y.Under, path)) }

// at is likewise the whole address of a file of the site.
func (y Yard) at(page string) string { return sitepath.Whole(y.Site(), page) }

// seller names the yard where another thing is stated.
func (y Yard) seller() business {
	b := business{Type: "LocalBusiness", Name: y.Name.Value}
	if site := y.Site(); site != "" {
		b.ID = site + "#yard"
	}
	return b
}

// business is the yard itself, on its own page.
func (y Yard) business() business {
	b := y.seller()
	b.URL, b.Phone, b.Email = y.Site(), y.Phone.Value, y.Email.Value
	if y.Street.Value != "" || y.Town.Value != "" {
		b.Address = &postal{"PostalAddress", y.Street.Value, y.Town.Value}
	}
	var lines []string
	for _, h := range y.Hours {
		lines = append(lines, h.Value)
	}
	b.Hours = hoursOf(lines)
	return b
}

// step is a step of the way from the yard to a page.
type step struct{ page, name string }

// trail is that way, or nothing without the site's address: each step but the last needs
// one.
func (y Yard) trail(steps ...step) []any {
	if y.Site() == "" {
		return nil
	}
	l := list{Type: "BreadcrumbList"}
	for i, s := range append([]step{{sitepath.Yard, y.Name.Value}}, steps...) {
		one := item{Type: "ListItem", Position: i + 1, Name: s.name}
		if i < len(steps) {
			one.Item = y.page(s.page)
		}
		l.Items = append(l.Items, one)
	}
	return []any{l}
}

// Page states a page that is about no trailer, by its path and what it is called. The page
// for addresses that lead nowhere has no path.
func (y Yard) Page(path, name string) ([]byte, error) {
	p := webPage{Type: "WebPage", Name: name, Publisher: y.seller()}
	if path != "" {
		p.ID = y.page(path)
	}
	return data(append([]any{p}, y.trail(step{name: name})...)...)
}

// List states a page that lists trailers: who sells, where the page is, and the trailers'
// pages by their paths. Their facts are on their own pages.
func (y Yard) List(path, name string, trailers []string) ([]byte, error) {
	var nodes []any
	if path == sitepath.Yard {
		nodes = append(nodes, y.business())
	} else {
		nodes = append(nodes, webPage{Type: "WebPage", ID: y.page(path), Name: name, Publisher: y.seller()})
		nodes = append(nodes, y.trail(step{name: name})...)
	}
	if y.Site() != "" && len(trailers) > 0 {
		l := list{Type: "ItemList"}
		for i, t := range trailers {
			l.Items = append(l.Items, item{Type: "ListItem", Position: i + 1, URL: y.page(t)})
		}
		nodes = append(nodes, l)
	}
	return data(nodes...)
}

// A Trailer is one trailer with what its page shows of it.
type Trailer struct {
	*unit.Unit
	Work *compute.Work
	// Name is what the page calls it, if that is not the unit's title.
	Name string
	// Terms are what the page says next to the price: as of when, and what it leaves out.
	Terms string
	// Photos are the paths of its photos in the site, and Card of the picture for shared
	// links, if there is one.
	Photos []string
	Card   string
	// Video is the path of a recording of its own, if there is one, and Poster the path of
	// the picture that is shown before it plays.
	Video, Poster string
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
	return vocabulary + "/" + word
}

// Trailer states one trailer and the way to its page.
func (y Yard) Trailer(t *Trailer) ([]byte, error) {
	at := y.page(sitepath.Trailer(t.Unit))
	kind := kinds.Of(t.Kind.Value).Label
	p := product{Type: []string{"Product", "Vehicle"}, URL: at, Name: cmp.Or(t.Name, t.Title.Value), SKU: t.Stock.Value,
		Color: t.Color.Value, Body: kind, Condition: term(conditions[t.Condition.Value])}
	if at != "" {
		p.ID = at + "#unit"
	}
	p.Image = y.images(t)
	if t.Make.Given() {
		p.Brand = &named{"Brand", t.Make.Value}
	}
	if t.Year.Given() {
		p.Year = t.Year.Words()
	}
	// A number of another form, state-assigned or home-built, is not a VIN.
	if t.Serial.Given() && t.Serial.From.String() == "" {
		p.Serial = t.Serial.Value
	}
	p.Axles = t.Axles.Count.Value
	p.weights(t)
	p.properties(t)
	y.offers(&p, t)
	p.Video = y.video(t)
	return data(append([]any{p}, y.trail(step{sitepath.Kind(t.Kind.Value), kind}, step{name: cmp.Or(t.Name, t.Title.Value)})...)...)
}

// mostImages is how many of its photos a trailer states: whoever shows a product shows a few.
const mostImages = 4

// images are the addresses of the trailer's first photos and of its card; none without the
// site's address.
func (y Yard) images(t *Trailer) (out []string) {
	if y.Site() == "" {
		return nil
	}
	for _, path := range t.Photos[:min(len(t.Photos), mostImages)] {
		out = append(out, y.at(path))
	}
	if t.Card != "" {
		out = append(out, y.at(t.Card))
	}
	return out
}

// offers states the price with its terms: as of when, and what it leaves out.
// There is no offer without a price, and so none of a unit that is sold; whether it can be had
// is then a property, in the page's word and in the vocabulary's.
func (y Yard) offers(p *product, t *Trailer) {
	u := t.Unit
	available := term(availabilityTerms[u.Availability.Value])
	if u.Price.Value <= 0 || u.Availability.Value == "sold" {
		if u.Availability.Given() {
			p.More = append(p.More, property{Type: "PropertyValue", Name: "Availability", Value: u.Availability.Value, Term: available, From: t.Terms})
		}
		return
	}
	p.Offers = &offer{Type: "Offer", Price: bare(u.Price.Value.String()), Currency: "USD", Availability: available, Terms: t.Terms, URL: p.URL, Seller: y.seller()}
	if d := u.Price.Since(); d.Known() {
		p.Offers.Since = d.String()
	}
	if d := u.Arrived.Value; d.Known() && u.Availability.Value == "on order" {
		p.Offers.Expected = d.String()
	}
}

// bare is a printed amount without its marks: $18,450 is 18450.
func bare(text string) json.Number {
	return json.Number(withoutMarks.Replace(text))
}

var withoutMarks = strings.NewReplacer("$", "", ",", "")

// weights states what it weighs, what it may carry and what it may weigh loaded. The
// vocabulary makes the last the sum of the first two; where another limit than the label
// governs the payload the sum would not come out, so the label's rating is then stated as
// a property by its name, and nobody subtracts his way past the lower limit.
func (p *product) weights(t *Trailer) {
	w := t.Weights
	f := t.Work.Figure("payload")
	if w.Empty.Given() {
		p.Weight = quantityOf(w.Empty.Words(), w.Empty.From.String())
	}
	if f != nil {
		p.Payload = quantityOf(f.Text, "worked out")
	}
	if !w.GVWR.Given() {
		return
	}
	if tag := t.Work.Figure("tag-payload"); f != nil && tag != nil && f.Text == tag.Text {
		p.Total = quantityOf(w.GVWR.Words(), w.GVWR.From.String())
	} else {
		p.More = append(p.More, propertyOf("GVWR", w.GVWR.Words(), w.GVWR.From.String()))
	}
}

// properties are the facts that the vocabulary has no word for.
func (p *product) properties(t *Trailer) {
	add := func(name string, given bool, text, from string) {
		if given {
			p.More = append(p.More, propertyOf(name, text, from))
		}
	}
	length := func(name string, f unit.Length) { add(name, f.Given(), f.Words(), f.From.String()) }
	s := t.Work.Space
	name := capital(s.Name)
	length(name+" length", s.Length)
	length(name+" width", s.Width)
	length("Between fenders", t.Deck.Between)
	if s.Name == string(kinds.Deck) {
		length("Deck height", s.Floor)
	} else {
		length("Floor height", s.Floor)
	}
	length("Bed side height", t.Bed.Height)
	length("Box height", t.Box.Height)
	add("Axle rating", t.Axles.Rating.Given(), t.Axles.Rating.Words(), t.Axles.Rating.From.String())
	add("Hitch", t.Hitch.Kind.Given(), t.Hitch.Kind.Words(), "")
	length("Ball", t.Hitch.Ball)
	add("Coupler rating", t.Hitch.Rating.Given(), t.Hitch.Rating.Words(), t.Hitch.Rating.From.String())
	add("Tires", t.Tires.Size.Given(), t.Tires.Size.Value, "")
	if f := t.Work.Figure("tongue-at-gvwr"); f != nil {
		add(f.Label, true, f.Text, "worked out")
	}
}

// capital begins a label.
func capital(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
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
		return text, "", false // JSON has no number 007 (RFC 8259, 6)
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
// leads to it. A unit's file states the day of the recording and not the day on which it was put
// up. The day of the recording is the earliest that can be, and the one that its page says.
func (y Yard) video(t *Trailer) *video {
	v := &video{Type: "VideoObject", Name: "Walk-around of " + t.Stock.Value}
	var moment func(unit.Clock) string
	if t.Video != "" {
		if v.Content = y.at(t.Video); v.Content == "" {
			return nil
		}
		if t.Poster != "" {
			v.Picture = y.at(t.Poster)
		}
		moment = func(at unit.Clock) string { return v.Content + "#t=" + strconv.Itoa(int(at)) }
	} else {
		id := t.Recording.ID.Value
		moment = func(at unit.Clock) string { return y.VideoAt(id, at) }
		if v.URL = moment(0); v.URL == "" {
			return nil
		}
	}
	if d := t.Recording.Day.Value; d.Known() && v.Content != "" {
		v.Uploaded = d.String()
	}
	length := t.Recording.Length
	if v.Content == "" {
		length = unit.Moment{} // the page does not say how long another host's is
	}
	if length.Given() && length.Value > 0 {
		v.Duration = "PT" + strconv.Itoa(int(length.Value)) + "S"
	}
	for _, n := range t.Body.Whole().Notes {
		name := t.gist(n)
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
func (t *Trailer) gist(n unit.Note) string {
	var b strings.Builder
	_ = ast.Walk(n.Node, func(node ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch node := node.(type) {
		case *ast.Link:
			if name, ok := unit.FigureName(node); ok && unit.FigureWords(node, t.Body.Source) == "" {
				if f := t.Work.Figure(name); f != nil {
					b.WriteString(f.Text)
				}
				return ast.WalkSkipChildren, nil
			}
		case *ast.Text:
			b.Write(node.Segment.Value(t.Body.Source))
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
