package render_test

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// remembers is a target that has the pages of a build before.
type remembers struct {
	render.AddFunc
	mu     sync.Mutex
	before map[string][32]byte
	asked  map[string][32]byte
	added  map[string]string
}

func (r *remembers) Keep(path string, from [32]byte) (bool, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.asked[path] = from
	was, ok := r.before[path]
	return ok && was == from, nil
}

func buildOver(t *testing.T, root fstest.MapFS, before map[string][32]byte) *remembers {
	t.Helper()
	r := &remembers{before: before, asked: map[string][32]byte{}, added: map[string]string{}}
	r.AddFunc = func(path string, data []byte) error { r.added[path] = string(data); return nil }
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	if _, err := render.Site(theme.Files, render.Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems)}, r); err != nil {
		t.Fatal(err)
	}
	return r
}

// unitsOf are the stock numbers of pages of units.
func unitsOf(pages []string) []string {
	var out []string
	for _, p := range pages {
		if path.Dir(p) != "." && path.Ext(p) == ".html" {
			out = append(out, strings.TrimSuffix(path.Base(p), ".html"))
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestOnlyChangedPagesAreMade: a page whose unit did not change is kept. Changed are the unit
// itself and a sold unit that points to it. What is for programs is whole either way.
func TestOnlyChangedPagesAreMade(t *testing.T) {
	root := fstest.MapFS{"content/yard.md": {Data: []byte(yard)}}
	for i := 1; i <= 6; i++ {
		text := strings.Replace(sound, "stock: EX-1", fmt.Sprintf("stock: EX-%d", i), 1)
		switch i {
		case 2:
			text = strings.Replace(text, "on the yard", "sold", 1)
		case 6:
			text = strings.Replace(text, "kind: equipment", "kind: utility", 1)
		}
		root[fmt.Sprintf("content/units/ex-%d.md", i)] = &fstest.MapFile{Data: []byte(text)}
	}
	first := buildOver(t, root, nil)
	all := []string{"ex-1", "ex-2", "ex-3", "ex-4", "ex-5", "ex-6"}
	if got := unitsOf(slices.Collect(maps.Keys(first.added))); !slices.Equal(got, all) {
		t.Fatalf("made at first: %v", got)
	}
	again := buildOver(t, root, first.asked)
	if got := unitsOf(slices.Collect(maps.Keys(again.added))); len(got) > 0 {
		t.Errorf("made again without a change: %v", got)
	}
	for _, change := range []struct{ file, from, to, made string }{
		{"ex-1", "$5,200", "$5,300", "ex-1 ex-2"}, // the sold one points to it
		{"ex-6", "$5,200", "$5,300", "ex-6"},
		{"ex-2", "year: 2026", "year: 2025", "ex-2"},
	} {
		changed := maps.Clone(root)
		name := "content/units/" + change.file + ".md"
		changed[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(root[name].Data), change.from, change.to, 1))}
		now := buildOver(t, changed, first.asked)
		if got := strings.Join(unitsOf(slices.Collect(maps.Keys(now.added))), " "); got != change.made {
			t.Errorf("%s changed: made %q, want %q", change.file, got, change.made)
		}
		for _, n := range all {
			if want := `"` + strings.ToUpper(n) + `"`; n != "ex-2" && !strings.Contains(now.added["stock.json"], want) {
				t.Errorf("%s changed: stock.json lacks %s", change.file, want)
			}
		}
	}
}
