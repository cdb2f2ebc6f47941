package elevation_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/unit"
)

// TestForces: on each trailer of the demo yard the drawn forces are in equilibrium. What presses
// down is what holds up, and the moments about the hitch are equal (a beam on two supports:
// Beer and Johnston, Vector Mechanics for Engineers: Statics, ch. 4, from memory). The amounts are
// read from the written texts, each rounded up by less than a pound or to a quarter inch.
func TestForces(t *testing.T) {
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	drawn := 0
	for _, w := range compute.Stock(stock) {
		f, ok := elevation.ForcesOf(w)
		if !ok {
			continue
		}
		drawn++
		name := w.Unit.Stock.Value
		empty, load, truck, axles := poundsOf(t, f.Empty), poundsOf(t, f.Payload), poundsOf(t, f.Truck), poundsOf(t, f.Axles)
		if d := truck + axles - empty - load; d < -1 || d > 3 {
			t.Errorf("%s: %s and %s press down, %s and %s hold up", name, f.Empty, f.Payload, f.Truck, f.Axles)
		}
		down := empty*inchesOf(t, f.Balance) + load*inchesOf(t, f.Middle)
		up := axles * inchesOf(t, f.Group)
		if math.Abs(down-up) > (empty+load+axles)*0.5 {
			t.Errorf("%s: the moments are %.0f and %.0f lb-in", name, down, up)
		}
		svg := f.SVG(func(key, amount string) string { return key + " <" + amount + ">" })
		d := xml.NewDecoder(strings.NewReader(svg))
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v in %s", name, err, svg)
			}
		}
		struck(t, name, f.SVG(func(key, amount string) string { return amount + " of " + key }))
		for _, part := range []string{"empty", "load", "truck", "axles", "balance", "middle", "group", "title"} {
			if !strings.Contains(svg, part+" &lt;") {
				t.Errorf("%s: the drawing has no %s", name, part)
			}
		}
	}
	if drawn < 20 {
		t.Errorf("only %d trailers have a drawing", drawn)
	}
}

// struck finds an arrow that crosses a text. A letter of 14 units is about 7.5 wide (measured in
// Chromium on system-ui fonts).
func struck(t *testing.T, name, svg string) {
	t.Helper()
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	arrows := regexp.MustCompile(`M([0-9.]+) ([0-9.]+)V([0-9.]+)`).FindAllStringSubmatch(svg, -1)
	texts := regexp.MustCompile(`<text x="([0-9.]+)" y="([0-9.]+)" text-anchor="([a-z]+)">([^<]*)<`).FindAllStringSubmatch(svg, -1)
	if len(arrows) != 4 || len(texts) != 7 {
		t.Fatalf("%s: %d arrows and %d texts", name, len(arrows), len(texts))
	}
	for _, w := range texts {
		left, base, wide := number(w[1]), number(w[2]), 7.5*float64(len(w[4]))
		if w[3] == "end" {
			left -= wide
		}
		if left < 0 || left+wide > 364 {
			t.Errorf("%s: %q goes from %.0f to %.0f", name, w[4], left, left+wide)
		}
		for _, a := range arrows {
			x, top, foot := number(a[1]), min(number(a[2]), number(a[3])), max(number(a[2]), number(a[3]))
			if x > left && x < left+wide && foot > base-11 && top < base+3 {
				t.Errorf("%s: an arrow at %.0f strikes %q", name, x, w[4])
			}
		}
	}
}

func poundsOf(t *testing.T, text string) float64 {
	t.Helper()
	var v float64
	if _, err := fmt.Sscan(strings.ReplaceAll(strings.TrimPrefix(text, "about "), ",", ""), &v); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return v
}

// inchesOf reads 19 ft 7-1/4 in, 20 ft and 7 in.
func inchesOf(t *testing.T, text string) float64 {
	t.Helper()
	var v, n float64
	words := strings.Fields(strings.TrimPrefix(text, "about "))
	for i := 0; i+1 < len(words); i += 2 {
		whole, part, _ := strings.Cut(words[i], "-")
		if a, b, ok := strings.Cut(whole, "/"); ok && part == "" {
			whole, part = "0", a+"/"+b
		}
		if _, err := fmt.Sscan(whole, &n); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if a, b, ok := strings.Cut(part, "/"); ok {
			var x, y float64
			if _, err := fmt.Sscan(a+" "+b, &x, &y); err != nil {
				t.Fatalf("%q: %v", text, err)
			}
			n += x / y
		}
		if words[i+1] == "ft" {
			n *= 12
		}
		v += n
	}
	return v
}
