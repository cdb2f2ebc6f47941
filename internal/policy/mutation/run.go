package main

import (
	"bufio"
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"golang.org/x/tools/go/packages"
)

//go:embed runtime.go.txt
var runtimeText string

func load(path string) (*packages.Package, error) {
	all, err := packages.Load(&packages.Config{Mode: packages.LoadSyntax}, path)
	if err != nil {
		return nil, err
	}
	if len(all) != 1 || len(all[0].Errors) > 0 || len(all[0].GoFiles) == 0 {
		return nil, fmt.Errorf("%s: want one package that compiles", path)
	}
	return all[0], nil
}

// trial is the test binary of a package with a sample of changes compiled in.
type trial struct {
	dir, work, binary, state string
	flags, env               []string
	changes                  []*change
	possible                 int // how many changes could be made in all
}

// possible returns every change that could be made, in an order drawn by the seed, and the
// text of each file. A change keeps its place in the order when other code is edited, so
// the share of a package moves only with its own tests and with the code they are for.
func possible(p *packages.Package, seed uint64) ([]*change, map[string][]byte, error) {
	sources := map[string][]byte{}
	for _, name := range p.GoFiles {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, nil, err
		}
		sources[name] = data
	}
	all := find(p, sources)
	order := map[*change][sha256.Size]byte{}
	for _, c := range all {
		order[c] = sha256.Sum256(fmt.Appendf(nil, "%d\n%s", seed, c.key))
	}
	slices.SortFunc(all, func(a, b *change) int {
		x, y := order[a], order[b]
		return bytes.Compare(x[:], y[:])
	})
	return all, sources, nil
}

// build draws the sample and compiles it. A change that does not compile, for example
// because a file shadows the name of a type, makes way for the next one.
func build(p *packages.Package, o options, work string) (*trial, error) {
	all, sources, err := possible(p, o.seed)
	if err != nil {
		return nil, err
	}
	t := &trial{dir: filepath.Dir(p.GoFiles[0]), work: work, binary: filepath.Join(work, "package.test"),
		state: filepath.Join(work, "state"), possible: len(all)}
	overlay := filepath.Join(work, "overlay.json")
	// Tests with random trailers need only some of them to notice a change.
	// The tests that wait for a push notice changes too.
	t.env = append(os.Environ(), "GOFLAGS=-overlay="+overlay, "TAREPAGE_TRAILERS=400", "TAREPAGE_PUSH=1")
	if o.short {
		t.flags = append(t.flags, "-test.short")
	}
	if usesRapid(p.PkgPath) {
		// The same examples each time; a failure is not shrunk and not written down.
		t.flags = append(t.flags, "-rapid.seed=1", "-rapid.shrinktime=0s", "-rapid.nofailfile")
	}
	for range 20 {
		t.changes = draw(all, o.sample)
		bad, err := t.compile(p, sources, overlay)
		if err != nil {
			return nil, err
		}
		if len(bad) == 0 {
			if _, err := os.Stat(t.binary); err != nil {
				return nil, fmt.Errorf("%s has no tests", p.PkgPath)
			}
			return t, nil
		}
		all = slices.DeleteFunc(all, func(c *change) bool { return bad[c] })
	}
	return nil, fmt.Errorf("%s: the changes do not compile", p.PkgPath)
}

// draw takes the first n changes of which no two overlap.
func draw(all []*change, n int) (out []*change) {
	for _, c := range all {
		if len(out) == n {
			break
		}
		if !slices.ContainsFunc(out, func(o *change) bool { return c.from < o.to && o.from < c.to }) {
			out = append(out, c)
		}
	}
	for i, c := range out {
		c.id = i
	}
	return out
}

var compileError = regexp.MustCompile(`(?m)^(?:vet: )?([^\s:]+\.go):(\d+):\d+: `)

