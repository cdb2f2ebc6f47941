package main

import (
	"bytes"
	"image/jpeg"
	"os"
	"testing"

	"tarepage/internal/kinds"
)

// TestDemoIsDrawn draws one photo of the demo again and compares it with the file, and holds
// all photos to the names of views. Nobody's real photo is among them. Processors differ in
// the last bit of a product, so a few pixels at edges may differ.
func TestDemoIsDrawn(t *testing.T) {
	total := 0
	err := each(os.DirFS("../.."), func(name string, draw func() ([]byte, error)) error {
		there, err := os.ReadFile("../../" + name)
		if err != nil {
			return err
		}
		if total += len(there); name != "content/media/sb-1043-side.jpg" {
			return nil
		}
		data, err := draw()
		if err != nil {
			return err
		}
		got, _ := jpeg.Decode(bytes.NewReader(data))
		want, err := jpeg.Decode(bytes.NewReader(there))
		if err != nil {
			return err
		}
		wrong := 0
		for y := range pixelsHigh {
			for x := range pixelsWide {
				a, _, _, _ := got.At(x, y).RGBA()
				b, _, _, _ := want.At(x, y).RGBA()
				if max(a, b)-min(a, b) > 0x1000 {
					wrong++
				}
			}
		}
		if wrong > pixelsWide*pixelsHigh/1000 {
			t.Errorf("%s: %d pixels are not what the unit gives; go run ./internal/yardphotos", name, wrong)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if total < 100_000 || total > 4_000_000 {
		t.Errorf("the demo's photos have %d bytes together; 4 MB are enough", total)
	}
}

// TestEveryKindHasABuilder finds a kind that nobody can draw.
func TestEveryKindHasABuilder(t *testing.T) {
	for _, k := range kinds.All() {
		if k.Space != kinds.None && builders[string(k.Space)] == nil {
			t.Errorf("%s: no builder for a %s", k.Name, k.Space)
		}
	}
}
