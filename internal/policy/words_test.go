package policy

import (
	"fmt"
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/tools/go/packages"
)

// Words that belong to other tools. The product has its own (the design, "Words").
var (
	// anywhere: in no identifier and in no text that a person reads.
	anywhere = []string{"slug", "draft", "permalink", "shortcode", "taxonomy", "archetype", "collection", "layout", "partial", "baseurl", "base url", "deploy"}
	// asVerb: plain English elsewhere (a new trailer, a clean deck), but no command, flag
	// or identifier of ours by itself.
	asVerb = []string{"serve", "watch", "new", "clean"}
)

// allowed are the places where such a word is plain English or somebody else's, with why.
var allowed = map[string]string{
	"internal/unit/format.go: new":        "condition: new, as the trade says it of a trailer",
	"internal/compute/excise.go: new":     "the same condition, read",
	"internal/compute/label.go: new":      "the same condition, read",
	"internal/walkaround/dates.go: new":   "\"a new twenty-four footer\": what people say in a recording",
	"internal/walkaround/numeral.go: new": "the same talk",
	"internal/walkaround/words.go: new":   "condition: new, heard",
	"cmd/build/main.go: clean":            "the exit status; the design's own words are \"0 clean\"",
	"internal/unit/editor.go: draft":      "the address of JSON Schema's seventh draft, in the standard's own words",
	"internal/stockfile/schema.go: draft": "the address of JSON Schema 2020-12, in the standard's own words",
	"internal/showroom/room.go: serve":    "what net/http calls answering on a listener; no verb of the command",
	"internal/showroom/room.go: watch":    "the eye on the folders, below; no verb of the command",
	"internal/showroom/watch.go: watch":   "what the system and its library call it; no verb of the command",
}

// vendored are the files that are somebody else's, as they came.
var vendored = map[string]string{
	"themes/default/search.js": "MiniSearch 7.2.0, unchanged but for its license at the head",
}

// parts splits an identifier into its lower-case words: baseURL is base url.
func parts(name string) []string {
	var out []string
	var word []rune
	rs := []rune(name)
	for i, r := range rs {
		starts := unicode.IsUpper(r) && i > 0 && (!unicode.IsUpper(rs[i-1]) || i+1 < len(rs) && unicode.IsLower(rs[i+1]))
		if (starts || r == '_' || r == '-') && len(word) > 0 {
			out = append(out, strings.ToLower(string(word)))
			word = nil
		}
		if r != '_' && r != '-' {
			word = append(word, r)
		}
	}
	if len(word) > 0 {
		out = append(out, strings.ToLower(string(word)))
	}
	return out
}

var anywhereForm = regexp.MustCompile(`(?i)\b(` + strings.Join(anywhere, "|") + `)(s|es|ed|ing)?\b|\b_index\b|taxonomies`)

// badIdentifier names the word in an identifier that is not ours, or "".
func badIdentifier(name string) string {
	joined := strings.Join(parts(name), " ")
	if m := anywhereForm.FindString(joined); m != "" {
		return strings.ToLower(m)
	}
	for _, w := range asVerb {
		if strings.EqualFold(name, w) {
			return w
		}
	}
	return ""
}

// badText names the word in a text that is not ours, or "". In the command a text that is
// only a verb is a verb or a flag of it; elsewhere "new" is a trailer's condition.
func badText(text string, command bool) string {
	if m := anywhereForm.FindString(text); m != "" {
		return strings.ToLower(m)
	}
	if !command {
		return ""
	}
	bare := strings.TrimLeft(strings.TrimSpace(text), "-")
	for _, w := range asVerb {
		if bare == w {
			return w
		}
	}
	return ""
}

// borrowed lists the words of a package that are not ours.
func borrowed(p *packages.Package) (out []string) {
	say := func(n ast.Node, word, what string) {
		at := place(p, n)
		file, _, _ := strings.Cut(at, ":")
		if allowed[file+": "+word] == "" {
			out = append(out, fmt.Sprintf("%s: %q in %s", at, word, what))
		}
	}
	command := strings.HasPrefix(room(p.PkgPath), "cmd/")
	for _, f := range p.Syntax {
		imports := map[*ast.BasicLit]bool{}
		for _, spec := range f.Imports {
			imports[spec.Path] = true
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.Ident:
				if p.TypesInfo.Defs[n] != nil {
					if w := badIdentifier(n.Name); w != "" {
						say(n, w, "the identifier "+n.Name)
					}
				}
			case *ast.Field:
				if n.Tag != nil {
					for _, quoted := range regexp.MustCompile(`"[^"]*"`).FindAllString(n.Tag.Value, -1) {
						for _, choice := range strings.Split(strings.Trim(quoted, `"`), "|") {
							if w := badText(choice, command); w != "" {
								say(n.Tag, w, quoted)
							}
						}
					}
					imports[n.Tag] = true
				}
			case *ast.BasicLit:
				if n.Kind == token.STRING && !imports[n] {
					if text, err := strconv.Unquote(n.Value); err == nil {
						if w := badText(text, command); w != "" {
							say(n, w, n.Value)
						}
					}
				}
			}
			return true
		})
	}
	return out
}

