package publish

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tarepage/internal/thorough"
)

// pages is what a site is to hold.
type pages map[string]string

func (w pages) site(tb testing.TB) *Site {
	tb.Helper()
	s := new(Site)
	for path, text := range w {
		if err := s.Add(path, []byte(text)); err != nil {
			tb.Fatal(err)
		}
	}
	return s
}

var (
	older = pages{"index.html": "old yard", "units/sb-1/index.html": "gooseneck", "units/sb-2/index.html": "sold", "style.css": "body{}"}
	newer = pages{"index.html": "new yard", "units/sb-1/index.html": "gooseneck", "units/sb-3/index.html": "dump", "style.css": "body{}"}
)

// read returns what a folder holds, without the list and the note, after checking
// that both are right.
func read(dir string) (pages, error) {
	got := make(pages)
	sums := make(map[string]string)
	err := filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(full)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, full)
		if err != nil {
			return err
		}
		path := filepath.ToSlash(rel)
		got[path] = string(data)
		sums[path] = fmt.Sprintf("%x  %s\n", sha256.Sum256(data), path)
		return nil
	})
	if err != nil {
		return nil, err
	}
	list := got["SHA256SUMS"]
	delete(got, "SHA256SUMS")
	delete(sums, "SHA256SUMS")
	var want strings.Builder
	for _, path := range slices.Sorted(maps.Keys(sums)) {
		want.WriteString(sums[path])
	}
	if list != want.String() {
		return nil, fmt.Errorf("SHA256SUMS is\n%s\nwant\n%s", list, want.String())
	}
	if got["tarepage.txt"] == "" {
		return nil, errors.New("tarepage.txt is missing")
	}
	delete(got, "tarepage.txt")
	return got, nil
}

// wantSite fails unless the target is whole and one of the sites.
func wantSite(t *testing.T, target string, sites ...pages) {
	t.Helper()
	got, err := read(target)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range sites {
		if maps.Equal(got, w) {
			return
		}
	}
	t.Fatalf("the target holds %q, a mixture", slices.Sorted(maps.Keys(got)))
}

// wantAlone fails unless the folder holds exactly the names.
func wantAlone(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, names) {
		t.Fatalf("next to the target: %q, want %q", got, names)
	}
}

