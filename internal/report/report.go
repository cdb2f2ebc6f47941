// Package report prints what was found: findings as text, figures and findings as
// JSON, the explanation of a rule. It decides nothing: the exit status never depends
// on the form of the output.
package report

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
)

// Findings prints each finding as
//
//	file:line:column: stop: message [rule]
//	    file:line:column: what is there
//	    source
//	    fix: remedy
//
// What is found about one file takes at most mostAboutOne bytes. Stops are printed before
// anything else is, and what is not printed is counted.
func Findings(w io.Writer, list []inspect.Finding) error {
	shown, hidden := shorten(list)
	for _, f := range shown {
		if err := printFinding(w, &f); err != nil {
			return err
		}
	}
	for _, line := range hidden {
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// mostAboutOne is how many bytes are printed about one file. Nobody reads more.
const mostAboutOne = 56_000

// shorten leaves out what is too much about one file, and says of each file how much that is.
func shorten(list []inspect.Finding) (shown []inspect.Finding, hidden []string) {
	bytes, total := map[string]int{}, 0
	size := func(f *inspect.Finding) int {
		n := len(f.At.String()) + len(f.Message) + len(f.Source) + len(f.Remedy) + 80
		for _, r := range f.Related {
			n += len(r.At.String()) + len(r.What) + 8
		}
		return n
	}
	for i := range list {
		total += size(&list[i])
	}
	if total <= mostAboutOne {
		return list, nil
	}
	keep := make([]bool, len(list))
	left := map[string]map[inspect.Severity]int{}
	for _, stops := range []bool{true, false} {
		for i := range list {
			f := &list[i]
			if (f.Severity == inspect.Stop) != stops {
				continue
			}
			if keep[i] = bytes[f.At.File]+size(f) <= mostAboutOne; keep[i] {
				bytes[f.At.File] += size(f)
				continue
			}
			if left[f.At.File] == nil {
				left[f.At.File] = map[inspect.Severity]int{}
			}
			left[f.At.File][f.Severity]++
		}
	}
	for i := range list {
		if keep[i] {
			shown = append(shown, list[i])
		}
	}
	for _, file := range slices.Sorted(maps.Keys(left)) {
		n := left[file]
		hidden = append(hidden, fmt.Sprintf("%s: not printed, because there are too many: %s, %s and %s more; fix the ones above first",
			Visible(file), count(n[inspect.Stop], "stop"), count(n[inspect.Caution], "caution"), count(n[inspect.Remark], "remark")))
	}
	return shown, hidden
}

// printFinding prints one finding.
func printFinding(w io.Writer, f *inspect.Finding) error {
	if _, err := fmt.Fprintf(w, "%s: %s: %s [%s]\n", Visible(f.At.String()), f.Severity, Visible(f.Message), f.Rule.Name); err != nil {
		return err
	}
	for _, r := range f.Related {
		if _, err := fmt.Fprintf(w, "    %s: %s\n", Visible(r.At.String()), Visible(r.What)); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "    %s\n    fix: %s\n", Visible(f.Source), Visible(f.Remedy))
	return err
}

// Stops prints the findings that stop a unit. What is the same in several units is printed once.
func Stops(w io.Writer, list []inspect.Finding) error {
	return Folded(w, slices.DeleteFunc(slices.Clone(list), func(f inspect.Finding) bool { return f.Severity != inspect.Stop }))
}

// Visible writes what a terminal would obey or hide as the escape that Go writes for it: a
// file may be named with an escape sequence, a line end or a mark that turns the text
// round (UAX 9), and a finding names the file.
func Visible(s string) string {
	if utf8.ValidString(s) && strings.IndexFunc(s, hidden) < 0 {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		c, size := utf8.DecodeRuneInString(s)
		switch {
		case c == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, "\\x%02x", s[0])
		case hidden(c):
			b.WriteString(strings.Trim(strconv.QuoteRuneToASCII(c), "'"))
		default:
			b.WriteRune(c)
		}
		s = s[size:]
	}
	return b.String()
}

// hidden are the controls, the marks that turn text round, and what no font shows.
func hidden(c rune) bool { return c != ' ' && !unicode.IsPrint(c) && !unicode.Is(unicode.Zs, c) }

// Rule prints what a rule asks and why, with its failing example and what that gives.
func Rule(w io.Writer, r *inspect.Rule) error {
	ex, err := inspect.ExampleOf(r)
	if err != nil {
		return err
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n%s\n\nwhy     %s\nsource  %s\nremedy  %s\n", r.Name, r.Severity, r.Title, r.Why, r.Source, r.Remedy)
	fmt.Fprintf(&b, "\nFor example, %s:\n\n", ex.Title)
	for _, file := range ex.Files {
		fmt.Fprintf(&b, "  %s\n", file.Name)
		if file.Binary {
			fmt.Fprintf(&b, "  | (a file of %d bytes)\n\n", len(file.Text))
			continue
		}
		for _, line := range strings.Split(strings.TrimRight(file.Text, "\n"), "\n") {
			fmt.Fprintf(&b, "  | %s\n", line)
		}
		b.WriteString("\n")
	}
	b.WriteString("gives\n\n")
	var found strings.Builder
	if err := Findings(&found, ex.Findings); err != nil {
		return err
	}
	for _, line := range strings.Split(strings.TrimRight(found.String(), "\n"), "\n") {
		fmt.Fprintf(&b, "  %s\n", line)
	}
	_, err = io.WriteString(w, b.String())
	return err
}

// Rules lists every rule with its title, by severity.
func Rules(w io.Writer) error {
	for _, s := range []inspect.Severity{inspect.Stop, inspect.Caution, inspect.Remark} {
		var rules []*inspect.Rule
		for _, r := range inspect.All {
			if r.Severity == s {
				rules = append(rules, r)
			}
		}
		sort.Slice(rules, func(i, j int) bool { return rules[i].Name < rules[j].Name })
		for _, r := range rules {
			if _, err := fmt.Fprintf(w, "%-8s %-22s %s\n", s, r.Name, r.Title); err != nil {
				return err
			}
		}
	}
	return nil
}

// figureNames lists the names of a unit's figures in their own order.
func figureNames(w *compute.Work) []string {
	var out []string
	for i := range w.Figures {
		out = append(out, w.Figures[i].Name)
	}
	return out
}
