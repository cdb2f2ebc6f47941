package site

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/image/draw"

	"tarepage/internal/filestamp"
	"tarepage/internal/inspect"
	"tarepage/internal/publish"
	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// made is where the tests keep the pictures that they make, as builds of one user do. A test
// that counts them has a folder of its own.
var made string

func TestMain(m *testing.M) {
	var err error
	if made, err = os.MkdirTemp("", "made"); err != nil {
		panic(err)
	}
	status := m.Run()
	os.RemoveAll(made)
	os.Exit(status)
}

// demo is a yard of three trailers of the demo, one with a recording and two with photos. The
// photos are small.
func demo(t *testing.T) string {
	t.Helper()
	t.Setenv("XDG_CACHE_HOME", made)
	dir := t.TempDir()
	for _, pattern := range []string{"yard.md", "models/*", "*/sb-1003*", "*/sb-1016*", "*/sb-1031*"} {
		files, err := filepath.Glob(filepath.Join("../../content", pattern))
		if err != nil || files == nil {
			t.Fatal(pattern, err)
		}
		for _, name := range files {
			data, err := os.ReadFile(name)
			if err == nil && filepath.Ext(name) == ".jpg" {
				data, err = smaller(name, data)
			}
			if err != nil {
				t.Fatal(err)
			}
			write(t, filepath.Join(dir, strings.TrimPrefix(filepath.ToSlash(name), "../../")), string(data))
		}
	}
	return dir
}

// small keeps the photos that smaller made, by name: each test copies the same ones.
var small = map[string][]byte{}

// smaller is a photo with a ninth of its pixels: these tests are about which photos are made,
// and package photo has tests of its own for how.
func smaller(name string, data []byte) ([]byte, error) {
	if made, ok := small[name]; ok {
		return made, nil
	}
	m, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	to := image.NewRGBA(image.Rect(0, 0, m.Bounds().Dx()/3, m.Bounds().Dy()/3))
	draw.NearestNeighbor.Scale(to, to.Rect, m, m.Bounds(), draw.Src, nil)
	var out bytes.Buffer
	err = jpeg.Encode(&out, to, nil)
	small[name] = out.Bytes()
	return out.Bytes(), err
}

// photosOf counts the photos that the units of a yard name, some units aside.
func photosOf(t *testing.T, dir string, aside ...string) (n int) {
	t.Helper()
	units, err := filepath.Glob(filepath.Join(dir, "content/units/*.md"))
	if err != nil || units == nil {
		t.Fatal("the yard has no units", err)
	}
	for _, file := range units {
		if slices.Contains(aside, filepath.Base(file)) {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n += strings.Count(string(text), "- file: media/")
	}
	return n
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(text), 0o644)); err != nil {
		t.Fatal(err)
	}
}

// replace changes a part of a file, and returns the file as it was.
func replace(t *testing.T, file, old, new string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(data), old) {
		t.Fatalf("%s has no %q: %v", file, old, err)
	}
	write(t, file, strings.Replace(string(data), old, new, 1))
	return string(data)
}

func built(t *testing.T, o Options) *Result {
	t.Helper()
	r, err := Build(o)
	if err != nil || !r.Published {
		t.Fatalf("nothing was published: %v %+v", err, r)
	}
	return r
}

