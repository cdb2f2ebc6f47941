package render_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/testyard"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// TestBriefsMakeTheSameSite: a site is the same to the byte whether all figures of all units
// are held or worked again for the pages of each. With the second, each unit's are worked once.
func TestBriefsMakeTheSameSite(t *testing.T) {
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
		if _, err := render.Site(theme.Files, in, func(path string, data []byte) error {
			site[path] = bytes.Clone(data)
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		return site
	}
	want := made(render.Input{Works: whole})
	var briefs []*compute.Work
	for _, w := range whole {
		briefs = append(briefs, w.Brief())
	}
	again := make(chan bool, 10*n)
	got := made(render.Input{Works: briefs, Again: func(u *unit.Unit) *compute.Work {
		again <- true
		return compute.Unit(u, compute.SettingsOf(stock.Yard))
	}})
	if len(again) != n {
		t.Errorf("figures of %d units were worked again %d times", n, len(again))
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
