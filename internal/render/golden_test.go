package render_test

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/photo"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// smallPicture is a gray picture as a camera's file holds it.
func smallPicture(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 64, 48)), nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// madePicture is what a build makes of a photo: a JPEG of 800 pixels, and WebP in each width.
func madePicture(stem string, widths ...int) *photo.Picture {
	file := func(wide int, end string) photo.File {
		return photo.File{Name: fmt.Sprintf("photos/%s-%d.%s", stem, wide, end), Wide: wide, High: wide * 3 / 4}
	}
	p := &photo.Picture{JPEG: file(800, "jpg")}
	for _, w := range widths {
		p.WebP = append(p.WebP, file(w, "webp"))
		p.Wide, p.High = w, w*3/4
	}
	return p
}

// siteWith is the site of a yard whose photos are already made.
func siteWith(t *testing.T, root fstest.MapFS, pictures map[string]*photo.Picture) map[string]string {
	t.Helper()
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	works, files := compute.Stock(stock), map[string]string{}
	_, err = render.Site(theme.Files, render.Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems), Pictures: pictures},
		render.AddFunc(func(path string, data []byte) error { files[path] = string(data); return nil }))
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// smallYard is four trailers of the demo: one with a recording of its own, one that is sold, one
// with proofs, and one of another kind. Each photo has a small picture made for it.
func smallYard(t *testing.T) map[string]string {
	t.Helper()
	root, content := fstest.MapFS{}, os.DirFS("../../content")
	names := []string{"yard.md", "media/sb-1003.vtt", "media/sb-1003.mp4"}
	for _, n := range []string{"sb-1003", "sb-1070", "sb-1043", "sb-1016"} {
		names = append(names, "units/"+n+".md")
	}
	models, err := filepath.Glob("../../content/models/*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range models {
		names = append(names, "models/"+filepath.Base(m))
	}
	named := regexp.MustCompile(`media/[a-z0-9-]+\.(?:jpg|png)`)
	picture, pictures := smallPicture(t), map[string]*photo.Picture{}
	for _, n := range names {
		text, err := fs.ReadFile(content, n)
		if err != nil {
			t.Fatal(err)
		}
		root["content/"+n] = &fstest.MapFile{Data: text}
		if !strings.HasSuffix(n, ".md") {
			continue
		}
		for _, p := range named.FindAllString(string(text), -1) {
			root["content/"+p] = &fstest.MapFile{Data: picture}
			pictures[p] = madePicture(strings.TrimSuffix(filepath.Base(p), filepath.Ext(p)), 160, 400, 800, 1600)
		}
	}
	return siteWith(t, root, pictures)
}

// TestPagesAsReviewed: the pages and programs' files of a small yard are as somebody read and
// accepted them. With -update they are written again; read the difference.
func TestPagesAsReviewed(t *testing.T) {
	files := smallYard(t)
	hashed := regexp.MustCompile(`-[0-9a-f]{8,16}\.(js|css|json|txt)|'sha256-[^']+'`)
	elsewhere := regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>|<script>.*?</script>`) // styles, drawings and programs have tests of their own
	ends := regexp.MustCompile(`><|\\n|","`)
	golden := new(txtar.Archive)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		switch {
		case name == "index.html", strings.HasPrefix(name, "u/"), name == "arrivals.json":
		default:
			continue
		}
		text := hashed.ReplaceAllString(elsewhere.ReplaceAllString(files[name], ""), "-HASH.$1")
		text = ends.ReplaceAllStringFunc(text, func(s string) string { return s[:len(s)-1] + "\n" + s[len(s)-1:] })
		golden.Files = append(golden.Files, txtar.File{Name: name, Data: []byte(strings.TrimRight(text, "\n") + "\n")})
	}
	// What pages name below s/ is there.
	for _, name := range []string{"index.html", "u/sb-1003.html"} {
		for _, p := range regexp.MustCompile(`\bs/[a-z0-9.-]+`).FindAllString(files[name], -1) {
			if _, ok := files[p]; !ok && !strings.Contains(p, "/card-") { // a card's picture is made later
				t.Errorf("%s names %s, which is not a file of the site", name, p)
			}
		}
	}
	at := filepath.Join("testdata", "pages.txtar")
	got := txtar.Format(golden)
	if flag.Lookup("update").Value.String() == "true" { // the flag of fields_test.go
		if err := os.WriteFile(at, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(at)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(got, want) {
		return
	}
	is, was := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range min(len(is), len(was)) {
		if is[i] != was[i] {
			t.Fatalf("line %d of %s:\n is  %.300s\n was %.300s", i+1, at, is[i], was[i])
		}
	}
	t.Fatalf("%s has %d lines, the pages now have %d", at, len(was), len(is))
}
