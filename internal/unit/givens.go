package unit

import (
	"reflect"
	"strings"

	"tarepage/internal/measure"
)

// A Given is one value that a unit gives, whatever its type.
type Given struct {
	// Path is its key: hitch.rating. Of an entry under tie-downs, which is a list, it is
	// tie-downs.d-rings for the count and tie-downs.d-rings.rating for the rating.
	Path string
	// Value is a string, an int, a bool, a Clock, a Day, a Week or a quantity of
	// internal/measure.
	Value any
	// Text is the value in the author's own writing, without its provenance.
	Text  string
	About bool
	From  measure.Provenance
	Pos   Pos
}

// Givens lists the values that the unit gives, in the format's own order. The words of
// its lists (standard, options), its notes and its photos are not among them.
func (u *Unit) Givens() []Given {
	return givens(unitKeys(), reflect.ValueOf(u).Elem(), make([]Given, 0, 64), false)
}

// Withheld reports whether the unit is kept out of the site: whether the key withhold is
// there, whatever its value. An owner who cleared the reason, or wrote one that does not
// read, did not ask for the unit to be published.
func (u *Unit) Withheld() bool {
	blank, lacks := u.Withhold.lacks()
	return blank.Known() || !lacks
}

// WithheldAt is the place of the key withhold or of its value.
func (u *Unit) WithheldAt() Pos {
	if blank, _ := u.Withhold.lacks(); blank.Known() {
		return blank
	}
	return u.Withhold.Pos
}

// Unknown lists the values of which the unit says that nobody knows them.
func (u *Unit) Unknown() []Given {
	return unknowns(unitKeys(), reflect.ValueOf(u).Elem(), nil)
}

func unknowns(ks *keys, v reflect.Value, out []Given) []Given {
	for _, k := range ks.order {
		f := v.Field(k.index)
		switch {
		case k.list:
		case k.kids != nil:
			out = unknowns(k.kids, f, out)
		default:
			if l := f.Addr().Interface().(leaf); l.unknown() {
				out = append(out, l.as(k.path))
			}
		}
	}
	return out
}

// Said lists those of Givens that were only said.
func (u *Unit) Said() []Given {
	return givens(unitKeys(), reflect.ValueOf(u).Elem(), nil, true)
}

// origin is where the value comes from; unstated too where none was given.
func (f *Field[T]) origin() measure.Origin { return f.From.Origin }

// as is the field as a Given.
func (f *Field[T]) as(path string) Given {
	return Given{Path: path, Value: f.Value, Text: f.written(), About: f.About, From: f.From, Pos: f.Pos}
}

// path is the key of a tie-down's count, as if its name were a key.
func (t *TieDown) path() string {
	return "tie-downs." + strings.ReplaceAll(strings.ToLower(t.Kind.Value), " ", "-")
}

func givens(ks *keys, v reflect.Value, out []Given, said bool) []Given {
	for _, k := range ks.order {
		f := v.Field(k.index)
		// By its address: the value itself would be copied to be looked at.
		if ties, ok := f.Addr().Interface().(*[]TieDown); ok {
			for _, t := range *ties {
				path := t.path()
				if !said || t.Count.origin() == measure.Said {
					out = append(out, t.Count.as(path))
				}
				if t.Rating.Given() && (!said || t.Rating.origin() == measure.Said) {
					out = append(out, t.Rating.as(path+".rating"))
				}
			}
			continue
		}
		switch {
		case k.path == notesES:
		case k.kids != nil:
			out = givens(k.kids, f, out, said)
		case !k.list:
			if l := f.Addr().Interface().(leaf); l.given() && (!said || l.origin() == measure.Said) {
				out = append(out, l.as(k.path))
			}
		}
	}
	return out
}
