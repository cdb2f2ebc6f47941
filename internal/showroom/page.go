package showroom

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/inspect"
)

//go:embed pages.html
var pagesText string

var pages = template.Must(template.New("showroom").Parse(pagesText))

// ownPolicy is the policy of the showroom's own pages.
var ownPolicy = "default-src 'none'; img-src data:; style-src " + hash(style) + "; script-src " + hash(script) +
	"; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// view is what the templates show.
type view struct {
	Style    template.CSS
	Heading  string
	Text     string
	Words    string
	Open     bool              // the panel shows its stops at once, and folds the rest
	Stops    []inspect.Finding // in the panel only; elsewhere they are among the findings
	Findings []inspect.Finding
	Groups   []group
	Before   string // the pages of findings before and after this one
	After    string
	Walk     string // the page on which the unit is confirmed, or the list of them
}

// group is what was found about one file.
type group struct {
	Name, Link string
	Findings   []inspect.Finding
}

// run fills in a template. The templates are part of the program, and the tests run each of
// them: one that fails is a programming error.
func run(name string, v view) []byte {
	v.Style = template.CSS(style)
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, v); err != nil {
		return []byte(template.HTMLEscapeString(err.Error()))
	}
	return b.Bytes()
}

// panel is what the showroom shows at the top of a page: what was found about its unit, and
// on the yard's front page what was found about everything that has no page.
func (s *Site) panel(page string) []byte {
	var found []inspect.Finding
	file, isUnit := s.Units[page]
	switch {
	case isUnit:
		for _, f := range s.Findings {
			if f.Unit == file {
				found = append(found, f)
			}
		}
		if len(found) == 0 {
			return nil
		}
	case page != front || len(s.Findings) == 0:
		return nil
	default:
		found = s.homeless()
	}
	var stops, others []inspect.Finding
	for _, f := range found {
		if f.Severity == inspect.Stop {
			stops = append(stops, f)
		} else {
			others = append(others, f)
		}
	}
	heading := "Showroom: " + tally(s.Findings) + " in the whole yard"
	if isUnit {
		heading = "Showroom: " + tally(found)
		if len(stops) > 0 {
			heading += "; this unit is not published until you fix the stops"
		}
	}
	return run("panel", view{Heading: heading, Words: tally(others), Open: len(stops) > 0, Stops: first(stops), Findings: first(others), Walk: walkOf(file)})
}

// walkOf is the page on which a unit is confirmed; of the front page, which has no unit's file,
// the list of them.
func walkOf(file string) string {
	if file == "" {
		return WalkPath
	}
	return WalkPath + "/" + url.PathEscape(strings.TrimSuffix(path.Base(file), ".md"))
}

// tells reports whether a stop says why a unit's file has no page.
func (s *Site) tells(file string) bool {
	return slices.ContainsFunc(s.Findings, func(f inspect.Finding) bool {
		return f.Unit == file && f.Severity == inspect.Stop
	})
}

// over is the panel of a page that was made before: it says why there is no newer one.
func (s *state) over(file string) []byte {
	const before = "; below is the page as it was before"
	if s.err != nil {
		return run("panel", view{Heading: "Showroom: the site cannot be made" + before, Text: s.err.Error(), Open: true})
	}
	var stops, others []inspect.Finding
	for _, f := range s.site.Findings {
		switch {
		case f.Unit != file:
		case f.Severity == inspect.Stop:
			stops = append(stops, f)
		default:
			others = append(others, f)
		}
	}
	return run("panel", view{Heading: "Showroom: " + tally(stops) + before, Words: tally(others), Open: true, Stops: first(stops), Findings: first(others), Walk: walkOf(file)})
}

// homeless are the findings about what has no page: the yard's own file, a model, a unit
// that cannot be read.
func (s *Site) homeless() []inspect.Finding {
	has := map[string]bool{}
	for _, file := range s.Units {
		has[file] = true
	}
	var out []inspect.Finding
	for _, f := range s.Findings {
		if !has[f.Unit] {
			out = append(out, f)
		}
	}
	return out
}

// onePage is how many findings a page shows.
const onePage = 200

// findings is one page of what was found, file by file. The number comes from the address;
// anything that is not the number of a page means the first page.
func (s *Site) findings(number string) []byte {
	pages := max(1, (len(s.Findings)+onePage-1)/onePage)
	page, err := strconv.Atoi(number)
	if err != nil || page < 1 || page > pages {
		page = 1
	}
	list := s.Findings[min((page-1)*onePage, len(s.Findings)):min(page*onePage, len(s.Findings))]
	v := view{Heading: "Everything found: " + tally(s.Findings), Groups: s.grouped(list)}
	if len(s.Findings) == 0 {
		v.Heading, v.Words = "Nothing found", "Every unit adds up."
	}
	if pages > 1 {
		v.Words = fmt.Sprintf("Page %d of %d.", page, pages)
	}
	if page > 1 {
		v.Before = fmt.Sprintf("%s?page=%d", findingsPath, page-1)
	}
	if page < pages {
		v.After = fmt.Sprintf("%s?page=%d", findingsPath, page+1)
	}
	return run("page", v)
}

// first is as many findings as a panel shows; the page of findings has the rest.
func first(list []inspect.Finding) []inspect.Finding { return list[:min(len(list), onePage/2)] }

// missing is the page for an address that leads nowhere. A unit that can no longer be read
// has no page either, so this page says what is wrong with such units.
func (s *Site) missing(path string) []byte {
	v := view{Heading: "No page here", Text: path, Findings: s.Findings}
	if home := s.homeless(); inspect.Count(home, inspect.Stop) > 0 {
		v.Words = "No page was made from these files; perhaps you are looking for one of theirs."
		v.Groups = s.grouped(first(home))
	}
	return run("page", v)
}

// broken is the page for a site that could not be made.
func broken(err error) []byte {
	return run("page", view{Heading: "The site could not be made", Text: err.Error(),
		Words: "Fix it and save: this page reloads by itself."})
}

// grouped puts findings together by the unit that they concern, in their order.
func (s *Site) grouped(list []inspect.Finding) []group {
	pages := map[string]string{}
	for path, file := range s.Units {
		pages[file] = "/" + path
	}
	var out []group
	at := map[string]int{}
	for _, f := range list {
		i, ok := at[f.Unit]
		if !ok {
			i = len(out)
			at[f.Unit] = i
			out = append(out, group{Name: f.Unit, Link: pages[f.Unit]})
		}
		out[i].Findings = append(out[i].Findings, f)
	}
	return out
}

// tally counts the findings of each severity in words, without those that are zero.
func tally(list []inspect.Finding) string {
	var parts []string
	for _, s := range []inspect.Severity{inspect.Stop, inspect.Caution, inspect.Remark} {
		switch n := inspect.Count(list, s); n {
		case 0:
		case 1:
			parts = append(parts, "1 "+s.String())
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", n, s))
		}
	}
	if parts == nil {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}
