package site

import (
	"crypto/sha256"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/inspect"
	"tarepage/internal/media"
	"tarepage/internal/publish"
	"tarepage/internal/render"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// TestAside: a unit is kept off the site by its owner, or by a stop and nothing less.
func TestAside(t *testing.T) {
	withheld, _ := unit.ReadUnit("a.md", []byte("---\nstock: A-1\nwithhold: waiting for the title\n---\n"))
	shown, _ := unit.ReadUnit("b.md", []byte("---\nstock: B-1\n---\n"))
	r := Result{Findings: []inspect.Finding{{Severity: inspect.Stop, Unit: "c.md"}, {Severity: inspect.Caution, Unit: "c.md"}, {Severity: inspect.Caution, Unit: "d.md"}, {Severity: inspect.Remark, Unit: "b.md"}}}
	want := map[string]bool{"c.md": true, "d.md": false, "b.md": false}
	if got := r.Aside(); !maps.Equal(got, want) {
		t.Errorf("without the yard: %v", got)
	}
	r.Yard = &Yard{Stock: &unit.Stock{Units: []*unit.Unit{withheld, shown}}}
	want["a.md"] = true
	if got := r.Aside(); !maps.Equal(got, want) {
		t.Errorf("with the yard: %v", got)
	}
}

// TestUndated: the feeds leave out a unit with neither a day of its price nor one of its
// availability nor the day it came, unless it is still on order.
func TestUndated(t *testing.T) {
	var units []*unit.Unit
	for stock, keys := range map[string]string{
		"A-1": "availability: on the yard\nprice: $5,000",
		"B-1": "availability: on the yard\nprice: $5,000 (since 2026-11-10)",
		"C-1": "availability: on order\nprice: $5,000",
		"D-1": "availability: on order\nprice: $5,000 (since 2026-11-10)",
		"E-1": "price: $5,000",
	} {
		u, _ := unit.ReadUnit(stock+".md", []byte("---\nstock: "+stock+"\n"+keys+"\n---\n"))
		units = append(units, u)
	}
	got := undated(units)
	slices.Sort(got)
	if !slices.Equal(got, []string{"A-1", "E-1"}) {
		t.Errorf("%q", got)
	}
}

// TestStockBefore: the files of the stock in the target are read, each for itself, and one that is
// missing is empty. A yard has a site of its own in its folder only if a list of files is there.
func TestStockBefore(t *testing.T) {
	dir := t.TempDir()
	own := filepath.Join(dir, "public")
	if got := stockBefore(own); got != [3]string{} {
		t.Errorf("of nothing: %q", got)
	}
	if got := OwnTarget(dir); got != "" {
		t.Errorf("a site without a folder: %q", got)
	}
	paths := stockfile.LinePaths()
	for _, path := range []string{paths[0], paths[2]} {
		write(t, filepath.Join(own, path), "this is "+path)
	}
	if got, want := stockBefore(own), [3]string{"this is " + paths[0], "", "this is " + paths[2]}; got != want {
		t.Errorf("%q", got)
	}
	if got := OwnTarget(dir); got != "" {
		t.Errorf("a site without a list: %q", got)
	}
	write(t, filepath.Join(own, "SHA256SUMS"), "x")
	if got := OwnTarget(dir); got != own {
		t.Errorf("its own site: %q", got)
	}
}

// TestMediaOfAUnit: what a unit was made from changes with everything that is known about its
// files.
func TestMediaOfAUnit(t *testing.T) {
	seen := map[string]int{}
	list := []unit.Media{
		{Path: "photos.file", Name: "media/a.jpg"},
		{Path: "proof.file", Name: "media/a.jpg"},
		{Path: "photos.file", Name: "media/b.jpg"},
		{Path: "photos.file", Name: "media/a.jpg", Withheld: true},
		{Path: "photos.file", Name: "media/a.jpg", Bytes: 5},
		{Path: "photos.file", Name: "media/a.jpg", Data: []byte("x")},
		{Path: "photos.file", Name: "media/a.jpg", Fault: "it is missing"},
		{Path: "photos.file", Name: "media/a.jpg", Photo: &media.Photo{}},
		{Path: "photos.file", Name: "media/a.jpg", Photo: &media.Photo{Wide: 640}},
		{Path: "photos.file", Name: "media/a.jpg", Video: &media.Video{}},
	}
	for i := range list {
		h := sha256.New()
		enterMedia(h, &list[i])
		sum := string(h.Sum(nil))
		if other, twice := seen[sum]; twice {
			t.Errorf("%+v and %+v have the same digest", list[i], list[other])
		}
		seen[sum] = i
	}
}

// TestLossOfOneBuild: a build alone is judged by what is listed now. Only what builds before it
// took off the site is added up, and judged by what was listed when that began.
func TestLossOfOneBuild(t *testing.T) {
	gone := strings.Fields("A-1 A-2 A-3")
	m := stockfile.Moves{Listed: 100, Gone: gone, Unsold: gone}
	after, err := loss{Start: 4}.allow(&Options{}, m)
	if err != nil || !slices.Equal(after.Lost, gone) || after.Start != 4 {
		t.Errorf("three of a hundred: %+v, %v", after, err)
	}
	if _, err := (loss{Start: 4, Lost: []string{"B-1"}}).allow(&Options{}, m); err == nil || !strings.Contains(err.Error(), "-fewer 4") {
		t.Errorf("after another one: %v", err)
	}
}

// TestWhatCannotBeCopied: a picture that is not there any more is named with the place in the
// unit's file that names it.
func TestWhatCannotBeCopied(t *testing.T) {
	dir := t.TempDir()
	g, err := publish.Begin(filepath.Join(dir, "public"))
	if err != nil {
		t.Fatal(err)
	}
	missing := []render.File{{Path: "photos/a.webp", From: filepath.Join(dir, "a.webp"), At: "content/units/a.md:7:11"}}
	for _, made := range []render.Made{{Files: missing}, {Media: missing}} {
		if err := copyFiles(&Options{From: dir}, made, g); err == nil || !strings.HasPrefix(err.Error(), "content/units/a.md:7:11: ") {
			t.Errorf("%v", err)
		}
	}
	if err := g.Abandon(); err != nil {
		t.Error(err)
	}
}
