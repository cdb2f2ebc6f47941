package walkback

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/amend"
	"tarepage/internal/unit"
)

// An Answer is what somebody found out about one line.
type Answer struct {
	Key string `json:"key"`
	// Own is the file's own text of the value that the phone knew. If the file has another one
	// by now, somebody else changed it, and the answer is not taken.
	Own string `json:"own"`
	// Value is what was typed: a bare number is taken in the line's unit.
	Value string `json:"value"`
	// Place is where it was read; Day is that of the scale ticket, 2026-11-03.
	Place string `json:"place"`
	Day   string `json:"day"`
	// Unreadable is why nobody can read the value; the rest is then not used.
	Unreadable string `json:"unreadable"`
}

// The outcomes of an answer.
const (
	Taken    = "taken"    // it is in the new file
	Conflict = "conflict" // somebody else changed the value; the file keeps theirs
	Refused  = "refused"  // it is not a value for its key
)

// An Outcome is what became of an answer.
type Outcome struct {
	Key     string `json:"key"`
	Outcome string `json:"outcome"`
	// Written is what the answer would write, Own what the file has now.
	Written string `json:"written"`
	Own     string `json:"own"`
	// Reason says why an answer was refused.
	Reason string `json:"reason,omitempty"`
}

// Revise writes the answers into a unit file. Those that it cannot take leave their keys as
// they are. Today is the desk's day, which a price and an availability get.
func Revise(file []byte, answers []Answer, today string) ([]byte, []Outcome) {
	var outcomes []Outcome
	for _, a := range answers {
		var o Outcome
		file, o = revise(file, a, today)
		outcomes = append(outcomes, o)
	}
	return file, outcomes
}

func revise(file []byte, a Answer, today string) ([]byte, Outcome) {
	if out, o, is := reviseKit(file, a); is {
		return out, o
	}
	o := Outcome{Key: a.Key, Outcome: Refused}
	own, err := amend.Values(file)
	if err != nil {
		o.Reason = "the file does not read now; fix it at the desk first"
		return file, o
	}
	o.Own = own[a.Key]
	if o.Written, err = a.text(today); err != nil {
		o.Reason = err.Error()
		return file, o
	}
	switch o.Own {
	case o.Written:
		// The answer arrived before, and the phone did not hear of it.
		o.Outcome = Taken
		return file, o
	case a.Own:
	default:
		o.Outcome = Conflict
		return file, o
	}
	out, err := amend.Apply(file, []amend.Change{{Path: a.Key, Value: o.Written}})
	if err != nil {
		o.Reason = err.Error() + "; change it at the desk"
		return file, o
	}
	o.Outcome, o.Own = Taken, o.Written
	return out, o
}

// bareNumber matches a number without a unit.
var bareNumber = regexp.MustCompile(`^[0-9][0-9,]*(\.[0-9]+)?$`)

// text is the value as a unit file writes it, with the note that says where it was read.
func (a Answer) text(today string) (string, error) {
	i := slices.IndexFunc(lineDocs(), func(d unit.KeyDoc) bool { return d.Path == a.Key })
	if i < 0 {
		return "", fmt.Errorf("%q is not a key that is confirmed here", a.Key)
	}
	d := lineDocs()[i]
	value := strings.Join(strings.Fields(a.Value), " ")
	switch {
	case a.Unreadable != "":
		return a.reason(d)
	case value == "":
		return "", fmt.Errorf("type what you read")
	case strings.ContainsAny(value, "()"):
		return "", fmt.Errorf("leave the parentheses out; say where you read it in the box for it")
	}
	if bareNumber.MatchString(value) {
		value = inUnit(value, wants(d))
	}
	place, err := a.note(d, today)
	if err != nil {
		return "", err
	}
	value += place
	if _, err := alone(a.Key, value); err != nil {
		return "", fmt.Errorf("%s; for example %s", strings.TrimPrefix(err.Error(), a.Key+": "), d.Example)
	}
	return value, nil
}

// note is where the value was read, in parentheses after a blank; of a price and of an
// availability, the day since when it holds.
func (a Answer) note(d unit.KeyDoc, today string) (string, error) {
	if dated[d.Path] {
		return " (since " + today + ")", nil
	}
	places := placesOf(d)
	switch {
	case d.Path == "tires.per-axle" && strings.TrimSpace(a.Value) == "4":
		return " (counted)", nil // who stands at the axle counts; a bare 4 may be typed to clear a stop
	case len(places) == 0:
		return "", nil
	case a.Place == "":
		return "", fmt.Errorf("choose where you read it")
	case !slices.Contains(places, a.Place):
		return "", fmt.Errorf("%q is not a place for this; choose %s", a.Place, strings.Join(places, ", "))
	case a.Place != scale:
		return " (" + a.Place + ")", nil
	}
	day, err := unit.ParseDay(a.Day)
	if err != nil {
		return "", fmt.Errorf("give the day on the scale ticket")
	}
	return " (" + scale + " " + day.String() + ")", nil
}

// reason is the value of what nobody can read.
func (a Answer) reason(d unit.KeyDoc) (string, error) {
	if !mayBeUnknown()[d.Path] {
		return "", fmt.Errorf("this is not read off the trailer; leave it out instead")
	}
	text := "unknown: " + strings.Join(strings.Fields(strings.NewReplacer("(", "", ")", "").Replace(a.Unreadable)), " ")
	if _, err := alone(a.Key, text); err != nil {
		return "", fmt.Errorf("say in a few words why nobody can read it")
	}
	return text, nil
}

// inUnit writes a bare number with commas and its unit.
func inUnit(number, unit string) string {
	whole, rest, point := strings.Cut(strings.ReplaceAll(number, ",", ""), ".")
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if point {
		rest = "." + rest
	}
	if unit == "" {
		return number // a count, a size or a production week
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if unit == "$" {
		return "$" + whole + rest
	}
	return whole + rest + " " + unit
}

// dated are the values that customers hear of by the day since when they hold.
var dated = map[string]bool{"price": true, "availability": true}

// lineDocs are the keys that an answer may change.
var lineDocs = sync.OnceValue(func() []unit.KeyDoc {
	var out []unit.KeyDoc
	for _, docs := range keysOf() {
		out = append(out, docs...)
	}
	for _, d := range unit.Keys() {
		if dated[d.Path] {
			out = append(out, d)
		}
	}
	return out
})

// Sale are the lines of a unit that its sale changes: price and availability.
func Sale(u *unit.Unit, file []byte) []Line {
	own, err := amend.Values(file)
	if err != nil {
		return nil
	}
	given := map[string]unit.Given{}
	for _, g := range u.Givens() {
		given[g.Path] = g
	}
	lines := strings.Split(string(file), "\n")
	var out []Line
	for _, d := range unit.Keys() {
		if dated[d.Path] {
			g, has := given[d.Path]
			l := lineOf(d, g, has, own[d.Path])
			if has && g.Pos.File == u.File {
				l.Said = said(lines, int(g.Pos.Line))
			}
			out = append(out, l)
		}
	}
	return out
}
