package policy

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
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
	lookUp(t, named, makers, "a real maker's name; use an invented one")
	lookUp(t, inTalk, places, "a real place; use an invented one")
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

// nameWords are the words of a line in lower case. A word has letters, digits and &, and single hyphens
// inside it.
func nameWords(line string) (out []string) {
	if strings.IndexByte(line, '<') >= 0 {
		line = markup.ReplaceAllString(line, "")
	}
	for _, w := range strings.FieldsFunc(strings.ToLower(line), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '&' && r != '-'
	}) {
		for part := range strings.SplitSeq(strings.Trim(w, "-"), "--") {
			if part = strings.Trim(part, "-"); part != "" {
				out = append(out, part)
			}
		}
	}
	return out
}

func lookUp(t *testing.T, roots []string, names map[string]bool, why string) {
	t.Helper()
	seen := map[[2]string]bool{} // a word with the one before it or with nothing, and whether it is listed
	listed := func(before, w string) bool {
		is, ok := seen[[2]string{before, w}]
		if !ok {
			is = names[nameHash(strings.TrimSpace(before+" "+w))]
			seen[[2]string{strings.Clone(before), strings.Clone(w)}] = is
		}
		return is
	}
	for _, root := range roots {
		lookUpIn(t, root, func(at string, words []string) {
			for k, w := range words {
				if listed("", w) || k > 0 && listed(words[k-1], w) {
					t.Errorf("%s: %q is %s", at, w, why)
				}
			}
		})
	}
}

// lookUpIn gives the words of each line of the texts in a folder, and where the line is.
func lookUpIn(t *testing.T, root string, each func(at string, words []string)) {
	t.Helper()
	const top = "../.."
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
			each(fmt.Sprintf("%s:%d", rel, i+1), nameWords(line))
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
	if got := strings.Join(nameWords("The <b>Zyx-Well</b> -- a-1,5&6- o'clock--now"), " "); got != "the zyx-well a-1 5&6 o clock now" {
		t.Errorf("the words are %s", got)
	}
	makers := hashed(t, "makers.txt")
	if !makers[nameHash("zyx"+"well")] {
		t.Error("the invented name that is in the list for this test, is not found")
	}
}
