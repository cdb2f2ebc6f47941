package feed

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"

	"tarepage/internal/unit"
)

// SitemapPath is the place of the sitemap, or of the list of several, in the site.
const SitemapPath = "sitemap.xml"

// A Page is one page of the site for the sitemap.
type Page struct {
	// Address is the whole address.
	Address string
	// Changed is the last day on which the page changed in a way that matters, if a file
	// states it.
	Changed unit.Day
	// In are the addresses of the page in every language; none for a site in one.
	In []Translation
}

// A Translation is a page in a language.
type Translation struct{ Lang, Address string }

// A File is a finished file by its path in the site.
type File struct {
	Path string
	Data []byte
}

// limits are the most pages and bytes of one sitemap.
type limits struct{ pages, bytes int }

// protocol are the limits of sitemaps.org, protocol 0.90: 50,000 addresses and 50 MB
// (52,428,800 bytes) uncompressed in one file.
var protocol = limits{50_000, 52_428_800}

const (
	urlset = `<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">`
	// langset has the names of pages in other languages (Google Search Central, "Tell Google about
	// localized versions of your page", 2025; from memory).
	langset = `<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9" xmlns:xhtml="http://www.w3.org/1999/xhtml">`
	index   = `<sitemapindex xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">`
)

// Sitemap lists the pages in the given order: one file, or several and a list of them where the
// protocol's limits require it.
func Sitemap(site string, pages []Page) ([]File, error) { return sitemap(site, pages, protocol) }

func sitemap(site string, pages []Page, most limits) ([]File, error) {
	var parts [][]byte
	var newest []unit.Day
	var b bytes.Buffer
	count := 0
	var last unit.Day
	const end = "</urlset>\n"
	set := urlset
	for _, p := range pages {
		if len(p.In) > 0 {
			set = langset
			break
		}
	}
	open := func() { b.Reset(); count, last = 0, unit.Day{}; b.WriteString(xml.Header + set + "\n") }
	shut := func() {
		b.WriteString(end)
		parts, newest = append(parts, bytes.Clone(b.Bytes())), append(newest, last)
	}
	open()
	for _, p := range pages {
		line, err := located("url", p)
		if err != nil {
			return nil, err
		}
		if count > 0 && (count == most.pages || b.Len()+len(line)+len(end) > most.bytes) {
			shut()
			open()
		}
		b.WriteString(line)
		count++
		if p.Changed.After(last) {
			last = p.Changed
		}
	}
	shut()
	if len(parts) == 1 {
		return []File{{SitemapPath, parts[0]}}, nil
	}
	var out []File
	var list strings.Builder
	list.WriteString(xml.Header + index + "\n")
	for i, part := range parts {
		path := fmt.Sprintf("sitemap-%d.xml", i+1)
		line, err := located("sitemap", Page{Address: site + path, Changed: newest[i]})
		if err != nil {
			return nil, err
		}
		list.WriteString(line)
		out = append(out, File{path, part})
	}
	list.WriteString("</sitemapindex>\n")
	return append([]File{{SitemapPath, []byte(list.String())}}, out...), nil
}

// located is one line of a sitemap: an element with an address and a day.
func located(element string, p Page) (string, error) {
	var b strings.Builder
	b.WriteString("<" + element + "><loc>")
	if err := xml.EscapeText(&b, []byte(p.Address)); err != nil {
		return "", fmt.Errorf("sitemap: %w", err)
	}
	b.WriteString("</loc>")
	if p.Changed.Known() {
		// A day is a W3C date and time, as the protocol asks.
		b.WriteString("<lastmod>" + p.Changed.String() + "</lastmod>")
	}
	for _, in := range p.In {
		b.WriteString(`<xhtml:link rel="alternate" hreflang="` + in.Lang + `" href="`)
		if err := xml.EscapeText(&b, []byte(in.Address)); err != nil {
			return "", fmt.Errorf("sitemap: %w", err)
		}
		b.WriteString(`"/>`)
	}
	b.WriteString("</" + element + ">\n")
	return b.String(), nil
}

// RobotsPath is the only place where robots look: the root of the host (RFC 9309, 2.3).
const RobotsPath = "robots.txt"

// Robots is the text of robots.txt. It is nil if the site is not at a host's root, because robots
// do not read it in a folder.
func Robots(site string) []byte {
	if _, path, _ := strings.Cut(strings.TrimPrefix(site, "https://"), "/"); path != "" {
		return nil
	}
	return []byte("User-agent: *\nAllow: /\n\nSitemap: " + site + SitemapPath + "\n")
}
