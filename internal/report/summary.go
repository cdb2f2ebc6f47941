package report

import (
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/stockfile"
)

// Numbers counts what was looked at and found.
type Numbers struct {
	Units, Stops, Cautions, Remarks int
	// Stopped is how many units have a stop. All reports that a stop concerns every unit, such as
	// one in content/yard.md.
	Stopped int
	All     bool
	// Others counts the cautions and remarks by rule, the most frequent first.
	Others []RuleCount
	// Rule is the rule that stops most often, for the hint after the summary.
	Rule string
	// Program is how the command is called, for the same hint, and From the folder that it
	// was given.
	Program, From string
}

// unitsDir is in the path of each unit's file.
const unitsDir = "content/units/"

// RuleCount is how often a rule found something.
type RuleCount struct {
	Rule  string
	Count int
}

// Tally counts the findings. The program is how the command is called, and from is the
// folder that it was given.
func Tally(program, from string, units int, list []inspect.Finding) Numbers {
	n := Numbers{
		Program: program, From: from, Units: units, Stops: inspect.Count(list, inspect.Stop),
		Cautions: inspect.Count(list, inspect.Caution), Remarks: inspect.Count(list, inspect.Remark),
	}
	most, others, stopped := map[string]int{}, map[string]int{}, map[string]bool{}
	for _, f := range list {
		if f.Severity != inspect.Stop {
			others[f.Rule.Name]++
			continue
		}
		stopped[f.Unit] = true
		n.All = n.All || !strings.Contains(f.Unit, unitsDir)
		most[f.Rule.Name]++
		if most[f.Rule.Name] > most[n.Rule] {
			n.Rule = f.Rule.Name
		}
	}
	n.Stopped = len(stopped)
	for _, rule := range slices.Sorted(maps.Keys(others)) {
		n.Others = append(n.Others, RuleCount{rule, others[rule]})
	}
	slices.SortStableFunc(n.Others, func(a, b RuleCount) int { return b.Count - a.Count })
	return n
}

// others prints one line with the cautions and remarks by rule, and how to read them.
func (n Numbers) others(w io.Writer) {
	if len(n.Others) == 0 {
		return
	}
	const most = 6
	var names []string
	for i, r := range n.Others {
		if i == most {
			names = append(names, count(len(n.Others)-most, "more rule"))
			break
		}
		names = append(names, fmt.Sprintf("%s %d", r.Rule, r.Count))
	}
	fmt.Fprintf(w, "cautions and remarks: %s; to read them: %s\n", strings.Join(names, ", "), n.command("inspect"))
}

// command is how a verb is called for the same yard.
func (n Numbers) command(verb string) string { return command(n.Program, verb, n.From) }

// command is how a verb of a program is called for a yard in a folder.
func command(program, verb, from string) string {
	if from == "." || from == "" {
		return program + " " + verb
	}
	return program + " " + verb + " -from " + shellWord(from)
}

// shellWord quotes a word that a shell would split.
func shellWord(s string) string {
	if strings.ContainsAny(s, " '\"$&()*;<>?[]`|~#") {
		return strconv.Quote(s)
	}
	return Visible(s)
}

// Site describes the site that was built.
type Site struct {
	Pages                       int
	To                          string
	Written, Unchanged, Removed int
	// Address is where the site is published, as content/yard.md says; empty if it does not.
	Address string
	// Example reports that the site has nothing but the example of a first yard.
	Example bool
	// Undated are the stock numbers of which the feeds tell nothing, for no day is stated, and
	// Unsaid those that are offered otherwise than before, with no later day.
	Undated, Unsaid []string
	// LeftOut are the stock numbers that -leave-out kept out.
	LeftOut []string
	// NewlyOut are those of them that the build before did not leave out, and Withheld those that
	// their owner keeps out.
	NewlyOut, Withheld []string
	// Before reports that there was a build before.
	Before bool
	// Instead is the site that the yard has in a folder of its own, where this one went elsewhere.
	Instead string
	// Moves are what changes for customers; nil if there was no site before.
	Moves *stockfile.Moves
}

