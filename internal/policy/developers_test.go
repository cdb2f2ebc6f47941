package policy

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestDevelopersGuide holds what DEVELOPERS.md states about the tree: it stays short, every
// package has its place in it, every test and file that it names exists, and it gives a reason
// for every direct dependency. cmd/build's TestFirstRule runs its tutorial.
func TestDevelopersGuide(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	guide := string(data)
	if len(guide) > 10<<10 {
		t.Errorf("DEVELOPERS.md has %d bytes, at most %d", len(guide), 10<<10)
	}
	road, _, _ := strings.Cut(guide, "## Your first rule")
	for _, p := range load(t) {
		if name := short(p.PkgPath); !strings.Contains(road, "`"+name+"`") && !strings.Contains(road, "internal/"+name+" ") && !strings.HasPrefix(name, "policy/") {
			t.Errorf("DEVELOPERS.md says nothing about %s in \"The road\"", name)
		}
	}

	// The names of the tutorial's own files exist only in the copy that TestFirstRule makes.
	tutorial := []string{"internal/inspect/jacks_many.go", "internal/inspect/jacks_many.txtar", "testdata/wrong/content/units/three-jacks.md"}
	tests := map[string]bool{}
	declared := regexp.MustCompile(`(?m)^func (Test\w+)\(`)
	sources(t, func(file string, data []byte) {
		if strings.HasSuffix(file, "_test.go") {
			for _, m := range declared.FindAllSubmatch(data, -1) {
				tests[string(m[1])] = true
			}
		}
	})
	for _, m := range regexp.MustCompile("`([^`\n ]+)`").FindAllStringSubmatch(guide, -1) {
		switch name := m[1]; {
		case strings.HasPrefix(name, "Test"):
			if !tests[name] {
				t.Errorf("DEVELOPERS.md names the test %s, which does not exist", name)
			}
		case slices.Contains(tutorial, name) || strings.Contains(name, "*"):
		case regexp.MustCompile(`^(internal|cmd|docs|testdata|themes|\.ci)/`).MatchString(name):
			if _, err := os.Stat(filepath.Join(root, filepath.FromSlash(name))); err != nil {
				t.Errorf("DEVELOPERS.md names %s: %v", name, err)
			}
		}
	}

	told, direct := reasons(guide), directly(t)
	if !slices.Equal(told, direct) {
		t.Errorf("DEVELOPERS.md gives reasons for\n%s\ngo.mod requires\n%s", strings.Join(told, "\n"), strings.Join(direct, "\n"))
	}
}

// reasons are the modules that the guide gives a reason for.
func reasons(guide string) (out []string) {
	_, table, _ := strings.Cut(guide, "## Dependencies")
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\| \\S").FindAllStringSubmatch(table, -1) {
		out = append(out, m[1])
	}
	slices.Sort(out)
	return out
}

// directly are the modules that go.mod requires for the project's own imports.
func directly(t *testing.T) (out []string) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(mod)) {
		if f := strings.Fields(line); len(f) == 2 && strings.HasPrefix(f[1], "v") {
			out = append(out, f[0])
		}
	}
	slices.Sort(out)
	return out
}

// TestScriptsNameTests: each name in a list of tests that .ci/run or .ci/nightly skips or runs
// is a test. After a test is renamed, its old name would skip nothing, or run nothing.
func TestScriptsNameTests(t *testing.T) {
	var tests []string
	declared := regexp.MustCompile(`(?m)^func Test(\w+)\(`)
	sources(t, func(file string, data []byte) {
		if strings.HasSuffix(file, "_test.go") {
			for _, m := range declared.FindAllSubmatch(data, -1) {
				tests = append(tests, string(m[1]))
			}
		}
	})
	// The list is in the pattern itself, or a variable has it, over several lines.
	lists := regexp.MustCompile(`\^Test\(([^)$]+)\)\$|(?m)^skip\+?='\|?([^']+)'`)
	looked := 0
	for _, script := range []string{"run", "nightly"} {
		text, err := os.ReadFile(filepath.Join(root, ".ci", script))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range lists.FindAllStringSubmatch(string(text), -1) {
			for name := range strings.SplitSeq(m[1]+m[2], "|") {
				looked++
				form, err := regexp.Compile("^(" + name + ")$")
				if err != nil {
					t.Fatal(err)
				}
				if !slices.ContainsFunc(tests, form.MatchString) {
					t.Errorf(".ci/%s names the test Test%s, which does not exist", script, name)
				}
			}
		}
	}
	if looked < 30 {
		t.Errorf("found only %d names of tests in the scripts", looked)
	}
}
