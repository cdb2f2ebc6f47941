package main

import (
	"bytes"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
)

// filesBelow reads every file of a folder, by its path.
func filesBelow(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		out[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// built runs the build and returns what it printed.
func built(t *testing.T, want int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	if got := run(args, &out, &errs); got != want {
		t.Fatalf("%v: status %d, want %d\n%s\n%.3000s", args, got, want, out.String(), errs.String())
	}
	return out.String(), errs.String()
}

// counts is how much a build found, and of which rules: the first two lines of its summary
// without the time that it took.
func counts(summary string) string {
	lines := strings.SplitN(summary, "\n", 3)
	if len(lines) < 3 {
		return summary
	}
	found, _, _ := strings.Cut(lines[0], ", in ")
	return found + "\n" + lines[1]
}

func swapText(t *testing.T, file, old, new string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), old) {
		t.Fatalf("%s holds no %q", file, old)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(data), old, new, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
}

// line is the first line of a file with that beginning.
func line(t *testing.T, file, start string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for l := range strings.Lines(string(data)) {
		if strings.HasPrefix(l, start) {
			return strings.TrimSuffix(l, "\n")
		}
	}
	t.Fatalf("%s has no line %q", file, start)
	return ""
}

// TestKeptBuildIsAFirstBuild: a build that keeps what did not change gives the same bytes,
// findings and list as a first build, whichever file was changed or damaged.
func TestKeptBuildIsAFirstBuild(t *testing.T) {
	thorough.Only(t)
	dir := t.TempDir()
	t.Setenv("XDG_CACHE_HOME", t.TempDir()) // where photos are kept
	const n = 6
	if err := testyard.Write(dir, n); err != nil {
		t.Fatal(err)
	}
	unit := func(i int) string { return filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i))) }
	photo := func(from string) {
		data, err := os.ReadFile("../../content/media/" + from)
		if err == nil {
			err = os.MkdirAll(filepath.Join(dir, "content/media"), 0o755)
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, "content/media/side.jpg"), data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	target, note := filepath.Join(dir, "public"), filepath.Join(dir, ".public.kept")
	args := []string{"-from", dir, "-to", target}
	spoil := func(file string, at int) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		data[at%len(data)] ^= 1
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var content, first map[string]string // what was read, and the site of a first build
	var want string                      // what a first build says
	for _, step := range []struct {
		name string
		do   func()
	}{
		{"first", func() {}},
		{"nothing", func() {}},
		{"a unit's price", func() { swapText(t, unit(3), line(t, unit(3), "price: "), "price: $9,999 (since 2026-11-18)") }},
		{"a unit's title", func() { swapText(t, unit(5), line(t, unit(5), "title: "), "title: another one") }},
		// With its day: a first build has no site to read the day of a change from.
		{"sold", func() {
			swapText(t, unit(0), line(t, unit(0), "availability: "), "availability: sold (since 2026-11-18)")
		}},
		{"what is nearest to the sold one", func() {
			for i := 1; i < n; i++ {
				swapText(t, unit(i), line(t, unit(i), "title: "), "title: renamed")
			}
		}},
		{"a model", func() {
			swapText(t, filepath.Join(dir, "content/models/stave-20.md"), "make: Stave & Hoop", "make: Hoop & Stave")
		}},
		{"the yard's telephone", func() { swapText(t, filepath.Join(dir, "content/yard.md"), "555-0177", "555-0178") }},
		{"the site's address", func() {
			swapText(t, filepath.Join(dir, "content/yard.md"), "as-of:", "address: https://yard.example/\nas-of:")
		}},
		{"the day", func() { swapText(t, filepath.Join(dir, "content/yard.md"), "as-of: 2026-11-20", "as-of: 2026-11-21") }},
		{"a unit comes", func() {
			if err := os.WriteFile(unit(n), testyard.Unit(n), 0o644); err != nil {
				t.Fatal(err)
			}
		}},
		{"a unit goes", func() {
			if err := os.Remove(unit(2)); err != nil {
				t.Fatal(err)
			}
		}},
		{"a photo", func() {
			photo("sb-1043-side.jpg")
			swapText(t, unit(1), "\n---\n\n", "\nphotos:\n  - file: media/side.jpg\n    alt: from the side\n---\n\n")
		}},
		{"another photo under its name", func() { photo("sb-1031-side.jpg") }},
		{"a file that is not a unit", func() {
			if err := os.WriteFile(filepath.Join(dir, "content/units/call.txt"), []byte("x"), 0o644); err != nil {
				t.Fatal(err)
			}
		}},
		{"a page is damaged", func() { spoil(filepath.Join(target, testyard.Page(4)), 900) }},
		{"a page is gone", func() {
			if err := os.Remove(filepath.Join(target, testyard.Page(1))); err != nil {
				t.Fatal(err)
			}
		}},
		{"the cards of shared links are gone", func() {
			cards, err := filepath.Glob(filepath.Join(target, "s", "card-*.jpg"))
			if err != nil || len(cards) != n {
				t.Fatalf("%v, %v", cards, err)
			}
			for _, c := range cards {
				if err := os.Remove(c); err != nil {
					t.Fatal(err)
				}
			}
			swapText(t, unit(4), "title: renamed", "title: renamed again")
		}},
		{"the note is damaged", func() { spoil(note, 700) }},
		{"the note is cut off", func() {
			if err := os.Truncate(note, 300); err != nil {
				t.Fatal(err)
			}
		}},
		{"the note is empty", func() {
			if err := os.WriteFile(note, nil, 0o644); err != nil {
				t.Fatal(err)
			}
		}},
	} {
		step.do()
		out, _ := built(t, clean, args...)
		said := counts(out)
		// If only the old site or its note was damaged, the first build would be the same again.
		if now := filesBelow(t, filepath.Join(dir, "content")); !maps.Equal(now, content) {
			fresh := filepath.Join(t.TempDir(), "public")
			out, _ := built(t, clean, "-from", dir, "-to", fresh)
			want = counts(out)
			content, first = now, filesBelow(t, fresh)
		}
		if said != want {
			t.Errorf("%s: it says\n%.2000s\nwant\n%.2000s", step.name, said, want)
		}
		got := filesBelow(t, target)
		for _, path := range slices.Sorted(maps.Keys(first)) {
			if got[path] != first[path] {
				t.Errorf("%s: %s differs from a first build's", step.name, path)
			}
		}
		if len(got) != len(first) {
			t.Errorf("%s: %d files, a first build has %d", step.name, len(got), len(first))
		}
		if t.Failed() {
			t.FailNow()
		}
	}
}

