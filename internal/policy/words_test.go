package policy

import (
	"fmt"
	"go/ast"
	"go/token"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"
	"golang.org/x/tools/go/packages"
)

// Names that other programs made their own. What people see and type has names of our own:
// commands, flags, keys, labels and file names. Comments and documents may use any plain
// English word, and so may sentences in messages.
var (
	otherNames = []string{"slug", "draft", "permalink", "shortcode", "taxonomy", "taxonomies", "archetype", "collection", "layout", "partial", "baseurl", "deploy", "_index", "stale-after-days"}
	// otherVerbs are plain English in a value (condition: new), but not a verb or a flag.
	otherVerbs = []string{"serve", "watch", "new", "clean", "theme"}
)

// allowedNames are strings in the code that look like a name and are not one of ours.
var allowedNames = map[string]string{
	"cmd/build/main.go: clean":                "part of the usage text: exit status 0 clean",
	"cmd/build/flags.go: theme":               "the old name of -look, which is answered with the new one",
	"internal/unit/read.go: stale-after-days": "an old key, which is answered with the new one",
}

// vendored files belong to somebody else and came as they are.
var vendored = map[string]string{
	"themes/default/search.js": "MiniSearch 7.2.0, unchanged except for its license at the top",
}

var otherForm = regexp.MustCompile(`(?i)(^|[^a-z])(` + strings.Join(otherNames, "|") + `)(s|es|ed|ing)?($|[^a-z])`)

// otherName returns the word in a name that belongs to other programs, or "".
func otherName(name string) string {
	if m := otherForm.FindStringSubmatch(name); m != nil {
		return strings.ToLower(m[2])
	}
	return ""
}

// nameForm is the form of a key, a flag, a verb or a file name.
var nameForm = regexp.MustCompile(`^-{0,2}[a-z_][a-z0-9._-]*$`)

// namesInCode lists the names in a package's strings and struct tags that are not ours.
func namesInCode(p *packages.Package) (out []string) {
	command := strings.HasPrefix(short(p.PkgPath), "cmd/")
	say := func(n ast.Node, word, text string) {
		at := place(p, n)
		file, _, _ := strings.Cut(at, ":")
		if allowedNames[file+": "+word] == "" {
			out = append(out, fmt.Sprintf("%s: %q in %s", at, word, text))
		}
	}
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ImportSpec:
				return false
			case *ast.Field:
				if n.Tag != nil {
					if w := otherName(n.Tag.Value); w != "" {
						say(n.Tag, w, n.Tag.Value)
					}
				}
			case *ast.BasicLit:
				text, err := strconv.Unquote(n.Value)
				if n.Kind != token.STRING || err != nil || !nameForm.MatchString(text) {
					return true
				}
				if w := otherName(text); w != "" {
					say(n, w, n.Value)
				}
				if bare := strings.TrimLeft(text, "-"); command && slices.Contains(otherVerbs, bare) {
					say(n, bare, n.Value)
				}
			}
			return true
		})
	}
	return out
}

// labelTags are the elements whose text names something on a page.
var labelTags = []string{"h1", "h2", "h3", "h4", "button", "label", "legend", "summary", "th", "dt", "option", "nav", "a", "title"}

var templateAction = regexp.MustCompile(`\{\{[^}]*\}\}`)

// labelsInTemplate lists the labels of a template that hold a name which is not ours.
func labelsInTemplate(text string) (out []string) {
	z := html.NewTokenizer(strings.NewReader(templateAction.ReplaceAllString(text, "")))
	depth := 0
	for {
		switch z.Next() {
		case html.ErrorToken:
			return out
		case html.StartTagToken:
			if name, _ := z.TagName(); slices.Contains(labelTags, string(name)) {
				depth++
			}
		case html.EndTagToken:
			if name, _ := z.TagName(); slices.Contains(labelTags, string(name)) {
				depth--
			}
		case html.TextToken:
			if label := strings.TrimSpace(string(z.Text())); depth > 0 && otherName(label) != "" {
				out = append(out, label)
			}
		}
	}
}

func TestNamesAreOurOwn(t *testing.T) {
	for _, p := range load(t) {
		for _, s := range namesInCode(p) {
			t.Error(s + "; other programs use that name, take one of our own")
		}
	}
	used := map[string]bool{}
	sources(t, func(file string, data []byte) {
		if vendored[file] != "" {
			used[file] = true
		}
		if w := otherName(path.Base(file)); w != "" && vendored[file] == "" {
			t.Errorf("%s: other programs use the name %q", file, w)
		}
		if path.Ext(file) == ".html" && strings.HasPrefix(file, "themes/") {
			for _, label := range labelsInTemplate(string(data)) {
				t.Errorf("%s: other programs use a name in the label %q", file, label)
			}
		}
		for key := range allowedNames {
			if at, word, _ := strings.Cut(key, ": "); at == file && strings.Contains(string(data), word) {
				used[key] = true
			}
		}
	})
	for key := range allowedNames {
		if !used[key] {
			t.Errorf("allowedNames lists %s, which is gone; take it off the list", key)
		}
	}
	for file := range vendored {
		if !used[file] {
			t.Errorf("vendored lists %s, which is gone; take it off the list", file)
		}
	}
}

func TestTheNameRuleFindsWhatItIsFor(t *testing.T) {
	const source = `package p

// A comment may speak of the layout of a draft.
var baseURL = "x"

func serve() {}

func sentence() string { return "a clean deck, and a collection of layouts" }

var flag = "-watch"

var verb = "deploy"

var file = "_index.md"

type layoutOf struct{ A string ` + "`one:\"draft|used\"`" + ` }
`
	var got []string
	for _, s := range namesInCode(written(t, module+"/cmd/p", source)) {
		_, at, _ := strings.Cut(s, "written.go:")
		line, _, _ := strings.Cut(at, ":")
		got = append(got, line)
	}
	if s := strings.Join(got, " "); s != "10 12 14 16" {
		t.Errorf("found at lines %s", s)
	}
	labels := labelsInTemplate(`<h2>Drafts of {{.Draft}}</h2><p>The layout of the deck</p><button>Deploy</button>{{template "layout"}}`)
	if s := strings.Join(labels, ", "); s != "Drafts of, Deploy" {
		t.Errorf("found the labels %s", s)
	}
}

// Every package says in one place what it is, and begins with its name.
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

// No file is left out of the build, for then it would never be compiled again.
func TestNothingIsLeftOutOfTheBuild(t *testing.T) {
	form := regexp.MustCompile(`^//\s*(go:build|\+build)\b.*\b(ignore|never|exclude)\b`)
	if !form.MatchString("//go:build " + "ignore\n") {
		t.Fatal("the form does not find what it is for")
	}
	files := 0
	sources(t, func(file string, data []byte) {
		if path.Ext(file) == ".go" {
			files++
			for line := range strings.Lines(string(data)) {
				if strings.HasPrefix(line, "//") && strings.Contains(line, "build") && form.MatchString(line) {
					t.Errorf("%s: %s", file, line)
				}
			}
		}
	})
	if files < 50 {
		t.Errorf("only %d Go files were looked at", files)
	}
}
