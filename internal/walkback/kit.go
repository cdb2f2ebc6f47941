package walkback

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// The answers to an item of equipment.
const (
	comes   = "comes with it"        // it is on the trailer
	ordered = "can be ordered"       // it is not on it, and can be had
	struck  = "take it off the list" // it is neither
)

// kitLists are the lists of equipment, with the answer that keeps an item in its list.
var kitLists = []struct {
	key, keep string
	of        func(*unit.Unit) []unit.Text
}{
	{"standard", comes, func(u *unit.Unit) []unit.Text { return u.Standard }},
	{"options", ordered, func(u *unit.Unit) []unit.Text { return u.Options }},
}

// kit is the station of what comes with the trailer: a line for each item of its own file. Those
// that were only said are open, until somebody keeps or strikes each.
func kit(u *unit.Unit, lines []string) Station {
	s := Station{Name: "kit", Open: []Line{}, Rest: []Line{}}
	for _, list := range kitLists {
		for _, t := range list.of(u) {
			if t.Pos.File != u.File {
				continue // the model's
			}
			l := Line{Key: list.key + "." + t.Value, Name: t.Value + ":", Ask: t.Value, Example: list.keep, Box: asChoice,
				Choices: []string{list.keep, struck}, Now: list.keep, From: t.From.String(), Own: t.Raw, State: Known}
			if t.From.Origin == measure.Said {
				l.State, l.Said = OnlySaid, said(lines, int(t.Pos.Line))
				s.Open = append(s.Open, l)
			} else {
				s.Rest = append(s.Rest, l)
			}
		}
	}
	return s
}

// reviseKit keeps or strikes an item of equipment, if the answer is about one. A kept item loses
// the note that it was only said; a struck one loses its line.
func reviseKit(file []byte, a Answer) ([]byte, Outcome, bool) {
	list, name, _ := strings.Cut(a.Key, ".")
	i := slices.IndexFunc(kitLists, func(l struct {
		key, keep string
		of        func(*unit.Unit) []unit.Text
	}) bool {
		return l.key == list
	})
	if i < 0 || name == "" {
		return file, Outcome{}, false
	}
	o := Outcome{Key: a.Key, Outcome: Refused, Written: a.Value, Own: a.Own}
	if a.Value != kitLists[i].keep && a.Value != struck {
		o.Reason = fmt.Sprintf("choose %q or %q", kitLists[i].keep, struck)
		return file, o, true
	}
	items := func(file []byte) []unit.Text {
		u, _ := unit.ReadUnit("unit", file)
		return kitLists[i].of(u)
	}
	was := items(file)
	n := slices.IndexFunc(was, func(t unit.Text) bool { return t.Value == name })
	switch {
	case n < 0 && a.Value == struck:
		o.Outcome = Taken // it arrived before
		return file, o, true
	case n < 0:
		o.Reason = "somebody took it off the list meanwhile; add it at the desk if it is there"
		return file, o, true
	case a.Value != struck && was[n].From.Origin != measure.Said:
		o.Outcome = Taken
		return file, o, true
	}
	want := slices.Clone(was)
	if a.Value == struck {
		want = slices.Delete(want, n, n+1)
	} else {
		want[n].From = measure.Provenance{}
	}
	out := withoutItem(file, int(was[n].Pos.Line), a.Value == struck, len(was) == 1)
	same := func(x, y unit.Text) bool { return x.Value == y.Value && x.From == y.From }
	if out == nil || !slices.EqualFunc(items(out), want, same) {
		o.Reason = "it is not on a line of its own after a dash; change it at the desk"
		return file, o, true
	}
	o.Outcome = Taken
	return out, o, true
}

// withoutItem is the file without the item's line, or without the note on it. Of the last item,
// the key of the list, one line above, goes too. It is nil where the line is not an item's.
func withoutItem(file []byte, line int, strike, last bool) []byte {
	lines := bytes.SplitAfter(file, []byte("\n"))
	if line < 1 || line > len(lines) || !bytes.HasPrefix(bytes.TrimLeft(lines[line-1], " "), []byte("- ")) {
		return nil
	}
	from := line - 1
	switch {
	case strike && last:
		for from--; from >= 0 && bytes.HasPrefix(bytes.TrimLeft(lines[from], " "), []byte("#")); from-- {
		}
		if from < 0 || !bytes.Contains(lines[from], []byte(":")) {
			return nil
		}
		return bytes.Join(slices.Concat(lines[:from], lines[line:]), nil)
	case strike:
		return bytes.Join(slices.Concat(lines[:from], lines[line:]), nil)
	}
	head, rest, found := bytes.Cut(lines[from], []byte(" (said"))
	_, rest, closed := bytes.Cut(rest, []byte(")"))
	if !found || !closed {
		return nil
	}
	changed := slices.Clone(lines)
	changed[from] = slices.Concat(head, rest)
	return bytes.Join(changed, nil)
}
