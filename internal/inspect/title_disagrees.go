package inspect

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var titleDisagrees = &Rule{
	Name: "title-disagrees", Severity: Stop,
	Title:  "a length or width in the title matches one in the file",
	Why:    "The title is what a customer reads first, and the feeds and link cards repeat it. Then somebody drives out for a 24 ft deck and finds 18 ft.",
	Source: "geometry; that a name rounds to the half foot is " + Practice,
	Remedy: "correct the title, or the measure that it names",
	check: func(c *Case, f *Findings) {
		if !c.Title.Given() || !c.Work.Space.Length.Given() || c.unreadSize() {
			return
		}
		measures := titleMeasures(c.Title.Value)
		own := c.dimensions(len(measures) > 2)
		for _, m := range measures {
			if m.is < leastNamed || slices.ContainsFunc(own, func(is measure.Inches) bool { return m.fits(is) }) || c.lowboyLength(m.is) {
				continue
			}
			near := nearestLength(own, m.is)
			f.add(c.Title.Pos, "the title says %s; no length or width in the file is near it, the nearest is %s", m.words, near.Near()).
				figures(m.words, near.Near()).
				also(c.Work.Space.Length.Pos, "the length is here").
				also(c.Work.Space.Width.Pos, "the width is here").
				also(c.OverallWidth.Pos, "the overall width is here")
		}
	},
}

// leastNamed is the shortest measure in a title that is compared with the file: shorter
// ones are sides, ramps and steps.
const leastNamed measure.Inches = 48

// dimensions are the lengths and widths that a title may name, and the height where it
// names three measures.
func (c *Case) dimensions(tall bool) []measure.Inches {
	d := c.Deck
	var out []measure.Inches
	for _, l := range []struct {
		given bool
		is    measure.Inches
	}{
		{d.Length.Given(), d.Length.Value}, {d.Flat.Given(), d.Flat.Value}, {d.Tail.Given(), d.Tail.Value},
		{d.Flat.Given() && d.Tail.Given(), d.Flat.Value + d.Tail.Value}, {d.Pivot.Given(), d.Pivot.Value},
		{d.Width.Given(), d.Width.Value}, {d.Between.Given(), d.Between.Value}, {c.OverallWidth.Given(), c.OverallWidth.Value},
		{c.Bed.Length.Given(), c.Bed.Length.Value}, {c.Bed.Width.Given(), c.Bed.Width.Value},
		{c.OverallLength.Given(), c.OverallLength.Value}, {c.OverallHeight.Given(), c.OverallHeight.Value}, {d.Well.Given(), d.Well.Value}, {d.Over.Given(), d.Over.Value},
		{c.Tank.Length.Given(), c.Tank.Length.Value}, {c.Tank.Width.Given(), c.Tank.Width.Value}, {c.Hull.Length.Given(), c.Hull.Length.Value}, {c.Hull.Beam.Given(), c.Hull.Beam.Value},
		{c.Bin.Length.Given(), c.Bin.Length.Value}, {c.Bin.Shortest.Given(), c.Bin.Shortest.Value}, {c.Bin.Width.Given(), c.Bin.Width.Value},
		{c.Bunks.Length.Given(), c.Bunks.Length.Value}, {c.Bunks.Width.Given(), c.Bunks.Width.Value}, {c.Chassis.Length.Given(), c.Chassis.Length.Value}, {c.Chassis.Width.Given(), c.Chassis.Width.Value},
		{c.Box.NoseLength.Given() && c.Box.Length.Given(), c.Box.Length.Value + c.Box.NoseLength.Value},
		{c.Box.Length.Given(), c.Box.Length.Value}, {c.Box.Width.Given(), c.Box.Width.Value}, {tall && c.Box.Height.Given(), c.Box.Height.Value},
	} {
		if l.given && l.is > 0 {
			out = append(out, l.is)
		}
	}
	return out
}

// unreadSize reports whether a length or width is in the file but does not read. It has a stop of its
// own, and the title may well agree with it.
func (c *Case) unreadSize() bool {
	for _, l := range []*unit.Length{&c.Deck.Length, &c.Deck.Flat, &c.Deck.Tail, &c.Deck.Width, &c.Deck.Between, &c.OverallWidth, &c.OverallLength,
		&c.Bed.Length, &c.Bed.Width, &c.Box.Length, &c.Box.Width, &c.Box.NoseLength, &c.Tank.Length, &c.Tank.Width, &c.Hull.Length, &c.Hull.Beam,
		&c.Bin.Length, &c.Bin.Shortest, &c.Bin.Width, &c.Bunks.Length, &c.Bunks.Width, &c.Chassis.Length, &c.Chassis.Width} {
		if l.Spoiled {
			return true
		}
	}
	return false
}

// behindAxles is how much of a lowboy may be behind the middle of its axles. Common
// practice, no source.
const behindAxles measure.Inches = 10 * measure.InchesPerFoot

// lowboyLength reports whether a length can be the whole length of a lowboy, which is named
// by it: its axles are farther back than its well, and the unit file has no key for where it ends.
func (c *Case) lowboyLength(is measure.Inches) bool {
	s, center, hitch := c.Work.Space, c.Axles.Center, c.Hitch.Kind.Value
	if !center.Given() || !s.Front.Given() || hitch != "gooseneck" && hitch != "fifth-wheel" {
		return false
	}
	end := s.Front.Value + s.Length.Value
	return center.Value > end && is >= end && is <= center.Value+behindAxles
}

// A titleMeasure is a length or width that a title names.
type titleMeasure struct {
	is    measure.Inches
	words string
	nosed bool // the title speaks of a V-nose, whose point some count and some do not
}

