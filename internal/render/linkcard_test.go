package render_test

import (
	"bytes"
	"image/jpeg"
	"os"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"tarepage/internal/compute"
	"tarepage/internal/photo"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// A shared link shows the unit's card where the yard's file gives an address. Where it does
// not, there is no card, and no page mentions one (The Open Graph protocol, ogp.me: og:image is a
// URL, and its width, height and alt are told with it).
func TestCardOfASharedLink(t *testing.T) {
	for _, address := range []string{"", "address: https://yard.example/stock/\n"} {
		root := fstest.MapFS{
			"content/yard.md":       {Data: []byte(strings.Replace(yard, "phone:", address+"phone:", 1))},
			"content/units/ex-1.md": {Data: []byte(sound)},
			"content/units/ex-2.md": {Data: []byte(strings.NewReplacer("stock: EX-1", "stock: EX-2", "price: $5,200\n", "", "  length: 18 ft\n", "").Replace(sound))},
		}
		stock, _, err := unit.Read(root)
		if err != nil {
			t.Fatal(err)
		}
		pages, files := map[string]string{}, map[string]string{}
		made, err := render.Site(theme.Files, render.Input{Stock: stock, Works: compute.Stock(stock),
			Cards: &photo.Shop{Keep: t.TempDir()},
		}, render.AddFunc(func(path string, data []byte) error { pages[path] = string(data); return nil }))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range made.Files {
			files[f.Path] = f.From
		}
		for _, page := range []string{"u/ex-1.html", "u/ex-2.html"} {
			og := graphOf(t, pages[page])
			if address == "" {
				if len(files) > 0 || og["og:image"] != "" || og["og:image:alt"] != "" || strings.Contains(pages[page], `"image"`) {
					t.Errorf("%s names a card without an address: %v", page, og)
				}
				continue
			}
			at, ok := strings.CutPrefix(og["og:image"], "https://yard.example/stock/")
			if match, _ := path.Match("s/card-"+strings.TrimSuffix(path.Base(page), ".html")+"-????????????????.jpg", at); !ok || !match {
				t.Errorf("%s: og:image %q", page, og["og:image"])
			}
			data, err := os.ReadFile(files[at])
			if err != nil {
				t.Fatal(err)
			}
			c, err := jpeg.DecodeConfig(bytes.NewReader(data))
			if err != nil || c.Width != 1200 || c.Height != 630 || og["og:image:width"] != "1200" || og["og:image:height"] != "630" {
				t.Errorf("%s: %v, %v, %v", page, c, err, og)
			}
			_, stated := words(t, pages[page])
			if !strings.Contains(stated, `"image":["`+og["og:image"]+`"]`) {
				t.Errorf("%s does not state its card as its image: %s", page, stated)
			}
			alt := og["og:image:alt"]
			price := map[string]string{"u/ex-1.html": "Price as of Nov 20, 2026 $5,200", "u/ex-2.html": "Call for price"}[page]
			for _, want := range []string{"equipment", "GVWR 7,000 lb", "Payload ", price, "The label governs."} {
				if !strings.Contains(alt, want) {
					t.Errorf("%s: %q does not say %q", page, alt, want)
				}
			}
		}
		if want := 2 * min(len(address), 1); len(files) != want {
			t.Errorf("%d files, want %d", len(files), want)
		}
	}
}

// graphOf are a page's properties in the head.
func graphOf(t *testing.T, page string) map[string]string {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for n := range root.Descendants() {
		at := map[string]string{}
		for _, a := range n.Attr {
			at[a.Key] = a.Val
		}
		if n.Data == "meta" && at["property"] != "" {
			out[at["property"]] = at["content"]
		}
	}
	return out
}
