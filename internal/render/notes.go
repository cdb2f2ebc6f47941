package render

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"tarepage/internal/compute"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

// known are the kinds of node that the notes may hold. goldmark silently
// drops a node without a renderer; here it is an error.
var known = map[ast.NodeKind]bool{
	ast.KindDocument: true, ast.KindParagraph: true, ast.KindTextBlock: true, ast.KindHeading: true,
	ast.KindBlockquote: true, ast.KindCodeBlock: true, ast.KindFencedCodeBlock: true, ast.KindList: true,
	ast.KindListItem: true, ast.KindThematicBreak: true, ast.KindHTMLBlock: true, ast.KindRawHTML: true,
	ast.KindText: true, ast.KindString: true, ast.KindEmphasis: true, ast.KindCodeSpan: true, ast.KindLink: true,
	ast.KindAutoLink: true, ast.KindImage: true, ast.KindLinkReferenceDefinition: true,
	east.KindTable: true, east.KindTableHeader: true, east.KindTableRow: true, east.KindTableCell: true,
	east.KindStrikethrough: true,
}

// notes renders the Markdown after the front matter. Without a work (the yard's own
// text) there are no figures to fill in. To leads from a time to the recording; it is nil
// where there is none. A first heading that says what the page already says over the notes, one
// of under, is left out.
func notes(b *unit.Body, w *compute.Work, workings string, to func(unit.Clock) moment, under ...string) (template.HTML, error) {
	b = b.Whole()
	if b.Root == nil {
		return "", nil
	}
	err := ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering && !known[n.Kind()] {
			return ast.WalkStop, fmt.Errorf("the notes hold a %s, which has no renderer", n.Kind())
		}
		return ast.WalkContinue, nil
	})
	if err != nil {
		return "", err
	}
	n := &noteRenderer{body: b, work: w, workings: workings, to: to, moments: map[ast.Node]unit.Note{}, lang: writtenIn(b)}
	for _, note := range b.Notes {
		n.moments[note.Node] = note
	}
	for c := b.Root.FirstChild(); c != nil; c = c.NextSibling() {
		if c.Kind() != ast.KindHeading {
			continue
		}
		title := strings.TrimSpace(unit.PlainText(c, b.Source))
		if slices.ContainsFunc(under, func(said string) bool { return strings.EqualFold(said, title) }) {
			n.said = c
		}
		break
	}
	r := renderer.NewRenderer(renderer.WithNodeRenderers(
		util.Prioritized(n, 100),
		util.Prioritized(extension.NewTableHTMLRenderer(extension.WithTableCellAlignMethod(extension.TableCellAlignAttribute)), 500),
		util.Prioritized(extension.NewStrikethroughHTMLRenderer(), 500),
		util.Prioritized(html.NewRenderer(), 1000),
	))
	var out bytes.Buffer
	if err := r.Render(&out, b.Source, b.Root); err != nil {
		return "", err
	}
	// goldmark escapes the text and leaves raw HTML and dangerous addresses out.
	return template.HTML(bytes.TrimSpace(out.Bytes())), nil
}

// noteRenderer renders what is the listing's own: timed notes and checked figures.
type noteRenderer struct {
	body *unit.Body
	work *compute.Work
	// workings leads from the notes' page to the page of the figures.
	workings string
	to       func(unit.Clock) moment
	moments  map[ast.Node]unit.Note
	said     ast.Node // the heading that is left out
	lang     phrases.Language
}

// at writes a note's time, as a link to that moment where there is one.
func (n *noteRenderer) at(w util.BufWriter, t unit.Clock) {
	var to moment
	if n.to != nil {
		to = n.to(t)
	}
	switch {
	case to.here:
		_, _ = fmt.Fprintf(w, `<a class="at" data-t="%d" href="%s">%s</a> `, int(t), util.EscapeHTML([]byte(to.href)), t)
	case to.href != "":
		_, _ = fmt.Fprintf(w, `<a class="at" rel="noopener noreferrer" referrerpolicy="no-referrer" href="%s">%s</a> `, util.EscapeHTML([]byte(to.href)), t)
	default:
		_, _ = fmt.Fprintf(w, `<span class="at">%s</span> `, t)
	}
}

// listed reports whether a node is a timed note outside any list.
func (n *noteRenderer) listed(node ast.Node) bool {
	if node == nil || node.Kind() != ast.KindParagraph || node.Parent().Kind() == ast.KindListItem {
		return false
	}
	_, ok := n.moments[node]
	return ok
}

func (n *noteRenderer) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindParagraph, n.paragraph)
	reg.Register(ast.KindTextBlock, n.textBlock)
	reg.Register(ast.KindText, n.text)
	reg.Register(ast.KindLink, n.link)
	reg.Register(ast.KindHeading, n.heading)
	reg.Register(ast.KindAutoLink, n.autoLink)
	reg.Register(ast.KindImage, n.image)
	reg.Register(ast.KindRawHTML, leftOut)
	reg.Register(ast.KindHTMLBlock, leftOut)
}

// leftOut drops raw HTML without a trace in the page; a remark tells the owner.
func leftOut(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}

