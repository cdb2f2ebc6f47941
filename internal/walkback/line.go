package walkback

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/amend"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A Line is one value to confirm.
type Line struct {
	Key string `json:"key"`
	// Name is the value in a list of several: "deck length".
	Name string `json:"name"`
	// Ask says what the value is, and of what: "rating of each axle (GAWR)".
	Ask     string `json:"ask"`
	Example string `json:"example"`
	// Box is how a phone takes the value: number, feet, text, choice or day.
	Box     string   `json:"box"`
	Unit    string   `json:"unit,omitempty"` // of a number: lb
	Choices []string `json:"choices,omitempty"`
	// Places are where it can be read; none for what anybody sees.
	Places []string `json:"places,omitempty"`
	// Now is the value as the file has it, Said what the recording says of it. Own is the
	// file's own text, which tells whether somebody changed it meanwhile; it is empty for a
	// value that the file leaves out or its model fills in.
	Now   string `json:"now"`
	From  string `json:"from"`
	Said  string `json:"said,omitempty"`
	Own   string `json:"own"`
	State State  `json:"state"`
	// MayBeUnknown reports whether the file may say that nobody knows the value.
	MayBeUnknown bool `json:"mayBeUnknown"`
	// ReadAt is the place that the file states, if a photo of it can prove the value. Proven
	// reports that one does.
	ReadAt string `json:"readAt,omitempty"`
	Proven bool   `json:"proven,omitempty"`
}

// A State says what there is to do about a line.
type State string

// The states. A line that is open is one to confirm.
const (
	OnlySaid  State = "only said"
	ByModel   State = "from the model"
	Estimated State = "estimated"
	Missing   State = "missing"
	Known     State = "known"
	NotGiven  State = "not given"
)

// Open reports whether somebody has to look at the trailer for the line.
func (s State) Open() bool { return s != Known && s != NotGiven }

// A Station is one place at the trailer, with the lines that are read there: those to confirm,
// and those that need nobody.
type Station struct {
	Name string `json:"name"`
	Open []Line `json:"open"`
	Rest []Line `json:"rest"`
}

// Stations are the lines of a unit in the order of the walk. The bytes are those of the unit's
// own file.
func Stations(u *unit.Unit, file []byte) []Station {
	out := valueStations(u, file)
	if s := kit(u, strings.Split(string(file), "\n")); len(s.Open)+len(s.Rest) > 0 {
		out = append(out, s)
	}
	return out
}

