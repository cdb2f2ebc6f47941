package report

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// How many lines of a screen a build takes for the stops and for what else is new, before it prints them
// shorter. Together with the summary that is what one screen shows.
const (
	mostOfStops = 20
	mostOfNews  = 12
	mostRules   = 6 // of what stops nothing, where even one line for each unit is too much
)

// Told is what a build has to say about the findings.
type Told struct {
	// Program is how the command is called, and From the folder that it was given.
	Program, From string
	// Found is everything, and Fresh what the build before did not find.
	Found, Fresh []inspect.Finding
	// Before reports that there was a build before.
	Before bool
	// Published reports that this build published the site.
	Published bool
	// Quiet leaves out what stops nothing.
	Quiet bool
	// Aside are the files of the units that this build leaves out, or their owner keeps out. What is
	// new of them, and stops nothing, is told when they are published.
	Aside map[string]bool
}

// News prints what a build has to say about the findings. The stops come first: all of them where
// they keep the site from being published, and otherwise those that the build before did not
// have, because the summary names the units that are left out as before. Then comes what was not
// read, and what else is new. What would fill more than a screen is printed shorter.
func News(w io.Writer, t Told) error {
	fresh, stops := apart(t.Fresh)
	if !t.Published || !t.Before {
		_, stops = apart(t.Found)
	}
	if err := t.within(w, stops, mostOfStops); err != nil {
		return err
	}
	if err := t.ignored(w); err != nil || t.Quiet || !t.Published {
		return err
	}
	fresh = slices.DeleteFunc(fresh, func(f inspect.Finding) bool { return f.Rule.Name == unit.FileIgnored || t.Aside[f.Unit] })
	if len(fresh) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(w, "new since the last build:"); err != nil {
		return err
	}
	return t.within(w, fresh, mostOfNews)
}

// ignored prints what was not read or not published: in full when it is new, and then in one line.
func (t *Told) ignored(w io.Writer) error {
	not := func(f inspect.Finding) bool { return f.Rule.Name != unit.FileIgnored || f.Severity == inspect.Stop }
	all, fresh := slices.DeleteFunc(slices.Clone(t.Found), not), slices.DeleteFunc(slices.Clone(t.Fresh), not)
	if !t.Before {
		fresh = all
	}
	if err := Folded(w, fresh); err != nil {
		return err
	}
	var old []string
	why := ""
	for _, f := range all {
		if !slices.ContainsFunc(fresh, func(g inspect.Finding) bool { return g.At == f.At }) {
			old, why = append(old, f.At.File), f.Message
		}
	}
	if len(old) == 0 {
		return nil
	}
	if len(old) > 1 {
		why = "why: " + command(t.Program, "inspect", t.From)
	}
	_, err := fmt.Fprintf(w, "not read or not published, as before: %s; %s\n", some(slices.Compact(old)), Visible(why))
	return err
}

// within prints findings in full if they take no more than so many lines, and otherwise in the
// form that takes the fewest.
func (t *Told) within(w io.Writer, list []inspect.Finding, most int) error {
	if len(list) == 0 {
		return nil
	}
	var best []byte
	forms := []func(io.Writer, []inspect.Finding) error{Folded, byCause, t.byUnit, t.byCount}
	if list[0].Severity == inspect.Stop && !manyFiles(list) {
		forms = forms[:2] // a file's own stops are what its owner works on now
	}
	for _, form := range forms {
		var out bytes.Buffer
		if err := form(&out, list); err != nil {
			return err
		}
		if best == nil || lines(out.Bytes()) < lines(best) {
			best = out.Bytes()
		}
		if lines(best) <= most {
			break
		}
	}
	_, err := w.Write(best)
	return err
}

// manyFiles reports whether more than two files have findings.
func manyFiles(list []inspect.Finding) bool {
	files := map[string]bool{}
	for _, f := range list {
		files[f.At.File] = true
	}
	return len(files) > 2
}

// lines counts the lines of a text as a screen shows it.
func lines(text []byte) (n int) {
	const screen = 120
	for line := range bytes.Lines(text) {
		n += max(1, (utf8.RuneCount(line)+screen-1)/screen)
	}
	return n
}

// byCause prints findings rule by rule, without the other places that they name. What they have in
// common, the source and the fix, is printed once below them.
func byCause(w io.Writer, list []inspect.Finding) error {
	type cause struct{ rule, source, remedy string }
	var order []cause
	groups := map[cause][]fold{}
	for _, g := range folded(list) {
		c := cause{g.first.Rule.Name, g.first.Source, g.first.Remedy}
		if groups[c] == nil {
			order = append(order, c)
		}
		groups[c] = append(groups[c], g)
	}
	for _, c := range order {
		for _, g := range groups[c] {
			if err := g.head(w); err != nil {
				return err
			}
		}
		if _, err := fmt.Fprintf(w, "    %s\n    fix: %s\n", Visible(c.source), Visible(c.remedy)); err != nil {
			return err
		}
	}
	return nil
}

// head prints what is found in one line, with the other units.
func (g *fold) head(w io.Writer) error {
	f, more := &g.first, ""
	if g.more != nil {
		more = " (" + count(len(g.more), "more unit") + ": " + strings.Join(g.names(), ", ") + ")"
	}
	_, err := fmt.Fprintf(w, "%s: %s: %s [%s]%s\n", Visible(f.At.String()), f.Severity, Visible(f.Message), f.Rule.Name, Visible(more))
	return err
}