func (n *noteRenderer) paragraph(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	// Timed notes that follow each other are one list of moments.
	if !entering {
		switch {
		case n.listed(node) && n.listed(node.NextSibling()):
			_, _ = w.WriteString("</li>\n")
		case n.listed(node):
			_, _ = w.WriteString("</li>\n</ol>\n")
		default:
			_, _ = w.WriteString("</p>\n")
		}
		return ast.WalkContinue, nil
	}
	if note, ok := n.moments[node]; ok {
		switch {
		case !n.listed(node):
			_, _ = w.WriteString(`<p class="moment">`)
		case n.listed(node.PreviousSibling()):
			_, _ = w.WriteString(`<li class="moment">`)
		default:
			_, _ = w.WriteString("<ol class=\"moments\">\n<li class=\"moment\">")
		}
		n.at(w, note.At)
		return ast.WalkContinue, nil
	}
	_, _ = w.WriteString("<p>")
	return ast.WalkContinue, nil
}

func (n *noteRenderer) textBlock(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		if note, ok := n.moments[node]; ok {
			n.at(w, note.At)
		}
	} else if node.NextSibling() != nil && node.FirstChild() != nil {
		_ = w.WriteByte('\n')
	}
	return ast.WalkContinue, nil
}

// text writes text without the time at the beginning of a note.
func (n *noteRenderer) text(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	t := node.(*ast.Text)
	segment := t.Segment
	if note, ok := n.moments[t.Parent()]; ok {
		if end := note.Node.Lines().At(0).Start + note.Skip; segment.Start < end {
			segment = segment.WithStart(min(end, segment.Stop))
		}
	}
	value := segment.Value(src)
	if t.IsRaw() {
		html.DefaultWriter.RawWrite(w, value)
	} else {
		html.DefaultWriter.Write(w, value)
	}
	switch {
	case t.HardLineBreak():
		_, _ = w.WriteString("<br>\n")
	case t.SoftLineBreak():
		_ = w.WriteByte('\n')
	}
	return ast.WalkContinue, nil
}

// link writes a checked figure as a link to its working, any other link as it is.
func (n *noteRenderer) link(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	l := node.(*ast.Link)
	name, checked := unit.FigureName(l)
	switch {
	case checked && !entering:
		_, _ = w.WriteString("</a>")
	case checked:
		var f *compute.Figure
		if n.work != nil {
			f = n.work.Figure(name)
		}
		if f == nil {
			return ast.WalkStop, fmt.Errorf("the notes name the figure %q, which was not worked", name)
		}
		_, _ = fmt.Fprintf(w, `<a class="fig" href="%s#fig-%s"`, util.EscapeHTML([]byte(n.workings)), util.EscapeHTML([]byte(name)))
		words := unit.FigureWords(l, src)
		if words == "" || words == f.Text {
			if metric := n.work.Metric(f); metric != "" {
				if words == "" {
					metric = unrepeated(l, src, metric)
				}
				_, _ = fmt.Fprintf(w, ` data-si="%s"`, util.EscapeHTML([]byte(metric)))
			}
		}
		_ = w.WriteByte('>')
		if words == "" {
			_, _ = w.Write(util.EscapeHTML([]byte(unrepeated(l, src, n.lang.Plain(f.Text)))))
			return ast.WalkSkipChildren, nil
		}
	case !unit.Leads(unit.Address(l)):
		// An address that may run is left out; its words stay.
	case !entering:
		_, _ = w.WriteString("</a>")
	default:
		_, _ = w.WriteString(`<a rel="noopener noreferrer" href="`)
		_, _ = w.Write(util.EscapeHTML(util.URLEscape(l.Destination, true)))
		_, _ = w.WriteString(`">`)
	}
	return ast.WalkContinue, nil
}

// unrepeated is a figure's text without its first word where the words in front of it end with that
// word: "About [?]" has one "about".
func unrepeated(l *ast.Link, src []byte, text string) string {
	before, ok := l.PreviousSibling().(*ast.Text)
	first, rest, more := strings.Cut(text, " ")
	if !ok || !more {
		return text
	}
	if said := strings.Fields(string(before.Value(src))); len(said) > 0 && strings.EqualFold(said[len(said)-1], first) {
		return rest
	}
	return text
}

// autoLink writes an address that is its own text, by the same rule.
func (n *noteRenderer) autoLink(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	l := node.(*ast.AutoLink)
	address := string(l.URL(src))
	if l.AutoLinkType == ast.AutoLinkEmail && !strings.HasPrefix(strings.ToLower(address), "mailto:") {
		address = "mailto:" + address
	}
	words := util.EscapeHTML(l.Label(src))
	if !unit.Leads(address) {
		_, _ = w.Write(words)
		return ast.WalkContinue, nil
	}
	_, _ = fmt.Fprintf(w, `<a rel="noopener noreferrer" href="%s">%s</a>`, util.EscapeHTML(util.URLEscape([]byte(address), false)), words)
	return ast.WalkContinue, nil
}

// heading keeps the notes' headings below the page's own title.
func (n *noteRenderer) heading(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if node == n.said {
		return ast.WalkSkipChildren, nil
	}
	level := max(node.(*ast.Heading).Level, 2)
	if entering {
		_, _ = fmt.Fprintf(w, "<h%d>", level)
	} else {
		_, _ = fmt.Fprintf(w, "</h%d>\n", level)
	}
	return ast.WalkContinue, nil
}

// image writes a picture's words: pictures in the notes are not published.
func (n *noteRenderer) image(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.Write(util.EscapeHTML([]byte(unit.PlainText(node, src))))
	}
	return ast.WalkSkipChildren, nil
}
