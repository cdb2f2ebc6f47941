package unit

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"sort"
	"strings"

	"golang.org/x/text/unicode/norm"

	"tarepage/internal/parallel"
)

// Stock is everything under content/ that was read.
type Stock struct {
	Yard *Yard
	// Units in the order of their file names.
	Units []*Unit
	// Models by name: the file's name in content/models without .md.
	Models map[string]*Unit
	// Media are the files that the units name, by the unit's file, in the order of Media.
	Media map[string][]Media
	// Today is the day on which this is built, by the computer's clock; the zero value if that is
	// not known. It decides only whether the day of the stock can be.
	Today Day
	// Strays are files and folders that are not read although trailers are in them, by the number
	// of the trailer.
	Strays map[string]string

	keptOff map[string]KeptOff // by the names of files below content/
	ignored []string           // what is not read, with why
}

// The folders and files below the root.
const (
	yardFile  = "content/yard.md"
	modelsDir = "content/models"
	unitsDir  = "content/units"
)

// Read reads content/ below root: the yard's file, the models and the units. What it cannot
// read is a Problem. It returns an error if the root has no yard at all.
func Read(root fs.FS) (*Stock, []Problem, error) {
	r, err := Open(root)
	if err != nil {
		return nil, nil, err
	}
	parallel.Each(r.Len(), func(i int) { r.Unit(i, nil) })
	stock, problems := r.Stock()
	return stock, problems, nil
}

