package policy

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// phrases are turns of phrase that a native American editor would change, with what to
// write instead. They are looked for in comments, messages, templates and documents.
var phrases = []struct {
	form    *regexp.Regexp
	instead string
}{
	{regexp.MustCompile(`(?i)\b(is|are|was|were) no [a-z]+`), "is not a"},
	{regexp.MustCompile(`(?i)\b(stands?|standing|stood) (here|there|behind|beside|above|below|alone|by itself|in (a|the|its|their|one) (file|list|table|page|test|line|comment|package|folder))\b`), "is, or a verb that says what it does"},
	{regexp.MustCompile(`(?i)\bbehind (it|its|them|their|which|the (name|number|value|price|key|word|colon|figure))\b`), "after"},
	{regexp.MustCompile(`(?i)\bbeside\b`), "next to, or besides"},
	{regexp.MustCompile(`(?i)\bbut for\b`), "except for"},
	{regexp.MustCompile(`(?i)\banew\b`), "again"},
	{regexp.MustCompile(`(?i)\bmend(s|ed|ing)?\b`), "fix"},
	{regexp.MustCompile(`(?i)\bso (deep|long|many|much|large|far) (is|are|may)\b`), "a noun: maximum depth"},
	{regexp.MustCompile(`(?i)\bof no (version|length|kind|size)\b`), "without"},
	{regexp.MustCompile(`(?i)\b(is|are) to be\b`), "must be, or will be"},
	{regexp.MustCompile(`(?i)\bthe house('s)?\b`), "the project"},
	{regexp.MustCompile(`(?i)\bthe fact sheet\b`), "the published source"},
	{regexp.MustCompile(`(?i)\b(the|first) design('s)?( |,|\.|"|\))|\breference/[a-z]+`), "docs/design.md, or the published source"},
	{regexp.MustCompile(`(?i)\b(nought|whilst|hitherto|therein|thereof|wherein|whereof|heretofore)\b`), "a plain word"},
}

// anyPhrase matches a line that has one of the phrases.
var anyPhrase = func() *regexp.Regexp {
	var forms []string
	for _, p := range phrases {
		forms = append(forms, "(?:"+p.form.String()+")")
	}
	return regexp.MustCompile(strings.Join(forms, "|"))
}()

// phraseParts are in lower case; each of the phrases has one of them. They tell most lines quickly.
var phraseParts = []string{" no ", "stand", "stood", "behind ", "beside", "but for", "anew", "mend", "so ", "to be", "the house", "the fact sheet", " design", "reference/",
	"nought", "whilst", "hitherto", "therein", "thereof", "wherein", "whereof", "heretofore"}

func hasPhrasePart(line string) bool {
	line = strings.ToLower(line)
	return slices.ContainsFunc(phraseParts, func(part string) bool { return strings.Contains(line, part) })
}

// plainPhrases look like one of the phrases above and are good English.
var plainPhrases = regexp.MustCompile(`(?i)\b(there (is|are|was|were) no|(is|are|was|were) no (such|longer|more than|less than|later than|earlier than|larger than|smaller than|higher than|fewer than|deeper than|worse|better|way|need))\b`)

// meantSo lists how many such phrases a package has that mean a place, not a cause: a load behind
// another one, and what people say on a walk-around. A package at 0 loses its line.
var meantSo = map[string]int{
	"internal/compute":    1, // the name of a limit: "the load behind it"
	"internal/walkaround": 4, // phrases that people say
}

// phrasesIn lists the phrases in a text, each with its line.
func phrasesIn(text string) (out []string) {
	for i, line := range strings.Split(text, "\n") {
		if !hasPhrasePart(line) || !anyPhrase.MatchString(line) { // nearly every line
			continue
		}
		for _, p := range phrases {
			for _, m := range p.form.FindAllStringIndex(line, -1) {
				// Look at a few words before it too: "there is no".
				if plainPhrases.MatchString(line[max(0, m[0]-6):min(len(line), m[1]+8)]) {
					continue
				}
				out = append(out, fmt.Sprintf("%d: %q; write: %s", i+1, line[m[0]:m[1]], p.instead))
			}
		}
	}
	return out
}

// written by people: comments and strings of Go files, templates, styles, scripts, documents.
func writing(t *testing.T, file string, data []byte) string {
	t.Helper()
	switch path.Ext(file) {
	case ".html", ".css", ".js", ".mjs", ".md":
		return string(data)
	case ".go":
	default:
		if strings.HasPrefix(file, ".ci/") && !strings.HasSuffix(file, ".json") {
			return string(data)
		}
		return ""
	}
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, file, data, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	lines := make([]string, set.File(f.Pos()).LineCount()+1)
	put := func(at token.Pos, text string) {
		n := set.Position(at).Line
		for i, line := range strings.Split(text, "\n") {
			lines[n-1+i] += " " + line
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING && !strings.HasSuffix(file, "_test.go") {
			put(lit.Pos(), lit.Value)
		}
		return true
	})
	for _, group := range f.Comments {
		for _, c := range group.List {
			put(c.Pos(), c.Text)
		}
	}
	return strings.Join(lines, "\n")
}

