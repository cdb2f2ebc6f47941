package policy

import (
	"go/ast"
	"go/token"
	"go/types"
	"strings"
	"testing"

	"golang.org/x/tools/go/ast/astutil"
	"golang.org/x/tools/go/packages"

	"tarepage/internal/thorough"
)

type tokenPos = token.Pos

const measurePath = module + "/internal/measure"

// isUnit reports whether a type is one of internal/measure's units.
func isUnit(t types.Type) bool {
	named, ok := types.Unalias(t).(*types.Named)
	if !ok || named.Obj().Pkg() == nil || named.Obj().Pkg().Path() != measurePath {
		// A type parameter that only units satisfy counts too.
		if p, ok := t.(*types.TypeParam); ok {
			c, ok := types.Unalias(p.Constraint()).(*types.Named)
			return ok && c.Obj().Pkg() != nil && c.Obj().Pkg().Path() == measurePath
		}
		return false
	}
	basic, ok := named.Underlying().(*types.Basic)
	return ok && basic.Info()&types.IsFloat != 0
}

func isFloat(t types.Type) bool {
	if t == nil {
		return false
	}
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Info()&types.IsFloat != 0 && basic.Info()&types.IsUntyped == 0
}

// operations calls each for every binary operation, x op= y among them.
func operations(p *packages.Package, each func(n ast.Node, x ast.Expr, op token.Token, y ast.Expr)) {
	assigned := map[token.Token]token.Token{token.ADD_ASSIGN: token.ADD, token.SUB_ASSIGN: token.SUB,
		token.MUL_ASSIGN: token.MUL, token.QUO_ASSIGN: token.QUO}
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if v := p.TypesInfo.Types[n]; v.Value == nil { // a constant is exact
					each(n, n.X, n.Op, n.Y)
				}
			case *ast.AssignStmt:
				if op, ok := assigned[n.Tok]; ok {
					each(n, n.Lhs[0], op, n.Rhs[0])
				}
			}
			return true
		})
	}
}

// badProducts finds products and quotients in which an operand has a unit. Pounds times
// pounds compiles and is pounds again; only a named function in internal/measure can say
// what it really is.
func badProducts(p *packages.Package) (out []string) {
	operations(p, func(n ast.Node, x ast.Expr, op token.Token, y ast.Expr) {
		if op != token.MUL && op != token.QUO {
			return
		}
		ux, uy := isUnit(p.TypesInfo.TypeOf(x)), isUnit(p.TypesInfo.TypeOf(y))
		if p.PkgPath == measurePath {
			// Inside measure a plain number may scale a unit: ft x 12 is a conversion.
			if ux && uy && p.TypesInfo.Types[x].Value == nil && p.TypesInfo.Types[y].Value == nil {
				out = append(out, place(p, n)+": two units in a product; convert both to float64 and name the result's unit")
			}
			return
		}
		if ux || uy {
			out = append(out, place(p, n)+": a unit in a product or quotient; use or add a named function in internal/measure/product.go")
		}
	})
	return out
}

// badDisguises finds products and quotients in which a unit is converted to a plain number on
// the spot: float64(a) * float64(b) says as little about its result as a * b.
func badDisguises(p *packages.Package) (out []string) {
	bare := func(e ast.Expr) bool {
		call, ok := ast.Unparen(e).(*ast.CallExpr)
		return ok && len(call.Args) == 1 && p.TypesInfo.Types[call.Fun].IsType() &&
			isFloat(p.TypesInfo.TypeOf(call)) && !isUnit(p.TypesInfo.TypeOf(call)) && isUnit(p.TypesInfo.TypeOf(call.Args[0]))
	}
	operations(p, func(n ast.Node, x ast.Expr, op token.Token, y ast.Expr) {
		if (op == token.MUL || op == token.QUO) && (bare(x) || bare(y)) {
			out = append(out, place(p, n)+": a unit is converted to a plain number and multiplied; use or add a named function in internal/measure/product.go")
		}
	})
	return out
}

// badRenderSums finds sums of units in the code that makes pages. Such a number would have no
// rule that checks it, no source and no test.
func badRenderSums(p *packages.Package) (out []string) {
	operations(p, func(n ast.Node, x ast.Expr, op token.Token, y ast.Expr) {
		if (op == token.ADD || op == token.SUB) && (isUnit(p.TypesInfo.TypeOf(x)) || isUnit(p.TypesInfo.TypeOf(y))) {
			out = append(out, place(p, n)+": pages do no arithmetic; compute it in internal/compute")
		}
	})
	return out
}

// badFusing finds products of floats whose rounding a compiler may drop by fusing them
// with a following sum. By the Go specification ("Floating-point operators") only an
// explicit conversion prevents it, even across statements. So a product must be inside a
// conversion, inside another product or quotient, or the argument of a call.
func badFusing(p *packages.Package) (out []string) {
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.AssignStmt:
				if n.Tok == token.MUL_ASSIGN && isFloat(p.TypesInfo.TypeOf(n.Lhs[0])) {
					out = append(out, place(p, n)+": x *= y may be fused with a following sum; write x = float64(x * y)")
				}
			case *ast.BinaryExpr:
				tv := p.TypesInfo.Types[n]
				if n.Op != token.MUL || tv.Value != nil || !isFloat(tv.Type) && !isUnit(tv.Type) {
					return true
				}
				path, _ := astutil.PathEnclosingInterval(f, n.Pos(), n.End())
				for _, up := range path {
					switch up := up.(type) {
					case *ast.ParenExpr:
						continue
					case *ast.BinaryExpr:
						if up == n {
							continue
						}
						if up.Op == token.MUL || up.Op == token.QUO || up.Op.Precedence() == 3 {
							return true // a comparison adds nothing
						}
					case *ast.CallExpr:
						return true
					}
					break
				}
				out = append(out, place(p, n)+": the product may be fused with a following sum; convert it, float64(x * y)")
			}
			return true
		})
	}
	return out
}

func TestUnitsAreMultipliedInMeasureOnly(t *testing.T) {
	thorough.Only(t)
	for _, p := range load(t) {
		for _, s := range badProducts(p) {
			t.Error(s)
		}
		// A drawing turns inches into points of the page; figures do not.
		if name := short(p.PkgPath); name == "compute" || name == "inspect" || name == "render" || name == "report" {
			for _, s := range badDisguises(p) {
				t.Error(s)
			}
		}
	}
}

func TestPagesDoNoArithmetic(t *testing.T) {
	for _, p := range load(t) {
		if name := short(p.PkgPath); name == "render" || name == "report" {
			for _, s := range badRenderSums(p) {
				t.Error(s)
			}
		}
	}
}

// figures are the packages whose numbers are shown.
var figures = []string{"measure", "tables", "compute", "inspect", "elevation"}

func TestNoFusedMultiplyAddCanShow(t *testing.T) {
	for _, p := range load(t) {
		if strings.Contains(" "+strings.Join(figures, " ")+" ", " "+short(p.PkgPath)+" ") {
			for _, s := range badFusing(p) {
				t.Error(s)
			}
		}
	}
}
