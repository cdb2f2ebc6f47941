package unit

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// A stray is a file that looks like a unit's, or a folder with such files, where no unit is read.
type stray struct {
	file, message, remedy string
	stocks                []string // the numbers of the trailers in it
	// message is empty for a file among those of units, whose name is spoken of there.
}

func problemsOf(list []stray) (out []Problem) {
	for _, s := range list {
		if s.message == "" {
			continue
		}
		out = append(out, ignored(s.file, s.message, s.remedy))
	}
	return out
}

// mostStrays is how many files of a folder are looked at.
const mostStrays = 20_000

// besides are the files in content/ that the program keeps there, besides the yard's.
var besides = []string{path.Base(yardFile), "columns.txt", "from-sheets.csv"}

// strays names what looks like a unit's file in content/ itself, in content/media, in other folders
// below content/, in folders below those of units and models, and next to the yard.
func strays(root fs.FS) (out []stray) {
	content := path.Dir(yardFile)
	for _, e := range entriesOf(root, content) {
		at := content + "/" + e.Name()
		switch {
		case e.IsDir() && (at == unitsDir || at == modelsDir):
			for _, below := range entriesOf(root, at) {
				file := at + "/" + below.Name()
				if below.IsDir() {
					out = append(out, folder(root, file, at))
				} else if stock := stockOf(root, file); at == unitsDir && passedOver(below.Name()) != nil && stock != "" {
					out = append(out, stray{file: file, stocks: []string{stock}})
				}
			}
		case e.IsDir():
			if s := folder(root, at, unitsDir); len(s.stocks) > 0 {
				out = append(out, s)
			}
		case !slices.Contains(besides, e.Name()):
			out = append(out, textIn(root, at)...)
		}
	}
	for _, e := range entriesOf(root, ".") {
		name := strings.ToLower(e.Name())
		if e.IsDir() && (name == path.Base(unitsDir) || name == path.Base(modelsDir)) {
			if s := folder(root, e.Name(), unitsDir); len(s.stocks) > 0 {
				out = append(out, s)
			}
		} else if stock := stockOf(root, e.Name()); !e.IsDir() && stock != "" {
			out = append(out, astray(e.Name(), stock))
		}
	}
	return out
}

// entriesOf are the files and folders in a folder, without hidden ones; none if it cannot be read.
func entriesOf(root fs.FS, dir string) []fs.DirEntry {
	entries, err := fs.ReadDir(root, dir)
	if err != nil {
		return nil // what is needed of it is read elsewhere, and says so
	}
	return slices.DeleteFunc(entries, func(e fs.DirEntry) bool { return strings.HasPrefix(e.Name(), ".") })
}

// textIn is a file in content/ itself that is a trailer's, a model's or the like of one.
func textIn(root fs.FS, file string) []stray {
	name := path.Base(file)
	if stock := stockOf(root, file); stock != "" {
		return []stray{astray(file, stock)}
	}
	row := passedOver(name)
	switch {
	case row == nil:
		return []stray{{file: file, message: fmt.Sprintf("%q is not read here; only yard.md is", name),
			remedy: "if it is a trailer, move it to " + unitsDir + "/; if it is a model, to " + modelsDir + "/"}}
	case row.wordLike:
		return []stray{{file: file, message: fmt.Sprintf("%q is %s and is not read", name, row.what),
			remedy: row.remedy + "; a trailer's file goes into " + unitsDir + "/"}}
	}
	return nil
}

// folder is a folder that is not read, with the trailers in it, at any depth.
func folder(root fs.FS, dir, to string) stray {
	s := stray{file: dir, message: "this folder is not read", remedy: "put the files straight into " + to + "/"}
	var names []string
	seen := 0
	_ = fs.WalkDir(root, dir, func(file string, e fs.DirEntry, err error) error {
		if seen++; err != nil || seen > mostStrays {
			return fs.SkipAll
		}
		if stock := stockOf(root, file); !e.IsDir() && stock != "" {
			names, s.stocks = append(names, file), append(s.stocks, stock)
		}
		return nil
	})
	switch n := len(names); {
	case n == 1:
		s.file, s.message = names[0], fmt.Sprintf("this is the file of a trailer, %s, in a folder that is not read", s.stocks[0])
		s.remedy = "move the file to " + unitsDir + "/; a trailer that is sold stays there too, with availability: sold"
	case n > 1:
		var first []string
		for _, name := range names[:min(n, 5)] {
			first = append(first, path.Base(name))
		}
		s.message = fmt.Sprintf("this folder is not read, and has the files of %d trailers: %s", n, strings.Join(first, ", "))
		if n > len(first) {
			s.message += fmt.Sprintf(" and %d more", n-len(first))
		}
		s.remedy = "move the files to " + unitsDir + "/; trailers that are sold stay there too, with availability: sold"
	}
	return s
}

// astray is a trailer's file in a wrong place.
func astray(file, stock string) stray {
	return stray{file: file, stocks: []string{stock},
		message: fmt.Sprintf("this is the file of a trailer, %s, and trailers are not read here", stock),
		remedy:  "move it to " + unitsDir + "/" + unitName(file)}
}

// unitName is the name that the file of a unit has: the name of the file with .md as its only ending.
func unitName(file string) string {
	name := path.Base(file)
	if at := strings.Index(strings.ToLower(name), ".md"); at > 0 {
		return name[:at] + ".md"
	}
	return strings.TrimSuffix(name, path.Ext(name)) + ".md"
}

// stockLine is the line of a unit's front matter that has its number.
var stockLine = regexp.MustCompile(`(?im)^stock[ \t]*:[ \t]*["']?([^"'#\r\n]*[^"'#\s])`)

// stockOf is the number of the trailer in a text file that looks like a unit's; "" for another file.
func stockOf(root fs.FS, file string) string {
	if ending := strings.ToLower(path.Ext(file)); ending != ".md" && ending != ".txt" && ending != ".markdown" && ending != "" {
		return ""
	}
	src, _, err := readText(root, file)
	text := strings.TrimLeft(strings.TrimPrefix(string(src), "\ufeff"), " \t\r\n")
	if err != nil || !strings.HasPrefix(text, "---") {
		return ""
	}
	front, _, _ := strings.Cut(text[3:], "\n---")
	if m := stockLine.FindStringSubmatch(front); m != nil {
		return m[1]
	}
	return ""
}

// misplaced names the trailers among the files of models, and notes which trailers are in files
// that are not read.
func (r *Reading) misplaced(models []string, elsewhere []stray) {
	for _, name := range models {
		if m := r.stock.Models[strings.TrimSuffix(path.Base(name), ".md")]; m.Stock.Given() {
			s := astray(name, m.Stock.Value)
			s.remedy += "; if it is a model, delete the line stock:"
			r.problems = append(r.problems, ignored(s.file, s.message, s.remedy))
			elsewhere = append(elsewhere, s)
		}
	}
	for _, s := range elsewhere {
		for _, stock := range s.stocks {
			if r.stock.Strays == nil {
				r.stock.Strays = map[string]string{}
			}
			r.stock.Strays[stock] = s.file
		}
	}
}
