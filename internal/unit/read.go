package unit

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/adrg/frontmatter"
	"go.yaml.in/yaml/v4"
)

// MostBytes is the size of the largest unit file that is read. A listing has a few kilobytes.
// A file of a megabyte is a photo or a recording with the wrong name.
const MostBytes = 1 << 20

// Limits for the text. A listing has a few kilobytes of text, and its tables must fit on a
// phone. goldmark's time grows with the square of a paragraph's length, and it fills every row
// of a table to the width of its head. Without these limits, a file of twenty kilobytes can
// keep the build busy for minutes.
const (
	MostWords   = 1 << 16
	mostColumns = 30
	// Maximum nesting of quotes and lists, and maximum number of square brackets in the text;
	// each may begin a link.
	mostDeep     = 20
	mostBrackets = 2000
	// Maximum number of runs of marks for emphasis. goldmark looks for the partner of each
	// among all that came before.
	mostMarks = 2000
	// Maximum length of one value of the front matter. A longer one is a whole text.
	mostValue = 4000
)

// reader collects the contents of one file and what is wrong with it.
type reader struct {
	file     string
	yard     bool // the file is the yard's
	problems []Problem
	meant    []string       // keys that unknown keys probably meant
	more     map[string]int // by rule, the number of problems beyond mostOfOne
	first    map[string]Pos // the place of the first of them
}

// mostOfOne is the largest number of problems of one rule that is printed for one file. Twenty
// are enough to see that it is the wrong file or the wrong indentation. A hundred thousand
// would hide everything else.
const mostOfOne = 20

// full reports whether this file already has mostOfOne problems of a rule, and counts one
// more.
func (r *reader) full(rule string, at Pos) bool {
	n := 0
	for _, p := range r.problems {
		if p.Rule == rule {
			n++
		}
	}
	if n < mostOfOne {
		return false
	}
	if r.more == nil {
		r.more, r.first = map[string]int{}, map[string]Pos{}
	}
	if r.more[rule]++; r.more[rule] == 1 {
		r.first[rule] = at
	}
	return true
}

// fold adds one problem for each rule that says how many more there are.
func (r *reader) fold() {
	for _, rule := range slices.Sorted(maps.Keys(r.more)) {
		r.problems = append(r.problems, Problem{Rule: rule, At: r.first[rule],
			Message: fmt.Sprintf("and %d more of this kind in this file", r.more[rule]), Remedy: "fix those above it, then look again"})
	}
	sortProblems(r.problems)
}

func (r *reader) problem(rule string, at Pos, message, remedy string, related ...Place) {
	if r.full(rule, at) {
		return
	}
	r.problems = append(r.problems, Problem{Rule: rule, At: at, Related: related, Message: message, Remedy: remedy})
}

func (r *reader) pos(n *yaml.Node) Pos { return posAt(r.file, n.Line, n.Column) }

// parts are the parts of a file.
type parts struct {
	root     *yaml.Node // the mapping of the front matter; nil if it could not be read
	top      Pos        // where the front matter begins
	body     []byte
	bodyLine int // the file's line at which body begins
}

// split splits a file into its parts. It reports every reason why the file cannot be read,
// and returns false if there is no usable front matter.
func (r *reader) split(src []byte) (p parts, ok bool) {
	p.top = Pos{r.file, 1, 1}
	if src, ok = r.asText(src); !ok {
		return p, false
	}
	var front []string
	if p.top, front, ok = r.frontLines(src); !ok {
		return p, false
	}
	opening := int(p.top.Line)
	var doc yaml.Node
	format := frontmatter.NewFormat("---", "---", func(b []byte, v any) error {
		if bare(b) {
			return nil
		}
		return yaml.Load(quoteUnknown(b), v.(*yaml.Node))
	})
	body, err := frontmatter.Parse(bytes.NewReader(src), &doc, format)
	if err != nil {
		if !r.slipsIn(front, opening+1) && !r.misplacedLine(front, opening+1) && !r.unevenLine(front, opening+1) {
			r.yamlProblems(err, opening, front)
		}
		return p, false
	}
	// This copy has no spare capacity, because the notes of the whole yard stay in memory.
	p.body = append(make([]byte, 0, len(body)), body...)
	p.bodyLine = bytes.Count(src[:len(src)-len(body)], []byte("\n")) + 1
	if !r.wordsWithin(p.body, p.bodyLine) {
		return p, false
	}
	if doc.Kind == 0 || len(doc.Content) == 0 {
		return p, r.refuse(p.top, "the front matter is empty", "write the keys between the two lines of ---")
	}
	offset(&doc, opening, map[*yaml.Node]bool{})
	root := doc.Content[0]
	if root.Kind != yaml.MappingNode {
		return p, r.refuse(r.pos(root), "the front matter is not a list of keys", "write each key on its own line: key: value")
	}
	p.root = root
	return p, true
}