// TestNothingChangedMakesNothing: after no change neither the site nor the note is written
// again, and the summary and the findings are those of the build before.
func TestNothingChangedMakesNothing(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 4); err != nil {
		t.Fatal(err)
	}
	target, note := filepath.Join(dir, "public"), filepath.Join(dir, ".public.kept")
	first, _ := built(t, clean, "-from", dir, "-to", target)
	found := counts(first)
	before, err := os.Stat(note)
	if err != nil {
		t.Fatal(err)
	}
	out, news := built(t, clean, "-from", dir, "-to", target)
	if news != "" {
		t.Errorf("nothing changed, and it prints\n%.500s", news)
	}
	again := counts(out)
	if !strings.Contains(out, "nothing changed") || again != found || found == "" {
		t.Errorf("the second build says %q and\n%.500s\nthe first said\n%.500s", out, again, found)
	}
	if _, quiet := built(t, clean, "-from", dir, "-to", target, "-quiet"); quiet != "" {
		t.Errorf("-quiet says %q", quiet)
	}
	after, err := os.Stat(note)
	if err != nil || !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
		t.Errorf("the note was written again (%v)", err)
	}
	// A file that somebody put among the pages is still refused.
	if err := os.WriteFile(filepath.Join(target, "mine.txt"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, says := built(t, failed, "-from", dir, "-to", target); !strings.Contains(says, "mine.txt") {
		t.Errorf("it says %q", says)
	}
}

// TestLeaveOutKeepsNoOldPage: with -leave-out no old page of a unit with a stop remains,
// whatever is kept, and the unit has its page again once the stop is fixed.
func TestLeaveOutKeepsNoOldPage(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 4); err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(dir, "public")
	built(t, clean, "-from", dir, "-to", target)
	file := filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(1)))
	good := line(t, file, "  gvwr: ")
	swapText(t, file, good, "  gvwr: 29,000 lb (tag)")
	for _, since := range []string{"1 new: ", "1 as before: "} {
		out, _ := built(t, stops, "-from", dir, "-to", target, "-leave-out")
		if !strings.Contains(out, "left out for their stops: "+since+testyard.Stock(1)) {
			t.Errorf("it says %q", out)
		}
		for path, text := range filesBelow(t, target) {
			if strings.Contains(strings.ToLower(path), "pv-00001") || strings.HasSuffix(path, ".html") && strings.Contains(text, testyard.Stock(1)) {
				t.Errorf("%s still shows %s", path, testyard.Stock(1))
			}
		}
	}
	// Without the flag nothing is published, and the old site stays as it was.
	before := filesBelow(t, target)
	built(t, stops, "-from", dir, "-to", target)
	if !maps.Equal(before, filesBelow(t, target)) {
		t.Error("a refused build changed the site")
	}
	swapText(t, file, "  gvwr: 29,000 lb (tag)", good)
	built(t, clean, "-from", dir, "-to", target, "-leave-out")
	if _, ok := filesBelow(t, target)[testyard.Page(1)]; !ok {
		t.Error("the fixed unit has no page")
	}
}
