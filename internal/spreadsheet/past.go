package spreadsheet

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"tarepage/internal/amend"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// PastName is the file below content/ that keeps what earlier sheets said. Without it an old sheet,
// run again, would undo what was changed in the yard since.
const PastName = "from-sheets.csv"

// Past is what earlier sheets said of the keys that a sheet changes, and what the yard had after
// them. A nil Past knows nothing.
type Past map[about]map[string]string

// about is a key of a unit. What was said about it is kept by the name of the sheet's file. What the
// yard had after the last sheet has the name "".
type about struct{ stock, key string }

var pastHeader = []string{"sheet", "stock", "key", "value"}

// say notes what a sheet said. A yard may write its stock numbers and file names in other letters
// next time.
func (p Past) say(sheet, stock, key, value string) {
	at := about{strings.ToLower(stock), key}
	if p[at] == nil {
		p[at] = map[string]string{}
	}
	p[at][strings.ToLower(sheet)] = value
}

// ParsePast reads the file that Past.Bytes wrote.
func ParsePast(text []byte) (Past, error) {
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err == nil && (len(rows) == 0 || !slices.Equal(rows[0], pastHeader)) {
		err = fmt.Errorf("its first line is not %q", strings.Join(pastHeader, ","))
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w; put back a copy of it, or delete it: then an old sheet is known by the days in the files only", PastName, err)
	}
	p := Past{}
	for _, r := range rows[1:] {
		for i := range r {
			r[i] = stockfile.Plain(r[i])
		}
		p.say(r[0], r[1], r[2], r[3])
	}
	return p, nil
}

// Bytes is the file of what was said, in order.
func (p Past) Bytes() ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	err := w.Write(pastHeader)
	order := func(a, b about) int {
		return cmp.Or(strings.Compare(a.stock, b.stock), strings.Compare(a.key, b.key))
	}
	for _, at := range slices.SortedFunc(maps.Keys(p), order) {
		for _, sheet := range slices.Sorted(maps.Keys(p[at])) {
			// A sheet may have any name, and the owner may open this file in a spreadsheet.
			row := []string{sheet, at.stock, at.key, p[at][sheet]}
			for i := range row {
				row[i] = stockfile.Safe(row[i])
			}
			err = errors.Join(err, w.Write(row))
		}
	}
	w.Flush()
	return b.Bytes(), errors.Join(err, w.Error())
}

// A Held is a change that a sheet would make and that is left alone, because what the yard has is
// newer or sold.
type Held struct {
	Edit
	Why string
}

// stays says why a value of the yard is kept against a sheet's; empty if the sheet's is taken. Sold
// is always kept. A trailer that the sheet sells is taken, if the sheet did not say so before.
func (p Past) stays(u *unit.Unit, was unit.Given, key, value string) string {
	past := p[about{strings.ToLower(u.Stock.Value), key}]
	now, _ := parsed(key, value)
	if key == "availability" && was.Value == "sold" {
		return "it is sold"
	}
	for sheet, earlier := range past {
		if sheet != "" && earlier == value {
			return "the sheet said the same before, so the yard's is newer"
		}
	}
	held, sheets := sinceDay(u, key), now.From.Date()
	if held != "" && sheets != "" {
		if held > sheets {
			return "the yard's day is later"
		}
		return ""
	}
	if key == "availability" && now.Value == "sold" {
		return ""
	}
	if seen, ok := past[""]; ok {
		if then, err := parsed(key, seen); err == nil && !reflect.DeepEqual(then.Value, was.Value) {
			return "it was changed in the yard after the last sheet"
		}
		return ""
	}
	if held != "" {
		return "the yard's has a day and the sheet's has none"
	}
	return ""
}

// sinceDay is the day since when a unit's value holds; empty if the file does not say.
func sinceDay(u *unit.Unit, key string) string {
	day := unit.Day{}
	switch key {
	case "price":
		day = u.Price.Since()
	case "availability":
		day = u.Availability.Since()
	}
	if day == (unit.Day{}) {
		return ""
	}
	return day.String()
}

// Anyway takes what was kept of these units after all. The error names a unit of which nothing was kept.
func (p *Plan) Anyway(stocks []string) error {
	for _, stock := range stocks {
		n := len(p.Held)
		p.Held = slices.DeleteFunc(p.Held, func(k Held) bool {
			take := strings.EqualFold(k.Stock, stock)
			if take {
				p.Edits = append(p.Edits, k.Edit)
			}
			return take
		})
		if len(p.Held) == n {
			return fmt.Errorf("-anyway %s: nothing of it is kept against this sheet; run sheet without -anyway, and it names the units", stock)
		}
	}
	return nil
}

// remember is the past with this sheet in it: what it said, and what the yard has after it.
func (p *Plan) remember() Past {
	out := Past{}
	for _, past := range []Past{p.past, p.said} {
		for at, by := range past {
			for sheet, value := range by {
				out.say(sheet, at.stock, at.key, value)
			}
		}
	}
	for _, e := range p.Edits {
		out.say("", e.Stock, e.Path, e.Value)
	}
	return out
}

// hear notes what a row says of the keys that a sheet changes, and what the yard has of them now.
// A new unit has what the sheet says.
func (p *Plan) hear(sheet, stock string, values map[string]string, has map[string]unit.Given) {
	for key := range editable {
		value := values[key]
		if value == "" || p.Models {
			continue
		}
		p.said.say(sheet, stock, key, value)
		if g, ok := has[key]; ok {
			value = g.Text
		}
		p.said.say("", stock, key, value)
	}
}

// change adds a change of a unit's value, or keeps what the yard has.
func (p *Plan) change(row int, u *unit.Unit, was unit.Given, key, value string) {
	e := Edit{row, u.Stock.Value, u.File, was.Text, amend.Change{Path: key, Value: value}}
	if why := p.past.stays(u, was, key, value); why != "" && was.Text != "" {
		if day := sinceDay(u, key); day != "" {
			e.Old += " (since " + day + ")"
		}
		p.Held = append(p.Held, Held{e, why})
		return
	}
	p.Edits = append(p.Edits, e)
}
