package elevation

import (
	"slices"
	"strings"
	"unicode/utf8"

	"tarepage/internal/measure"
)

// Sizes on the shop drawing, in units of the viewBox. On a phone the drawing is about 350 px
// wide, so that a unit is a third of a pixel and the text 13 px high at a width of 360. Where
// there is more room, the style sheet sets the text smaller; there is always place for this size.
const (
	textHigh  = 40.0
	textBase  = 31.5  // from the top of a line of text to its base
	textWide  = 23.76 // of a character, on the wide side: kept free of other text
	textSnug  = 20.6  // of a character as common faces set it: what must fit between ticks
	row       = 54.0  // from one dimension line to the next
	textLift  = 10.0  // from a dimension line up to its text
	tick      = 7.0   // half a tick mark
	gap       = 7.0   // between a thing and the line that comes from it
	beside    = 14.0  // from a tick to a text next to it
	mostRows  = 6
	topClear  = 24.0 // from the highest steel to the first line over it
	rearClear = 26.0 // from the rearmost steel to an upright dimension line
)

// A dimension is a horizontal dimension: where it begins and ends, its long and its short
// text, and how near the object its extension lines begin.
type dimension struct {
	from, to    float64
	start, stop float64 // the y at which the extension lines begin
	long, short string
	// between are ticks inside the dimension, for a group of equal steps.
	between []float64
	// within reports that the text must fit between the ticks.
	within bool
}

// span is a part of a row that something occupies.
type span struct{ from, to float64 }

func (s span) meets(o span) bool { return s.from < o.to && o.from < s.to }

// A sheet is the paper the dimensions are drawn on.
type sheet struct {
	lines strings.Builder // path data
	texts strings.Builder
	width float64
	shut  []float64 // the x of extension lines that pass through every row
	rows  [mostRows]struct{ lines, texts []span }
	used  int
	reach float64 // the y farthest from the object that the rows come to
}

// textSpan is the width that a text needs, at the given width of a character.
func textSpan(s string, wide float64) float64 {
	return float64(wide * float64(utf8.RuneCountInString(s)))
}

func meetsAny(o span, taken []span) bool {
	return slices.ContainsFunc(taken, o.meets)
}

// place finds the nearest free row, starting at least, and draws the dimension and its text
// there. first is the y of row 0, and step is the distance between rows. It returns the row,
// or -1 if no row is free: the words then give the dimension, because one drawn over another
// cannot be read.
func (s *sheet) place(d dimension, least int, first, step float64) int {
	for i := least; i < mostRows; i++ {
		r := &s.rows[i]
		line := span{d.from, d.to}
		if meetsAny(line, r.lines) || meetsAny(line, r.texts) {
			continue
		}
		text, at, anchor, ok := s.text(d, r.lines, r.texts)
		if !ok {
			continue
		}
		y := first + float64(step*float64(i))
		r.lines, r.texts = append(r.lines, line), append(r.texts, at)
		s.used = max(s.used, i+1)
		s.reach = max(s.reach, y+tick)
		s.horizontal(d, y)
		x := at.from
		if anchor == "" {
			x = d.from + float64((d.to-d.from)/2)
		}
		s.write(x, y-textLift, anchor, text)
		return i
	}
	return -1
}

// text finds the text that fits: the long one between the ticks, then the short one, then
// the short one to the right of the ticks or to the left.
func (s *sheet) text(d dimension, lines, texts []span) (text string, at span, anchor string, ok bool) {
	mid := d.from + float64((d.to-d.from)/2)
	for _, text := range []string{d.long, d.short} {
		half, snug := textSpan(text, textWide)/2, textSpan(text, textSnug)/2
		at = span{mid - half, mid + half}
		if textSpan(text, textSnug) <= d.to-d.from && at.from >= 0 && at.to <= s.width && !meetsAny(at, texts) && s.clear(span{mid - snug, mid + snug}) {
			return text, at, "", true
		}
	}
	if d.within {
		return "", span{}, "", false
	}
	wide := textSpan(d.short, textWide)
	for _, o := range []span{{d.to + beside, d.to + beside + wide}, {d.from - beside - wide, d.from - beside}} {
		if o.from >= 0 && o.to <= s.width && !meetsAny(o, lines) && !meetsAny(o, texts) && s.clear(span{o.from - tick, o.to + tick}) {
			return d.short, o, "start", true
		}
	}
	return "", span{}, "", false
}

// clear reports whether no extension line passes through o on its way to a deeper row.
func (s *sheet) clear(o span) bool {
	return !slices.ContainsFunc(s.shut, func(x float64) bool { return o.from < x && x < o.to })
}

// horizontal draws a dimension line with its ticks and its extension lines.
func (s *sheet) horizontal(d dimension, y float64) {
	past := tick
	if y < d.start {
		past = -tick
	}
	s.lines.WriteString("M" + num(d.from) + " " + num(y) + "H" + num(d.to))
	s.lines.WriteString("M" + num(d.from) + " " + num(d.start) + "V" + num(y+past))
	s.lines.WriteString("M" + num(d.to) + " " + num(d.stop) + "V" + num(y+past))
	for _, x := range append([]float64{d.from, d.to}, d.between...) {
		s.slash(x, y)
	}
}

// slash draws a tick mark: a short stroke at 45 degrees, as carpenters and steel shops
// draw it.
func (s *sheet) slash(x, y float64) {
	s.lines.WriteString("M" + num(x-tick) + " " + num(y+tick) + "l14-14")
}

func (s *sheet) write(x, y float64, anchor, text string) {
	if anchor != "" {
		anchor = ` text-anchor="` + anchor + `"`
	}
	s.texts.WriteString(`<text x="` + num(x) + `" y="` + num(y) + `"` + anchor + `>` + escape(text) + `</text>`)
}

// An upright is a vertical dimension behind the rear. Its text is to the right of it.
type upright struct {
	low, high measure.Inches
	text      string
}

// texts returns the upright's text in lines. "about" goes above the number, because the
// column behind the trailer takes width from the drawing.
func (u upright) lines() []string {
	if rest, ok := strings.CutPrefix(u.text, "about "); ok {
		return []string{"about", rest}
	}
	return []string{u.text}
}

// column is the width that the uprights need behind the rearmost steel.
func column(us []upright) float64 {
	wide := 0.0
	for _, u := range us {
		for _, l := range u.lines() {
			wide = max(wide, rearClear+beside+textSpan(l, textWide))
		}
	}
	return wide
}

// uprights draws the vertical dimensions at x, from the lowest up. A text that would overlap
// the one below it moves up. If it would have to move by more than its own height, only the
// words give it.
func (s *sheet) uprights(us []upright, p plot, edge, x float64) {
	free := p.ground + tick // the y above which the next text must stay
	for _, u := range us {
		lines := u.lines()
		tall := float64(textHigh * float64(len(lines)))
		low, high := p.y(u.low), p.y(u.high)
		mid := high + float64((low-high)/2)
		first := min(mid-float64(tall/2), free-tall)
		if mid-float64(tall/2)-first > textHigh {
			continue
		}
		free = first
		s.lines.WriteString("M" + num(x) + " " + num(low) + "V" + num(high) +
			"M" + num(edge+gap) + " " + num(high) + "H" + num(x+tick))
		s.slash(x, low)
		s.slash(x, high)
		for i, l := range lines {
			s.write(x+beside, first+float64(textHigh*float64(i))+textBase, "start", l)
		}
	}
}
