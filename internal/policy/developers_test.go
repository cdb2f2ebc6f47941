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

	for _, script := range []string{"run", "nightly"} {
		text, err := os.ReadFile(filepath.Join(root, ".ci", script))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\^Test\(([^)]+)\)\$`).FindAllStringSubmatch(string(text), -1) {
			for name := range strings.SplitSeq(m[1], "|") {
				if !tests["Test"+name] {
					t.Errorf(".ci/%s skips the test Test%s, which does not exist", script, name)
				}
			}
		}
	}

	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(guide, "## Dependencies")
	var told []string
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\| \\S").FindAllStringSubmatch(table, -1) {
		told = append(told, m[1])
	}
	var direct []string
	for line := range strings.Lines(string(mod)) {
		if f := strings.Fields(line); len(f) == 2 && strings.HasPrefix(f[1], "v") {
			direct = append(direct, f[0])
		}
	}
	slices.Sort(told)
	slices.Sort(direct)
	if !slices.Equal(told, direct) {
		t.Errorf("DEVELOPERS.md gives reasons for\n%s\ngo.mod requires\n%s", strings.Join(told, "\n"), strings.Join(direct, "\n"))
	}
}
