package inspect

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// exampleRun is what becomes of the units of one case.
type exampleRun struct {
	works    []*compute.Work
	findings []Finding
}

func runOf(t *testing.T, files []ExampleFile) exampleRun {
	t.Helper()
	stock, problems, err := readExample(files)
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	for i, w := range works {
		if w == nil { // set aside
			works[i] = &compute.Work{Unit: &unit.Unit{}}
		}
	}
	return exampleRun{works, Stock(stock, works, problems)}
}

// stops are the rules that stop a unit.
func (o exampleRun) stops(file string) []string {
	var out []string
	for _, f := range o.findings {
		if f.Unit == file && f.Severity == Stop {
			out = append(out, f.Rule.Name)
		}
	}
	return out
}

// names reports whether a stop or a caution of the unit points at the place.
func (o exampleRun) names(file string, at unit.Pos) bool {
	return slices.ContainsFunc(o.findings, func(f Finding) bool {
		return f.Unit == file && f.Severity != Remark &&
			(f.At == at || slices.ContainsFunc(f.Related, func(p unit.Place) bool { return p.At == at }))
	})
}

// withUnknown writes "unknown" in the place of one value.
func withUnknown(t *testing.T, files []ExampleFile, at unit.Pos) ([]ExampleFile, bool) {
	t.Helper()
	out := slices.Clone(files)
	i := slices.IndexFunc(out, func(f ExampleFile) bool { return f.Name == at.File })
	if i < 0 {
		data, err := archives.ReadFile(path.Join("examples", strings.TrimPrefix(at.File, "content/")))
		if err != nil {
			t.Fatal(err)
		}
		i, out = len(out), append(out, ExampleFile{Name: at.File, Text: string(data)})
	}
	lines := strings.Split(out[i].Text, "\n")
	line := []rune(lines[at.Line-1])
	if strings.Contains(string(line), "{") {
		return nil, false
	}
	lines[at.Line-1] = string(line[:at.Column-1]) + "unknown (nobody could look)"
	out[i].Text = strings.Join(lines, "\n")
	return out, true
}

// isUnknown reports whether the unit was read to say that nobody knows the key's value.
func isUnknown(u *unit.Unit, key string) bool {
	for _, group := range u.Stated() {
		for _, row := range group.Rows {
			if row.Path == key {
				return row.Text == "not known: nobody could look"
			}
		}
	}
	return false
}

// TestUnknownHidesNothing writes "unknown" in the place of every value of every example, one
// at a time. The payload may not grow and a stop may not go away, unless a stop or a caution
// points at the unknown value, or the page has no payload.
func TestUnknownHidesNothing(t *testing.T) {
	thorough.Only(t)
	tried := map[string]int{}
	for _, r := range All {
		examples, err := CasesOf(r)
		if err != nil {
			t.Fatal(err)
		}
		for _, ex := range examples {
			if slices.ContainsFunc(ex.Files, func(f ExampleFile) bool { return strings.HasPrefix(f.Name, "content/media/") }) {
				continue // photos and recordings take long to read and have no such values
			}
			before := runOf(t, ex.Files)
			for i, w := range before.works {
				for _, g := range w.Unit.Givens() {
					// What a model fills in is tried once for each model and key.
					if g.Pos.File != w.Unit.File && tried[g.Pos.File+" "+g.Path] > 0 {
						continue
					}
					// In one archive a key is tried once with the rule broken and, to save time, where
					// it is not broken only until the key was tried four times.
					broken := slices.Contains(before.stops(w.Unit.File), r.Name)
					once := fmt.Sprintf("%s %s %v", r.Name, g.Path, broken)
					if tried[once] > 0 || !broken && tried[g.Path] >= 4 {
						continue
					}
					if _, words := g.Value.(string); words && !limiting(g.Path) {
						continue // words that limit nothing can hide nothing
					}
					files, ok := withUnknown(t, ex.Files, g.Pos)
					if !ok {
						continue
					}
					after := runOf(t, files)
					if i >= len(after.works) || after.works[i].Unit.File != w.Unit.File || !isUnknown(after.works[i].Unit, g.Path) {
						continue
					}
					tried[g.Path]++
					tried[once]++
					tried[g.Pos.File+" "+g.Path]++
					file, now := w.Unit.File, after.works[i].Payload
					named := after.names(file, g.Pos)
					if now.Known && (!w.Payload.Known || !measure.NotOver(now.Value, w.Payload.Value)) && !named {
						t.Errorf("%s/%s: %s unknown: payload %v becomes %v, and nothing says so", r.Name, ex.Case, g.Path, w.Payload, now)
					}
					for _, stop := range before.stops(file) {
						if !slices.Contains(after.stops(file), stop) && !named {
							t.Errorf("%s/%s: %s unknown takes the stop %s away, and nothing says so", r.Name, ex.Case, g.Path, stop)
						}
					}
				}
			}
		}
	}
	for _, key := range []string{"axles.count", "axles.rating", "brakes.axles", "brakes.breakaway", "deck.length", "hitch.ball", "hitch.chains.breaking",
		"hitch.rating", "hitch.tongue-limit", "tires.load-range", "tires.per-axle", "tires.sidewall.single", "tires.size", "tires.wheel", "weights.empty", "weights.gvwr"} {
		if tried[key] == 0 {
			t.Errorf("%s was never tried", key)
		}
	}
}
