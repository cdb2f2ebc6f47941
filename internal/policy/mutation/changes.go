package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"path/filepath"
	"strings"

	"golang.org/x/tools/go/packages"
)

// A change replaces one part of a file. The new text asks mutationOn(id), and does what
// the old text did as long as the answer is no.
type change struct {
	id       int
	from, to token.Pos
	file     string
	text     func(id int) string
	place    string // file:line:column, for the reader
	key      string // the function and the change, to draw the same changes after an edit elsewhere
	what     string // old text => new text, for the reader
}

// finder collects every change that could be made to a package:
//
//   - a comparison includes its limit or leaves it out, or is turned around
//   - && for ||, a condition for its opposite
//   - + for -, * for /, min for max, and the other way around
//   - a number one larger
//   - a function returns the zero value
//   - a statement is left out
//
// Texts are left alone, and so are constants that the compiler needs to know.
type finder struct {
	pkg   *packages.Package
	src   []byte
	file  *token.File
	decl  string         // the function or variable, or an empty text before the first one
	seen  map[string]int // how often each key was found
	found []*change
}

func find(p *packages.Package, sources map[string][]byte) []*change {
	var out []*change
	for _, f := range p.Syntax {
		name := p.Fset.File(f.Pos()).Name()
		if strings.HasSuffix(name, "_test.go") || ast.IsGenerated(f) {
			continue
		}
		g := &finder{pkg: p, src: sources[name], file: p.Fset.File(f.Pos()), seen: map[string]int{}}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				if d.Tok != token.VAR {
					continue
				}
				g.decl = g.text(d.Specs[0].(*ast.ValueSpec).Names[0])
			case *ast.FuncDecl:
				g.decl = d.Name.Name
				if d.Recv != nil {
					g.decl = g.text(d.Recv) + g.decl
				}
			}
			ast.Inspect(d, g.visit)
		}
		out = append(out, g.found...)
	}
	return out
}

func (g *finder) text(n ast.Node) string {
	return string(g.src[g.file.Offset(n.Pos()):g.file.Offset(n.End())])
}

// add notes one change. The format holds %[1]d for the change's number, and %[2]s and so
// on for the texts.
func (g *finder) add(n ast.Node, becomes, format string, texts ...any) {
	at := g.pkg.Fset.Position(n.Pos())
	key := shortName(at.Filename) + "\n" + g.decl + "\n" + g.text(n) + "\n" + becomes
	g.seen[key]++
	g.found = append(g.found, &change{
		from: n.Pos(), to: n.End(), file: at.Filename,
		text:  func(id int) string { return fmt.Sprintf(format, append([]any{id}, texts...)...) },
		place: fmt.Sprintf("%s:%d:%d", shortName(at.Filename), at.Line, at.Column),
		what:  shortText(g.text(n)) + " => " + shortText(becomes),
		key:   fmt.Sprintf("%s\n%d", key, g.seen[key]),
	})
}

func shortName(name string) string {
	return filepath.Join(filepath.Base(filepath.Dir(name)), filepath.Base(name))
}

func shortText(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > 90 {
		s = string(r[:60]) + " ... " + string(r[len(r)-25:])
	}
	return s
}

func (g *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok == token.VAR
	case *ast.ArrayType, *ast.StructType, *ast.InterfaceType, *ast.FuncType:
		return false
	case *ast.BlockStmt:
		g.statements(n.List)
	case *ast.CaseClause:
		g.statements(n.Body)
	case *ast.IfStmt:
		g.condition(n.Cond)
	case *ast.ReturnStmt:
		for _, r := range n.Results {
			g.returned(r)
		}
	case *ast.BinaryExpr:
		g.binary(n)
	case *ast.CallExpr:
		if id, ok := n.Fun.(*ast.Ident); ok && id.Name == "make" {
			return false // nothing but the memory depends on how much is set aside
		}
		g.call(n)
	case *ast.BasicLit:
		g.number(n)
	}
	return true
}

func (g *finder) constant(e ast.Expr) bool { return g.pkg.TypesInfo.Types[e].Value != nil }

