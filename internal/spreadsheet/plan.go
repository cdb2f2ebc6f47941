package spreadsheet

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"path"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"tarepage/internal/amend"
	"tarepage/internal/unit"
)

// A Plan is what a sheet would do to the yard.
type Plan struct {
	Columns []Column
	// Models reports that the sheet is a maker's: New are files of models.
	Models bool
	New    []New
	Edits  []Edit
	// Held are the changes that are left alone, because the yard has something newer.
	Held   []Held
	Faults []Fault
	// Lacking are the units that lack values that the sheet has, and LackedKeys the keys of these
	// values. A sheet does not add them to a file that is there.
	Lacking, LackedKeys []string
	// Same is how many rows of known units change nothing.
	Same int
	// kept are the columns as an earlier sheet left them.
	kept map[string]string
	// past is what earlier sheets said, and said what this one adds to it.
	past Past
	said Past
}

// A New is a row that is not in the yard yet, with the file that it makes.
type New struct {
	Row int
	// Stock is the stock number of a unit, or what the maker calls a model.
	Stock, File string // SB-1060, content/units/sb-1060.md
	Text        []byte
}

// An Edit changes one key of a unit that the yard has.
type Edit struct {
	Row         int
	Stock, File string
	Old         string // as the file writes it; empty if the key is missing
	amend.Change
}

// A Fault is a cell that is not taken, or a row, where the column is empty.
type Fault struct {
	Row            int
	Column, Reason string
}

// editable are the keys that a sheet changes in a unit that the yard has. The others were
// read off the trailer itself, and a sheet does not overwrite that.
var editable = map[string]bool{"price": true, "availability": true, "arrived": true}

// Make compares the sheet with the units of the yard, and with what earlier sheets said.
func Make(t *Table, columns []Column, yard *unit.Stock, past Past) Plan {
	p := Plan{Columns: columns, past: past, said: Past{}}
	if p.unheaded(t, "stock", "Stock number, Price, Status") {
		return p
	}
	known := map[string]*unit.Unit{}
	for _, u := range yard.Units {
		known[strings.ToLower(u.Stock.Value)] = u
	}
	keys := keyDocs()
	seen, alike := map[string]int{}, likenessOf(yard)
	for _, row := range t.Rows {
		values, faults := read(row, columns, keys)
		stock := values["stock"]
		at := strings.ToLower(stock)
		switch {
		case stock == "":
			p.Faults = append(p.Faults, Fault{row.Number, "", "it has no stock number"})
			continue
		case notOne(stock) != "":
			p.Faults = append(p.Faults, Fault{row.Number, "", notOne(stock)})
			continue
		case !unit.NamesPage(stock):
			p.Faults = append(p.Faults, Fault{row.Number, "", fmt.Sprintf("stock number %q cannot name a page; use %s", stock, unit.StockForm)})
			continue
		case seen[at] > 0:
			p.Faults = append(p.Faults, Fault{row.Number, "", fmt.Sprintf("stock number %q is in row %d too", stock, seen[at])})
			continue
		}
		seen[at] = row.Number
		p.Faults = append(p.Faults, faults...)
		model := byModel(values, yard.Models)
		if u := known[at]; u != nil {
			p.edit(row.Number, t.Name, u, values, columns)
			continue
		}
		if why := alike.refuse(stock); why != "" {
			p.Faults = append(p.Faults, Fault{row.Number, "", why})
			continue
		}
		fit(values, model)
		without(values, model)
		n, err := p.draft(row.Number, stock, path.Join("content/units", strings.ToLower(stock)+".md"), values, "yard's sheet")
		if err != nil {
			p.Faults = append(p.Faults, Fault{row.Number, "", err.Error()})
			continue
		}
		p.New = append(p.New, n)
		p.hear(t.Name, stock, values, nil)
	}
	return p
}