// refuse reports why the file cannot be read, and returns false.
func (r *reader) refuse(at Pos, message, remedy string) bool {
	r.problem(FileUnreadable, at, message, remedy)
	return false
}

// asText returns the file as UTF-8 with the line endings of Unix. It refuses what is too long,
// in another encoding, or has characters that nobody sees.
func (r *reader) asText(src []byte) ([]byte, bool) {
	start := Pos{r.file, 1, 1}
	// Some editors put a byte order mark first. It is not text: their empty file has three bytes.
	src = bytes.TrimPrefix(src, []byte("\xef\xbb\xbf"))
	switch {
	case len(bytes.TrimSpace(src)) == 0:
		return nil, r.refuse(start, "the file is empty", "write the front matter between two lines of ---, or delete the file")
	case len(src) > MostBytes:
		return nil, r.refuse(start, fmt.Sprintf("the file has %d bytes; a unit file stays below %d", len(src), MostBytes),
			"keep photos, captions and videos in media/ and name them here")
	case bytes.HasPrefix(src, []byte{0xff, 0xfe}), bytes.HasPrefix(src, []byte{0xfe, 0xff}):
		return nil, r.refuse(start, "the file is in UTF-16", "save it as UTF-8: in the editor choose Save As, and there UTF-8 as the encoding")
	}
	// Line endings come first, so that every position counts lines as the author sees them.
	src = bytes.ReplaceAll(src, []byte("\r\n"), []byte("\n"))
	src = bytes.ReplaceAll(src, []byte("\r"), []byte("\n"))
	if i := bytes.IndexByte(src, 0); i >= 0 {
		return nil, r.refuse(r.at(src, i), "there is a zero byte here; this is not a text file", notText(src))
	}
	if i := invalidUTF8(src); i >= 0 {
		return nil, r.refuse(r.at(src, i), fmt.Sprintf("byte 0x%02x here is not UTF-8", src[i]),
			"save the file as UTF-8; it was probably saved as Windows-1252: in the editor choose Save As, and there UTF-8 as the encoding")
	}
	if i := bytes.IndexFunc(src, unseen); i >= 0 {
		c, _ := utf8.DecodeRune(src[i:])
		return nil, r.refuse(r.at(src, i), fmt.Sprintf("there is an invisible character (U+%04X) here", c),
			"delete the character; it came with a paste")
	}

	for _, m := range reference.FindAllSubmatchIndex(src, -1) {
		if c := referred(string(src[m[2]:m[3]])); unseen(c) {
			return nil, r.refuse(r.at(src, m[0]), fmt.Sprintf("%s is an invisible character (U+%04X)", src[m[0]:m[1]], c),
				"delete it; it shows nothing to a reader and may turn a number round")
		}
	}
	return src, true
}

// dashLine matches a line of dashes as word processors write them, or of too few or too many.
var dashLine = regexp.MustCompile(`^\s*(?:[-\x{2010}-\x{2015}\x{2212}]{2,}|[\x{2010}-\x{2015}\x{2212}]+)\s*$`)

// processed explains a line that a word processor wrote where three hyphens belong.
func processed(line string) (cause, fix string) {
	const plain = "; write unit files in an editor for plain text"
	switch {
	case strings.HasPrefix(line, `{\rtf`):
		return "the file was saved as rich text, with fonts and sizes", "save it as plain text: in the word processor choose Save As, Plain Text, UTF-8, and let the name end in .md" + plain
	case strings.TrimSpace(line) != "---" && dashLine.MatchString(line):
		return fmt.Sprintf("the line %q is not a line of three hyphens; word processors change hyphens", strings.TrimSpace(line)), "write --- here" + plain
	}
	return "", ""
}

