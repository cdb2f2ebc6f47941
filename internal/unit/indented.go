package unit

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// The lines of front matter as far as their indentation goes: a key with a value, a key alone,
// any key.
var (
	valuedLine  = regexp.MustCompile(`^( *)[a-z][a-z -]*: +[^\s#|>&{\["'].*$`)
	sectionLine = regexp.MustCompile(`^( *)[a-z][a-z-]*:\s*(?:#.*)?$`)
	dashedKey   = regexp.MustCompile(`^( *)- +([a-z][a-z-]*: +\S.*)$`)
	anyKeyLine  = regexp.MustCompile(`^( *)[a-z][a-z -]*:(?:\s|$)`)
)

// inSection are the lines that people mean who write a value after the name of a section. Common
// practice, no source.
var inSection = map[string]string{"axles": "count: 2", "brakes": "kind: electric", "tires": "size: ST235/80R16", "hitch": "kind: bumper-pull",
	"ramps": "kind: slide-in", "jack": "kind: A-frame", "hoist": "kind: scissor", "gate": "kind: barn doors", "winch": "kind: electric", "deck": "length: 18 ft", "weights": "gvwr: 9,900 lb (tag)"}

// misplacedLine reports a line that begins further right than a line with a value above it, which
// cannot have keys of its own. If a section begins above that line, the line lost its blanks;
// otherwise the lower one has too many.
func (r *reader) misplacedLine(lines []string, first int) bool {
	above, value := -1, -1 // the last two lines with a key
	for i, line := range lines {
		if text := strings.TrimSpace(line); text == "" || text[0] == '#' {
			continue
		}
		m := anyKeyLine.FindStringSubmatch(line)
		if dashed := dashedKey.FindStringSubmatch(line); dashed != nil && value >= 0 {
			if v := valuedLine.FindStringSubmatch(lines[value]); v != nil && len(v[1]) >= len(dashed[1]) && readsFurther(lines, i, v[1]+dashed[2]) {
				r.problem(FileUnreadable, posAt(r.file, first+i, 1), "there is a dash in front of the key: "+strings.TrimSpace(line),
					"write the line like this: "+v[1]+dashed[2])
				return true
			}
		}
		if m == nil {
			above, value = -1, -1
			continue
		}
		if value >= 0 {
			if v := valuedLine.FindStringSubmatch(lines[value]); v != nil && len(m[1]) > len(v[1]) {
				if r.valuedSection(lines, value, first, m[1]) {
					return true
				}
				at, blanks := i, v[1]
				if loneLine(lines, above, value, i) {
					at, blanks = value, m[1]
				}
				return r.uneven(lines, at, first, blanks)
			}
		}
		above, value = value, i
	}
	return false
}

// loneLine reports whether the upper of two lines has too few blanks in front, and not the lower too
// many. Above is the key before them, or -1.
func loneLine(lines []string, above, upper, lower int) bool {
	blanks := func(i int) string { return anyKeyLine.FindStringSubmatch(lines[i])[1] }
	if above >= 0 && (blanks(above) == blanks(lower) || sectionLine.MatchString(lines[above]) && blanks(above) == blanks(upper)) {
		return true
	}
	// The first key of a section can be the wrong one. The change after which more reads is meant.
	return furtherThan(lines, upper, blanks(lower), lower, blanks(upper))
}

// valuedSection reports a section with a value in its own line and with keys below, which begin
// with the blanks.
func (r *reader) valuedSection(lines []string, at, first int, blanks string) bool {
	key, _, _ := strings.Cut(lines[at], ":")
	if inSection[key] == "" || !readsFurther(lines, at, key+":") {
		return false
	}
	r.problem(FileUnreadable, posAt(r.file, first+at, 1), key+" has a value, and keys below it",
		"write "+key+": without a value, and the value in a line below it, as in "+blanks+inSection[key])
	return true
}

// unevenLine reports a line of a section that begins further left than the lines above it in the
// same section. If only one line is above it, that one has too many blanks; otherwise the lower one
// has too few.
func (r *reader) unevenLine(lines []string, first int) bool {
	broken := brokenAt(lines) - 1
	if broken < 1 || broken >= len(lines) {
		return false
	}
	low := anyKeyLine.FindStringSubmatch(lines[broken])
	if low == nil {
		return false
	}
	var above []int // lines of the section above it
	for i := broken - 1; i >= 0; i-- {
		m := anyKeyLine.FindStringSubmatch(lines[i])
		if m == nil || len(m[1]) < len(low[1]) {
			break
		}
		above = append(above, i)
	}
	if len(above) == 0 {
		return false
	}
	at, blanks := broken, anyKeyLine.FindStringSubmatch(lines[above[0]])[1]
	if len(above) == 1 {
		at, blanks = above[0], low[1]
	}
	return r.uneven(lines, at, first, blanks)
}

// uneven reports the line that is to begin with the blanks. It returns false if that changes nothing.
func (r *reader) uneven(lines []string, at, first int, blanks string) bool {
	text := strings.TrimSpace(lines[at])
	if !readsFurther(lines, at, blanks+text) {
		return false
	}
	remedy := "write the line like this: " + blanks + text
	if n := len(blanks); n > 0 { // blanks are hard to count on a screen
		word := "blanks"
		if n == 1 {
			word = "blank"
		}
		remedy = fmt.Sprintf("write the line like this, with %d %s in front: %s", n, word, blanks+text)
	}
	r.problem(FileUnreadable, posAt(r.file, first+at, 1), "the line does not begin where the others of its section do: "+text, remedy)
	return true
}

// furtherThan reports whether front matter reads further with other blanks in front of one of its
// lines than with other blanks in front of another. Where both read, sections have two blanks.
func furtherThan(lines []string, at int, blanks string, other int, otherBlanks string) bool {
	one, two := brokenAt(indented(lines, at, blanks)), brokenAt(indented(lines, other, otherBlanks))
	return one > two || one == two && len(blanks)%2 < len(otherBlanks)%2
}

// indented is the lines, one of which begins with the blanks.
func indented(lines []string, at int, blanks string) []string {
	changed := slices.Clone(lines)
	changed[at] = blanks + strings.TrimSpace(lines[at])
	return changed
}

// readsFurther reports whether front matter reads, or its first error comes later, with another
// text in one of its lines. A line whose correction changes nothing is not the cause.
func readsFurther(lines []string, at int, instead string) bool {
	changed := slices.Clone(lines)
	changed[at] = instead
	return brokenAt(changed) > brokenAt(lines)
}

// brokenAt is the line of front matter at which it stops reading, from 1. Front matter that
// reads gives the line after its last.
func brokenAt(lines []string) int {
	var any yaml.Node
	err := yaml.Load([]byte(strings.Join(lines, "\n")+"\n"), &any)
	var all *yaml.LoadErrors
	var one *yaml.LoadError
	switch {
	case err == nil:
		return len(lines) + 1
	case errors.As(err, &all) && len(all.Errors) > 0:
		return all.Errors[0].Mark.Line
	case errors.As(err, &one):
		return one.Mark.Line
	}
	return 0
}
