package unit

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strings"
	"time"
)

// A Memory remembers the files of one yard, so that the next reading reads only what changed.
// An unchanged file with an unchanged model gives the same *Unit. The zero Memory remembers
// nothing.
//
// A file counts as unchanged if its size and its time are the same, as in git. If the time is
// so recent that the file could have been written twice at that time, its bytes decide.
type Memory struct {
	// Keep makes the Memory remember. Without it, every reading is like the first.
	Keep  bool
	units map[string]*remembered
}

type remembered struct {
	size    int64
	time    time.Time
	touched int64
	young   bool // it was read so soon that other bytes may have the same time
	model   [32]byte
	unit    *Unit
	found   []Problem // of the file itself
	filling []Problem // of its model
}

// young is how old a file must be when it is read, so that its time identifies its bytes. The
// coarsest file system in use (FAT) keeps times to two seconds.
const young = 2 * time.Second

// A Reading reads one yard. Open reads the yard's file and the models, Unit reads one unit,
// and Stock returns everything after every unit was read. A caller that reads unit by unit can
// finish with each before the trees of all texts are in memory. Other callers use Read.
type Reading struct {
	memory   *Memory
	root     fs.FS
	stock    *Stock // without units
	problems []Problem
	names    []string
	units    []*remembered
	media    [][]Media
	shelf    *shelf
}

// Open begins to read content/ below root. It returns an error if there is no yard.
func (m *Memory) Open(root fs.FS) (*Reading, error) {
	src, _, err := readText(root, yardFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("no %s here; name the folder that holds content/ with -from, or set one up with first-yard", yardFile)
	} else if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", yardFile, plainError(err))
	}
	r := &Reading{memory: m, root: root, stock: &Stock{Models: map[string]*Unit{}, Media: map[string][]Media{}}, shelf: shelfOf(root)}
	r.stock.Yard, r.problems = ReadYard(yardFile, src)
	models, passed, err := markdownFiles(root, modelsDir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, name := range models {
		model := readFile(root, name)
		r.stock.Models[strings.TrimSuffix(path.Base(name), ".md")] = model.unit
		r.problems = append(r.problems, model.found...)
	}
	names, more, err := markdownFiles(root, unitsDir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("no %s here%s; put one Markdown file per unit there", unitsDir, resembling(root, unitsDir))
	} else if err != nil {
		return nil, err
	}
	for _, p := range append(passed, more...) {
		r.problems = append(r.problems, p)
		r.stock.ignored = append(r.stock.ignored, p.At.File)
	}
	r.names, r.units, r.media = names, make([]*remembered, len(names)), make([][]Media, len(names))
	return r, nil
}

// resembling names a folder that is called like the one that is missing, but for its capitals or
// blanks.
func resembling(root fs.FS, dir string) string {
	above, name := path.Split(dir)
	entries, err := fs.ReadDir(root, path.Clean(above))
	if err != nil {
		return ""
	}
	plain := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, " ", "")) }
	for _, e := range entries {
		if is := plain(e.Name()); e.IsDir() && (is == name || is+"s" == name) {
			return fmt.Sprintf(" (there is %q: name it %s)", above+e.Name(), name)
		}
	}
	return ""
}

// ReadOne reads one unit of the yard below root as if its file had these bytes, with its model
// and the files that it names. The stock has this unit only.
func ReadOne(root fs.FS, name string, src []byte) (*Stock, []Problem, error) {
	r, err := new(Memory).Open(root)
	if err != nil {
		return nil, nil, err
	}
	r.names, r.units, r.media = []string{name}, make([]*remembered, 1), make([][]Media, 1)
	u := new(remembered)
	u.unit, u.found = ReadUnit(name, src)
	u.filling = r.stock.fill(u.unit)
	r.units[0] = u
	if named := u.unit.Media(); len(named) > 0 {
		r.media[0] = r.shelf.look(named)
	}
	stock, problems := r.Stock()
	return stock, problems, nil
}

// Yard is the yard's file.
func (r *Reading) Yard() *Yard { return r.stock.Yard }

// Len is the number of units.
func (r *Reading) Len() int { return len(r.names) }

// Unit reads unit i and looks at the files that it names. Call it once for each unit. Several
// goroutines may call it at the same time.
func (r *Reading) Unit(i int) (*Unit, []Media) {
	u := r.memory.recall(r.root, r.names[i], r.stock)
	if u == nil {
		u = readFile(r.root, r.names[i])
		if model := r.stock.modelOf(u.unit); model != nil {
			u.model = model.Sum
		}
		u.filling = r.stock.fill(u.unit)
	}
	r.units[i] = u
	if named := u.unit.Media(); len(named) > 0 {
		r.media[i] = r.shelf.look(named)
	}
	return u.unit, r.media[i]
}

// Stock returns the whole yard. Call it after every unit was read.
func (r *Reading) Stock() (*Stock, []Problem) {
	kept := make(map[string]*remembered, len(r.names))
	for i, u := range r.units {
		r.stock.Units = append(r.stock.Units, u.unit)
		r.problems = append(append(r.problems, u.found...), u.filling...)
		if r.media[i] != nil {
			r.stock.Media[u.unit.File] = r.media[i]
		}
		kept[r.names[i]] = u
	}
	r.problems = append(r.problems, r.stock.setAside()...)
	if r.memory.Keep {
		r.memory.units = kept
	}
	sortProblems(r.problems)
	return r.stock, r.problems
}

