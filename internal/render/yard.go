package render

import (
	"fmt"
	"html/template"
	"sort"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/measure"
	"tarepage/internal/stocklist"
	"tarepage/internal/unit"
)

// perPage is how many units one page of the yard shows: more than that is slow to
// draw on a phone, fewer is tiresome to leaf through.
const perPage = 60

type yardPage struct {
	frame
	Heading string
	About   template.HTML
	Kinds   []link
	Shown   string
	Cards   []card
	Pages   []link
	// Stock are the files in which the stock is given away.
	Stock []link
}

type link struct {
	Link, Name, Count string
	Here              bool
}

type card struct {
	Link, Title, Availability, Condition, Stock, Price, Cautions string
	Gone                                                         bool
	View                                                         template.HTML
	Numbers                                                      []labeled
}

type labeled struct{ Label, Text, From, What, Source string }

// order is how the yard is walked: what can be bought today first.
var order = map[string]int{"on the yard": 0, "on order": 1, "spoken for": 2, "sold": 3}

// kindName is a kind as a page calls it.
var kindName = map[string]string{
	"deck-over": "Deck-over", "flatbed": "Flatbed", "equipment": "Equipment", "car-hauler": "Car hauler",
	"utility": "Utility", "dump": "Dump", "tilt": "Tilt", "enclosed": "Enclosed", "livestock": "Livestock", "other": "Other",
}

// yardPages are the front page, the page of each kind, and the further pages of both.
func (m *maker) yardPages() []job {
	kind := map[string]int{}
	for i, k := range unit.Kinds() {
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
	groups := map[string][]*entry{"index.html": sorted}
	files := []string{"index.html"}
	for _, k := range unit.Kinds() {
		file := "kind-" + k + ".html"
		for _, e := range sorted {
			if e.kind == file {
				groups[file] = append(groups[file], e)
			}
		}
		if len(groups[file]) > 0 {
			files = append(files, file)
		}
	}
	var jobs []job
	var stock []link
	for _, f := range stocklist.Files() {
		stock = append(stock, link{Link: f.Path, Name: f.What})
	}
	for _, file := range files {
		all := groups[file]
		parts := split(all)
		for n, part := range parts {
			page := &yardPage{frame: m.frame, Heading: m.heading(file), Kinds: m.kinds(files, groups, file), Pages: leaves(file, len(parts), n), Stock: stock}
			page.Title = page.Heading
			if file != "index.html" {
				page.Title += ", " + m.frame.Yard.Name
			}
			page.Description = fmt.Sprintf("%s: what it is, what it may carry, what it puts on the truck, worked out and checked.", page.Heading)
			page.Shown = shown(len(all), page.Terms)
			page.Canonical = m.at(leaf(file, n))
			jobs = append(jobs, job{path: leaf(file, n), make: func() ([]byte, error) {
				var err error
				if page.Data, err = m.listed(leaf(file, n), page.Heading, part); err != nil {
					return nil, err
				}
				if file == "index.html" && n == 0 {
					about, err := notes(&m.in.Stock.Yard.Body, nil, nil)
					if err != nil {
						return nil, err
					}
					page.About = about
				}
				for _, e := range part {
					page.Cards = append(page.Cards, m.card(e))
				}
				return m.page("yard", page)
			}})
		}
	}
	return jobs
}

func split(all []*entry) [][]*entry {
	var out [][]*entry
	for len(all) > perPage {
		out, all = append(out, all[:perPage]), all[perPage:]
	}
	return append(out, all)
}

// leaf is the file of a further page: index.html, index-2.html.
func leaf(file string, n int) string {
	if n == 0 {
		return file
	}
	return fmt.Sprintf("%s-%d.html", strings.TrimSuffix(file, ".html"), n+1)
}

func leaves(file string, pages, here int) []link {
	if pages < 2 {
		return nil
	}
	var out []link
	for n := range pages {
		out = append(out, link{Link: leaf(file, n), Name: fmt.Sprint(n + 1), Here: n == here})
	}
	return out
}

func (m *maker) heading(file string) string {
	if file == "index.html" {
		return m.frame.Yard.Name
	}
	return kindName[strings.TrimSuffix(strings.TrimPrefix(file, "kind-"), ".html")]
}

func (m *maker) kinds(files []string, groups map[string][]*entry, here string) []link {
	var out []link
	for _, f := range files {
		name := m.heading(f)
		if f == "index.html" {
			name = "All"
		}
		out = append(out, link{Link: f, Name: name, Count: measure.Count(len(groups[f])), Here: f == here})
	}
	return out
}

// shown says how many there are, and what holds for every price below.
func shown(n int, terms string) string {
	if n == 1 {
		return "1 trailer, " + terms + "."
	}
	return measure.Count(n) + " trailers, " + terms + "."
}

func (m *maker) card(e *entry) card {
	c := card{
		Link: e.path, Title: e.Title.Value, Availability: e.Availability.Value, Condition: e.Condition.Value,
		Stock: e.Stock.Value, Price: price(e.Unit), Gone: e.Availability.Value == "sold",
	}
	if svg, ok := elevation.Silhouette(e.work, m.scale); ok {
		// The drawing is made by internal/elevation, which escapes what it writes.
		c.View = template.HTML(svg)
	}
	c.Numbers = append(c.Numbers, labeled{Label: "GVWR", Text: e.Weights.GVWR.Words()})
	for _, name := range []string{"payload", "deck-length"} {
		if f := e.work.Figure(name); f != nil {
			c.Numbers = append(c.Numbers, labeled{Label: short(name, e.work), Text: f.Text})
		}
	}
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
		s = "since " + d.Long() + ", " + s
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
