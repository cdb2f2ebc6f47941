package policy

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/licensecheck"
)

var update = flag.Bool("update", false, "write docs/licenses.md from the modules that the command is built from")

const licensesFile = root + "/docs/licenses.md"

// licensed is one module that the binary holds, with its license.
type licensed struct {
	path, version, dir string
}

// goFaces are the type faces with which the pictures of shared links are drawn.
const goFaces = "the Go type faces of golang.org/x/image"

// goesAlong lists the modules that `go build ./cmd/build` compiles in, for the systems that
// a release is made for: what Go itself says, not what go.mod asks for.
func goesAlong(t *testing.T) []licensed {
	t.Helper()
	seen, compiled := map[string]licensed{}, map[string]bool{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Standard,Module", "./cmd/build")
		cmd.Dir = root
		cmd.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("go list: %v", err)
		}
		for d := json.NewDecoder(bytes.NewReader(out)); ; {
			var p struct {
				ImportPath string
				Standard   bool
				Module     *struct {
					Path, Version, Dir string
					Main               bool
				}
			}
			if err := d.Decode(&p); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			compiled[p.ImportPath] = true
			if p.Standard || p.Module == nil || p.Module.Main {
				continue
			}
			seen[p.Module.Path] = licensed{p.Module.Path, p.Module.Version, p.Module.Dir}
		}
	}
	// What is embedded as a file is no module, and goes along all the same.
	const webp = "libwebp, with the interface of github.com/gen2brain/webp"
	seen[webp] = licensed{webp, "v1.4.0", filepath.Join(root, "internal", "photo", "libwebp")}
	// So do type faces, which have a notice of their own below the module that holds them.
	for path, m := range seen {
		faces := filepath.Join(m.dir, "font", "gofont", "ttfs")
		if path != "golang.org/x/image" || !compiled["golang.org/x/image/font/gofont/goregular"] {
			continue
		}
		seen[goFaces] = licensed{goFaces, m.version, faces}
	}
	out := []licensed{}
	for _, m := range seen {
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b licensed) int { return strings.Compare(a.path, b.path) })
	return out
}

// goroot is where Go itself stands.
func goroot(t *testing.T) string {
	t.Helper()
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatalf("go env GOROOT: %v", err)
	}
	dir := strings.TrimSpace(string(out))
	if _, err := os.Stat(filepath.Join(dir, "LICENSE")); err != nil {
		t.Skipf("this Go came without its license (%v)", err)
	}
	return dir
}

// notices are the license files of a module's own folder, in the order of their names.
func notices(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, e := range entries {
		name := strings.ToUpper(e.Name())
		if e.Name() == "README" && filepath.Base(dir) == "ttfs" {
			name = "LICENSE" // the type faces' notice stands in their README
		}
		for _, begin := range []string{"LICENSE", "LICENCE", "COPYING", "NOTICE", "PATENTS"} {
			if !e.IsDir() && strings.HasPrefix(name, begin) {
				data, err := os.ReadFile(filepath.Join(dir, e.Name()))
				if err != nil {
					t.Fatal(err)
				}
				out[e.Name()] = strings.ReplaceAll(string(data), "\r\n", "\n")
			}
		}
	}
	return out
}

// kind names a license by its SPDX name, after Google's license classifier; a text that it
// does not recognize for the most part has none.
func kind(text string) string {
	c := licensecheck.Scan([]byte(text))
	var names []string
	for _, m := range c.Match {
		if !slices.Contains(names, m.ID) {
			names = append(names, m.ID)
		}
	}
	if c.Percent < 75 || len(names) == 0 {
		return ""
	}
	return strings.Join(names, ", ")
}

