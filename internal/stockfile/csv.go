package stockfile

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A line is what one row of the table is made from.
type line struct {
	yard  *unit.Yard
	unit  *Unit
	given map[string]unit.Given
}

// A column of the table: its name and its text. An empty text means "not known".
type column struct {
	name string
	text func(*line) string
}

// word is a column of what a trailer's file says in words.
func word(name string, text func(*unit.Unit) string) column {
	return column{name, func(l *line) string { return text(l.unit.Work.Unit) }}
}

// source is the name of the column that says where the number of a column comes from.
func source(name string) string { return name[:strings.LastIndexByte(name, '-')] + "-from" }

// measured is a column for a stated number and one for where it comes from, by its key.
func measured(name, path string) []column {
	return []column{
		{name, func(l *line) string {
			if n, ok := numberOf(l.given[path].Value); ok {
				return bare(n.value)
			}
			return ""
		}},
		{source(name), func(l *line) string {
			if g, ok := l.given[path]; ok {
				return origin(g.From.String(), g.About)
			}
			return ""
		}},
	}
}

// worked is a column for a figure and one for its working.
func worked(name, figure string) []column {
	return []column{
		{name, func(l *line) string {
			if f := l.unit.Work.Figure(figure); f != nil {
				return rounded(f)
			}
			return ""
		}},
		{source(name), func(l *line) string {
			if f := l.unit.Work.Figure(figure); f != nil {
				return origin(workedOut+": "+f.Working(), f.About)
			}
			return ""
		}},
	}
}

// origin is where a number comes from, with about in front of an approximate one.
func origin(from string, about bool) string {
	if from == "" {
		from = "stated, no note"
	}
	if about {
		return "about, " + from
	}
	return from
}

// columns are the table's columns. They are only ever added to at the end: programs
// count them.
func columns() []column {
	out := append(nameColumns(), numberColumns()...)
	out = append(out, column{"cautions", func(l *line) string { return strings.Join(l.unit.Cautions, " | ") }})
	return append(out, moreColumns()...)
}

// moreColumns came later, so they are after the cautions.
func moreColumns() []column {
	out := append(append(append(measured("overall-width-in", "overall-width"), measured("overall-length-in", "overall-length")...),
		measured("overall-height-in", "overall-height")...), measured("tank-volume-gal", "tank.volume")...)
	for _, path := range []string{"hitch.plug", "brakes.type", "frame.material", "frame.finish", "gate.kind", "winch.kind", "hoist.kind", "equipment.tarp",
		"ownership.paper", "warranty", "wear.defects"} {
		out = append(out, column{strings.ReplaceAll(path, ".", "-"), func(l *line) string { return l.given[path].Text }})
	}
	for _, path := range []string{"offer.cash", "offer.was"} {
		out = append(out, column{strings.ReplaceAll(path, ".", "-") + "-usd", func(l *line) string {
			if n, ok := numberOf(l.given[path].Value); ok && priced(l.unit.Work.Unit) {
				return bare(n.value)
			}
			return ""
		}})
	}
	out = append(out, column{"offer-plus", func(l *line) string {
		if !priced(l.unit.Work.Unit) {
			return ""
		}
		return l.given["offer.plus"].Text
	}})
	// An approximate price says so too.
	for _, path := range []string{"price", "offer.cash", "offer.was"} {
		out = append(out, column{strings.ReplaceAll(path, ".", "-") + "-about", func(l *line) string {
			if priced(l.unit.Work.Unit) && l.given[path].About {
				return "about"
			}
			return ""
		}})
	}
	return append(out, laterColumns()...)
}

// laterColumns came after those.
func laterColumns() (out []column) {
	for _, pair := range [][]column{
		measured("max-load-lb", "weights.max-load"), measured("loaded-lb", "weights.loaded"), measured("kingpin-in", "hitch.kingpin"),
		measured("deck-height-loaded-in", "deck.height-loaded"), measured("concentrated-lb", "deck.concentrated"),
		measured("concentrated-length-in", "deck.concentrated-length"),
	} {
		out = append(out, pair...)
	}
	for _, path := range []string{"weights.loaded-with", "brakes.abs", "winch.count", "bed.traps"} {
		out = append(out, column{strings.ReplaceAll(path, ".", "-"), func(l *line) string { return l.given[path].Text }})
	}
	return append(append(out,
		word("built", func(u *unit.Unit) string {
			if !u.Built.Given() {
				return ""
			}
			return u.Built.Value.String()
		}),
		word("ratings-photographed", func(u *unit.Unit) string {
			proven, all := u.PhotographedRatings()
			return measure.Count(proven) + " of " + measure.Count(all)
		}),
		word("photographed", photographed),
		word("inspected", func(u *unit.Unit) string { return dated(u.Wear.Checked.Value) })), latestColumns()...)
}

// latestColumns came last.
func latestColumns() (out []column) {
	for _, pair := range [][]column{
		measured("bin-included-volume-gal", "bin.included-volume"), measured("fresh-water-gal", "equipment.fresh-water"),
		measured("gray-water-gal", "equipment.gray-water"),
	} {
		out = append(out, pair...)
	}
	return append(out,
		word("tank-tested", func(u *unit.Unit) string {
			if !u.Tank.Tested.Given() {
				return ""
			}
			return u.Tank.Tested.Value.String()
		}),
		column{"tank-tests", func(l *line) string { return l.given["tank.tests"].Text }})
}

// photographed lists the keys of the values that a photo proves, with what it shows.
func photographed(u *unit.Unit) string {
	var out []string
	for _, g := range u.Givens() {
		if p := u.ProofOf(g.Path); p != nil && shown(g.Path) {
			out = append(out, g.Path+": "+p.Photographed(g.From))
		}
	}
	return strings.Join(out, " | ")
}