// compile builds the test binary. It returns the changes on lines that do not compile.
func (t *trial) compile(p *packages.Package, sources map[string][]byte, overlay string) (map[*change]bool, error) {
	replace := map[string]string{}
	lines := map[*change][2]int{} // the first and the last line of a change in the new file
	for i, name := range p.GoFiles {
		mine := slices.DeleteFunc(slices.Clone(t.changes), func(c *change) bool { return c.file != name })
		if len(mine) == 0 {
			continue
		}
		slices.SortFunc(mine, func(a, b *change) int { return cmp.Compare(a.from, b.from) })
		file, src := p.Fset.File(mine[0].from), sources[name]
		var b bytes.Buffer
		at := 0
		for _, c := range mine {
			b.Write(src[at:file.Offset(c.from)])
			first := 1 + bytes.Count(b.Bytes(), []byte("\n"))
			b.WriteString(c.text(c.id))
			lines[c] = [2]int{first, 1 + bytes.Count(b.Bytes(), []byte("\n"))}
			at = file.Offset(c.to)
		}
		b.Write(src[at:])
		to := filepath.Join(t.work, fmt.Sprintf("%d_%s", i, filepath.Base(name)))
		if err := os.WriteFile(to, b.Bytes(), 0o600); err != nil {
			return nil, err
		}
		replace[name] = to
	}
	text := strings.NewReplacer("PACKAGE", p.Name, "STATE", strconv.Quote(t.state), "CHANGES", strconv.Itoa(len(t.changes))).Replace(runtimeText)
	to := filepath.Join(t.work, "runtime.go")
	replace[filepath.Join(t.dir, "mutation_runtime.go")] = to
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err == nil {
		err = errors.Join(os.WriteFile(to, []byte(text), 0o600), os.WriteFile(overlay, list, 0o600))
	}
	if err != nil {
		return nil, err
	}
	said, err := exec.Command("go", "test", "-c", "-vet=off", "-gcflags="+p.PkgPath+"=-e", "-overlay", overlay, "-o", t.binary, p.PkgPath).CombinedOutput()
	if err == nil {
		return nil, nil
	}
	bad := map[*change]bool{}
	for _, m := range compileError.FindAllStringSubmatch(string(said), -1) {
		line, _ := strconv.Atoi(m[2])
		for c, span := range lines {
			sameFile := filepath.Base(m[1]) == filepath.Base(c.file) || filepath.Base(m[1]) == filepath.Base(replace[c.file])
			if sameFile && span[0] <= line && line <= span[1] {
				bad[c] = true
			}
		}
	}
	if len(bad) == 0 {
		return nil, fmt.Errorf("%s does not compile with its changes: %w\n%s", p.PkgPath, err, tail(said))
	}
	return bad, nil
}

func usesRapid(path string) bool {
	imports, err := exec.Command("go", "list", "-f", "{{.TestImports}} {{.XTestImports}}", path).Output()
	return err == nil && strings.Contains(string(imports), "pgregory.net/rapid")
}

// test is one test function of the package, or one subtest of a slow one.
type test struct {
	name string
	asks map[int]int64 // the changes it reaches, and about how often it asks for each
	took time.Duration // of the clock
}

// learn runs every test by itself and notes which changes it reaches. A slow test that has
// subtests is taken apart, so a change runs only those that reach it.
func (t *trial) learn() ([]*test, error) {
	if err := os.WriteFile(t.state, nil, 0o600); err != nil {
		return nil, err
	}
	list := exec.Command(t.binary, "-test.list=^(Test|Example|Fuzz)")
	list.Dir, list.Env = t.dir, t.env
	names, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("list the tests: %w", err)
	}
	var out []*test
	for _, name := range strings.Fields(string(names)) {
		x, said, err := t.learnOne(name)
		if err != nil {
			return nil, fmt.Errorf("%s fails without any change: %w\n%s", name, err, tail(said))
		}
		parts := []*test{x}
		if x.took > together {
			parts = t.apart(x, subtests(name, said))
		}
		out = append(out, parts...)
	}
	slices.SortStableFunc(out, func(a, b *test) int { return cmp.Compare(a.took, b.took) })
	return out, nil
}

// learnOne runs one test or subtest; it also returns what that printed.
func (t *trial) learnOne(name string) (*test, []byte, error) {
	notes := filepath.Join(t.work, "notes")
	if err := os.WriteFile(t.state, []byte("note "+notes), 0o600); err != nil {
		return nil, nil, err
	}
	if err := os.Remove(notes); err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, nil, err
	}
	began := time.Now()
	said, err := t.run(context.Background(), name)
	if err != nil {
		return nil, said, err
	}
	x := &test{name: name, took: time.Since(began), asks: map[int]int64{}}
	data, err := os.ReadFile(notes)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, said, err
	}
	for lines := bufio.NewScanner(bytes.NewReader(data)); lines.Scan(); {
		var id int
		var times int64
		if _, err := fmt.Sscan(lines.Text(), &id, &times); err == nil {
			x.asks[id] = max(x.asks[id], times)
		}
	}
	return x, said, nil
}

