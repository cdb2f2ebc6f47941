package pagedata

import (
	"encoding/json"
	"strconv"

	"tarepage/internal/measure"
)

// What the yard page loads only when somebody asks for it: the serials, the days on which the
// trailers came, and what a comparison adds. Each is a script that calls COLUMN with its name.

// detailsOf is how many trailers share a file of details: a comparison has four at most.
const detailsOf = 64

// comparedFigures are the figures that a comparison adds, each with its key in the table of
// phrases, where "first " comes before it.
var comparedFigures = []struct{ key, name string }{
	{"working", "working-payload"}, {"truck", "tongue-at-gvwr"}, {"angle", "loading-angle"},
}

// ComparedRows are these keys.
func ComparedRows() (out []string) {
	for _, f := range comparedFigures {
		out = append(out, f.key)
	}
	return out
}

// detail is what a comparison adds of one trailer: the figures of comparedFigures, then its
// cautions, each as text and in metric units. The second is empty where both are alike.
type detail struct {
	Figures  [][2]string `json:"f"`
	Cautions [][2]string `json:"c"`
}

// Details are the files of details, in the order of the trailers.
func Details(list []Trailer) (out [][]byte, err error) {
	for from := 0; from < len(list); from += detailsOf {
		part := list[from:min(from+detailsOf, len(list))]
		details := make([]detail, len(part))
		for i := range part {
			details[i] = detailOf(&part[i])
		}
		text, err := column("details"+strconv.Itoa(len(out)), details)
		if err != nil {
			return nil, err
		}
		out = append(out, text)
	}
	return out, nil
}

func detailOf(t *Trailer) detail {
	d := detail{Figures: make([][2]string, len(comparedFigures)), Cautions: [][2]string{}}
	for i, c := range comparedFigures {
		if f := t.Work.Figure(c.name); f != nil {
			d.Figures[i] = [2]string{t.Lang.Plain(f.Text), t.Lang.Plain(t.Work.Metric(f))}
		}
	}
	exact := t.Work.Brief().MetricOf() // the same whether all figures are at hand or not
	for _, w := range t.Warnings {
		d.Cautions = append(d.Cautions, [2]string{t.Lang.Plain(w), t.Lang.Plain(measure.InMetric(w, exact))})
	}
	return d
}

// Serials are the serials of the trailers; empty for none.
func Serials(list []Trailer) ([]byte, error) {
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = t.Serial.Value
	}
	return column("serials", out)
}

// Days are the days on which the trailers came, counted as unit.Day does; 0 for unknown.
func Days(list []Trailer) ([]byte, error) {
	out := make([]int, len(list))
	for i, t := range list {
		if d := t.Arrived.Value; d.Known() {
			out[i] = d.Days()
		}
	}
	return column("days", out)
}

// column is a script that hands a value to the yard page.
func column(name string, value any) ([]byte, error) {
	text, err := json.Marshal([]any{name, value})
	if err != nil {
		return nil, err
	}
	return []byte("COLUMN(" + string(text[1:len(text)-1]) + ");\n"), nil
}
