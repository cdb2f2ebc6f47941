package report

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// TestPhoneCodeReads paints what a terminal would show, two modules to a character, and
// reads it with gozxing (a port of ZXing).
func TestPhoneCodeReads(t *testing.T) {
	for _, address := range []string{"http://192.0.2.7:2516/", "http://[2001:db8:1234:5678:9abc:def0:1234:5678]:65535/"} {
		var out strings.Builder
		Opened(&out, []string{"http://127.0.0.1:2516/"}, []string{address, "http://198.51.100.9:2516/"})
		var rows [][]rune
		for l := range strings.Lines(out.String()) {
			if l, ok := strings.CutPrefix(l, "\x1b[30;107m"); ok {
				rows = append(rows, []rune(strings.TrimSuffix(l, "\x1b[0m\n")))
			}
		}
		if len(rows) == 0 {
			t.Fatalf("no code in %q", out.String())
		}
		const px = 4
		img := image.NewGray(image.Rect(0, 0, len(rows[0])*px, len(rows)*2*px))
		for y := range img.Rect.Dy() {
			for x := range img.Rect.Dx() {
				c := rows[y/(2*px)][x/px]
				upper := y/px%2 == 0
				if dark := c == '█' || c == '▀' && upper || c == '▄' && !upper; !dark {
					img.SetGray(x, y, color.Gray{Y: 255})
				}
			}
		}
		bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
		if err != nil {
			t.Fatal(err)
		}
		got, err := qrcode.NewQRCodeReader().Decode(bitmap, nil)
		if err != nil || got.GetText() != address {
			t.Errorf("the code leads to %v, want %q (%v)", got, address, err)
		}
		if !strings.Contains(out.String(), "open: "+address+"\n") {
			t.Errorf("the address %s is not printed in words", address)
		}
	}
	var out strings.Builder
	if Opened(&out, []string{"http://127.0.0.1:2516/"}, nil); strings.Contains(out.String(), "\x1b") {
		t.Error("a code where no phone can come")
	}
}