func (g *finder) numeric(e ast.Expr) bool {
	t := g.pkg.TypesInfo.TypeOf(e)
	if t == nil {
		return false
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&(types.IsInteger|types.IsFloat) != 0
}

func (g *finder) binary(n *ast.BinaryExpr) {
	if g.constant(n) {
		return
	}
	x, op, y := g.text(n.X), n.Op.String(), g.text(n.Y)
	limit := map[token.Token]token.Token{token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR}
	switch n.Op {
	case token.LSS, token.GTR:
		g.add(n, x+" "+limit[n.Op].String()+" "+y, "(%[2]s %[3]s %[4]s || mutationOn(%[1]d) && %[2]s == %[4]s)", x, op, y)
		g.add(n, "not "+g.text(n), "((%[2]s %[3]s %[4]s) != mutationOn(%[1]d))", x, op, y)
	case token.LEQ, token.GEQ:
		g.add(n, x+" "+limit[n.Op].String()+" "+y, "(%[2]s %[3]s %[4]s && !(mutationOn(%[1]d) && %[2]s == %[4]s))", x, op, y)
		g.add(n, "not "+g.text(n), "((%[2]s %[3]s %[4]s) != mutationOn(%[1]d))", x, op, y)
	case token.EQL, token.NEQ:
		g.add(n, "not "+g.text(n), "((%[2]s %[3]s %[4]s) != mutationOn(%[1]d))", x, op, y)
	case token.LAND:
		g.add(n, x+" || "+y, "(mutationOn(%[1]d) && (%[2]s || %[3]s) || !mutationOn(%[1]d) && (%[2]s && %[3]s))", x, y)
	case token.LOR:
		g.add(n, x+" && "+y, "(mutationOn(%[1]d) && (%[2]s && %[3]s) || !mutationOn(%[1]d) && (%[2]s || %[3]s))", x, y)
	case token.ADD, token.SUB, token.MUL, token.QUO:
		if !g.numeric(n) {
			return
		}
		other := map[token.Token]string{token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*"}[n.Op]
		name := map[token.Token]string{token.ADD: "Sum", token.SUB: "Difference", token.MUL: "Product", token.QUO: "Quotient"}[n.Op]
		g.add(n, x+" "+other+" "+y, "mutation%[2]s(%[1]d, %[3]s, %[4]s)", name, x, y)
	}
}

// condition turns around what an if statement asks, where it is not a comparison.
func (g *finder) condition(e ast.Expr) {
	if _, ok := e.(*ast.BinaryExpr); !ok {
		g.add(e, "not "+g.text(e), "((%[2]s) != mutationOn(%[1]d))", g.text(e))
	}
}

func (g *finder) call(n *ast.CallExpr) {
	id, ok := n.Fun.(*ast.Ident)
	if !ok || len(n.Args) != 2 || g.constant(n) || n.Ellipsis.IsValid() {
		return
	}
	if _, ok := g.pkg.TypesInfo.Uses[id].(*types.Builtin); !ok {
		return
	}
	a, b := g.text(n.Args[0]), g.text(n.Args[1])
	switch id.Name {
	case "min":
		g.add(n, "max("+a+", "+b+")", "mutationMin(%[1]d, %[2]s, %[3]s)", a, b)
	case "max":
		g.add(n, "min("+a+", "+b+")", "mutationMax(%[1]d, %[2]s, %[3]s)", a, b)
	}
}

// number makes a number one larger. Its type is spelled out, for in 2 * feet the number
// has the type of feet.
func (g *finder) number(n *ast.BasicLit) {
	if n.Kind != token.INT && n.Kind != token.FLOAT {
		return
	}
	t := g.pkg.TypesInfo.TypeOf(n)
	if b, ok := t.(*types.Basic); ok && b.Info()&types.IsUntyped != 0 {
		return
	}
	name := types.TypeString(t, func(p *types.Package) string {
		if p == g.pkg.Types {
			return ""
		}
		return p.Name()
	})
	g.add(n, n.Value+" + 1", "mutationMore[%[2]s](%[1]d, %[3]s)", name, n.Value)
}

// returned makes a function return the zero value. What is the zero value already, and
// what the function's result type would convert, is left alone.
func (g *finder) returned(e ast.Expr) {
	tv := g.pkg.TypesInfo.Types[e]
	if tv.IsNil() || tv.Type == nil {
		return
	}
	if _, ok := tv.Type.(*types.Tuple); ok {
		return
	}
	if tv.Value != nil {
		switch tv.Value.ExactString() {
		case "0", `""`, "false":
			return
		}
	}
	if b, ok := tv.Type.(*types.Basic); ok && b.Info()&types.IsBoolean != 0 {
		g.add(e, "not "+g.text(e), "((%[2]s) != mutationOn(%[1]d))", g.text(e))
		return
	}
	if lit, ok := e.(*ast.CompositeLit); ok && len(lit.Elts) == 0 {
		return
	}
	g.add(e, "the zero value", "mutationNothing(%[1]d, %[2]s)", g.text(e))
}

// statements leaves out one statement of a list.
func (g *finder) statements(list []ast.Stmt) {
	for _, s := range list {
		switch n := s.(type) {
		case *ast.AssignStmt:
			if n.Tok == token.DEFINE {
				continue
			}
			if id, ok := n.Lhs[0].(*ast.Ident); ok && id.Name == "_" {
				continue
			}
		case *ast.ExprStmt, *ast.IncDecStmt:
		case *ast.BranchStmt:
			if n.Tok == token.GOTO || n.Tok == token.FALLTHROUGH {
				continue
			}
		default:
			continue
		}
		g.add(s, "nothing", "if !mutationOn(%[1]d) { %[2]s }", g.text(s))
	}
}