// fits reports whether a measure in the file is the one the title names. Names round: a
// 102 in trailer is 96 in inside, a 20 ft box 19 ft 4 in. So half a foot or four in the
// hundred are allowed, and a V-nose adds up to 3 ft.
func (m titleMeasure) fits(is measure.Inches) bool {
	slack := max(6, measure.Share(0.04).OfLength(is))
	if is > m.is && m.nosed {
		slack = max(slack, 36)
	}
	return measure.NotOver(m.is-is, slack) && measure.NotOver(is-m.is, slack)
}

func nearestLength(list []measure.Inches, to measure.Inches) measure.Inches {
	distance := func(l measure.Inches) measure.Inches { return max(l-to, to-l) }
	return slices.MinFunc(list, func(a, b measure.Inches) int {
		switch da, db := distance(a), distance(b); {
		case da < db:
			return -1
		case da > db:
			return 1
		}
		return 0
	})
}

const footMark = `(?:ft\b\.?|feet\b|foot\b|'|′|’)`

var (
	titleLength = regexp.MustCompile(`(?i)(?P<number>[0-9]+(?:\.[0-9]+)?)(?:` +
		`\s*(?P<feet>` + footMark + `)(?:\s*(?P<inches>[0-9]+)\s*(?:in\b|"|″))?|` +
		`\s*-?\s*(?:in\b\.?|inch(?:es)?\b|"|″|”)|` +
		`\s*(?:x|×|by)\s*(?P<by>[0-9]+(?:\.[0-9]+)?)\s*` + footMark + `|` +
		`\s*\+\s*(?P<plus>[0-9]+(?:\.[0-9]+)?)\s*` + footMark + `)`)
	// otherPart is what makes a measure that of a part: "5 ft slide-in ramps", "16 ft tilting
	// deck". The words before it are those that parts are called by; any other word means
	// that the measure is the trailer's, as in "24 ft tandem axle car hauler".
	otherPart = regexp.MustCompile(`(?i)^[\s-]*(?:(?:slide-?in|stand-?up|fold(?:ing|-up|-over|-down)?|spring[\s-]assist(?:ed)?|hydraulic|fixed|steel|wood(?:en)?|mesh|rear|side|front|solid|removable|drive-?over|diamond[\s-]plate|expanded[\s-]metal|split|full[\s-]width)[\s-]+)*` +
		`(?:sides?|sided|gates?|ramps?|tails?|dovetails?|dove|beavertails?|couplers?|balls?|tires?|wheels?|rims?|centers?|beams?|i-beams?|channels?|cross\s?members?|tongue|axle\s+spac\w+|spread|steps?|fenders?|winch|interior|height|high|tall|headroom|doors?|extensions?|tilting|tilt\s+(?:deck|bed|section)|stationary|fixed|flat|neck|rails?|walls?|toolbox|well|of\s+headroom)\b`)
	noseWord = regexp.MustCompile(`(?i)\b(?:v[\s-]?nose|wedge|round\s?nose)\b`)
)

// titleMeasures finds the lengths and widths in a title: "102 in x 28 ft", "8.5 ft",
// "6 ft 8 in", "7 x 16 ft", "18 ft + 2 ft", "18+2 ft". Those of a part are left out.
func titleMeasures(title string) []titleMeasure {
	var out []titleMeasure
	nosed := noseWord.MatchString(title)
	open := -1 // where the last measure in feet ends, which a sum may go on from
	for _, at := range titleLength.FindAllStringSubmatchIndex(title, -1) {
		m := lengthMatch{title, at}
		if open >= 0 && m.text("feet") != "" && strings.TrimSpace(title[open:at[0]]) == "+" {
			last := &out[len(out)-1]
			last.is += m.feet()
			last.words = title[strings.Index(title, last.words):at[1]]
			open = at[1]
			continue
		}
		open = -1
		if m.text("by") == "" && otherPart.MatchString(title[at[1]:]) {
			continue
		}
		words := strings.TrimSpace(title[at[0]:at[1]])
		switch {
		case m.text("by") != "":
			width := measure.Feet(number(m.text("number"))).Inches()
			if number(m.text("number")) > 14 {
				width = measure.Inches(number(m.text("number"))) // 82 x 18 ft
			}
			out = append(out, titleMeasure{width, words, nosed},
				titleMeasure{measure.Feet(number(m.text("by"))).Inches(), words, nosed})
		case m.text("plus") != "":
			out = append(out, titleMeasure{measure.Feet(number(m.text("number")) + number(m.text("plus"))).Inches(), words, nosed})
		case m.text("feet") != "":
			out = append(out, titleMeasure{m.feet(), words, nosed})
			open = at[1]
		default:
			out = append(out, titleMeasure{measure.Inches(number(m.text("number"))), words, nosed})
		}
	}
	return out
}

// A lengthMatch is one match of titleLength.
type lengthMatch struct {
	title string
	at    []int
}

// text is what a named group of titleLength has matched, or nothing.
func (m lengthMatch) text(group string) string {
	i := titleLength.SubexpIndex(group)
	if m.at[2*i] < 0 {
		return ""
	}
	return m.title[m.at[2*i]:m.at[2*i+1]]
}

// feet is a match in feet, with its inches.
func (m lengthMatch) feet() measure.Inches {
	return measure.Feet(number(m.text("number"))).Inches() + measure.Inches(number(m.text("inches")))
}

// number reads digits that a pattern has found; nothing is 0.
func number(s string) float64 {
	v, _ := strconv.ParseFloat(s, 64)
	return v
}