// recall returns what was read last time from a file that did not change, or nil.
func (m *Memory) recall(root fs.FS, name string, s *Stock) *remembered {
	r := m.units[name]
	if r == nil {
		return nil
	}
	info, err := fs.Lstat(root, name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != r.size {
		return nil
	}
	var sum [32]byte
	if model := s.modelOf(r.unit); model != nil {
		sum = model.Sum
	}
	if sum != r.model || len(r.filling) > 0 {
		// The unit has another model now, or its model is missing.
		return nil
	}
	if !r.young && info.ModTime().Equal(r.time) && touched(info) == r.touched {
		return r
	}
	again := readFile(root, name)
	if again.unit.Sum != r.unit.Sum || again.unit.Broken {
		return nil
	}
	r.time, r.touched, r.young = again.time, again.touched, again.young
	return r
}

// modelOf returns the model that a unit names, or nil.
func (s *Stock) modelOf(u *Unit) *Unit {
	if u.Broken || !u.Model.Given() {
		return nil
	}
	return s.Models[u.Model.Value]
}

// A notUnit is a kind of file that is not read. A test holds each row by its example.
type notUnit struct {
	is                    func(lower string) bool
	what, remedy, example string
}

// notUnits are the names that no unit's or model's file has, and what the file is instead.
// What editors and folder services call their files is common practice, no source.
var notUnits = []notUnit{
	{func(s string) bool { return strings.HasPrefix(s, "~$") || strings.HasPrefix(s, ".~lock.") },
		"the lock of a program that has the file open", "close the program; the lock goes away with it", "~$sb-1050.md"},
	{func(s string) bool { return strings.HasSuffix(s, "~") || strings.HasSuffix(s, ".bak") },
		"an editor's copy of a file", "delete it if you do not need it", "sb-1050.md~"},
	{func(s string) bool {
		return strings.Contains(s, "conflicted copy") || strings.Contains(s, "sync-conflict")
	},
		"a copy that was made because two people saved the file", "compare it with the file itself, keep what is right there, and delete the copy", "sb-1050 (conflicted copy 2026-11-14).md"},
	{func(s string) bool { return strings.Contains(s, ".md.") },
		"named like a Markdown file with one more ending", "take the last ending off, so that the name ends in .md", "sb-1050.md.txt"},
	{func(s string) bool { return path.Ext(s) != ".md" },
		"not a Markdown file", "name it .md, or move it to media/", "sb-1050.txt"},
}

// passedOver is the row of notUnits for a name; nil if the file is read.
func passedOver(name string) *notUnit {
	lower := strings.ToLower(name)
	for i := range notUnits {
		if notUnits[i].is(lower) {
			return &notUnits[i]
		}
	}
	return nil
}

// markdownFiles returns the Markdown files of one folder, sorted by name.
func markdownFiles(root fs.FS, dir string) (names []string, problems []Problem, err error) {
	entries, err := fs.ReadDir(root, dir)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil, nil, err
		}
		return nil, nil, fmt.Errorf("cannot read %s: %w", dir, plainError(err))
	}
	for _, e := range entries {
		name := e.Name()
		switch {
		case strings.HasPrefix(name, "."):
		case e.IsDir():
			problems = append(problems, ignored(dir+"/"+name, "a folder is not read here", "put the files straight into "+dir))
		case passedOver(name) != nil:
			row := passedOver(name)
			problems = append(problems, ignored(dir+"/"+name, fmt.Sprintf("%q is %s and is not read", name, row.what), row.remedy))
		default:
			names = append(names, dir+"/"+name)
		}
	}
	sort.Strings(names)
	return slices.Compact(names), problems, nil
}

func readFile(root fs.FS, name string) *remembered {
	broken := func(message, remedy string) *remembered {
		at := Pos{name, 1, 1}
		return &remembered{unit: &Unit{File: name, Top: at, Broken: true},
			found: []Problem{{Rule: FileUnreadable, At: at, Message: message, Remedy: remedy}}}
	}
	src, info, err := readText(root, name)
	switch {
	case errors.Is(err, errNoFile):
		return broken(err.Error(), "put a text file in its place")
	case errors.Is(err, errLink):
		return broken(err.Error(), "put the file itself there")
	case err != nil:
		return broken(fmt.Sprintf("the file cannot be opened: %v", plainError(err)), "check its permissions")
	case info.Size() > MostBytes:
		return broken(fmt.Sprintf("the file has %d bytes; a unit file stays below %d", info.Size(), MostBytes),
			"keep photos, captions and videos in media/ and name them here")
	}
	r := &remembered{size: info.Size(), time: info.ModTime(), touched: touched(info), young: time.Since(info.ModTime()) < young}
	r.unit, r.found = ReadUnit(name, src)
	return r
}

// readText reads a regular file. A pipe or a device would make the build wait forever, and a
// link may lead out of the folder to any file that the user can read. It reads only as much as
// it needs to see that a file is too long.
func readText(root fs.FS, name string) ([]byte, fs.FileInfo, error) {
	info, err := fs.Lstat(root, name)
	if err != nil {
		return nil, nil, err
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		return nil, nil, errLink
	}
	if !info.Mode().IsRegular() {
		return nil, nil, errNoFile
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	src := make([]byte, min(info.Size(), MostBytes)+1)
	n, err := io.ReadFull(f, src)
	if err == nil && n == len(src) && n <= MostBytes {
		// It grew in the meantime.
		var rest []byte
		rest, err = io.ReadAll(io.LimitReader(f, MostBytes+1-int64(n)))
		return append(src, rest...), info, err
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		err = nil
	}
	return src[:n], info, err
}
