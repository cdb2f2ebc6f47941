package unit

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/kinds"
)

// A key is one key of the format.
type key struct {
	name    string
	path    string // "hitch.rating"
	doc     string
	example string
	choices []string
	needed  bool
	// neededBy has the kinds of trailer that need the key, if not every kind does.
	neededBy []string
	noted    bool
	index    int
	kids     *keys // the keys below, for a section
	list     bool  // a list of fields, photos, proofs, waivers or tie-downs
	kind     string
}

// neededFor reports whether a unit of that kind needs the key.
func (k *key) neededFor(kind string) bool { return k.needed || slices.Contains(k.neededBy, kind) }

// keys has the keys of one section in the order of the format.
type keys struct {
	order  []*key
	byName map[string]*key
	names  []string
	needed bool // some kind of unit needs one of these keys or one of their subkeys
}

var (
	unitKeys   = sync.OnceValue(func() *keys { return schemaOf(reflect.TypeFor[Unit](), "") })
	yardKeys   = sync.OnceValue(func() *keys { return schemaOf(reflect.TypeFor[Yard](), "") })
	photoKeys  = sync.OnceValue(func() *keys { return schemaOf(reflect.TypeFor[Photo](), "photos.") })
	proofKeys  = sync.OnceValue(func() *keys { return schemaOf(reflect.TypeFor[Proof](), "proof.") })
	waiverKeys = sync.OnceValue(func() *keys { return schemaOf(reflect.TypeFor[Waiver](), "waive.") })
)

type namedKind interface{ kindName() string }

// valueTables are the tables that a struct tag can name instead of listing values.
var valueTables = map[string]func() []string{
	"a kind of trailer": kinds.Names,
}

func schemaOf(t reflect.Type, prefix string) *keys {
	ks := &keys{byName: map[string]*key{}}
	for i := range t.NumField() {
		f := t.Field(i)
		name, ok := f.Tag.Lookup("key")
		if !ok {
			continue
		}
		k := &key{
			name: name, path: prefix + name, index: i,
			doc: f.Tag.Get("doc"), example: f.Tag.Get("eg"),
			needed: f.Tag.Get("need") == "yes", noted: f.Tag.Get("note") == "yes",
		}
		if one := f.Tag.Get("one"); valueTables[one] != nil {
			k.choices = valueTables[one]()
		} else if one != "" {
			k.choices = strings.Split(one, "|")
		}
		if !k.needed && t != reflect.TypeFor[Yard]() {
			k.neededBy = kinds.Needing(k.path)
		}
		switch p := reflect.New(f.Type).Interface().(type) {
		case namedKind:
			k.kind = p.kindName()
		default:
			if f.Type.Kind() == reflect.Slice {
				k.list, k.kind = true, "list"
			} else {
				k.kids, k.kind = schemaOf(f.Type, k.path+"."), "section"
			}
		}
		if k.choices != nil {
			k.kind = "choice"
		}
		if _, twice := ks.byName[name]; twice {
			panic(fmt.Sprintf("unit: key %s is twice in %s", k.path, t))
		}
		ks.needed = ks.needed || k.needed && !k.list || k.neededBy != nil || k.kids != nil && k.kids.needed
		ks.order = append(ks.order, k)
		ks.byName[name] = k
		ks.names = append(ks.names, name)
	}
	return ks
}

// A KeyDoc describes one key for the reference page of the format.
type KeyDoc struct {
	Path    string
	Kind    string // "weight", "length", "choice", "section", "list" ...
	Doc     string
	Example string
	Choices []string
	// Needed reports whether every unit needs the key. NeededBy has the kinds of trailer that
	// need it, if only some do.
	Needed   bool
	NeededBy []string
}

// NeededFor reports whether a unit of that kind needs the key.
func (k KeyDoc) NeededFor(kind string) bool { return k.Needed || slices.Contains(k.NeededBy, kind) }

// Keys lists every key of a unit file in the order of the format.
func Keys() []KeyDoc { return describe(unitKeys(), nil) }

// YardKeys lists every key of content/yard.md in the order of the format.
func YardKeys() []KeyDoc { return describe(yardKeys(), nil) }

func describe(ks *keys, out []KeyDoc) []KeyDoc {
	for _, k := range ks.order {
		out = append(out, KeyDoc{k.path, k.kind, k.doc, k.example, k.choices, k.needed, k.neededBy})
		if k.kids != nil {
			out = describe(k.kids, out)
		}
		if k.name == "photos" {
			out = describe(photoKeys(), out)
		}
		if k.name == "proof" {
			out = describe(proofKeys(), out)
		}
		if k.name == "waive" {
			out = describe(waiverKeys(), out)
		}
	}
	return out
}

// A Missing is a key that a unit needs to be published and does not have.
type Missing struct {
	Path string
	Doc  string
	// Example is a value in the right form.
	Example string
	// At is the nearest place: the key itself if its value is empty, or its section, or the
	// top of the front matter.
	At Pos
	// Empty reports whether the key is there without a value.
	Empty bool
	// Noun is the kind of trailer that needs it, "dump trailer", or empty if every unit does.
	Noun string
}

// Missing lists the keys that a unit of this kind needs and does not have.
func (u *Unit) Missing() []Missing {
	return missing(unitKeys(), reflect.ValueOf(u).Elem(), u.Kind.Value, u.Top, nil)
}

// Unread lists the keys with a value that cannot be read, in the unit or in its model. Such a
// value should not also be reported as missing.
func (u *Unit) Unread() []string { return unread(unitKeys(), reflect.ValueOf(u).Elem(), nil) }

func unread(ks *keys, v reflect.Value, out []string) []string {
	for _, k := range ks.order {
		f := v.Field(k.index)
		switch {
		case k.kids != nil:
			out = unread(k.kids, f, out)
		case !k.list && f.FieldByName("Spoiled").Bool():
			out = append(out, k.path)
		}
	}
	return out
}

// Missing lists the keys that the yard's file needs and does not have.
func (y *Yard) Missing() []Missing {
	return missing(yardKeys(), reflect.ValueOf(y).Elem(), "", y.Top, nil)
}

// givenInstead reports whether another key of the section is given that will do for this kind.
func givenInstead(ks *keys, v reflect.Value, kind, path string) bool {
	_, name, _ := cutLast(kinds.Of(kind).Instead[path])
	k := ks.byName[name]
	if k == nil {
		return false
	}
	_, lacks := v.Field(k.index).Addr().Interface().(leaf).lacks()
	return !lacks
}

func missing(ks *keys, v reflect.Value, kind string, at Pos, out []Missing) []Missing {
	if v.Type() != reflect.TypeFor[Unit]() && v.Type() != reflect.TypeFor[Yard]() {
		if s := v.Field(0).Interface().(Section); s.At.Known() {
			at = s.At
		}
	}
	for _, k := range ks.order {
		switch {
		case k.kids != nil:
			if k.kids.needed {
				out = missing(k.kids, v.Field(k.index), kind, at, out)
			}
		case k.neededFor(kind) && !k.list:
			if blank, lacks := v.Field(k.index).Addr().Interface().(leaf).lacks(); lacks && !givenInstead(ks, v, kind, k.path) {
				m := Missing{Path: k.path, Doc: k.doc, Example: k.example, At: at}
				if !k.needed {
					m.Noun = kinds.Of(kind).Noun
				}
				if blank.Known() {
					m.At, m.Empty = blank, true
				}
				out = append(out, m)
			}
		}
	}
	return out
}
