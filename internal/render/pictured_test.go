package render_test

import (
	"errors"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// pictured is a yard of one trailer with a photo and a video, whose photo is made.
func pictured(t *testing.T, spanish bool, text string) render.Input {
	t.Helper()
	root := fstest.MapFS{
		"content/yard.md":        {Data: []byte(strings.Replace(yard, "phone:", "price-excludes: tax and title\naddress: https://yard.example/a\nphone:", 1))},
		"content/units/ex-1.md":  {Data: []byte(strings.Replace(text, "standard:", "recording:\n  length: 3:00\n  video: media/walk.mp4\nphotos:\n  - file: media/side.jpg\n    alt: The side\nstandard:", 1))},
		"content/media/side.jpg": {Data: smallPicture(t)},
		"content/media/walk.mp4": {Data: []byte("x")},
	}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	works, made := compute.Stock(stock), madePicture("side", 160, 400, 800)
	made.JPEG.From = "/kept/side-800.jpg"
	return render.Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems), Spanish: spanish,
		Pictures: map[string]*photo.Picture{"media/side.jpg": made}}
}

func filesFor(t *testing.T, in render.Input) map[string]string {
	t.Helper()
	files := map[string]string{}
	if _, err := render.Site(theme.Files, in, render.AddFunc(func(path string, data []byte) error { files[path] = string(data); return nil })); err != nil {
		t.Fatal(err)
	}
	return files
}

// TestPhotosOfCards: the cards that a search brings up find their photos from the page that they
// are on, which lies one folder deeper in Spanish.
func TestPhotosOfCards(t *testing.T) {
	files := filesFor(t, pictured(t, true, sound))
	photos := regexp.MustCompile(`[./]*photos/side-`)
	for page, want := range map[string]string{"index.html": "photos/side-", "es/index.html": "../photos/side-"} {
		name := regexp.MustCompile(`s/stock-[0-9a-f]+\.js`).FindString(files[page])
		if name == "" {
			t.Fatalf("%s names no file of cards", page)
		}
		if got := photos.FindString(files[name]); got != want {
			t.Errorf("the cards of %s show %q, want %q", page, got, want)
		}
	}
}

// TestFilesOnTheDisk: photos and recordings are not made again for somebody who looks.
func TestFilesOnTheDisk(t *testing.T) {
	site, err := render.NewOnDemand(theme.Files, pictured(t, false, sound), nil)
	if err != nil {
		t.Fatal(err)
	}
	if from, media, err := site.Disk("photos/side-800.jpg"); from != "/kept/side-800.jpg" || media || err != nil {
		t.Errorf("the photo comes from %q, %v, %v", from, media, err)
	}
	if from, media, err := site.Disk("media/ex-1.mp4"); from != "media/walk.mp4" || !media || err != nil {
		t.Errorf("the video comes from %q, %v, %v", from, media, err)
	}
	for _, name := range []string{"photos/side-801.jpg", "media/walk.mp4", "s/card-ex-1-00.png", "s/card-"} {
		if from, _, err := site.Disk(name); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s comes from %q, %v", name, from, err)
		}
	}
}

// TestNoPriceExcludesNothing: what a price excludes is said where there is a price.
func TestNoPriceExcludesNothing(t *testing.T) {
	arrived := strings.Replace(sound, "price:", "arrived: 2026-11-12\nprice:", 1)
	for text, want := range map[string]bool{arrived: true, strings.Replace(arrived, "price: $5,200\n", "", 1): false} {
		news := filesFor(t, pictured(t, false, text))["arrivals.json"]
		if got := strings.Contains(news, "tax and title"); got != want || !strings.Contains(news, "EX-1") {
			t.Errorf("excludes are told: %v, want %v\n%s", got, want, news)
		}
	}
}

// TestNoEmptyLabel: each row of a page's lists has a label, in both languages.
func TestNoEmptyLabel(t *testing.T) {
	empty := regexp.MustCompile(`<(dt|th|summary|h[1-6]|label)\b[^>]*>\s*</(dt|th|summary|h[1-6]|label)>`)
	for name, page := range filesFor(t, pictured(t, true, sound)) {
		if strings.HasSuffix(name, ".html") {
			for _, s := range empty.FindAllString(page, -1) {
				t.Errorf("%s: %s", name, s)
			}
		}
	}
}

// TestDrawingsHoldText: an SVG element holds text, and not the data element that a quantity in a
// page's text is put into (SVG 2, 11.2: text content elements hold text content child elements).
func TestDrawingsHoldText(t *testing.T) {
	drawing := regexp.MustCompile(`(?s)<svg.*?</svg>`)
	drawings := 0
	for yard, files := range yards(t) {
		for name, page := range files {
			if !strings.HasSuffix(name, ".html") {
				continue
			}
			for _, s := range drawing.FindAllString(page, -1) {
				drawings++
				if strings.Contains(s, "<data") {
					t.Errorf("%s: %s: a drawing holds a data element", yard, name)
				}
			}
		}
	}
	if drawings == 0 {
		t.Error("no page has a drawing")
	}
}

// TestEscapesInNotes: what the owner escapes is text as it was meant (CommonMark 0.31, 2.4 and 2.5),
// and code is text as it is written (6.1).
func TestEscapesInNotes(t *testing.T) {
	page := filesFor(t, pictured(t, false, sound+"\n\nIt holds 5 \\* 6 &amp; 7 &copy; `a &amp; \\*`\n"))["u/ex-1.html"]
	for _, want := range []string{"5 * 6 & 7 ©", "<code>a &amp;amp; \\*</code>"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s: %s", want, regexp.MustCompile(`It holds.{0,80}`).FindString(page))
		}
	}
}
