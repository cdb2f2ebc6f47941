package render

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"sync"
	"text/template/parse"
)

// Limits on a look that somebody wrote. They are far above what a page needs; without them a
// kilobyte of templates that call each other keeps a build busy for good.
const (
	// mostSteps is how many steps a template may take with all that it calls, where a loop
	// over the yard's own lists counts once.
	mostSteps = 100_000
	// mostPage is how many bytes a page may have.
	mostPage = 32 << 20
)

// bounded refuses templates that call themselves, and those that take too many steps.
func bounded(t *template.Template) error {
	b := &bounding{of: t, steps: map[string]int{}, open: map[string]bool{}}
	for _, each := range t.Templates() {
		if _, err := b.template(each.Name()); err != nil {
			return err
		}
	}
	return nil
}

// A bounding counts the steps of templates.
type bounding struct {
	of    *template.Template
	steps map[string]int
	open  map[string]bool // those that are being counted
}

func (b *bounding) template(name string) (int, error) {
	if n, known := b.steps[name]; known {
		return n, nil
	}
	if b.open[name] {
		return 0, fmt.Errorf("the template %q calls itself, directly or through others; a look may not do that", name)
	}
	t := b.of.Lookup(name)
	if t == nil || t.Tree == nil || t.Tree.Root == nil {
		return 1, nil
	}
	b.open[name] = true
	n, err := b.list(t.Tree.Root)
	delete(b.open, name)
	if err == nil && n > mostSteps {
		err = fmt.Errorf("the template %q takes more than %d steps with those that it calls; use fewer calls", name, mostSteps)
	}
	b.steps[name] = n
	return n, err
}

// list counts the steps of a list of nodes.
func (b *bounding) list(l *parse.ListNode) (steps int, err error) {
	if l == nil {
		return 0, nil
	}
	for _, node := range l.Nodes {
		n, err := b.node(node)
		if err != nil {
			return 0, err
		}
		if steps += n; steps > mostSteps {
			return steps, nil
		}
	}
	return steps, nil
}

func (b *bounding) node(node parse.Node) (steps int, err error) {
	switch n := node.(type) {
	case *parse.TemplateNode:
		steps, err = b.template(n.Name)
	case *parse.IfNode:
		steps, err = b.both(&n.BranchNode)
	case *parse.WithNode:
		steps, err = b.both(&n.BranchNode)
	case *parse.RangeNode:
		if number := numberIn(n.Pipe); number != "" {
			return 0, fmt.Errorf("a template loops over the number %s; a look loops over the yard's lists only", number)
		}
		steps, err = b.both(&n.BranchNode)
	case *parse.ListNode:
		steps, err = b.list(n)
	}
	return steps + 1, err
}

// both counts the two lists of a branch.
func (b *bounding) both(n *parse.BranchNode) (int, error) {
	own, err := b.list(n.List)
	if err != nil {
		return 0, err
	}
	other, err := b.list(n.ElseList)
	return own + other, err
}

// numberIn is a number in what a template loops over, or empty.
func numberIn(p *parse.PipeNode) string {
	for _, c := range p.Cmds {
		for _, a := range c.Args {
			switch a := a.(type) {
			case *parse.NumberNode:
				if len(c.Args) == 1 {
					return a.Text
				}
			case *parse.PipeNode:
				if found := numberIn(a); found != "" {
					return found
				}
			}
		}
	}
	return ""
}

var errPage = errors.New("a page is larger than 32 MB; a loop of the look may have no end")

// A sheet is a page while it is made, up to a size.
type sheet struct{ made bytes.Buffer }

// sheets are used for one page after the other.
var sheets = sync.Pool{New: func() any { return new(sheet) }}

// Write implements io.Writer.
func (s *sheet) Write(p []byte) (int, error) {
	if s.made.Len()+len(p) > mostPage {
		return 0, errPage
	}
	return s.made.Write(p)
}