// frontLines finds the two lines of --- around the front matter. It returns where the first
// one is, and the lines between them.
func (r *reader) frontLines(src []byte) (top Pos, front []string, ok bool) {
	lines := strings.Split(string(src), "\n")
	opening := 0
	for opening < len(lines) && strings.TrimSpace(lines[opening]) == "" {
		opening++
	}
	top = posAt(r.file, opening+1, 1)
	if cause, fix := processed(lines[opening]); cause != "" {
		return top, nil, r.refuse(top, cause, fix)
	}
	if strings.TrimSpace(lines[opening]) != "---" {
		return top, nil, r.refuse(top, fmt.Sprintf("the file begins with %q and has no front matter", shorten(lines[opening])),
			"begin the file with a line of ---, the keys, and a second line of ---")
	}
	closing := opening + 1
	for closing < len(lines) && strings.TrimSpace(lines[closing]) != "---" {
		closing++
	}
	if closing == len(lines) {
		for i := opening + 1; i < len(lines); i++ {
			if cause, fix := processed(lines[i]); cause != "" {
				return top, nil, r.refuse(posAt(r.file, i+1, 1), cause, fix)
			}
		}
		return top, nil, r.refuse(top, "the front matter opens here and never closes", "put a line of --- after the last key")
	}
	if strings.TrimRight(lines[closing], " \t") != "---" {
		return top, nil, r.refuse(posAt(r.file, closing+1, 1), "a line of --- that is indented closes the front matter here",
			"take the indented --- out of the value; the closing line begins at the left edge")
	}
	return top, lines[opening+1 : closing], true
}

// wordsWithin refuses words that are too long, or have more marks than a page can show. They
// begin at a line of the file.
func (r *reader) wordsWithin(body []byte, line int) bool {
	if len(body) > MostWords {
		return r.refuse(posAt(r.file, line, 1), fmt.Sprintf("the words have %d bytes; they stay below %d", len(body), MostWords),
			"cut them to what a customer reads on a phone")
	}
	if n := bytes.Count(body, []byte("[")); n > mostBrackets {
		return r.refuse(posAt(r.file, line, 1), fmt.Sprintf("the words hold %d square brackets [; they hold no more than %d", n, mostBrackets),
			"leave out what is not a link")
	}
	if n := marks(body); n > mostMarks {
		return r.refuse(posAt(r.file, line, 1), fmt.Sprintf("the words hold %d marks * _ or ~ for emphasis; they hold no more than %d", n, mostMarks),
			"leave out most of them; a page that is all bold has nothing bold")
	}
	for l := range bytes.Lines(body) {
		if n := nested(l); n > mostDeep {
			return r.refuse(posAt(r.file, line, 1), fmt.Sprintf("quotes and lists are nested %d levels deep here; the most is %d", n, mostDeep),
				"write it without so many marks in front; nobody follows this on a phone")
		}
		if n := bytes.Count(l, []byte("|")); n > mostColumns {
			return r.refuse(posAt(r.file, line, 1), fmt.Sprintf("there are %d bars | on this line; a table has at most %d", n, mostColumns),
				"make a narrower table; nobody reads this one on a phone")
		}
		line++
	}
	return true
}

// marks counts the runs of equal marks for emphasis and for what is struck through.
func marks(body []byte) (n int) {
	last := byte(0)
	for _, c := range body {
		if c != last && (c == '*' || c == '_' || c == '~') {
			n++
		}
		last = c
	}
	return n
}

// nested counts the marks of quotes and lists in front of a line (CommonMark 0.31.2, 5.1
// and 5.2). A line that repeats a single mark is a thematic break (4.1).
func nested(line []byte) (n int) {
	rest := bytes.TrimSpace(line)
	if len(bytes.Trim(rest, "- \t")) == 0 || len(bytes.Trim(rest, "* \t")) == 0 {
		return 0
	}
	for ; len(rest) > 0; n++ {
		mark := 1
		switch c := rest[0]; {
		case c == '>':
		case c == '-' || c == '+' || c == '*':
		case c >= '0' && c <= '9':
			for mark < len(rest) && rest[mark] >= '0' && rest[mark] <= '9' {
				mark++
			}
			if mark == len(rest) || rest[mark] != '.' && rest[mark] != ')' {
				return n
			}
			mark++
		default:
			return n
		}
		if rest[0] != '>' && mark < len(rest) && rest[mark] != ' ' && rest[mark] != '\t' {
			return n
		}
		rest = bytes.TrimLeft(rest[mark:], " \t")
	}
	return n
}