func shown(t *testing.T, o Options, s *Store) *Shown {
	t.Helper()
	out, err := Show(o, s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestShowIsWhatBuildPublishes compares every file that a build puts into the target with what
// the showroom makes for the same path: pages, feeds, pictures, link cards, the recording.
func TestShowIsWhatBuildPublishes(t *testing.T) {
	dir := demo(t)
	o := Options{From: dir, To: filepath.Join(t.TempDir(), "public")}
	r := built(t, o)
	if r.Units != 3 || r.Address != "https://sawbuck.example/" || r.LeftOut != nil || len(r.Undated) > 3 {
		t.Errorf("the result is %+v", r)
	}
	s := shown(t, Options{From: dir}, Remembering())
	if s.UnitCount != 3 || len(s.Units) != 3 || !reflect.DeepEqual(s.Findings, r.Findings) {
		t.Errorf("the showroom has %d units, pages of %v", s.UnitCount, s.Units)
	}
	if _, err := s.File("nowhere.html"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a page that is not there: %v", err)
	}
	kinds := map[string]int{}
	err := fs.WalkDir(os.DirFS(o.To), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || path == "SHA256SUMS" || path == "tarepage.txt" {
			return err
		}
		want, err := os.ReadFile(filepath.Join(o.To, path))
		if err != nil {
			return err
		}
		kinds[filepath.Ext(path)]++
		got, err := s.File(path)
		if errors.Is(err, fs.ErrNotExist) {
			got, err = onDisk(s, path)
		}
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: published with %d bytes, shown with %d: %v", path, len(want), len(got), err)
		}
		return nil
	})
	if err != nil || kinds[".html"] < 12 || kinds[".webp"] == 0 || kinds[".mp4"] != 1 || kinds[".json"] == 0 {
		t.Errorf("compared %v: %v", kinds, err)
	}
}

// onDisk is a file of the showroom that is copied and not made.
func onDisk(s *Shown, path string) ([]byte, error) {
	from, err := s.Disk(path)
	if err != nil || filepath.Ext(path) != ".mp4" {
		data, readErr := os.ReadFile(from)
		return data, errors.Join(err, readErr)
	}
	f, err := os.Open(from)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	video, size, err := s.Video(f)
	if err != nil {
		return nil, err
	}
	return io.ReadAll(io.NewSectionReader(video, 0, size))
}

// TestOnlyWhatChangedIsDoneAgain waits until the files of a yard are old enough to be known by
// their times. Then a second run does nothing, and a new photo is the only one that is made.
func TestOnlyWhatChangedIsDoneAgain(t *testing.T) {
	thorough.Only(t)
	dir := demo(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	time.Sleep(youngest + 100*time.Millisecond)
	worked := 0
	o := Options{From: dir, To: filepath.Join(t.TempDir(), "public"), Progress: func(_, all int) { worked = all }}
	first := built(t, o)
	if worked != photosOf(t, dir) || first.Yard == nil || first.Files.Unchanged != 0 || first.Before {
		t.Errorf("the first build made %d pictures, %+v", worked, first.Files)
	}
	second := built(t, o)
	if all := first.Files.Written; second.Yard != nil || second.Files != (publish.Report{Unchanged: all}) || !second.Before || second.Pages != first.Pages {
		t.Errorf("nothing changed, and of %d files the second build says %+v", all, second.Files)
	}
	if !slices.EqualFunc(second.Findings, first.Findings, func(a, b inspect.Finding) bool { return reflect.DeepEqual(a, b) }) {
		t.Errorf("the second build finds\n%v\nthe first\n%v", second.Findings, first.Findings)
	}
	if !slices.Equal(second.Undated, first.Undated) || second.Address != first.Address || second.Units != first.Units {
		t.Errorf("the second build says %+v, the first %+v", second, first)
	}
	o.AllFigures = true
	if r := built(t, o); r.Yard == nil {
		t.Error("asked for all figures, a build returns none")
	}
	o.AllFigures = false

	store := Remembering()
	worked = 0
	before := shown(t, o, store)
	worked = 0
	if again := shown(t, o, store); again.Version != before.Version || worked != 0 {
		t.Errorf("nothing changed, and %d pictures are made again; version %s, then %s", worked, before.Version, again.Version)
	}
	const another = "../../content/media/sb-1027-side.jpg"
	other, err := os.ReadFile(another)
	if err == nil {
		other, err = smaller(another, other)
	}
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "content/media/sb-1016-side.jpg"), string(other))
	if again := shown(t, o, store); again.Version == before.Version || worked != 1 {
		t.Errorf("one photo changed, and %d pictures are made; version %s, then %s", worked, before.Version, again.Version)
	}
	// The build takes over every page but those of the trailer that changed.
	page := filepath.Join(dir, "content/units/sb-1031.md")
	replace(t, page, "price: ", "color: plum\nprice: ")
	replace(t, page, "color: plum\n", "")
	if r := built(t, o); r.Files.Unchanged < 10 || r.Files.Written == 0 {
		t.Errorf("one photo changed, and the build says %+v", r.Files)
	}
}

