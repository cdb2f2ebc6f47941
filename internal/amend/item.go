package amend

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// AddItem adds an item to the end of a list in a file: keys with values, one on each line after
// the dash. A list that is missing is added at the end of the front matter. Every other byte
// stays as it is.
func AddItem(file []byte, list string, item []Change) ([]byte, error) {
	f, err := parse(file)
	if err != nil {
		return nil, err
	}
	at, indent, head, n := f.end, "  ", list+":"+f.eol, 0
	if f.root != nil {
		if key, node := entry(f.root, list); key != nil {
			head = ""
			switch {
			case node.Kind == yaml.ScalarNode && node.Tag == "!!null" && node.Value == "":
				at = f.lineEnd(file, key.Line)
			case node.Kind == yaml.SequenceNode && node.Style&yaml.FlowStyle == 0 && node.Anchor == "":
				at, indent, n = f.listEnd(file, node), strings.Repeat(" ", node.Column-1), len(node.Content)
			default:
				return nil, fmt.Errorf("line %d: %s is not a list with a dash in front of each item", f.fileLine(file, key.Line), list)
			}
		}
	}
	var b strings.Builder
	b.WriteString(head)
	want, err := Values(file)
	if err != nil {
		return nil, err
	}
	delete(want, list) // a list without an item reads as an empty value
	for i, c := range item {
		value, err := scalar(c.Value)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Path, err)
		}
		mark := "- "
		if i > 0 {
			mark = "  "
		}
		b.WriteString(indent + mark + c.Path + ": " + value + f.eol)
		want[fmt.Sprintf("%s.%d.%s", list, n, c.Path)] = c.Value
	}
	out := slices.Concat(file[:at], []byte(b.String()), file[at:])
	if is, err := Values(out); err != nil || !maps.Equal(is, want) {
		return nil, errors.New("the item would reach other keys, so nothing is changed; add it by hand")
	}
	return out, nil
}

// listEnd is the offset after the last line of a list. Its dashes may begin in the column of
// its key.
func (f *front) listEnd(file []byte, list *yaml.Node) int {
	end := f.offset(file, list.Line, 1)
	for at := end; at < f.end; {
		next := at + lineLength(file[at:])
		line := strings.TrimRight(string(file[at:next]), "\r\n")
		text := strings.TrimLeft(line, " ")
		column := len(line) - len(text) + 1
		if text != "" && text[0] != '#' && column <= list.Column && (column < list.Column || text[0] != '-') {
			break
		}
		if text != "" && text[0] != '#' {
			end = next
		}
		at = next
	}
	return end
}