func plainError(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

func ignored(file, message, remedy string) Problem {
	return Problem{Rule: FileIgnored, At: Pos{file, 1, 1}, Message: message, Remedy: remedy}
}

var (
	errNoFile = errors.New("this is not a regular file")
	errLink   = errors.New("this is a link to another place")
)

// Model is the model of a name, or nil. Accented letters may be stored in either way.
func (s *Stock) Model(name string) *Unit {
	if m := s.Models[name]; m != nil {
		return m
	}
	for _, other := range slices.Sorted(maps.Keys(s.Models)) {
		if norm.NFC.String(other) == norm.NFC.String(name) {
			return s.Models[other]
		}
	}
	return nil
}

// fill takes from the model, key by key, what the unit leaves out. The filled fields keep
// their places in the model's file.
func (s *Stock) fill(u *Unit) []Problem {
	if u.Broken {
		return nil
	}
	if !u.Model.Given() {
		return u.addStandard(u.Standard, nil)
	}
	m := s.Model(u.Model.Value)
	if m == nil {
		var names []string
		for name := range s.Models {
			names = append(names, name)
		}
		sort.Strings(names)
		if makersName(u.Model.Value, names) {
			u.ModelIsMakers = true
			return []Problem{{Rule: ModelUnfilled, At: u.Model.Pos,
				Message: fmt.Sprintf("%s has no %s.md, so %q is shown as the maker's name for the model and fills in nothing", modelsDir, u.Model.Value, u.Model.Value)}}
		}
		p := Problem{Rule: ModelUnknown, At: u.Model.Pos,
			Message: fmt.Sprintf("there is no model %q in %s", u.Model.Value, modelsDir),
			Remedy:  "write the file " + modelsDir + "/" + u.Model.Value + ".md, or leave the key out; the maker's own name for the model is written as on the label, with its capitals"}
		if near := Nearest(u.Model.Value, names); near != "" {
			p.Remedy = fmt.Sprintf("did you mean %q?", near)
		} else if strings.ContainsAny(u.Model.Value, `/\`) || strings.HasSuffix(u.Model.Value, ".md") {
			p.Remedy = "write the name of a file in " + modelsDir + " alone, without folders and without .md"
			if len(names) > 0 {
				p.Remedy += "; there are " + strings.Join(names, ", ")
			}
		} else if !NamesPage(u.Model.Value) {
			p.Remedy = "name a model in " + modelsDir + " by its file's name without .md, or leave the key out"
		}
		u.unfilled()
		return []Problem{p}
	}
	if m.Broken {
		u.unfilled()
		return nil
	}
	skip := notFilled
	if otherTire(&u.Tires, &m.Tires) {
		skip = notFilledTire
	}
	own := u.Standard
	fillFrom(unitKeys(), reflect.ValueOf(u).Elem(), reflect.ValueOf(m).Elem(), skip)
	return u.addStandard(own, m.Standard)
}

// modelFile matches what looks like the name of a model's file: oxbow-20k, zebra.
var modelFile = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// makersName reports whether a model is the maker's own name for it, as labels and invoices have
// it (RG-35, Dolly 80), and not the name of a file that is missing.
func makersName(model string, files []string) bool {
	return !modelFile.MatchString(model) && !strings.ContainsAny(model, `/\`) && !strings.HasSuffix(model, ".md") && Nearest(model, files) == ""
}

// MakersModel is the maker's own name for the model; empty where model names a file, or nothing.
func (u *Unit) MakersModel() string {
	if u.ModelIsMakers {
		return u.Model.Value
	}
	return ""
}

// unfilled marks the keys that a broken model might have filled in as unread, so that they
// are not also reported as missing.
func (u *Unit) unfilled() {
	for _, k := range unitKeys().order {
		if !notFilled[k.path] {
			spoilBelow(k, reflect.ValueOf(u).Elem().Field(k.index))
		}
	}
}

// notFilled has the keys that belong to one unit and never come from a model.
var notFilled = map[string]bool{"stock": true, "serial": true, "model": true, "withhold": true, "photos": true, "recording": true,
	"relabeled": true, "waive": true, "proof": true, "standard-not": true, "example": true}

// notFilledTire has more keys that are not filled in if the unit has other tires than its
// model: what is molded on one tire says nothing about another.
var notFilledTire = func() map[string]bool {
	out := maps.Clone(notFilled)
	for _, path := range []string{"tires.sidewall", "tires.ply", "tires.service"} {
		out[path] = true
	}
	return out
}()

// otherTire reports whether the unit states its own tire: another size or load range than the
// model's, or a sidewall that somebody read.
func otherTire(u, m *Tires) bool {
	differs := func(own, model Text) bool {
		plain := func(s string) string { return strings.ToUpper(strings.ReplaceAll(s, " ", "")) }
		return own.Spoiled || own.Given() && plain(own.Value) != plain(model.Value)
	}
	return differs(u.Size, m.Size) || differs(u.LoadRange, m.LoadRange) || u.Sidewall.At.Known()
}

func fillFrom(ks *keys, to, from reflect.Value, skip map[string]bool) {
	for _, k := range ks.order {
		if skip[k.path] {
			continue
		}
		t, f := to.Field(k.index), from.Field(k.index)
		switch {
		case k.kids != nil:
			if !t.Field(0).Interface().(Section).At.Known() {
				t.Field(0).Set(f.Field(0))
			}
			fillFrom(k.kids, t, f, skip)
		case k.list:
			if t.Len() == 0 {
				t.Set(f)
			}
		default:
			// A value that cannot be read was not left out; the model's value would hide it. And if
			// the model's value cannot be read, it is not missing in the unit.
			l, m := t.Addr().Interface().(leaf), f.Addr().Interface().(leaf)
			switch {
			case l.given() || l.unknown() || t.FieldByName("Spoiled").Bool():
			case m.given() || m.unknown():
				t.Set(f)
				l.inherit()
			case f.FieldByName("Spoiled").Bool():
				l.spoil()
			}
		}
	}
}

// SetAside reports whether a unit is an example that is left out because the yard has others.
func (s *Stock) SetAside(u *Unit) bool { return u.Example.Value && !s.Yard.example }

// setAside finds out whether the yard has nothing but examples. Otherwise it says which are left
// out: nobody may take an invented trailer for one that is for sale.
func (s *Stock) setAside() (found []Problem) {
	s.Yard.example = len(s.Units) > 0
	for _, u := range s.Units {
		s.Yard.example = s.Yard.example && u.Example.Value
	}
	for _, u := range s.Units {
		if s.SetAside(u) {
			found = append(found, Problem{Rule: FileIgnored, At: u.Example.Pos,
				Message: "this is an example, so it is left out next to your own trailers",
				Remedy:  "delete the file when you do not need it anymore; if it is a trailer of yours, delete the line example: yes"})
		}
	}
	return found
}

// FromModel reports whether the field was filled in from the unit's model.
func (u *Unit) FromModel(at Pos) bool { return at.Known() && at.File != u.File }
