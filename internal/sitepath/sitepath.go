// Package sitepath says where each page and each file is in the finished site. Paths have
// no slash at the beginning: a page adds the way to the site's root ("" or "../").
package sitepath

import (
	"fmt"
	"path"
	"strings"

	"tarepage/internal/unit"
)

// Pages of which a site has one.
const (
	Yard        = "index.html"
	List        = "list.html" // every trailer in a plain list
	HowWeFigure = "how-we-figure.html"
	NotFound    = "404.html" // what hosts of static files show for an unknown address
	kindPrefix  = "kind-"
)

// Spanish is the folder of the pages in Spanish, with a slash at its end.
const Spanish = "es/"

// In is a page of a language in the site; the first page of it is its folder itself.
func In(folder, page string) string {
	if page == Yard && folder != "" {
		return folder
	}
	return folder + page
}

// Trailer is the page of a trailer, named after its stock number.
func Trailer(u *unit.Unit) string { return "u/" + named(u) }

// Figures is the page of a trailer's figures with their working.
func Figures(u *unit.Unit) string { return "figures/" + named(u) }

// LotSheet is the sheet that is pinned to a trailer.
func LotSheet(u *unit.Unit) string { return "lot/" + named(u) }

// HandOver is the card that is ticked on the day a trailer is sold.
func HandOver(u *unit.Unit) string { return "handover/" + named(u) }

func named(u *unit.Unit) string { return strings.ToLower(u.Stock.Value) + ".html" }

// Kind is the page of all trailers of a kind.
func Kind(kind string) string { return kindPrefix + kind + ".html" }

// KindOf is the kind that a page lists, if it is the page of a kind.
func KindOf(page string) (kind string, ok bool) {
	kind, ok = strings.CutPrefix(page, kindPrefix)
	return strings.TrimSuffix(kind, ".html"), ok
}

// Further is a list's page by its number from 0: list.html, list-2.html.
func Further(page string, n int) string {
	if n == 0 {
		return page
	}
	return fmt.Sprintf("%s-%d.html", strings.TrimSuffix(page, ".html"), n+1)
}

// Video is where a trailer's video goes. It is named after the stock number, and not after its file: people
// save what a customer sends under the customer's name.
func Video(u *unit.Unit, name string) string {
	return "media/" + strings.ToLower(u.Stock.Value+path.Ext(name))
}

// Whole is the whole address of a page, or nothing where the site's own address is not
// known. The yard's page is the site's folder itself.
func Whole(site, page string) string {
	if site == "" || page == Yard {
		return site
	}
	return site + Escape(page)
}

// Escape writes everything but the unreserved characters and the slash as percent codes
// (RFC 3986, 2.1 and 2.3).
func Escape(s string) string {
	var b strings.Builder
	for i := range len(s) {
		if c := s[i]; unreserved(c) || c == '/' {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	return b.String()
}

func unreserved(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-._~", c) >= 0
}
