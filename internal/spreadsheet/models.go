package spreadsheet

import (
	"fmt"
	"path"
	"reflect"
	"regexp"
	"strings"

	"tarepage/internal/amend"
	"tarepage/internal/unit"
)

// ofOne are the keys that belong to one trailer. A maker's sheet says nothing about them; its
// prices are what the yard pays, or what the maker would like customers to pay.
var ofOne = map[string]bool{"stock": true, "serial": true, "availability": true, "price": true, "arrived": true, "condition": true,
	"color": true, "withhold": true, "tires.made": true}

// makers are the columns of a maker's sheet: those of one trailer are not taken.
func makers(columns []Column) []Column {
	for i, c := range columns {
		if ofOne[c.Key] {
			columns[i].Key, columns[i].Since = "", false
		}
	}
	return columns
}

var notInNames = regexp.MustCompile(`[^a-z0-9]+`)

// modelName is the name of the file of a model that a maker or a yard calls so: RG-35 is rg-35.
func modelName(called string) string {
	return strings.Trim(notInNames.ReplaceAllString(strings.ToLower(called), "-"), "-")
}

// Models says which files of models the rows of a maker's sheet make, and which units of the
// yard, that have a model by its maker's name, are to take their values from them. A model that
// is there is not changed; what differs is named.
func Models(t *Table, columns []Column, yard *unit.Stock, _ Past) Plan {
	p := Plan{Columns: makers(columns), Models: true}
	if p.unheaded(t, "model", "Model, Type, GVWR") {
		return p
	}
	keys := keyDocs()
	made := map[string]int{}
	for _, row := range t.Rows {
		values, faults := read(row, p.Columns, keys)
		called := values["model"]
		name := modelName(called)
		fault := ""
		switch {
		case called == "":
			fault = "it has no model"
		case notOne(called) != "":
			fault = notOne(called)
		case !unit.NamesPage(name):
			fault = fmt.Sprintf("model %q cannot name a file; write letters, digits and dashes", called)
		case made[name] > 0:
			fault = fmt.Sprintf("model %q is in row %d too", called, made[name])
		}
		if fault != "" {
			p.Faults = append(p.Faults, Fault{row.Number, "", fault})
			continue
		}
		made[name] = row.Number
		p.Faults = append(p.Faults, faults...)
		delete(values, "model")
		fit(values, nil)
		if m := yard.Models[name]; m != nil {
			p.edit(row.Number, t.Name, m, values, p.Columns)
			continue
		}
		n, err := p.draft(row.Number, called, path.Join("content/models", name+".md"), values, "maker's sheet")
		if err != nil {
			p.Faults = append(p.Faults, Fault{row.Number, "", err.Error()})
			continue
		}
		p.New = append(p.New, n)
	}
	p.takeUp(yard, made)
	return p
}

// takeUp names the file of its model in each unit that has the model by its maker's name.
func (p *Plan) takeUp(yard *unit.Stock, made map[string]int) {
	for _, u := range yard.Units {
		called := u.MakersModel()
		if row := made[modelName(called)]; called != "" && row > 0 {
			p.Edits = append(p.Edits, Edit{row, u.Stock.Value, u.File, called, amend.Change{Path: "model", Value: modelName(called)}})
		}
	}
}

// byModel lets a row of the yard's sheet name the file of its model. It returns the model, or nil
// where the yard has no such file.
func byModel(values map[string]string, models map[string]*unit.Unit) *unit.Unit {
	m := models[modelName(values["model"])]
	if m == nil {
		return nil
	}
	values["model"] = modelName(values["model"])
	return m
}

// without leaves out the values that the model gives too.
func without(values map[string]string, m *unit.Unit) {
	if m == nil {
		return
	}
	for _, g := range m.Givens() {
		if values[g.Path] == "" || g.Path == "model" {
			continue
		}
		if own, err := parsed(g.Path, values[g.Path]); err == nil && reflect.DeepEqual(own.Value, g.Value) {
			delete(values, g.Path)
		}
	}
}
