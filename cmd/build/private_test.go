package main

import (
	"bytes"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/bep/imagemeta"

	"tarepage/internal/thorough"
)

// formats are the kinds of picture in a site, by their endings.
var formats = map[string]imagemeta.ImageFormat{".jpg": imagemeta.JPEG, ".png": imagemeta.PNG, ".webp": imagemeta.WebP}

// noted are the notes that an independent reader, github.com/bep/imagemeta, finds in a
// picture.
func noted(t *testing.T, name string, data []byte) map[string]any {
	t.Helper()
	out := map[string]any{}
	_, err := imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(data), ImageFormat: formats[path.Ext(name)], Sources: imagemeta.EXIF | imagemeta.IPTC | imagemeta.XMP,
		ShouldHandleTag: func(imagemeta.TagInfo) bool { return true },
		HandleTag:       func(i imagemeta.TagInfo) error { out[i.Tag] = i.Value; return nil },
	})
	if err != nil {
		t.Errorf("%s: %v", name, err)
	}
	return out
}

// traces are bytes that may not be in a site: words that were written into the inputs, the
// first bytes of each kind of note, and the inputs' position in every way in which they write
// it. Sources: EXIF 2.32, 4.5.4; XMP specification, part 3; Photoshop's
// resources (8BIM, IPTC IIM); ICC.1:2010, B.4; PNG 3rd edition, 11.3; RFC 9649, 2.7; ISO 6709;
// Apple, QuickTime File Format, Metadata; 3GPP TS 26.244, 8.3.
var traces = []string{
	"CANARY", "Exif\x00\x00", "EXIF", "eXIf", "http://ns.adobe.com/", "adobe:ns:meta", "x:xmpmeta", "XML:com.adobe.xmp", "XMP_", "XMP ",
	"Photoshop 3.0", "8BIM", "ICC_PROFILE", "ICCP", "iCCP", "acsp", "JFIF", "tEXt", "zTXt", "iTXt",
	"\xa9xyz", "loci", "location.ISO6709", "\xbe\x7a\xcf\xcb\x97\xa9\x42\xe8\x9c\x71\x99\x94\x91\xe3\xaf\xac",
	"+00.0000+000.0000/", "+00.000+000.000/", "0,0.0N", "x264", "Lavc", "VideoHandler",
}

