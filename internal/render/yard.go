package render

import (
	"crypto/sha256"
	"fmt"
	"html/template"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"tarepage/internal/elevation"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/pagedata"
	"tarepage/internal/sitepath"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// perScreen is how many cards the yard page shows at first and adds at a time: more than
// that is slow to draw on a phone.
const perScreen = 12

// perPage is how many trailers one page of a plain list has: a line each, no drawing.
const perPage = 100

// order is how the yard is walked: what can be bought today first.
func order(e *entry) int { return slices.Index(pagedata.Availabilities, e.Availability.Value) }

// yardPages are the front page, the page of each kind, the plain list of everything, and
// the further pages of these. What the front page loads is made with them.
func (m *maker) yardPages() ([]job, error) {
	sorted := m.sorted()
	front, err := m.front(sorted)
	if err != nil || len(sorted) == 0 {
		return []job{front}, err
	}
	jobs := []job{front}
	lists := m.lists(sorted)
	for _, l := range append(lists[1:len(lists):len(lists)], list{sitepath.List, sorted}) {
		for n := range l.parts() {
			jobs = append(jobs, m.listPage(l, n, lists))
		}
	}
	return jobs, nil
}

// sorted are the trailers in the order in which pages list them.
func (m *maker) sorted() []*entry {
	kind := map[string]int{}
	for i, k := range kinds.Names() {
		kind[k] = i
	}
	sorted := slices.Clone(m.units)
	sort.SliceStable(sorted, func(i, j int) bool {
		a, b := sorted[i], sorted[j]
		if order(a) != order(b) {
			return order(a) < order(b)
		}
		return kind[a.Kind.Value] < kind[b.Kind.Value]
	})
	return sorted
}

// A list is the trailers that a page lists, on one page or several.
type list struct {
	page  string
	units []*entry
}

func (l list) parts() [][]*entry { return slices.Collect(slices.Chunk(l.units, perPage)) }

// lists are the front page's list and that of each kind that the yard has.
func (m *maker) lists(sorted []*entry) []list {
	out := []list{{sitepath.Yard, sorted}}
	for _, k := range kinds.Names() {
		l := list{page: sitepath.Kind(k)}
		for _, e := range sorted {
			if e.kind == l.page {
				l.units = append(l.units, e)
			}
		}
		if len(l.units) > 0 {
			out = append(out, l)
		}
	}
	return out
}

// listPage is a page of a list by its number from 0.
func (m *maker) listPage(l list, n int, lists []list) job {
	parts := l.parts()
	part, path := parts[n], sitepath.Further(l.page, n)
	page := m.yardPage(m.heading(l.page))
	page.Title = m.listTitle(l.page, l.units)
	page.Kinds, page.Pages, page.Shown = m.kindLinks(lists, l.page), furtherLinks(l.page, len(parts), n), m.shown(len(l.units))
	if k, ok := sitepath.KindOf(l.page); ok {
		page.FindLink = sitepath.Yard + "#kind=" + k
	}
	m.place(&page.frame, path)
	return job{path: m.under + path, of: func() [32]byte { return m.keyOfList(page, path, part) }, make: func() ([]byte, error) {
		page := *page // the showroom may make the page twice at the same time
		var err error
		if page.Data, err = m.listed(path, page.Heading, part); err != nil {
			return nil, err
		}
		if l.page != sitepath.List && len(l.units) <= perScreen {
			page.Cards = m.cards(part)
		} else {
			page.Rows = m.rows(part)
		}
		return m.turned("yard", &page, ratings(part))
	}}
}

// keyOfList is the digest of everything that a page of a list is made from: what it says about
// the list, the scale of its drawings, and its trailers.
func (m *maker) keyOfList(p *yardPage, path string, part []*entry) (key [32]byte) {
	h := sha256.New()
	enterParts(h, m.in.Basis, m.in.Stock.Yard.Sum, path, p.Title, p.Kinds, p.Pages, p.Shown, p.FindLink, m.scale())
	for _, e := range part {
		of := e.key()
		h.Write(of[:])
	}
	h.Sum(key[:0])
	return key
}

// listed is what a page of many trailers states for programs.
func (m *maker) listed(path, name string, part []*entry) (template.JS, error) {
	trailers := make([]string, len(part))
	for i, e := range part {
		trailers[i] = e.path
	}
	return stated(m.says.List(path, name, trailers))
}

func (m *maker) yardPage(heading string) *yardPage {
	page := &yardPage{frame: m.frame, Heading: heading}
	m.dress(&page.frame, m.yardStyle, m.yardPolicy)
	m.twofold(&page.frame)
	page.Title = heading
	page.Description = m.lang.Say("link list", heading, m.where())
	return page
}

// front is the front page with what it loads.
func (m *maker) front(sorted []*entry) (job, error) {
	page := m.yardPage(m.heading(sitepath.Yard))
	page.Title = m.listTitle(sitepath.Yard, sorted)
	page.Shown = m.shown(len(sorted))
	m.place(&page.frame, sitepath.Yard)
	for _, f := range stockfile.Files() {
		page.Programs = append(page.Programs, link{Link: m.up + f.Path, Name: f.What})
	}
	first := sorted[:min(perScreen, len(sorted))]
	if len(sorted) > 0 {
		var err error
		if page.Find, err = m.finder(); err != nil {
			return job{}, err
		}
		page.Policy = scripted(page.Policy, "'self'")
		if page.Find.Lot != "" {
			page.Policy = connected(page.Policy)
		}
		page.More = min(perScreen, len(sorted)-len(first))
	}
	return job{path: m.under + sitepath.Yard, make: func() ([]byte, error) {
		about, err := notes(&m.in.Stock.Yard.Body, nil, "", nil)
		if err != nil {
			return nil, err
		}
		page := *page // as above
		page.About = about
		page.Cards = m.cards(first)
		for i := range page.Cards {
			page.Cards[i].Pick, page.Cards[i].Compare = true, ""
		}
		if page.Data, err = m.listed(sitepath.Yard, page.Heading, first); err != nil {
			return nil, err
		}
		return m.turned("yard", &page, ratings(first))
	}}, nil
}

// finder enters the files that the front page finds with.
func (m *maker) finder() (*finder, error) {
	var trailers []pagedata.Trailer
	for _, e := range m.units {
		t := m.data(e)
		if t.Photo = m.small(e); t.Photo != "" {
			t.Photo = m.up + t.Photo
		}
		for _, c := range e.cautions {
			t.Warnings = append(t.Warnings, upper(ending(c.Message)))
		}
		trailers = append(trailers, t)
	}
	facets := pagedata.Facets(m.lang, trailers)
	stock, err := pagedata.Stock(m.lang, trailers, facets, m.scale())
	if err != nil {
		return nil, err
	}
	words, err := pagedata.Words(trailers, m.filesOf(m.units), m.lexicon())
	if err != nil {
		return nil, err
	}
	f := &finder{Facets: facets[1:], Script: m.up + m.scripts["yard.js"].Path, Statics: m.up + m.scripts["statics.js"].Path,
		Bring: m.up + m.scripts["bring.js"].Path, Machines: m.up + m.machines.Path,
		Search: m.up + m.scripts["search.js"].Path, Stock: m.up + hashed("stock", stock), List: sitepath.List, Blank: m.blank(),
		Compared: strings.Join(pagedata.ComparedRows(), ","), Like: m.units[0].Stock.Value}
	m.files = append(m.files, script{hashed("stock", stock), stock})
	if m.keeps() {
		f.Lot = m.scripts["keep.js"].Path
	}
	many := len(facets[0].Chips) > manyKinds
	for _, c := range facets[0].Chips {
		f.Kinds = append(f.Kinds, kindChip{c, sitepath.Kind(c.Value), many && c.Count == measure.Count(1)})
	}
	var parts [][2]string
	for _, w := range words {
		file := script{hashed("words", w.Text), w.Text}
		m.files = append(m.files, file)
		parts = append(parts, [2]string{w.From, m.up + file.Path})
	}
	if f.Words, err = pagedata.Attribute(parts); err != nil {
		return nil, err
	}
	f.More, err = m.later(trailers)
	return f, err
}

// manyKinds is how many kinds have a place on a desk's screen without those of a single trailer.
const manyKinds = 12

// filesOf are the digests of what units are read from.
func (m *maker) filesOf(units []*entry) [][32]byte {
	out := make([][32]byte, len(units))
	for i, e := range units {
		h := sha256.New()
		m.enterFile(h, e)
		h.Sum(out[i][:0])
	}
	return out
}

// lexicon is what is kept of the words in the owner's language.
func (m *maker) lexicon() *pagedata.Lexicon {
	if m.lang.Foreign() {
		return nil
	}
	return m.in.Lexicon
}

// later enters the files that the front page loads only for a serial, for words, for the newest
// first, and for a comparison. It returns their paths by name as JSON.
func (m *maker) later(trailers []pagedata.Trailer) (string, error) {
	details, err := pagedata.Details(trailers)
	if err != nil {
		return "", err
	}
	serials, err := pagedata.Serials(trailers)
	if err != nil {
		return "", err
	}
	days, err := pagedata.Days(trailers)
	if err != nil {
		return "", err
	}
	paths := map[string]string{} // in JSON a map's keys come in order
	for _, name := range []string{"asked", "compare"} {
		paths[name] = m.up + m.scripts[name+".js"].Path
	}
	enter := func(name string, text []byte) {
		file := script{hashed(name, text), text}
		m.files = append(m.files, file)
		paths[name] = m.up + file.Path
	}
	enter("serials", serials)
	enter("days", days)
	for i, text := range details {
		enter("details"+strconv.Itoa(i), text)
	}
	return pagedata.Attribute(paths)
}

// blank is a card with every part that a card can have, each filled with a dash.
func (m *maker) blank() card {
	const any = "-"
	whole := elevation.Outline{Solid: "M0 0", Slits: "M0 0", Guess: "M0 0", Wheels: [][4]string{{"0", "0", "0", "0"}}}
	return card{Link: sitepath.Yard, Title: any, Here: any, Worn: any, Price: any, Cautions: any, GVWR: any, Long: any, Payload: any, PayloadMetric: any, Share: any,
		Pick: true, View: template.HTML(whole.SVG(m.scale()))}
}

// furtherLinks lead to the first and last pages of a list and to those around the one that
// is here.
func furtherLinks(page string, pages, here int) []link {
	if pages < 2 {
		return nil
	}
	var out []link
	for n := range pages {
		if n == 0 || n == pages-1 || n >= here-2 && n <= here+2 {
			out = append(out, link{Link: sitepath.Further(page, n), Name: fmt.Sprint(n + 1), Here: n == here})
		}
	}
	return out
}

func (m *maker) heading(page string) string {
	switch page {
	case sitepath.Yard:
		return m.frame.Yard.Name
	case sitepath.List:
		return m.lang.Say("yard every")
	}
	kind, _ := sitepath.KindOf(page)
	return m.kind(kind)
}

// kind is a kind of trailer as a label.
func (m *maker) kind(name string) string {
	if label, ok := m.lang.Fact("kind/" + name); ok && m.lang.Foreign() {
		return label
	}
	return kinds.Of(name).Label
}

func (m *maker) kindLinks(lists []list, here string) []link {
	var out []link
	for _, l := range lists {
		name := m.heading(l.page)
		if l.page == sitepath.Yard {
			name = m.lang.Say("yard all")
		}
		out = append(out, link{Link: l.page, Name: name, Count: measure.Count(len(l.units)), Here: l.page == here})
	}
	return out
}

// where is where the yard is: its town, or its name where no town is stated.
func (m *maker) where() string {
	if town := m.frame.Yard.Town; town != "" {
		return town
	}
	return m.frame.Yard.Name
}

// listTitle is the title of a page of many trailers, with the yard's name where there is room
// for it.
func (m *maker) listTitle(page string, units []*entry) string {
	n := 0
	for _, e := range units {
		if !e.sold() {
			n++
		}
	}
	title := m.lang.Say("link all", m.where())
	if page != sitepath.Yard {
		title = m.lang.Say("link some", m.heading(page), measure.Count(n), m.where())
	}
	if whole := title + ", " + m.frame.Yard.Name; utf8.RuneCountInString(whole) < mostTitle && m.where() != m.frame.Yard.Name {
		return whole
	}
	return title
}

func (m *maker) shown(n int) string {
	return m.lang.Say("sentence", m.lang.Counted("count trailer", n))
}

func (m *maker) cards(units []*entry) []card {
	var out []card
	for _, e := range units {
		c := m.card(e)
		c.Photo, c.Compare = m.small(e), comparing("", e)
		if c.Photo != "" {
			c.Photo = m.up + c.Photo
		}
		if o, ok := elevation.OutlineOf(e.work, m.scale()); ok {
			// internal/elevation draws it; it holds numbers alone.
			c.View = template.HTML(o.SVG(m.scale()))
		}
		out = append(out, c)
	}
	return out
}

func (m *maker) rows(units []*entry) []card {
	var out []card
	for _, e := range units {
		c := m.card(e)
		parts := []string{m.lang.Say("line gvwr", c.GVWR)}
		if c.Payload != "" {
			parts = slices.Insert(parts, 0, m.lang.Say("line payload", c.Payload, c.Share))
		}
		if c.Long != "" {
			parts = append(parts, c.Long)
		}
		c.Line = c.Here + ", " + c.Worn + ", " + c.Stock + ". " + strings.Join(append(parts, c.Size), ", ") + ". " + c.Price
		if c.Cautions != "" {
			c.Line += ", " + c.Cautions
		}
		about := func(text string) string { return strings.TrimPrefix(text, "about ") }
		exact := ratings([]*entry{e})
		exact[about(c.Payload)] = about(c.PayloadMetric)
		c.LineMetric = measure.InMetric(c.Line, exact)
		out = append(out, c)
	}
	return out
}

// ratings are what the trailers state as ratings, by its text, in kilograms.
func ratings(units []*entry) map[string]string {
	out := map[string]string{}
	for _, e := range units {
		e.work.RatingsOf(out)
	}
	return out
}

// card is a trailer on a page of many, without its silhouette.
func (m *maker) card(e *entry) card {
	data := m.data(e)
	c := card{
		Link: e.path, Title: m.title(e),
		Here: e.Availability.Value, IsHere: order(e) == 0, Worn: e.Condition.Value,
		Stock: e.Stock.Value, Price: pagedata.Price(m.lang, e.Unit), Gone: e.sold(), GVWR: e.Weights.GVWR.Words(),
		Size: data.Size(), Cautions: pagedata.CautionCount(m.lang, dangers(e)),
	}
	if f := e.work.Figure("payload"); f != nil {
		c.Payload, c.PayloadMetric, c.Share = f.Text, e.work.Metric(f), e.work.OnTruck()
	}
	if f := e.work.Figure("deck-length"); f != nil {
		// No line ends between a number and its unit.
		c.Long = strings.ReplaceAll(m.sized(f.Text, e.work.Space.Name), " ", "\u00a0")
	}
	return c
}

// sized is a length with what has it: 20 ft deck.
func (m *maker) sized(length, space string) string {
	if m.lang.Foreign() {
		return m.lang.Say("made size", length)
	}
	return length + " " + space
}

// comparing leads to the front page, among the trailers of a kind, with one of them picked.
func comparing(root string, e *entry) string {
	return root + sitepath.Yard + "#kind=" + e.Kind.Value + "&pick=" + inFragment.Replace(e.Stock.Value)
}

// inFragment writes a stock number so that it has no meaning of its own in an address.
var inFragment = strings.NewReplacer("%", "%25", "&", "%26", "#", "%23", ",", "%2C", " ", "%20")

func (e *entry) sold() bool { return e.Availability.Value == "sold" }

// offered is what the page says next to the price and the availability of a trailer.
func (m *maker) offered(u *unit.Unit) string {
	y := m.in.Stock.Yard
	s := m.lang.Say("terms as of", m.frame.Yard.AsOf)
	if !u.Price.Given() || u.Availability.Value == "sold" {
		return s
	}
	if d := u.Price.Since(); d.Known() {
		s = m.lang.Say("terms since", d.Long(), s)
	}
	if y.Excludes.Given() {
		s = m.lang.Say("terms excludes", s, y.Excludes.Value)
	}
	if more := pagedata.Offer(m.lang, u); more != "" {
		s = more + "; " + s
	}
	return s
}