var subtest = regexp.MustCompile(`(?m)^    --- PASS: (\S+) `)

// subtests are the names of a test's subtests, from what it prints with -test.v.
func subtests(name string, said []byte) (out []string) {
	for _, m := range subtest.FindAllSubmatch(said, -1) {
		if sub, ok := strings.CutPrefix(string(m[1]), name+"/"); ok && !strings.ContainsAny(sub, `/#|()[]*+?.$^\`) {
			out = append(out, string(m[1]))
		}
	}
	return out
}

// apart is a test as its subtests, and as itself for the changes that none of them reaches. It stays
// whole where one of them fails by itself, or where there is only one.
func (t *trial) apart(x *test, names []string) []*test {
	if len(names) < 2 {
		return []*test{x}
	}
	var out []*test
	reached := map[int]bool{}
	for _, name := range names {
		sub, _, err := t.learnOne(name)
		if err != nil {
			return []*test{x}
		}
		for id := range sub.asks {
			reached[id] = true
		}
		out = append(out, sub)
	}
	maps.DeleteFunc(x.asks, func(id int, _ int64) bool { return reached[id] })
	if len(x.asks) > 0 {
		out = append(out, x)
	}
	return out
}

// together is how long the tests of one run may take. Quick tests share a run, and notice
// most changes; the slow ones follow one by one.
const together = time.Second

// longest is how much time of tests a change gets. One that they have not noticed by then
// counts as alive.
const longest = 30 * time.Second

// try runs the tests that reach a change with the change active, until one fails.
func (t *trial) try(c *change, tests []*test) (reached, failed bool) {
	var spent time.Duration
	for i := 0; i < len(tests) && spent < longest; {
		var names []string
		var took time.Duration
		var asks int64
		for ; i < len(tests) && (len(names) == 0 || took+tests[i].took < together && of(names[0]) == of(tests[i].name)); i++ {
			if n := tests[i].asks[c.id]; n > 0 {
				names = append(names, tests[i].name)
				took += tests[i].took
				asks += n
			}
		}
		if len(names) == 0 {
			continue
		}
		reached = true
		spent += took
		if err := os.WriteFile(t.state, fmt.Appendf(nil, "active %d %d", c.id, 100_000+20*asks), 0o600); err != nil {
			return reached, false
		}
		limit, cancel := context.WithTimeout(context.Background(), 20*time.Second+10*took)
		_, err := t.run(limit, names...)
		cancel()
		if err != nil {
			return reached, true
		}
	}
	return reached, false
}

// run runs tests and subtests. A pattern of Go's has one part for tests and one for subtests, so
// those of different tests do not share a run: the callers see to it.
func (t *trial) run(limit context.Context, names ...string) ([]byte, error) {
	pattern := "^(" + strings.Join(names, "|") + ")$"
	if of, _, sub := strings.Cut(names[0], "/"); sub {
		var subs []string
		for _, n := range names {
			subs = append(subs, strings.TrimPrefix(n, of+"/"))
		}
		pattern = "^" + of + "$/^(" + strings.Join(subs, "|") + ")$"
	}
	flags := append([]string{"-test.failfast", "-test.v", "-test.run=" + pattern}, t.flags...)
	cmd := exec.CommandContext(limit, t.binary, flags...)
	cmd.Dir, cmd.Env, cmd.WaitDelay = t.dir, t.env, time.Second
	return cmd.CombinedOutput()
}

// of is the test that a subtest belongs to, or "" for a whole test.
func of(name string) string {
	test, _, sub := strings.Cut(name, "/")
	if !sub {
		return ""
	}
	return test
}

func tail(text []byte) string {
	lines := bytes.Split(bytes.TrimSpace(text), []byte("\n"))
	return string(bytes.Join(lines[max(len(lines)-12, 0):], []byte("\n")))
}
