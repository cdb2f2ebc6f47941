package render_test

import (
	"image"
	"image/color"
	"image/draw"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

var (
	codeBox  = regexp.MustCompile(`viewBox="0 0 (\d+) \d+"`)
	codePath = regexp.MustCompile(`<path d="([^"]+)"`)
	codeStep = regexp.MustCompile(`[MmHhVvLlZz]|-?\d+`)
)

// painted fills an SVG path of horizontal and vertical lines by the even-odd rule (SVG 1.1,
// 8.3 and 11.3), as a printer would, module pixels to the module.
func painted(t *testing.T, page string, module int) (image.Image, [][]bool) {
	t.Helper()
	_, svg, ok := strings.Cut(page, `class="code"`)
	if !ok {
		t.Fatal("no code on the page")
	}
	box, path := codeBox.FindStringSubmatch(svg), codePath.FindStringSubmatch(svg)
	if box == nil || path == nil {
		t.Fatal("the code has no box or no path")
	}
	n, _ := strconv.Atoi(box[1])
	dark := make([][]bool, n)
	for y := range dark {
		dark[y] = make([]bool, n)
	}
	// A vertical edge at x turns over all modules to its right between its ends.
	turn := func(x, from, to int) {
		for y := min(from, to); y < max(from, to); y++ {
			for at := x; at < n; at++ {
				dark[y][at] = !dark[y][at]
			}
		}
	}
	steps := codeStep.FindAllString(path[1], -1)
	var x, y, startX, startY int
	next := func() int {
		v, err := strconv.Atoi(steps[0])
		if err != nil {
			t.Fatalf("the path has %q for a number", steps[0])
		}
		steps = steps[1:]
		return v
	}
	command := ""
	for len(steps) > 0 {
		if _, err := strconv.Atoi(steps[0]); err != nil {
			command, steps = steps[0], steps[1:]
		}
		oldX, oldY := x, y
		switch command {
		case "M":
			x, y = next(), next()
			startX, startY = x, y
			continue
		case "m":
			x, y = x+next(), y+next()
			startX, startY = x, y
			continue
		case "H":
			x = next()
		case "h":
			x += next()
		case "V":
			y = next()
		case "v":
			y += next()
		case "L":
			x, y = next(), next()
		case "l":
			x, y = x+next(), y+next()
		case "Z", "z":
			x, y = startX, startY
		}
		if x != oldX && y != oldY {
			t.Fatalf("the path runs aslant from %d %d to %d %d", oldX, oldY, x, y)
		}
		turn(x, oldY, y)
	}
	img := image.NewGray(image.Rect(0, 0, n*module, n*module))
	draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
	for y := range dark {
		for x := range dark[y] {
			if dark[y][x] {
				draw.Draw(img, image.Rect(x*module, y*module, (x+1)*module, (y+1)*module), image.NewUniform(color.Black), image.Point{}, draw.Src)
			}
		}
	}
	return img, dark
}

// TestLotSheetCodeReads reads the code back with gozxing (a port of ZXing): it leads where
// the page's own address says, and has a margin of four modules (ISO/IEC 18004, from memory).
func TestLotSheetCodeReads(t *testing.T) {
	for _, site := range []string{"https://yard.example/", "https://" + strings.Repeat("long-", 11) + "yard.example/below/here/"} {
		pages := addressed(t, site)
		page := pages["lot/ex-1.html"]
		img, dark := painted(t, page, 4)
		bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
		if err != nil {
			t.Fatal(err)
		}
		got, err := qrcode.NewQRCodeReader().Decode(bitmap, nil)
		if err != nil {
			t.Fatal(err)
		}
		want := site + "u/ex-1.html"
		if got.GetText() != want {
			t.Errorf("the code leads to %q, want %q", got.GetText(), want)
		}
		if !strings.Contains(page, ">"+want+"</b>") {
			t.Errorf("the sheet lacks the address %s in words", want)
		}
		if !strings.Contains(pages["u/ex-1.html"], `href="`+want+`"`) {
			t.Errorf("%s is not the unit page's own address", want)
		}
		n := len(dark)
		for i := range n {
			for q := range 4 {
				if dark[q][i] || dark[n-1-q][i] || dark[i][q] || dark[i][n-1-q] {
					t.Fatalf("the quiet zone is not free at %d", i)
				}
			}
		}
		if !dark[4][4] || !dark[4][n-5] || !dark[n-5][4] {
			t.Error("the corners of the code are not where the quiet zone ends")
		}
		// sheet.css prints it 42 mm wide with its quiet zone; the code itself needs 30
		// (docs/design.md, "Pages").
		if float64(n-8)*42/float64(n) < 30 {
			t.Errorf("a code of %d modules is narrower than 30 mm", n-8)
		}
	}
}

func addressed(t *testing.T, address string) map[string]string {
	t.Helper()
	return site(t, map[string]string{"content/yard.md": strings.Replace(yard, "as-of:", "address: "+address+"\nas-of:", 1), "content/units/ex-1.md": sound})
}

// TestSheets compares what the printed pages say with the unit file.
func TestSheets(t *testing.T) {
	pages := one(t)
	lot, card := pages["lot/ex-1.html"], pages["handover/ex-1.html"]
	if strings.Contains(lot, `class="code"`) || strings.Contains(lot, `class="address"`) {
		t.Error("a yard without an address has a code that leads nowhere")
	}
	for _, want := range []string{"18 ft equipment trailer", "$5,200", "EX-1", "7,000 lb", "2,000 lb", "5,000 lb", "18 ft x 82 in", "3,175 kg", "5.49 m x 2.08 m", "As of November 20, 2026", "The label on the trailer governs."} {
		if !strings.Contains(lot, want) {
			t.Errorf("the lot sheet lacks %q", want)
		}
	}
	for _, want := range []string{"<b>50 psi (340 kPa)</b>", "3,175 kg", "ST205/75R15, 2 on each axle", "10 miles (16.1 km)", "25 miles (40.2 km)", "50 miles (80.5 km)", "Breakaway", "last <span", "Received by", "Weigh it loaded."} {
		if !strings.Contains(card, want) {
			t.Errorf("the hand-over card lacks %q", want)
		}
	}
	// NIST SP 811 (2008), B.8: pound-force foot 1.355 818 N m. 20 of them are 27.12, 25 are
	// 33.90, 50 are 67.79, 60 are 81.35, 90 are 122.02, 120 are 162.70: whole ones within.
	// The stages for a 15 in wheel on 1/2 in studs: axle maker's owner manual, p. 16.
	stud := strings.Replace(sound, "  per-axle: 2\n", "  per-axle: 2\n  stud: 1/2-20 cone\n", 1)
	card = site(t, map[string]string{"content/yard.md": yard, "content/units/ex-1.md": stud})["handover/ex-1.html"]
	for _, want := range []string{"first 20 to 25<", "then 50 to 60<", "last 90 to 120<", "in N m first 28 to 33, then 68 to 81, last 123 to 162;"} {
		if !strings.Contains(card, want) {
			t.Errorf("the hand-over card lacks the stage %q", want)
		}
	}
	for _, path := range []string{"lot/ex-1.html", "handover/ex-1.html"} {
		if !strings.Contains(pages[path], `content="noindex"`) {
			t.Errorf("%s is not kept out of search engines", path)
		}
		if !strings.Contains(pages["u/ex-1.html"], `href="../`+path+`"`) {
			t.Errorf("the unit page does not lead to %s", path)
		}
	}
}
