package main

import (
	"bytes"
	"image/jpeg"
	"math"
	"os"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
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

// TestHitchIsSeen holds that every photo of a trailer shows its hitch: most of it is in sight,
// and it is not too small to tell a ring from a ball coupler. The plain run looks at one trailer of
// each kind, and TestPhotosShowTheirScenes holds all scenes to those that were looked at.
func TestHitchIsSeen(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	looked := map[string]bool{}
	for _, u := range stock.Units {
		if looked[u.Kind.Value] && !thorough.BeforePush() {
			continue
		}
		looked[u.Kind.Value] = true
		w := compute.Unit(u, compute.SettingsOf(stock.Yard))
		for _, p := range u.Photos {
			view := strings.TrimSuffix(p.File.Value[strings.LastIndex(p.File.Value, "-")+1:], ".jpg")
			r, c := posed(w, view)
			if seen := r.hitchSeen(&c); seen < 0.6 {
				t.Errorf("%s: %.0f%% of the hitch is in sight", p.File.Value, seen*100)
			}
			left, right := math.Inf(1), math.Inf(-1)
			for _, f := range r.faces {
				for _, at := range f.at {
					if f.hitch {
						left, right = min(left, c.see(at).x/oversample), max(right, c.see(at).x/oversample)
					}
				}
			}
			if left < 4 || right > pixelsWide-4 || right-left < 20 {
				t.Errorf("%s: the hitch is from %.0f to %.0f of %d pixels", p.File.Value, left, right, pixelsWide)
			}
		}
	}
}

// TestLabelHasItsLines holds the demo's label to what 49 CFR 567.4(g) wants on one: the maker,
// the month and year, GVWR, GAWR, the VIN and the type, in this order, and the kilograms and
// the cold pressure in the form of its example in (g)(4). 20,000 lb are 9,071.8 kg by NIST SP
// 811's factor; a limit rounds down. The VIN and its check digit are those of the unit file.
func TestLabelHasItsLines(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range stock.Units {
		if u.Stock.Value != "SB-1043" {
			continue
		}
		text, at := strings.Join(labelLines(u), "\n"), 0
		for _, want := range []string{"MFD BY: OXBOW STEELWORKS   09/2026", "GVWR: 9,071 KG (20,000 LB)", "GAWR, ALL AXLES: 4,535 KG (10,000 LB)",
			"ST235/80R16(E) TIRES, 16 IN RIMS", "550 KPA (80 PSI) COLD, DUAL", "CONFORMS", "VIN: " + u.Serial.Value, "TYPE: TRAILER"} {
			i := strings.Index(text[at:], want)
			if i < 0 {
				t.Fatalf("the label has no %q after\n%s", want, text[:at])
			}
			at += i
		}
		return
	}
	t.Fatal("the demo has no SB-1043")
}

// TestTightLine holds the line over round loads: it touches every outer circle and goes
// through none.
func TestTightLine(t *testing.T) {
	load := [][2]float64{{-27, 9}, {-9, 9}, {9, 9}, {27, 9}, {-18, 25}, {0, 25}, {18, 25}}
	line := over(load, 9)
	if first, last := line[0], line[len(line)-1]; first.y < 35.9 || last.y > -35.9 {
		t.Errorf("the line goes from %v to %v, not from one side to the other", first, last)
	}
	for i, a := range line[:len(line)-1] {
		b := line[i+1]
		if b.y >= a.y {
			t.Fatalf("%v comes after %v", b, a)
		}
		for _, c := range load {
			way, to := b.sub(a), vec{0, c[0], c[1]}.sub(a)
			if away := way.cross(to).dot(vec{1, 0, 0}) / math.Sqrt(way.dot(way)); away < 8.9 {
				t.Errorf("from %v to %v the line is %.1f from the middle of the log at %v", a, b, away, c)
			}
		}
	}
}
