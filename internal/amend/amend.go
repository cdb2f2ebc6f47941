// Package amend changes values in the front matter of a file and leaves every other byte as
// it is: comments, the order of keys, blank lines, line ends, the words below.
package amend

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// A Change gives one key another value.
type Change struct {
	Path  string // the key, with its section in front: "price", "weights.gvwr"
	Value string // as a person writes it: "7,040 lb (scale ticket 2026-11-03)"
}

// Apply makes the changes in a file and returns the new file. A key that is missing is added:
// at the end of its section, or with its section at the end of the front matter. The error
// names the key that cannot be changed. Before it returns, Apply reads the new file back, so
// that a change never touches another key.
func Apply(file []byte, changes []Change) ([]byte, error) {
	out := file
	for _, c := range changes {
		var err error
		if out, err = apply(out, c); err != nil {
			return nil, fmt.Errorf("%s: %w", c.Path, err)
		}
	}
	return out, check(file, out, changes)
}

// front is the front matter of a file: its lines, and where they are.
type front struct {
	start, end int // the offsets of its first line and of the closing line of ---
	eol        string
	root       *yaml.Node // its mapping; nil if it has no key
}

var errNoFront = errors.New("the file has no front matter between two lines of ---")

// parse finds and reads the front matter.
func parse(file []byte) (front, error) {
	f := front{eol: "\n"}
	if bytes.Contains(file, []byte("\r\n")) {
		f.eol = "\r\n"
	}
	opened := false
	for at := len(file) - len(bytes.TrimPrefix(file, []byte("\ufeff"))); at < len(file); {
		next := at + lineLength(file[at:])
		text := strings.TrimRight(string(file[at:next]), " \t\r\n")
		switch {
		case !opened && text == "---":
			opened, f.start = true, next
		case !opened && text != "":
			return f, errNoFront
		case opened && text == "---":
			f.end = at
			err := f.read(file) // before f is returned: Go orders calls, and not variables
			return f, err
		}
		at = next
	}
	return f, errNoFront
}

// lineLength is the length of the first line with its end.
func lineLength(b []byte) int {
	if i := bytes.IndexByte(b, '\n'); i >= 0 {
		return i + 1
	}
	return len(b)
}

// read reads the keys. Front matter without a key has no root.
func (f *front) read(file []byte) error {
	text := file[f.start:f.end]
	if withoutKeys(text) {
		return nil
	}
	var doc yaml.Node
	if err := yaml.Load(text, &doc); err != nil {
		return fmt.Errorf("the front matter does not read: %w", err)
	}
	f.root = doc.Content[0]
	if f.root.Kind != yaml.MappingNode || f.root.Style&yaml.FlowStyle != 0 {
		return errors.New("the front matter is not a list of keys, one on each line")
	}
	return nil
}

func withoutKeys(text []byte) bool {
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return false
		}
	}
	return true
}

// apply makes one change.
func apply(file []byte, c Change) ([]byte, error) {
	value, err := scalar(c.Value)
	if err != nil {
		return nil, err
	}
	f, err := parse(file)
	if err != nil {
		return nil, err
	}
	// Go down the sections that exist.
	section, names := f.root, strings.Split(c.Path, ".")
	at, indent := f.end, ""
	for section != nil {
		key, node := entry(section, names[0])
		if key == nil {
			break
		}
		indent = strings.Repeat(" ", key.Column-1)
		if len(names) == 1 {
			return f.replace(file, key, node, value)
		}
		if node.Kind == yaml.ScalarNode && node.Tag == "!!null" {
			section, names = nil, names[1:]
			at, indent = f.lineEnd(file, key.Line), indent+"  "
			break
		}
		if node.Kind != yaml.MappingNode || node.Style&yaml.FlowStyle != 0 {
			return nil, fmt.Errorf("line %d: %s is not written with its keys on lines of their own below it", f.fileLine(file, key.Line), names[0])
		}
		section, names = node, names[1:]
		at, indent = f.sectionEnd(file, key), strings.Repeat(" ", node.Content[0].Column-1)
	}
	return slices.Concat(file[:at], []byte(f.written(names, indent, value)), file[at:]), nil
}

// entry is the key with a name, and its value; nil if there is none.
func entry(mapping *yaml.Node, name string) (key, value *yaml.Node) {
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if mapping.Content[i].Value == name {
			return mapping.Content[i], mapping.Content[i+1]
		}
	}
	return nil, nil
}

// written are the lines of a new key, with the sections that it needs.
func (f *front) written(names []string, indent, value string) string {
	var b strings.Builder
	for i, name := range names {
		b.WriteString(indent + name + ":")
		if i == len(names)-1 {
			b.WriteString(" " + value)
		}
		b.WriteString(f.eol)
		indent += "  "
	}
	return b.String()
}

// replace writes a value in the place of the one that is there.
func (f *front) replace(file []byte, key, node *yaml.Node, value string) ([]byte, error) {
	if node.Kind != yaml.ScalarNode || node.Anchor != "" {
		return nil, fmt.Errorf("line %d: there are keys, a list or a mark of YAML's where one value is expected", f.fileLine(file, key.Line))
	}
	if node.Tag == "!!null" && node.Value == "" {
		at := f.offset(file, key.Line, key.Column) + len(key.Value) + len(":")
		return slices.Concat(file[:at], []byte(" "+value), file[at:]), nil
	}
	from := f.offset(file, node.Line, node.Column)
	to, err := f.valueEnd(file, key, node, from)
	if err != nil {
		return nil, err
	}
	return slices.Concat(file[:from], []byte(value), file[to:]), nil
}