// known are the licenses that ask for no more than their notice, so that the binary may be
// handed on with docs/licenses.md beside it. Another license is a decision for a person.
var known = []string{"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "ISC"}

// overview gathers what goes along and the notices, each text once.
type overview struct {
	t     *testing.T
	order []string
	whose map[string][]string // the text of a notice, and whose it is
}

// add enters the license files of one work and returns what they are called.
func (o *overview) add(what string, files map[string]string) string {
	o.t.Helper()
	var names, kinds []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		k := kind(files[name])
		switch {
		case strings.HasPrefix(strings.ToUpper(name), "PATENTS"):
			k = "a grant of patents"
		case strings.HasPrefix(strings.ToUpper(name), "NOTICE"):
			k = "a notice"
		case k == "":
			o.t.Errorf("%s: the classifier does not know %s", what, name)
		default:
			for _, one := range strings.Split(k, ", ") {
				if !slices.Contains(known, one) {
					o.t.Errorf("%s is under %s; somebody has to decide whether it may go along", what, one)
				}
			}
		}
		kinds = append(kinds, k)
		text := strings.TrimRight(strings.ReplaceAll(files[name], "```", "'''"), " \n")
		if o.whose[text] == nil {
			o.order = append(o.order, text)
		}
		o.whose[text] = append(o.whose[text], what)
	}
	if len(names) == 0 {
		o.t.Errorf("%s has no license file", what)
	}
	return strings.Join(kinds, "; ")
}

// TestLicenses keeps the overview of what the site and the binary contain: every work of
// others, its license as an independent classifier names it, and its notice.
func TestLicenses(t *testing.T) {
	o := &overview{t: t, whose: map[string][]string{}}
	var b strings.Builder
	b.WriteString(licensesIntroduction)
	for _, w := range onTheSite(t) {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", w.file, w.what, o.add(w.what, map[string]string{"LICENSE": w.notice}))
	}
	b.WriteString(licensesBinary)
	fmt.Fprintf(&b, "| Go and its library | the one it is built with | %s |\n", o.add("Go and its library", notices(t, goroot(t))))
	modules := goesAlong(t)
	if len(modules) < 5 {
		t.Fatalf("only %d modules: %v", len(modules), modules)
	}
	for _, m := range modules {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", m.path, m.version, o.add(m.path, notices(t, m.dir)))
	}
	b.WriteString("\n## The notices\n")
	for _, text := range o.order {
		fmt.Fprintf(&b, "\n### %s\n\n```text\n%s\n```\n", strings.Join(o.whose[text], ", "), text)
	}
	if *update {
		if err := os.WriteFile(licensesFile, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(licensesFile)
	if err != nil || string(got) != b.String() {
		t.Errorf("docs/licenses.md is not what the command is built from (%v); run\n\tgo test ./internal/policy -run Licenses -update", err)
	}
}

// another is a work of somebody else in the theme: a file whose first comment, /*! */, tells
// whose it is and under what license.
type another struct{ file, what, notice string }

// onTheSite lists the works of others that a site contains. A file of the theme that names
// an author or a license anywhere else is reported: nobody would find it there.
func onTheSite(t *testing.T) (out []another) {
	t.Helper()
	n := 0
	sources(t, func(path string, data []byte) {
		if !strings.HasPrefix(path, "themes/") {
			return
		}
		n++
		text := string(data)
		if strings.HasPrefix(text, "/*!") {
			head, rest, _ := strings.Cut(text[len("/*!"):], "*/")
			what, notice, _ := strings.Cut(strings.TrimSpace(head), "\n")
			out = append(out, another{path, strings.TrimSpace(what), strings.TrimSpace(notice)})
			text = rest
		}
		low := strings.ToLower(text)
		for _, mark := range []string{"copyright", "©", "@license", "licensed under", "spdx-", "sourcemappingurl"} {
			if strings.Contains(low, mark) {
				t.Errorf("%s says %q: whose is it? a work of others tells it in its first comment, /*! */", path, mark)
			}
		}
	})
	if n < 5 {
		t.Errorf("only %d files were looked at", n)
	}
	return out
}

const licensesIntroduction = `# Whose work goes along

This page is made by a test from what Go compiles into the command and from the theme's
files, and fails when they change. The licenses are named as Google's license classifier
names them. All of them let you use a work for anything and hand it on with its notice.

## The site

The site holds your own words, photos and recordings, the templates, style and scripts of
` + "`themes/default`" + `, and figures that were worked from published tables; each table names its
sources on the page *How we figure*. No type face and no picture of anybody else is in it; the
pictures of shared links are drawn with letters of the Go type faces, which are in the binary.
Of the scripts these are of others; their notices stand in the files, so you need do nothing:

| file | work | license |
| --- | --- | --- |
`

const licensesBinary = `
## The binary

The binary holds the theme with the above, and these modules. Whoever hands the binary on
gives this page along, for the notices at its end are what the licenses ask for. What only
the tests use is in no binary and is not listed.

| module | version | license |
| --- | --- | --- |
`