// invalidUTF8 is the offset of the first byte that is not UTF-8, or -1.
func invalidUTF8(src []byte) int {
	for i := 0; i < len(src); {
		c, size := utf8.DecodeRune(src[i:])
		if c == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// unseen matches the characters that neither YAML nor a page accepts: controls other than tab
// and newline, characters that only YAML treats as a line break, the two noncharacters, and
// those that change the direction of the text (UAX 9, 2.1 to 2.4). Between two of the last,
// 12,960 lb can look like 069,21.
func unseen(c rune) bool {
	return unicode.IsControl(c) && c != '\t' && c != '\n' || c == '\u2028' || c == '\u2029' || c == 0xfeff || c == 0xfffe || c == 0xffff ||
		c >= '\u202a' && c <= '\u202e' || c >= '\u2066' && c <= '\u2069'
}

// reference matches a character that is given by its number in Markdown: CommonMark 0.31.2, 2.5.
var reference = regexp.MustCompile(`&#([0-9]{1,7}|[xX][0-9a-fA-F]{1,6});`)

// referred returns the character with a number such as 8238 or x202e.
func referred(number string) rune {
	base := 10
	if number[0] == 'x' || number[0] == 'X' {
		number, base = number[1:], 16
	}
	n, _ := strconv.ParseInt(number, base, 32) // seven digits and six hex digits fit
	return rune(n)
}

// bare reports whether front matter has no key, only blank lines and comments.
func bare(b []byte) bool {
	for line := range bytes.Lines(b) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return false
		}
	}
	return true
}

// yamlProblems turns the YAML reader's errors into problems with places. Opening is the file's line
// of the first ---, and front the lines after it.
func (r *reader) yamlProblems(err error, opening int, front []string) {
	const remedy = "look at this line and the one above it: each has a key, a colon, a blank and a value; keys of a section begin with two blanks; " +
		"a value with a colon or a # in it is in quotation marks; what opens with a bracket or a quotation mark closes too"
	report := func(line, column int, message string) {
		text := ""
		if line > 0 && line <= len(front) {
			text = ": " + shorten(front[line-1])
		}
		r.problem(FileUnreadable, r.mark(line, column, opening), "the front matter does not read as YAML: "+plainYAML(message)+text, remedy)
	}
	var all *yaml.LoadErrors
	var one *yaml.LoadError
	switch {
	case errors.As(err, &all):
		for _, e := range all.Errors {
			report(e.Mark.Line, e.Mark.Column, e.Message)
		}
	case errors.As(err, &one):
		report(one.Mark.Line, one.Mark.Column, one.Message)
	default:
		report(0, 0, err.Error())
	}
}

func (r *reader) mark(line, column, lines int) Pos {
	return posAt(r.file, max(line, 1)+lines, max(column, 1))
}

// yamlWords replace the library's YAML terms with words that an owner knows.
var yamlWords = map[string]string{
	"mapping values are not allowed in this context":  "there is a colon with a blank after it inside a value",
	"found character that cannot start any token":     "there is a tab here, or a character that cannot begin a value",
	"did not find expected key":                       "there is something after the end of a value, or the line does not begin where the others do",
	"found unexpected end of stream":                  "a quotation mark opens and never closes",
	"found a tab character that violates indentation": "there is a tab in front of a key",
}

// plainYAML makes one lower-case clause from a message of the library.
func plainYAML(s string) string {
	s = strings.TrimPrefix(s, "yaml: ")
	s, _, _ = strings.Cut(s, "\n")
	s = strings.TrimRight(s, ". ")
	if plain := yamlWords[s]; plain != "" {
		return plain
	}
	return s
}

// offset moves the lines of a tree, because it was read from the line after the opening ---.
func offset(n *yaml.Node, lines int, seen map[*yaml.Node]bool) {
	if n == nil || seen[n] {
		return
	}
	seen[n] = true
	n.Line += lines
	for _, c := range n.Content {
		offset(c, lines, seen)
	}
}

func shorten(s string) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "..."
	}
	return s
}

