package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"slices"
	"strings"
)

// text is a node's text with its own changes and those below it. The kinds of change:
//
//   - a comparison takes in its limit or leaves it out, and is turned round
//   - && for ||, a condition for its opposite, true for false
//   - + for -, * for /, a sign dropped, min for max
//   - a number one more, one less; a fraction doubled, halved; zero one
//   - nothing is returned in the place of a value
//   - a statement is left out, += for -=
//   - rounded up for rounded down
//
// Left alone are texts, what the compiler must know (types, declared constants, the
// lengths of arrays), and the room that make sets aside, which only the clock sees.
func (g *gardener) text(n ast.Node) string {
	switch n := n.(type) {
	case *ast.FuncLit:
		if s, ok := g.pkg.TypesInfo.TypeOf(n).(*types.Signature); ok {
			g.results = append(g.results, s)
			defer func() { g.results = g.results[:len(g.results)-1] }()
		}
		return g.splice(n.Pos(), n.End(), []edit{{n.Body.Pos(), n.Body.End(), g.inside(n.Body)}})
	case *ast.BlockStmt:
		return g.statements(n, n.List)
	case *ast.CaseClause:
		var edits []edit
		for _, e := range n.List {
			edits = append(edits, edit{e.Pos(), e.End(), g.text(e)})
		}
		return g.body(n, n.Body, edits)
	case *ast.TypeSwitchStmt:
		return g.splice(n.Pos(), n.End(), []edit{{n.Body.Pos(), n.Body.End(), g.typeCases(n.Body)}})
	case *ast.ReturnStmt:
		return g.returned(n)
	case *ast.DeclStmt:
		if d := n.Decl.(*ast.GenDecl); d.Tok != token.VAR {
			return g.original(n)
		}
	case *ast.ValueSpec:
		var edits []edit
		for _, v := range n.Values {
			edits = append(edits, edit{v.Pos(), v.End(), g.text(v)})
		}
		return g.splice(n.Pos(), n.End(), edits)
	case *ast.AssignStmt:
		var edits []edit
		for _, r := range n.Rhs {
			edits = append(edits, edit{r.Pos(), r.End(), g.text(r)})
		}
		if n.Tok != token.DEFINE {
			for _, l := range n.Lhs {
				if _, ok := l.(*ast.Ident); !ok {
					edits = append(edits, edit{l.Pos(), l.End(), g.inside(l)})
				}
			}
		}
		return g.splice(n.Pos(), n.End(), edits)
	case *ast.RangeStmt:
		return g.splice(n.Pos(), n.End(), []edit{{n.X.Pos(), n.X.End(), g.text(n.X)}, {n.Body.Pos(), n.Body.End(), g.text(n.Body)}})
	case *ast.IncDecStmt, *ast.BranchStmt, *ast.LabeledStmt:
		if l, ok := n.(*ast.LabeledStmt); ok {
			return g.splice(n.Pos(), n.End(), []edit{{l.Stmt.Pos(), l.Stmt.End(), g.text(l.Stmt)}})
		}
		return g.original(n)
	case *ast.ArrayType, *ast.MapType, *ast.StructType, *ast.FuncType, *ast.InterfaceType, *ast.ChanType:
		return g.original(n)
	case ast.Expr:
		return g.expression(n)
	}
	return g.inside(n)
}

func (g *gardener) typeCases(body *ast.BlockStmt) string {
	var edits []edit
	for _, s := range body.List {
		c := s.(*ast.CaseClause)
		edits = append(edits, edit{c.Pos(), c.End(), g.body(c, c.Body, nil)})
	}
	return g.splice(body.Pos(), body.End(), edits)
}

func (g *gardener) statements(n ast.Node, list []ast.Stmt) string { return g.body(n, list, nil) }

// body is a block or a case with the changes of its statements.
func (g *gardener) body(n ast.Node, list []ast.Stmt, edits []edit) string {
	for _, s := range list {
		edits = append(edits, edit{s.Pos(), s.End(), g.statement(s)})
	}
	return g.splice(n.Pos(), n.End(), edits)
}

