package unit

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"reflect"
	"runtime"
	"sort"
	"strings"
	"sync"
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
}

// The places below the root that is read.
const (
	yardFile  = "content/yard.md"
	modelsDir = "content/models"
	unitsDir  = "content/units"
)

// Read reads content/ below root: the yard's file, the models and the units. What does
// not read is a Problem; the error is for a root that holds no yard at all.
func Read(root fs.FS) (*Stock, []Problem, error) {
	src, err := readText(root, yardFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, fmt.Errorf("no %s here; name the folder that holds content/ with -from", yardFile)
	} else if err != nil {
		return nil, nil, fmt.Errorf("cannot read %s: %w", yardFile, plainError(err))
	}
	s := &Stock{Models: map[string]*Unit{}}
	var problems []Problem
	s.Yard, problems = ReadYard(yardFile, src)

	models, ps, err := readFolder(root, modelsDir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	problems = append(problems, ps...)
	for _, m := range models {
		s.Models[strings.TrimSuffix(path.Base(m.File), ".md")] = m
	}
	s.Units, ps, err = readFolder(root, unitsDir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, fmt.Errorf("no %s here; put one Markdown file per unit there", unitsDir)
	} else if err != nil {
		return nil, nil, err
	}
	problems = append(problems, ps...)
	found := &shelf{root: root, folders: map[string][]fs.DirEntry{}, known: map[string]Media{}}
	s.Media = map[string][]Media{}
	for _, u := range s.Units {
		problems = append(problems, s.fill(u)...)
		if named := u.Media(); len(named) > 0 {
			s.Media[u.File] = found.look(named)
		}
	}
	sortProblems(problems)
	return s, problems, nil
}

func plainError(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// readFolder reads the Markdown files of one folder, several at a time; the order of
// the result is that of the names.
func readFolder(root fs.FS, dir string) ([]*Unit, []Problem, error) {
	entries, err := fs.ReadDir(root, dir)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil, err
		}
		return nil, nil, fmt.Errorf("cannot read %s: %w", dir, plainError(err))
	}
	var names []string
	var problems []Problem
	for _, e := range entries {
		name := e.Name()
		switch {
		case strings.HasPrefix(name, "."):
		case e.IsDir():
			problems = append(problems, ignored(dir+"/"+name, "a folder is not read here", "put the files straight into "+dir))
		case !strings.EqualFold(path.Ext(name), ".md"):
			problems = append(problems, ignored(dir+"/"+name, fmt.Sprintf("%q is no Markdown file and is not read", name),
				"name it .md, or move it to media/"))
		default:
			names = append(names, name)
		}
	}
	sort.Strings(names)
	units := make([]*Unit, len(names))
	found := make([][]Problem, len(names))
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(runtime.GOMAXPROCS(0), len(names)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				units[i], found[i] = readFile(root, dir+"/"+names[i])
			}
		}()
	}
	for i := range names {
		next <- i
	}
	close(next)
	wg.Wait()
	for _, ps := range found {
		problems = append(problems, ps...)
	}
	return units, problems, nil
}

func ignored(file, message, remedy string) Problem {
	return Problem{Rule: FileIgnored, At: Pos{file, 1, 1}, Message: message, Remedy: remedy}
}

func readFile(root fs.FS, name string) (*Unit, []Problem) {
	broken := func(message, remedy string) (*Unit, []Problem) {
		at := Pos{name, 1, 1}
		return &Unit{File: name, Top: at, Broken: true},
			[]Problem{{Rule: FileUnreadable, At: at, Message: message, Remedy: remedy}}
	}
	info, err := fs.Stat(root, name)
	if err == nil && info.Size() > MostBytes {
		return broken(fmt.Sprintf("the file has %d bytes; a unit file stays below %d", info.Size(), MostBytes),
			"keep photos, captions and videos in media/ and name them here")
	}
	src, err := readText(root, name)
	if errors.Is(err, errNoFile) {
		return broken(err.Error(), "put a text file in its place")
	} else if err != nil {
		return broken(fmt.Sprintf("the file cannot be opened: %v", plainError(err)), "check its permissions")
	}
	return ReadUnit(name, src)
}

var errNoFile = errors.New("what stands here is no file")

// readText reads a file, if it is one: a pipe or a device would keep the build waiting
// for ever. It reads no more than is needed to say that the file is too long.
func readText(root fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(root, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errNoFile
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, MostBytes+1))
}

// fill gives the unit what its model states and it leaves out, key by key. The filled
// fields keep their places in the model's file.
func (s *Stock) fill(u *Unit) []Problem {
	if u.Broken || !u.Model.Given() {
		return nil
	}
	m := s.Models[u.Model.Value]
	if m == nil {
		var names []string
		for name := range s.Models {
			names = append(names, name)
		}
		sort.Strings(names)
		p := Problem{Rule: ModelUnknown, At: u.Model.Pos,
			Message: fmt.Sprintf("there is no model %q in %s", u.Model.Value, modelsDir),
			Remedy:  "write the file " + modelsDir + "/" + u.Model.Value + ".md, or leave the key out"}
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
	fillFrom(unitKeys(), reflect.ValueOf(u).Elem(), reflect.ValueOf(m).Elem(), skip)
	return nil
}

// unfilled marks what a model would have filled in as unread: it is not missing as well.
func (u *Unit) unfilled() {
	for _, k := range unitKeys().order {
		if !notFilled[k.path] {
			spoilBelow(k, reflect.ValueOf(u).Elem().Field(k.index))
		}
	}
}

// notFilled are the keys that belong to one unit alone and never come from a model.
var notFilled = map[string]bool{"stock": true, "serial": true, "model": true, "withhold": true, "photos": true, "recording": true,
	"relabeled": true, "waive": true}

// notFilledTire are further keys that are not filled in where the unit has other tires
// than its model: what is molded on one tire says nothing of another.
var notFilledTire = func() map[string]bool {
	out := maps.Clone(notFilled)
	for _, path := range []string{"tires.sidewall", "tires.ply", "tires.service"} {
		out[path] = true
	}
	return out
}()

// otherTire reports that the unit states a tire of its own: another size or load range
// than the model's, or a sidewall that somebody read.
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
			// A value that does not read is no value left out: the model's would hide it.
			// Nor is one that does not read in the model missing in the unit.
			l, m := t.Addr().Interface().(leaf), f.Addr().Interface().(leaf)
			switch {
			case l.given() || t.FieldByName("Spoiled").Bool():
			case m.given():
				t.Set(f)
			case f.FieldByName("Spoiled").Bool():
				l.spoil()
			}
		}
	}
}

// FromModel reports whether the field was filled in from the unit's model.
func (u *Unit) FromModel(at Pos) bool { return at.Known() && at.File != u.File }
