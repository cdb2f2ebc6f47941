package render_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/testyard"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

func packed(data string) int {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	_, _ = io.WriteString(w, data)
	_ = w.Close()
	return b.Len()
}

// weight is what a page costs before anybody touches it.
type weight struct{ html, scripts, elements, requests int }

func weigh(t *testing.T, files map[string]string, path string) weight {
	t.Helper()
	w := weight{html: packed(files[path]), requests: 1}
	root, err := html.Parse(strings.NewReader(files[path]))
	if err != nil {
		t.Fatal(err)
	}
	for n := range root.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		w.elements++
		at := map[string]string{}
		for _, a := range n.Attr {
			at[a.Key] = a.Val
		}
		switch {
		case n.Data == "script" && at["src"] != "":
			name := filepath.ToSlash(filepath.Join(filepath.Dir(path), at["src"]))
			if files[name] == "" {
				t.Errorf("%s loads %s, which is not there", path, name)
			}
			w.scripts += packed(files[name])
			w.requests++
		case n.Data == "script" && n.FirstChild != nil && at["type"] == "":
			w.scripts += packed(n.FirstChild.Data)
		case n.Data == "img" && at["loading"] != "lazy" && !strings.HasPrefix(at["src"], "data:"):
			w.requests++
		case n.Data == "link" && at["rel"] == "stylesheet":
			w.requests++
			w.html += packed(files[filepath.ToSlash(filepath.Join(filepath.Dir(path), at["href"]))])
		}
	}
	return w
}

// most is the budget of docs/design.md, "Pages": compressed bytes at gzip -9, elements, requests
// before the largest paint. Pages of formulas and of workings are texts, and have limits of their
// own here.
func most(path string) weight {
	switch {
	case strings.HasPrefix(path, "u/"):
		// The scripts have 6.25 KB: half of one is what tells a sure place on the deck from a likely one,
		// a quarter are the buttons of the photos.
		return weight{html: 14 << 10, scripts: 6400, elements: 900, requests: 2}
	case strings.HasPrefix(path, "figures/"):
		// With its style, which is a file of its own, like the switch of units.
		return weight{html: 11 << 10, scripts: 1 << 10, elements: 1300, requests: 3}
	case strings.HasPrefix(path, "lot/"), strings.HasPrefix(path, "handover/"):
		return weight{html: 6 << 10, scripts: 0, elements: 250, requests: 1}
	case path == "how-we-figure.html":
		return weight{html: 29 << 10, scripts: 0, elements: 1450, requests: 1}
	}
	return weight{html: 14 << 10, scripts: 12 << 10, elements: 700, requests: 3}
}

// holdWeights holds pages to the budget. Notes is how many bytes a unit page may have more for its notes.
func holdWeights(t *testing.T, files map[string]string, notes int) {
	t.Helper()
	heaviest := map[string]weight{}
	for _, path := range slices.Sorted(maps.Keys(files)) {
		if !strings.HasSuffix(path, ".html") {
			continue
		}
		got, limit := weigh(t, files, path), most(path)
		if strings.HasPrefix(path, "u/") {
			limit.html += notes
		}
		if got.html > limit.html || got.scripts > limit.scripts || got.elements > limit.elements || got.requests > limit.requests {
			t.Errorf("%s: %+v, the budget is %+v", path, got, limit)
		}
		kind, _, _ := strings.Cut(path, "/")
		if !strings.HasPrefix(path, "u/") {
			kind, _, _ = strings.Cut(strings.TrimSuffix(path, ".html"), "-")
		}
		if h, ok := heaviest[kind]; !ok || got.html > h.html {
			heaviest[kind] = got
		}
	}
	for kind, w := range heaviest {
		t.Logf("%-6s heaviest: html %d, scripts %d, elements %d, requests %d", kind, w.html, w.scripts, w.elements, w.requests)
	}
}

// loaded are the packed sizes of the site's scripts, by their names without the hash.
func loaded(files map[string]string) map[string]int {
	out := map[string]int{}
	for path, data := range files {
		if name, ok := strings.CutPrefix(path, "s/"); ok {
			name = name[:strings.LastIndex(name, "-")]
			out[name] = max(out[name], packed(data))
		}
	}
	return out
}

// TestWeights checks the demo yard's pages against the budget.
func TestWeights(t *testing.T) {
	files := demo(t)
	holdWeights(t, files, 0)
	t.Logf("scripts and data, packed: %v", loaded(files))
}

