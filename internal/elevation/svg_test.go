package elevation_test

import (
	"encoding/xml"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// This file reads a drawing back with encoding/xml and its own small reader of path data
// (SVG 1.1 section 8.3), so that the tests measure what a browser would draw and not
// what the package believes it drew.

type xy struct{ x, y float64 }

type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
	Kids    []element  `xml:",any"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

type circle struct{ x, y, r float64 }

type label struct {
	x, y   float64
	middle bool
	text   string
}

type box struct{ left, right, top, bottom float64 }

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// box is the label's box at em of the font's size for a character: 39.6 units high.
func (l label) box(em float64) box {
	w := em * 39.6 * float64(utf8.RuneCountInString(l.text))
	left := l.x
	if l.middle {
		left -= w / 2
	}
	return box{left, left + w, l.y - 28, l.y + 8}
}

// A picture is what was drawn, by class.
type picture struct {
	wide, tall float64
	paths      map[string][][]xy
	circles    map[string][]circle
	labels     []label
	ids        []string
	classes    map[string]bool
}

var notNumber = regexp.MustCompile(`NaN|Inf|[0-9]e[+-]?[0-9]`)

func parse(t testing.TB, svg string) picture {
	t.Helper()
	var root element
	if err := xml.Unmarshal([]byte(svg), &root); err != nil {
		t.Fatalf("%v in\n%s", err, svg)
	}
	p := picture{paths: map[string][][]xy{}, circles: map[string][]circle{}, classes: map[string]bool{}}
	box := strings.Fields(root.attr("viewBox"))
	if len(box) != 4 || root.attr("role") != "img" {
		t.Fatalf("viewBox %q, role %q", root.attr("viewBox"), root.attr("role"))
	}
	p.wide, p.tall = number(t, box[2]), number(t, box[3])
	var walk func(e element, anchor string)
	walk = func(e element, anchor string) {
		for _, a := range e.Attrs {
			if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" {
				t.Errorf("attribute %s: the page's policy refuses it", a.Name.Local)
			}
			if notNumber.MatchString(a.Value) && a.Name.Local != "id" && !strings.HasPrefix(a.Name.Local, "aria-") {
				t.Errorf("%s=%q is not a number", a.Name.Local, a.Value)
			}
		}
		if id := e.attr("id"); id != "" {
			p.ids = append(p.ids, id)
		}
		class := e.attr("class")
		for _, c := range strings.Fields(class) {
			p.classes[c] = true
		}
		class, _, _ = strings.Cut(class, " ")
		if a := e.attr("text-anchor"); a != "" {
			anchor = a
		}
		switch e.XMLName.Local {
		case "path":
			p.paths[class] = append(p.paths[class], path(t, e.attr("d"))...)
		case "circle":
			p.circles[class] = append(p.circles[class], circle{number(t, e.attr("cx")), number(t, e.attr("cy")), number(t, e.attr("r"))})
		case "text":
			p.labels = append(p.labels, label{number(t, e.attr("x")), number(t, e.attr("y")), anchor == "middle", e.Text})
		case "svg", "g", "title", "desc":
		default:
			t.Errorf("element %s", e.XMLName.Local)
		}
		for _, k := range e.Kids {
			walk(k, anchor)
		}
	}
	walk(root, "")
	return p
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		t.Fatalf("%q is not a number", s)
	}
	if _, decimals, _ := strings.Cut(s, "."); len(decimals) > 1 {
		t.Errorf("%q has more than one decimal", s)
	}
	return v
}

var pathToken = regexp.MustCompile(`[MLHVlZ]|-?[0-9]*\.?[0-9]+`)

// path is the corner points of every subpath.
func path(t testing.TB, d string) [][]xy {
	t.Helper()
	if rest := strings.TrimSpace(pathToken.ReplaceAllString(d, "")); rest != "" {
		t.Fatalf("path data holds %q", rest)
	}
	var out [][]xy
	tokens := pathToken.FindAllString(d, -1)
	var at xy
	for i := 0; i < len(tokens); {
		verb := tokens[i]
		i++
		next := func() float64 { i++; return number(t, tokens[i-1]) }
		switch verb {
		case "M":
			at = xy{next(), next()}
			out = append(out, nil)
		case "L":
			at = xy{next(), next()}
		case "l":
			at = xy{at.x + next(), at.y + next()}
		case "H":
			at.x = next()
		case "V":
			at.y = next()
		case "Z":
			continue
		default:
			t.Fatalf("path data %q at %q", d, verb)
		}
		out[len(out)-1] = append(out[len(out)-1], at)
	}
	return out
}

// steel are the classes that the trailer itself is drawn with.
var steel = []string{"el-body", "el-tail", "el-shell", "el-guess"}

// right is the rearmost point of the given classes.
func (p picture) right(classes ...string) float64 {
	x := math.Inf(-1)
	for _, c := range classes {
		for _, sub := range p.paths[c] {
			for _, at := range sub {
				x = max(x, at.x)
			}
		}
	}
	return x
}

func (p picture) ground() float64 { return p.paths["el-ground"][0][0].y }

// faults are what no drawing may have, whatever its measures: something outside the
// paper, text on text, a line through a text, a tire off the ground. line is the width
// of the ground line.
func (p picture) faults(line float64) []string {
	var out []string
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	// Numbers are printed to a tenth, so a text that just fits may seem half of that outside.
	const printed = 0.05 + 1e-9
	inside := func(what string, b box) {
		if b.left < -printed || b.top < -printed || b.right > p.wide+printed || b.bottom > p.tall+printed {
			fault("%s at %.1f lies outside %g x %g", what, b, p.wide, p.tall)
		}
	}
	for class, subs := range p.paths {
		for _, sub := range subs {
			for _, at := range sub {
				inside(class, box{at.x, at.x, at.y, at.y})
			}
		}
	}
	for class, cs := range p.circles {
		for _, c := range cs {
			inside(class, box{c.x - c.r, c.x + c.r, c.y - c.r, c.y + c.r})
			// The tire stands on the upper edge of the ground line; a pintle's eye hangs.
			if (class == "el-wheel" || class == "el-guess") && c.y+c.r > p.ground()-line/2+0.11 {
				fault("a wheel at %g stands in the ground", c.x)
			}
		}
	}
	for i, l := range p.labels {
		inside(l.text, l.box(0.6))
		for _, o := range p.labels[:i] {
			if l.box(0.6).meets(o.box(0.6)) {
				fault("%q stands in %q", l.text, o.text)
			}
		}
		// A line may pass within the text's room, but not through its letters; common faces
		// set digits, spaces and points at about half the size.
		letters := l.box(0.5)
		for _, sub := range p.paths["el-dim"] {
			for j := 1; j < len(sub); j++ {
				a, b := sub[j-1], sub[j]
				if a.x != b.x && a.y != b.y {
					continue
				}
				if letters.meets(box{min(a.x, b.x) - 0.05, max(a.x, b.x) + 0.05, min(a.y, b.y) - 0.05, max(a.y, b.y) + 0.05}) {
					fault("a line at %g, %g runs through %q", a.x, a.y, l.text)
				}
			}
		}
	}
	return out
}
