package unit

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"tarepage/internal/measure"
)

// A Body is the Markdown after the front matter.
type Body struct {
	Source []byte
	// Root is the CommonMark tree of Source, with tables and strikethrough. It is nil in a
	// folded body; use Whole to get it.
	Root ast.Node
	// Notes are the paragraphs and list items that begin with a time, in order.
	Notes []Note
	// Figures are the checked figures: links whose address begins with worked:.
	Figures []FigureLink
	// Outdated are the checked figures in the old form (fig: for worked:) and those without
	// words. They are stops; their numbers are not checked or filled in.
	Outdated []FigureLink
	// RawHTML are the places of raw HTML, which is not passed through.
	RawHTML []Pos
	// LeftOut are the links with an address that is not safe for customers, and the pictures,
	// which are not published. Their words stay; the link or the picture is left out.
	LeftOut []LeftOut

	// File is the file that it is from, and Line the line of the file at which it begins.
	File string
	Line int
	// Headings is how many headings were read.
	Headings int
	// Spanish is whether they are the notes under notes-es.
	Spanish bool
}

// A Note is a timed note.
type Note struct {
	At   Clock
	Pos  Pos
	Node ast.Node
	// Skip is how many bytes of the note's first line the time takes up.
	Skip int
	// Section is how many headings are above the note.
	Section int
}

// A FigureLink is a checked figure: the words are the owner's, the number must agree.
type FigureLink struct {
	Name string // the figure's name, without worked:
	Text string // the words; empty if the program fills in the figure
	Pos  Pos
	Node *ast.Link
}

// A LeftOut is a link or a picture that shows only its words.
type LeftOut struct {
	Address string
	Picture bool
	Pos     Pos
}

// FigureScheme is the beginning of the address of a checked figure. FillIn is the text of a
// link that the figure's own number replaces.
const (
	FigureScheme = "worked:"
	FillIn       = "?"

	outdatedScheme = "fig:"
)

// Written is the link as the notes write it: [?](worked:tag-payload).
func (l FigureLink) Written() string {
	words := strings.TrimSpace(l.Text)
	if words == "" {
		words = FillIn
	}
	return "[" + words + "](" + FigureScheme + l.Name + ")"
}

// Address is a link's address as a browser reads it: goldmark leaves entities and
// backslashes in the tree, and "&#106;avascript:" runs all the same.
func Address(n *ast.Link) string {
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(n.Destination))))
}