// valueStations are the stations at which values are read, without the list of equipment.
func valueStations(u *unit.Unit, file []byte) []Station {
	own, err := amend.Values(file)
	if err != nil {
		own = map[string]string{} // the file does not read, so there is nothing to confirm in it
	}
	given := map[string]unit.Given{}
	for _, g := range u.Givens() {
		given[g.Path] = g
	}
	missing := map[string]bool{}
	for _, m := range u.Missing() {
		missing[m.Path] = true
	}
	lines := strings.Split(string(file), "\n")
	var out []Station
	for i, docs := range keysOf() {
		s := Station{Name: theWalk[i].name, Open: []Line{}, Rest: []Line{}}
		for _, d := range docs {
			g, has := given[d.Path]
			_, written := own[d.Path]
			if !has && !written && !missing[d.Path] && !asked(d.Path, u) && !concerns(d.Path, u.Kind.Value) || noNotes(d.Path, g, u) {
				continue
			}
			l := lineOf(d, g, has, own[d.Path])
			l.add(u, g, has, lines)
			if !has && own[d.Path] == "" && (missing[d.Path] || asked(d.Path, u) && !better[d.Path]) {
				l.State = Missing
			}
			if l.State.Open() {
				s.Open = append(s.Open, l)
			} else {
				s.Rest = append(s.Rest, l)
			}
		}
		if len(s.Open)+len(s.Rest) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// add says what the file and the recording say of the line's value besides it.
func (l *Line) add(u *unit.Unit, g unit.Given, has bool, lines []string) {
	if has && g.Pos.File == u.File {
		l.Said = said(lines, int(g.Pos.Line))
		l.prove(u, g)
	}
	if l.Key == notesKey {
		l.showNotes(&u.Body)
	}
}

// noNotes reports whether a line is the one for notes, and there are none that nobody has read.
func noNotes(key string, g unit.Given, u *unit.Unit) bool {
	return key == notesKey && (g.Text != heardNotes || len(u.Body.Notes) == 0)
}

// heardNotes and readNotes are the values of the key for the notes.
const heardNotes, readNotes = "heard", "read"

// showNotes makes the line ask for the notes: what is not for customers is deleted at the desk.
func (l *Line) showNotes(b *unit.Body) {
	var words []string
	for _, p := range b.Passages(func(string) string { return "" }) {
		if p.Note != nil {
			words = append(words, p.Text)
		}
	}
	l.State, l.Now, l.Choices, l.Said = Missing, "", []string{readNotes}, strings.Join(words, " / ")
}

// prove says what a photo can prove of a value, and whether one does.
func (l *Line) prove(u *unit.Unit, g unit.Given) {
	if place := g.From.Origin.String(); shows(place) != "" && unit.Provable(l.Key) {
		l.ReadAt, l.Proven = place, u.ProofOf(l.Key) != nil
	}
}

// asked reports whether a core value is asked for where the file leaves it out. Of the load of a
// tire, the sidewall governs; the size is read first, and tires in pairs have another load. The
// law asks more of brakes where there are some.
func asked(key string, u *unit.Unit) bool {
	switch key {
	case "tires.sidewall.single":
		return u.Tires.Size.Given() && !u.Tires.Sidewall.Dual.Given()
	case "brakes.axles", "brakes.breakaway":
		return u.Brakes.Kind.Given() && u.Brakes.Kind.Value != "none"
	}
	return slices.Contains(core, key)
}

// NameOf is a key in words that say what the value is of: "tires load range".
func NameOf(key string) string {
	name := strings.NewReplacer(".", " ", "-", " ", "gvwr", "GVWR").Replace(key)
	return strings.TrimPrefix(name, "weights ")
}

// fewWords is how many words of a key's description make sense only below the name of its section:
// "rating of each" says nothing on a phone, where no section is in view.
const fewWords = 4

// askOf says what the value of a key is, where no other line tells what it is of: "jack rating:
// rating of each".
func askOf(d unit.KeyDoc) string {
	section, _, below := strings.Cut(d.Path, ".")
	if !below || len(strings.Fields(d.Doc)) > fewWords || strings.Contains(d.Doc, strings.TrimSuffix(section, "s")) {
		return d.Doc
	}
	return NameOf(d.Path) + ": " + d.Doc
}

// lineOf is the line of one key.
func lineOf(d unit.KeyDoc, g unit.Given, has bool, own string) Line {
	l := Line{Key: d.Path, Name: NameOf(d.Path), Ask: askOf(d), Example: d.Example, Unit: wants(d), Places: placesOf(d), Own: own, State: NotGiven,
		MayBeUnknown: mayBeUnknown()[d.Path]}
	l.Box, l.Choices = boxOf(d)
	switch {
	case !has && own != "":
		l.Now, l.State = own, Known // unknown, with a reason, or a value that does not read
	case !has:
	default:
		l.Now, l.From, l.State = g.Text, g.From.String(), Known
		if date, ok := g.Value.(unit.Day); ok {
			l.Now = date.String()
		}
		if month, ok := g.Value.(unit.Month); ok {
			l.Now = month.String()
		}
		switch {
		case g.From.Origin == measure.Said:
			l.State = OnlySaid
		case g.From.Origin == measure.Estimate:
			l.State = Estimated
		case g.From.Origin == measure.Model && slices.Contains(core, d.Path):
			l.State = ByModel
		}
	}
	return l
}

// said is the comment that follows a value on its line, where intake keeps the words, with the
// comments below it that say what else was said.
func said(lines []string, line int) string {
	if line < 1 || line > len(lines) {
		return ""
	}
	_, comment, _ := strings.Cut(lines[line-1], "  # ")
	words := strings.TrimSpace(comment)
	for _, more := range lines[line:] {
		other, is := strings.CutPrefix(strings.TrimSpace(more), "#   but ")
		if !is {
			break
		}
		words = strings.TrimPrefix(words+"; but "+other, "; ")
	}
	return words
}

// mayBeUnknown are the keys whose value may be "unknown: a reason", as the reader of unit files
// takes them.
var mayBeUnknown = sync.OnceValue(func() map[string]bool {
	out := map[string]bool{}
	for _, d := range unit.Keys() {
		if d.Kind == "section" || d.Kind == "list" || d.Kind == "choice" {
			continue
		}
		if u, err := alone(d.Path, "unknown: the plate is gone"); err == nil {
			given := false
			for _, g := range u.Givens() {
				given = given || g.Path == d.Path
			}
			out[d.Path] = !given // a text that takes the words as they are would be given
		}
	}
	return out
})

// alone reads one value as the unit file would have it.
func alone(key, value string) (*unit.Unit, error) {
	file, err := amend.Apply([]byte("---\n---\n"), []amend.Change{{Path: key, Value: value}})
	if err != nil {
		return nil, err
	}
	u, problems := unit.ReadUnit("value", file)
	if len(problems) > 0 {
		return nil, fmt.Errorf("%s", problems[0].Message)
	}
	return u, nil
}
