package render

import (
	"fmt"
	"html/template"
	"slices"
	"sort"
	"strings"

	"tarepage/internal/compute"
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
const perScreen = 24

// perPage is how many units one page of a plain list names: a line each, no drawing.
const perPage = 100

type yardPage struct {
	frame
	Heading  string
	About    template.HTML
	Find     *finder // on the front page alone
	FindLink string
	Kinds    []link
	Shown    string
	More     int
	Cards    []card
	Rows     []card
	Pages    []link
	// Programs are the files in which the stock is given away.
	Programs []link
}

// A finder is what the yard page needs to find by need.
type finder struct {
	Kinds  []kindChip
	Facets []pagedata.Facet
	// Stock, Statics, Search, Words and Script are files of the site; Words is a list of
	// them with the letter from which each counts.
	Stock, Statics, Search, Words, Script string
	List                                  string
	// Lot is the script that keeps the page on a phone, where the yard asks for it.
	Lot string
}

// A kindChip leads to the page of its kind where there are no scripts.
type kindChip struct {
	pagedata.Chip
	Link string
}

type link struct {
	Link, Name, Count string
	Here              bool
}

type card struct {
	Link, Title, State, Stock, Price, Cautions, GVWR, Long, Size string
	Payload, PayloadMetric                                       string
	// Line is all of it but the title in one line, and LineMetric the same in metric units: a
	// page of a hundred has no room for an element around each figure.
	Line, LineMetric string
	Gone             bool
	View             template.HTML
}

type labeled struct{ Label, Text, Metric, From, What, Source string }

// order is how the yard is walked: what can be bought today first.
var order = map[string]int{"on the yard": 0, "on order": 1, "spoken for": 2, "sold": 3}

// yardPages are the front page, the page of each kind, the plain list of everything, and
// the further pages of these. What the front page loads is made with them.
func (m *maker) yardPages() ([]job, error) {
	kind := map[string]int{}
	for i, k := range kinds.Names() {
		kind[k] = i
	}
	sorted := append([]*entry(nil), m.units...)
	sort.SliceStable(sorted, func(i, j int) bool {
		a, b := sorted[i], sorted[j]
		if order[a.Availability.Value] != order[b.Availability.Value] {
			return order[a.Availability.Value] < order[b.Availability.Value]
		}
		return kind[a.Kind.Value] < kind[b.Kind.Value]
	})
	groups := map[string][]*entry{sitepath.Yard: sorted}
	files := []string{sitepath.Yard}
	for _, k := range kinds.Names() {
		file := sitepath.Kind(k)
		for _, e := range sorted {
			if e.kind == file {
				groups[file] = append(groups[file], e)
			}
		}
		if len(groups[file]) > 0 {
			files = append(files, file)
		}
	}
	front, err := m.front(sorted)
	if err != nil {
		return nil, err
	}
	jobs := []job{front}
	if len(sorted) == 0 {
		return jobs, nil
	}
	for _, file := range append(files[1:len(files):len(files)], sitepath.List) {
		all := groups[file]
		if file == sitepath.List {
			all = sorted
		}
		parts := split(all)
		for n, part := range parts {
			page := m.yardPage(m.heading(file))
			page.Title += ", " + m.frame.Yard.Name
			page.Kinds, page.Pages, page.Shown = m.kinds(files, groups, file), leaves(file, len(parts), n), shown(len(all))
			if k, ok := sitepath.KindOf(file); ok {
				page.FindLink = sitepath.Yard + "#kind=" + k
			}
			page.Canonical = m.at(sitepath.Further(file, n))
			jobs = append(jobs, job{path: sitepath.Further(file, n), make: func() ([]byte, error) {
				page := *page // the showroom may make the page twice at the same time
				var err error
				if page.Data, err = m.listed(sitepath.Further(file, n), page.Heading, part); err != nil {
					return nil, err
				}
				if file != sitepath.List && len(all) <= perScreen {
					page.Cards = m.cards(part)
				} else {
					page.Rows = m.rows(part)
				}
				return m.turned("yard", &page, ratings(part))
			}})
		}
	}
	return jobs, nil
}

// listed is what a page of many trailers states for programs.
func (m *maker) listed(file, name string, part []*entry) (template.JS, error) {
	trailers := make([]string, len(part))
	for i, e := range part {
		trailers[i] = e.path
	}
	return stated(m.says.List(file, name, trailers))
}

func (m *maker) yardPage(heading string) *yardPage {
	page := &yardPage{frame: m.frame, Heading: heading}
	page.Style, page.Policy = m.yardStyle, m.yardPolicy
	m.twofold(&page.frame)
	page.Title = heading
	page.Description = fmt.Sprintf("%s: what it is, what it may carry, what it puts on the truck, worked out and checked.", heading)
	return page
}

// front is the front page with what it loads.
func (m *maker) front(sorted []*entry) (job, error) {
	page := m.yardPage(m.heading(sitepath.Yard))
	page.Shown = shown(len(sorted))
	page.Canonical = m.at(sitepath.Yard)
	for _, f := range stockfile.Files() {
		page.Programs = append(page.Programs, link{Link: f.Path, Name: f.What})
	}
	if len(sorted) > 0 {
		var list []pagedata.Trailer
		for _, e := range m.units {
			list = append(list, e.data())
		}
		all := pagedata.Facets(list)
		stock, err := pagedata.Stock(list, all, m.scale())
		if err != nil {
			return job{}, err
		}
		words, err := pagedata.Words(list)
		if err != nil {
			return job{}, err
		}
		f := &finder{Facets: all[1:], Script: m.scripts["yard.js"].Path, Statics: m.scripts["statics.js"].Path,
			Search: m.scripts["search.js"].Path, Stock: hashed("stock", stock), List: sitepath.List}
		m.files = append(m.files, script{f.Stock, stock})
		if m.in.Stock.Yard.LotCopy.Value {
			f.Lot = m.scripts["lot.js"].Path
		}
		for _, c := range all[0].Chips {
			f.Kinds = append(f.Kinds, kindChip{c, sitepath.Kind(c.Value)})
		}
		var parts [][2]string
		for _, w := range words {
			file := script{hashed("words", w.Text), w.Text}
			m.files = append(m.files, file)
			parts = append(parts, [2]string{w.From, file.Path})
		}
		if f.Words, err = pagedata.Attribute(parts); err != nil {
			return job{}, err
		}
		page.Find, page.Policy = f, scripted(page.Policy, "'self'")
		page.More = min(perScreen, len(sorted)-min(perScreen, len(sorted)))
	}
	return job{path: sitepath.Yard, make: func() ([]byte, error) {
		about, err := notes(&m.in.Stock.Yard.Body, nil, "", nil)
		if err != nil {
			return nil, err
		}
		page := *page // as above
		page.About = about
		first := sorted[:min(perScreen, len(sorted))]
		page.Cards = m.cards(first)
		if page.Data, err = m.listed(sitepath.Yard, page.Heading, first); err != nil {
			return nil, err
		}
		return m.turned("yard", &page, ratings(first))
	}}, nil
}

func split(all []*entry) [][]*entry {
	var out [][]*entry
	for len(all) > perPage {
		out, all = append(out, all[:perPage]), all[perPage:]
	}
	return append(out, all)
}

// leaves lead to the first and last pages and to those around the one that is here.
func leaves(file string, pages, here int) []link {
	if pages < 2 {
		return nil
	}
	var out []link
	for n := range pages {
		if n == 0 || n == pages-1 || n >= here-2 && n <= here+2 {
			out = append(out, link{Link: sitepath.Further(file, n), Name: fmt.Sprint(n + 1), Here: n == here})
		}
	}
	return out
}

func (m *maker) heading(file string) string {
	if file == sitepath.Yard {
		return m.frame.Yard.Name
	}
	if file == sitepath.List {
		return "Every trailer, a plain list"
	}
	kind, _ := sitepath.KindOf(file)
	return kinds.Of(kind).Label
}

func (m *maker) kinds(files []string, groups map[string][]*entry, here string) []link {
	var out []link
	for _, f := range files {
		name := m.heading(f)
		if f == sitepath.Yard {
			name = "All"
		}
		out = append(out, link{Link: f, Name: name, Count: measure.Count(len(groups[f])), Here: f == here})
	}
	return out
}

func shown(n int) string {
	if n == 1 {
		return "1 trailer."
	}
	return measure.Count(n) + " trailers."
}

func (m *maker) cards(units []*entry) []card {
	var out []card
	for _, e := range units {
		c := m.row(e)
		if o, ok := elevation.OutlineOf(e.work, m.scale()); ok {
			// The drawing is made by internal/elevation; it holds numbers alone.
			c.View = template.HTML(o.SVG(m.scale()))
		}
		out = append(out, c)
	}
	return out
}

func (m *maker) rows(units []*entry) []card {
	var out []card
	for _, e := range units {
		c := m.row(e)
		parts := []string{c.GVWR + " GVWR"}
		if c.Payload != "" {
			parts = slices.Insert(parts, 0, c.Payload+" payload")
		}
		if c.Long != "" {
			parts = append(parts, c.Long)
		}
		c.Line = c.State + ", " + c.Stock + ". " + strings.Join(append(parts, c.Size), ", ") + ". " + c.Price
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

// ratings are what the units state as ratings, by its writing, in kilograms.
func ratings(units []*entry) map[string]string {
	out := map[string]string{}
	for _, e := range units {
		e.work.RatingsOf(out)
	}
	return out
}

// row is a unit on a page of many. yard.js writes the same from the data.
func (m *maker) row(e *entry) card {
	c := card{
		Link: e.path, Title: e.Title.Value, State: e.Availability.Value + ", " + e.Condition.Value,
		Stock: e.Stock.Value, Price: price(e.Unit), Gone: e.Availability.Value == "sold", GVWR: e.Weights.GVWR.Words(),
	}
	if f := e.work.Figure("payload"); f != nil {
		c.Payload, c.PayloadMetric = f.Text, e.work.Metric(f)
	}
	if f := e.work.Figure("deck-length"); f != nil {
		// No line ends between a number and what it counts.
		c.Long = strings.ReplaceAll(f.Text+" "+e.work.Space.Name, " ", "\u00a0")
	}
	data := e.data()
	c.Size = data.Size()
	switch n := len(e.cautions); {
	case n == 1:
		c.Cautions = "1 caution"
	case n > 1:
		c.Cautions = measure.Count(n) + " cautions"
	}
	return c
}

func short(name string, w *compute.Work) string {
	if name == "deck-length" {
		return w.Space.Name
	}
	return name
}

// offered is what holds for the price and the availability of one unit, in their line.
func (m *maker) offered(u *unit.Unit) string {
	y := m.in.Stock.Yard
	s := "as of " + m.frame.Yard.AsOf
	if !u.Price.Given() || u.Availability.Value == "sold" {
		return s
	}
	if d := u.Price.Since(); d.Known() {
		s = "this price since " + d.Long() + ", " + s
	}
	if y.Excludes.Given() {
		s += ", excludes " + y.Excludes.Value
	}
	return s
}

func price(u *unit.Unit) string {
	switch {
	case u.Availability.Value == "sold":
		return "Sold"
	case u.Price.Given():
		return u.Price.Words()
	}
	return "Call for the price"
}
