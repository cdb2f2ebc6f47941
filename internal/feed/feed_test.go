package feed

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/mmcdole/gofeed"

	"tarepage/internal/unit"
)

func day(t *testing.T, s string) unit.Day {
	t.Helper()
	d, err := unit.ParseDay(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func news(t *testing.T) *News {
	return &News{
		Site: "https://yard.example/a/", Lang: "en-US", Title: "Arrivals & <prices>", Yard: "Example Yard", Email: "yard@yard.example", AsOf: day(t, "2026-11-20"),
		Items: []Item{
			{Address: "https://yard.example/a/u/ex-1.html", Title: `A "7 ft" <b>deck</b>, $5,200`, Text: "On the yard & ready ]]>.", Kind: "utility",
				Arrived: day(t, "2026-11-02"), Changed: day(t, "2026-11-02")},
			{Address: "https://yard.example/a/u/ex-3.html", Title: "Third", Text: "Text.", Arrived: day(t, "2026-10-01"), Changed: day(t, "2026-11-10")},
			{Address: "https://yard.example/a/u/ex-2.html", Title: "Second", Text: "Text.", Changed: day(t, "2026-11-02")},
			{Address: "https://yard.example/a/u/ex-9.html", Title: "Undated", Text: "Text."},
		},
	}
}

// TestFeedsReadBack reads both feeds with github.com/mmcdole/gofeed, an independent
// parser of Atom and JSON Feed, and finds in them what went in.
func TestFeedsReadBack(t *testing.T) {
	n := news(t)
	for name, write := range map[string]func(*News) ([]byte, error){"Atom": Atom, "JSON Feed": JSON} {
		out, err := write(n)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := write(n)
		if !bytes.Equal(out, again) {
			t.Errorf("%s: two writings differ", name)
		}
		f, err := gofeed.NewParser().Parse(bytes.NewReader(out))
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
		if f.Title != n.Title || f.Link != n.Site || len(f.Authors) != 1 || f.Authors[0].Name != n.Yard {
			t.Errorf("%s: title %q, link %q, authors %+v", name, f.Title, f.Link, f.Authors)
		}
		if name == "Atom" && (f.FeedLink != n.Site+AtomPath || f.UpdatedParsed == nil || !f.UpdatedParsed.Equal(time.Date(2026, 11, 10, 0, 0, 0, 0, time.UTC))) {
			t.Errorf("Atom: self %q, updated %v", f.FeedLink, f.UpdatedParsed)
		}
		if name == "JSON Feed" && (f.FeedLink != n.Site+JSONPath || f.FeedVersion != "1.1" && !strings.HasSuffix(f.FeedVersion, "/1.1")) {
			t.Errorf("JSON Feed: feed_url %q, version %q", f.FeedLink, f.FeedVersion)
		}
		// Last changed first; the undated one is not news.
		var order []string
		seen := map[string]bool{}
		for _, i := range f.Items {
			order = append(order, i.Title)
			if i.GUID != i.Link || seen[i.GUID] {
				t.Errorf("%s: the id %q is not the address %q, or is there twice", name, i.GUID, i.Link)
			}
			seen[i.GUID] = true
		}
		if got, want := strings.Join(order, "|"), `Third|A "7 ft" <b>deck</b>, $5,200|Second`; got != want {
			t.Fatalf("%s: items %s, want %s", name, got, want)
		}
		first := f.Items[1]
		if text := first.Description + first.Content; text != n.Items[0].Text {
			t.Errorf("%s: text %q", name, text)
		}
		if first.PublishedParsed == nil || first.PublishedParsed.Format("2006-01-02") != "2026-11-02" || name == "JSON Feed" && f.Items[2].Published != "" {
			t.Errorf("%s: published %v and %q", name, first.PublishedParsed, f.Items[2].Published)
		}
		if f.Items[0].UpdatedParsed == nil || f.Items[0].UpdatedParsed.Format("2006-01-02") != "2026-11-10" {
			t.Errorf("%s: the day of the price is not the update: %v", name, f.Items[0].UpdatedParsed)
		}
		if len(first.Categories) != 1 || first.Categories[0] != "utility" {
			t.Errorf("%s: categories %v", name, first.Categories)
		}
	}
}

// An empty feed is still whole: RFC 4287, 4.1.1 asks for updated, JSON Feed for items.
func TestNoNews(t *testing.T) {
	n := news(t)
	n.Items = nil
	out, err := Atom(n)
	if err != nil || !bytes.Contains(out, []byte("<updated>2026-11-20T00:00:00Z</updated>")) {
		t.Errorf("%v\n%s", err, out)
	}
	out, err = JSON(n)
	var f struct{ Items []any }
	if err != nil || json.Unmarshal(out, &f) != nil || f.Items == nil {
		t.Errorf("%v\n%s", err, out)
	}
}

func TestFeedIsCut(t *testing.T) {
	n := news(t)
	n.Items = nil
	for i := range Most + 20 {
		n.Items = append(n.Items, Item{Address: fmt.Sprintf("https://yard.example/a/u/%03d.html", i), Title: "T", Text: "x", Changed: unit.Day{Year: 2026, Month: 1 + i/28, Day: 1 + i%28}})
	}
	out, err := Atom(n)
	if err != nil {
		t.Fatal(err)
	}
	f, err := gofeed.NewParser().Parse(bytes.NewReader(out))
	if err != nil || len(f.Items) != Most || !strings.HasSuffix(f.Items[0].Link, fmt.Sprintf("/%03d.html", Most+19)) {
		t.Errorf("%d items, first %s, %v", len(f.Items), f.Items[0].Link, err)
	}
}

type read struct {
	XMLName xml.Name
	URLs    []struct {
		Loc     string `xml:"loc"`
		LastMod string `xml:"lastmod"`
	} `xml:",any"`
}

// TestSitemapSplits asks of every file what sitemaps.org, protocol 0.90, asks: at most
// so many addresses and bytes, each address once; with the real limits and with small
// ones that every seam falls on.
func TestSitemapSplits(t *testing.T) {
	const site = "https://yard.example/"
	many := make([]Page, protocol.pages+1)
	for i := range many {
		many[i] = Page{Address: fmt.Sprintf("%su/ex-%d.html?a=1&b=2", site, i), Changed: unit.Day{Year: 2026, Month: 11, Day: 1 + i%20}}
	}
	few := many[:10]
	for _, c := range []struct {
		what  string
		pages []Page
		most  limits
		files int
	}{
		{"no page", nil, protocol, 1},
		{"one file", few, protocol, 1},
		{"exactly full", many[:protocol.pages], protocol, 1},
		{"one page too many", many, protocol, 3},
		{"three by count", few, limits{4, 1 << 20}, 4},
		// 110 bytes around them, 94 each: three fit.
		{"by bytes", few, limits{50, 400}, 5},
	} {
		files, err := sitemap(site, c.pages, c.most)
		if err != nil || len(files) != c.files {
			t.Errorf("%s: %d files, want %d, %v", c.what, len(files), c.files, err)
			continue
		}
		if files[0].Path != SitemapPath {
			t.Errorf("%s: the first file is %s", c.what, files[0].Path)
		}
		sets, listed := files, []string(nil)
		if len(files) > 1 {
			var list read
			if err := xml.Unmarshal(files[0].Data, &list); err != nil || list.XMLName.Local != "sitemapindex" {
				t.Errorf("%s: %v", c.what, err)
			}
			for _, u := range list.URLs {
				listed = append(listed, u.Loc)
			}
			sets = files[1:]
			if len(listed) != len(sets) {
				t.Errorf("%s: %d files listed of %d", c.what, len(listed), len(sets))
			}
		}
		n := 0
		for i, f := range sets {
			var set read
			if err := xml.Unmarshal(f.Data, &set); err != nil || set.XMLName.Local != "urlset" || set.XMLName.Space != "http://www.sitemaps.org/schemas/sitemap/0.9" {
				t.Errorf("%s: %s: %v", c.what, f.Path, err)
			}
			if len(set.URLs) > c.most.pages || len(f.Data) > c.most.bytes {
				t.Errorf("%s: %s holds %d addresses in %d bytes", c.what, f.Path, len(set.URLs), len(f.Data))
			}
			if listed != nil && listed[i] != site+f.Path {
				t.Errorf("%s: %s is listed as %s", c.what, f.Path, listed[i])
			}
			for _, u := range set.URLs {
				if u.Loc != c.pages[n].Address || u.LastMod != c.pages[n].Changed.String() {
					t.Fatalf("%s: entry %d is %+v", c.what, n, u)
				}
				n++
			}
		}
		if n != len(c.pages) {
			t.Errorf("%s: %d pages of %d", c.what, n, len(c.pages))
		}
	}
}

// Robots look at the root of a host only: RFC 9309, 2.3.
func TestRobots(t *testing.T) {
	if got := string(Robots("https://yard.example/")); !strings.Contains(got, "\nSitemap: https://yard.example/sitemap.xml\n") || !strings.HasPrefix(got, "User-agent: *\n") {
		t.Errorf("%q", got)
	}
	if got := Robots("https://yard.example/trailers/"); got != nil {
		t.Errorf("%q", got)
	}
}

// TestAtomElements reads the XML itself, since gofeed fills in a missing day. RFC 4287, 4.1.2: an
// entry has an id, a title and a day of its last change; published and category are optional and
// are left out where the yard did not state them. 4.2.7.2 names the relations of links.
func TestAtomElements(t *testing.T) {
	out, err := Atom(news(t))
	if err != nil {
		t.Fatal(err)
	}
	var f struct {
		ID     string `xml:"id"`
		Author struct {
			Name  string `xml:"name"`
			Email string `xml:"email"`
			URI   string `xml:"uri"`
		} `xml:"author"`
		Links []struct {
			Rel  string `xml:"rel,attr"`
			Type string `xml:"type,attr"`
			Href string `xml:"href,attr"`
		} `xml:"link"`
		Entries []struct {
			Title     string   `xml:"title"`
			Published []string `xml:"published"`
			Updated   string   `xml:"updated"`
			Category  []struct {
				Term string `xml:"term,attr"`
			} `xml:"category"`
			Link struct {
				Rel  string `xml:"rel,attr"`
				Type string `xml:"type,attr"`
			} `xml:"link"`
		} `xml:"entry"`
	}
	if err := xml.Unmarshal(out, &f); err != nil {
		t.Fatal(err)
	}
	if f.ID != "https://yard.example/a/arrivals.atom" || f.Author.Name != "Example Yard" || f.Author.Email != "yard@yard.example" || f.Author.URI != "https://yard.example/a/" {
		t.Errorf("id %q, author %+v", f.ID, f.Author)
	}
	if got := fmt.Sprint(f.Links); got != "[{self application/atom+xml https://yard.example/a/arrivals.atom} {alternate text/html https://yard.example/a/}]" {
		t.Errorf("links %s", got)
	}
	want := []string{
		"Third [2026-10-01T00:00:00Z] 2026-11-10T00:00:00Z [] {alternate text/html}",
		`A "7 ft" <b>deck</b>, $5,200 [2026-11-02T00:00:00Z] 2026-11-02T00:00:00Z [{utility}] {alternate text/html}`,
		"Second [] 2026-11-02T00:00:00Z [] {alternate text/html}",
	}
	for i, e := range f.Entries {
		if got := fmt.Sprint(e.Title, " ", e.Published, " ", e.Updated, " ", e.Category, " ", e.Link); i >= len(want) || got != want[i] {
			t.Errorf("entry %d: %s", i, got)
		}
	}
	if !bytes.HasSuffix(out, []byte("</feed>\n")) || !bytes.HasPrefix(out, []byte(`<?xml version="1.0" encoding="UTF-8"?>`)) {
		t.Errorf("the document begins or ends wrong:\n%s", out)
	}
}

// JSON Feed 1.1: date_published and tags are optional, and are left out where nothing is known;
// language is a tag of RFC 5646.
func TestJSONElements(t *testing.T) {
	out, err := JSON(news(t))
	if err != nil {
		t.Fatal(err)
	}
	var f struct {
		Language string
		Authors  []map[string]string
		Items    []map[string]any
	}
	if err := json.Unmarshal(out, &f); err != nil {
		t.Fatal(err)
	}
	if f.Language != "en-US" || len(f.Authors) != 1 || f.Authors[0]["url"] != "https://yard.example/a/" {
		t.Errorf("language %q, authors %v", f.Language, f.Authors)
	}
	last := f.Items[len(f.Items)-1]
	if _, ok := last["date_published"]; ok || last["tags"] != nil || last["date_modified"] != "2026-11-02T00:00:00Z" {
		t.Errorf("an item without a day of arrival and a kind is %v", last)
	}
}

// Of trailers that changed on one day the address decides, so that the same stock gives the same
// feed in any order.
func TestFeedKnowsNoOrder(t *testing.T) {
	n := news(t)
	first, err := JSON(n)
	if err != nil {
		t.Fatal(err)
	}
	for i, k := 0, len(n.Items)-1; i < k; i, k = i+1, k-1 {
		n.Items[i], n.Items[k] = n.Items[k], n.Items[i]
	}
	if again, _ := JSON(n); !bytes.Equal(first, again) {
		t.Errorf("another order of the stock gives another feed:\n%s\n%s", first, again)
	}
}

// The list of several sitemaps says when each last changed (sitemaps.org, protocol 0.90, "lastmod
// of the sitemap"), and a page without a day has none.
func TestSitemapDays(t *testing.T) {
	pages := []Page{
		{Address: "https://yard.example/a", Changed: unit.Day{Year: 2026, Month: 11, Day: 3}},
		{Address: "https://yard.example/b", Changed: unit.Day{Year: 2026, Month: 11, Day: 9}},
		{Address: "https://yard.example/c", Changed: unit.Day{Year: 2026, Month: 11, Day: 1}},
		{Address: "https://yard.example/d", Changed: unit.Day{}},
	}
	files, err := sitemap("https://yard.example/", pages, limits{3, 1 << 20})
	if err != nil || len(files) != 3 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	want := xml.Header + index + "\n<sitemap><loc>https://yard.example/sitemap-1.xml</loc><lastmod>2026-11-09</lastmod></sitemap>\n" +
		"<sitemap><loc>https://yard.example/sitemap-2.xml</loc></sitemap>\n</sitemapindex>\n"
	if got := string(files[0].Data); got != want {
		t.Errorf("the list is\n%s\nwant\n%s", got, want)
	}
	if got := string(files[2].Data); !strings.Contains(got, "<url><loc>https://yard.example/d</loc></url>\n</urlset>\n") {
		t.Errorf("the second sitemap is\n%s", got)
	}
	// One byte less than what three pages take, and the third goes into a file of its own.
	full := len(files[1].Data)
	if files, _ := sitemap("https://yard.example/", pages[:3], limits{3, full}); len(files) != 1 {
		t.Errorf("%d files at the limit in bytes, want 1", len(files))
	}
	if files, _ := sitemap("https://yard.example/", pages[:3], limits{3, full - 1}); len(files) != 3 {
		t.Errorf("%d files above the limit in bytes, want 3", len(files))
	}
	if protocol.pages != 50_000 || protocol.bytes != 50*1024*1024 { // sitemaps.org: 50,000 URLs, 50 MB (52,428,800 bytes)
		t.Errorf("the limits are %+v", protocol)
	}
}
