package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/mmcdole/gofeed"

	"tarepage/internal/thorough"
)

// newsYard is a yard in a folder. The test builds it and reads its feeds as others do.
type newsYard struct {
	t     *testing.T
	guide *guide
}

// build builds the site and returns the entries of its feeds by their ids, as an independent
// parser (github.com/mmcdole/gofeed) reads them, and the bytes of the feeds.
func (y *newsYard) build() (entries map[string]*gofeed.Item, feed *gofeed.Feed, raw []byte) {
	y.t.Helper()
	y.guide.out = nil
	y.guide.run("tarepage -from my-yard -to public", nil)
	entries = map[string]*gofeed.Item{}
	for _, name := range []string{"arrivals.atom", "arrivals.json"} {
		data, err := os.ReadFile(filepath.Join(y.guide.dir, "public", name))
		if err != nil {
			y.t.Fatal(err)
		}
		f, err := gofeed.NewParser().Parse(bytes.NewReader(data))
		if err != nil {
			y.t.Fatalf("%s: %v", name, err)
		}
		for _, i := range f.Items {
			// Both feeds say the same about each trailer.
			if before := entries[i.GUID]; before != nil && (!before.UpdatedParsed.Equal(*i.UpdatedParsed) || before.Title != i.Title) {
				y.t.Errorf("%s: %s is %q of %v, in the other feed %q of %v", name, i.GUID, i.Title, i.UpdatedParsed, before.Title, before.UpdatedParsed)
			}
			entries[i.GUID] = i
		}
		if feed == nil {
			feed = f
		}
		raw = append(raw, data...)
	}
	if len(entries) != len(feed.Items) {
		y.t.Errorf("the feeds have %d and %d trailers", len(entries), len(feed.Items))
	}
	return entries, feed, raw
}

// change replaces a text in a file of the yard, which must have it exactly once.
func (y *newsYard) change(file, old, instead string) {
	y.t.Helper()
	y.guide.rewrite("my-yard/content/"+file, old, instead)
}

