package site

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"tarepage/internal/packed"
	"tarepage/internal/publish"
	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// filesOf are the files below a folder, by their paths.
func filesOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	root := os.DirFS(dir)
	err := fs.WalkDir(root, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(root, name)
		out[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// repack is a note as it would be left, with what was changed in it.
func repack(t *testing.T, n *note) (text, more []byte) {
	t.Helper()
	var parts []*contribution
	for _, file := range slices.Sorted(maps.Keys(n.units)) {
		parts = append(parts, &contribution{packed: n.units[file], read: &unit.Kept{Unit: &unit.Unit{File: file}}})
	}
	n.open()
	n.Units, n.Made = nil, slices.Collect(maps.Values(n.made))
	text, more, err := n.pack(parts)
	if err != nil {
		t.Fatal(err)
	}
	return text, more
}

// TestForgedNote: whatever a note says, the site is that of a first build. Each note holds
// together, as if a build had left it.
func TestForgedNote(t *testing.T) {
	thorough.Only(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir := t.TempDir()
	if err := testyard.Write(dir, 6); err != nil {
		t.Fatal(err)
	}
	o := Options{From: dir, To: filepath.Join(dir, "public")}
	built(t, o)
	good := publish.Recall(o.To)
	more := string(publish.RecallMore(o.To, good))
	fresh := Options{From: dir, To: filepath.Join(dir, "fresh")}
	first := built(t, fresh)
	want := filesOf(t, fresh.To)
	one, other := testyard.UnitFile(1), testyard.UnitFile(4)
	part := func(n *note, change func(*keptUnit)) {
		k := new(keptUnit)
		err := packed.Read(n.units[one], k)
		if err == nil {
			change(k)
			var text []byte
			text, err = packed.Append(nil, k)
			n.units[one] = string(text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for name, forge := range map[string]func(*note){
		"nothing":             func(*note) {},
		"nothing more":        func(*note) {},
		"another program":     func(n *note) { n.program[0]++ },
		"another look":        func(n *note) { n.Basis[0]++ },
		"another content":     func(n *note) { n.Read[0]++ },
		"another site":        func(n *note) { n.List[0]++ },
		"no units":            func(n *note) { n.units = nil },
		"no pages":            func(n *note) { n.made = nil },
		"the units of others": func(n *note) { n.units[one], n.units[other] = n.units[other], n.units[one] },
		"a unit that is cut":  func(n *note) { n.units[one] = n.units[one][:len(n.units[one])/2] },
		"a unit of other bytes": func(n *note) {
			part(n, func(k *keptUnit) { k.Read.Young, k.Read.Unit.Sum[0] = true, 9; k.Read.Unit.Title.Value = "no" })
		},
		"a unit of another model": func(n *note) {
			part(n, func(k *keptUnit) { k.Read.Model[0]++; k.Read.Unit.Title.Value = "no" })
		},
		"a unit of other times": func(n *note) {
			part(n, func(k *keptUnit) { k.Read.Stamp.Touched, k.Read.Unit.Sum[0] = 1, 9; k.Read.Unit.Title.Value = "no" })
		},
		"other settings":            func(n *note) { part(n, func(k *keptUnit) { k.Of[0]++; k.Work.Payload.Value = 1 }) },
		"an unknown rule":           func(n *note) { part(n, func(k *keptUnit) { k.Found = []keptFinding{{Rule: "no-such-rule"}} }) },
		"no offers":                 func(n *note) { n.Offers, n.OffersOf = nil, [32]byte{} },
		"offers of another site":    func(n *note) { n.Offers, n.OffersOf = n.Offers[:1], [32]byte{} },
		"no words":                  func(n *note) { n.Lexicon.Words = nil },
		"words of other units":      func(n *note) { n.Lexicon.Units[1].Of[0]++; n.Lexicon.Units[1].In[0] = "" },
		"words that are cut":        func(n *note) { n.Lexicon.Units[1].In[2] = "\xff" },
		"words without a unit":      func(n *note) { n.Lexicon.Units[1].File = "content/units/no.md" },
		"a page of a list":          func(n *note) { p := n.made["list.html"]; p.Of[0]++; n.made["list.html"] = p },
		"no lines":                  func(n *note) { n.Lines = nil },
		"the lines of another unit": func(n *note) { n.Lines[1].At = n.Lines[4].At },
		"lines outside the files":   func(n *note) { n.Lines[1].At[0].At, n.Lines[2].At[1].Bytes, n.Lines[3].At[2].At = 1<<60, 1<<60, -1 },
		"lines of other units":      func(n *note) { n.Lines[1].Of[0]++ },
		"pages with digests of others": func(n *note) {
			p := n.made[testyard.Page(1)]
			p.Sum = n.made[testyard.Page(4)].Sum
			n.made[testyard.Page(1)] = p
		},
	} {
		for _, changed := range []bool{false, true} {
			n := readNote(string(good), func() string { return more })
			if n != nil {
				n.open()
			}
			if n == nil || len(n.units) != 6 || len(n.made) != 29 { // four pages of each unit, those of four kinds, and the plain list
				t.Fatalf("%s: the build before left %+v", name, n)
			}
			forge(n)
			if changed {
				n.List[0]++ // so that it looks at the units and the pages
			}
			text, rest := repack(t, n)
			if name == "nothing more" {
				rest = nil
			}
			if err := publish.Remember(o.To, text, rest, nil); err != nil {
				t.Fatal(err)
			}
			r := built(t, o)
			if !maps.Equal(filesOf(t, o.To), want) || len(r.Findings) != len(first.Findings) {
				t.Errorf("with a note of %s, the site is not that of a first build", name)
			}
		}
	}
}

// TestReread: a build that is told to read everything again makes everything again, writes nothing
// that is as it was, and knows what the build before found.
func TestReread(t *testing.T) {
	thorough.Only(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir := t.TempDir()
	if err := testyard.Write(dir, 2); err != nil {
		t.Fatal(err)
	}
	o := Options{From: dir, To: filepath.Join(dir, "public")}
	built(t, o)
	o.Reread = true
	r := built(t, o)
	if r.Yard == nil || r.Files.Written != 0 || r.Files.Removed != 0 || r.Files.Unchanged == 0 || !r.Before || len(r.Fresh) != 0 {
		t.Errorf("%+v", r)
	}
	// A page was damaged.
	page := filepath.Join(o.To, filepath.FromSlash(testyard.Page(1)))
	if err := os.WriteFile(page, []byte("lost"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r := built(t, o); r.Files.Written != 1 {
		t.Errorf("%d files were written again, want the damaged one: %+v", r.Files.Written, r.Files)
	}
}
