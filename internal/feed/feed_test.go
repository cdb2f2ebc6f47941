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
		Site: "https://yard.example/a/", Title: "Arrivals & <prices>", Yard: "Example Yard", Email: "yard@yard.example", AsOf: day(t, "2026-11-20"),
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
				t.Errorf("%s: the id %q is not the address %q, or stands twice", name, i.GUID, i.Link)
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
			t.Errorf("%s: the price's day is no update: %v", name, f.Items[0].UpdatedParsed)
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
