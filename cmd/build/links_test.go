package main

import (
	"net/url"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

var (
	// cssURL is an address in a style (CSS Values 4, 4.5).
	cssURL = regexp.MustCompile(`url\(\s*['"]?([^'")]+)`)
	// ownAddress is a whole address of the demo's site, in JSON, in a feed or in the sitemap.
	ownAddress = regexp.MustCompile(`https://sawbuck\.example[^\s"'<>\\)\],]*`)
	// relative is how scripts and data name the site's files: in quotes, beginning with a folder
	// of the site.
	relative = regexp.MustCompile(`["'](?:\.\./)?((?:u|s|figures|lot|handover|photos|media)/[A-Za-z0-9._-]+\.[a-z0-9]+)["']`)
)

// TestEveryLinkLeads builds the demo and follows every address within the site: links with
// their anchors, pictures in every width, scripts, recordings, addresses in data, feeds and
// styles. An independent parser reads the pages (golang.org/x/net/html).
func TestEveryLinkLeads(t *testing.T) {
	dir := t.TempDir()
	copyDir(t, "../../content", filepath.Join(dir, "content"))
	target := filepath.Join(dir, "public")
	built(t, clean, "-from", dir, "-to", target, "-quiet")
	pages := filesBelow(t, target)
	ids := map[string]map[string]bool{}
	docs := map[string]*html.Node{}
	for name, text := range pages {
		if path.Ext(name) != ".html" {
			continue
		}
		doc, err := html.Parse(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		docs[name], ids[name] = doc, map[string]bool{}
		for n := range doc.Descendants() {
			for _, a := range n.Attr {
				if a.Key == "id" {
					if ids[name][a.Val] {
						t.Errorf("%s has the id %q twice", name, a.Val)
					}
					ids[name][a.Val] = true
				}
			}
		}
	}
	followed := map[string]int{}
	follow := func(kind, from, address string) {
		u, err := url.Parse(address)
		if err != nil {
			t.Errorf("%s: %s %q is not an address: %v", from, kind, address, err)
			return
		}
		to := u.Path
		switch {
		case u.Host == "sawbuck.example":
			to = strings.TrimPrefix(to, "/")
		case u.Scheme != "" || u.Host != "":
			return // somebody else's, a mail, a telephone
		case to == "":
			to = from
		default:
			to = path.Join(path.Dir(from), to)
			// Only the 404 page is shown at any address.
			if strings.HasPrefix(u.Path, "/") && from != "404.html" {
				t.Errorf("%s: %s %q begins at the root, and leads nowhere if the site is in a folder", from, kind, address)
			}
		}
		if to == "" || strings.HasSuffix(u.Path, "/") {
			to = path.Join(to, "index.html")
		}
		followed[kind]++
		if _, ok := pages[to]; !ok {
			t.Errorf("%s: %s %q leads nowhere", from, kind, address)
			return
		}
		// After # the yard page keeps a search as key=value, which is not a place on the page.
		if place := u.Fragment; place != "" && path.Ext(to) == ".html" && !strings.Contains(place, "=") && !ids[to][place] && !strings.HasPrefix(place, ":~:") && place != "unit" && place != "yard" {
			t.Errorf("%s: %s %q: %s has no such place", from, kind, address, to)
		} else if place != "" {
			followed["place"]++
		}
	}
	for name, text := range pages {
		for _, a := range ownAddress.FindAllString(text, -1) {
			follow("address", name, html.UnescapeString(a))
		}
		switch path.Ext(name) {
		case ".html":
			for n := range docs[name].Descendants() {
				for _, a := range n.Attr {
					switch a.Key {
					case "href", "src", "poster", "action", "data-statics", "data-machines", "data-stock", "data-search":
						follow(n.Data+" "+a.Key, name, a.Val)
					case "srcset", "imagesrcset":
						for one := range strings.SplitSeq(a.Val, ",") {
							follow("srcset", name, strings.Fields(one)[0])
						}
					}
				}
				if n.Type == html.TextNode && n.Parent != nil && n.Parent.Data == "style" {
					for _, m := range cssURL.FindAllStringSubmatch(n.Data, -1) {
						follow("style", name, m[1])
					}
				}
			}
			for _, m := range relative.FindAllStringSubmatch(html.UnescapeString(text), -1) {
				follow("named", "index.html", m[1])
			}
		case ".js", ".json", ".csv", ".css":
			for _, m := range relative.FindAllStringSubmatch(text, -1) {
				follow("named", "index.html", m[1])
			}
			for _, m := range cssURL.FindAllStringSubmatch(text, -1) {
				if path.Ext(name) == ".css" {
					follow("style", name, m[1])
				}
			}
		}
	}
	t.Log(followed)
	for _, kind := range []string{"a href", "place", "srcset", "img src", "script src", "address", "named"} {
		if followed[kind] == 0 {
			t.Errorf("the demo has no %s, so this test did not check it", kind)
		}
	}
}
