package site

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
)

// randomYard is a yard that is changed at random. Each change leaves a sound yard.
type randomYard struct {
	*testing.T
	*rand.Rand
	dir, look string
	next      int // the number of the next new unit
}

func (y *randomYard) path(name string) string { return filepath.Join(y.dir, filepath.FromSlash(name)) }

// edit changes a file of the yard; a file whose text does not fit stays as it is.
func (y *randomYard) edit(name string, change func(string) string) {
	data, err := os.ReadFile(y.path(name))
	if err != nil {
		y.Fatal(err)
	}
	write(y.T, y.path(name), change(string(data)))
}

func (y *randomYard) units() []string {
	list, err := filepath.Glob(y.path("content/units/*.md"))
	if err != nil || len(list) == 0 {
		y.Fatal("the yard has no units", err)
	}
	return list
}

func (y *randomYard) some() string {
	list := y.units()
	rel, err := filepath.Rel(y.dir, list[y.IntN(len(list))])
	if err != nil {
		y.Fatal(err)
	}
	return filepath.ToSlash(rel)
}

// changes are what happens to a yard, by name. A price has its day: a first build has no site
// to read the day of a change from.
var changes = []struct {
	name string
	do   func(*randomYard)
}{
	{"nothing", func(*randomYard) {}},
	{"words", func(y *randomYard) {
		y.edit(y.some(), func(s string) string { return s + fmt.Sprintf("\nSaid %d.\n", y.IntN(1000)) })
	}},
	{"a color", func(y *randomYard) {
		y.edit(y.some(), func(s string) string {
			lines := slices.DeleteFunc(strings.SplitAfter(s, "\n"), func(l string) bool { return strings.HasPrefix(l, "color: ") })
			return strings.Replace(strings.Join(lines, ""), "---\n", fmt.Sprintf("---\ncolor: color %d\n", y.IntN(1000)), 1)
		})
	}},
	{"a price", func(y *randomYard) {
		y.edit(y.some(), func(s string) string {
			lines := strings.SplitAfter(s, "\n")
			for i, l := range lines {
				if strings.HasPrefix(l, "price: ") {
					lines[i] = fmt.Sprintf("price: $%d,%03d (since 2026-11-1%d)\n", 4+y.IntN(20), y.IntN(1000), y.IntN(9))
				}
			}
			return strings.Join(lines, "")
		})
	}},
	{"a unit comes", func(y *randomYard) {
		write(y.T, y.path(testyard.UnitFile(y.next)), string(testyard.Unit(y.next)))
		y.next++
	}},
	{"a unit goes", func(y *randomYard) {
		if len(y.units()) < 4 {
			return
		}
		if err := os.Remove(y.path(y.some())); err != nil {
			y.Fatal(err)
		}
	}},
	{"another file name", func(y *randomYard) {
		name := y.some()
		if err := os.Rename(y.path(name), y.path(fmt.Sprintf("content/units/%c%d.md", 'a'+rune(y.IntN(26)), y.next))); err != nil {
			y.Fatal(err)
		}
		y.next++
	}},
	{"two files exchange their names", func(y *randomYard) {
		a, b := y.path(y.some()), y.path(y.some())
		if a == b {
			return
		}
		for _, move := range [][2]string{{a, a + "~"}, {b, a}, {a + "~", b}} {
			if err := os.Rename(move[0], move[1]); err != nil {
				y.Fatal(err)
			}
		}
	}},
	{"a model", func(y *randomYard) {
		y.edit("content/models/stave-20.md", func(s string) string {
			return strings.Replace(s, "---\n", fmt.Sprintf("---\n# %d\n", y.IntN(1000)), 1) + "\nMore.\n"
		})
	}},
	{"the yard's telephone", func(y *randomYard) {
		y.edit("content/yard.md", func(s string) string {
			at := strings.Index(s, "555-01")
			return s[:at] + fmt.Sprintf("555-01%02d", y.IntN(100)) + s[at+len("555-0100"):]
		})
	}},
	{"the allowance", func(y *randomYard) {
		y.edit("content/yard.md", func(s string) string {
			lines := slices.DeleteFunc(strings.SplitAfter(s, "\n"), func(l string) bool { return strings.HasPrefix(l, "allowance: ") })
			return strings.Replace(strings.Join(lines, ""), "---\n", fmt.Sprintf("---\nallowance: %d%%\n", 1+y.IntN(9)), 1)
		})
	}},
	{"the look", func(y *randomYard) {
		if y.look = ""; y.IntN(2) == 0 {
			y.look = y.path("look")
			write(y.T, filepath.Join(y.look, "notes.txt"), fmt.Sprint(y.IntN(1000)))
		}
	}},
	{"a page is damaged", func(y *randomYard) {
		pages, err := filepath.Glob(y.path("public/u/*.html"))
		if err != nil || len(pages) == 0 {
			y.Fatal("the site has no pages", err)
		}
		write(y.T, pages[y.IntN(len(pages))], "gone")
	}},
	{"the stock file is damaged", func(y *randomYard) {
		y.edit("public/stock.csv", func(s string) string { return "x" + s })
	}},
	{"the note is gone", func(y *randomYard) { _ = os.Remove(y.path(".public.kept")) }},
}

// TestRandomChanges: after each of many changes, made at random, the site is that of a first
// build, byte for byte. The long tests make 200 changes, and draw others each time.
func TestRandomChanges(t *testing.T) {
	thorough.Only(t)
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	steps, seed := 8, uint64(20)
	if os.Getenv("TAREPAGE_LONG") != "" {
		steps, seed = 200, rand.Uint64()
	}
	y := &randomYard{T: t, Rand: rand.New(rand.NewPCG(seed, seed)), dir: t.TempDir(), next: 6}
	if err := testyard.Write(y.dir, y.next); err != nil {
		t.Fatal(err)
	}
	done := []string{fmt.Sprint("seed ", seed)}
	for n := range steps {
		// Two changes of three come with another.
		for range 1 + y.IntN(3)/2 {
			if n > 0 {
				c := changes[y.IntN(len(changes))]
				done = append(done, c.name)
				c.do(y)
			}
		}
		r := built(t, Options{From: y.dir, To: y.path("public"), Look: y.look, Fewer: 1})
		fresh := filepath.Join(t.TempDir(), "public")
		first := built(t, Options{From: y.dir, To: fresh, Look: y.look})
		if got, want := filesOf(t, y.path("public")), filesOf(t, fresh); !maps.Equal(got, want) {
			for path := range want {
				if got[path] != want[path] {
					t.Errorf("%s differs", path)
				}
			}
			t.Fatalf("%d files, a first build has %d, after: %s", len(got), len(want), strings.Join(done, ", "))
		}
		if len(r.Findings) != len(first.Findings) || r.Units != first.Units {
			t.Fatalf("%d findings, a first build has %d, after: %s", len(r.Findings), len(first.Findings), strings.Join(done, ", "))
		}
	}
}