// nameColumns say what the trailer is and what it costs.
func nameColumns() []column {
	return []column{
		word("stock", func(u *unit.Unit) string { return u.Stock.Value }),
		{"page", func(l *line) string { return l.unit.Page }},
		{"url", func(l *line) string { return l.unit.Address }},
		word("title", func(u *unit.Unit) string { return u.Title.Value }),
		word("kind", func(u *unit.Unit) string { return u.Kind.Value }),
		word("make", func(u *unit.Unit) string { return u.Make.Value }),
		word("year", func(u *unit.Unit) string {
			if !u.Year.Given() {
				return ""
			}
			return strconv.Itoa(u.Year.Value)
		}),
		word("serial", func(u *unit.Unit) string { return u.Serial.Value }),
		word("condition", func(u *unit.Unit) string { return u.Condition.Value }),
		word("color", func(u *unit.Unit) string { return u.Color.Value }),
		word("availability", func(u *unit.Unit) string { return u.Availability.Value }),
		word("availability-since", func(u *unit.Unit) string { return dated(u.Availability.Since()) }),
		{"as-of", func(l *line) string { return dated(l.yard.AsOf.Value) }},
		word("arrived", func(u *unit.Unit) string { return dated(u.Arrived.Value) }),
		word("changed", func(u *unit.Unit) string { return dated(u.Changed()) }),
		word("price-usd", func(u *unit.Unit) string {
			if !priced(u) {
				return ""
			}
			return bare(float64(u.Price.Value))
		}),
		word("price-since", func(u *unit.Unit) string {
			if !priced(u) {
				return ""
			}
			return dated(u.Price.Since())
		}),
		{"price-excludes", func(l *line) string {
			if !priced(l.unit.Work.Unit) {
				return ""
			}
			return l.yard.Excludes.Value
		}},
		word("hitch", func(u *unit.Unit) string { return u.Hitch.Kind.Value }),
		word("tires", func(u *unit.Unit) string { return u.Tires.Size.Value }),
		word("load-range", func(u *unit.Unit) string { return u.Tires.LoadRange.Value }),
	}
}

// numberColumns are numbers, each with where it comes from.
func numberColumns() (out []column) {
	for _, pair := range [][]column{
		measured("gvwr-lb", "weights.gvwr"),
		measured("empty-lb", "weights.empty"),
		worked("payload-lb", "payload"),
		worked("working-payload-lb", "working-payload"),
		worked("tongue-at-gvwr-lb", "tongue-at-gvwr"),
		measured("axles-count", "axles.count"),
		measured("axle-rating-lb", "axles.rating"),
		measured("coupler-rating-lb", "hitch.rating"),
		measured("ball-in", "hitch.ball"),
		worked("deck-length-ft", "deck-length"),
		measured("deck-width-in", "deck.width"),
		measured("between-fenders-in", "deck.between-fenders"),
		measured("deck-height-in", "deck.height"),
		worked("loading-angle-degrees", "loading-angle"),
	} {
		out = append(out, pair...)
	}
	return out
}

// Safe keeps a spreadsheet from running what somebody wrote: OWASP, CSV Injection (a
// field that begins with = + - @, tab or carriage return, also in their wide forms). Where a
// spreadsheet separates cells by semicolons or tabs, the text after one is a cell too. A
// number is left as it is: none of ours begins with one of the signs unless it is negative.
func Safe(s string) string {
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return s
	}
	var b strings.Builder
	for rest := s; ; {
		end := strings.IndexAny(rest, ";\t\r\n")
		cell := rest
		if end >= 0 {
			cell = rest[:end]
		}
		if runs(cell) || len(rest) == len(s) && end == 0 && rest[0] != ';' {
			b.WriteByte('\'')
		}
		b.WriteString(cell)
		if end < 0 {
			return b.String()
		}
		b.WriteByte(rest[end])
		rest = rest[end+1:]
	}
}

// runs reports whether a spreadsheet takes a cell for a formula, or for a text that was made
// safe already. It trims blanks, and quotes if a quote is where none is due. A program that
// copies a table may drop what cannot be seen.
func runs(cell string) bool {
	if strings.HasPrefix(strings.TrimLeft(cell, " "), "'") {
		return true
	}
	for _, c := range cell {
		if c != '"' && !unicode.IsSpace(c) && !unicode.Is(unicode.Cf, c) {
			return strings.ContainsRune("=+-@＝＋－＠", c)
		}
	}
	return false
}

// cells are the texts of one trailer's columns.
func cells(y *unit.Yard, u *Unit, cols []column) []string {
	row := &line{y, u, map[string]unit.Given{}}
	for _, g := range u.Work.Unit.Givens() {
		row.given[g.Path] = g
	}
	out := make([]string, len(cols))
	for i, c := range cols {
		out[i] = c.text(row)
	}
	return out
}

// record writes a row of a table: RFC 4180, with CRLF after every row.
func record(cells []string) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.Write(cells); err != nil {
		return nil, fmt.Errorf("stock.csv: %w", err)
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// Plain undoes Safe: the text of a cell as it was before it was made safe for spreadsheets.
func Plain(s string) string {
	var b strings.Builder
	for rest := s; ; {
		end := strings.IndexAny(rest, ";\t\r\n")
		cell := rest
		if end >= 0 {
			cell = rest[:end]
		}
		if after, ok := strings.CutPrefix(cell, "'"); ok && (runs(after) || len(rest) == len(s) && after == "" && end >= 0 && rest[end] != ';') {
			cell = after
		}
		b.WriteString(cell)
		if end < 0 {
			return b.String()
		}
		b.WriteByte(rest[end])
		rest = rest[end+1:]
	}
}
