package unit

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// A Passage is the text of one paragraph, list item or heading of the body, without its marks
// and without the time of a timed note. A table row with two cells is also a passage: "GVWR:
// 7,000 lb".
type Passage struct {
	Text string
	// Note is the timed note, if the passage is one, or nil.
	Note *Note

	body    *Body
	text    []byte
	source  []int // for each byte of Text, its offset in the body
	checked [][2]int
}

// Pos is the place in the file of a byte of Text.
func (p *Passage) Pos(offset int) Pos {
	if len(p.source) == 0 {
		return Pos{}
	}
	return p.body.pos(p.source[min(max(offset, 0), len(p.source)-1)])
}

// Checked reports whether any of Text[from:to] is the words of a checked figure.
func (p *Passage) Checked(from, to int) bool {
	for _, c := range p.checked {
		if from < c[1] && to > c[0] {
			return true
		}
	}
	return false
}

// Passages returns the text of the body. It leaves out code, raw HTML, pictures and text that
// is struck through. The function fill gives the words for a checked figure that is filled
// in.
func (b *Body) Passages(fill func(figure string) string) []Passage {
	b = b.Whole()
	if b.Root == nil {
		return nil
	}
	timed := map[ast.Node]*Note{}
	for i := range b.Notes {
		timed[b.Notes[i].Node] = &b.Notes[i]
	}
	var out []Passage
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n.Kind() {
		case ast.KindParagraph, ast.KindTextBlock, ast.KindHeading:
			p := &Passage{body: b, Note: timed[n]}
			p.inline(n, fill)
			out = p.enter(out)
			return ast.WalkSkipChildren, nil
		case east.KindTableRow, east.KindTableHeader:
			if n.ChildCount() == 2 {
				p := &Passage{body: b}
				p.inline(n.FirstChild(), fill)
				if len(p.source) > 0 {
					at := p.source[len(p.source)-1]
					p.write(": ", at)
				}
				p.inline(n.LastChild(), fill)
				out = p.enter(out)
			}
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return out
}

// Unread returns the texts of the body that customers read and Passages leaves out: blocks of
// code, and the rows of tables that have other than two cells.
func (b *Body) Unread(fill func(figure string) string) (out []Passage) {
	b = b.Whole()
	if b.Root == nil {
		return nil
	}
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		p := &Passage{body: b}
		switch n.Kind() {
		case ast.KindCodeBlock, ast.KindFencedCodeBlock:
			for i := range n.Lines().Len() {
				line := n.Lines().At(i)
				p.write(string(line.Value(b.Source)), line.Start)
			}
		case east.KindTableRow, east.KindTableHeader:
			for c := n.FirstChild(); c != nil && n.ChildCount() != 2; c = c.NextSibling() {
				p.inline(c, fill)
				if len(p.source) > 0 {
					p.write(" ", p.source[len(p.source)-1])
				}
			}
		default:
			return ast.WalkContinue, nil
		}
		out = p.enter(out)
		return ast.WalkSkipChildren, nil
	})
	return out
}

func (p *Passage) enter(list []Passage) []Passage {
	if p.Text = string(p.text); strings.TrimSpace(p.Text) == "" {
		return list
	}
	p.text = nil
	return append(list, *p)
}

// write adds text that is at one place of the body.
func (p *Passage) write(text string, at int) {
	p.text = append(p.text, text...)
	for range len(text) {
		p.source = append(p.source, at)
	}
}

// inline adds the text of the nodes below n.
func (p *Passage) inline(n ast.Node, fill func(string) string) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			p.segment(c)
		case *ast.RawHTML, *ast.Image, *east.Strikethrough:
		case *ast.Link:
			name, checked := FigureName(c)
			from := len(p.text)
			if checked && FigureWords(c, p.body.Source) == "" {
				p.write(fill(name), p.body.linkStart(c))
			} else {
				p.inline(c, fill)
			}
			if checked {
				p.checked = append(p.checked, [2]int{from, len(p.text)})
			}
		default:
			p.inline(c, fill)
		}
	}
}

func (p *Passage) segment(t *ast.Text) {
	src := p.body.Source
	from := t.Segment.Start
	if p.Note != nil {
		// The time in front is not part of the text.
		from = max(from, p.Note.Node.Lines().At(0).Start+p.Note.Skip)
	}
	p.text, p.source = slices.Grow(p.text, t.Segment.Stop+1-from), slices.Grow(p.source, t.Segment.Stop+1-from)
	for i := from; i < t.Segment.Stop; i++ {
		// A backslash in front of punctuation is Markdown and not text (CommonMark 0.31.2, 2.4),
		// except in code.
		if src[i] == '\\' && !t.IsRaw() && i+1 < t.Segment.Stop && punctuation(src[i+1]) {
			i++
		}
		p.text = append(p.text, src[i])
		p.source = append(p.source, i)
	}
	if t.SoftLineBreak() || t.HardLineBreak() {
		p.write(" ", t.Segment.Stop)
	}
}

func punctuation(c byte) bool {
	return c >= '!' && c <= '/' || c >= ':' && c <= '@' || c >= '[' && c <= '`' || c >= '{' && c <= '~'
}
