package site

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/media"
	"tarepage/internal/photo"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

const aUnit = `---
title: 82 in x 18 ft equipment trailer
stock: EX-1
kind: equipment
condition: new
availability: on the yard
price: $5,200 (since 2026-11-01)
model: eq-18
deck:
  length: 18 ft
axles:
  count: 2
  rating: 3,500 lb (tag)
weights:
  gvwr: 7,000 lb (tag)
  empty: 2,000 lb (scale ticket 2026-11-03)
---
`

// littleYard is a yard of one model and the units that are given, by their names.
func littleYard(t *testing.T, units map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	write(t, filepath.Join(dir, "content/yard.md"), "---\nname: Quillfern Trailers\nphone: 555-0117\ntown: Quillfern\nas-of: 2026-11-20\n---\n")
	write(t, filepath.Join(dir, "content/models/eq-18.md"), "---\nmake: Quillfern\ntires:\n  size: ST205/75R15 (sidewall)\n  load-range: C (sidewall)\n  per-axle: 2\n---\n")
	for name, text := range units {
		write(t, filepath.Join(dir, "content/units", name), text)
	}
	return dir
}

// TestLookAt looks at a unit as if its file had other bytes, with its model, and writes nothing.
func TestLookAt(t *testing.T) {
	dir := littleYard(t, map[string]string{"ex-1.md": aUnit, "ex-2.md": strings.Replace(aUnit, "EX-1", "EX-2", 1)})
	heavier := strings.Replace(aUnit, "2,000 lb", "2,400 lb", 1)
	one, err := LookAt(dir, "ex-1.md", []byte(heavier))
	if err != nil || one.Unit.Stock.Value != "EX-1" || one.Unit.Tires.LoadRange.Value != "C" {
		t.Fatalf("%+v, %v", one, err)
	}
	if f := one.Work.Figure("payload"); f == nil || f.Text != "4,600 lb" { // 7,000 - 2,400
		t.Errorf("a payload of %+v", f)
	}
	if len(one.Findings) == 0 {
		t.Error("nothing is found about a unit without brakes and a tongue weight")
	}
	for _, f := range one.Findings {
		if f.Unit != "content/units/ex-1.md" {
			t.Errorf("a finding about %s", f.Unit)
		}
	}
	if data, err := os.ReadFile(filepath.Join(dir, "content/units/ex-1.md")); err != nil || string(data) != aUnit {
		t.Errorf("the file changed: %v", err)
	}
	broken, err := LookAt(dir, "ex-1.md", []byte("---\nstock: \"EX-1\n---\n"))
	if err != nil || !broken.Unit.Broken || broken.Work != nil || inspect.Count(broken.Findings, inspect.Stop) == 0 {
		t.Errorf("%+v, %v", broken, err)
	}
	if _, err := LookAt(filepath.Join(dir, "missing"), "ex-1.md", nil); err == nil || !strings.Contains(err.Error(), "is not a folder") {
		t.Errorf("%v", err)
	}
	if _, err := LookAt(filepath.Join(dir, "content"), "ex-1.md", []byte(aUnit)); err == nil || !strings.HasPrefix(err.Error(), "in ") {
		t.Errorf("a folder without a yard: %v", err)
	}
}

// TestUnitIn: the unit of -into comes with its model if it is one of the yard's, and by itself if
// its file is somewhere else.
func TestUnitIn(t *testing.T) {
	dir := littleYard(t, map[string]string{"ex-1.md": aUnit, "bad.md": "---\nstock: \"EX-2\n---\n"})
	elsewhere := filepath.Join(t.TempDir(), "ex-1.md")
	write(t, elsewhere, aUnit)
	for _, c := range []struct{ from, file, tires, want string }{
		{dir, filepath.Join(dir, "content/units/ex-1.md"), "ST205/75R15", ""},
		{dir, elsewhere, "", ""},
		{dir, filepath.Join(dir, "content/yard.md"), "", ""},
		{dir, filepath.Join(dir, "content/units/bad.md"), "", "cannot be read as a unit file; inspect says why"},
		{dir, filepath.Join(dir, "content/units/gone.md"), "", "-into "},
		{dir, filepath.Join(t.TempDir(), "gone.md"), "", "-into "},
		{filepath.Join(dir, "content"), filepath.Join(dir, "content/content/units/ex-1.md"), "", "in "},
	} {
		u, err := UnitIn(c.from, c.file)
		if c.want != "" {
			if err == nil || !strings.Contains(err.Error(), c.want) || u != nil {
				t.Errorf("%s: %v", c.file, err)
			}
		} else if err != nil || u.Tires.Size.Value != c.tires {
			t.Errorf("%s: %v, tires %q", c.file, err, u.Tires.Size.Value)
		}
	}
}

