// Package crosscheck compares what somebody said about a trailer with what its file states.
//
// It only compares: it opens no file, computes no figure and believes neither side. It imports
// internal/measure, internal/unit and internal/walkaround, and nothing that judges or prints.
package crosscheck

import (
	"iter"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// A Verdict is the result of comparing a spoken figure with the file.
type Verdict int

const (
	// Unstated: the file states nothing to compare, or it is not clear that both speak of
	// the same thing.
	Unstated Verdict = iota
	// Agrees: the file says the same.
	Agrees
	// Differs: the file says something else.
	Differs
)

// sure is the least confidence at which a spoken figure can contradict the file. It is higher
// than intake's: a person reads what intake wrote, but a false alarm here is a defect. A bare
// number needs more: "twenty twenty four tires" is not a model year, and the number of a GVWR
// that was said in the next sentence is not a price.
const sure, sureBare = 0.8, 0.93

// plain reports whether a figure is clear enough to contradict the file. A length without a
// unit never is: "dump six loads" does not mean a bed of six feet.
func plain(c walkaround.Candidate) bool {
	_, length := c.Value.(measure.Inches)
	if c.UnitInferred || c.Role == "year" {
		return c.Confidence >= sureBare && !length
	}
	return c.Confidence >= sure
}

// Statements are the values that a unit's file states.
type Statements struct {
	file  []unit.Given
	added []meaning
}

// meaning is another statement that a figure of this role may refer to.
type meaning struct {
	role  walkaround.Role
	given unit.Given
}

// Of returns the statements of a unit's file, including those that its model fills in.
func Of(givens []unit.Given) *Statements {
	return &Statements{file: givens, added: make([]meaning, 0, 5)}
}

// Add adds something else that a figure of the role may refer to, such as a computed figure
// under its own name.
func (s *Statements) Add(r walkaround.Role, g unit.Given) {
	s.added = append(s.added, meaning{r, g})
}

// of returns the statements of one key: the file's first, then the added ones.
func (s *Statements) of(path string) iter.Seq[unit.Given] {
	return func(yield func(unit.Given) bool) {
		for i := range s.file {
			if s.file[i].Path == path && !yield(s.file[i]) {
				return
			}
		}
		for i := range s.added {
			if string(s.added[i].role) == path && !yield(s.added[i].given) {
				return
			}
		}
	}
}

// kin lists keys whose figures go by the same name in a yard, so people mix them up. A figure
// that agrees with one of them contradicts none. Common practice, no source.
var kin = map[walkaround.Role][]string{
	walkaround.GVWR:         {"claimed.gvwr"},
	walkaround.Empty:        {"claimed.empty"},
	walkaround.HitchRating:  {"hitch.ball-rating", "hitch.tongue-limit", "hitch.chains.breaking"},
	walkaround.TongueEmpty:  {"hitch.tongue-limit"},
	walkaround.DeckLength:   {"deck.flat", "deck.tail", "bed.length", "box.length"},
	walkaround.DeckFlat:     {"deck.length", "deck.pivot"},
	walkaround.DeckTail:     {"deck.pivot"},
	walkaround.DeckWidth:    {"deck.between-fenders", "bed.width", "box.width"},
	walkaround.DeckHeight:   {"deck.tail-end", "bed.floor", "box.floor"},
	walkaround.BedLength:    {"deck.length"},
	walkaround.BedWidth:     {"deck.width"},
	walkaround.BoxLength:    {"deck.length"},
	walkaround.BoxWidth:     {"deck.width"},
	walkaround.Pressure:     {"tires.sidewall.pressure"},
	walkaround.AxleRating:   {"weights.gvwr", "tires.sidewall.single", "tires.sidewall.dual", "tires.wheel"},
	walkaround.DRingRating:  {"tie-downs.stake-pockets.rating"},
	walkaround.CrossSpacing: {"axles.spacing"},
	walkaround.AxleSpacing:  {"frame.crossmember-spacing"},
}

// Hold compares a spoken figure with the file. It returns the statement that the figure agrees
// with, or else the file's first statement for the figure's key.
func (s *Statements) Hold(c walkaround.Candidate) (Verdict, unit.Given) {
	if c.Role == "" {
		return Unstated, unit.Given{}
	}
	var first unit.Given
	comparable := false
	for g := range s.of(string(c.Role)) {
		same, ok := agrees(c, c.Value, g)
		if same {
			return Agrees, g
		}
		if comparable = comparable || ok; first.Path == "" {
			first = g
		}
	}
	if !comparable || !plain(c) {
		return Unstated, first
	}
	for _, path := range kin[c.Role] {
		for g := range s.of(path) {
			if same, _ := agrees(c, c.Value, g); same {
				return Unstated, first
			}
		}
	}
	// Another reading of the same words may be what the file states.
	for _, a := range c.Alternatives {
		for g := range s.of(string(a.Role)) {
			if same, _ := agrees(c, a.Value, g); same {
				return Unstated, first
			}
		}
	}
	return Differs, first
}

// agrees reports whether a spoken value says the same as the file, and whether the two can be
// compared at all.
func agrees(c walkaround.Candidate, said walkaround.Value, g unit.Given) (same, ok bool) {
	switch v := said.(type) {
	case measure.Pounds:
		return quantity(c, v, g, 1)
	case measure.Inches:
		step := measure.Inches(0.5)
		if c.Role == walkaround.Ball {
			step = 1.0 / 16
		}
		return quantity(c, v, g, step)
	case measure.PSI:
		return quantity(c, v, g, 1)
	case measure.Dollars:
		return quantity(c, v, g, 1)
	case walkaround.Count:
		n, ok := g.Value.(int)
		return ok && (n == int(v) || between(c, float64(n), float64(v))), ok
	case walkaround.Year:
		n, ok := g.Value.(int)
		return ok && n == int(v), ok
	case walkaround.Word:
		return word(c, string(v), g)
	case walkaround.Section:
		text, ok := g.Value.(string)
		if !ok {
			return false, false
		}
		return section(v, text)
	}
	return false, false
}

// quantity compares two quantities of one unit. Without "about" the spoken one has to be less
// than a step from the file's. With "about", on either side, 2.5% are allowed.
func quantity[U measure.Unit](c walkaround.Candidate, said U, g unit.Given, step U) (same, ok bool) {
	stated, ok := g.Value.(U)
	if !ok {
		return false, false
	}
	about := c.Compare == walkaround.About || g.About
	if measure.Agrees(said, stated, step, false) || about && measure.Agrees(said, stated, step, true) {
		return true, true
	}
	if t, ok := c.Tolerance.(U); ok && said-t <= stated && stated <= said+t {
		return true, true
	}
	if c.High != nil {
		high, ok := c.High.(U)
		return ok && (said <= stated && stated <= high || g.About && (measure.Agrees(said, stated, step, true) || measure.Agrees(high, stated, step, true))), true
	}
	return between(c, float64(stated), float64(said)) ||
		// "Up to" is a promise, and a smaller number does not break it.
		c.Compare == walkaround.UpTo && (said <= stated || measure.Agrees(said, stated, step, true)), true
}

// between reports whether "over", "under" or "at least" leaves room for the stated number.
func between(c walkaround.Candidate, stated, said float64) bool {
	switch c.Compare {
	case walkaround.Under:
		return stated <= said
	case walkaround.Over, walkaround.AtLeast:
		return stated >= said
	}
	return false
}

// word compares values that are not quantities: tire sizes without the letters in front, date
// codes in either form, choices.
func word(c walkaround.Candidate, said string, g unit.Given) (same, ok bool) {
	switch stated := g.Value.(type) {
	case unit.Week:
		w, err := unit.ParseWeek(said)
		if err != nil {
			return false, false
		}
		// "The date code says 2018" may mean week 20 of 2018 or just the year.
		year := w.Week == 20 && !strings.Contains(strings.ToLower(c.Quote), "week")
		return w == stated || year && w.Year == stated.Year, true
	case unit.Month:
		m, err := unit.ParseMonth(said)
		return m == stated, err == nil
	case string:
		if g.Path == "tires.size" {
			return tireSize(said) == tireSize(stated), true
		}
		return strings.EqualFold(said, stated), true
	case int:
		return false, false
	}
	return false, false
}

// tireSize is the size without its service letters, which people leave out: ST235/80R16
// becomes 235/80R16.
func tireSize(s string) string {
	s = strings.ToUpper(strings.ReplaceAll(s, " ", ""))
	for _, front := range []string{"ST", "LT", "P"} {
		if rest, ok := strings.CutPrefix(s, front); ok {
			s = rest
			break
		}
	}
	return strings.TrimRight(s, "ABCDEFGHLT")
}