// at is the position of a byte offset in src.
func (r *reader) at(src []byte, offset int) Pos {
	line := bytes.Count(src[:offset], []byte("\n")) + 1
	from := bytes.LastIndexByte(src[:offset], '\n') + 1
	return posAt(r.file, line, utf8.RuneCount(src[from:offset])+1)
}

// mapping reads the keys of one section into the struct v.
func (r *reader) mapping(n *yaml.Node, ks *keys, v reflect.Value, section string) {
	seen := map[string]Pos{}
	var meant []*key
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, value := n.Content[i], n.Content[i+1]
		at := r.pos(name)
		if name.Kind != yaml.ScalarNode {
			r.problem(UnknownKey, at, "a key here is not a plain word", "write key: value")
			continue
		}
		if r.commaSplit(name, value, n, i) {
			continue
		}
		if first, twice := seen[name.Value]; twice {
			r.problem(KeyTwice, at, fmt.Sprintf("key %q is given twice", shorten(name.Value)), "keep one of the two",
				Place{first, "the other one is here"})
			continue
		}
		seen[name.Value] = at
		k := ks.byName[name.Value]
		if k == nil {
			if near := r.unknown(name, value, ks, section); near != nil {
				meant = append(meant, near)
			}
			continue
		}
		if value.Tag == "!!null" && (k.name == "stock" || numberOnly.MatchString(name.LineComment)) {
			value.LineComment = name.LineComment // stock: #1043
		}
		r.value(value, k, v.Field(k.index), at)
	}
	// gwvr for gvwr: a mistyped key does not also count as missing.
	for _, k := range meant {
		if _, there := seen[k.name]; !there {
			spoilBelow(k, v.Field(k.index))
		}
	}
}

// spoilBelow marks the field of a key, and every field below it, as given but not readable.
func spoilBelow(k *key, v reflect.Value) {
	switch {
	case k.kids != nil:
		for _, kid := range k.kids.order {
			spoilBelow(kid, v.Field(kid.index))
		}
	case !k.list:
		if l := v.Addr().Interface().(leaf); !l.given() {
			l.spoil()
		}
	}
}

// splitRest matches the rest of a value that { } cut at a thousands comma.
var splitRest = regexp.MustCompile(`^[0-9]{3}([ .,].*)?$`)

// rest reports whether a key is the rest of a value that was cut at a thousands comma.
func rest(name, value *yaml.Node) bool {
	return splitRest.MatchString(name.Value) && value.Tag == "!!null"
}

// commaSplit recognizes the rest of a value that was cut at a thousands comma inside { }.
func (r *reader) commaSplit(name, value, parent *yaml.Node, i int) bool {
	if !rest(name, value) || parent.Style&yaml.FlowStyle == 0 || i < 2 {
		return false
	}
	whole, start := name.Value, i-2
	for start >= 2 && rest(parent.Content[start], parent.Content[start+1]) {
		whole, start = parent.Content[start].Value+","+whole, start-2
	}
	before := parent.Content[start+1]
	whole = before.Value + "," + whole
	// The part before the comma cannot be read either, and an earlier comma of the same value
	// may already be reported. The comma is the only reason.
	r.problems = slices.DeleteFunc(r.problems, func(p Problem) bool {
		return p.Rule == ValueUnreadable && p.At == r.pos(before) ||
			p.Rule == CommaSplit && p.Related[0].At == r.pos(before)
	})
	r.problem(CommaSplit, r.pos(name),
		fmt.Sprintf("inside { } the comma in %q ends the value", whole),
		fmt.Sprintf("write it in quotes, %q, or put each key on its own line", whole),
		Place{r.pos(before), "the value begins here"})
	return true
}

// renamed has keys of an earlier version and how to write them now.
var renamed = map[string]string{
	"stale-after-days": "look-again-after now, and takes a unit: look-again-after: 90 days",
}

// unknown reports a key that does not exist, and returns the key that was probably meant.
func (r *reader) unknown(name, value *yaml.Node, ks *keys, section string) (meant *key) {
	at := r.pos(name)
	if r.full(UnknownKey, at) {
		return nil // skip the search for a similar name
	}
	where := "at the top"
	if section != "" {
		where = "under " + section
	}
	remedy, meant := r.advice(name, value, ks, section)
	r.problem(UnknownKey, at, fmt.Sprintf("unknown key %q %s", shorten(name.Value), where), remedy)
	return meant
}

const anchorRemedy = "put the value in quotation marks if the mark belongs to it; otherwise write the value out"