// TestNewlyOut: a unit that is left out now and had no stop before is named, and what a unit with
// a stop was told before is fresh until it is published.
func TestNewlyOut(t *testing.T) {
	stop, remark := inspect.Lookup("tires-under-axle"), inspect.Lookup("price-missing")
	found := func(r *inspect.Rule, s inspect.Severity, file, message string) inspect.Finding {
		return inspect.Finding{Rule: r, Severity: s, Unit: file, At: unit.Pos{File: file}, Message: message}
	}
	n := &note{findings: []inspect.Finding{found(stop, inspect.Stop, "a.md", "one"), found(remark, inspect.Remark, "a.md", "two"), found(remark, inspect.Remark, "b.md", "three")}}
	stock := &unit.Stock{}
	for _, name := range []string{"a", "b", "c"} {
		u := &unit.Unit{File: name + ".md"}
		u.Stock.Value = strings.ToUpper(name)
		stock.Units = append(stock.Units, u)
	}
	held := inspect.Held{Units: map[string]bool{"a.md": true, "b.md": true}}
	if got := n.newlyOut(stock, held); !slices.Equal(got, []string{"B"}) {
		t.Errorf("newly out are %q", got)
	}
	if got := (*note)(nil).newlyOut(stock, held); got != nil {
		t.Errorf("in a first build %q", got)
	}
	fresh := n.fresh([]inspect.Finding{found(stop, inspect.Stop, "a.md", "one"), found(remark, inspect.Remark, "a.md", "two"), found(remark, inspect.Remark, "b.md", "three")})
	if len(fresh) != 1 || fresh[0].Message != "two" {
		t.Errorf("fresh are %+v", fresh)
	}
	if got := n.stopped(); len(got) != 1 || !got["a.md"] {
		t.Errorf("stopped %v", got)
	}
}