// mostWithCalculators is what the scripts of a trailer's page weigh, packed, with the calculators and the
// table of machines. The aim is 24 KB, 24,576 bytes; until that is met it grows no further.
const mostWithCalculators = 26_800

// TestWeightOfCalculators holds the scripts that come while a trailer's page is idle to that.
func TestWeightOfCalculators(t *testing.T) {
	files, most := demo(t), 0
	for path := range files {
		if strings.HasPrefix(path, "u/") && strings.HasSuffix(path, ".html") {
			most = max(most, weigh(t, files, path).scripts)
		}
	}
	sizes := loaded(files)
	for _, name := range []string{"bring-shapes", "statics", "machines"} {
		if sizes[name] == 0 {
			t.Errorf("there is no script %s", name)
		}
		most += sizes[name]
	}
	t.Logf("%d bytes", most)
	if most > mostWithCalculators {
		t.Errorf("the scripts with the calculators have %d bytes packed, at most %d", most, mostWithCalculators)
	}
}

// mostOfThousands is what a customer of a yard of 5,000 loads at most, packed, without photos: the
// yard page, what comes while it is idle, and what the first two searches bring.
const mostOfThousands = 90_000

// ofYard matches the paths of the site's scripts in a page.
var ofYard = regexp.MustCompile(`s/([a-z0-9]+)-[0-9a-f]{8}\.js`)

// TestWeightsOfFiveThousand checks a yard of 5,000 units against the budget, and its data against
// 45 KB. The trailers of internal/testyard have few shapes and models. Of the units' pages it makes
// every fiftieth.
func TestWeightsOfFiveThousand(t *testing.T) {
	if os.Getenv("TAREPAGE_LONG") == "" {
		t.Skip("set TAREPAGE_LONG=1 to run it; .ci/nightly does")
	}
	files := yardOfThousands(t)
	// Its notes are words drawn at random, which pack to 1.9 KB; those of the demo pack to less than 1.
	holdWeights(t, files, 1<<10)
	sizes := loaded(files)
	if sizes["stock"] > 45<<10 {
		t.Errorf("the data has %d bytes packed, more than 45 KiB", sizes["stock"])
	}
	all := packed(files["index.html"])
	for _, name := range []string{"yard", "stock", "bring", "statics", "machines", "keep", "search", "asked"} {
		if sizes[name] == 0 {
			t.Errorf("there is no script %s", name)
		}
		all += sizes[name]
	}
	// A word is in one part. The two largest stand for any two searches.
	var parts []int
	for path, data := range files {
		if strings.HasPrefix(path, "s/words-") {
			parts = append(parts, packed(data))
		}
	}
	slices.SortFunc(parts, func(a, b int) int { return b - a })
	for _, n := range parts[:min(2, len(parts))] {
		all += n
	}
	t.Logf("scripts and data, packed: %v; the yard page with the first two searches: %d bytes", sizes, all)
	if all > mostOfThousands {
		t.Errorf("the yard page with the first two searches has %d bytes packed, at most %d", all, mostOfThousands)
	}
	// .ci/browser/measure.mjs looks at this site with a slowed processor.
	if to := os.Getenv("TAREPAGE_SITE"); to != "" {
		for path, data := range files {
			name := filepath.Join(to, filepath.FromSlash(path))
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(data), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// yardOfThousands are the yard page of 5,000 units with every script that it names, the other pages
// of many units, and every fiftieth page of a unit.
func yardOfThousands(t *testing.T) map[string]string {
	t.Helper()
	dir := t.TempDir()
	if err := testyard.Write(dir, 5000); err != nil {
		t.Fatal(err)
	}
	stock, problems, err := unit.Read(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	site, err := render.NewOnDemand(theme.Files, render.Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems)}, nil)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	add := func(path string) string {
		text, err := site.File(path)
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		files[path] = string(text)
		return string(text)
	}
	add("how-we-figure.html")
	add("404.html")
	pages := []string{"index.html", "list.html", "kind-equipment.html"}
	for i, path := range slices.Sorted(maps.Keys(site.Units())) {
		if i%50 == 0 {
			pages = append(pages, path, "figures/"+filepath.Base(path))
		}
	}
	for _, page := range pages {
		for _, script := range ofYard.FindAllString(add(page), -1) {
			if files[script] == "" {
				add(script)
			}
		}
	}
	return files
}
