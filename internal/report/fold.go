package report

import (
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"

	"tarepage/internal/inspect"
)

// leastFolded is how many units one finding has to be about before it is printed once for all of
// them. mostNamed is how many of them are named.
const (
	leastFolded = 3
	mostNamed   = 100
)

// A fold is one finding with the other units of which the same is found.
type fold struct {
	first inspect.Finding
	more  []string // qt-102 (14,000 lb)
	// varied reports that the numbers in the messages differ.
	varied bool
}

var digits = regexp.MustCompile(`[0-9]+`)

// alike is what findings have in common that are printed as one: everything but the place and,
// where the finding names its number, the numbers of the message. What is found in a model's file
// has its place in common too, because that is what to change.
func alike(f *inspect.Finding) string {
	message, place := f.Message, path.Dir(f.At.File)
	if !strings.HasSuffix(f.At.File, f.Unit) {
		place = f.At.String()
	}
	if f.Value != "" {
		message = digits.ReplaceAllString(message, "0")
	}
	return strings.Join([]string{f.Rule.Name, f.Severity.String(), place, message, f.Source, f.Remedy}, "\x00")
}

// folded puts findings together that say the same of several units: a fresh sheet lacks the same
// thing in each of sixty rows, and nobody reads that sixty times.
func folded(list []inspect.Finding) []fold {
	units := map[string]map[string]bool{}
	for i := range list {
		key := alike(&list[i])
		if units[key] == nil {
			units[key] = map[string]bool{}
		}
		units[key][list[i].Unit] = true
	}
	var out []fold
	at := map[string]int{}
	for i := range list {
		f := &list[i]
		key := alike(f)
		first, seen := at[key]
		if !seen || len(units[key]) < leastFolded {
			at[key] = len(out)
			out = append(out, fold{first: *f})
			continue
		}
		name := strings.TrimSuffix(path.Base(f.Unit), ".md")
		if f.Value != "" {
			name += " (" + f.Value + ")"
		}
		g := &out[first]
		g.more = append(g.more, name)
		g.varied = g.varied || f.Message != g.first.Message
	}
	return out
}

// Folded prints findings like Findings. One that is found of three units or more is printed once,
// with the names of the others.
func Folded(w io.Writer, list []inspect.Finding) error {
	shown, hidden := shorten(list)
	for _, g := range folded(shown) {
		if err := g.print(w); err != nil {
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

func (g *fold) print(w io.Writer) error {
	f := &g.first
	if g.more == nil {
		return printFinding(w, f)
	}
	names, same, rest := g.names(), "the same, with another number, in", ""
	if !g.varied {
		same = "the same in"
	}
	if len(names) > mostNamed {
		rest = fmt.Sprintf(" and %d more, which inspect lists", len(names)-mostNamed)
		names = names[:mostNamed]
	}
	_, err := fmt.Fprintf(w, "%s: %s: %s [%s]\n    %s %s: %s%s\n    %s\n    fix: %s\n", Visible(f.At.String()), f.Severity, Visible(f.Message), f.Rule.Name,
		same, count(len(g.more), "more unit"), Visible(strings.Join(names, ", ")), rest, Visible(f.Source), Visible(f.Remedy))
	return err
}

// names are the other units, with their numbers where those differ.
func (g *fold) names() []string {
	names := slices.Clone(g.more)
	for i := range names {
		if !g.varied {
			names[i], _, _ = strings.Cut(names[i], " (")
		}
	}
	return names
}
