package render

import (
	"io"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/feed"
	"tarepage/internal/kinds"
	"tarepage/internal/pagedata"
	"tarepage/internal/sitepath"
	"tarepage/internal/stockfile"
)

// others adds the files that are for programs and not for people: the stock, and where the
// site's own address is known the feeds, the sitemap and robots.txt.
func (m *maker) others(jobs []job, stock *stock, to Target) error {
	var err error
	put := func(path string, data []byte, failed error) {
		if err == nil {
			err = failed
		}
		if err == nil && data != nil {
			err = to.Add(path, data)
		}
	}
	put("", nil, stock.end())
	schema, failed := stockfile.Schema()
	put(stockfile.SchemaPath, schema, failed)
	site := m.in.Stock.Yard.Site()
	if site == "" || err != nil {
		return err
	}
	for _, l := range m.languages() {
		news := l.news()
		data, failed := feed.Atom(news)
		put(l.under+feed.AtomPath, data, failed)
		data, failed = feed.JSON(news)
		put(l.under+feed.JSONPath, data, failed)
	}
	maps, failed := feed.Sitemap(site, m.sitemap(jobs))
	put("", nil, failed)
	for _, f := range maps {
		put(f.Path, f.Data, nil)
	}
	put(feed.RobotsPath, feed.Robots(site), nil)
	return err
}

// sitemap lists the pages that search engines should know, in the order in which they are
// made.
func (m *maker) sitemap(jobs []job) []feed.Page {
	var out []feed.Page
	for _, j := range jobs {
		folder, page := "", j.path
		if m.other != nil && strings.HasPrefix(page, m.other.under) {
			folder, page = m.other.under, strings.TrimPrefix(page, m.other.under)
		}
		if page == sitepath.NotFound || j.hidden || j.line != nil {
			continue
		}
		p := feed.Page{Address: sitepath.Whole(m.in.Stock.Yard.Site(), sitepath.In(folder, page))}
		if m.other != nil {
			for _, l := range m.languages() {
				p.In = append(p.In, feed.Translation{Lang: l.lang.Tag.String(), Address: l.at(page)})
			}
		}
		if j.unit != nil {
			p.Changed = j.unit.Changed()
		}
		out = append(out, p)
	}
	return out
}

// news are the feeds in the maker's language. They lead to the pages in it.
func (m *maker) news() *feed.News {
	y := m.in.Stock.Yard
	n := &feed.News{Site: m.at(sitepath.Yard), Lang: m.lang.Tag.String(), Title: m.lang.Plain(m.lang.Say("yard news", m.lang.Blank(m.frame.Yard.Name))), Yard: m.frame.Yard.Name, Email: m.frame.Yard.Email, AsOf: y.AsOf.Value}
	for _, e := range m.units {
		i := feed.Item{Address: m.at(e.path), Kind: m.lang.Plain(kinds.Of(e.Kind.Value).Label), Changed: e.Unit.Changed(),
			Title: m.lang.Plain(m.title(e)) + ", " + m.lang.Plain(pagedata.Price(m.lang, e.Unit)), Text: m.told(e)}
		if e.Availability.Value != "on order" {
			i.Arrived = e.Arrived.Value
		}
		n.Items = append(n.Items, i)
	}
	return n
}

// told is what a feed says about a unit. It leaves out the day on which the stock was
// walked: that day moves every week, while nothing about the trailer has changed.
func (m *maker) told(e *entry) string {
	y := m.in.Stock.Yard
	since := func(s string, day interface{ Known() bool }, long string) string {
		if day.Known() {
			s = m.lang.Say("news since", s, long)
		}
		return s
	}
	d := e.Availability.Since()
	say := []string{m.lang.Say("news is", e.Stock.Value, since(e.Availability.Value, d, d.Long()))}
	if !e.sold() {
		d = e.Price.Since()
		offer := since(pagedata.Price(m.lang, e.Unit), d, d.Long())
		if e.Price.Given() && y.Excludes.Given() {
			offer = m.lang.Say("terms excludes", offer, y.Excludes.Value)
		}
		say = append(say, offer)
	}
	numbers := m.lang.Say("news gvwr", e.Weights.GVWR.Words())
	if f := e.work.Figure("payload"); f != nil {
		numbers = m.lang.Say("news payload", e.Weights.GVWR.Words(), f.Text)
	}
	say = append(say, numbers)
	for i := range say {
		say[i] = m.lang.Plain(say[i]) + "."
	}
	for _, s := range compute.Safety {
		say = append(say, m.lang.Plain(s))
	}
	return strings.Join(say, " ")
}

// stock are the files of the stock for programs while they are written.
type stock struct {
	*stockfile.Writer
	files []Spool
}

// stock begins the files of the stock, which may be too large for memory.
func (m *maker) stock(to Target) (*stock, error) {
	s := new(stock)
	var err error
	s.Writer, err = stockfile.NewWriter(m.in.Stock.Yard, func(path string) (io.Writer, error) {
		f, err := to.Spool(path)
		if err != nil {
			return nil, err
		}
		s.files = append(s.files, f)
		return f, nil
	})
	return s, err
}

// end completes them and adds them.
func (s *stock) end() error {
	err := s.End()
	for _, f := range s.files {
		if err == nil {
			err = f.Add()
		}
	}
	return err
}

// lines writes a unit's lines of the stock, or takes those that the target has from before.
// Whole is the entry with all figures, and key the digest of what the lines are made from: the
// same as what the unit's page is made from.
func (m *maker) lines(e *entry, whole func() *entry, stock *stock, to Target, key func() [32]byte) job {
	return job{path: stockfile.JSONPath, line: func() (func() error, error) {
		lines, known := to.Lines(e.path, key())
		var err error
		if !known {
			u := stockfile.Unit{Work: whole().work, Page: e.path, Address: m.at(e.path)}
			for _, c := range e.cautions {
				u.Cautions = append(u.Cautions, c.Message)
			}
			lines, err = stock.Lines(&u)
		}
		return func() error {
			at, err := stock.Add(lines)
			to.Enter(e.path, key(), lines, at)
			return err
		}, err
	}}
}
