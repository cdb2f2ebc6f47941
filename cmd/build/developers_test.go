package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"tarepage/internal/thorough"
)

// TestFirstRule follows "Your first rule, in ten minutes" of DEVELOPERS.md to the letter in a
// copy of the tree: it writes the files as they are printed there, adds the line to the list,
// and runs the commands. With TAREPAGE_LONG it runs every command as it is printed. Without, it
// only looks whether the new rule compiles: each command compiles or tests much of the tree once
// more.
func TestFirstRule(t *testing.T) {
	thorough.Only(t)
	if os.Getenv("TAREPAGE_NESTED") != "" {
		t.Skip("this is the copy in which the commands run")
	}
	if testing.Short() {
		t.Skip("it builds a copy of the tree")
	}
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, ok := strings.Cut(string(text), "## Your first rule, in ten minutes")
	section, _, ok2 := strings.Cut(section, "\n## ")
	if !ok || !ok2 {
		t.Fatal("DEVELOPERS.md has no such section")
	}
	tree := t.TempDir()
	copyTree(t, "../..", tree)

	wrote := map[string]string{"go": "internal/inspect/jacks_many.go", "txtar": "internal/inspect/jacks_many.txtar",
		"md": "testdata/wrong/content/units/three-jacks.md"}
	ran := 0
	for _, b := range blocks(section) {
		switch file := wrote[b.kind]; {
		case file != "":
			if !strings.Contains(section, "`"+file+"`") {
				t.Errorf("the section does not name %s", file)
			}
			if err := os.WriteFile(filepath.Join(tree, file), []byte(b.text), 0o644); err != nil {
				t.Fatal(err)
			}
			if b.kind == "go" {
				putLine(t, filepath.Join(tree, "internal/inspect/all.go"), "\tjacksMany,\n")
			}
		case b.kind == "sh":
			for _, line := range strings.Split(strings.TrimSpace(b.text), "\n") {
				follow(t, tree, line)
				ran++
			}
		default:
			t.Errorf("a block of kind %q is neither a file nor commands", b.kind)
		}
	}
	if ran < 7 {
		t.Errorf("only %d commands were run", ran)
	}
	if os.Getenv("TAREPAGE_LONG") == "" {
		return
	}
	want, err := os.ReadFile(filepath.Join(tree, wrote["txtar"]))
	if err != nil || !strings.Contains(string(want), "remark: 3 jacks are given, a trailer has 1 or 2 [jacks-many]") {
		t.Errorf("the archive was not written: %v\n%s", err, want)
	}
}

type block struct{ kind, text string }

var fence = regexp.MustCompile("(?ms)^   ```([a-z]+)\n(.*?)^   ```$")

// blocks are the fenced blocks of a list's items, three spaces taken off.
func blocks(section string) []block {
	var out []block
	for _, m := range fence.FindAllStringSubmatch(section, -1) {
		var b strings.Builder
		for line := range strings.Lines(m[2]) {
			b.WriteString(strings.TrimPrefix(line, "   "))
		}
		out = append(out, block{m[1], b.String()})
	}
	return out
}

func putLine(t *testing.T, file, line string) {
	t.Helper()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	i := strings.LastIndex(string(src), "}")
	if err := os.WriteFile(file, []byte(string(src[:i])+line+string(src[i:])), 0o644); err != nil {
		t.Fatal(err)
	}
}

// shorter is what a short run makes of a command. It leaves out the others.
var shorter = map[string]string{"go test ./internal/inspect": "go vet ./internal/inspect"}

// follow runs one command of the page in the copy. Packages are built without their paths, so
// that the next run finds its copy's packages in Go's cache, and linked without what debuggers
// need. Vet is a command of its own. The whole run gets the time that a busy machine needs.
func follow(t *testing.T, dir, line string) {
	t.Helper()
	if os.Getenv("TAREPAGE_LONG") == "" {
		if line = shorter[line]; line == "" {
			return
		}
	}
	args := strings.Fields(line)
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "TAREPAGE_NESTED=1", "TAREPAGE_LONG=", "TAREPAGE_PUSH=", "GOFLAGS=-trimpath -ldflags=-w -vet=off -timeout=25m")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", line, err, out)
	}
	t.Logf("%4.1f s of processor time: %s", (cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds(), line)
}

// copyTree copies what a fresh clone holds.
func copyTree(t *testing.T, from, to string) {
	t.Helper()
	skip := map[string]bool{".git": true, "public": true, "node_modules": true, "out": true}
	err := filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		if d.IsDir() {
			if skip[d.Name()] {
				return fs.SkipDir
			}
			return os.MkdirAll(filepath.Join(to, rel), 0o755)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, rel), data, 0o644)
	})
	if err != nil {
		t.Fatal(err)
	}
}
