package render

import (
	"html/template"
	"strconv"
	"text/template/parse"
)

// A saying is the function say of the templates.
type saying func(key string, blanks ...string) string

// sayOnce puts the phrases without blanks into templates that were just read, as strings in place of
// calls of say. A page has dozens of them, and a yard thousands of pages.
func sayOnce(t *template.Template, say saying) {
	for _, each := range t.Templates() {
		if each.Tree != nil {
			sayIn(each.Tree.Root, say)
		}
	}
}

func sayIn(l *parse.ListNode, say saying) {
	if l == nil {
		return
	}
	branch := func(n *parse.BranchNode) {
		sayInPipe(n.Pipe, say)
		sayIn(n.List, say)
		sayIn(n.ElseList, say)
	}
	for _, node := range l.Nodes {
		switch n := node.(type) {
		case *parse.ActionNode:
			sayInPipe(n.Pipe, say)
		case *parse.TemplateNode:
			sayInPipe(n.Pipe, say)
		case *parse.IfNode:
			branch(&n.BranchNode)
		case *parse.WithNode:
			branch(&n.BranchNode)
		case *parse.RangeNode:
			branch(&n.BranchNode)
		}
	}
}

// sayInPipe says the first command of a pipe, which gets nothing from one before it, and those in
// parentheses.
func sayInPipe(p *parse.PipeNode, say saying) {
	if p == nil {
		return
	}
	for i, c := range p.Cmds {
		for _, a := range c.Args {
			if inner, ok := a.(*parse.PipeNode); ok {
				sayInPipe(inner, say)
			}
		}
		if key, ok := saysOnly(c); ok && i == 0 {
			said := *key
			said.Text = say(key.Text)
			said.Quoted = strconv.Quote(said.Text)
			c.Args = []parse.Node{&said}
		}
	}
}

// saysOnly is the key of a command that says a phrase without blanks.
func saysOnly(c *parse.CommandNode) (*parse.StringNode, bool) {
	if len(c.Args) != 2 {
		return nil, false
	}
	name, ok := c.Args[0].(*parse.IdentifierNode)
	if !ok || name.Ident != "say" {
		return nil, false
	}
	key, ok := c.Args[1].(*parse.StringNode)
	return key, ok
}
