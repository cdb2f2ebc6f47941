package report

import (
	"bytes"
	"encoding/json"
	"io"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/orderedjson"
	"tarepage/internal/unit"
)

type jsonYard struct {
	Units    []jsonUnit    `json:"units"`
	Findings []jsonFinding `json:"findings"`
}

type jsonUnit struct {
	Stock    string        `json:"stock"`
	File     string        `json:"file"`
	Figures  jsonFigures   `json:"figures"`
	Absent   []jsonAbsence `json:"absent"`
	Findings []jsonFinding `json:"findings"`
}

type jsonFigure struct {
	Value    float64     `json:"value"`
	Unit     string      `json:"unit"`
	Text     string      `json:"text"`
	Working  string      `json:"working"`
	Source   string      `json:"source"`
	Practice bool        `json:"practice,omitempty"`
	About    bool        `json:"about,omitempty"`
	Inputs   []jsonInput `json:"inputs"`
	Notes    []string    `json:"notes,omitempty"`
}

type jsonInput struct {
	Key    string `json:"key"`
	Text   string `json:"text"`
	From   string `json:"from,omitempty"`
	File   string `json:"file"`
	Line   int32  `json:"line"`
	Column int32  `json:"column"`
}

type jsonAbsence struct {
	Name  string   `json:"name"`
	Needs []string `json:"needs"`
}

type jsonFinding struct {
	Rule     string      `json:"rule"`
	Severity string      `json:"severity"`
	File     string      `json:"file"`
	Line     int32       `json:"line"`
	Column   int32       `json:"column"`
	Message  string      `json:"message"`
	Value    string      `json:"value,omitempty"`
	Limit    string      `json:"limit,omitempty"`
	Related  []jsonPlace `json:"related,omitempty"`
	Source   string      `json:"source"`
	Remedy   string      `json:"remedy"`
}

type jsonPlace struct {
	File   string `json:"file"`
	Line   int32  `json:"line"`
	Column int32  `json:"column"`
	What   string `json:"what"`
}

// jsonFigures is an object that keeps the figures' own order.
type jsonFigures struct {
	names []string
	of    *compute.Work
}

func (f jsonFigures) MarshalJSON() ([]byte, error) {
	return orderedjson.Object(func(yield func(string, jsonFigure) bool) {
		for _, name := range f.names {
			fig := f.of.Figure(name)
			out := jsonFigure{Value: fig.Value, Unit: fig.Unit, Text: fig.Text, Working: fig.Working(),
				Source: fig.Source, Practice: fig.Practice, About: fig.About, Notes: fig.Notes(), Inputs: []jsonInput{}}
			for _, in := range fig.Inputs {
				out.Inputs = append(out.Inputs, jsonInput{in.Key, in.Text(), in.From.String(), in.At.File, in.At.Line, in.At.Column})
			}
			if !yield(name, out) {
				return
			}
		}
	})
}

// JSON prints the figures and findings of each unit. Findings that do not belong to a unit are in
// a list of their own.
func JSON(w io.Writer, s *unit.Stock, works []*compute.Work, list []inspect.Finding) error {
	yard := jsonYard{Units: []jsonUnit{}, Findings: []jsonFinding{}}
	index := map[string]int{}
	for i, u := range s.Units {
		index[u.File] = i
		out := jsonUnit{Stock: u.Stock.Value, File: u.File, Findings: []jsonFinding{}, Absent: []jsonAbsence{}}
		if works[i] != nil {
			out.Figures = jsonFigures{figureNames(works[i]), works[i]}
			for _, a := range works[i].Absent {
				needs := []string{}
				for _, n := range a.Needs {
					needs = append(needs, n.Advice)
				}
				out.Absent = append(out.Absent, jsonAbsence{a.Name, needs})
			}
		}
		yard.Units = append(yard.Units, out)
	}
	for _, f := range list {
		out := jsonFinding{Rule: f.Rule.Name, Severity: f.Severity.String(), File: f.At.File, Line: f.At.Line, Column: f.At.Column,
			Message: f.Message, Value: f.Value, Limit: f.Limit, Source: f.Source, Remedy: f.Remedy}
		for _, r := range f.Related {
			out.Related = append(out.Related, jsonPlace{r.At.File, r.At.Line, r.At.Column, r.What})
		}
		if i, ok := index[f.Unit]; ok {
			yard.Units[i].Findings = append(yard.Units[i].Findings, out)
		} else {
			yard.Findings = append(yard.Findings, out)
		}
	}
	raw, err := orderedjson.Marshal(yard)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := json.Indent(&b, raw, "", "  "); err != nil {
		return err
	}
	b.WriteByte('\n')
	_, err = w.Write(b.Bytes())
	return err
}