// TestVideoIsPlannedOnce: a player asks for a recording in many pieces.
func TestVideoIsPlannedOnce(t *testing.T) {
	data, err := os.ReadFile("../../content/media/sb-1003.mp4")
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "walk.mp4")
	s := Remembering()
	read := func(text []byte, written time.Time) ([]byte, error) {
		t.Helper()
		write(t, name, string(text))
		if err := os.Chtimes(name, written, written); err != nil {
			t.Fatal(err)
		}
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		video, size, err := s.bareVideo(f)
		if err != nil {
			return nil, err
		}
		return io.ReadAll(io.NewSectionReader(video, 0, size))
	}
	hour := time.Now().Add(-time.Hour)
	first, err := read(data, hour)
	if err != nil || len(first) == 0 {
		t.Fatal(err)
	}
	plan := s.videos[name].copy
	if again, err := read(data, hour); err != nil || !bytes.Equal(again, first) || s.videos[name].copy != plan {
		t.Errorf("a known video is planned again: %v", err)
	}
	if _, err := read(data, hour.Add(time.Second)); err != nil || s.videos[name].copy == plan {
		t.Errorf("a video with another time is taken for the old one: %v", err)
	}
	if _, err := read([]byte("<!doctype html>"), hour); err == nil {
		t.Error("a page is played as a video")
	}
	now := time.Now()
	if _, err := read(data, now); err != nil {
		t.Error(err)
	}
	plan = s.videos[name].copy
	if _, err := read(data, now); err != nil || s.videos[name].copy == plan {
		t.Errorf("a video that may still be written is believed: %v", err)
	}
}

