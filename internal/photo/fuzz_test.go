package photo

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tarepage/internal/media"
)

// FuzzDecode: whatever a photo's file holds, it is refused in words or becomes a picture of
// the size its head tells; nothing falls over, and nothing larger than the head tells is
// made.
func FuzzDecode(f *testing.F) {
	small := image.NewNRGBA(image.Rect(0, 0, 33, 17))
	for i := range small.Pix {
		small.Pix[i] = uint8(i * 5)
	}
	deep := image.NewNRGBA64(image.Rect(0, 0, 5, 3))
	deep.Set(1, 1, color.NRGBA64{1, 2, 3, 40000})
	for _, m := range []image.Image{small, deep, image.NewGray(small.Rect), image.NewPaletted(small.Rect, color.Palette{color.Black, color.Transparent})} {
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			f.Fatal(err)
		}
		f.Add(b.Bytes())
		b = bytes.Buffer{}
		if err := jpeg.Encode(&b, m, nil); err != nil {
			f.Fatal(err)
		}
		f.Add(b.Bytes())
	}
	for _, name := range []string{"lossy", "lossless", "alpha", "turned"} {
		data, err := os.ReadFile(filepath.Join("testdata", name+".webp"))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		head := media.LookAtPhoto(bytes.NewReader(data), int64(len(data)))
		if Refused(&head) != "" || head.Need > 16<<20 {
			return // what is larger is read the same way, and takes the fuzzer's time
		}
		m, err := decode(data, &head, time.Now().Add(longest))
		if err != nil {
			return
		}
		if s := m.Bounds().Size(); s.X != head.Wide || s.Y != head.High {
			t.Fatalf("it is %v, its head says %d x %d", s, head.Wide, head.High)
		}
		l := resize(rowsOf(m, readProfile(head.Profile), head.Kind == "WebP"), min(head.Wide, 20), min(head.High, 20)).turned(head.Turn)
		preview(l)
		l.codes()
	})
}
