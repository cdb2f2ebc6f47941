package unit

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// A slip is one way to write a line of the front matter that YAML reads otherwise than it is
// meant, or not at all. A test holds every row by its example.
type slip struct {
	example string // a line with the slip
	fixed   string // the line as it is meant
	form    *regexp.Regexp
	cause   string
	// fix writes the line as it is meant, from what the form matched.
	fix func(m []string) string
	// instead is the remedy where nobody can tell how the line is meant.
	instead string
}

// A key with what comes before it, and a value.
const (
	slipKey   = `^([ \x{a0}]*(?:- )?[a-z][a-z-]*:)`
	slipValue = `(\S.*?)[ \t]*$`
)

// slips are in the order in which they are looked for: the first that matches explains the line.
var slips = []slip{
	{
		example: "\tlength: 18 ft", fixed: "  length: 18 ft",
		form:  regexp.MustCompile(`^([ \t]*\t[ \t]*)(.*)$`),
		cause: "there is a tab in front of the line",
		fix:   func(m []string) string { return strings.ReplaceAll(m[1], "\t", "  ") + m[2] },
	},
	{
		example: "\u00a0\u00a0length: 18 ft", fixed: "  length: 18 ft",
		form:  regexp.MustCompile(`^[ ]*\x{a0}[ \x{a0}]*\S.*$`),
		cause: "there is a no-break space in front of the line; it came with a paste and looks like a blank",
		fix:   func(m []string) string { return strings.ReplaceAll(m[0], "\u00a0", " ") },
	},
	{
		example: "color:\u00a0gray", fixed: "color: gray",
		form:  regexp.MustCompile(slipKey + `[ ]*\x{a0}[ \x{a0}]*` + slipValue),
		cause: "there is a no-break space after the colon; it came with a paste and looks like a blank",
		fix:   func(m []string) string { return m[1] + " " + m[2] },
	},
	{
		example: "color:gray", fixed: "color: gray",
		form:  regexp.MustCompile(slipKey + slipValue),
		cause: "there is no blank after the colon",
		fix:   func(m []string) string { return m[1] + " " + m[2] },
	},
	{
		example: "title: *SALE* utility trailer", fixed: `title: "*SALE* utility trailer"`,
		form:  regexp.MustCompile(slipKey + " +([*&!%@`].*?)[ \\t]*$"),
		cause: "a value cannot begin with this mark unless the value is in quotation marks",
		fix:   func(m []string) string { return m[1] + " " + quotedYAML(m[2]) },
	},
	{
		example: `title: "Big" dump trailer`, fixed: `title: '"Big" dump trailer'`,
		form:  regexp.MustCompile(slipKey + ` +("[^"]*"[ \t]*[^\s"#].*?)[ \t]*$`),
		cause: "there is something after the second quotation mark",
		fix:   func(m []string) string { return m[1] + " " + quotedYAML(m[2]) },
	},
	{
		example: `title: "Big dump trailer`, fixed: `title: "Big dump trailer"`,
		form:  regexp.MustCompile(slipKey + ` +"([^"]*?)[ \t]*$`),
		cause: "a quotation mark opens here and never closes",
		fix:   func(m []string) string { return m[1] + ` "` + m[2] + `"` },
	},
	{
		example: "year: '26", fixed: "year: 2026",
		form:  regexp.MustCompile(slipKey + ` +'([^']*?)[ \t]*$`),
		cause: "a quotation mark opens here and never closes",
		fix: func(m []string) string {
			if twoDigits.MatchString(m[2]) {
				return m[1] + " 20" + m[2]
			}
			return m[1] + ` "'` + m[2] + `"`
		},
	},
	{
		example: "* wheel chocks", fixed: "- wheel chocks",
		form:  regexp.MustCompile(`^([ ]*)[*•‣▪·–—][ \t]+(\S.*?)[ \t]*$`),
		cause: "there is another mark where the dash of a list belongs",
		fix:   func(m []string) string { return m[1] + "- " + m[2] },
	},
	{
		example: "price = $6,480", fixed: "price: $6,480",
		form:  regexp.MustCompile(`^([ ]*(?:- )?[a-z][a-z-]*) *=+ *(\S.*?)[ \t]*$`),
		cause: "there is an equals sign where a colon belongs",
		fix:   func(m []string) string { return m[1] + ": " + m[2] },
	},
	{
		example: "title: [NEW] dump trailer", fixed: `title: "[NEW] dump trailer"`,
		form:  regexp.MustCompile(slipKey + ` +((?:\[[^\]]*\]|\{[^}]*\})[ \t]*[^\s#].*?)[ \t]*$`),
		cause: "a value cannot begin with a bracket unless the value is in quotation marks",
		fix:   func(m []string) string { return m[1] + " " + quotedYAML(m[2]) },
	},
	{
		example: "title: Dump trailer: 14 ft", fixed: `title: "Dump trailer: 14 ft"`,
		form:  regexp.MustCompile(slipKey + ` +([^"'\s{[].*: .*?)[ \t]*$`),
		cause: "there is a second colon with a blank after it",
		fix: func(m []string) string {
			if pasted := pastedQuotes.FindStringSubmatch(m[2]); pasted != nil {
				return m[1] + " " + quotedYAML(pasted[1])
			}
			return m[1] + " " + quotedYAML(m[2])
		},
	},
	{
		example: "own", fixed: "own: and its value",
		form:    regexp.MustCompile(`^([^\s#:"'\[{-][^:]*?)[ \t]*$`),
		cause:   "this line has no colon, so it has no key and value",
		fix:     func(m []string) string { return m[1] + ": and its value" },
		instead: "write it as a key, a colon, a blank and the value; or delete it; or move words for customers below the second line of ---",
	},
}