// TestStopsKeepBack: a unit with a stop keeps the yard from being published, or with LeaveOut
// itself alone. A photo that does not decode is such a stop, and no time goes into photos of
// units that are kept back already.
func TestStopsKeepBack(t *testing.T) {
	dir := demo(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	var made []int
	o := Options{From: dir, To: filepath.Join(dir, "public"), Progress: func(_, all int) { made = append(made, all) }}
	file := filepath.Join(dir, "content/units/sb-1031.md")
	sound := replace(t, file, "stock: ", "stokc: x\nstock: ")
	r, err := Build(o)
	if err != nil || r.Published || len(made) != 0 {
		t.Errorf("with a stop: published %v, %v pictures, %v", r.Published, made, err)
	}
	if _, err := os.Stat(o.To); err == nil {
		t.Error("with a stop there is a site")
	}
	o.LeaveOut = true
	r = built(t, o)
	if !slices.Equal(r.LeftOut, []string{"SB-1031"}) || made[len(made)-1] != photosOf(t, dir, "sb-1031.md") || published(o.To, "u/sb-1031.html") != nil || published(o.To, "u/sb-1016.html") == nil {
		t.Errorf("left out are %v, the last of %v pictures", r.LeftOut, made)
	}
	write(t, file, sound)

	// The head of the photo is whole. Its data are not.
	photo := filepath.Join(dir, "content/media/sb-1031-side.jpg")
	data, err := os.ReadFile(photo)
	if err != nil {
		t.Fatal(err)
	}
	damaged := bytes.Clone(data)
	for i := len(data) / 2; i < len(data)/2+600; i++ {
		damaged[i] = 0xf7
	}
	write(t, photo, string(damaged))
	o.LeaveOut = false
	r, err = Build(o)
	named := func(f inspect.Finding) bool {
		return f.Severity == inspect.Stop && strings.Contains(f.Message, "sb-1031-side.jpg")
	}
	if err != nil || r.Published || !slices.ContainsFunc(r.Findings, named) {
		t.Errorf("a photo that does not decode: published %v, %v, %v", r.Published, r.Findings, err)
	}
	if s := shown(t, Options{From: dir}, Remembering()); len(s.Units) != 3 || !slices.ContainsFunc(s.Findings, named) {
		t.Errorf("the showroom has pages of %v and finds %v", s.Units, s.Findings)
	}
	write(t, photo, string(data))
	built(t, o)

	// The yard's own stops let nothing out.
	replace(t, filepath.Join(dir, "content/yard.md"), "phone: ", "fone: ")
	o.LeaveOut = true
	if r, err := Build(o); err != nil || r.Published {
		t.Errorf("with a misspelled key of the yard: published %v, %v", r.Published, err)
	}
}

// TestBasis: the look counts with every byte and every name, and one that cannot be read is
// never taken for the same.
func TestBasis(t *testing.T) {
	look := t.TempDir()
	digest := func() [32]byte {
		t.Helper()
		sum, ok := basisOf(look)
		if !ok {
			t.Fatal("the look cannot be read")
		}
		return sum
	}
	seen := map[[32]byte]string{}
	note := func(what string) {
		t.Helper()
		sum := digest()
		if before, twice := seen[sum]; twice {
			t.Errorf("%s: the digest is that of %s", what, before)
		}
		if sum != digest() {
			t.Errorf("%s: the digest is another each time", what)
		}
		seen[sum] = what
	}
	own, ok := basisOf("")
	if !ok || own == [32]byte{} {
		t.Error("the program has no digest")
	}
	seen[own] = "the built-in look"
	note("an empty look")
	write(t, filepath.Join(look, "a.css"), "p{}")
	note("one style")
	write(t, filepath.Join(look, "a.css"), "q{}")
	note("another style")
	write(t, filepath.Join(look, "sub/a.css"), "q{}")
	note("a second one in a folder")
	if err := os.Rename(filepath.Join(look, "a.css"), filepath.Join(look, "b.css")); err != nil {
		t.Fatal(err)
	}
	note("another name")
	if _, ok := basisOf(filepath.Join(look, "missing")); ok {
		t.Error("a look that is missing has a digest")
	}
	if err := os.Symlink("missing", filepath.Join(look, "c.css")); err == nil {
		if _, ok := basisOf(look); ok {
			t.Error("a look with a file that cannot be read has a digest")
		}
	}
}

// TestNoteIsRead: findings come out of the note as they went in, also with a source and a
// remedy of their own.
func TestNoteIsRead(t *testing.T) {
	rule := inspect.Lookup("price-missing")
	list := []inspect.Finding{
		{Rule: rule, Severity: inspect.Remark, At: unit.Pos{File: "content/units/a.md", Line: 3, Column: 1}, Unit: "A-1", Message: "no price", Source: rule.Source, Remedy: rule.Remedy},
		{Rule: rule, Severity: inspect.Stop, Unit: "A-2", Message: "no price", Value: "1 lb", Limit: "2 lb", Source: "a letter", Remedy: "ask",
			Related: []unit.Place{{}}, First: true},
	}
	program, err := programSum()
	if err != nil {
		t.Fatal(err)
	}
	sum := [32]byte{7}
	parts := []*contribution{{packed: "one", read: &unit.Kept{Unit: &unit.Unit{File: "1.md"}}}, {}, {packed: "three", read: &unit.Kept{Unit: &unit.Unit{File: "3.md"}}}}
	left := func(program [32]byte) (string, string) {
		n := &note{findings: list, program: program, noteHead: noteHead{Basis: sum}, noteRest: noteRest{Made: []keptPage{{"u/a.html", sum, sum}}}}
		text, more, err := n.pack(parts)
		if err != nil {
			t.Fatal(err)
		}
		return string(text), string(more)
	}
	read := func(text, more string) *note { return readNote(text, func() string { return more }) }
	text, more := left(program)
	n := read(text, more)
	if n == nil || !reflect.DeepEqual(n.findings, list) {
		t.Fatalf("read back\n%+v\nwant\n%+v", n, list)
	}
	if n.open(); len(n.units) != 2 || n.units["1.md"] != "one" || n.units["3.md"] != "three" {
		t.Errorf("the units are %q", n.units)
	}
	if kept := keepFindings(list); kept[0].Source != "" || kept[0].Remedy != "" {
		t.Errorf("what is the rule's is kept again: %+v", kept[0])
	}
	if got := findingsOf([]keptFinding{{Rule: "a rule of another program"}}); got != nil {
		t.Error("a rule that is not known is read")
	}
	if n.under([32]byte{1}) || !n.under(sum) || (*note)(nil).under(sum) {
		t.Error("a note of another look is used, or one of this look is not")
	}
	if other := read(left([32]byte{9})); other.under(sum) || other.units != nil || !reflect.DeepEqual(other.findings, list) {
		t.Errorf("of another program's note the findings alone are read, not %+v", other)
	}
	for cut := range len(text) {
		n := read(text[:cut], more)
		if n != nil {
			n.open()
		}
		if n.under(sum) && len(n.units) == 2 {
			t.Fatalf("a note that is cut off after %d of %d bytes is read whole", cut, len(text))
		}
	}
	for cut := range len(more) {
		n := read(text, more[:cut])
		if n.open(); len(n.units) == 2 {
			t.Fatalf("what is cut off after %d of %d bytes is read whole", cut, len(more))
		}
	}
	s := &Store{older: n, samePages: true}
	for _, c := range []struct {
		path string
		from [32]byte
		want bool
	}{{"u/a.html", sum, true}, {"u/a.html", [32]byte{8}, false}, {"u/c.html", sum, false}} {
		if got, ok := s.pageBefore(c.path, c.from); ok != c.want || ok && got != publish.Sum(sum) {
			t.Errorf("%s made from %x: %v", c.path, c.from[:1], ok)
		}
	}
	s.samePages = false
	if _, ok := s.pageBefore("u/a.html", sum); ok {
		t.Error("a page of another look is taken over")
	}
}

// TestYoung walks along the limit.
func TestYoung(t *testing.T) {
	now := time.Now()
	old := now.Add(-youngest).UnixNano()
	for _, c := range []struct {
		time, touched int64
		want          bool
	}{{old, old, false}, {old + 1, old, true}, {old, old + 1, true}, {old - 1, 0, false}} {
		if got := young(unit.Stamp{File: filestamp.Stamp{Time: c.time, Touched: c.touched}}, now); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// TestMemoryFor: a yard of the usual size never meets the limit, and in a large one the limit stays
// well above what is in use.
func TestMemoryFor(t *testing.T) {
	for live, want := range map[uint64]int64{0: 480 << 20, 240 << 20: 480 << 20, 450 << 20: 900 << 20, 1 << 63: 2 << 40} {
		if got := memoryFor(live); got != want {
			t.Errorf("%d MiB are in use: %d MiB", live>>20, got>>20)
		}
	}
	runtime.GC()
	if n := inUse(); n == 0 || n > 4<<30 {
		t.Errorf("%d bytes are in use", n)
	}
}

// TestUnchangedUnitsAreKept: a unit whose file did not change is not computed again, except
// with another allowance.
func TestUnchangedUnitsAreKept(t *testing.T) {
	thorough.Only(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir := t.TempDir()
	if err := testyard.Write(dir, 3); err != nil {
		t.Fatal(err)
	}
	s := Remembering()
	read := func() *Yard {
		t.Helper()
		y, err := readYard(&Options{From: dir}, s, false)
		if err != nil {
			t.Fatal(err)
		}
		return y
	}
	time.Sleep(youngest + 100*time.Millisecond)
	first := read()
	change(t, filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(1))), "color: plum\n")
	second := read()
	for i := range 3 {
		if same := first.Works[i] == second.Works[i]; same != (i != 1) {
			t.Errorf("unit %d is the same: %v", i, same)
		}
	}
	replace(t, filepath.Join(dir, "content/yard.md"), "---\n", "---\nallowance: 9%\n")
	if third := read(); third.Works[0] == second.Works[0] {
		t.Error("with another allowance the figures are the old ones")
	}
}