// statement is one of a list of statements, which may be left out.
func (g *gardener) statement(s ast.Stmt) string {
	was := g.original(s)
	switch n := s.(type) {
	case *ast.ExprStmt:
		if call, ok := n.X.(*ast.CallExpr); ok {
			if id, ok := call.Fun.(*ast.Ident); ok && id.Name == "panic" {
				return g.text(s)
			}
		}
	case *ast.AssignStmt:
		if n.Tok == token.DEFINE || len(n.Lhs) == 1 && ident(n.Lhs[0]) == "_" {
			return g.text(s)
		}
		swap := map[token.Token]string{token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+="}[n.Tok]
		if swap != "" && g.numeric(g.pkg.TypesInfo.TypeOf(n.Lhs[0])) {
			out := g.change(s, was, "nothing")
			other := g.original(n.Lhs[0]) + " " + swap + " " + g.original(n.Rhs[0])
			id := g.change(s, was, other)
			return fmt.Sprintf("if mutationAt(%d) { } else if mutationAt(%d) { %s } else { %s }", out, id, other, g.text(s))
		}
	case *ast.IncDecStmt:
	case *ast.BranchStmt:
		if n.Tok != token.CONTINUE && n.Tok != token.BREAK {
			return g.text(s)
		}
	case *ast.ReturnStmt:
		if len(n.Results) > 0 || len(g.results) == 0 || g.results[len(g.results)-1].Results().Len() > 0 {
			return g.text(s)
		}
	default:
		return g.text(s)
	}
	return fmt.Sprintf("if !mutationAt(%d) { %s }", g.change(s, was, "nothing"), g.text(s))
}

func ident(e ast.Expr) string {
	if id, ok := e.(*ast.Ident); ok {
		return id.Name
	}
	return ""
}

// returned is a return whose values may be nothing.
func (g *gardener) returned(n *ast.ReturnStmt) string {
	var edits []edit
	var results *types.Tuple
	if len(g.results) > 0 {
		results = g.results[len(g.results)-1].Results()
	}
	for i, e := range n.Results {
		text := g.text(e)
		tv := g.pkg.TypesInfo.Types[e]
		if results != nil && results.Len() == len(n.Results) && tv.Value == nil && !tv.IsNil() &&
			types.Identical(tv.Type, results.At(i).Type()) && !isBool(tv.Type) && !isNothing(e) {
			text = fmt.Sprintf("mutationZero(%d, %s)", g.change(e, "return "+g.original(e), "nothing"), text)
		}
		edits = append(edits, edit{e.Pos(), e.End(), text})
	}
	return g.splice(n.Pos(), n.End(), edits)
}

// isNothing reports a literal that is nothing already: Tire{}.
func isNothing(e ast.Expr) bool {
	c, ok := e.(*ast.CompositeLit)
	return ok && len(c.Elts) == 0
}

func (g *gardener) numeric(t types.Type) bool {
	if p, ok := types.Unalias(t).(*types.TypeParam); ok {
		t = p.Constraint().Underlying()
		u, ok := t.(*types.Interface)
		if !ok || u.NumEmbeddeds() == 0 {
			return false
		}
		return !strings.Contains(u.String(), "string")
	}
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsNumeric != 0 && b.Info()&types.IsComplex == 0
}

func isBool(t types.Type) bool {
	if t == nil {
		return false
	}
	b, ok := types.Unalias(t).(*types.Basic)
	return ok && b.Info()&types.IsBoolean != 0
}

// expression is an expression with its changes.
func (g *gardener) expression(e ast.Expr) string {
	tv, typed := g.pkg.TypesInfo.Types[e]
	if typed && tv.IsType() {
		return g.original(e)
	}
	if typed && tv.Value != nil {
		return g.constant(e, tv)
	}
	switch n := e.(type) {
	case *ast.ParenExpr:
		return g.inside(n)
	case *ast.BinaryExpr:
		return g.binary(n, tv.Type)
	case *ast.UnaryExpr:
		switch {
		case n.Op == token.NOT:
			return g.opposite(n, "!("+strings.TrimPrefix(g.insideNot(n), "!")+")")
		case n.Op == token.SUB && g.numeric(tv.Type):
			return fmt.Sprintf("mutationNegative(%d, %s)", g.change(n, g.original(n), g.original(n.X)), g.text(n.X))
		case n.Op == token.AND:
			return g.inside(n)
		}
		return g.inside(n)
	case *ast.CallExpr:
		return g.call(n, tv.Type)
	case *ast.SelectorExpr:
		text := g.splice(n.Pos(), n.End(), []edit{{n.X.Pos(), n.X.End(), g.text(n.X)}})
		if _, ok := g.pkg.TypesInfo.Uses[n.Sel].(*types.Var); ok && isBool(tv.Type) {
			return g.opposite(n, text)
		}
		return text
	case *ast.Ident:
		if _, ok := g.pkg.TypesInfo.Uses[n].(*types.Var); ok && isBool(tv.Type) {
			return g.opposite(n, n.Name)
		}
		return n.Name
	case *ast.IndexExpr:
		if isBool(tv.Type) {
			return g.opposite(n, g.inside(n))
		}
		return g.inside(n)
	case *ast.CompositeLit:
		var edits []edit
		keyed := false
		switch g.pkg.TypesInfo.TypeOf(n).Underlying().(type) {
		case *types.Struct, *types.Array, *types.Slice:
			keyed = true
		}
		for _, el := range n.Elts {
			if kv, ok := el.(*ast.KeyValueExpr); ok {
				edits = append(edits, edit{kv.Value.Pos(), kv.Value.End(), g.text(kv.Value)})
				if !keyed {
					edits = append(edits, edit{kv.Key.Pos(), kv.Key.End(), g.text(kv.Key)})
				}
				continue
			}
			edits = append(edits, edit{el.Pos(), el.End(), g.text(el)})
		}
		return g.splice(n.Pos(), n.End(), edits)
	case *ast.TypeAssertExpr:
		return g.splice(n.Pos(), n.End(), []edit{{n.X.Pos(), n.X.End(), g.text(n.X)}})
	}
	return g.inside(e)
}

// insideNot is !x with the changes inside of x, but without x's own opposite, which is
// the opposite of !x too.
func (g *gardener) insideNot(n *ast.UnaryExpr) string {
	x := n.X
	if p, ok := x.(*ast.ParenExpr); ok {
		return "!" + g.text(p)
	}
	switch x := x.(type) {
	case *ast.Ident:
		return "!" + x.Name
	case *ast.CallExpr:
		return "!" + g.callInside(x)
	}
	return "!" + g.inside(x)
}

func (g *gardener) opposite(n ast.Expr, text string) string {
	was := g.original(n)
	becomes := "!" + was
	if strings.HasPrefix(was, "!") {
		becomes = was[1:]
	}
	return fmt.Sprintf("(mutationAt(%d) != (%s))", g.change(n, was, becomes), text)
}

func (g *gardener) binary(n *ast.BinaryExpr, t types.Type) string {
	x, y := g.original(n.X), g.original(n.Y)
	with := func(op string) string { return x + " " + op + " " + y }
	arithmetic := func(name, op string) string {
		id := g.change(n, g.original(n), with(op))
		return fmt.Sprintf("%s(%d, %s, %s)", name, id, g.text(n.X), g.text(n.Y))
	}
	var others []string
	switch n.Op {
	case token.ADD, token.SUB, token.MUL, token.QUO:
		if !g.numeric(t) {
			return g.inside(n)
		}
		switch n.Op {
		case token.ADD:
			return arithmetic("mutationPlus", "-")
		case token.SUB:
			return arithmetic("mutationMinus", "+")
		case token.MUL:
			return arithmetic("mutationTimes", "/")
		}
		return arithmetic("mutationOver", "*")
	case token.LSS:
		others = []string{"<=", ">="}
	case token.LEQ:
		others = []string{"<", ">"}
	case token.GTR:
		others = []string{">=", "<="}
	case token.GEQ:
		others = []string{">", "<"}
	case token.EQL:
		others = []string{"!="}
	case token.NEQ:
		others = []string{"=="}
	case token.LAND:
		others = []string{"||"}
	case token.LOR:
		others = []string{"&&"}
	default:
		return g.inside(n)
	}
	if !isBool(t) {
		return g.inside(n)
	}
	var b strings.Builder
	none := ""
	b.WriteString("(")
	for _, op := range others {
		id := g.change(n, g.original(n), with(op))
		// In the changed expression nothing else is alive, so its parts stay as they are.
		fmt.Fprintf(&b, "mutationAt(%d) && ((%s) %s (%s)) || ", id, x, op, y)
		none += fmt.Sprintf("!mutationAt(%d) && ", id)
	}
	b.WriteString(none + "(" + g.text(n.X) + " " + n.Op.String() + " " + g.text(n.Y) + "))")
	return b.String()
}

// roundings are the pairs of which one rounds a limit and the other a load.
var roundings = map[string]string{"Limit": "Load", "Load": "Limit", "Down": "Up", "Up": "Down", "limit": "load", "load": "limit"}

func (g *gardener) call(n *ast.CallExpr, t types.Type) string {
	if id, ok := n.Fun.(*ast.Ident); ok && (id.Name == "min" || id.Name == "max") && !n.Ellipsis.IsValid() {
		if _, builtin := g.pkg.TypesInfo.Uses[id].(*types.Builtin); builtin {
			other := map[string]string{"min": "max", "max": "min"}[id.Name]
			was := g.original(n)
			args := ""
			for _, a := range n.Args {
				args += ", " + g.text(a)
			}
			return fmt.Sprintf("mutation%s(%d%s)", map[string]string{"min": "Min", "max": "Max"}[id.Name], g.change(n, was, other+was[3:]), args)
		}
	}
	text := g.callInside(n)
	if isBool(t) && !g.pkg.TypesInfo.Types[n.Fun].IsType() {
		return g.opposite(n, text)
	}
	return text
}

// callInside is a call with the changes of its parts.
func (g *gardener) callInside(n *ast.CallExpr) string {
	var edits []edit
	args := n.Args
	if id, ok := n.Fun.(*ast.Ident); ok && id.Name == "make" {
		if _, builtin := g.pkg.TypesInfo.Uses[id].(*types.Builtin); builtin {
			_, slice := g.pkg.TypesInfo.TypeOf(args[0]).Underlying().(*types.Slice)
			args = args[1:]
			if slice && len(args) > 0 {
				args = args[:1]
			} else {
				args = nil
			}
		}
	}
	for _, a := range args {
		edits = append(edits, edit{a.Pos(), a.End(), g.text(a)})
	}
	edits = append(edits, edit{n.Fun.Pos(), n.Fun.End(), g.callee(n.Fun)})
	return g.splice(n.Pos(), n.End(), edits)
}

// callee is what is called: what rounds a limit may round a load instead.
func (g *gardener) callee(fun ast.Expr) string {
	s, ok := fun.(*ast.SelectorExpr)
	if !ok {
		if _, isIdent := fun.(*ast.Ident); isIdent {
			return g.original(fun)
		}
		return g.text(fun)
	}
	text := g.splice(s.Pos(), s.End(), []edit{{s.X.Pos(), s.X.End(), g.text(s.X)}})
	other := roundings[s.Sel.Name]
	is := g.pkg.TypesInfo.TypeOf(s)
	if other == "" || is == nil {
		return text
	}
	var obj types.Object
	if pkg, ok := g.pkg.TypesInfo.Uses[rootIdent(s.X)].(*types.PkgName); ok {
		obj = pkg.Imported().Scope().Lookup(other)
	} else if t := g.pkg.TypesInfo.TypeOf(s.X); t != nil {
		obj, _, _ = types.LookupFieldOrMethod(t, true, g.pkg.Types, other)
	}
	f, ok := obj.(*types.Func)
	if !ok {
		return text
	}
	if f.Signature().TypeParams().Len() > 0 {
		return text // which it is of is known only once it is called
	}
	plain := func(t types.Type) string {
		sig := t.(*types.Signature)
		return types.NewSignatureType(nil, nil, nil, sig.Params(), sig.Results(), sig.Variadic()).String()
	}
	if _, ok := is.(*types.Signature); !ok || plain(is) != plain(f.Type()) {
		return text
	}
	changed := g.original(s.X) + "." + other
	return fmt.Sprintf("mutationPick(%d, %s, %s)", g.change(s, g.original(s), changed), changed, text)
}

func rootIdent(e ast.Expr) *ast.Ident {
	id, _ := e.(*ast.Ident)
	return id
}

// constant is a number or a truth that may be another.
func (g *gardener) constant(e ast.Expr, tv types.TypeAndValue) string {
	was := g.original(e)
	if isBool(tv.Type) && (was == "true" || was == "false") {
		if was == "true" {
			return fmt.Sprintf("(!mutationAt(%d))", g.change(e, was, "false"))
		}
		return fmt.Sprintf("mutationAt(%d)", g.change(e, was, "true"))
	}
	if tv.Value.Kind() != constant.Int && tv.Value.Kind() != constant.Float || !g.numeric(tv.Type) || !g.ours(e) {
		return was
	}
	kind := g.typeText(tv.Type)
	if kind == "" {
		return was
	}
	type other struct{ is, written string }
	var others []other
	one := constant.MakeInt64(1)
	mag := tv.Value
	if constant.Sign(mag) < 0 {
		mag = constant.UnaryOp(token.SUB, mag, 0)
	}
	switch {
	case constant.Sign(mag) == 0:
		others = []other{{"1", "1"}}
	case constant.Compare(mag, token.LSS, one):
		others = []other{{"2 * " + kind + "(" + was + ")", "twice " + was}, {kind + "(" + was + ") / 2", "half of " + was}}
	default:
		others = []other{{kind + "(" + was + ") + 1", "1 more"}, {kind + "(" + was + ") - 1", "1 less"}}
		if b, ok := tv.Type.Underlying().(*types.Basic); ok && b.Info()&types.IsUnsigned != 0 || constant.Compare(mag, token.GTR, constant.MakeInt64(1<<30)) {
			return was
		}
	}
	text := kind + "(" + was + ")"
	for _, o := range slices.Backward(others) {
		changed := o.is
		if changed == "1" {
			changed = kind + "(1)"
		}
		text = fmt.Sprintf("mutationPick(%d, %s, %s)", g.change(e, was, o.written), changed, text)
	}
	return text
}

// ours reports that a constant expression holds a number that stands here, or the name of
// a measure that this package declares. The names of a list of kinds are no numbers.
func (g *gardener) ours(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.BasicLit:
			found = found || n.Kind == token.INT || n.Kind == token.FLOAT
		case *ast.Ident:
			if c, ok := g.pkg.TypesInfo.Uses[n].(*types.Const); ok && c.Pkg() == g.pkg.Types {
				b, ok := c.Type().Underlying().(*types.Basic)
				_, named := types.Unalias(c.Type()).(*types.Named)
				found = found || ok && (b.Info()&types.IsFloat != 0 || b.Info()&types.IsInteger != 0 && !named)
			}
		}
		return true
	})
	return found
}

// typeText is a number's type as this file writes it, or "" where it cannot.
func (g *gardener) typeText(t types.Type) string {
	if b, ok := t.(*types.Basic); ok && b.Info()&types.IsUntyped != 0 {
		return ""
	}
	known := true
	text := types.TypeString(t, func(p *types.Package) string {
		if p == g.pkg.Types {
			return ""
		}
		for _, spec := range g.file.Imports {
			if strings.Trim(spec.Path.Value, `"`) == p.Path() {
				if spec.Name != nil {
					return spec.Name.Name
				}
				return p.Name()
			}
		}
		known = false
		return p.Name()
	})
	if !known {
		return ""
	}
	return text
}
