package main

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

//go:embed alive.go.txt
var aliveText string

// A change is one small thing that is different.
type change struct {
	id int
	// name is stable while the line's neighbors move: file, declaration, what it was and
	// what it becomes, and which of several alike.
	name string
	// stem is the file's name without its end: a test of that name is asked first.
	stem         string
	line, column int
	file         string
}

func (c *change) place() string { return fmt.Sprintf("%s:%d:%d", c.file, c.line, c.column) }

// planted is a package with all its changes, built.
type planted struct {
	path    string // import path
	dir     string // the package's own folder
	work    string // ours
	binary  string
	overlay string
	changes []*change
	flags   []string // that its tests take
}

// plant finds the changes of a package and writes it down with all of them in.
func plant(pattern, work string) (*planted, error) {
	if err := os.MkdirAll(work, 0o700); err != nil {
		return nil, err
	}
	found, err := packages.Load(&packages.Config{
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax | packages.NeedTypes | packages.NeedTypesInfo | packages.NeedImports,
	}, pattern)
	if err != nil {
		return nil, err
	}
	if len(found) != 1 || len(found[0].GoFiles) == 0 {
		return nil, fmt.Errorf("%s is not one package", pattern)
	}
	p := found[0]
	if len(p.Errors) > 0 {
		return nil, fmt.Errorf("%s does not build: %v", pattern, p.Errors[0])
	}
	out := &planted{path: p.PkgPath, dir: filepath.Dir(p.GoFiles[0]), work: work, binary: filepath.Join(work, "planted.test")}
	overlay := map[string]string{}
	times := map[string]int{}
	for i, file := range p.Syntax {
		src, err := os.ReadFile(p.GoFiles[i])
		if err != nil {
			return nil, err
		}
		g := &gardener{pkg: p, file: file, src: src, base: p.Fset.File(file.FileStart), planted: out, times: times}
		text := g.whole()
		to := filepath.Join(work, filepath.Base(p.GoFiles[i]))
		if err := os.WriteFile(to, []byte(text), 0o600); err != nil {
			return nil, err
		}
		overlay[p.GoFiles[i]] = to
	}
	alive := filepath.Join(work, "mutation_alive.go")
	if err := os.WriteFile(alive, []byte(strings.Replace(aliveText, "PACKAGE", p.Name, 1)), 0o600); err != nil {
		return nil, err
	}
	overlay[filepath.Join(out.dir, "mutation_alive.go")] = alive
	list, err := json.Marshal(map[string]any{"Replace": overlay})
	if err != nil {
		return nil, err
	}
	out.overlay = filepath.Join(work, "overlay.json")
	return out, os.WriteFile(out.overlay, list, 0o600)
}

// build builds the package's tests with every change in them.
func (p *planted) build() error {
	if text, err := exec.Command("go", "test", "-c", "-vet=off", "-overlay", p.overlay, "-o", p.binary, p.path).CombinedOutput(); err != nil {
		return fmt.Errorf("%s with its changes does not build: %w\n%s", p.path, err, text)
	}
	imports, err := exec.Command("go", "list", "-f", "{{.TestImports}} {{.XTestImports}}", p.path).Output()
	if err != nil {
		return err
	}
	if strings.Contains(string(imports), "pgregory.net/rapid") {
		// The same examples each time; what fails is not made small, and not written down.
		p.flags = []string{"-rapid.seed=1", "-rapid.shrinktime=0s", "-rapid.nofailfile"}
	}
	return nil
}

// A gardener plants the changes of one file.
type gardener struct {
	pkg     *packages.Package
	file    *ast.File
	src     []byte
	base    *token.File
	planted *planted
	times   map[string]int // how often a change of this name came already

	decl    string             // the declaration we are in
	results []*types.Signature // of the functions we are in, innermost last
}

func (g *gardener) offset(p token.Pos) int { return g.base.Offset(p) }

