package render

import (
	"errors"
	"io/fs"
	"testing"

	"tarepage/internal/unit"
)

// TestNoSuchPageIsToldAtOnce: the page of a unit that was just broken, deleted or renamed is
// asked for again, and a browser asks for files of its own choice. The answer does not wait
// for the pages of the whole yard.
func TestNoSuchPageIsToldAtOnce(t *testing.T) {
	waited := ""
	s := &OnDemand{m: &maker{templates: &templates{}}}
	s.m.in.Stock = &unit.Stock{Yard: &unit.Yard{}}
	s.many = func() (*many, error) { waited = "many"; return &many{}, nil }
	s.programs = func() (map[string][]byte, error) { waited += " programs"; return nil, nil }
	for _, row := range []struct{ path, waits string }{
		{"u/gone.html", ""}, {"figures/gone.html", ""}, {"lot/gone.html", ""}, {"handover/gone.html", ""},
		{"favicon.ico", ""}, {"a/b/c", ""}, {"u/gone.js", ""},
		{"nowhere.html", "many"}, {"s/stock-00000000.js", "many"}, {"list-2.html", "many"}, {"kept.js", "many"},
		{"stock.json", "many programs"}, {"sitemap.xml", "many programs"}, {"sitemap-2.xml", "many programs"},
		{"arrivals.atom", "many programs"}, {"arrivals.json", "many programs"}, {"robots.txt", "many programs"},
	} {
		waited = ""
		if _, err := s.File(row.path); !errors.Is(err, fs.ErrNotExist) || waited != row.waits {
			t.Errorf("%s waited for %q, want %q: %v", row.path, waited, row.waits, err)
		}
	}
}