// unheaded reports that no column has the key that names a row, and adds the fault: likely the
// sheet has no row of headings, and its first trailer was taken for one.
func (p *Plan) unheaded(t *Table, key, example string) bool {
	if slices.ContainsFunc(p.Columns, func(c Column) bool { return c.Key == key }) {
		return false
	}
	p.Faults = append(p.Faults, Fault{t.HeaderRow, "", fmt.Sprintf("this row was taken for the headings, and none of them is the column of the %s, so no row is read; "+
		"if it is not a row of headings, put one above it: %s; if it is one, name that column so", rowNames[key], example)})
	return true
}

// rowNames say what names a row, by key.
var rowNames = map[string]string{"stock": "stock number", "model": "model"}

// edit adds what a row changes in a unit.
func (p *Plan) edit(row int, sheet string, u *unit.Unit, values map[string]string, columns []Column) {
	given := map[string]unit.Given{}
	for _, g := range u.Givens() {
		given[g.Path] = g
	}
	p.hear(sheet, u.Stock.Value, values, given)
	p.lack(u, values, given)
	before := len(p.Edits) + len(p.Faults) + len(p.Held)
	for _, c := range columns {
		value := values[c.Key]
		if value == "" || c.Key == "stock" || c.Since {
			continue
		}
		now, _ := parsed(c.Key, value)
		was, has := given[c.Key]
		// The table that the site gives away says about in a column of its own.
		if has && reflect.DeepEqual(was.Value, now.Value) && (was.About == now.About || !editable[c.Key]) {
			continue
		}
		if !editable[c.Key] {
			if has {
				p.Faults = append(p.Faults, Fault{row, c.Header, fmt.Sprintf("%s is %s in %s and %s in the sheet; a sheet does not change it", c.Key, was.Text, u.File, value)})
			}
			continue
		}
		p.change(row, u, was, c.Key, value)
	}
	if len(p.Edits)+len(p.Faults)+len(p.Held) == before {
		p.Same++
	}
}

// lack notes which values of a row a unit does not have.
func (p *Plan) lack(u *unit.Unit, values map[string]string, has map[string]unit.Given) {
	values = maps.Clone(values)
	fit(values, u)
	lacks := false
	for key := range values {
		if _, ok := has[key]; ok || editable[key] || key == "title" || key == "stock" {
			continue
		}
		lacks = true
		if at, found := slices.BinarySearch(p.LackedKeys, key); !found {
			p.LackedKeys = slices.Insert(p.LackedKeys, at, key)
		}
	}
	if lacks {
		p.Lacking = append(p.Lacking, u.Stock.Value)
	}
}

// sizeAndRange matches a tire's size with its load range after it, in one cell: ST235/80R16 E,
// ST235/80R16 LRE. That yards write it so is common practice, no source.
var sizeAndRange = regexp.MustCompile(`(?i)^(\S*[0-9])[ ,]+\(?(?:lr|load range)? ?-?([B-N])\)?$`)

// read reads the cells of a row: values by key, as a unit file writes them.
func read(row Row, columns []Column, keys map[string]unit.KeyDoc) (values map[string]string, faults []Fault) {
	values = map[string]string{}
	since := map[string]string{}
	for i, c := range columns {
		cell := row.Cell(i)
		if c.Key == "" || cell == "" {
			continue
		}
		doc := keys[c.Key]
		if c.Since {
			doc.Kind = "date"
		}
		value, err := c.value(cell, doc)
		if err == nil && !c.Since {
			_, err = parsed(c.Key, value)
		}
		if err != nil {
			faults = append(faults, Fault{row.Number, c.Header, err.Error()})
			continue
		}
		if c.Since {
			since[c.Key] = value
		} else {
			values[c.Key] = value
		}
	}
	if m := sizeAndRange.FindStringSubmatch(values["tires.size"]); m != nil && (values["tires.load-range"] == "" || values["tires.load-range"] == m[2]) {
		values["tires.size"], values["tires.load-range"] = m[1], strings.ToUpper(m[2])
	}
	for key, day := range since {
		if values[key] != "" {
			values[key] += " (since " + day + ")"
		}
	}
	return values, faults
}