// byUnit prints one line for each unit, or for units of which the same is found, and how to read
// the rest.
func (t *Told) byUnit(w io.Writer, list []inspect.Finding) error {
	type about struct {
		file string
		says []string
		list []inspect.Finding
	}
	var order []*about
	at := map[string]*about{}
	for _, f := range list {
		file := f.Unit
		if file == "" || !strings.HasSuffix(f.At.File, file) {
			file = f.At.File
		}
		if at[file] == nil {
			at[file] = &about{file: f.At.File}
			order = append(order, at[file])
		}
		at[file].list = append(at[file].list, f)
		at[file].says = append(at[file].says, f.Message)
	}
	same := map[string][]*about{}
	var heads []*about
	for _, a := range order {
		key := digits.ReplaceAllString(strings.Join(a.says, "\x00"), "0")
		if same[key] == nil {
			heads = append(heads, a)
		}
		same[key] = append(same[key], a)
	}
	for _, a := range heads {
		alike := same[digits.ReplaceAllString(strings.Join(a.says, "\x00"), "0")]
		var names []string
		for _, b := range alike[1:] {
			names = append(names, strings.TrimSuffix(path.Base(b.file), ".md"))
		}
		more := ""
		if names != nil {
			more = "; the like in " + t.named(names, list)
		}
		text := joined(a.says)
		if list[0].Severity != inspect.Stop {
			text = clipped(text)
		}
		if _, err := fmt.Fprintf(w, "%s: %s: %s%s\n", Visible(a.file), kinds(a.list), Visible(text), more); err != nil {
			return err
		}
	}
	return t.pointer(w, list)
}

// named are the names of units: all of those with a stop, and the first few with anything else.
func (t *Told) named(names []string, list []inspect.Finding) string {
	if list[0].Severity == inspect.Stop {
		return Visible(strings.Join(names, ", "))
	}
	return some(names)
}

// pointer says how to read findings in full.
func (t *Told) pointer(w io.Writer, list []inspect.Finding) error {
	flag := ""
	if list[0].Severity == inspect.Stop {
		flag = " -quiet"
	}
	_, err := fmt.Fprintf(w, "each with its line and its fix: %s%s\n", command(t.Program, "inspect", t.From), flag)
	return err
}

// byCount prints one line for each rule, and for each message of a stop, the graver and the more
// frequent first, with what it says of the first unit and the names of all. Of what stops nothing it
// prints the first few and counts the rest.
func (t *Told) byCount(w io.Writer, list []inspect.Finding) error {
	groups := map[string][]inspect.Finding{}
	for _, f := range list {
		key := f.Severity.String() + " " + f.Rule.Name
		if f.Severity == inspect.Stop {
			key += " " + digits.ReplaceAllString(f.Message, "0") // nobody may miss one of them
		}
		groups[key] = append(groups[key], f)
	}
	order := slices.SortedFunc(maps.Keys(groups), func(a, b string) int {
		x, y := groups[a], groups[b]
		return cmp.Or(cmp.Compare(x[0].Severity, y[0].Severity), len(y)-len(x), strings.Compare(a, b))
	})
	for i, key := range order {
		found := groups[key]
		if i == mostRules && found[0].Severity != inspect.Stop {
			if _, err := fmt.Fprintf(w, "and %s\n", count(len(order)-i, "more rule")); err != nil {
				return err
			}
			break
		}
		var names []string
		for _, f := range found {
			names = append(names, strings.TrimSuffix(path.Base(f.At.File), ".md"))
		}
		if _, err := fmt.Fprintf(w, "%s: %s [%s] (%s)\n", count(len(found), found[0].Severity.String()), Visible(clipped(found[0].Message)), found[0].Rule.Name, t.named(slices.Compact(names), list)); err != nil {
			return err
		}
	}
	return t.pointer(w, list)
}

// kinds counts findings by severity, as in "2 stops, 1 caution".
func kinds(list []inspect.Finding) string {
	var parts []string
	for _, s := range []inspect.Severity{inspect.Stop, inspect.Caution, inspect.Remark} {
		if n := inspect.Count(list, s); n > 0 {
			parts = append(parts, count(n, s.String()))
		}
	}
	return strings.Join(parts, ", ")
}

// clipped is the beginning of a long line.
func clipped(s string) string {
	const most = 160
	if r := []rune(s); len(r) > most {
		return strings.TrimRight(string(r[:most]), " ;,") + " ..."
	}
	return s
}

// alikes are messages of which a unit often has several, and what joins them in one line.
var alikes = []struct {
	message   *regexp.Regexp
	one, many string
}{
	{regexp.MustCompile(`^(.*) is empty()$`), "%s is empty", "%s are empty"},
	{regexp.MustCompile(`^(.*) is missing()$`), "%s is missing", "%s are missing"},
	{regexp.MustCompile(`^(?:(?:the )?(.*) was only said(?: at [0-9:]+)?:( .*)|[0-9]+ values to read off the [^:]* were only said: (.*))$`), "only said: %s", "only said: %s"},
}

// joined puts messages in one line. Those that are alike are said once: "condition, kind are empty".
func joined(says []string) string {
	var out []string
	for _, a := range alikes {
		var what, rest []string
		for _, s := range says {
			if m := a.message.FindStringSubmatch(s); m != nil {
				what = append(what, strings.Join(m[1:], ""))
			} else {
				rest = append(rest, s)
			}
		}
		says = rest
		switch len(what) {
		case 0:
		case 1:
			out = append(out, fmt.Sprintf(a.one, what[0]))
		default:
			out = append(out, fmt.Sprintf(a.many, strings.Join(what, ", ")))
		}
	}
	return strings.Join(append(out, says...), "; ")
}
