package publish

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"tarepage/internal/seal"
)

// TestLock: one build at a time has the lock; a link or a folder in its place is not one, and the
// lock file goes with the build that made it.
func TestLock(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "lock")
	release, err := tryLock(path)
	if err != nil || release == nil {
		t.Fatal(err)
	}
	if again, err := tryLock(path); again != nil || err != nil {
		t.Errorf("a second build has the lock: %v", err)
	}
	release()
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the lock file is left: %v", err)
	}
	put(t, "somebody's words", dir, "lock")
	if release, err = tryLock(path); err != nil || release == nil {
		t.Fatal(err)
	}
	release()
	if data, err := os.ReadFile(path); err != nil || string(data) != "somebody's words" {
		t.Errorf("a file with something in it: %q, %v", data, err)
	}
	if release, err := tryLock(filepath.Join(dir, "missing", "lock")); release != nil || err == nil {
		t.Error("a lock in a folder that is not there")
	}
	if release, err := tryLock(dir); release != nil || err == nil {
		t.Error("a folder was locked")
	}
	if runtime.GOOS != "windows" {
		link(t, path, filepath.Join(dir, "link"))
		if release, err := tryLock(filepath.Join(dir, "link")); release != nil || err == nil {
			t.Error("a link was locked")
		}
	}
}

// TestBusy tells that another build writes the target, and takes no lock away from it.
func TestBusy(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "public")
	if Busy(target) || Busy(filepath.Join(dir, "a", "b")) || Busy("") {
		t.Error("a target that nobody writes is busy")
	}
	g, err := Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	for range 2 { // asking does not free it
		if !Busy(target) {
			t.Error("a target that is being written is not busy")
		}
	}
	if err := g.Abandon(); err != nil {
		t.Fatal(err)
	}
	wantAlone(t, dir)
	put(t, "", dir, ".public.lock") // what a killed build left
	for range 2 {                   // asking does not take it
		if Busy(target) {
			t.Error("a lock that nobody holds makes the target busy, or was not given back")
		}
	}
	if err := os.RemoveAll(filepath.Join(dir, ".public.lock")); err != nil {
		t.Fatal(err)
	}
	mkdir(t, dir, ".public.lock")
	if Busy(target) {
		t.Error("a folder in the lock's place makes the target busy")
	}
	s := newSwapper()
	s.patience = 0
	if _, err := s.swap(older.site(t), target, nil); err == nil || !strings.Contains(err.Error(), "is not a plain file") {
		t.Errorf("%v", err)
	}
}

// TestRememberRefuses: a note is left next to a whole site only, and what cannot be written leaves
// nothing half done.
func TestRememberRefuses(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "public")
	if err := Remember(target, []byte("note"), nil, nil); err == nil {
		t.Error("a note next to nothing")
	}
	mustSwap(t, newSwapper(), older, target)
	put(t, "x", mkdir(t, dir, ".public.kept.part"), "file") // a folder that is not empty
	if err := Remember(target, []byte("note"), nil, nil); err == nil {
		t.Error("a note through a folder")
	}
	if err := os.RemoveAll(filepath.Join(dir, ".public.kept.part")); err != nil {
		t.Fatal(err)
	}
	put(t, "x", mkdir(t, dir, ".public.kept"), "file")
	if err := Remember(target, []byte("note"), nil, nil); err == nil {
		t.Error("a note over a folder")
	}
	wantAlone(t, dir, ".public.kept", "public")
	if Recall(target) != nil || Recall("") != nil {
		t.Error("a folder was recalled")
	}
	if err := os.RemoveAll(filepath.Join(dir, ".public.kept")); err != nil {
		t.Fatal(err)
	}
	for _, note := range []string{"", "note"} {
		put(t, "left by a killed build", dir, ".public.kept.part")
		if err := Remember(target, []byte(note), nil, nil); err != nil || string(Recall(target)) != note {
			t.Errorf("%q: %v", Recall(target), err)
		}
		wantAlone(t, dir, ".public.kept", "public")
	}
	if info, err := os.Stat(filepath.Join(dir, ".public.kept")); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v: others may read what is not published", info.Mode(), err)
	}
	// What is read ends with the file.
	name := put(t, "12345", dir, "five")
	for _, c := range []struct {
		from, most int64
		want       string
	}{{0, 5, "12345"}, {0, 6, "12345"}, {4, 1, "5"}, {5, 1, ""}, {6, 1, ""}} {
		if data, err := readAt(name, c.from, c.most); err != nil || string(data) != c.want {
			t.Errorf("%d bytes from %d: %q, %v", c.most, c.from, data, err)
		}
	}
	if _, err := readAt(filepath.Join(dir, "missing"), 0, 4); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("%v", err)
	}
}

