package render_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/testyard"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// TestBriefsMakeTheSameSite: a site is the same to the byte whether all figures of all units
// are held or worked again for the pages of each. In the second case each unit's figures are worked once.
func TestBriefsMakeTheSameSite(t *testing.T) {
	thorough.Only(t)
	const n = 40
	root := fstest.MapFS{}
	for _, f := range testyard.Yard(n) {
		root[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	whole := compute.Stock(stock)
	findings := inspect.Stock(stock, whole, problems)
	made := func(in render.Input) map[string][]byte {
		site := map[string][]byte{}
		in.Stock, in.Findings = stock, findings
		if _, err := render.Site(theme.Files, in, render.AddFunc(func(path string, data []byte) error {
			site[path] = bytes.Clone(data)
			return nil
		})); err != nil {
			t.Fatal(err)
		}
		return site
	}
	want := made(render.Input{Works: whole})
	var briefs []*compute.Work
	for _, w := range whole {
		briefs = append(briefs, w.Brief())
	}
	asked := figures{compute.SettingsOf(stock.Yard), make(chan bool, 10*n)}
	got := made(render.Input{Works: briefs, Figures: asked})
	if len(asked.times) != n {
		t.Errorf("the figures of %d units were asked for %d times", n, len(asked.times))
	}
	if len(got) != len(want) || len(want) < 4*n {
		t.Errorf("%d files from briefs, %d from all figures", len(got), len(want))
	}
	for path, text := range want {
		if !bytes.Equal(got[path], text) {
			t.Errorf("%s differs", path)
		}
	}
}

// figures works out all figures of a unit and counts how often it is asked.
type figures struct {
	settings compute.Settings
	times    chan bool
}

func (f figures) Of(u *unit.Unit) *compute.Work {
	f.times <- true
	return compute.Unit(u, f.settings)
}
