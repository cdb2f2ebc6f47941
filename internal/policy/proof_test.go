package policy

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// from resolves imports from the packages that were loaded.
type from map[string]*types.Package

func (f from) Import(path string) (*types.Package, error) {
	if p := f[path]; p != nil {
		return p, nil
	}
	return nil, fmt.Errorf("%s is not loaded", path)
}

// written type-checks a source text from a test as if it were a package of the project.
func written(t *testing.T, path, source string) *packages.Package {
	t.Helper()
	known := from{}
	for _, p := range load(t) {
		if p.PkgPath == measurePath {
			known[measurePath] = p.Types
		}
	}
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "written.go", source, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	pkg, err := (&types.Config{Importer: known}).Check(path, fset, []*ast.File{file}, info)
	if err != nil {
		t.Fatal(err)
	}
	return &packages.Package{PkgPath: path, Fset: fset, Syntax: []*ast.File{file}, Types: pkg, TypesInfo: info}
}

// The rules on arithmetic report the lines they are for, and no other.
func TestTheArithmeticRulesFindWhatTheyAreFor(t *testing.T) {
	const source = `package p

import "tarepage/internal/measure"

func f(a, b measure.Pounds, in measure.Inches, n int, x, y, z float64) {
	_ = a * b
	_ = a / b
	_ = 2 * a
	a *= 2
	_ = float64(a) * x
	_ = a + b
	_ = x*y + z
	z += x * y
	_ = float64(x*y) + z
	_ = x * y / z
	_ = measure.Pounds(x * y)
	z = x * y
	_ = -(x * y)
	_ = x*y > z
	const half measure.Pounds = 1.0 / 2
	_ = n*n + n
	x *= y
}

func g[U measure.Unit](u, v U) U { return u * v }
`
	p := written(t, module+"/internal/p", source)
	for _, c := range []struct {
		rule func(*packages.Package) []string
		want string
	}{
		{badProducts, "6 7 8 9 25"},
		{badDisguises, "10"},
		{badRenderSums, "11"},
		{badFusing, "6 8 9 10 12 13 17 18 22 25"},
	} {
		var got []string
		for _, s := range c.rule(p) {
			_, at, _ := strings.Cut(s, "written.go:")
			line, _, _ := strings.Cut(at, ":")
			got = append(got, line)
		}
		if s := strings.Join(got, " "); s != c.want {
			t.Errorf("found at lines %s, want %s", s, c.want)
		}
	}

	inside := written(t, measurePath, `package measure

type Unit interface{ ~float64 }
type Pounds float64
type Feet float64

func f(a, b Pounds, ft Feet) {
	_ = a * b
	_ = ft * 12
	_ = Pounds(float64(a) * float64(ft))
}
`)
	if got := badProducts(inside); len(got) != 1 || !strings.Contains(got[0], "written.go:8:") {
		t.Errorf("inside measure: %v", got)
	}
}
