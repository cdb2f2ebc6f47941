package elevation_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/unit"
)

var update = flag.Bool("update", false, "rewrite the drawings in testdata from what the units give")

// An archive is a unit file with the drawings it gives: unit.md, side.svg, small.svg and
// words.txt, a description before them.
type archive struct {
	file string
	name string
	text *txtar.Archive
	work *compute.Work
}

func archives(t testing.TB) []archive {
	t.Helper()
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d archives in testdata, %v", len(files), err)
	}
	var out []archive
	for _, file := range files {
		text, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if text.Files[0].Name != "unit.md" || strings.TrimSpace(string(text.Comment)) == "" {
			t.Fatalf("%s: describe the case, then give unit.md", file)
		}
		out = append(out, archive{file, strings.TrimSuffix(filepath.Base(file), ".txtar"), text, work(t, string(text.Files[0].Data))})
	}
	return out
}

// work reads a unit file and works its figures out.
func work(t testing.TB, src string) *compute.Work {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/case.md", []byte(src))
	for _, p := range problems {
		t.Errorf("%s: %s", p.At, p.Message)
	}
	return compute.Unit(u, compute.SettingsOf(&unit.Yard{}))
}

func works(all []archive) []*compute.Work {
	var out []*compute.Work
	for _, a := range all {
		out = append(out, a.work)
	}
	return out
}

// TestDrawings compares every archive's drawings with those in it, byte for byte. Each
// element stands on its own line, so that a change can be reviewed.
func TestDrawings(t *testing.T) {
	all := archives(t)
	scale := elevation.ScaleOf(works(all))
	for _, a := range all {
		t.Run(a.name, func(t *testing.T) {
			side, ok := elevation.Side(a.work)
			if !ok {
				t.Fatal("no drawing")
			}
			small, ok := elevation.Silhouette(a.work, scale)
			if !ok {
				t.Fatal("no silhouette")
			}
			lines := func(svg string) string { return strings.ReplaceAll(svg, "><", ">\n<") + "\n" }
			got := []txtar.File{a.text.Files[0], {Name: "words.txt", Data: []byte(elevation.Words(a.work) + "\n")},
				{Name: "side.svg", Data: []byte(lines(side))}, {Name: "small.svg", Data: []byte(lines(small))}}
			made := txtar.Format(&txtar.Archive{Comment: a.text.Comment, Files: got})
			if *update {
				if err := os.WriteFile(a.file, made, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if want := txtar.Format(a.text); string(made) != string(want) {
				t.Errorf("%s differs; look at the drawing, then run go test ./internal/elevation -update\n%s", a.file, made)
			}
			// The sizes that the pages' budgets count with.
			if len(side) > 4096 {
				t.Errorf("the drawing has %d bytes, more than 4096", len(side))
			}
			if len(small) > 1340 {
				t.Errorf("the silhouette has %d bytes, more than 1340", len(small))
			}
		})
	}
}