// TestNothingPrivateInTheSite builds a yard whose photos and videos have every note that phones
// and editing programs write, and checks that no file of the site has a byte of it. The inputs in
// testdata/private got their notes from exiftool 12.57. Their place is 0, 0, which is in the sea.
func TestNothingPrivateInTheSite(t *testing.T) {
	thorough.Only(t)
	dir := t.TempDir()
	copyDir(t, "../../content", filepath.Join(dir, "content"))
	var photos strings.Builder
	enter := func(from, name string, holds ...string) []byte {
		t.Helper()
		data, err := os.ReadFile(from)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range holds {
			if !bytes.Contains(data, []byte(s)) {
				t.Fatalf("%s, an input, does not hold %q", from, s)
			}
		}
		if err := os.WriteFile(filepath.Join(dir, "content", "media", name), data, 0o644); err != nil {
			t.Fatal(err)
		}
		return data
	}
	for ext, holds := range map[string][]string{
		".jpg":  {"CANARY-MAKER", "CANARY-PHONE", "CANARY-COMMENT", "CANARY-TOWN", "CANARY-CITY", "CANARY-JFIF", "CANARY-PROFILE", "CANARY-TRAILER", "Exif\x00\x00", "x:xmpmeta", "8BIM", "ICC_PROFILE"},
		".png":  {"CANARY-MAKER", "CANARY-TOWN", "CANARY-TEXT", "CANARY-AUTHOR", "eXIf", "iCCP"},
		".webp": {"CANARY-MAKER", "CANARY-TOWN", "EXIF", "XMP "},
	} {
		name := "private" + ext
		data := enter("testdata/private/"+name, name, holds...)
		if found := noted(t, name, data); found["Make"] != "CANARY-MAKER" || found["GPSLatitude"] == nil || found["City"] == nil && ext == ".jpg" {
			t.Fatalf("the independent reader does not find in %s what was written into it: %v", name, found)
		}
	}
	for _, ext := range []string{".jpg", ".png", ".webp"} {
		fmt.Fprintf(&photos, "  - file: media/private%s\n    alt: The trailer as a %s\n", ext, ext[1:])
	}
	// The position in the uuid box of XMP, in user data and in the lists of keys and items.
	enter("testdata/private/private.mp4", "private.mp4", "CANARY-TITLE", "x:xmpmeta", "\xa9xyz", "location.ISO6709", "+00.000+000.000/")
	enter("../../internal/media/testdata/place.mp4", "place.mp4", "loci")
	enter("../../internal/media/testdata/place.mov", "place.mov", "\xa9xyz", "+00.0000+000.0000/")
	units, err := filepath.Glob(filepath.Join(dir, "content", "units", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	videos := map[string]string{"sb-1016.md": "private.mp4", "sb-1031.md": "place.mp4", "sb-1027.md": "place.mov"}
	for _, name := range units {
		file := filepath.Base(name)
		video, ok := videos[file]
		if !ok { // the demo's other photos are worked by other tests
			if err := os.Remove(name); err != nil {
				t.Fatal(err)
			}
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := regexp.MustCompile(`(?m)^photos:\n(?:  .*\n)+`).ReplaceAllString(string(src), "photos:\n"+photos.String())
		if text = regexp.MustCompile(`(?m)^  video: .*\n`).ReplaceAllString(text, ""); !strings.Contains(text, "\nrecording:\n") {
			t.Fatalf("%s has no recording", file)
		}
		text = strings.Replace(text, "\nrecording:\n", "\nrecording:\n  video: media/"+video+"\n", 1)
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("XDG_CACHE_HOME", filepath.Join(dir, "cache"))
	public := filepath.Join(dir, "public")
	built(t, clean, "-from", dir, "-to", public)

	count := map[string]int{}
	for name, data := range filesBelow(t, public) {
		for _, file := range []string{"private.", "private-", "place.mp4", "place.mov"} {
			if strings.Contains(name, file) || strings.Contains(data, "/"+file) {
				t.Errorf("%s tells the name of a file that the owner chose: %s", name, file)
			}
		}
		for _, trace := range traces {
			if at := strings.Index(data, trace); at >= 0 {
				t.Errorf("%s holds %q at byte %d: %.40q", name, trace, at, data[max(at-8, 0):])
			}
		}
		if _, ok := formats[path.Ext(name)]; ok {
			if left := noted(t, name, []byte(data)); len(left) > 0 {
				t.Errorf("%s still holds %v", name, left)
			}
		}
		dir := path.Dir(name)
		if strings.HasPrefix(name, "s/card-") {
			dir = "s/card"
		}
		count[dir+" "+path.Ext(name)]++
	}
	// The pictures of the inputs are there: three photos, four sizes each, as JPEG and as a card.
	if count["photos .webp"] < 3 || count["photos .jpg"] != 3 || count["s/card .jpg"] == 0 || count["media .mp4"] != 2 || count["media .mov"] != 1 {
		t.Errorf("the site lacks pictures that the test must check: %v", count)
	}
	// The videos still have their pictures: most of their bytes.
	for _, name := range []string{"sb-1016.mp4", "sb-1031.mp4", "sb-1027.mov"} {
		is, err := os.ReadFile(filepath.Join(public, "media", name))
		if err != nil || len(is) < 12_000 {
			t.Errorf("%s has %d bytes (%v)", name, len(is), err)
		}
	}
	built(t, clean, "-from", dir, "-to", public)
	if out, _ := built(t, clean, "-from", dir, "-to", public); !strings.Contains(out, "nothing changed") {
		t.Errorf("a second build says %q", out)
	}
}
