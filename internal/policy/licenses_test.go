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

	"tarepage/internal/thorough"
)

var update = flag.Bool("update", false, "write docs/licenses.md from the modules that the command is built from")

const licensesFile = root + "/docs/licenses.md"

// licensed is one module in the binary, with its license.
type licensed struct {
	path, version, dir string
}

// goFaces are the typefaces in the pictures of shared links.
const goFaces = "the Go type faces of golang.org/x/image"

// inBinary lists the modules that go build compiles into the command, on the systems that a
// release is for. It asks Go itself, since go.mod also names modules for tests.
func inBinary(t *testing.T) []licensed {
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
	// An embedded file is not a module, and still comes with a license.
	const webp = "libwebp, with the interface of github.com/gen2brain/webp"
	seen[webp] = licensed{webp, "v1.4.0", filepath.Join(root, "internal", "photo", "libwebp")}
	// So do typefaces, which have their own notice in a folder of their module.
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

// goroot is the folder of Go itself.
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
			name = "LICENSE" // the typefaces' notice is in their README
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

// kind is the SPDX name of a license, according to Google's license classifier, or "" for a
// text that the classifier mostly does not recognize.
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

// known are the licenses that ask only for their notice, so the binary may be passed on
// together with docs/licenses.md. Any other license is a decision for a person.
var known = []string{"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "ISC"}

// overview gathers the works and their notices, each text once.
type overview struct {
	t     *testing.T
	order []string
	whose map[string][]string // the text of a notice, and whose it is
}

// add takes the license files of one work and returns the names of the licenses.
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
					o.t.Errorf("%s is under %s; a person has to decide whether it may be included", what, one)
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

// TestLicenses keeps docs/licenses.md: every work by others in the site and in the binary, its
// license as an independent classifier names it, and its notice.
func TestLicenses(t *testing.T) {
	thorough.Only(t)
	o := &overview{t: t, whose: map[string][]string{}}
	var b strings.Builder
	b.WriteString(licensesIntroduction)
	for _, w := range onTheSite(t) {
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", w.file, w.what, o.add(w.what, map[string]string{"LICENSE": w.notice}))
	}
	b.WriteString(licensesBinary)
	fmt.Fprintf(&b, "| Go and its library | the one it is built with | %s |\n", o.add("Go and its library", notices(t, goroot(t))))
	modules := inBinary(t)
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
		t.Errorf("docs/licenses.md is out of date (%v); run\n\tgo test ./internal/policy -run Licenses -update", err)
	}
}

// another is a work by somebody else in the theme: a file whose first comment, /*! */, names
// its author and license.
type another struct{ file, what, notice string }

// onTheSite lists the works by others that a site contains. A theme file that names an author
// or a license anywhere else is reported, for nobody would find it there.
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
				t.Errorf("%s contains %q; name the author and the license of a work by others in its first comment, /*! */", path, mark)
			}
		}
	})
	if n < 5 {
		t.Errorf("only %d files were looked at", n)
	}
	return out
}

const licensesIntroduction = `# Licenses of the work of others

A test makes this page from what Go compiles into the command and from the theme's files, and
fails when the page is out of date. The names of the licenses are those of Google's license
classifier. Each of them lets you use a work for any purpose and pass it on with its notice.

## The site

The site contains your own words, photos and recordings, the templates, style and scripts of
` + "`themes/default`" + `, and figures computed from published tables; the page *How we figure* names the
sources of each table. It contains no typefaces and no pictures by others; the pictures of shared
links use the letters of the Go typefaces, which are in the binary. These scripts are by others.
Their notices are in the files, so you do not have to do anything:

| file | work | license |
| --- | --- | --- |
`

const licensesBinary = `
## The binary

The binary contains the theme with the scripts above, and these modules. If you pass the binary
on, include this page: the licenses ask for the notices at its end. Modules that only the tests
use are not in the binary and not listed.

| module | version | license |
| --- | --- | --- |
`