// Code's own words in templates, styles and scripts that are the languages' and not ours.
var languages = strings.NewReplacer("table-layout", "", "new Set", "", "new Map", "", "new URL", "", "new Date", "", "new Event", "")

func TestNoBorrowedWords(t *testing.T) {
	used := map[string]bool{}
	for _, p := range load(t) {
		for _, s := range borrowed(p) {
			t.Error(s + "; the design's \"Words\" has ours")
		}
	}
	sources(t, func(file string, data []byte) {
		if strings.HasPrefix(path.Base(file), "_index") {
			t.Errorf("%s: a file of that name is another tool's", file)
		}
		if vendored[file] != "" {
			return
		}
		switch path.Ext(file) {
		case ".html", ".css", ".js", ".md", ".svg":
			for i, line := range strings.Split(languages.Replace(string(data)), "\n") {
				if m := anywhereForm.FindString(line); m != "" && !strings.Contains(file, "/testdata/") {
					t.Errorf("%s:%d: %q; the design's \"Words\" has ours", file, i+1, m)
				}
			}
		}
		for key := range allowed {
			if at, word, _ := strings.Cut(key, ": "); at == file && strings.Contains(strings.ToLower(string(data)), word) {
				used[key] = true
			}
		}
	})
	for key := range allowed {
		if !used[key] {
			t.Errorf("%s is allowed and does not stand there any more", key)
		}
	}
}

func TestTheWordRuleFindsWhatItIsFor(t *testing.T) {
	const source = `package p

const baseURL = "x"

var NewDraft = "y"

func serve() {}

func newSheet() string { return "a clean deck, new paint" }

var flag = "-watch"

var verb = "deploy"

var plain = "serve yourself"

type layoutOf struct{ A string ` + "`one:\"draft|used\"`" + ` }
`
	var got []string
	for _, s := range borrowed(written(t, module+"/cmd/p", source)) {
		_, at, _ := strings.Cut(s, "written.go:")
		line, _, _ := strings.Cut(at, ":")
		got = append(got, line)
	}
	if s := strings.Join(got, " "); s != "3 5 7 11 13 17 17" {
		t.Errorf("found at lines %s", s)
	}
}

// Every package says in one place what it is, and in its first words its name.
func TestEveryPackageSaysWhatItIs(t *testing.T) {
	for _, p := range load(t) {
		var docs []string
		for _, f := range p.Syntax {
			if f.Doc != nil {
				docs = append(docs, f.Doc.Text())
			}
		}
		begins := "Package " + p.Name + " "
		if p.Name == "main" {
			begins = "Command " + path.Base(p.PkgPath) + " "
		}
		switch {
		case len(docs) != 1:
			t.Errorf("%s has %d package comments, want one", p.PkgPath, len(docs))
		case !strings.HasPrefix(docs[0], begins):
			t.Errorf("%s: the package comment begins with %q, want %q", p.PkgPath, strings.SplitN(docs[0], "\n", 2)[0], begins)
		}
	}
}

// Nothing lives outside the build: a file that is left out of it is never compiled and
// rots unseen.
func TestNothingIsLeftOutOfTheBuild(t *testing.T) {
	form := regexp.MustCompile(`(?m)^//\s*(go:build|\+build)\b.*\b(ignore|never|exclude)\b`)
	if !form.MatchString("package p\n//go:build " + "ignore\n") {
		t.Fatal("the form does not find what it is for")
	}
	files := 0
	sources(t, func(file string, data []byte) {
		if path.Ext(file) == ".go" {
			files++
			if m := form.FindString(string(data)); m != "" {
				t.Errorf("%s: %s", file, m)
			}
		}
	})
	if files < 50 {
		t.Errorf("only %d Go files were looked at", files)
	}
}