// inUnit are the lengths that everybody gives in one unit, so that their column needs none: balls
// are named by their inches (SAE J684).
var inUnit = map[string]string{"hitch.ball": "in"}

// mixed matches inches with a fraction: 2-5/16, 2 5/16.
var mixed = regexp.MustCompile(`^[0-9]+[ -][0-9]+/[0-9]+$`)

// twoReadings matches an amount with a point that may be a comma: 2.300.
var twoReadings = regexp.MustCompile(`^\$? ?([1-9][0-9]{0,2})\.([0-9]{3})$`)

// neither are everyday words for a condition that customers would read as more, or as less, than
// what the yard means. Common practice, no source.
var neither = regexp.MustCompile(`(?i)\b(demo|demonstrator|like.new|good|refurbished|nearly new|leftover|floor model|rental)\b`)

// value writes a cell as a unit file has it.
func (c Column) value(cell string, doc unit.KeyDoc) (string, error) {
	cell = c.plainCell(cell, doc.Kind)
	if err := odd(cell, doc.Kind); err != nil {
		return "", err
	}
	if err := cmp.Or(inParentheses(cell, doc.Kind), notATitle(c.Key, cell)); err != nil {
		return "", err
	}
	number, err := strconv.ParseFloat(strings.NewReplacer("$", "", ",", "").Replace(cell), 64)
	bare := err == nil && !math.IsInf(number, 0) && !math.IsNaN(number)
	digits := strconv.FormatFloat(math.Round(number*100)/100, 'f', -1, 64)
	switch doc.Kind {
	case "money":
		if m := twoReadings.FindStringSubmatch(cell); m != nil {
			return "", fmt.Errorf("%q can be read two ways; write %s,%s with a comma, or no more than two digits after the point", cell, m[1], m[2])
		}
		if err := c.tooCheap(cell, number); bare && err != nil {
			return "", err
		}
		if bare && number > 0 {
			return "$" + thousands(math.Round(number*100)/100), nil
		}
	case "weight":
		if bare {
			if err := c.tooSmall(cell, number); err != nil {
				return "", err
			}
			unit := c.Unit
			if unit == "" {
				unit = "lb" // a yard's sheet is in pounds; common practice, no source
			}
			return thousands(math.Round(number*100)/100) + " " + unit, nil
		}
	case "length":
		return c.length(cell, number, bare)
	case "count":
		if bare {
			return digits, nil
		}
	case "date":
		return day(cell, number, bare)
	case "choice":
		return c.choice(cell)
	}
	return cell, nil
}

// inParentheses is the error for a cell whose value has words in parentheses: the file has where the value
// comes from there, and only one pair of them.
func inParentheses(cell, kind string) error {
	before, _, words := strings.Cut(cell, "(")
	if !words || !measured[kind] || kind == "choice" {
		return nil
	}
	return fmt.Errorf("%q has words in parentheses; write %s alone in this cell", cell, strings.TrimSpace(before))
}

// choice writes one of the words that a key takes.
func (c Column) choice(cell string) (string, error) {
	if c.Key == "condition" && neither.MatchString(cell) {
		return "", fmt.Errorf("%q may be sold as new or as used; write new or used in this cell", cell)
	}
	if choice := unit.Everyday(c.Key, cell); choice != "" {
		return choice, nil
	}
	if kind := kindIn(cell); c.Key == "kind" && kind != "" {
		return kind, nil
	}
	return strings.ToLower(cell), nil
}

