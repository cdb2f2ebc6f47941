package unit

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"sort"
	"strings"
	"time"

	"tarepage/internal/filestamp"
)

// Kept is what reading a unit's file gave. It has everything that the next reading needs to
// tell whether reading the file again would give the same. It can be packed
// (internal/packed), and nobody changes it.
type Kept struct {
	Stamp filestamp.Stamp // of the file
	// Young reports that the file was read so soon that other bytes may have the same time.
	Young bool
	// Model is the digest of what filled in the unit; see Stock.filling.
	Model [32]byte
	Unit  *Unit
	// Found are the problems of the file itself, and Filling those with its model.
	Found, Filling []Problem
}

// young is how old a file must be when it is read, so that its time identifies its bytes. The
// coarsest file system in use (FAT) keeps times to two seconds.
const young = 2 * time.Second

// A Reading reads one yard. Open reads the yard's file and the models, Unit reads one unit,
// and Stock returns everything after every unit was read. A caller that reads unit by unit can
// finish with each before the trees of all texts are in memory. Other callers use Read.
type Reading struct {
	root     fs.FS
	stock    *Stock // without units
	problems []Problem
	names    []string
	units    []*Kept
	media    [][]Media
	shelf    *shelf
}

// Open begins to read content/ below root. It returns an error if there is no yard.
func Open(root fs.FS) (*Reading, error) {
	src, _, err := readText(root, yardFile)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("no %s here; name the folder that holds content/ with -from, or set one up with first-yard", yardFile)
	} else if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", yardFile, plainError(err))
	}
	r := &Reading{root: root, stock: &Stock{Models: map[string]*Unit{}, Media: map[string][]Media{}}, shelf: shelfOf(root)}
	r.stock.Yard, r.problems = ReadYard(yardFile, src)
	models, passed, err := markdownFiles(root, modelsDir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	for _, name := range models {
		model := readFile(root, name)
		r.stock.Models[strings.TrimSuffix(path.Base(name), ".md")] = model.Unit
		r.problems = append(r.problems, model.Found...)
		if other := model.Unit.Model; other.Given() {
			r.problems = append(r.problems, Problem{Rule: UnknownKey, At: other.Pos,
				Message: fmt.Sprintf("a model takes nothing from another model, so what %q says is lost", shorten(other.Value)),
				Remedy:  "copy what both have in common into this file, and delete the line model"})
		}
	}
	names, more, err := markdownFiles(root, unitsDir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("no %s here%s; put one Markdown file per unit there", unitsDir, resembling(root, unitsDir))
	} else if err != nil {
		return nil, err
	}
	elsewhere := strays(root)
	for _, p := range slices.Concat(passed, more, problemsOf(elsewhere)) {
		r.problems = append(r.problems, p)
		r.stock.ignored = append(r.stock.ignored, p.At.File+" "+p.Message)
	}
	r.misplaced(models, elsewhere)
	r.names, r.units, r.media = names, make([]*Kept, len(names)), make([][]Media, len(names))
	return r, nil
}

// resembling names a folder that is called like the one that is missing, except for its capitals or
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
	r, err := Open(root)
	if err != nil {
		return nil, nil, err
	}
	r.names, r.units, r.media = []string{name}, make([]*Kept, 1), make([][]Media, 1)
	u := new(Kept)
	u.Unit, u.Found = ReadUnit(name, src)
	u.Filling = r.stock.fill(u.Unit)
	r.units[0] = u
	if named := u.Unit.Media(); len(named) > 0 {
		r.media[0] = r.shelf.look(named)
	}
	stock, problems := r.Stock()
	return stock, problems, nil
}

// Yard is the yard's file.
func (r *Reading) Yard() *Yard { return r.stock.Yard }

// Len is the number of units.
func (r *Reading) Len() int { return len(r.names) }

// Name is the file of unit i.
func (r *Reading) Name(i int) string { return r.names[i] }

// Unit reads unit i and looks at the files that it names. Before is what reading it gave
// before, or nil; if that would be the same now, it is what Unit returns. Call Unit once for
// each unit. Several goroutines may call it at the same time.
//
// A file counts as unchanged if its size and its times are the same, as in git. If a time is
// so recent that the file could have been written twice at that time, or the system does not
// tell when the file last changed, its bytes decide.
func (r *Reading) Unit(i int, before *Kept) (*Kept, []Media) {
	u := r.same(r.names[i], before)
	if u == nil {
		u = readFile(r.root, r.names[i])
		u.Filling = r.stock.fill(u.Unit)
		u.Model = r.stock.filling(u.Unit)
	}
	r.units[i] = u
	if named := u.Unit.Media(); len(named) > 0 {
		r.media[i] = r.shelf.look(named)
	}
	return u, r.media[i]
}