// value reads the value of one key.
func (r *reader) value(n *yaml.Node, k *key, dst reflect.Value, keyAt Pos) {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		spoilBelow(k, dst)
		r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s begins with & or *, which is a mark of YAML's and not read here", k.path), anchorRemedy)
		return
	}
	empty := n.Kind == yaml.ScalarNode && n.Tag == "!!null"
	switch {
	case k.kids != nil:
		dst.Field(0).Set(reflect.ValueOf(Section{keyAt}))
		if empty {
			return
		}
		if n.Kind != yaml.MappingNode {
			spoilBelow(k, dst)
			r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s takes keys below it, not %s", k.path, found(n)),
				k.below(n.Value))
			return
		}
		r.mapping(n, k.kids, dst, k.path)
	case k.list:
		if empty {
			return
		}
		if n.Kind != yaml.SequenceNode {
			r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s takes a list, not %s", k.path, found(n)), listRemedy(k, n))
			return
		}
		r.list(n, k, dst)
	default:
		l := dst.Addr().Interface().(leaf)
		if empty && r.cutOff(n, k) {
			l.spoil()
			return
		}
		if empty {
			l.blank(keyAt)
			return
		}
		r.leaf(n, k, l)
	}
}

// unfit reports a value that is not read at all: too long, with characters that nobody sees or
// that look like others, or cut off.
func (r *reader) unfit(n *yaml.Node, k *key) bool {
	message, remedy := "", ""
	// YAML reads "\u202e" in quotes as the character itself.
	if i := strings.IndexFunc(n.Value, unseen); len(n.Value) > k.most() {
		message = fmt.Sprintf("has %d bytes; one value stays below %d", len(n.Value), k.most())
		remedy = "write it shorter; long texts belong in the notes below the front matter"
	} else if i >= 0 {
		c, _ := utf8.DecodeRuneInString(n.Value[i:])
		message, remedy = fmt.Sprintf("holds an invisible character (U+%04X)", c), "write the value without it"
	} else {
		message, remedy = noteFault(n.Value, k)
	}
	if message == "" {
		return r.cutOff(n, k)
	}
	r.problem(ValueUnreadable, r.pos(n), k.path+" "+message, remedy)
	return true
}

// found names what is in the place of something else that was expected.
func found(n *yaml.Node) string {
	switch n.Kind {
	case yaml.SequenceNode:
		return "a list"
	case yaml.MappingNode:
		return "keys"
	}
	return strconv.Quote(shorten(n.Value))
}

func (r *reader) leaf(n *yaml.Node, k *key, l leaf) {
	if n.Kind == yaml.MappingNode && len(n.Content) == 2 && n.Content[0].Value == "unknown" && n.Content[1].Kind == yaml.ScalarNode {
		// The same on a line of its own below the key.
		reason := *n.Content[1]
		reason.Value = "unknown: " + reason.Value
		n = &reason
	}
	if n.Kind != yaml.ScalarNode {
		l.spoil()
		remedy := "write it on one line, " + k.name + ": " + k.example
		if k.list && n.Kind == yaml.MappingNode && len(n.Content) == 2 && n.Content[1].Kind == yaml.ScalarNode {
			remedy = "write it in quotation marks: - " + quotedYAML(n.Content[0].Value+": "+n.Content[1].Value)
			if isPrivate(n.Content[0].Value) {
				remedy = notForCustomers(n.Content[0].Value)
			}
		}
		r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s takes one value, not keys or a list", k.path), remedy)
		return
	}
	if strings.TrimSpace(n.Value) == "" {
		l.blank(r.pos(n))
		return
	}
	if r.unfit(n, k) {
		l.spoil()
		return
	}
	if m := pastedQuotes.FindStringSubmatch(n.Value); m != nil && k.kind == "text" {
		l.spoil()
		r.problem(ValueUnreadable, r.pos(n), fmt.Sprintf("%s: there are curly quotation marks around the value, and customers would see them", k.path), "write "+k.name+": "+plainOrQuoted(m[1]))
		return
	}
	if err := l.read(n.Value, k); err != nil {
		l.spoil()
		message, remedy := unreadable(l, k, n.Value, err)
		r.problem(ValueUnreadable, r.pos(n), message, remedy)
		return
	}
	l.place(r.pos(n), n.Value)
}

