package unit

import (
	"reflect"
	"strings"
)

// A SpecGroup is a section of the unit file with its stated values, for the page.
type SpecGroup struct {
	// Path is the section's key: hitch, deck, tires.sidewall.
	Path string
	Rows []SpecRow
}

// A SpecRow is one stated value in the author's own writing.
type SpecRow struct {
	Path  string // hitch.ball-rating
	Key   string // the key that From is about, as Givens names it; of a tie-down its rating's, if it has one
	Text  string // about 30,000 lb
	From  string // coupler plate
	Model bool   // the value was filled in from the unit's model
}

// notSpecs are the keys that a page shows elsewhere or not at all.
var notSpecs = map[string]bool{
	"title": true, "stock": true, "model": true, "example": true, "price": true, "availability": true, "withhold": true,
	"standard": true, "standard-not": true, "options": true, "photos": true, "recording": true, "claimed": true, "waive": true, "proof": true, notesES: true,
}

// Stated lists what the file states, section by section, in the order of the format.
func (u *Unit) Stated() []SpecGroup {
	top := SpecGroup{}
	var groups []SpecGroup
	u.stated(unitKeys(), reflect.ValueOf(u).Elem(), &top, &groups)
	var ties SpecGroup
	ties.Path = "tie-downs"
	for _, t := range u.TieDowns {
		text := t.Count.Words()
		if t.Rating.Given() {
			text += " at " + t.Rating.Words()
		}
		from, key := t.Rating.From, t.path()+".rating"
		if !t.Rating.Given() {
			from, key = t.Count.From, t.path()
		}
		ties.Rows = append(ties.Rows, SpecRow{Path: "tie-downs." + t.Kind.Value, Key: key, Text: text, From: from.String(), Model: u.FromModel(t.Kind.Pos)})
	}
	if len(ties.Rows) > 0 {
		groups = append(groups, ties)
	}
	if len(top.Rows) > 0 {
		groups = append([]SpecGroup{top}, groups...)
	}
	return groups
}

type stater interface {
	words() (text, from string, at Pos)
}

func (f *Field[T]) words() (string, string, Pos) {
	if f.unknown() {
		return f.written(), "", f.Pos
	}
	return f.written(), f.From.String(), f.Pos
}

// Words is the value in the author's own writing, without its provenance.
func (f Field[T]) Words() string { return f.written() }

// written has Words by the place of the field, because every value of a unit needs them.
func (f *Field[T]) written() string {
	if reason, unknown := f.Unknown(); unknown {
		return "not known: " + reason
	}
	switch v := any(&f.Value).(type) {
	case *bool:
		if *v {
			return "yes"
		}
		return "no"
	case *Day:
		if !v.Known() {
			return ""
		}
		return v.Long()
	case *Month:
		if v.Year == 0 {
			return ""
		}
		return v.Long()
	case *string:
		return *v
	}
	rest, about, _ := split(f.Raw)
	if about {
		rest = "about " + rest
	}
	return rest
}

func (u *Unit) stated(ks *keys, v reflect.Value, into *SpecGroup, groups *[]SpecGroup) {
	for _, k := range ks.order {
		if notSpecs[k.path] && !(k.path == "model" && u.ModelIsMakers) {
			continue
		}
		f := v.Field(k.index)
		switch {
		case k.kids != nil:
			if strings.Contains(k.path, ".") {
				// A section within a section adds its rows to the outer one.
				u.stated(k.kids, f, into, groups)
				continue
			}
			g := SpecGroup{Path: k.path}
			u.stated(k.kids, f, &g, groups)
			if len(g.Rows) > 0 {
				*groups = append(*groups, g)
			}
		case !k.list:
			if text, from, at := f.Addr().Interface().(stater).words(); at.Known() {
				into.Rows = append(into.Rows, SpecRow{Path: k.path, Key: k.path, Text: text, From: from, Model: u.FromModel(at)})
			}
		}
	}
}