func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

func (n Numbers) found() string {
	return count(n.Stops, "stop") + ", " + count(n.Cautions, "caution") + ", " + count(n.Remarks, "remark")
}

func seconds(d time.Duration) string { return fmt.Sprintf("%.2f s", d.Seconds()) }

// Inspected prints the summary of an inspection.
func Inspected(w io.Writer, n Numbers, took time.Duration) {
	fmt.Fprintf(w, "%s inspected: %s, in %s; nothing written\n", count(n.Units, "unit"), n.found(), seconds(took))
	if n.Rule != "" {
		fmt.Fprintf(w, "why a unit is refused: %s rule %s\n", n.Program, n.Rule)
	}
}

// Shown prints the summary of a site that the showroom shows.
func Shown(w io.Writer, n Numbers, took time.Duration) {
	fmt.Fprintf(w, "%s: %s, in %s\n", count(n.Units, "unit"), n.found(), seconds(took))
}

// Opened prints where the showroom is open, and to whom. The addresses of others have the key.
func Opened(w io.Writer, here, others []string) {
	for _, a := range here {
		fmt.Fprintf(w, "the showroom is open at %s\n", a)
	}
	for _, a := range others {
		fmt.Fprintf(w, "on a phone in the same network, scan the code below or open: %s\n", a)
	}
	if len(others) > 0 {
		// If the address makes no code, people can still read it above.
		if code, err := phoneCode(others[0]); err == nil {
			fmt.Fprint(w, code)
		}
		fmt.Fprintln(w, "whoever has this address can look at the yard and change it, until you end the showroom; the next time it has another key")
		fmt.Fprintln(w, "what a phone sends is not encrypted: use a network with a password that you trust")
	}
	fmt.Fprintln(w, "everything found: /showroom/findings; to end it: Ctrl-C")
}

// Refused prints the summary of a build that published nothing.
func Refused(w io.Writer, n Numbers, to string, took time.Duration) {
	fmt.Fprintf(w, "%s, %s, in %s: nothing published, %s is as it was\n",
		count(n.Units, "unit"), n.found(), seconds(took), filepath.ToSlash(to))
	n.others(w)
	fmt.Fprintf(w, "why: %s rule %s\n", n.Program, n.Rule)
	if ready := n.Units - n.Stopped; ready > 0 && !n.All {
		fmt.Fprintf(w, "to publish the %s without a stop meanwhile, add -leave-out\n", count(ready, "unit"))
	}
}

// Built prints the summary of a site that was published.
func Built(w io.Writer, n Numbers, s Site, took time.Duration) {
	fmt.Fprintf(w, "%s on %s: %s, in %s\n", count(n.Units, "unit"), count(s.Pages, "page"), n.found(), seconds(took))
	n.others(w)
	n.LeftOut(w, s)
	if len(s.Withheld) > 0 {
		fmt.Fprintf(w, "withheld, as their files say: %s\n", Visible(strings.Join(s.Withheld, ", ")))
	}
	s.world(w)
	s.moved(w)
	changed := count(s.Written, "file") + " written"
	if s.Written == 0 && s.Removed == 0 {
		changed = "nothing changed"
	}
	if s.Removed > 0 {
		changed += ", " + fmt.Sprint(s.Removed) + " removed"
	}
	fmt.Fprintf(w, "%s, %d as before\n", changed, s.Unchanged)
	fmt.Fprintf(w, "open %s\n", filepath.ToSlash(filepath.Join(s.To, "index.html")))
	if s.Instead != "" {
		own := shellWord(filepath.ToSlash(s.Instead))
		fmt.Fprintf(w, "without -to, the site went into %s; the yard has another in %s, which is as it was: to build that one, add -to %s\n", filepath.ToSlash(s.To), own, own)
	}
}