// pastedQuotes matches a value in the curly quotation marks that word processors write. They do
// not quote a value, as the straight ones do.
var pastedQuotes = regexp.MustCompile(`^\s*[“„«]([^“”„«»]*\S)\s*[”“»]\s*$`)

// plainOrQuoted is a value as a file takes it: in straight quotation marks where YAML would read it
// otherwise.
func plainOrQuoted(text string) string {
	var back map[string]string
	if err := yaml.Load([]byte("a: "+text+"\n"), &back); err == nil && back["a"] == text {
		return text
	}
	return quotedYAML(text)
}

// listRemedy says how a list is written, with the first item of what is there.
func listRemedy(k *key, n *yaml.Node) string {
	const form = ", with a dash and a blank in front"
	if n.Kind != yaml.ScalarNode {
		return "write each item on a line of its own" + form
	}
	text := strings.TrimLeft(n.Value, "-*•‣▪·–— \t")
	if file, is := strings.CutPrefix(text, "file: "); is {
		text = file
	}
	switch k.path {
	case "photos":
		return "write below photos: - file: media/" + strings.TrimPrefix(shorten(text), "media/") + ", and below file: a line alt: with what the photo shows"
	case "proof":
		return "write below proof: - file: media/" + strings.TrimPrefix(shorten(text), "media/") + ", and below file: a line shows: and a line proves:, as in shows: label and proves: weights.gvwr"
	case "waive":
		return "write below waive: - rule: " + shorten(text) + ", and below rule: a line reason: and a line until: with the last day"
	case "tie-downs":
		return "write below tie-downs: - d-rings: 8 at 5,000 lb"
	}
	if text == "" || strings.Contains(text, ": ") {
		return "write each item on a line of its own" + form
	}
	first, _, several := strings.Cut(text, ",")
	switch {
	case text != n.Value:
		return "write each item on a line of its own" + form + ": - " + shorten(text)
	case several:
		return "write each item on a line of its own below " + k.name + ":" + form + ": - " + shorten(first)
	}
	return "write it on a line of its own below " + k.name + ":" + form + ": - " + shorten(text)
}

func (r *reader) list(n *yaml.Node, k *key, dst reflect.Value) {
	for _, item := range n.Content {
		if item.Kind == yaml.AliasNode || item.Anchor != "" {
			r.problem(ValueUnreadable, r.pos(item), k.path+" begins with & or *, which is a mark of YAML's and not read here", anchorRemedy)
			continue
		}
		switch list := dst.Addr().Interface().(type) {
		case *[]Text:
			var t Text
			r.leaf(item, k, &t)
			if t.Given() {
				if heardLists[k.path] {
					heardItem(&t)
				}
				*list = append(*list, t)
			}
		case *[]Photo:
			var p Photo
			if item.Kind != yaml.MappingNode {
				remedy := "write file: and alt: below the dash"
				if name := item.Value; item.Kind == yaml.ScalarNode && name != "" {
					remedy = "write - file: media/" + strings.TrimPrefix(name, "media/") + ", and below file: a line alt: with what the photo shows"
				}
				r.problem(ValueUnreadable, r.pos(item), fmt.Sprintf("a photo takes keys, not %s", found(item)), remedy)
				continue
			}
			r.mapping(item, photoKeys(), reflect.ValueOf(&p).Elem(), k.path)
			*list = append(*list, p)
		case *[]Proof:
			var p Proof
			p.At = r.pos(item)
			if item.Kind != yaml.MappingNode {
				r.problem(ValueUnreadable, r.pos(item), fmt.Sprintf("a proof takes keys, not %s", found(item)),
					"write file:, shows: and proves: below the dash")
				continue
			}
			r.mapping(item, proofKeys(), reflect.ValueOf(&p).Elem(), k.path)
			*list = append(*list, p)
		case *[]Waiver:
			var w Waiver
			w.At = r.pos(item)
			if item.Kind != yaml.MappingNode {
				r.problem(ValueUnreadable, r.pos(item), fmt.Sprintf("waiver %q has no keys", shorten(item.Value)),
					"write rule:, reason: and until: below the dash")
				continue
			}
			r.mapping(item, waiverKeys(), reflect.ValueOf(&w).Elem(), k.path)
			*list = append(*list, w)
		case *[]TieDown:
			r.tieDown(item, list)
		default:
			panic(fmt.Sprintf("unit: a list of %T has no reader", list))
		}
	}
}