// original is a node as it stands in the file.
func (g *gardener) original(n ast.Node) string {
	return string(g.src[g.offset(n.Pos()):g.offset(n.End())])
}

// whole is the file with every change in it.
func (g *gardener) whole() string {
	var edits []edit
	for _, d := range g.file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Body == nil {
				continue
			}
			g.decl = d.Name.Name
			if d.Recv != nil && len(d.Recv.List) == 1 {
				g.decl = receiver(d.Recv.List[0].Type) + "." + g.decl
			}
			g.results = []*types.Signature{g.pkg.TypesInfo.Defs[d.Name].Type().(*types.Signature)}
			edits = append(edits, edit{d.Body.Pos(), d.Body.End(), g.text(d.Body)})
		case *ast.GenDecl:
			if d.Tok != token.VAR {
				continue
			}
			for _, s := range d.Specs {
				s := s.(*ast.ValueSpec)
				g.decl, g.results = s.Names[0].Name, nil
				for _, v := range s.Values {
					edits = append(edits, edit{v.Pos(), v.End(), g.text(v)})
				}
			}
		}
	}
	return g.splice(g.file.FileStart, g.file.FileEnd, edits)
}

func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return "?"
}

// An edit puts a text in the place of a part of the file.
type edit struct {
	from, to token.Pos
	text     string
}

func (g *gardener) splice(from, to token.Pos, edits []edit) string {
	slices.SortFunc(edits, func(a, b edit) int { return int(a.from - b.from) })
	var b strings.Builder
	at := g.offset(from)
	for _, e := range edits {
		b.Write(g.src[at:g.offset(e.from)])
		b.WriteString(e.text)
		at = g.offset(e.to)
	}
	b.Write(g.src[at:g.offset(to)])
	return b.String()
}

// inside is a node's text with the changes of the nodes below it.
func (g *gardener) inside(n ast.Node) string {
	var edits []edit
	for _, k := range children(n) {
		if text := g.text(k); text != g.original(k) {
			edits = append(edits, edit{k.Pos(), k.End(), text})
		}
	}
	return g.splice(n.Pos(), n.End(), edits)
}

// children are the nodes directly below a node.
func children(n ast.Node) []ast.Node {
	var out []ast.Node
	ast.Inspect(n, func(k ast.Node) bool {
		if k == nil || k == n {
			return k == n
		}
		out = append(out, k)
		return false
	})
	return out
}

// change enters one change and gives its number.
func (g *gardener) change(n ast.Node, was, becomes string) int {
	at := g.pkg.Fset.Position(n.Pos())
	short := func(s string) string {
		s = strings.Join(strings.Fields(s), " ")
		if r := []rune(s); len(r) > 90 {
			s = string(r[:60]) + " ... " + string(r[len(r)-25:])
		}
		return s
	}
	base := filepath.Base(at.Filename)
	name := fmt.Sprintf("%s/%s %s: %s => %s", g.pkg.Name, base, g.decl, short(was), short(becomes))
	g.times[name]++
	if k := g.times[name]; k > 1 {
		name += fmt.Sprintf(" #%d", k)
	}
	c := &change{id: len(g.planted.changes) + 1, name: name, stem: strings.TrimSuffix(base, ".go"), file: filepath.ToSlash(relative(at.Filename)), line: at.Line, column: at.Column}
	g.planted.changes = append(g.planted.changes, c)
	return c.id
}

// relative is a file's name below the folder we run in, where it stands there.
func relative(name string) string {
	dir, err := os.Getwd()
	if err != nil {
		return name
	}
	if rel, err := filepath.Rel(dir, name); err == nil && filepath.IsLocal(rel) {
		return rel
	}
	return name
}

// names of all changes.
func (p *planted) names() map[string]bool {
	out := maps.Collect(func(yield func(string, bool) bool) {
		for _, c := range p.changes {
			if !yield(c.name, true) {
				return
			}
		}
	})
	return out
}