// LeftOut prints which units were left out, the new ones first, and how to read why.
func (n Numbers) LeftOut(w io.Writer, s Site) {
	if len(s.LeftOut) == 0 {
		return
	}
	var parts []string
	if len(s.NewlyOut) > 0 {
		parts = append(parts, fmt.Sprintf("%d new: %s", len(s.NewlyOut), strings.Join(s.NewlyOut, ", ")))
	}
	before := slices.DeleteFunc(slices.Clone(s.LeftOut), func(name string) bool { return slices.Contains(s.NewlyOut, name) })
	why := ""
	switch {
	case !s.Before:
		parts = append(parts, strings.Join(before, ", "))
	case len(before) > 0:
		parts = append(parts, fmt.Sprintf("%d as before: %s", len(before), strings.Join(before, ", ")))
		why = "; why: " + n.command("inspect") + " -quiet"
	}
	fmt.Fprintf(w, "left out for their stops: %s%s\n", Visible(strings.Join(parts, "; ")), why)
}

// moved prints what customers find changed.
func (s Site) moved(w io.Writer) {
	if s.Moves == nil {
		return
	}
	m := s.Moves
	var parts []string
	for _, part := range []struct {
		stocks []string
		what   string
	}{
		{m.New, "new"},
		{m.Sold, "sold"},
		{priceWords(m.Prices), "with another price"},
		{m.Offers, "with another availability"},
		{m.Gone, "no longer listed"},
	} {
		if len(part.stocks) > 0 {
			parts = append(parts, fmt.Sprintf("%d %s (%s)", len(part.stocks), part.what, firstOf(part.stocks, 25)))
		}
	}
	for _, j := range m.Jumps {
		fmt.Fprintf(w, "caution: the price of %s went from %s to %s; if a digit is wrong, correct the line price: and build again\n", Visible(j.Stock), j.From, j.To)
	}
	if parts == nil {
		return
	}
	fmt.Fprintf(w, "on the site: %s, %d as before\n", strings.Join(parts, ", "), m.AsBefore)
}

// priceWords are the stock numbers of changed prices, each with the price of before and of now.
func priceWords(list []stockfile.PriceMove) (out []string) {
	for _, p := range list {
		out = append(out, fmt.Sprintf("%s %s -> %s", p.Stock, p.From, p.To))
	}
	return out
}

// world prints what the site leaves out for other programs, and how to add it.
func (s Site) world(w io.Writer) {
	if s.Example {
		fmt.Fprintln(w, "this is the example: its pages say EXAMPLE, search engines leave them out, and there are no feeds; your first own unit takes its place")
		return
	}
	if s.Address == "" {
		fmt.Fprintln(w, "no address: in content/yard.md, so without what names whole addresses: canonical links, pictures of shared links, feeds, sitemap, robots.txt, the lot sheet's QR code")
		return
	}
	// Robots look at the root of a host only: RFC 9309, 2.3.
	if strings.Count(s.Address, "/") > len("//")+1 {
		host, _, _ := strings.Cut(strings.TrimPrefix(s.Address, "https://"), "/")
		fmt.Fprintf(w, "no robots.txt, which is read at a host's root only; in that of https://%s/ this line would lead to the sitemap: Sitemap: %ssitemap.xml\n", host, s.Address)
	}
	if len(s.Undated) > 0 {
		fmt.Fprintf(w, "not in the feeds, for no day is stated: %s; write arrived: with the day\n", some(s.Undated))
	}
	if len(s.Unsaid) > 0 {
		fmt.Fprintf(w, "another price or availability than before, but no later day, so the feeds do not report it: %s; correct the day after it, or leave that out and bring as-of in content/yard.md up to date\n", some(s.Unsaid))
	}
}

// some names the first few of many.
func some(list []string) string { return firstOf(list, 8) }

func firstOf(list []string, most int) string {
	more := ""
	if len(list) > most {
		more = fmt.Sprintf(" and %d more", len(list)-most)
		list = list[:most]
	}
	return Visible(strings.Join(list, ", ")) + more
}