func day(t *testing.T, s string) time.Time {
	t.Helper()
	d, err := time.Parse(time.DateOnly, s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestNews follows a yard through its days and reads its feeds after each. RFC 4287, 4.2.15
// asks that updated changes when something changed that the publisher finds worth telling, JSON
// Feed 1.1 asks the same of date_modified, and RFC 4287, 4.2.6 asks that an id never changes.
func TestNews(t *testing.T) {
	thorough.Only(t)
	g := &guide{t: t, dir: t.TempDir()}
	y := &newsYard{t, g}
	g.run("tarepage first-yard -from my-yard -quiet", nil)
	unit := "units/ex-1.md"
	for _, line := range []string{"price", "availability", "arrived"} {
		// These lines replace the example's own, with the days in them.
		name := filepath.Join(g.dir, "my-yard/content", unit)
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		to := map[string]string{"price": "price: $6,480\n", "availability": "availability: on the yard\n", "arrived": "arrived: 2026-11-02\n"}[line]
		out := regexp.MustCompile(`(?m)^`+line+`:.*\n`).ReplaceAllLiteralString(string(data), "")
		out = strings.Replace(out, "\nexample: yes", "", 1) // it is for sale here
		if err := os.WriteFile(name, []byte(strings.Replace(out, "\nstock:", "\n"+to+"stock:", 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	y.change("yard.md", "\nas-of:", "\naddress: https://stock-a.example/trailers/\nas-of:")
	const id, second = "https://stock-a.example/trailers/u/ex-1.html", "https://stock-a.example/trailers/u/ex-2.html"

	first, feed, bytesBefore := y.build()
	arrived := day(t, "2026-11-02")
	if e := first[id]; len(first) != 1 || e == nil || !e.UpdatedParsed.Equal(arrived) || !e.PublishedParsed.Equal(arrived) || !feed.UpdatedParsed.Equal(arrived) {
		t.Fatalf("the feed begins with %+v", first)
	}
	// Nobody reads a robots.txt in a folder of a host; the summary says what to do.
	if !bytes.Contains(g.out, []byte("Sitemap: https://stock-a.example/trailers/sitemap.xml\n")) {
		t.Errorf("the summary does not mention robots.txt:\n%s", g.out)
	}

	// A rebuild changes no date: not at once, not with new times of the files, not in another time
	// zone, and not as a first build.
	t.Setenv("TZ", "Pacific/Kiritimati")
	for _, step := range []string{"again", "touched", "anew"} {
		switch step {
		case "touched":
			if err := os.Chtimes(filepath.Join(g.dir, "my-yard/content", unit), time.Unix(2_000_000_000, 0), time.Unix(2_000_000_000, 0)); err != nil {
				t.Fatal(err)
			}
		case "anew":
			if err := os.RemoveAll(filepath.Join(g.dir, "public")); err != nil {
				t.Fatal(err)
			}
		}
		if _, _, now := y.build(); !bytes.Equal(now, bytesBefore) {
			t.Errorf("%s: a rebuild changed the feeds", step)
		}
	}
	// A new as-of day does not either: nothing about the trailer changed.
	y.change("yard.md", "\nas-of: 2026-11-20", "\nas-of: 2026-11-25")
	if _, _, now := y.build(); !bytes.Equal(now, bytesBefore) {
		t.Error("the yard's as-of day changed the feeds")
	}

	// A new price changes the dates of the entry and the feed; the entry keeps its id and arrival.
	y.change(unit, "price: $6,480", "price: $6,280 (since 2026-11-24)")
	now, feed, _ := y.build()
	changed := day(t, "2026-11-24")
	if e := now[id]; !e.UpdatedParsed.Equal(changed) || !e.PublishedParsed.Equal(arrived) || !feed.UpdatedParsed.Equal(changed) || !strings.Contains(e.Title, "$6,280") {
		t.Errorf("after a new price: %+v", e)
	}
	if bytes.Contains(g.out, []byte("feeds do not tell")) {
		t.Errorf("a price with its day is reported:\n%s", g.out)
	}

	// A new price without a later day changes no date, and the summary says so.
	y.change(unit, "$6,280 (since 2026-11-24)", "$6,180 (since 2026-11-24)")
	now, _, _ = y.build()
	if e := now[id]; !e.UpdatedParsed.Equal(changed) || !strings.Contains(e.Title, "$6,180") {
		t.Errorf("after a price without a new day: %+v", e)
	}
	if !bytes.Contains(g.out, []byte("so the feeds do not report it: EX-1; correct the day after it")) {
		t.Errorf("a price that changed without its day is not reported:\n%s", g.out)
	}

	// A new price without a day holds since the as-of day of the first build that publishes it,
	// and later builds keep that day.
	y.change(unit, "$6,180 (since 2026-11-24)", "$6,080")
	now, _, _ = y.build()
	asOf := day(t, "2026-11-25")
	if e := now[id]; !e.UpdatedParsed.Equal(asOf) || !strings.Contains(e.Title, "$6,080") || bytes.Contains(g.out, []byte("do not report it")) {
		t.Errorf("after a price without a day: %+v\n%s", e, g.out)
	}
	y.change("yard.md", "\nas-of: 2026-11-25", "\nas-of: 2026-11-26")
	if now, _, _ = y.build(); !now[id].UpdatedParsed.Equal(asOf) {
		t.Errorf("the build after it dates the price %v", now[id].UpdatedParsed)
	}
	y.change(unit, "$6,080", "$6,180 (since 2026-11-24)")
	y.change("yard.md", "\nas-of: 2026-11-26", "\nas-of: 2026-11-25")
	y.build()

	// A new arrival comes first, and the older entry stays as it is. A trailer without a day is
	// left out, and the summary says so, also if nothing else changed.
	text, err := os.ReadFile(filepath.Join(g.dir, "my-yard/content", unit))
	if err != nil {
		t.Fatal(err)
	}
	for number, lines := range map[string]string{"EX-2": "arrived: 2026-11-25\n", "EX-3": ""} {
		out := strings.NewReplacer("stock: EX-1", "stock: "+number, "arrived: 2026-11-02\n", lines, " (since 2026-11-24)", "").Replace(string(text))
		out = regexp.MustCompile(`(?m)^serial:.*\n`).ReplaceAllLiteralString(out, "")
		if err := os.WriteFile(filepath.Join(g.dir, "my-yard/content/units", strings.ToLower(number)+".md"), []byte(out), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 {
		now, feed, _ = y.build()
		if e := now[second]; len(now) != 2 || e == nil || !e.UpdatedParsed.Equal(day(t, "2026-11-25")) || feed.Items[0].GUID != second || !now[id].UpdatedParsed.Equal(changed) {
			t.Errorf("after an arrival: %+v", now)
		}
		if !bytes.Contains(g.out, []byte("not in the feeds, for no day is stated: EX-3; write arrived: with the day\n")) {
			t.Errorf("the summary does not mention the trailer without a day:\n%s", g.out)
		}
	}

	// A sale is in the feeds, with its day.
	y.change(unit, "availability: on the yard", "availability: sold (since 2026-11-26)")
	now, _, _ = y.build()
	if e := now[id]; !e.UpdatedParsed.Equal(day(t, "2026-11-26")) || !strings.Contains(e.Title, "Sold") || strings.Contains(e.Description, "$") {
		t.Errorf("after a sale: %+v", e)
	}

	// Without the site's address there is no feed, and the summary names what is left out.
	y.change("yard.md", "\naddress: https://stock-a.example/trailers/\n", "\n")
	g.out = nil
	g.run("tarepage -from my-yard -to public", nil)
	for _, gone := range []string{"arrivals.atom", "arrivals.json", "sitemap.xml", "robots.txt"} {
		if _, err := os.Stat(filepath.Join(g.dir, "public", gone)); err == nil {
			t.Errorf("%s is there without an address", gone)
		}
	}
	said := string(g.out)
	for _, what := range []string{"canonical", "shared links", "feeds", "sitemap", "robots.txt", "QR code"} {
		if !strings.Contains(said, what) {
			t.Errorf("the summary does not say that %s is left out:\n%s", what, said)
		}
	}
	page, err := os.ReadFile(filepath.Join(g.dir, "public/u/ex-1.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, mark := range []string{"og:url", "og:image", "canonical", "stock-a.example"} {
		if bytes.Contains(page, []byte(mark)) {
			t.Errorf("a page says %s without an address", mark)
		}
	}
}