// TestNothingToForce: what cannot be opened cannot be forced onto the disk, and that is an error.
func TestNothingToForce(t *testing.T) {
	missing := filepath.Join(t.TempDir(), "missing")
	if err := flush(missing); runtime.GOOS == "linux" && !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("flush: %v", err)
	}
	if err := flushFolder(missing); runtime.GOOS != "windows" && !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("flushFolder: %v", err)
	}
	if err := flushFolder(filepath.Dir(missing)); err != nil {
		t.Error(err)
	}
	if err := exchange(missing, filepath.Dir(missing)); err == nil {
		t.Error("a folder that is not there was exchanged")
	}
	if _, err := digestOf(missing); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a digest: %v", err)
	}
	if _, err := digestOf(filepath.Dir(missing)); err == nil {
		t.Error("a folder has a digest")
	}
}

// TestIsOneOf: what a system says of a step that it does not know is told from what really failed,
// wrapped or not.
func TestIsOneOf(t *testing.T) {
	for _, c := range []struct {
		err  error
		want bool
	}{
		{nil, false},
		{fs.ErrExist, true},
		{fs.ErrInvalid, true},
		{&fs.PathError{Op: "open", Path: "public", Err: fs.ErrInvalid}, true},
		{fs.ErrNotExist, false},
	} {
		if got := isOneOf(c.err, fs.ErrExist, fs.ErrInvalid); got != c.want {
			t.Errorf("%v: %v", c.err, got)
		}
	}
}

// TestAddErrors: a file that cannot be added is an error at once, and the site that there was
// stays.
func TestAddErrors(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "public")
	mustSwap(t, newSwapper(), older, target)
	g, err := Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.AddFile("a.jpg", filepath.Join(dir, "missing.jpg")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a file that is missing: %v", err)
	}
	if err := g.AddFile("b.jpg", ""); err == nil {
		t.Error("a file from nowhere")
	}
	if err := g.AddCopy("c.mp4", strings.NewReader("five5"), 9); err == nil {
		t.Error("nine bytes of five")
	}
	if err := g.Add("../d.html", nil); err == nil {
		t.Error("a page outside the site")
	}
	if err := g.Abandon(); err != nil {
		t.Error(err)
	}
	wantSite(t, target, older)
	wantAlone(t, dir, "public")
}

// TestParentsAreTakenBack: folders above a target that a build made go again if it publishes
// nothing, and stay if it does.
func TestParentsAreTakenBack(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "a", "b", "public")
	g, err := Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.Abandon(); err != nil {
		t.Fatal(err)
	}
	wantAlone(t, dir)
	g, err = Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	put(t, "mine", dir, "a", "mine.txt")
	if err := g.Abandon(); err != nil {
		t.Fatal(err)
	}
	wantAlone(t, filepath.Join(dir, "a"), "mine.txt")
	mustSwap(t, newSwapper(), older, target)
	wantSite(t, target, older)
}