// TestKeptLines: the lines of a unit are taken out of the stock files only if they are there and
// have the digest they had.
func TestKeptLines(t *testing.T) {
	stock := [3]string{"header\nfirst\nsecond\n", "{[1,2]}", "more"}
	at := stockfile.Places{}
	at[0].At, at[0].Bytes = 7, 6
	at[1].At, at[1].Bytes = 1, 5
	at[2].At, at[2].Bytes = 0, 4
	want := stockfile.Lines{[]byte("first\n"), []byte("[1,2]"), []byte("more")}
	from := [32]byte{1}
	n := &note{lines: map[string]keptLines{"a.html": {"a.html", from, at, lineSum(want)}}}
	got, ok := n.linesOf("a.html", from, stock)
	if !ok || string(got[0]) != "first\n" || string(got[1]) != "[1,2]" || string(got[2]) != "more" {
		t.Fatalf("%q, %v", got, ok)
	}
	if _, ok := n.linesOf("b.html", from, stock); ok {
		t.Error("lines of a page that is not known")
	}
	if _, ok := n.linesOf("a.html", [32]byte{2}, stock); ok {
		t.Error("lines that were made from something else")
	}
	if _, ok := n.linesOf("a.html", from, [3]string{stock[0], stock[1], "mure"}); ok {
		t.Error("lines that were changed by hand")
	}
	for name, change := range map[string]func(p *stockfile.Places){
		"before the file": func(p *stockfile.Places) { p[0].At = -1 }, "less than nothing": func(p *stockfile.Places) { p[0].Bytes = -1 },
		"longer than all": func(p *stockfile.Places) { p[2].Bytes = 5 }, "past the end": func(p *stockfile.Places) { p[2].At = 1 },
	} {
		k := n.lines["a.html"]
		change(&k.At)
		if _, ok := (&note{lines: map[string]keptLines{"a.html": k}}).linesOf("a.html", from, stock); ok {
			t.Errorf("%s: the lines are taken", name)
		}
	}
	// A digest tells where one line ends and the next begins.
	if lineSum(stockfile.Lines{[]byte("ab"), []byte("c")}) == lineSum(stockfile.Lines{[]byte("a"), []byte("bc")}) {
		t.Error("two divisions of one text have one digest")
	}
	for text, want := range map[string]string{"\x03abcde": "abc de true", "\x00x": " x true", "\x03ab": "  false", "": "  false", "\x80": "  false", "\x03abc": "abc  true"} {
		p, rest, ok := part(text)
		if got := p + " " + rest + " " + map[bool]string{true: "true", false: "false"}[ok]; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestPhotosToMake: each photo of a unit that is published is made once, and not one that is
// done, withheld, at fault or of a unit that is left out.
func TestPhotosToMake(t *testing.T) {
	stock := &unit.Stock{Yard: &unit.Yard{}, Media: map[string][]unit.Media{}}
	good := &media.Photo{Kind: "JPEG", Wide: 400, High: 300, Turn: 1, Bits: 8, Need: 1}
	for name, list := range map[string][]unit.Media{
		"a.md": {{Name: "media/a.jpg", Photo: good}, {Name: "media/b.jpg", Photo: good}, {Name: "media/a.jpg", Photo: good}, {Name: "media/talk.vtt"}, {Name: "media/bad.jpg", Photo: &media.Photo{Fault: "cut off"}}},
		"b.md": {{Name: "media/b.jpg", Photo: good}, {Name: "media/c.jpg", Photo: good}},
		"c.md": {{Name: "media/d.jpg", Photo: good}},
		"d.md": {{Name: "media/e.jpg", Photo: good}},
	} {
		u := &unit.Unit{File: name, Broken: name == "d.md"}
		stock.Units = append(stock.Units, u)
		stock.Media[name] = list
	}
	slices.SortFunc(stock.Units, func(a, b *unit.Unit) int { return strings.Compare(a.File, b.File) })
	o := &Options{From: "yard"}
	var got []string
	for _, p := range originals(o, &Yard{Stock: stock}, inspect.Held{Units: map[string]bool{"c.md": true}}, func(name string) bool { return name == "media/c.jpg" }) {
		got = append(got, p.Name)
		if want := filepath.Join("content", filepath.FromSlash(p.Name)); p.Path != want || p.Folder != "yard" {
			t.Errorf("%s is at %s in %s", p.Name, p.Path, p.Folder)
		}
	}
	if !slices.Equal(got, []string{"media/a.jpg", "media/b.jpg"}) {
		t.Errorf("to make: %q", got)
	}
	if r, err := makePictures(o, new(Store), nil); err != nil || r.pictures != nil || r.faults != nil {
		t.Errorf("%+v, %v", r, err)
	}
	r := photoResults{map[string]*photo.Picture{}, map[string]string{}, nil}
	r.add("x", &photo.Picture{}, "")
	r.add("y", nil, "cut off")
	r.add("z", nil, "")
	if !r.has("x") || !r.has("y") || r.has("z") || r.has("w") {
		t.Errorf("%+v", r)
	}
}

// TestWherePicturesAreKept: in the user's cache if it takes files, and else next to content/.
func TestWherePicturesAreKept(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("NOT CHECKED: the folder of a user's caches is not that of XDG here")
	}
	from, cache := t.TempDir(), t.TempDir()
	t.Setenv("XDG_CACHE_HOME", cache)
	beside := filepath.Join(from, ".tarepage", "photos")
	s := new(Store)
	shop := s.shop(&Options{From: from})
	if shop.Keep != filepath.Join(cache, "tarepage", "photos") || shop.Spare != beside || s.shop(&Options{From: "other"}) != shop {
		t.Errorf("%+v", shop)
	}
	if left, err := os.ReadDir(shop.Keep); err != nil || len(left) > 0 {
		t.Errorf("the try left %v, %v", left, err)
	}
	file := filepath.Join(cache, "file")
	write(t, file, "")
	t.Setenv("XDG_CACHE_HOME", file)
	if shop := new(Store).shop(&Options{From: from}); shop.Keep != beside || shop.Spare != "" {
		t.Errorf("%+v", shop)
	}
	if takesFiles(filepath.Join(file, "below")) || !takesFiles(filepath.Join(cache, "new", "folder")) {
		t.Error("a folder below a file takes files, or a new one does not")
	}
	// It is a folder like any other, for its owner to write and for all to read, as far as the umask lets.
	usual := filepath.Join(cache, "usual")
	if err := os.Mkdir(usual, 0o755); err != nil {
		t.Fatal(err)
	}
	like, err1 := os.Stat(usual)
	info, err2 := os.Stat(filepath.Join(cache, "new", "folder"))
	if err1 != nil || err2 != nil || info.Mode() != like.Mode() {
		t.Errorf("the new folder is %v, like %v", info, like)
	}
	// A yard without an address has no link cards, and needs no shop for them.
	with := &unit.Stock{Yard: &unit.Yard{}}
	if s.cards(&Options{From: from}, with) != nil {
		t.Error("cards for a yard without an address")
	}
}

// TestVersions: the version of what is shown is the same for the same yard and look, and never
// where that cannot be told.
func TestVersions(t *testing.T) {
	dir := littleYard(t, map[string]string{"ex-1.md": aUnit})
	look := func() *Yard {
		y, err := Inspect(Options{From: dir})
		if err != nil {
			t.Fatal(err)
		}
		return y
	}
	y := look()
	if y.own() != 1 || y.stops() != inspect.Count(y.Findings, inspect.Stop) || len(y.Works) != 1 {
		t.Errorf("%d units, %d stops", y.own(), y.stops())
	}
	one := versionOf(y, [32]byte{1}, true)
	if len(one) != 16 || versionOf(look(), [32]byte{1}, true) != one {
		t.Errorf("versions %s and %s of one yard", one, versionOf(look(), [32]byte{1}, true))
	}
	if versionOf(y, [32]byte{2}, true) == one {
		t.Error("another look has the same version")
	}
	a := versionOf(y, [32]byte{1}, false)
	time.Sleep(time.Microsecond)
	if b := versionOf(y, [32]byte{1}, false); a == b || a == one {
		t.Error("where it cannot be told, two versions are the same")
	}
	write(t, filepath.Join(dir, "content/units/ex-1.md"), strings.Replace(aUnit, "$5,200", "$5,300", 1))
	if versionOf(look(), [32]byte{1}, true) == one {
		t.Error("another price has the same version")
	}
}

// TestVideosAreWatched: a plan is used again for the file it was made for, while that stays as it
// was and is old enough for an unchanged time to mean unchanged bytes.
func TestVideosAreWatched(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.mp4")
	data, err := os.ReadFile("../media/testdata/first.mp4")
	if err != nil {
		t.Fatal(err)
	}
	write(t, name, string(data))
	info := func() os.FileInfo {
		i, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		return i
	}
	age := func(d time.Duration) {
		if err := os.Chtimes(name, time.Now().Add(-d), time.Now().Add(-d)); err != nil {
			t.Fatal(err)
		}
	}
	age(time.Hour)
	k := knownVideo{of: info()}
	if !k.knows(info()) || (knownVideo{}).knows(info()) {
		t.Error("a plan of the file is not known, or one of nothing is")
	}
	age(2 * time.Hour)
	if k.knows(info()) {
		t.Error("the file has another time")
	}
	age(0)
	if (knownVideo{of: info()}).knows(info()) {
		t.Error("the file is too young to be known by its time")
	}
	s := new(Store)
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, size, err := s.bareVideo(f)
	if err != nil || size < 1000 || s.videos[name].copy == nil {
		t.Fatalf("%d bytes, %v", size, err)
	}
	got := make([]byte, size)
	if _, err := r.ReadAt(got, 0); err != nil || !bytes.Contains(got[:64], []byte("ftyp")) {
		t.Errorf("%q, %v", got[:32], err)
	}
	write(t, name+".txt", "not a video")
	text, err := os.Open(name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	defer text.Close()
	if _, _, err := s.bareVideo(text); err == nil {
		t.Error("a text is shown as a video")
	}
	if _, err := planCopy(bytes.NewReader(data), int64(len(data)), -time.Second); err == nil {
		t.Error("a plan that takes longer than it may is made")
	}
	if err := CheckLook(""); err != nil {
		t.Error(err)
	}
	if err := CheckLook(name); err == nil {
		t.Error("a look that is a file is taken")
	}
}

// TestFoundInTheYard: inspection finds what is wrong with a unit and what is wrong between units,
// and counts the stops.
func TestFoundInTheYard(t *testing.T) {
	weak := strings.Replace(aUnit, "3,500 lb (tag)", "7,000 lb (tag)", 1) // its tires carry 3,640 lb
	dir := littleYard(t, map[string]string{"ex-1.md": weak, "ex-2.md": weak, "bad.md": "---\nstock: \"EX-3\n---\n"})
	y, err := Inspect(Options{From: dir})
	if err != nil {
		t.Fatal(err)
	}
	rules := map[string]int{}
	for _, f := range y.Findings {
		rules[f.Rule.Name]++
	}
	for _, name := range []string{"tires-under-axle", "stock-taken"} {
		if rules[name] == 0 {
			t.Errorf("%s is not found: %v", name, rules)
		}
	}
	if y.stops() < 3 || len(y.Works) != 3 || y.Works[0] != nil || y.Works[1] == nil {
		t.Errorf("%d stops, works %v", y.stops(), y.Works)
	}
	r, err := Build(Options{From: dir, To: filepath.Join(dir, "public")})
	if err != nil || r.Published || r.Units != 3 || len(r.Findings) != len(y.Findings) {
		t.Errorf("%+v, %v", r, err)
	}
	if _, err := os.Stat(filepath.Join(dir, "public")); err == nil {
		t.Error("a yard with stops was published")
	}
	if _, err := Inspect(Options{From: filepath.Join(dir, "content")}); err == nil || !strings.HasPrefix(err.Error(), "in ") {
		t.Errorf("a folder without content/: %v", err)
	}
}

// TestWaitingIsTold: a build that has to wait for another one says so, once, and one that does
// not have to says nothing.
func TestWaitingIsTold(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	dir := littleYard(t, map[string]string{"ex-1.md": aUnit})
	told := 0
	o := Options{From: dir, To: filepath.Join(dir, "public"), LeaveOut: true, Waiting: func() { told++ }}
	if _, err := Build(o); err != nil {
		t.Fatal(err)
	}
	if told != 0 {
		t.Error("a build that waits for nobody says that it does")
	}
	// With a look that cannot be read nothing is kept, and two looks have two versions.
	o.Waiting = nil
	s, err := Show(o, Remembering())
	if err != nil {
		t.Fatal(err)
	}
	again, err := Show(o, Remembering())
	if err != nil || s.Version != again.Version || s.UnitCount != 1 {
		t.Errorf("versions %s and %s of %d units, %v", s.Version, again.Version, s.UnitCount, err)
	}
	if _, err := s.File("index.html"); err != nil {
		t.Error(err)
	}
	o.Look = filepath.Join(dir, "missing")
	if _, err := Show(o, Remembering()); err == nil {
		t.Error("a look that is missing is shown")
	}
}
