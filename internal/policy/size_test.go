package policy

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A function of production code has at most this many branches and lines. Both are far above
// what is usual here; a reader should not have to keep more in mind. There are no exceptions.
const (
	mostBranches = 20
	mostLines    = 60
)

// branches counts the ways through a function: 1, and 1 for each if, for, case, && and ||
// (T. McCabe, A Complexity Measure, IEEE Transactions on Software Engineering, 1976).
func branches(n ast.Node) int {
	count := 1
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.IfStmt, *ast.ForStmt, *ast.RangeStmt:
			count++
		case *ast.CaseClause:
			if n.List != nil {
				count++
			}
		case *ast.CommClause:
			if n.Comm != nil {
				count++
			}
		case *ast.BinaryExpr:
			if n.Op == token.LAND || n.Op == token.LOR {
				count++
			}
		}
		return true
	})
	return count
}

// functions calls each for every function of a file, and for the functions in the values of
// its variables, such as the check of a rule.
func functions(f *ast.File, each func(name string, n ast.Node)) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			name := d.Name.Name
			if d.Recv != nil && len(d.Recv.List) == 1 {
				name = receiver(d.Recv.List[0].Type) + "." + name
			}
			each(name, d)
		case *ast.GenDecl:
			ast.Inspect(d, func(n ast.Node) bool {
				if lit, ok := n.(*ast.FuncLit); ok {
					each(varName(d, lit), lit)
					return false
				}
				return true
			})
		}
	}
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

// varName is the variable in whose value a function literal is.
func varName(d *ast.GenDecl, lit *ast.FuncLit) string {
	for _, s := range d.Specs {
		if v, ok := s.(*ast.ValueSpec); ok && v.Pos() <= lit.Pos() && lit.End() <= v.End() {
			return v.Names[0].Name
		}
	}
	return "?"
}

func TestNoFunctionIsTooLarge(t *testing.T) {
	for _, p := range load(t) {
		for _, f := range p.Syntax {
			functions(f, func(name string, n ast.Node) {
				b := branches(n)
				lines := p.Fset.Position(n.End()).Line - p.Fset.Position(n.Pos()).Line + 1
				if b <= mostBranches && lines <= mostLines {
					return
				}
				t.Errorf("%s: %s has %d branches and %d lines, at most %d and %d; split it", place(p, n), name, b, lines, mostBranches, mostLines)
			})
		}
	}
}

func TestBranchesAreCounted(t *testing.T) {
	p := written(t, module+"/internal/p", `package p

func straight() {}

func some(a, b bool, n int) int {
	if a && b || !a {
		return 1
	}
	for range n {
		switch n {
		case 1, 2:
		default:
		}
	}
	return 0
}

type thing struct{}

func (t *thing) check() { if true {} }

var rule = func(n int) bool { return n > 2 || n < 0 }
`)
	var got []string
	functions(p.Syntax[0], func(name string, n ast.Node) { got = append(got, fmt.Sprint(name, " ", branches(n))) })
	if s := strings.Join(got, ", "); s != "straight 1, some 6, thing.check 2, rule 2" {
		t.Errorf("counted %s", s)
	}
}

// mostCommandLines is how many lines cmd/build may have besides its tests. It has flags, verbs,
// messages and the exit status; what a verb does belongs into a package.
const mostCommandLines = 900

func TestTheCommandStaysSmall(t *testing.T) {
	files, err := filepath.Glob("../../cmd/build/*.go")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n += bytes.Count(src, []byte("\n"))
	}
	if n == 0 || n > mostCommandLines {
		t.Errorf("cmd/build has %d lines, at most %d; move what is not flags, verbs, messages and exit status to the package that owns it", n, mostCommandLines)
	}
}