// length writes a length, which is in the unit of its column where the cell has none.
func (c Column) length(cell string, number float64, bare bool) (string, error) {
	if c.Unit == "" {
		c.Unit = inUnit[c.Key]
	}
	switch {
	case mixed.MatchString(cell) && c.Unit != "":
		return strings.Replace(cell, " ", "-", 1) + " " + c.Unit, nil
	case bare && c.Unit == "":
		return "", fmt.Errorf("%q has no unit; name the column %s (ft) or %s (in)", cell, c.Header, c.Header)
	case bare:
		return strconv.FormatFloat(number, 'f', -1, 64) + " " + c.Unit, nil
	}
	return cell, nil
}

// day reads a day: 2026-11-05, 11/5/2026, or the number by which a workbook keeps it.
func day(cell string, number float64, bare bool) (string, error) {
	// Between the first days of 1990 and 2100 in the numbers of ECMA-376, 18.17.4.1.
	if bare && number >= 32874 && number < 73051 {
		t, err := excelize.ExcelDateToTime(math.Floor(number), false)
		if err == nil {
			return t.Format("2006-01-02"), nil
		}
	}
	if us := unit.USDay(cell); us != "" {
		return us, nil
	}
	cell, _, _ = strings.Cut(cell, "T") // 2026-11-05T00:00:00
	_, err := unit.ParseDay(cell)
	return cell, err
}

// thousands writes an amount with commas.
func thousands(v float64) string {
	whole, cents := math.Modf(v)
	s := strconv.FormatFloat(whole, 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	if cents > 0 {
		s += strconv.FormatFloat(cents, 'f', 2, 64)[1:]
	}
	return s
}

// parsed reads a value with the reader of unit files, so that nothing goes into a file that
// does not read there.
func parsed(key, value string) (unit.Given, error) {
	file, err := amend.Apply([]byte("---\n---\n"), []amend.Change{{Path: key, Value: value}})
	if err != nil {
		return unit.Given{}, err
	}
	u, problems := unit.ReadUnit("row", file)
	if len(problems) > 0 {
		return unit.Given{}, errors.New(asCell(key, problems[0]))
	}
	for _, g := range u.Givens() {
		if g.Path == key {
			return g, nil
		}
	}
	return unit.Given{}, fmt.Errorf("%s is not a value for %s", value, key)
}

// asCell says of a cell what the reader of unit files says of a value, and what to write in it.
func asCell(key string, p unit.Problem) string {
	_, name, in := strings.Cut(key, ".")
	if !in {
		name = key
	}
	message := strings.TrimPrefix(p.Message, key+": ")
	switch instead, meant := strings.CutPrefix(p.Remedy, "write "+name+": "); {
	case strings.HasPrefix(p.Remedy, "go and look"), strings.HasPrefix(p.Remedy, "leave the line out"):
		return message + "; leave the cell empty until somebody knows it"
	case strings.HasPrefix(p.Remedy, "leave the key out"):
		return message + "; or leave the cell empty, and the page asks to call"
	case meant && !strings.HasPrefix(instead, "and one of") && !strings.Contains(message, instead):
		return message + "; write " + instead
	}
	return message
}

// noted are the kinds of value whose file says where they come from.
var noted = map[string]bool{"weight": true, "length": true, "pressure": true, "count": true}

// draft writes the file of a new row, in the order of the keys. From is where its numbers come
// from.
func (p *Plan) draft(row int, called, file string, values map[string]string, from string) (New, error) {
	n := New{Row: row, Stock: called, File: file}
	var changes []amend.Change
	for _, k := range unit.Keys() {
		value := values[k.Path]
		if value == "" {
			continue
		}
		if noted[k.Kind] && k.Path != "year" {
			value += " (" + from + ")"
		}
		changes = append(changes, amend.Change{Path: k.Path, Value: value})
	}
	blank := "---\n---\n\n## First look\n"
	if p.Models {
		blank = "---\n---\n\nMade of the maker's sheet. These words are shown nowhere.\n"
	}
	var err error
	n.Text, err = amend.Apply([]byte(blank), changes)
	return n, err
}