// TestKeptFilesKeepTheirTime: a file that did not change keeps its time where it can be linked,
// and where its mode was changed by hand and it has to be copied.
func TestKeptFilesKeepTheirTime(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("NOT CHECKED: there are no modes here")
	}
	dir := t.TempDir()
	target := filepath.Join(dir, "public")
	mustSwap(t, newSwapper(), older, target)
	then := time.Now().Add(-48 * time.Hour).Truncate(time.Second)
	for _, name := range []string{"style.css", "units/sb-1/index.html"} {
		if err := os.Chtimes(filepath.Join(target, name), then, then); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(filepath.Join(target, "style.css"), 0o600); err != nil {
		t.Fatal(err)
	}
	mustSwap(t, newSwapper(), newer, target)
	wantSite(t, target, newer)
	for _, name := range []string{"style.css", "units/sb-1/index.html"} {
		info, err := os.Stat(filepath.Join(target, name))
		if err != nil || !info.ModTime().Equal(then) || info.Mode().Perm() != fileMode {
			t.Errorf("%s: %v, %v, %v", name, info.ModTime(), info.Mode(), err)
		}
	}
}

// TestSame: files are the same only if they have the same bytes up to the same end, whatever the
// size of the parts in which they are read, and a file that cannot be read to its end is not the
// same as any other.
func TestSame(t *testing.T) {
	bufs := new(buffers)
	part := len(bufs[0])
	text := bytes.Repeat([]byte("gooseneck "), part/4)
	for _, n := range []int{0, 1, part - 1, part, part + 1, 2 * part} {
		var read bytes.Buffer
		if !bufs.same(bytes.NewReader(text[:n]), bytes.NewReader(text[:n]), &read) || read.Len() != n {
			t.Errorf("%d bytes differ from themselves, or %d were handed on", n, read.Len())
		}
		if bufs.same(bytes.NewReader(text[:n]), bytes.NewReader(text[:n+1]), io.Discard) {
			t.Errorf("%d bytes are the same as one more", n)
		}
		if bufs.same(bytes.NewReader(text[:n]), io.MultiReader(bytes.NewReader(text[:n]), iotest.ErrReader(errors.New("input/output error"))), io.Discard) {
			t.Errorf("%d bytes are the same as a file that cannot be read", n)
		}
	}
}

// TestCutOffNote: a note that ends anywhere before its end is not recalled, and does not stop the
// program, even if its mark is right.
func TestCutOffNote(t *testing.T) {
	target, g := published(t)
	if err := Remember(target, []byte("note"), []byte("more"), g.Written()); err != nil {
		t.Fatal(err)
	}
	p, err := locate(target, nil)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(p.keptName())
	if err != nil {
		t.Fatal(err)
	}
	left := p.kept()
	if string(left.note) != "note" {
		t.Fatalf("the note is %q", left.note)
	}
	data := whole[seal.Size+8 : left.end]
	for n := range len(data) - len(left.note) {
		mark := seal.Of(keptPlace, data[:n])
		file := binary.BigEndian.AppendUint64(slices.Clone(mark[:]), uint64(n))
		if err := os.WriteFile(p.keptName(), append(file, data[:n]...), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := p.kept(); got.note != nil || got.list != nil || got.end != 0 {
			t.Fatalf("the first %d of %d bytes hold the note %q and a list of %d bytes", n, len(data), got.note, len(got.list))
		}
	}
}

// TestKnownFilesAreCompared: a build after a note does not read what is known, and still counts
// what changed: a page of the same size too.
func TestKnownFilesAreCompared(t *testing.T) {
	target, g := published(t)
	fine(t, target, g)
	changed := maps.Clone(older)
	changed["index.html"] = "new yard"
	if len(changed["index.html"]) != len(older["index.html"]) {
		t.Fatal("the page has another size")
	}
	got := mustSwap(t, newSwapper(), changed, target)
	wantSite(t, target, changed)
	other := filepath.Join(t.TempDir(), "public")
	mustSwap(t, newSwapper(), older, other) // and nothing is known
	if want := mustSwap(t, newSwapper(), changed, other); got != want || got.Unchanged == 0 {
		t.Errorf("%+v where files are known, %+v where they are read", got, want)
	}
}
