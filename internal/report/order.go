package report

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"path"
	"path/filepath"
	"slices"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// The ways in which Inspection groups findings.
const (
	ByUnit = "unit"
	ByRule = "rule"
)

// Inspection prints every finding, by unit or by rule. Stops come last, because that is
// where the owner looks when it is done.
func Inspection(w io.Writer, list []inspect.Finding, by string) error {
	others, stops := apart(list)
	if by == ByRule {
		return errors.Join(byRule(w, others), byRule(w, stops))
	}
	return Findings(w, append(others, stops...))
}

// apart are the findings that stop nothing, and those that do, each in their own order.
func apart(list []inspect.Finding) (others, stops []inspect.Finding) {
	for _, f := range list {
		if f.Severity == inspect.Stop {
			stops = append(stops, f)
		} else {
			others = append(others, f)
		}
	}
	return others, stops
}

// byRule prints the findings under the names of their rules.
func byRule(w io.Writer, list []inspect.Finding) error {
	groups := map[string][]inspect.Finding{}
	for _, f := range list {
		groups[f.Rule.Name] = append(groups[f.Rule.Name], f)
	}
	for _, name := range slices.Sorted(maps.Keys(groups)) {
		found := groups[name]
		if _, err := fmt.Fprintf(w, "%s, %d found: %s\n", name, len(found), found[0].Rule.Title); err != nil {
			return err
		}
		if err := Folded(w, found); err != nil {
			return err
		}
	}
	return nil
}

// Quiet prints the stops, and what was not read or left out: that has to be said always.
func Quiet(w io.Writer, list []inspect.Finding) error {
	return Folded(w, slices.DeleteFunc(slices.Clone(list), func(f inspect.Finding) bool {
		return f.Severity != inspect.Stop && f.Rule.Name != unit.FileIgnored
	}))
}

// Under names the files of findings as the owner opens them: below the folder that the
// command was given.
func Under(from string, list []inspect.Finding) []inspect.Finding {
	if from == "" || from == "." {
		return list
	}
	below := func(p unit.Pos) unit.Pos {
		if p.File != "" {
			p.File = path.Join(filepath.ToSlash(from), p.File)
		}
		return p
	}
	out := slices.Clone(list)
	for i := range out {
		out[i].At = below(out[i].At)
		out[i].Related = slices.Clone(out[i].Related)
		for j := range out[i].Related {
			out[i].Related[j].At = below(out[i].Related[j].At)
		}
	}
	return out
}
