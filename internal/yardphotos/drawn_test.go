package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"hash"
	"math"
	"os"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

var update = flag.Bool("update", false, "write down which scenes the demo's photos show, after all of them were drawn again")

// TestPhotosShowTheirScenes holds each photo of the demo to the scene that it was drawn from: a change
// to the drawing, or to a unit, that would change a picture asks for a new picture. Each line of
// the file is a photo, the digest of its scene, and the beginning of the SHA-256 of its file. What
// the scenes look like is judged in the pictures.
func TestPhotosShowTheirScenes(t *testing.T) {
	const file = "testdata/scenes.txt"
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	for _, u := range stock.Units {
		w := compute.Unit(u, compute.SettingsOf(stock.Yard))
		for _, p := range u.Photos {
			view := strings.TrimSuffix(p.File.Value[strings.LastIndex(p.File.Value, "-")+1:], ".jpg")
			line(t, &got, p.File.Value, func(h hash.Hash) { digestScene(h, w, view) })
		}
		for _, p := range u.Proof {
			paper := strings.TrimSuffix(p.File.Value[strings.LastIndex(p.File.Value, "-")+1:], ".jpg")
			line(t, &got, p.File.Value, func(h hash.Hash) { fmt.Fprintln(h, strings.Join(papers[paper](u), "\n")) })
		}
	}
	if *update {
		if err := os.WriteFile(file, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	there := strings.Split(string(want), "\n")
	for i, l := range strings.Split(got.String(), "\n") {
		if i >= len(there) || there[i] != l {
			t.Fatalf("%q is not what %s has; draw the photos again (go run ./internal/yardphotos), look at them, and run this test with -update", l, file)
		}
	}
}

// line writes a photo's line.
func line(t *testing.T, out *bytes.Buffer, photo string, write func(h hash.Hash)) {
	t.Helper()
	data, err := os.ReadFile("../../content/" + photo)
	if err != nil {
		t.Fatal(err)
	}
	h := sha256.New()
	write(h)
	fmt.Fprintf(out, "%s %x %x\n", strings.TrimPrefix(photo, "media/"), h.Sum(nil)[:8], sha256.Sum256(data))
}

// digestScene digests what is in front of the camera, to a hundredth of an inch, and where the camera
// is before it walks around what hides the hitch.
func digestScene(h hash.Hash, w *compute.Work, view string) {
	r := rigOf(w)
	r.build()
	p := views[view].person(r)
	p.y *= r.side()
	r.person(p)
	c := r.fit(views[view].angle, views[view])
	r.fence(view)
	near := func(v ...float64) {
		for _, x := range v {
			fmt.Fprintf(h, "%d ", int64(math.Round(x*100)))
		}
	}
	near(c.from.x, c.from.y, c.from.z, c.forward.x*100, c.forward.y*100, c.forward.z*100, c.zoom)
	for _, f := range r.faces {
		for _, a := range f.at {
			near(a.x, a.y, a.z)
		}
		near(f.tint[:]...)
		fmt.Fprintln(h, f.hitch)
	}
}