// everything walks the files of the project that people wrote, test data aside: what is in it
// is input, and often bad on purpose.
func everything(t *testing.T, each func(file string, data []byte)) {
	t.Helper()
	err := filepath.WalkDir(root, func(name string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if d.IsDir() {
			switch {
			case rel == ".git", rel == "public", rel == ".tarepage", rel == ".ci/out", strings.HasPrefix(rel, ".public"), d.Name() == "node_modules":
				return filepath.SkipDir
			}
			return nil
		}
		data, err := os.ReadFile(name)
		each(rel, data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestPlainEnglish(t *testing.T) {
	found := map[string][]string{}
	everything(t, func(file string, data []byte) {
		if strings.Contains(file, "testdata/") || strings.HasPrefix(file, "content/") || vendored[file] != "" ||
			file == "docs/licenses.md" || file == "internal/policy/style_test.go" || file == "internal/testyard/words.go" {
			return
		}
		for _, s := range phrasesIn(writing(t, file, data)) {
			dir := path.Dir(file)
			found[dir] = append(found[dir], file+":"+s)
		}
	})
	for dir, list := range found {
		if most := meantSo[dir]; len(list) > most {
			t.Errorf("%s has %d phrases to rewrite, at most %d are meant so:\n%s", dir, len(list), most, strings.Join(list, "\n"))
		}
	}
	for dir, most := range meantSo {
		if n := len(found[dir]); n < most {
			t.Errorf("%s has %d phrases left, and meantSo says %d: lower it, or take its line off at 0", dir, n, most)
		}
	}
}

func TestThePhrasesAreFound(t *testing.T) {
	for text, want := range map[string]int{
		"-theme is no folder":                    1,
		"there is no folder":                     0,
		"the limit is no longer read":            0,
		"what stands here is no file":            2,
		"where machines may stand on the deck":   0,
		"the axle rating stands there":           1,
		"the unit behind the number":             1,
		"drive behind a truck":                   0,
		"quoted beside it":                       1,
		"all but for one, made anew and mended":  3,
		"So deep are quotes put into each other": 1,
		"the design, \"Words\"":                  1,
		"see docs/design.md":                     0,
		"reference/web.md 1.6":                   1,
		"recommend and commend":                  0,
	} {
		if got := phrasesIn(text); len(got) != want {
			t.Errorf("%q: found %q, want %d", text, got, want)
		}
	}
}

// machinePath is a path of somebody's own computer. Paths that every system has, such as the
// folder of temporary files itself, are not meant.
var machinePath = regexp.MustCompile(`(^|[^A-Za-z0-9_.~$}/-])/(work|root|home/[a-z]+|Users/[A-Za-z]+|tmp/(team|[a-z]*tarepage))(/|\b)`)

// machineParts tells quickly that a line has no such path: nearly every line.
func machineParts(line string) bool {
	for rest := line; ; {
		_, after, ok := strings.Cut(rest, "/")
		if !ok {
			return false
		}
		if after != "" && strings.IndexByte("wrhUt", after[0]) >= 0 {
			return true
		}
		rest = after
	}
}

func TestNoPathOfAMachine(t *testing.T) {
	everything(t, func(file string, data []byte) {
		if file == "internal/policy/style_test.go" || strings.Contains(string(data[:min(len(data), 512)]), "\x00") {
			return
		}
		for i, line := range strings.Split(string(data), "\n") {
			if !machineParts(line) {
				continue
			}
			if m := machinePath.FindString(line); m != "" {
				t.Errorf("%s:%d: %q is a path of one computer", file, i+1, m)
			}
		}
	})
}

// rulesSince is the commit after which messages follow the rules; history is left as it is.
const rulesSince = "6867056"

func TestCommitMessages(t *testing.T) {
	log := exec.Command("git", "log", "--format=%h%x00%p%x00%s%x00%b%x01", rulesSince+"..HEAD")
	log.Dir = root
	out, err := log.Output()
	if err != nil {
		t.Skipf("no history to look at here: %v", err)
	}
	for _, entry := range strings.Split(string(out), "\x01") {
		fields := strings.SplitN(strings.TrimSpace(entry), "\x00", 4)
		if len(fields) < 4 {
			continue
		}
		hash, parents, subject, body := fields[0], fields[1], fields[2], fields[3]
		if strings.Contains(parents, " ") {
			t.Errorf("%s is a merge; rebase instead", hash)
		}
		if len(subject) > 72 {
			t.Errorf("%s: a subject of %d characters, at most 72", hash, len(subject))
		}
		if strings.TrimSpace(body) == "" {
			t.Errorf("%s: %q has no body that says why", hash, subject)
		}
		if m := machinePath.FindString(subject + "\n" + body); m != "" {
			t.Errorf("%s: the message names %q, a path of one computer", hash, m)
		}
	}
}

// mostBytes is how large a committed file may be. The largest one people need, the model of the
// walk-around's ear, has a third of it; a built program has 35 times as much.
const mostBytes = 1 << 20

func TestNoFileIsTooLarge(t *testing.T) {
	tree := exec.Command("git", "ls-tree", "-r", "-l", "HEAD")
	tree.Dir = root
	out, err := tree.Output()
	if err != nil {
		t.Skipf("no history to look at here: %v", err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		about, file, _ := strings.Cut(line, "\t")
		fields := strings.Fields(about) // mode, type, hash, size
		if size, err := strconv.Atoi(fields[len(fields)-1]); err != nil || size > mostBytes {
			t.Errorf("%s has %s bytes, at most %d; is it something that was built?", file, fields[len(fields)-1], mostBytes)
		}
	}
}