func mustSwap(t *testing.T, s *swapper, w pages, target string) Report {
	t.Helper()
	r, err := s.swap(w.site(t), target, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// ways are the two ways of putting a site in place; where exchange is nil it is the
// system's own.
var ways = []struct {
	name     string
	exchange func(a, b string) error
}{
	{"exchange", nil},
	{"two renames", func(a, b string) error { return errNoExchange }},
}

func swapperFor(way int) *swapper {
	s := newSwapper()
	if ways[way].exchange != nil {
		s.exchange = ways[way].exchange
	}
	return s
}

func mkdir(t *testing.T, elem ...string) string {
	t.Helper()
	dir := filepath.Join(elem...)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	return dir
}

func put(t *testing.T, text string, elem ...string) string {
	t.Helper()
	full := filepath.Join(elem...)
	mkdir(t, filepath.Dir(full))
	if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return full
}

func TestSwap(t *testing.T) {
	for way := range ways {
		t.Run(ways[way].name, func(t *testing.T) {
			s := swapperFor(way)
			base := t.TempDir()
			target := filepath.Join(base, "made", "too", "public")

			if got, want := mustSwap(t, s, older, target), (Report{Written: 4, Bytes: 27}); got != want {
				t.Errorf("first: %+v, want %+v", got, want)
			}
			wantSite(t, target, older)
			if got, want := mustSwap(t, s, newer, target), (Report{Written: 2, Unchanged: 2, Removed: 1, Bytes: 27}); got != want {
				t.Errorf("second: %+v, want %+v", got, want)
			}
			wantSite(t, target, newer)
			if _, err := os.Lstat(filepath.Join(target, "units", "sb-2")); err == nil {
				t.Error("the folder of the removed unit is still there")
			}
			wantAlone(t, filepath.Dir(target), "public")
			wantAlone(t, base, "made")
		})
	}
}

// An empty folder that is already there is taken.
func TestSwapEmptyFolder(t *testing.T) {
	base := t.TempDir()
	target := mkdir(t, base, "public")
	mustSwap(t, newSwapper(), older, target)
	wantSite(t, target, older)
	wantAlone(t, base, "public")
}

// The list is checked by GNU coreutils, an independent implementation of FIPS 180-4
// and the authority for the form.
func TestListAgainstCoreutils(t *testing.T) {
	tool, err := exec.LookPath("sha256sum")
	if err != nil {
		t.Skip("NOT CHECKED: sha256sum is not installed, so nothing independent has read the list")
	}
	w := pages{"-dash": "1", "empty": "", "photos/größe 1.jpg": "\x00\xff", "units/a/index.html": strings.Repeat("x", 200_000)}
	target := filepath.Join(t.TempDir(), "public")
	mustSwap(t, newSwapper(), w, target)

	check := exec.Command(tool, "--strict", "--check", "SHA256SUMS")
	check.Dir = target
	if out, err := check.CombinedOutput(); err != nil {
		t.Errorf("sha256sum --strict --check: %v\n%s", err, out)
	}
	paths := slices.Sorted(maps.Keys(w))
	paths = slices.Insert(paths, 3, "tarepage.txt")
	write := exec.Command(tool, append([]string{"--"}, paths...)...)
	write.Dir = target
	want, err := write.Output()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(filepath.Join(target, "SHA256SUMS"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("SHA256SUMS is\n%s\nsha256sum writes\n%s", got, want)
	}

	put(t, "touched", target, "empty")
	check = exec.Command(tool, "--strict", "--check", "SHA256SUMS")
	check.Dir = target
	if out, err := check.CombinedOutput(); err == nil {
		t.Errorf("sha256sum does not see a changed file:\n%s", out)
	}
}

var longAgo = time.Date(2020, 2, 29, 12, 0, 0, 123456789, time.UTC)

// age gives every file of a folder the same old time.
func age(t *testing.T, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		return os.Chtimes(full, time.Time{}, longAgo)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// aged returns the files that still have that time.
func aged(t *testing.T, dir string) []string {
	t.Helper()
	var kept []string
	err := filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		if err == nil && info.ModTime().Equal(longAgo) {
			rel, _ := filepath.Rel(dir, full)
			kept = append(kept, filepath.ToSlash(rel))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return kept
}

func TestUnchangedKeepTheirTime(t *testing.T) {
	target := filepath.Join(t.TempDir(), "public")
	mustSwap(t, newSwapper(), older, target)
	age(t, target)
	mustSwap(t, newSwapper(), newer, target)
	want := []string{"style.css", "tarepage.txt", "units/sb-1/index.html"}
	if got := aged(t, target); !slices.Equal(got, want) {
		t.Errorf("kept their time: %q, want %q", got, want)
	}
}

// A build that changes nothing does not touch the target: not even the folder is
// another one.
func TestNothingChanged(t *testing.T) {
	target := filepath.Join(t.TempDir(), "public")
	mustSwap(t, newSwapper(), older, target)
	age(t, target)
	before, err := os.Stat(target)
	if err != nil {
		t.Fatal(err)
	}
	got := mustSwap(t, newSwapper(), older, target)
	if want := (Report{Unchanged: 4, Bytes: 27}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	after, err := os.Stat(target)
	if err != nil {
		t.Fatal(err)
	}
	if !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
		t.Error("the target was touched")
	}
	if n := len(aged(t, target)); n != 6 {
		t.Errorf("%d files kept their time, want 6", n)
	}
}

// What was changed by hand is replaced, also where the size and the time are those
// of before, and what was removed by hand comes back.
func TestChangedByHand(t *testing.T) {
	for way := range ways {
		t.Run(ways[way].name, func(t *testing.T) {
			s := swapperFor(way)
			target := filepath.Join(t.TempDir(), "public")
			mustSwap(t, s, older, target)
			put(t, "bodY{}", target, "style.css")
			if err := os.RemoveAll(filepath.Join(target, "units", "sb-1")); err != nil {
				t.Fatal(err)
			}
			age(t, target)
			got := mustSwap(t, s, older, target)
			if want := (Report{Written: 2, Unchanged: 2, Bytes: 27}); got != want {
				t.Errorf("%+v, want %+v", got, want)
			}
			wantSite(t, target, older)
		})
	}
}

func TestAddFile(t *testing.T) {
	base := t.TempDir()
	target := filepath.Join(base, "public")
	photo := put(t, strings.Repeat("photo", 50_000), base, "media", "side.jpg")
	build := func() (Report, error) {
		var s Site
		if err := s.AddFile("photos/side.jpg", photo); err != nil {
			t.Fatal(err)
		}
		if err := s.Add("index.html", []byte("yard")); err != nil {
			t.Fatal(err)
		}
		return Swap(&s, target)
	}
	wantReport := func(want Report) {
		t.Helper()
		got, err := build()
		if err != nil || got != want {
			t.Fatalf("%+v, %v, want %+v", got, err, want)
		}
		data, err := os.ReadFile(photo)
		if err != nil {
			t.Fatal(err)
		}
		wantSite(t, target, pages{"index.html": "yard", "photos/side.jpg": string(data)})
	}

	wantReport(Report{Written: 2, Bytes: 250_004})
	age(t, target)
	wantReport(Report{Unchanged: 2, Bytes: 250_004})
	put(t, strings.Repeat("photo", 49_999)+"phot!", photo)
	wantReport(Report{Written: 1, Unchanged: 1, Bytes: 250_004})
	put(t, "", photo)
	wantReport(Report{Written: 1, Unchanged: 1, Bytes: 4})

	// The site is a copy: what is done to the source later does not reach it.
	put(t, "later", photo)
	wantSite(t, target, pages{"index.html": "yard", "photos/side.jpg": ""})

	if err := os.Remove(photo); err != nil {
		t.Fatal(err)
	}
	_, err := build()
	if err == nil || !strings.HasPrefix(err.Error(), `site file "photos/side.jpg" cannot be copied from `+photo+" (") || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("missing source: %v", err)
	}
	mkdir(t, photo)
	if _, err := build(); err == nil || err.Error() != `site file "photos/side.jpg" cannot be copied from `+photo+" (not a plain file)" {
		t.Errorf("folder as source: %v", err)
	}
	wantSite(t, target, pages{"index.html": "yard", "photos/side.jpg": ""})
	wantAlone(t, base, "media", "public")

	var s Site
	if err := s.AddFile("a", ""); err == nil || err.Error() != `site file "a" has no file to be copied from` {
		t.Errorf("AddFile without a source: %v", err)
	}
	if _, err := Swap(&s, target); err == nil || err.Error() != "the site has no files, so nothing was replaced" {
		t.Errorf("empty site: %v", err)
	}
}

// Targets are refused by Check and by Swap alike, and nothing changes.
func TestRefusals(t *testing.T) {
	const (
		moveIt   = "; move it away or choose another folder with -to"
		moveThem = "; move them away or choose another folder with -to"
		other    = "; choose another folder with -to"
	)
	site := func(t *testing.T, base string) {
		mustSwap(t, newSwapper(), older, filepath.Join(base, "public"))
	}
	tests := []struct {
		name    string
		target  string // "public" if empty; the working folder is "yard"
		prepare func(t *testing.T, base string)
		want    string
	}{
		{name: "no name", target: "-", want: "the target has no name; name a folder with -to"},
		{name: "file", prepare: func(t *testing.T, base string) { put(t, "x", base, "public") },
			want: "public is a file and not a folder" + moveIt},
		{name: "below a file", target: "notes/public", prepare: func(t *testing.T, base string) { put(t, "x", base, "notes") },
			want: "notes/public lies below notes, which is a file" + other},
		{name: "far below a file", target: "notes/a/public", prepare: func(t *testing.T, base string) { put(t, "x", base, "notes") },
			want: "notes/a/public lies below notes, which is a file" + other},
		{name: "one stranger without list", prepare: func(t *testing.T, base string) { put(t, "x", base, "public", "taxes.ods") },
			want: "public holds taxes.ods, which this tool did not write (has no SHA256SUMS)" + moveIt},
		{name: "many strangers without list", prepare: func(t *testing.T, base string) {
			for _, name := range []string{"e", "d/x", "c", "b", "a"} {
				put(t, "x", base, "public", name)
			}
		}, want: "public holds a, b, c and 2 more, which this tool did not write (has no SHA256SUMS)" + moveThem},
		{name: "somebody else's list", prepare: func(t *testing.T, base string) {
			put(t, "x", base, "public", "disk.iso")
			put(t, fmt.Sprintf("%x  disk.iso\n", sha256.Sum256([]byte("x"))), base, "public", "SHA256SUMS")
		}, want: "public holds SHA256SUMS and disk.iso, which this tool did not write (its SHA256SUMS does not list tarepage.txt, so another program wrote it)" + moveThem},
		{name: "spoiled list", prepare: func(t *testing.T, base string) {
			site(t, base)
			put(t, "see the office\n", base, "public", "SHA256SUMS")
		}, want: "public holds SHA256SUMS, index.html, style.css and 2 more, which this tool did not write (line 1 of its SHA256SUMS is not 64 hexadecimal digits, two spaces and a path)" + moveThem},
		{name: "stranger", prepare: func(t *testing.T, base string) {
			site(t, base)
			put(t, "x", base, "public", "units", "sb-1", "notes.txt")
		}, want: "public holds units/sb-1/notes.txt, which this tool did not write" + moveIt},
		{name: "strangers", prepare: func(t *testing.T, base string) {
			site(t, base)
			put(t, "x", base, "public", "b.txt")
			put(t, "x", base, "public", "a", "deep", "a.txt")
		}, want: "public holds a/ and b.txt, which this tool did not write" + moveThem},
		{name: "empty folder", prepare: func(t *testing.T, base string) {
			site(t, base)
			mkdir(t, base, "public", "photos")
		}, want: "public holds photos/, which this tool did not write" + moveIt},
		{name: "folder in the place of a file", prepare: func(t *testing.T, base string) {
			site(t, base)
			if err := os.Remove(filepath.Join(base, "public", "style.css")); err != nil {
				t.Fatal(err)
			}
			mkdir(t, base, "public", "style.css")
		}, want: "public holds style.css/, which this tool did not write" + moveIt},
		{name: "link in the place of a folder", prepare: func(t *testing.T, base string) {
			site(t, base)
			mkdir(t, base, "elsewhere")
			if err := os.Rename(filepath.Join(base, "public", "units"), filepath.Join(base, "elsewhere", "units")); err != nil {
				t.Fatal(err)
			}
			link(t, "../elsewhere/units", filepath.Join(base, "public", "units"))
		}, want: "public holds units, which this tool did not write" + moveIt},
		{name: "link in the place of a file", prepare: func(t *testing.T, base string) {
			site(t, base)
			if err := os.Rename(filepath.Join(base, "public", "style.css"), filepath.Join(base, "mine.css")); err != nil {
				t.Fatal(err)
			}
			link(t, "../mine.css", filepath.Join(base, "public", "style.css"))
		}, want: "public holds style.css, which this tool did not write" + moveIt},
		{name: "link as list", prepare: func(t *testing.T, base string) {
			site(t, base)
			if err := os.Rename(filepath.Join(base, "public", "SHA256SUMS"), filepath.Join(base, "mine")); err != nil {
				t.Fatal(err)
			}
			link(t, "../mine", filepath.Join(base, "public", "SHA256SUMS"))
		}, want: "public holds SHA256SUMS, index.html, style.css and 2 more, which this tool did not write (has a SHA256SUMS that is not a plain file)" + moveThem},
		{name: "link to nothing", prepare: func(t *testing.T, base string) { link(t, "gone", filepath.Join(base, "public")) },
			want: "public is a link that leads nowhere" + moveIt},
		{name: "link to a file", prepare: func(t *testing.T, base string) {
			put(t, "x", base, "mine")
			link(t, "mine", filepath.Join(base, "public"))
		}, want: "public is a file and not a folder" + moveIt},
		{name: "working folder", target: ".", want: ". is the folder this command was started in" + other},
		{name: "above the working folder", target: "..", want: ".. holds the folder this command was started in" + other},
		{name: "link above the working folder", target: "up", prepare: func(t *testing.T, base string) { link(t, "..", filepath.Join(base, "up")) },
			want: "up holds the folder this command was started in" + other},
		{name: "source", target: "content", want: "content is content, which the yard keeps for itself" + other},
		{name: "above a source", target: "themes", want: "themes holds themes/default, which the yard keeps for itself" + other},
		{name: "inside a source", target: "content/units/public", want: "content/units/public lies inside content, which the yard keeps for itself" + other},
		{name: "lock that is a folder", prepare: func(t *testing.T, base string) { mkdir(t, base, ".public.lock") },
			want: "public cannot be locked, because .public.lock next to it is not a plain file; move .public.lock away"},
		{name: "two old sites", prepare: func(t *testing.T, base string) {
			for _, name := range []string{".public.old-2", ".public.old-1"} {
				site(t, base)
				if err := os.Rename(filepath.Join(base, "public"), filepath.Join(base, name)); err != nil {
					t.Fatal(err)
				}
				if name == ".public.old-2" { // hidden from the second build
					if err := os.Rename(filepath.Join(base, name), filepath.Join(base, "hidden")); err != nil {
						t.Fatal(err)
					}
				}
			}
			if err := os.Rename(filepath.Join(base, "hidden"), filepath.Join(base, ".public.old-2")); err != nil {
				t.Fatal(err)
			}
		}, want: "public is missing, and killed builds left more than one old site: .public.old-1 and .public.old-2; rename the right one to public and move the others away"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			base := mkdir(t, t.TempDir(), "yard")
			mkdir(t, base, "content", "units")
			mkdir(t, base, "themes", "default")
			if tt.prepare != nil {
				tt.prepare(t, base)
			}
			t.Chdir(base)
			target := tt.target
			switch target {
			case "":
				target = "public"
			case "-":
				target = ""
			}
			before := tree(t, base)
			check := Check(target, "content", "themes/default", "missing")
			_, swap := Swap(newer.site(t), target, "content", "themes/default", "missing")
			for _, err := range []error{check, swap} {
				if err == nil || err.Error() != tt.want {
					t.Errorf("got  %v\nwant %s", err, tt.want)
				}
				var r *Refusal
				if !errors.As(err, &r) {
					t.Errorf("%T is no *Refusal", err)
				}
			}
			if after := tree(t, base); before != after {
				t.Errorf("before\n%s\nafter\n%s", before, after)
			}
		})
	}
}

func link(t *testing.T, to, name string) {
	t.Helper()
	if err := os.Symlink(filepath.FromSlash(to), name); err != nil {
		if runtime.GOOS == "windows" {
			t.Skip("NOT CHECKED: links need a privilege on Windows")
		}
		t.Fatal(err)
	}
}

// tree is everything in a folder, with modes, sizes and times.
func tree(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	err := filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(dir, full)
		if e.IsDir() { // a lock that came and went is seen in the folder's time
			fmt.Fprintf(&b, "%s/ %v\n", rel, info.Mode())
			return nil
		}
		fmt.Fprintf(&b, "%s %v %d %v\n", rel, info.Mode(), info.Size(), info.ModTime())
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Targets that are fine, with the same working folder and sources as the refusals.
func TestCheckAccepts(t *testing.T) {
	tests := []struct {
		name, target string
		prepare      func(t *testing.T, base string)
	}{
		{"missing", "public", nil},
		{"far missing", "a/b/c", nil},
		{"empty", "public", func(t *testing.T, base string) { mkdir(t, base, "public") }},
		{"a site", "public", func(t *testing.T, base string) { mustSwap(t, newSwapper(), older, filepath.Join(base, "public")) }},
		{"next to the working folder", "../public", nil},
		{"inside the working folder's parent", "../other/public", nil},
		{"name starts like a source", "content2", nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			base := mkdir(t, t.TempDir(), "yard")
			mkdir(t, base, "content", "units")
			if tt.prepare != nil {
				tt.prepare(t, base)
			}
			t.Chdir(base)
			before := tree(t, filepath.Dir(base))
			if err := Check(tt.target, "content"); err != nil {
				t.Fatal(err)
			}
			if after := tree(t, filepath.Dir(base)); before != after {
				t.Errorf("Check left\n%s\nof\n%s", after, before)
			}
			if _, err := Swap(newer.site(t), tt.target, "content"); err != nil {
				t.Fatal(err)
			}
			wantSite(t, tt.target, newer)
		})
	}
}

// A target that is a link: the folder is replaced, the link stays.
func TestLinkedTarget(t *testing.T) {
	base := t.TempDir()
	real := mkdir(t, base, "web", "site")
	target := filepath.Join(mkdir(t, base, "yard"), "public")
	link(t, "../web/site", target)
	mustSwap(t, newSwapper(), older, target)
	mustSwap(t, newSwapper(), newer, target)
	wantSite(t, real, newer)
	wantAlone(t, filepath.Dir(real), "site")
	wantAlone(t, filepath.Dir(target), "public")
	if to, err := os.Readlink(target); err != nil || to != filepath.FromSlash("../web/site") {
		t.Errorf("the link leads to %q, %v", to, err)
	}
}

// A file that comes into the target while the build works is not lost.
func TestStrangerDuringBuild(t *testing.T) {
	const want = "public holds notes.txt, which this tool did not write; move it away or choose another folder with -to"
	for way := range ways {
		for _, moment := range []string{"make container", "exchange"} {
			t.Run(ways[way].name+" "+moment, func(t *testing.T) {
				t.Chdir(t.TempDir())
				mustSwap(t, swapperFor(way), older, "public")
				s := swapperFor(way)
				s.step = func(name string) error {
					if name == moment {
						put(t, "mine", "public", "notes.txt")
					}
					return nil
				}
				if _, err := s.swap(newer.site(t), "public", nil); err == nil || err.Error() != want {
					t.Errorf("got  %v\nwant %s", err, want)
				}
				wantAlone(t, ".", "public")
				if got, err := os.ReadFile("public/notes.txt"); err != nil || string(got) != "mine" {
					t.Fatalf("the file holds %q, %v", got, err)
				}
				if err := os.Remove("public/notes.txt"); err != nil {
					t.Fatal(err)
				}
				wantSite(t, "public", older)
			})
		}
	}
	t.Run("first", func(t *testing.T) {
		t.Chdir(t.TempDir())
		mkdir(t, "public")
		s := newSwapper()
		s.step = func(name string) error {
			if name == "rename" {
				put(t, "mine", "public", "notes.txt")
			}
			return nil
		}
		if _, err := s.swap(newer.site(t), "public", nil); err == nil || !strings.HasPrefix(err.Error(), "public is as it was, because it could not be swapped for the new site: ") {
			t.Errorf("got %v", err)
		}
		wantAlone(t, ".", "public")
		wantAlone(t, "public", "notes.txt")
	})
}

// Any single operation may fail. Whichever does, the target is the old site or the
// new one, and after an error that leaves the old one nothing else has changed.
func TestFailAtEveryStep(t *testing.T) {
	thorough.Only(t)
	full := errors.New("no space left on device")
	for way := range ways {
		for _, first := range []bool{true, false} {
			t.Run(fmt.Sprintf("%s first=%v", ways[way].name, first), func(t *testing.T) {
				n := 0
				for ; ; n++ {
					base := t.TempDir()
					target := filepath.Join(base, "folders", "that are", "made", "public")
					if !first {
						mustSwap(t, swapperFor(way), older, target)
					}
					before := tree(t, base)
					s := swapperFor(way)
					at, failed := 0, ""
					s.step = func(name string) error {
						at++
						if at-1 == n {
							failed = name
							return full
						}
						return nil
					}
					report, err := s.swap(newer.site(t), target, nil)
					if failed == "" {
						if err != nil {
							t.Fatal(err)
						}
						break
					}
					if !errors.Is(err, full) {
						// A link that fails is made up for by a copy, and so on.
						t.Fatalf("%s failed: the error is %v", failed, err)
					}
					switch _, statErr := os.Lstat(target); {
					case report == (Report{}):
						if after := tree(t, base); before != after {
							t.Fatalf("%s failed with %v: before\n%s\nafter\n%s", failed, err, before, after)
						}
					case statErr != nil:
						t.Fatal(statErr)
					default:
						if !strings.HasPrefix(err.Error(), "the new site is in "+target+", but the old one was not completely removed: ") {
							t.Fatalf("%s failed: the error is %v", failed, err)
						}
						wantSite(t, target, newer)
					}
					mustSwap(t, swapperFor(way), newer, target)
					wantSite(t, target, newer)
					wantAlone(t, filepath.Dir(target), "public")
				}
				if n < 10 {
					t.Errorf("only %d steps were tried", n)
				}
				t.Logf("%d steps", n)
			})
		}
	}
}

// What a killed build left is cleared up in steps, and any of them may fail. The site that there
// was is not touched by that, and the next build clears up the rest.
func TestFailWhileClearingUp(t *testing.T) {
	full := errors.New("no space left on device")
	for n := 0; ; n++ {
		base := t.TempDir()
		target := filepath.Join(base, "public")
		mustSwap(t, newSwapper(), older, target)
		mustSwap(t, newSwapper(), newer, filepath.Join(base, ".public.old-7"))
		s := newSwapper()
		at, failed := 0, ""
		s.step = func(name string) error {
			if at++; at == n+1 {
				failed = name
				return full
			}
			return nil
		}
		p, err := locate(target, nil)
		if err != nil {
			t.Fatal(err)
		}
		_, err = s.open(p)
		if failed == "" {
			if err != nil || n < 5 {
				t.Fatalf("%d steps were tried: %v", n, err)
			}
			wantAlone(t, base, "public")
			return
		}
		if !errors.Is(err, full) {
			t.Fatalf("%s failed: the error is %v", failed, err)
		}
		wantSite(t, target, older)
		if err := Check(target); err != nil {
			t.Fatalf("after %s failed: %v", failed, err)
		}
		wantAlone(t, base, "public")
		wantSite(t, target, older)
	}
}

// A target that goes away during the build is an error, and the new site does not take its place:
// whoever moved it wanted something.
func TestTargetGoesAway(t *testing.T) {
	t.Chdir(t.TempDir())
	for way := range ways {
		mustSwap(t, newSwapper(), older, "public")
		s := swapperFor(way)
		s.step = func(name string) error {
			if name == "exchange" {
				return os.Rename("public", "elsewhere")
			}
			return nil
		}
		report, err := s.swap(newer.site(t), "public", nil)
		if !errors.Is(err, fs.ErrNotExist) || report != (Report{}) {
			t.Errorf("%s: %+v, %v", ways[way].name, report, err)
		}
		wantAlone(t, ".", "elsewhere")
		wantSite(t, "elsewhere", older)
		if err := os.RemoveAll("elsewhere"); err != nil {
			t.Fatal(err)
		}
	}
}

// A build must not write over what it reads, whether that is there yet or not, and by whatever
// name it is reached.
func TestTargetIsASource(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, there := range []bool{false, true} {
		if there {
			mkdir(t, "photos")
		}
		p, err := locate("photos", nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, source := range []string{"photos", filepath.Join(dir, "photos"), filepath.Join("photos", "..", "photos")} {
			if err := p.apartFrom([]string{source}); err == nil || !strings.Contains(err.Error(), "is "+source+", which the yard keeps for itself") {
				t.Errorf("there: %v, source %s: %v", there, source, err)
			}
		}
		if err := p.apartFrom([]string{"words"}); err != nil {
			t.Error(err)
		}
	}
	if runtime.GOOS == "windows" {
		return
	}
	link(t, "photos", "pictures")
	p, err := locate("photos", nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.apartFrom([]string{"pictures"}); err == nil || !strings.Contains(err.Error(), "is pictures, which the yard keeps for itself") {
		t.Errorf("through a link: %v", err)
	}
}

// Where the way back fails too, the error says where the old site is, and the next
// build puts it back. The new site is not thrown away: there is no other.
func TestStuck(t *testing.T) {
	t.Chdir(t.TempDir())
	mustSwap(t, newSwapper(), older, "public")
	s := swapperFor(1)
	s.step = func(name string) error {
		if name == "rename staged" {
			// Something takes the name: neither site can have it.
			put(t, "x", "public")
		}
		return nil
	}
	_, err := s.swap(newer.site(t), "public", nil)
	if err == nil || !strings.HasPrefix(err.Error(), "public is missing (") || !strings.Contains(err.Error(), ".public.old-") || !strings.HasSuffix(err.Error(), " and the next build puts it back") {
		t.Fatalf("got %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(".public.staging-*", siteName, "index.html")); len(left) != 1 {
		t.Errorf("the new site is in %q", left)
	}
	if err := os.Remove("public"); err != nil {
		t.Fatal(err)
	}
	if err := Check("public"); err != nil {
		t.Fatal(err)
	}
	wantSite(t, "public", older)
	wantAlone(t, ".", "public")
}

// The same with the exchange: a file comes in, and there is no way back. It stays,
// and the next build refuses to remove it.
func TestStuckExchange(t *testing.T) {
	t.Chdir(t.TempDir())
	mustSwap(t, newSwapper(), older, "public")
	s := newSwapper()
	if s.exchange("public", "public") == errNoExchange {
		t.Skip("NOT CHECKED: this system or file system cannot exchange two folders")
	}
	done := 0
	s.exchange = func(a, b string) error {
		if done++; done > 1 {
			return errors.New("input/output error")
		}
		put(t, "mine", "public", "notes.txt")
		return exchange(a, b)
	}
	_, err := s.swap(newer.site(t), "public", nil)
	const want = "public holds notes.txt, which this tool did not write; move it away or choose another folder with -to; the new site is in public, the old one in "
	if err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Fatalf("got %v, want %s", err, want)
	}
	wantSite(t, "public", newer)
	where := strings.TrimPrefix(err.Error(), want)
	for range 2 {
		_, err := Swap(older.site(t), "public")
		want := where + ", which a killed build left, holds notes.txt, which this tool did not write; move it away or choose another folder with -to"
		if err == nil || err.Error() != want {
			t.Fatalf("got %v\nwant %s", err, want)
		}
	}
	if err := os.Rename(filepath.Join(where, "notes.txt"), "notes.txt"); err != nil {
		t.Fatal(err)
	}
	mustSwap(t, newSwapper(), older, "public")
	wantSite(t, "public", older)
	wantAlone(t, ".", "notes.txt", "public")
}

// A leftover is known by more than its name: somebody's own folders stay.
func TestRecoverLeavesOthersAlone(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "x", ".public.staging-123", "mine.txt")
	put(t, "x", ".public.staging-old", "tarepage-staging")
	put(t, "x", ".public.old-123", "mine.txt")
	put(t, "x", ".public.old-1", "SHA256SUMS")
	put(t, "x", ".public.staging-7")
	put(t, "mine", ".public.lock")
	before := tree(t, ".")
	if err := Check("public"); err != nil {
		t.Fatal(err)
	}
	if after := tree(t, "."); before != after {
		t.Errorf("before\n%s\nafter\n%s", before, after)
	}
	mustSwap(t, newSwapper(), older, "public")
	mustSwap(t, newSwapper(), newer, "public")
	wantSite(t, "public", newer)
	if err := os.RemoveAll("public"); err != nil {
		t.Fatal(err)
	}
	if after := tree(t, "."); before != after {
		t.Errorf("before\n%s\nafter\n%s", before, after)
	}
}

// A build under way is not cleaned up, and the second waits for it or gives up.
func TestSecondBuildWaits(t *testing.T) {
	t.Chdir(t.TempDir())
	mustSwap(t, newSwapper(), older, "public")
	for _, moment := range []string{"make folder", "write file", "link", "exchange", "remove site"} {
		reached, goOn := make(chan bool), make(chan bool)
		var once sync.Once
		slow := newSwapper()
		slow.step = func(name string) error {
			if name == moment {
				once.Do(func() { close(reached); <-goOn })
			}
			return nil
		}
		slowSite := pages{"index.html": moment, "style.css": "body{}"}
		done := make(chan error)
		go func() {
			_, err := slow.swap(slowSite.site(t), "public", nil)
			done <- err
		}()
		<-reached
		impatient := newSwapper()
		impatient.patience = 0
		const want = "public is being written by another build; let that build finish, then build again"
		if _, err := impatient.swap(newer.site(t), "public", nil); err == nil || err.Error() != want {
			t.Errorf("%s: got %v, want %s", moment, err, want)
		}
		go func() {
			_, err := newSwapper().swap(newer.site(t), "public", nil)
			done <- err
		}()
		close(goOn)
		for range 2 {
			if err := <-done; err != nil {
				t.Errorf("%s: %v", moment, err)
			}
		}
		wantSite(t, "public", newer)
		wantAlone(t, ".", "public")
	}
}

func TestManyBuildsAtOnce(t *testing.T) {
	t.Chdir(t.TempDir())
	sites := []pages{older, newer, {"index.html": "third"}, {"units/x/index.html": "fourth"}}
	var wg sync.WaitGroup
	for i, w := range sites {
		wg.Go(func() {
			for range 10 {
				if _, err := swapperFor(i%2).swap(w.site(t), "public", nil); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	wantSite(t, "public", sites...)
	wantAlone(t, ".", "public")
}

// With the exchange there is no moment without a target.
func TestReaderSeesNoGap(t *testing.T) {
	thorough.Only(t)
	base := t.TempDir()
	a, b := mkdir(t, base, "a"), mkdir(t, base, "b")
	if err := exchange(a, b); errors.Is(err, errNoExchange) {
		t.Skip("NOT CHECKED: this system or file system cannot exchange two folders")
	} else if err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(base, "public")
	mustSwap(t, newSwapper(), older, target)

	stop := make(chan bool)
	reads, again := 0, 0
	var wg sync.WaitGroup
	wg.Go(func() {
		// A reader that has found the old folder may lose it before it has found the
		// file in it; any reader of any server may. The second try finds the new one.
		file := func(name string) string {
			data, err := os.ReadFile(filepath.Join(target, name))
			for range 3 {
				if err == nil {
					break
				}
				again++
				data, err = os.ReadFile(filepath.Join(target, name))
			}
			if err != nil {
				t.Error(err)
			}
			return string(data)
		}
		for {
			select {
			case <-stop:
				return
			default:
			}
			if _, err := os.Stat(target); err != nil {
				t.Errorf("no target: %v", err)
				return
			}
			if index := file("index.html"); index != older["index.html"] && index != newer["index.html"] {
				t.Errorf("index.html holds %q", index)
			}
			if list := file("SHA256SUMS"); strings.Count(list, "\n") != 5 {
				t.Errorf("SHA256SUMS holds %q", list)
			}
			reads++
		}
	})
	for i := range 100 {
		mustSwap(t, newSwapper(), []pages{newer, older}[i%2], target)
	}
	close(stop)
	wg.Wait()
	if reads < 100 {
		t.Errorf("only %d reads in 100 builds", reads)
	}
	t.Logf("%d reads during 100 builds, %d tried again", reads, again)
}

func BenchmarkSwap(b *testing.B) {
	const files = 10_000
	body := strings.Repeat("a page of a trailer that adds up. ", 600) // 20 kB
	build := func(b *testing.B, mark string, changed int) *Site {
		s := new(Site)
		for i := range files {
			text := body
			if i < changed {
				text += mark
			}
			if err := s.Add(fmt.Sprintf("units/sb-%05d/index.html", i), []byte(text)); err != nil {
				b.Fatal(err)
			}
		}
		return s
	}
	for _, bench := range []struct {
		name    string
		changed int
	}{{"unchanged", 0}, {"one changed", 1}, {"all changed", files}} {
		b.Run(bench.name, func(b *testing.B) {
			target := filepath.Join(b.TempDir(), "public")
			sites := []*Site{build(b, "a", bench.changed), build(b, "b", bench.changed)}
			if _, err := Swap(sites[1], target); err != nil {
				b.Fatal(err)
			}
			n := 0
			for b.Loop() {
				r, err := Swap(sites[n%2], target)
				if err != nil {
					b.Fatal(err)
				}
				if r.Written != bench.changed {
					b.Fatalf("%+v, want %d written", r, bench.changed)
				}
				n++
			}
			b.ReportMetric(float64(files)*float64(n)/b.Elapsed().Seconds(), "files/s")
		})
	}
}
