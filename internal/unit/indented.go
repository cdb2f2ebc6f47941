package unit

import (
	"regexp"
	"strings"
)

// The lines of front matter as far as their indentation goes: a key with a value, a key alone,
// any key.
var (
	valuedLine  = regexp.MustCompile(`^( *)[a-z][a-z-]*: +[^\s#|>&{\["'].*$`)
	sectionLine = regexp.MustCompile(`^( *)[a-z][a-z-]*:\s*(?:#.*)?$`)
	dashedKey   = regexp.MustCompile(`^( *)- +([a-z][a-z-]*: +\S.*)$`)
	anyKeyLine  = regexp.MustCompile(`^( *)[a-z][a-z-]*:(?:\s|$)`)
)

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
			if v := valuedLine.FindStringSubmatch(lines[value]); v != nil && len(v[1]) >= len(dashed[1]) {
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
				at, blanks := i, v[1]
				if above >= 0 && len(anyKeyLine.FindStringSubmatch(lines[above])[1]) == len(m[1]) {
					at, blanks = value, m[1] // it alone lost its blanks
				}
				if above >= 0 && sectionLine.MatchString(lines[above]) && len(sectionLine.FindStringSubmatch(lines[above])[1]) == len(v[1]) {
					at, blanks = value, m[1]
				}
				text := strings.TrimSpace(lines[at])
				r.problem(FileUnreadable, posAt(r.file, first+at, 1), "the line does not begin where the others of its section do: "+text,
					"write the line like this: "+blanks+text)
				return true
			}
		}
		above, value = value, i
	}
	return false
}
