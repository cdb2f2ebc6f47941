package render_test

import (
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// TestPricesSayAsOfWhen: wherever a page shows a price, as of when it holds and what it leaves
// out are on the same line, or above the list that it is in. FTC staff, ".com
// Disclosures" (March 2013): what qualifies a claim is near it, and not one link away
// where it is about cost.
func TestPricesSayAsOfWhen(t *testing.T) {
	amount := regexp.MustCompile(`\$[0-9]|^(Sold|sold|Call for price)$`)
	for name, terms := range map[string][]string{
		"demo":    {"as of November 20, 2026", "tax, title and registration"},
		"samples": {"as of November 20, 2026"},
	} {
		seen := map[string]int{}
		for path, page := range yards(t)[name] {
			if !strings.HasSuffix(path, ".html") || strings.HasPrefix(path, "figures/") {
				continue // an excise tax among the figures is not a price
			}
			root, err := html.Parse(strings.NewReader(page))
			if err != nil {
				t.Fatal(err)
			}
			before := "" // what is above the list
			for n := range root.Descendants() {
				if n.Type == html.ElementNode && attribute(n, "class") == "terms" {
					before = strings.Join(strings.Fields(textOf(n)), " ")
				}
				if n.Type != html.TextNode || n.Parent.Data == "script" || n.Parent.Data == "style" || n.Parent.Data == "title" ||
					!amount.MatchString(strings.TrimSpace(n.Data)) || within(n, "button") || within(n, "nav") || prose(n) || within(n, "details") || n.Parent.Data == "button" {
					continue
				}
				line := n.Parent
				for line.Data != "p" && line.Data != "li" && line.Data != "tr" && line.Data != "body" {
					line = line.Parent
				}
				if line.Data == "body" {
					t.Errorf("%s: %s: %q is in no line", name, path, n.Data)
					continue
				}
				said := before + strings.Join(strings.Fields(textOf(line)), " ")
				for i, what := range terms {
					// What is not priced leaves nothing out.
					if i > 0 && !strings.Contains(n.Data, "$") {
						continue
					}
					if !strings.Contains(said, what) {
						t.Errorf("%s: %s: %q does not say %q near it: %q", name, path, n.Data, what, said)
					}
				}
				seen[strings.SplitN(path, "/", 2)[0]]++
			}
		}
		for _, kind := range []string{"index.html", "list.html", "u", "lot"} {
			if seen[kind] == 0 {
				t.Errorf("%s: no price was found in %s: %v", name, kind, seen)
			}
		}
	}
}

func attribute(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data + " ")
		}
	}
	return b.String()
}

func within(n *html.Node, element string) bool {
	for ; n != nil; n = n.Parent {
		if n.Type == html.ElementNode && n.Data == element {
			return true
		}
	}
	return false
}

// prose reports whether a text is the owner's own, who may write of a deposit.
func prose(n *html.Node) bool {
	for ; n != nil; n = n.Parent {
		if strings.HasPrefix(attribute(n, "class"), "prose") {
			return true
		}
	}
	return false
}