// valueEnd is where the value that begins at an offset ends.
func (f *front) valueEnd(file []byte, key, node *yaml.Node, from int) (int, error) {
	switch {
	case node.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		if end := quoteEnd(file[from:f.end]); end > 0 {
			return from + end, nil
		}
		return 0, fmt.Errorf("line %d: the closing quotation mark is not found", f.fileLine(file, key.Line))
	case node.Style == 0 && bytes.HasPrefix(file[from:], []byte(node.Value)):
		return from + len(node.Value), nil
	}
	// The value has several lines: it ends with the last one that is indented below its key.
	return len(bytes.TrimRight(file[:f.sectionEnd(file, key)], "\r\n")), nil
}

// quoteEnd is the length of a value in quotation marks, with both marks; 0 if it never ends.
func quoteEnd(b []byte) int {
	mark := b[0]
	for i := 1; i < len(b); i++ {
		switch {
		case mark == '"' && b[i] == '\\':
			i++
		case b[i] == mark && mark == '\'' && i+1 < len(b) && b[i+1] == mark:
			i++
		case b[i] == mark:
			return i + 1
		}
	}
	return 0
}

// offset is the place in the file of a line and column of the front matter, both from 1. A
// column counts characters.
func (f *front) offset(file []byte, line, column int) int {
	at := f.start
	for range line - 1 {
		at += lineLength(file[at:])
	}
	for range column - 1 {
		_, size := utf8.DecodeRune(file[at:])
		at += size
	}
	return at
}

// lineEnd is the offset after a line of the front matter.
func (f *front) lineEnd(file []byte, line int) int {
	at := f.offset(file, line, 1)
	return at + lineLength(file[at:])
}

// fileLine is the number in the file of a line of the front matter.
func (f *front) fileLine(file []byte, line int) int {
	return bytes.Count(file[:f.start], []byte("\n")) + line
}

// sectionEnd is the offset after the last line that is indented below a key. Blank lines and
// comments after it belong to what comes next.
func (f *front) sectionEnd(file []byte, key *yaml.Node) int {
	end := f.lineEnd(file, key.Line)
	for at := end; at < f.end; {
		next := at + lineLength(file[at:])
		line := string(bytes.TrimRight(file[at:next], "\r\n"))
		text := strings.TrimLeft(line, " ")
		if text != "" && len(line)-len(text) < key.Column {
			break
		}
		if text != "" && text[0] != '#' {
			end = next
		}
		at = next
	}
	return end
}

// plainForm matches values that never need quotation marks; there are others.
var plainForm = regexp.MustCompile(`^[A-Za-z0-9$][A-Za-z0-9$ ,.()'"/-]*$`)

// scalar writes a value so that YAML reads it back as it is, in quotation marks only where
// they are needed.
func scalar(value string) (string, error) {
	if strings.TrimSpace(value) != value || value == "" || strings.ContainsAny(value, "\n\r\t") || !utf8.ValidString(value) {
		return "", fmt.Errorf("%q is not a value for one line", value)
	}
	if plainForm.MatchString(value) && !strings.EqualFold(value, "null") {
		return value, nil
	}
	for _, text := range []string{value, `"` + value + `"`, "'" + strings.ReplaceAll(value, "'", "''") + "'"} {
		var doc yaml.Node
		if yaml.Load([]byte("k: "+text+"\n"), &doc) != nil {
			continue
		}
		m := doc.Content[0]
		if m.Kind == yaml.MappingNode && len(m.Content) == 2 && m.Content[1].Kind == yaml.ScalarNode && m.Content[1].Value == value &&
			m.Content[1].Tag != "!!null" && m.Content[1].LineComment == "" && m.Content[1].Anchor == "" {
			return text, nil
		}
	}
	return "", fmt.Errorf("%q cannot be written as a value", value)
}

// check reads both files and reports a key that differs although no change names it, or that
// has another value than the change says.
func check(before, after []byte, changes []Change) error {
	was, err := Values(before)
	if err != nil {
		return err
	}
	is, err := Values(after)
	if err != nil {
		return err
	}
	for _, c := range changes {
		// A later change of the same key counts.
		was[c.Path] = c.Value
		for i := strings.LastIndexByte(c.Path, '.'); i > 0; i = strings.LastIndexByte(c.Path[:i], '.') {
			delete(was, c.Path[:i]) // the section was empty
		}
	}
	if !maps.Equal(was, is) {
		return errors.New("the change would reach other keys, so nothing is changed; change it by hand")
	}
	return nil
}

// Values are the values of all keys of a file by their paths. Items of lists have numbers.
func Values(file []byte) (map[string]string, error) {
	f, err := parse(file)
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		switch n.Kind {
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				walk(n.Content[i+1], strings.TrimPrefix(path+"."+n.Content[i].Value, "."))
			}
		case yaml.SequenceNode:
			for i, item := range n.Content {
				walk(item, fmt.Sprintf("%s.%d", path, i))
			}
		default:
			out[path] = n.Value
		}
	}
	if f.root != nil {
		walk(f.root, "")
	}
	return out, nil
}
