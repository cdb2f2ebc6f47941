package inspect

import (
	"embed"
	"encoding/base64"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strconv"
	"strings"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

// The archives of the rules, and the sound models that fill in their units.
//
//go:embed *.txtar examples
var archives embed.FS

// An Example is one case of a rule's archive: files under content/, and what they give.
type Example struct {
	// Case is the case's name: below, at, above.
	Case string
	// Title says in words what the case shows.
	Title string
	// Files are the case's own files.
	Files []ExampleFile
	// Want is the text of the findings as the archive states it, empty for none.
	Want string
	// Findings are what the files really give.
	Findings []Finding
}

// An ExampleFile is one file of a case.
type ExampleFile struct {
	Name string // content/units/above.md
	Text string
	// Binary is set for what is not text.
	Binary bool
}

// cases reads every case in a rule's archive, in the archive's order, and runs none. The
// archive's sections are CASE/title, CASE/NAME.md, CASE/yard.md, CASE/models/NAME.md,
// CASE/media/NAME, CASE/media/NAME.base64 for a file that is not text, CASE/want. Such a file may
// end in a line that says how many zeros follow: "zeros 2000000".
func cases(r *Rule) ([]Example, error) {
	name := strings.ReplaceAll(r.Name, "-", "_") + ".txtar"
	src, err := archives.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("rule %s has no archive %s", r.Name, name)
	}
	var out []Example
	at := map[string]int{}
	for _, file := range txtar.Parse(src).Files {
		which, section, ok := strings.Cut(file.Name, "/")
		if !ok {
			return nil, fmt.Errorf("%s: section %q is not CASE/NAME", name, file.Name)
		}
		i, known := at[which]
		if !known {
			i = len(out)
			at[which] = i
			out = append(out, Example{Case: which})
		}
		ex := &out[i]
		switch {
		case section == "title":
			ex.Title = strings.TrimSpace(string(file.Data))
		case section == "want":
			ex.Want = string(file.Data)
		case section == "yard.md":
			ex.Files = append(ex.Files, ExampleFile{Name: "content/yard.md", Text: string(file.Data)})
		case strings.HasSuffix(section, ".base64"):
			data, err := unpacked(string(file.Data))
			if err != nil {
				return nil, fmt.Errorf("%s: section %q: %w", name, file.Name, err)
			}
			ex.Files = append(ex.Files, ExampleFile{"content/" + strings.TrimSuffix(section, ".base64"), data, true})
		case strings.HasPrefix(section, "models/"), strings.HasPrefix(section, "media/"):
			ex.Files = append(ex.Files, ExampleFile{Name: "content/" + section, Text: string(file.Data)})
		case strings.Contains(section, "."):
			ex.Files = append(ex.Files, ExampleFile{Name: "content/units/" + section, Text: string(file.Data)})
		default:
			return nil, fmt.Errorf("%s: section %q is not title, want or a file", name, file.Name)
		}
	}
	return out, nil
}

// unpacked is the file that a section in base64 holds.
func unpacked(text string) (string, error) {
	text, zeros, _ := strings.Cut(text, "\nzeros ")
	data, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(text), ""))
	if err != nil || zeros == "" {
		return string(data), err
	}
	n, err := strconv.ParseUint(strings.TrimSpace(zeros), 10, 24)
	return string(data) + strings.Repeat("\x00", int(n)), err
}

// ExampleOf is the first case of a rule's archive that breaks the rule.
func ExampleOf(r *Rule) (Example, error) {
	all, err := cases(r)
	if err != nil {
		return Example{}, err
	}
	for _, ex := range all {
		if err := ex.run(r); err != nil {
			return Example{}, err
		}
		for _, f := range ex.Findings {
			if f.Rule == r {
				return ex, nil
			}
		}
	}
	return Example{}, fmt.Errorf("rule %s: no case in its archive breaks it", r.Name)
}

// run reads, works out and inspects a case of the rule.
func (ex *Example) run(r *Rule) error {
	stock, problems, err := readExample(ex.Files)
	if err != nil {
		return fmt.Errorf("rule %s, case %s: %w", r.Name, ex.Case, err)
	}
	ex.Findings = Stock(stock, compute.Stock(stock), problems)
	return nil
}

// statedModel finds the models that the files of a case state.
var statedModel = regexp.MustCompile(`(?m)^model: (\S+)$`)

// readExample reads a case together with the sound yard in examples/ and the sound models that
// the case states, or all of them for a case that states another one. Reading is most of the work.
func readExample(files []ExampleFile) (*unit.Stock, []unit.Problem, error) {
	a := &txtar.Archive{}
	own, wanted, all := map[string]bool{}, map[string]bool{"yard": true}, false
	for _, f := range files {
		own[f.Name] = true
		a.Files = append(a.Files, txtar.File{Name: f.Name, Data: []byte(f.Text)})
		for _, stated := range statedModel.FindAllStringSubmatch(f.Text, -1) {
			wanted[stated[1]] = true
			_, err := fs.Stat(archives, "examples/models/"+stated[1]+".md")
			all = all || err != nil
		}
	}
	err := fs.WalkDir(archives, "examples", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name := path.Join("content", strings.TrimPrefix(p, "examples/"))
		if own[name] || !all && !wanted[strings.TrimSuffix(path.Base(p), ".md")] {
			return nil
		}
		data, err := archives.ReadFile(p)
		a.Files = append(a.Files, txtar.File{Name: name, Data: data})
		return err
	})
	if err != nil {
		return nil, nil, err
	}
	root, err := txtar.FS(a)
	if err != nil {
		return nil, nil, err
	}
	return unit.Read(root)
}
