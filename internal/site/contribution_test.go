package site

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/packed"
	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// TestContributionsComeBack: what the units of three yards contribute comes back from its packed
// form as it was: of the demo, of the yard in which every rule is broken, and of one that is
// made for tests.
func TestContributionsComeBack(t *testing.T) {
	thorough.Only(t)
	made := t.TempDir()
	if err := testyard.Write(made, 60); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{made, "../..", "../../testdata/wrong"} {
		reading, err := unit.Open(os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		x := newExaminer(reading.Yard())
		x.keep = true
		n := &note{units: map[string]string{}}
		kept := 0
		for i := range reading.Len() {
			read, media := reading.Unit(i, nil)
			want := x.unit(read, media, nil)
			n.units[reading.Name(i)] = want.packed
			got := n.recall(reading.Name(i), x)
			if got == nil {
				if !read.Unit.Broken {
					_, err := packed.Append(nil, &keptUnit{*want.read, want.of, want.work.Keep(), keepFindings(want.found)})
					t.Fatalf("%s is not kept: %v", reading.Name(i), err)
				}
				continue
			}
			kept++
			if !reflect.DeepEqual(got.read, want.read) {
				t.Errorf("%s was read as\n%+v\nand comes back as\n%+v", reading.Name(i), want.read, got.read)
			}
			if !reflect.DeepEqual(got.work, want.work) || got.of != want.of {
				t.Errorf("the brief of %s was\n%+v\nand comes back as\n%+v", reading.Name(i), want.work, got.work)
			}
			if len(got.found)+len(want.found) > 0 && !reflect.DeepEqual(got.found, want.found) {
				t.Errorf("the findings of %s were\n%+v\nand come back as\n%+v", reading.Name(i), want.found, got.found)
			}
			if again := x.unit(got.read, media, got); again != got {
				t.Errorf("%s did not change and is examined again", reading.Name(i))
			}
		}
		if kept < 15 {
			t.Errorf("of %s, %d units are kept", dir, kept)
		}
	}
}

// TestExaminedAgain: a unit is examined again if what it is made from is another, and a
// packed contribution that is damaged is not used.
func TestExaminedAgain(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 6); err != nil {
		t.Fatal(err)
	}
	open := func() (*unit.Reading, *examiner) {
		t.Helper()
		reading, err := unit.Open(os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		x := newExaminer(reading.Yard())
		x.keep = true
		return reading, x
	}
	reading, x := open()
	read, media := reading.Unit(3, nil)
	before := x.unit(read, media, nil)
	file := filepath.Join(dir, filepath.FromSlash(reading.Name(3)))
	same := func() bool {
		t.Helper()
		reading, x := open()
		read, media := reading.Unit(3, before.read)
		return reflect.ValueOf(x.unit(read, media, before).work).Pointer() == reflect.ValueOf(before.work).Pointer()
	}
	if !same() {
		t.Error("nothing changed, and the unit is examined again")
	}
	as := replace(t, file, "stock: ", "color: plum\nstock: ")
	if same() {
		t.Error("the file changed, and the unit is not examined")
	}
	write(t, file, as)
	if !same() {
		t.Error("the file is as it was, and the unit is examined again")
	}
	yard := replace(t, filepath.Join(dir, "content/yard.md"), "---\n", "---\nallowance: 9%\n")
	if same() {
		t.Error("the allowance changed, and the unit is not examined")
	}
	write(t, filepath.Join(dir, "content/yard.md"), yard)
	model := filepath.Join(dir, "content/models", before.read.Unit.Model.Value+".md")
	if data, err := os.ReadFile(model); before.read.Unit.Model.Given() && err == nil {
		write(t, model, string(data)+"\nMore.\n")
		if same() {
			t.Error("the model changed, and the unit is not examined")
		}
	} else {
		t.Error("unit 3 has no model; take another one for this test")
	}
	x.whole = true
	if x.unit(read, media, before) == before {
		t.Error("asked for all figures, a brief is returned")
	}
	for cut := range len(before.packed) {
		n := &note{units: map[string]string{reading.Name(3): before.packed[:cut]}}
		if n.recall(reading.Name(3), x) != nil {
			t.Fatalf("%d of %d bytes are used", cut, len(before.packed))
		}
	}
}

// TestJudgingEndsInTime: a unit that cannot be judged within the time is stopped, at its captions
// if it has any, and nothing of it is kept for the next build.
func TestJudgingEndsInTime(t *testing.T) {
	dir := t.TempDir()
	if err := testyard.Write(dir, 2); err != nil {
		t.Fatal(err)
	}
	replace(t, filepath.Join(dir, testyard.UnitFile(1)), "stock: ", "recording:\n  captions: media/walk.vtt\nstock: ")
	if err := os.MkdirAll(filepath.Join(dir, "content/media"), 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "content/media/walk.vtt"), "WEBVTT\n\n00:01.000 --> 00:02.000\na spare tire\n")
	reading, err := unit.Open(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	x := newExaminer(reading.Yard())
	x.keep = true
	for i := range reading.Len() {
		read, media := reading.Unit(i, nil)
		if c := x.unit(read, media, nil); c.packed == "" || inspect.Count(c.found, inspect.Stop) > 0 {
			t.Errorf("%s in time: %d bytes are kept, found %v", reading.Name(i), len(c.packed), c.found)
		}
	}
	x.patience = time.Nanosecond
	for i, want := range []string{"file-unreadable", "captions-unreadable"} {
		read, media := reading.Unit(i, nil)
		c := x.unit(read, media, nil)
		if c.packed != "" || len(c.found) != 1 || c.found[0].Rule.Name != want || c.found[0].Severity != inspect.Stop || !strings.Contains(c.found[0].Message, "takes longer than 1ns") {
			t.Errorf("%s too late: %d bytes are kept, found %v", reading.Name(i), len(c.packed), c.found)
		} else if at := c.found[0].At; i == 1 && at != media[0].Pos || at.File != reading.Name(i) {
			t.Errorf("%s too late is found at %v", reading.Name(i), at)
		}
	}
}

// TestMediaAreEntered: each fact about a file that a unit names counts for whether the unit is
// examined again.
func TestMediaAreEntered(t *testing.T) {
	x := &examiner{settings: compute.Settings{}}
	seen := map[[32]byte]string{}
	enter := func(what string, list ...unit.Media) {
		t.Helper()
		sum := x.made(list)
		if was, ok := seen[sum]; ok {
			t.Errorf("%s counts the same as %s", what, was)
		}
		seen[sum] = what
	}
	enter("none")
	enter("an empty one", unit.Media{})
	enter("two", unit.Media{}, unit.Media{})
	enter("a path", unit.Media{Path: "a"})
	enter("a name", unit.Media{Name: "a"})
	enter("a fault", unit.Media{Fault: "a"})
	enter("a size", unit.Media{Bytes: 1})
	enter("withheld", unit.Media{Withheld: true})
	enter("captions", unit.Media{Data: []byte("a")})
}

// TestNoteForm holds the form of findings in a note, which the next version of the program
// reads. If you change keptFinding, or a type in it, change noteForm and this text.
func TestNoteForm(t *testing.T) {
	n := &note{findings: []inspect.Finding{{Rule: inspect.Lookup("price-missing"), Severity: inspect.Remark, At: unit.Pos{File: "a.md", Line: 3, Column: 4},
		Unit: "a.md", Message: "m", Value: "v", Limit: "l", Related: []unit.Place{{At: unit.Pos{File: "b.md", Line: 1}, What: "w"}}, Source: "s", Remedy: "r", First: true}}}
	text, _, err := n.pack(nil)
	const want = "tarepage note 1\n\x42\x02\x01\x1aprice-missing\x02\x04\x03\x01\x08a.md\x02\x06\x03\x08\x00\x04\x03\x05\x02m\x06\x02v\x07\x02l\x08\x02\x01\x01\x08b.md\x02\x02\x00\x02\x02w\x00\x09\x02s\x0a\x02r\x0b\x01\x00"
	if got := string(text[:min(len(text), len(want))]); err != nil || got != want {
		t.Errorf("%v\n got %q\nwant %q", err, got, want)
	}
}