// tieDownNumber matches the count of a tie-down with its provenance.
const tieDownNumber = countNumber + `(?:\s*\([^()]*\))?`

var tieDownForm = regexp.MustCompile(`^(` + tieDownNumber + `)(?:\s+(?:at|x|@)\s+(.+))?$`)

// tieDown reads "stake pockets: 22", "stake pockets: 22 (said 1:13)" and "d-rings: 8 at
// 5,000 lb".
func (r *reader) tieDown(n *yaml.Node, list *[]TieDown) {
	const remedy = "write it like d-rings: 8 at 5,000 lb"
	if n.Kind != yaml.MappingNode || len(n.Content) != 2 || n.Content[1].Kind != yaml.ScalarNode {
		r.problem(ValueUnreadable, r.pos(n), "a tie-down takes its name and a count", remedy)
		return
	}
	name, value := n.Content[0], n.Content[1]
	if isPrivate(name.Value) || ownMark.MatchString(name.Value) {
		r.problem(UnknownKey, r.pos(name), fmt.Sprintf("unknown key %q under tie-downs", shorten(name.Value)), notForCustomers(name.Value))
		return
	}
	m := tieDownForm.FindStringSubmatch(strings.TrimSpace(value.Value))
	if m == nil {
		r.problem(ValueUnreadable, r.pos(value), fmt.Sprintf("tie-downs: %q is not a count", shorten(value.Value)), remedy)
		return
	}
	var t TieDown
	t.Kind.Value = name.Value
	t.Kind.place(r.pos(name), name.Value)
	if err := t.Count.read(m[1], &key{path: "tie-downs", example: "8"}); err != nil {
		r.problem(ValueUnreadable, r.pos(value), "tie-downs: "+err.Error(), remedy)
		return
	}
	t.Count.place(r.pos(value), m[1])
	if m[2] != "" {
		if err := t.Rating.read(m[2], nil); err != nil {
			remedy := remedy
			if p := pointForComma.FindStringSubmatch(m[2]); p != nil {
				remedy = fmt.Sprintf("write it with a comma, %s: %s at %s,%s lb", name.Value, m[1], p[1], p[2])
			}
			r.problem(ValueUnreadable, r.pos(value), "tie-downs: "+err.Error(), remedy)
			return
		}
		t.Rating.place(r.pos(value), m[2])
	}
	*list = append(*list, t)
}

// ReadUnit reads one unit file. The name is the file's path below the content root; every
// position has it. The unit is never nil.
func ReadUnit(name string, src []byte) (*Unit, []Problem) {
	r := &reader{file: name}
	u := &Unit{File: name, Sum: sha256.Sum256(src)}
	p, ok := r.split(src)
	u.Top, u.Broken = p.top, !ok
	if ok {
		r.mapping(p.root, unitKeys(), reflect.ValueOf(u).Elem(), "")
		r.spoilMeant(u)
		u.Body = readBody(name, p.body, p.bodyLine)
		if u.NotesES.Given() && !r.wordsWithin([]byte(u.NotesES.Raw), u.NotesES.firstLine()) {
			u.NotesES = Text{}
		}
	}
	r.fold()
	return u, r.problems
}

// ReadYard reads content/yard.md.
func ReadYard(name string, src []byte) (*Yard, []Problem) {
	r := &reader{file: name, yard: true}
	y := &Yard{File: name, Sum: sha256.Sum256(src)}
	p, ok := r.split(src)
	y.Top, y.Broken = p.top, !ok
	if ok {
		r.mapping(p.root, yardKeys(), reflect.ValueOf(y).Elem(), "")
		r.words(y.WordsES)
		y.Body = readBody(name, p.body, p.bodyLine)
	}
	r.fold()
	return y, r.problems
}

// notText is the remedy for a file that is not text. A file of a word processor with another name
// begins with the marks of a ZIP archive or of a compound file.
func notText(src []byte) string {
	for _, marks := range []string{"PK\x03\x04", "\xd0\xcf\x11\xe0"} {
		if bytes.HasPrefix(src, []byte(marks)) {
			return "it is likely the file of a word processor; open it there, save it as plain text (.txt, UTF-8), and name that file .md"
		}
	}
	return "save it as UTF-8 text"
}