// scheme matches the scheme of an address: RFC 3986, 3.1.
var scheme = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:`)

// Leads reports whether a link may send a customer to an address: a web page, a mail or
// telephone address, or a place on this site. This is a list of what is allowed, because a
// list of everything that can run would never be complete.
func Leads(address string) bool {
	switch strings.ToLower(scheme.FindString(address)) {
	case "https:", "http:", "mailto:", "tel:":
		return true
	case "":
		// A browser drops tabs, line ends, and blanks before the scheme. Two slashes, or the
		// backslashes that it takes for them, lead to another host: in a page that somebody saved,
		// to a file there.
		start := strings.ReplaceAll(strings.TrimLeft(address, " "), "\\", "/")
		return !strings.ContainsFunc(address, unicode.IsControl) && !strings.HasPrefix(start, "//")
	}
	return false
}

// FigureName is the figure that a link names, and whether it is a checked figure.
func FigureName(n *ast.Link) (name string, ok bool) { return after(FigureScheme, Address(n)) }

// after is the part of an address after the scheme. Capitals do not matter in a scheme (RFC
// 3986, 3.1), so nobody gets around the check with WORKED:.
func after(scheme, address string) (rest string, ok bool) {
	if len(address) < len(scheme) || !strings.EqualFold(address[:len(scheme)], scheme) {
		return "", false
	}
	return address[len(scheme):], true
}

// FigureWords are the words of a checked figure; empty if its number will be filled in.
func FigureWords(n *ast.Link, src []byte) string {
	if words := PlainText(n, src); words != FillIn {
		return words
	}
	return ""
}

var markdown = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough))

func readBody(file string, src []byte, line int) Body {
	b := Body{Source: src, File: file, Line: line}
	b.Root = markdown.Parser().Parse(text.NewReader(src))
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Heading:
			b.Headings++
		case *ast.Paragraph:
			b.note(n, n)
		case *ast.TextBlock:
			// The text of a tight list item is in a TextBlock, that of a loose one in a Paragraph.
			b.note(n, n)
		case *ast.Link:
			b.link(n)
		case *ast.AutoLink:
			if address := string(n.URL(src)); n.AutoLinkType == ast.AutoLinkURL && !Leads(address) {
				b.LeftOut = append(b.LeftOut, LeftOut{Address: address, Pos: b.pos(max(n.Pos(), 0))})
			}
		case *ast.Image:
			at := max(n.Pos(), 0)
			if c, ok := n.FirstChild().(*ast.Text); ok && n.Pos() < 0 {
				at = max(c.Segment.Start-2, 0)
			}
			b.LeftOut = append(b.LeftOut, LeftOut{Address: string(n.Destination), Picture: true, Pos: b.pos(at)})
		case *ast.RawHTML:
			if n.Segments.Len() > 0 {
				b.RawHTML = append(b.RawHTML, b.pos(n.Segments.At(0).Start))
			}
		case *ast.HTMLBlock:
			if n.Lines().Len() > 0 {
				b.RawHTML = append(b.RawHTML, b.pos(n.Lines().At(0).Start))
			}
		}
		return ast.WalkContinue, nil
	})
	return b
}

// link notes what is important about a link.
func (b *Body) link(n *ast.Link) {
	at, address := b.pos(b.linkStart(n)), Address(n)
	if name, ok := after(FigureScheme, address); ok {
		l := FigureLink{Name: name, Text: FigureWords(n, b.Source), Pos: at, Node: n}
		if strings.TrimSpace(PlainText(n, b.Source)) == "" {
			b.Outdated = append(b.Outdated, l)
			return
		}
		b.Figures = append(b.Figures, l)
		return
	}
	if name, ok := after(outdatedScheme, address); ok {
		b.Outdated = append(b.Outdated, FigureLink{Name: name, Text: FigureWords(n, b.Source), Pos: at, Node: n})
		return
	}
	if !Leads(address) {
		b.LeftOut = append(b.LeftOut, LeftOut{Address: address, Pos: at})
	}
}

// Whole returns the body with its tree. It reads the source of a folded body again. The nodes
// of the notes and figures are in that tree.
func (b *Body) Whole() *Body {
	if b.Root != nil || b.File == "" {
		return b
	}
	again := readBody(b.File, b.Source, b.Line)
	return &again
}

// Fold lets go of the tree, which takes several times the memory of the source. A yard of
// ten thousand units does not hold all of them at once.
//
// The unit of a file that did not change is used again while an older page of it may still
// be made, so a body that is folded already is not written to.
func (b *Body) Fold() {
	if b.Root == nil {
		return
	}
	b.Root = nil
	for i := range b.Notes {
		b.Notes[i].Node = nil
	}
	for i := range b.Figures {
		b.Figures[i].Node = nil
	}
	for i := range b.Outdated {
		b.Outdated[i].Node = nil
	}
}

var timeForm = regexp.MustCompile(`^([0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?)(?:[ \t]+|$)`)

func (b *Body) note(n ast.Node, holder ast.Node) {
	if n.Lines() == nil || n.Lines().Len() == 0 {
		return
	}
	first := n.Lines().At(0)
	m := timeForm.FindSubmatch(bytes.TrimRight(first.Value(b.Source), "\n"))
	if m == nil {
		return
	}
	at, err := measure.ParseClock(string(m[1]))
	if err != nil {
		return
	}
	b.Notes = append(b.Notes, Note{At: Clock(at), Pos: b.pos(first.Start), Node: holder, Skip: len(m[0]), Section: b.Headings})
}

// linkStart is the offset of a link's opening bracket.
func (b *Body) linkStart(n *ast.Link) int {
	if p := n.Pos(); p >= 0 && p < len(b.Source) {
		return p
	}
	for c := n.FirstChild(); c != nil; c = c.FirstChild() {
		if t, ok := c.(*ast.Text); ok {
			return max(t.Segment.Start-1, 0)
		}
	}
	return 0
}

// pos is the position of a byte offset in the body.
func (b *Body) pos(offset int) Pos {
	offset = min(max(offset, 0), len(b.Source))
	before := b.Source[:offset]
	from := bytes.LastIndexByte(before, '\n') + 1
	return posAt(b.File, b.Line+bytes.Count(before, []byte("\n")), utf8.RuneCount(before[from:])+1)
}

// PlainText is the text of a node and its children, without Markdown marks.
func PlainText(n ast.Node, src []byte) string {
	var out strings.Builder
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if entering {
			switch n := n.(type) {
			case *ast.Text:
				out.Write(n.Segment.Value(src))
				if n.SoftLineBreak() || n.HardLineBreak() {
					out.WriteByte(' ')
				}
			case *ast.String:
				out.Write(n.Value)
			}
		}
		return ast.WalkContinue, nil
	})
	return out.String()
}