var twoDigits = regexp.MustCompile(`^[0-9]{2}$`)

// quotedYAML writes a value in quotation marks that YAML reads back as it is.
func quotedYAML(s string) string {
	if strings.ContainsAny(s, `"\`) {
		return "'" + strings.ReplaceAll(s, "'", "''") + "'"
	}
	return `"` + s + `"`
}

// slipsIn reports the slips in the lines of front matter that did not read as YAML. It
// returns false if there is none that it knows. First is the file's line of lines[0].
func (r *reader) slipsIn(lines []string, first int) bool {
	found := false
	for i, line := range lines {
		if text := strings.TrimSpace(line); text == "" || text[0] == '#' {
			continue
		}
		for _, s := range slips {
			m := s.form.FindStringSubmatch(line)
			if m == nil {
				continue
			}
			column := 1 // where the value begins, if the slip is not in front of the line
			if len(m) > 2 && strings.HasPrefix(s.form.String(), slipKey) {
				column += utf8.RuneCountInString(line[:strings.LastIndex(line, m[2])])
			}
			remedy := s.instead
			if remedy == "" {
				remedy = "write the line like this: " + s.fix(m)
			}
			r.problem(FileUnreadable, posAt(r.file, first+i, column), s.cause+": "+strings.TrimSpace(line), remedy)
			found = true
			break
		}
	}
	return found
}

// numberSign matches a comment that was probably meant as part of the value: #1, #7. A
// comment has a blank after its mark.
var numberSign = regexp.MustCompile(`^#[\p{L}\p{N}]`)

// numberOnly matches a number after a number sign.
var numberOnly = regexp.MustCompile(`^#[0-9]`)

// cutOff reports a value that YAML cuts off at a # that belongs to it.
func (r *reader) cutOff(n *yaml.Node, k *key) bool {
	if n.Style != 0 || !numberSign.MatchString(n.LineComment) {
		return false
	}
	if n.Value == "" {
		r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s has no value: a # with a blank in front of it begins a comment", k.path),
			"write "+k.name+": "+strings.TrimPrefix(n.LineComment, "#")+", without the #; a comment has a blank after its #")
		return true
	}
	r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s ends before %q: a # with a blank in front of it begins a comment", k.path, n.LineComment),
		"write the value in quotation marks, as in "+k.name+": "+quotedYAML(n.Value+" "+n.LineComment)+"; a comment has a blank after its #")
	return true
}
