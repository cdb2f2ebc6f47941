package publish

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// published is a target with a site that settled, and what the build knows about it.
func published(t *testing.T) (target string, g *Staging) {
	t.Helper()
	target = filepath.Join(t.TempDir(), "public")
	g, err := Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	for path, text := range older {
		if err := g.Add(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := g.Finish(); err != nil {
		t.Fatal(err)
	}
	// Two ticks of the slowest clock that is a fine one (package filestamp).
	time.Sleep(70 * time.Millisecond)
	return target, g
}

// believed are the files whose bytes are known without reading them.
func believed(t *testing.T, target string) map[string]bool {
	t.Helper()
	p, err := locate(target, nil)
	if err != nil {
		t.Fatal(err)
	}
	h, err := p.survey(target)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for path := range h.files {
		if digest, ok := h.known(path); ok {
			got, err := digestOf(filepath.Join(target, filepath.FromSlash(path)))
			if err != nil || sum(got) != digest {
				t.Errorf("%s is believed to have the digest %x and has %x (%v)", path, digest, got, err)
			}
			out[path] = true
		}
	}
	return out
}

// fine skips where a file is never known by its times.
func fine(t *testing.T, target string, g *Staging) {
	t.Helper()
	if err := Remember(target, []byte("note"), nil, g.Written()); err != nil {
		t.Fatal(err)
	}
	if len(believed(t, target)) == 0 {
		t.Skip("NOT CHECKED: the times of files are too coarse here, or the system does not tell when they were touched")
	}
}

// TestUntouchedFilesAreKnown: after a build its files are known by their size and times, and
// what was done to one of them makes that one unknown.
func TestUntouchedFilesAreKnown(t *testing.T) {
	target, g := published(t)
	fine(t, target, g)
	if got := believed(t, target); len(got) != len(older)+1 { // tarepage.txt too
		t.Errorf("%v are known, want %d files", got, len(older)+1)
	}
	if note := Recall(target); string(note) != "note" {
		t.Errorf("recalled %q", note)
	}
	page := filepath.Join(target, "index.html")
	info, err := os.Lstat(page)
	if err != nil {
		t.Fatal(err)
	}
	// Other bytes of the same size, with the time set back.
	if err := os.WriteFile(page, []byte("old yarD"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(page, info.ModTime(), info.ModTime()); err != nil {
		t.Fatal(err)
	}
	if got := believed(t, target); got["index.html"] || len(got) != len(older) {
		t.Errorf("after a change %v are known", got)
	}
	if _, ok, err := Intact(target, g.List()); ok || err != nil {
		t.Errorf("the site is intact with a page that was changed (%v)", err)
	}
	again, err := Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	if kept, err := again.Keep("index.html", Sum(again.old.listed["index.html"])); kept || err != nil {
		t.Errorf("the changed page is kept (%v)", err)
	}
	for path := range older {
		if path == "index.html" {
			continue
		}
		if kept, err := again.Keep(path, Sum(again.old.listed[path])); !kept || err != nil {
			t.Errorf("%s is not kept (%v)", path, err)
		}
	}
	again.Doubt()
	for path := range older {
		if _, ok := again.old.known(path); ok {
			t.Errorf("%s is known in spite of doubt", path)
		}
	}
	if err := again.Abandon(); err != nil {
		t.Fatal(err)
	}
}

// TestRecallMore: more comes back with the note that it was left with, whole or not at all, and what
// happened to it does not touch the note.
func TestRecallMore(t *testing.T) {
	target, _ := published(t)
	leave := func(note, more string) {
		t.Helper()
		if err := Remember(target, []byte(note), []byte(more), nil); err != nil {
			t.Fatal(err)
		}
	}
	leave("note", "more")
	if note, more := Recall(target), RecallMore(target, []byte("note")); string(note) != "note" || string(more) != "more" {
		t.Fatalf("recalled %q and %q", note, more)
	}
	if more := RecallMore(target, []byte("other")); more != nil {
		t.Errorf("%q comes with another note", more)
	}
	kept := filepath.Join(filepath.Dir(target), ".public.kept")
	whole, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"cut off": whole[:len(whole)-1], "damaged": append(whole[:len(whole)-1:len(whole)-1], 'E'), "too long": append(whole[:len(whole):len(whole)], 'e'),
	} {
		if err := os.WriteFile(kept, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if note, more := Recall(target), RecallMore(target, []byte("note")); string(note) != "note" || more != nil {
			t.Errorf("%s: recalled %q and %q", name, note, more)
		}
	}
	for cut := range len(whole) - len("more") {
		if err := os.WriteFile(kept, whole[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		if note := Recall(target); note != nil {
			t.Fatalf("of a note of %d bytes, %d are recalled as %q", len(whole), cut, note)
		}
	}
	if RecallMore("", nil) != nil || RecallMore(filepath.Join(target, "none"), nil) != nil {
		t.Error("more is recalled where nothing was left")
	}
}

// TestChangedBeforeTheNote: what somebody changed after the build and before its note is not
// taken for what the build wrote, and what was touched at the last moment is not known.
func TestChangedBeforeTheNote(t *testing.T) {
	target, g := published(t)
	fine(t, target, g)
	page := filepath.Join(target, "index.html")
	if err := os.WriteFile(page, []byte("old yarD"), 0o644); err != nil {
		t.Fatal(err)
	}
	time.Sleep(70 * time.Millisecond)
	young := filepath.Join(target, "units", "sb-2", "index.html")
	if err := os.Chmod(young, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(young, fileMode); err != nil {
		t.Fatal(err)
	}
	if err := Remember(target, []byte("note"), nil, g.Written()); err != nil {
		t.Fatal(err)
	}
	if got := believed(t, target); got["index.html"] || got["units/sb-2/index.html"] || len(got) != len(older)-1 {
		t.Errorf("%v are known", got)
	}
	if err := Remember(target, []byte("note"), nil, nil); err != nil {
		t.Fatal(err)
	}
	if got := believed(t, target); len(got) != 0 {
		t.Errorf("without a word of the build %v are known", got)
	}
}

// TestStampsOfAnotherList: stamps count only next to the list that they were left with.
func TestStampsOfAnotherList(t *testing.T) {
	target, g := published(t)
	fine(t, target, g)
	list := filepath.Join(target, listName)
	text, err := os.ReadFile(list)
	if err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(text, []byte("\n"))
	lines[0], lines[1] = lines[1], lines[0]
	for what, changed := range map[string][]byte{"in another order": bytes.Join(lines, nil), "cut off": text[:len(text)-7]} {
		if err := os.WriteFile(list, changed, 0o644); err != nil {
			t.Fatal(err)
		}
		if got := believed(t, target); len(got) != 0 {
			t.Errorf("with a list %s, %v are known", what, got)
		}
	}
}
