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

// TestCardAndNewsInSpanish: a link to a Spanish page shows a card in Spanish, and the feeds lead
// there. A feed says its language (RFC 4287, 2; JSON Feed 1.1, "language").
func TestCardAndNewsInSpanish(t *testing.T) {
	root := fstest.MapFS{
		"content/yard.md":       {Data: []byte(strings.Replace(yard, "phone:", "address: https://yard.example/stock/\nprice-excludes: tax and title\nphone:", 1))},
		"content/units/ex-1.md": {Data: []byte(strings.Replace(sound, "price: $5,200", "arrived: 2026-11-02\nprice: $5,200", 1))},
	}
	stock, _, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	files, from := map[string]string{}, map[string]string{}
	made, err := render.Site(theme.Files, render.Input{Stock: stock, Works: compute.Stock(stock), Spanish: true,
		Cards: &photo.Shop{Keep: t.TempDir()},
	}, render.AddFunc(func(path string, data []byte) error { files[path] = string(data); return nil }))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range made.Files {
		from[f.Path] = f.From
	}
	english, spanish := graphOf(t, files["u/ex-1.html"]), graphOf(t, files["es/u/ex-1.html"])
	if want := "Remolque para maquinaria de 82 in x 18 ft: PBV (GVWR) 7,000 lb, Capacidad de carga"; !strings.HasPrefix(spanish["og:image:alt"], want) {
		t.Errorf("the card says %q, want %q", spanish["og:image:alt"], want)
	}
	at, ok := strings.CutPrefix(spanish["og:image"], "https://yard.example/stock/s/card-ex-1-")
	if !ok || from["s/card-ex-1-"+at] == "" || spanish["og:image"] == english["og:image"] || len(from) != 2 {
		t.Errorf("the card is %q, the English one %q, of %d", spanish["og:image"], english["og:image"], len(from))
	}
	for name, want := range map[string][]string{
		"arrivals.atom":    {`xml:lang="en-US"`, "<id>https://yard.example/stock/u/ex-1.html</id>", "excludes tax and title"},
		"arrivals.json":    {`"language": "en-US"`},
		"es/arrivals.atom": {`xml:lang="es-US"`, "<id>https://yard.example/stock/es/u/ex-1.html</id>", "en el lote", "no incluye impuestos y título", "Manda la etiqueta del remolque."},
		"es/arrivals.json": {`"language": "es-US"`, `"home_page_url": "https://yard.example/stock/es/"`},
	} {
		for _, w := range want {
			if !strings.Contains(files[name], w) {
				t.Errorf("%s lacks %s:\n%s", name, w, files[name])
			}
		}
	}
	if want := `"name":"Remolque para maquinaria de 82 in x 18 ft"`; !strings.Contains(files["es/u/ex-1.html"], want) {
		t.Errorf("the Spanish page does not state %s", want)
	}
	if files["es/stock.json"] != "" {
		t.Error("the stock is there twice")
	}
}
