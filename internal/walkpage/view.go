package walkpage

import (
	"cmp"
	"path"
	"slices"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

// A view is what the page shows of a unit, as JSON.
type view struct {
	Name     string             `json:"name"`
	Stock    string             `json:"stock"`
	Title    string             `json:"title"`
	Page     string             `json:"page,omitempty"` // its page in the showroom
	Today    string             `json:"today"`
	Broken   bool               `json:"broken"`
	Stations []walkback.Station `json:"stations"`
	Sale     []walkback.Line    `json:"sale"`
	Figures  []figure           `json:"figures"`
	Findings []finding          `json:"findings"`
	Outcomes []walkback.Outcome `json:"outcomes"`
	// NoteTaken reports that the note is in the file, NoteRefused why not.
	NoteTaken   bool   `json:"noteTaken"`
	NoteRefused string `json:"noteRefused,omitempty"`
}

type figure struct {
	Label string `json:"label"`
	Text  string `json:"text"`
}

type finding struct {
	Severity string `json:"severity"`
	Message  string `json:"message"`
	Remedy   string `json:"remedy"`
	rule     string
}

// shown are the figures that a value at the trailer changes, most important first.
var shown = []string{"tag-payload", "payload", "working-payload", "tire-capacity", "wheel-capacity", "axle-capacity", "tire-reserve",
	"tongue-at-gvwr", "tongue-share", "even-load-payload", "overall-length"}

// viewOf is what the page shows of a unit whose file has these bytes.
func (d *Desk) viewOf(name string, src []byte) (*view, error) {
	u, w, found, err := d.LookAt(name+".md", src)
	if err != nil {
		return nil, err
	}
	v := &view{Name: name, Stock: u.Stock.Value, Title: u.Title.Value, Today: d.Today(), Broken: u.Broken,
		Stations: []walkback.Station{}, Sale: []walkback.Line{}, Figures: []figure{}, Findings: []finding{}, Outcomes: []walkback.Outcome{}}
	if !u.Broken {
		v.Stations, v.Sale, v.Figures = walkback.Stations(u, src), walkback.Sale(u, src), figures(w)
	}
	for _, f := range found {
		if f.Severity != inspect.Remark {
			v.Findings = append(v.Findings, finding{f.Severity.String(), f.Message, f.Remedy, f.Rule.Name})
		}
	}
	// What keeps the unit off the site comes first.
	slices.SortStableFunc(v.Findings, func(a, b finding) int {
		return cmp.Compare(rank(a), rank(b))
	})
	return v, nil
}

// rank is 0 for a stop and 1 for a caution.
func rank(f finding) int {
	if f.Severity == inspect.Stop.String() {
		return 0
	}
	return 1
}

func figures(w *compute.Work) []figure {
	out := []figure{}
	for _, name := range shown {
		if f := w.Figure(name); f != nil {
			out = append(out, figure{f.Label, f.Text})
		}
	}
	return out
}

// row is one unit in the list of units.
type row struct {
	Name, Stock, Title, State string
	Open                      int
	Broken                    bool
}

// rows are the units, those with something to confirm first.
func rows(stock *unit.Stock, read func(name string) []byte) (open, done []row) {
	for _, u := range stock.Units {
		name := strings.TrimSuffix(path.Base(u.File), ".md")
		r := row{Name: name, Stock: u.Stock.Value, Title: u.Title.Value, State: u.Availability.Value, Broken: u.Broken}
		if r.Stock == "" {
			r.Stock = name
		}
		for _, s := range walkback.Stations(u, read(name)) {
			r.Open += len(s.Open)
		}
		if r.Open > 0 && u.Availability.Value != "sold" || r.Broken {
			open = append(open, r)
		} else {
			done = append(done, r)
		}
	}
	return open, done
}
