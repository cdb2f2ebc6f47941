package policy

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// No text of this project names a real maker: no trailer, coupler, axle, tire, truck or
// machine, and no dealer. Talk names no state either. The names are kept as hashes, so
// that the list does not name them. testdata/names/makers.txt and places.txt hold the
// first 8 bytes of the SHA-256 of each name in lower case, one a line; a name is one word
// or two words with a space. A name that is an ordinary word too, as many trucks have, is
// listed only together with its maker.

// named are the trees that must name no maker, and inTalk those that must name no state.
var (
	named  = []string{"internal", "cmd", "content", "docs", "testdata", "themes", "README.md", "DEVELOPERS.md"}
	inTalk = []string{"internal/walkaround/testdata", "content"}
)

// citing are the files that name publishers and owners of licenses, as they must. The
// sheets show the sources of the tables.
var citing = []string{"docs/licenses.md", "internal/tables/data/", "internal/compute/testdata/sheets.txtar", "internal/policy/testdata/"}

// TestNoRealNames looks up every word, and every two words in a row, of the project's own
// texts.
func TestNoRealNames(t *testing.T) {
	makers, places := hashed(t, "makers.txt"), hashed(t, "places.txt")
	if len(makers) < 150 || len(places) < 40 {
		t.Fatalf("%d makers and %d places are listed; the lists are cut short", len(makers), len(places))
	}
	for _, root := range named {
		lookUp(t, root, makers, "a real maker's name; use an invented one")
	}
	for _, root := range inTalk {
		lookUp(t, root, places, "a real place; use an invented one")
	}
	for _, c := range citing {
		if _, err := os.Stat(filepath.Join("../..", filepath.FromSlash(c))); err != nil {
			t.Errorf("citing lists %s, which is gone; take it off the list", c)
		}
	}
}

func hashed(t *testing.T, name string) map[string]bool {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "names", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := map[string]bool{}
	for in := bufio.NewScanner(f); in.Scan(); {
		if line := in.Text(); line != "" && line[0] != '#' {
			out[line] = true
		}
	}
	return out
}

func nameHash(name string) string {
	sum := sha256.Sum256([]byte(name))
	return hex.EncodeToString(sum[:8])
}

// markup is the part of captions that nobody says.
var markup = regexp.MustCompile(`<[^<>\n]{1,40}>`)

var nameWord = regexp.MustCompile(`[a-z0-9&]+(?:-[a-z0-9]+)*`)

func lookUp(t *testing.T, root string, names map[string]bool, why string) {
	t.Helper()
	const top = "../.."
	seen := map[string]string{} // a word or two, and its hash where it is listed
	listed := func(name string) bool {
		h, ok := seen[name]
		if !ok {
			if h = nameHash(name); !names[h] {
				h = ""
			}
			seen[name] = h
		}
		return h != ""
	}
	err := filepath.WalkDir(filepath.Join(top, filepath.FromSlash(root)), func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(top, file)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		for _, c := range citing {
			if strings.HasPrefix(rel+"/", c) || strings.HasPrefix(rel, c) {
				return nil
			}
		}
		if d.IsDir() || !d.Type().IsRegular() {
			return nil
		}
		data, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		if bytes.IndexByte(data[:min(len(data), 4096)], 0) >= 0 {
			return nil // a photo or a video
		}
		for i, line := range strings.Split(string(data), "\n") {
			words := nameWord.FindAllString(strings.ToLower(markup.ReplaceAllString(line, "")), -1)
			for k, w := range words {
				if listed(w) || k > 0 && listed(words[k-1]+" "+w) {
					t.Errorf("%s:%d: %q is %s", rel, i+1, w, why)
				}
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestNameListsCatch plants an invented name and finds it, so that a list nobody reads
// would be noticed.
func TestNameListsCatch(t *testing.T) {
	if got := nameHash("abc"); got != "ba7816bf8f01cfea" { // FIPS 180-4, the example "abc"
		t.Errorf("hash of abc is %s", got)
	}
	makers := hashed(t, "makers.txt")
	if !makers[nameHash("zyx"+"well")] {
		t.Error("the invented name that is in the list for this test, is not found")
	}
}