// Stock returns the whole yard. Call it after every unit was read.
func (r *Reading) Stock() (*Stock, []Problem) {
	for i, u := range r.units {
		r.stock.Units = append(r.stock.Units, u.Unit)
		r.problems = append(append(r.problems, u.Found...), u.Filling...)
		if r.media[i] != nil {
			r.stock.Media[u.Unit.File] = r.media[i]
		}
	}
	r.stock.keptOff = r.keepOff()
	r.problems = append(r.problems, r.stock.setAside()...)
	sortProblems(r.problems)
	return r.stock, r.problems
}

// same returns what was read before, if the file and what fills it in are as they were, and
// nil otherwise. A file that could not be read is always read again.
func (r *Reading) same(name string, before *Kept) *Kept {
	if before == nil || before.Unit == nil || before.Unit.Broken || before.Unit.File != name || r.stock.filling(before.Unit) != before.Model {
		return nil
	}
	info, err := fs.Lstat(r.root, name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != before.Stamp.Bytes {
		return nil
	}
	if !before.Young && before.Stamp.Holds(info) {
		return before
	}
	src, info, err := readText(r.root, name)
	if err != nil || sha256.Sum256(src) != before.Unit.Sum {
		return nil
	}
	again := *before
	again.stamp(info)
	return &again
}

// stamp notes the size and the times of the file, which is read now.
func (k *Kept) stamp(info fs.FileInfo) {
	k.Stamp = filestamp.Of(info)
	k.Young = time.Since(time.Unix(0, max(k.Stamp.Time, k.Stamp.Touched))) < young
}

// filling is a digest of what fills in a unit: of its model's file, or of the names of all
// models if that file is missing, since the advice then names the nearest one. It is zero for
// a unit that names no model.
func (s *Stock) filling(u *Unit) [32]byte {
	if u.Broken || !u.Model.Given() {
		return [32]byte{}
	}
	if model := s.Model(u.Model.Value); model != nil {
		return model.Sum
	}
	return sha256.Sum256([]byte(strings.Join(slices.Sorted(maps.Keys(s.Models)), "\n")))
}

// A notUnit is a kind of file that is not read. A test holds each row by its example.
type notUnit struct {
	is                    func(lower string) bool
	what, remedy, example string
	wordLike              bool // somebody may have written a unit in it
}

// notUnits are the names that no unit's or model's file has, and what the file is instead.
// What editors and folder services call their files is common practice, no source.
var notUnits = []notUnit{
	{func(s string) bool { return strings.HasPrefix(s, "~$") || strings.HasPrefix(s, ".~lock.") },
		"the lock of a program that has the file open", "close the program; the lock goes away with it", "~$sb-1050.md", false},
	{func(s string) bool { return strings.HasSuffix(s, "~") || strings.HasSuffix(s, ".bak") },
		"an editor's copy of a file", "delete it if you do not need it", "sb-1050.md~", false},
	{func(s string) bool {
		return strings.Contains(s, "conflicted copy") || strings.Contains(s, "sync-conflict")
	},
		"a copy that was made because two people saved the file", "compare it with the file itself, keep what is right there, and delete the copy", "sb-1050 (conflicted copy 2026-11-14).md", false},
	{func(s string) bool { return strings.Contains(s, ".md.") },
		"named like a Markdown file with one more ending", "take the last ending off, so that the name ends in .md", "sb-1050.md.txt", true},
	{func(s string) bool {
		return slices.Contains([]string{".docx", ".doc", ".odt", ".rtf", ".pages"}, path.Ext(s))
	},
		"the file of a word processor", "open it there, save it as plain text (.txt, UTF-8), and name that file .md; a new ending alone does not make it text", "sb-1050.docx", true},
	{func(s string) bool { return slices.Contains([]string{".xlsx", ".xls", ".ods", ".csv"}, path.Ext(s)) },
		"a spreadsheet", "move it out of content/, and read it with the verb sheet", "stock.xlsx", false},
	{func(s string) bool { return path.Ext(s) != ".md" },
		"not a Markdown file", "name it .md, or move it to media/", "sb-1050.txt", false},
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
		case e.IsDir(): // strays names it
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

func readFile(root fs.FS, name string) *Kept {
	broken := func(message, remedy string) *Kept {
		at := Pos{name, 1, 1}
		return &Kept{Unit: &Unit{File: name, Top: at, Broken: true},
			Found: []Problem{{Rule: FileUnreadable, At: at, Message: message, Remedy: remedy}}}
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
	k := new(Kept)
	k.stamp(info)
	k.Unit, k.Found = ReadUnit(name, src)
	return k
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
