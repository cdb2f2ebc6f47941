package site

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/jpeg"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarepage/internal/thorough"
)

// proofOf adds a photo of the label to the demo's SB-1016.
func proofOf(t *testing.T, more string) (dir string, photo []byte) {
	t.Helper()
	dir = demo(t)
	photo = noise(t)
	write(t, filepath.Join(dir, "content/media/canary.jpg"), string(photo))
	replace(t, filepath.Join(dir, "content/units/sb-1016.md"), "\nphotos:\n",
		"\nproof:\n  - file: media/canary.jpg\n    shows: label\n    proves: weights.gvwr, axles.rating\n"+more+"\nphotos:\n")
	return dir, photo
}

// pictureOf begins the address of the pictures of a photo: 16 digits of the SHA-256 of its file.
func pictureOf(photo []byte) string {
	sum := sha256.Sum256(photo)
	return "photos/" + hex.EncodeToString(sum[:8])
}

// everyFile is what a site has, by its path.
func everyFile(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			out[name], err = os.ReadFile(filepath.Join(dir, name))
		}
		return err
	})
	if err != nil || len(out) == 0 {
		t.Fatal("the site has no files", err)
	}
	return out
}

var proofLink = regexp.MustCompile(`<small><a href="?\.\./(photos/[0-9a-f]+-[0-9]+\.webp)"?>label photographed</a>`)

// TestProofIsAPicture follows the link from a number to the photo that proves it, on the
// trailer's page and on the page of its figures. No script has a part in it.
func TestProofIsAPicture(t *testing.T) {
	thorough.Only(t)
	dir, photo := proofOf(t, "")
	o := Options{From: dir, To: filepath.Join(t.TempDir(), "public")}
	built(t, o)
	site := everyFile(t, o.To)
	for _, page := range []string{"u/sb-1016.html", "figures/sb-1016.html"} {
		links := proofLink.FindAllSubmatch(site[page], -1)
		if len(links) < 2 {
			t.Fatalf("%s has %d links to the proof", page, len(links))
		}
		for _, l := range links {
			if picture := site[string(l[1])]; len(picture) == 0 || bytes.Equal(picture, photo) || !bytes.HasPrefix(picture, []byte("RIFF")) {
				t.Errorf("%s leads to %s, which has %d bytes", page, l[1], len(picture))
			}
		}
	}
	if !regexp.MustCompile(`2 of its [0-9]+ ratings have a photo as proof`).Match(site["u/sb-1016.html"]) {
		t.Error("the page does not count the photographed ratings")
	}
	for _, other := range []string{"u/sb-1003.html", "u/sb-1031.html"} {
		if bytes.Contains(site[other], []byte("photographed")) {
			t.Errorf("%s has no proof and speaks of one", other)
		}
	}
	made := 0
	for name := range site {
		if strings.HasPrefix(name, pictureOf(photo)) {
			made++
		}
	}
	if made != 1 {
		t.Errorf("%d pictures were made of a proof that is only linked to", made)
	}
}

// TestWithheldProofIsNowhere builds a site with a proof, then with the same proof kept off it:
// no name, no word and no byte of the photo is left, neither in the site nor in the showroom.
func TestWithheldProofIsNowhere(t *testing.T) {
	thorough.Only(t)
	dir, photo := proofOf(t, "")
	o := Options{From: dir, To: filepath.Join(t.TempDir(), "public")}
	s := Remembering()
	shown(t, Options{From: dir}, s)
	built(t, o)
	var traces [][]byte
	for name, data := range everyFile(t, o.To) {
		if strings.HasPrefix(name, pictureOf(photo)) {
			traces = append(traces, pieces(data)...)
		}
	}
	if len(traces) == 0 {
		t.Fatal("the proof was not published before")
	}
	traces = append(append(traces, pieces(photo)...), []byte("canary"), []byte("Mabel"))

	unit := filepath.Join(dir, "content/units/sb-1016.md")
	replace(t, unit, "    proves: weights.gvwr, axles.rating\n", "    proves: weights.gvwr, axles.rating\n    withhold: Mabel's name can be read\n")
	check := func(where, name string, data []byte) {
		for _, trace := range traces {
			if bytes.Contains(data, trace) {
				t.Errorf("%s: %s holds %.20q of the photo", where, name, trace)
				return
			}
		}
		if strings.Contains(name, "canary") {
			t.Errorf("%s: %s is published", where, name)
		}
	}
	built(t, o)
	site := everyFile(t, o.To)
	for name, data := range site {
		check("the site", name, data)
	}
	if !bytes.Contains(site["u/sb-1016.html"], []byte("label photographed, the photo is not public")) {
		t.Error("the page does not say that the label was photographed")
	}
	room := shown(t, Options{From: dir}, s)
	page, err := room.File("u/sb-1016.html")
	if err != nil {
		t.Fatal(err)
	}
	check("the showroom", "u/sb-1016.html", page)

	// Named among the photos too, it stops the unit, and nobody can waive that.
	replace(t, unit, "\nphotos:\n", "\nwaive:\n  - rule: proof-published\n    reason: so be it\n    until: 2030-01-01\nphotos:\n  - file: media/canary.jpg\n    alt: a side\n")
	if r, err := Build(o); err != nil || r.Published {
		t.Fatal("it was published", err)
	}
	room = shown(t, Options{From: dir}, s)
	if page, err = room.File("u/sb-1016.html"); err != nil || bytes.Contains(page, []byte(pictureOf(photo))) {
		t.Error("the showroom shows it", err)
	}
}

// TestCopyOfWithheldProof: a photo that somebody saved again under another name is a stop, which
// names both, and the showroom does not show it either.
func TestCopyOfWithheldProof(t *testing.T) {
	dir, _ := proofOf(t, "    withhold: a name\n")
	data, err := os.ReadFile(filepath.Join(dir, "content/media/sb-1031-side.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	m, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 40}); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "content/media/canary.jpg"), b.String())
	o := Options{From: dir, To: filepath.Join(t.TempDir(), "public")}
	r, err := Build(o)
	if err != nil || r.Published {
		t.Fatal("it was published", err)
	}
	const want = `photo "media/sb-1031-side.jpg" looks like "media/canary.jpg", which SB-1016 withholds, so it is not shown here`
	found := 0
	for _, f := range r.Findings {
		if f.Rule.Name == "proof-published" && f.Message == want && f.Unit == "content/units/sb-1031.md" && len(f.Related) == 1 {
			found++
		}
	}
	if found == 0 {
		t.Errorf("no stop says: %s; %v", want, r.Findings)
	}
	s := Remembering()
	page := func() bool {
		text, err := shown(t, Options{From: dir}, s).File("u/sb-1031.html")
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Contains(text, []byte(pictureOf(data)))
	}
	if page() {
		t.Error("the showroom shows it")
	}
	replace(t, filepath.Join(dir, "content/units/sb-1016.md"), "    withhold: a name\n", "")
	if !page() {
		t.Error("the showroom does not show it after nothing is withheld")
	}
	built(t, o)
}

// noise is a photo of which no two pieces are the same.
func noise(t *testing.T) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 900, 700))
	r := rand.New(rand.NewPCG(1, 2))
	for i := range m.Pix {
		m.Pix[i] = byte(r.Uint32())
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pieces cuts what a photo holds into pieces that no other file has by chance.
func pieces(data []byte) (out [][]byte) {
	for i := 1024; i+24 < len(data); i += 512 {
		out = append(out, data[i:i+24])
	}
	return out
}
