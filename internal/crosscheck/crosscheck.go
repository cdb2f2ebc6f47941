// Package crosscheck holds what was said of a trailer against what its file states.
//
// It only compares: it opens no file, works no figure out and believes neither side. It
// imports internal/measure, internal/unit and internal/walkaround, and nothing that
// judges or prints.
package crosscheck

import (
	"iter"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// A Verdict is what comes of holding a figure that was said against the file.
type Verdict int

const (
	// Unstated: the file gives nothing to hold it against, or it cannot be told that
	// the two are of one thing.
	Unstated Verdict = iota
	// Agrees: the file says the same.
	Agrees
	// Differs: the file says something else.
	Differs
)

// sure is the confidence below which a spoken figure contradicts nothing. It is higher
// than what intake takes: a person reads what intake wrote, and a false alarm is a defect.
const sure = 0.8

// plain reports whether a figure is said so plainly that it may contradict the file. A
// length without its unit never is: "dump six loads" is no bed of six feet.
func plain(c walkaround.Candidate) bool {
	_, length := c.Value.(measure.Inches)
	return c.Confidence >= sure && !(length && c.UnitInferred)
}

// Statements are what a unit's file states.
type Statements struct {
	file  []unit.Given
	added []meaning
}

// meaning is a statement that a figure of a role may mean as well.
type meaning struct {
	role  walkaround.Role
	given unit.Given
}

// Of are the statements of a unit's file: what it gives, with what its model fills in.
func Of(givens []unit.Given) *Statements {
	return &Statements{file: givens, added: make([]meaning, 0, 5)}
}

// Add enters something else that a figure of the role may mean: one that was worked out,
// under its own name.
func (s *Statements) Add(r walkaround.Role, g unit.Given) {
	s.added = append(s.added, meaning{r, g})
}

// of walks the statements of one key: the file's first, then what was added.
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

// kin are the keys whose figures are called by one name in a yard, so that one of them
// is easily taken for another. A figure that agrees with any contradicts none. Common
// practice, no source.
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

// Hold holds a spoken figure against the file. It returns what the file states for the
// figure's own key, first statement first.
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
	// What it could have been as well, and then is what the file says.
	for _, a := range c.Alternatives {
		for g := range s.of(string(a.Role)) {
			if same, _ := agrees(c, a.Value, g); same {
				return Unstated, first
			}
		}
	}
	return Differs, first
}

// agrees reports whether a spoken value says what the file states, and whether the two
// can be compared at all.
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

// quantity compares two quantities of one unit. What was said without "about" has to be
// the file's number to within a step; with it, or where the file itself is approximate,
// 2.5% are allowed.
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
		// "Up to" is a promise: less than there is breaks it for nobody.
		c.Compare == walkaround.UpTo && (said <= stated || measure.Agrees(said, stated, step, true)), true
}

// between is what "over", "under" and "at least" leave open.
func between(c walkaround.Candidate, stated, said float64) bool {
	switch c.Compare {
	case walkaround.Under:
		return stated <= said
	case walkaround.Over, walkaround.AtLeast:
		return stated >= said
	}
	return false
}

// word compares what is no quantity: tire sizes without the letters in front, date
// codes in either writing, choices.
func word(c walkaround.Candidate, said string, g unit.Given) (same, ok bool) {
	switch stated := g.Value.(type) {
	case unit.Week:
		w, err := unit.ParseWeek(said)
		if err != nil {
			return false, false
		}
		// "The date code says 2018" may be week 20 of 2018 and may be the year alone.
		year := w.Week == 20 && !strings.Contains(strings.ToLower(c.Quote), "week")
		return w == stated || year && w.Year == stated.Year, true
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

// tireSize is the size without its service letters, which nobody says: ST235/80R16 and
// 235/80R16.
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
