package feed

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"slices"
	"strings"

	"tarepage/internal/unit"
)

// The feeds' paths in the site, and the titles they are offered under.
const (
	AtomPath = "arrivals.atom"
	JSONPath = "arrivals.json"
)

// Most is how many items a feed holds, newest first. A reader that looks once a month misses
// nothing of a yard that sells three trailers a day.
const Most = 100

// News is the content of the feeds.
type News struct {
	// Site is the address of the folder of the site's pages in Lang, with a slash at the end.
	Site string
	// Lang is the language of the texts as BCP 47 writes it.
	Lang  string
	Title string
	// Yard is the name of who sells, and the author of the feed.
	Yard, Email string
	// AsOf is the day on which the stock was walked. It is the feed's date if there are no items.
	AsOf  unit.Day
	Items []Item
}

// An Item is one trailer. Its address is its identity: it stays when the price changes.
type Item struct {
	Address string
	Title   string
	Text    string
	Kind    string
	// Arrived is the day it came, if somebody stated it. Changed is the last day on which
	// something changed; an item without it is left out.
	Arrived, Changed unit.Day
}

// stamp writes a day as RFC 3339 asks (RFC 4287, 3.3): files state days, not hours.
func stamp(d unit.Day) string { return d.String() + "T00:00:00Z" }

// newest returns the items that have a day, the latest change first, and the day of the first.
func (n *News) newest() ([]Item, unit.Day) {
	var items []Item
	for _, i := range n.Items {
		if i.Changed.Known() {
			items = append(items, i)
		}
	}
	slices.SortFunc(items, func(a, b Item) int {
		if a.Changed != b.Changed {
			if a.Changed.After(b.Changed) {
				return -1
			}
			return 1
		}
		return strings.Compare(a.Address, b.Address)
	})
	if len(items) == 0 {
		return nil, n.AsOf
	}
	return items[:min(len(items), Most)], items[0].Changed
}

type atomFeed struct {
	XMLName xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Lang    string      `xml:"xml:lang,attr"`
	Title   string      `xml:"title"`
	ID      string      `xml:"id"`
	Links   []atomLink  `xml:"link"`
	Updated string      `xml:"updated"`
	Author  atomAuthor  `xml:"author"`
	Entries []atomEntry `xml:"entry"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr,omitempty"`
	Href string `xml:"href,attr"`
}

type atomAuthor struct {
	Name  string `xml:"name"`
	Email string `xml:"email,omitempty"`
	URI   string `xml:"uri"`
}

type atomEntry struct {
	Title     string        `xml:"title"`
	ID        string        `xml:"id"`
	Link      atomLink      `xml:"link"`
	Published string        `xml:"published,omitempty"`
	Updated   string        `xml:"updated"`
	Category  *atomCategory `xml:"category"`
	Summary   string        `xml:"summary"`
}

type atomCategory struct {
	Term string `xml:"term,attr"`
}

// Atom writes the feed as RFC 4287.
func Atom(n *News) ([]byte, error) {
	items, updated := n.newest()
	f := atomFeed{
		Lang: n.Lang, Title: n.Title, ID: n.Site + AtomPath, Updated: stamp(updated),
		Links: []atomLink{
			{Rel: "self", Type: "application/atom+xml", Href: n.Site + AtomPath},
			{Rel: "alternate", Type: "text/html", Href: n.Site},
		},
		Author: atomAuthor{Name: n.Yard, Email: n.Email, URI: n.Site},
	}
	for _, i := range items {
		e := atomEntry{Title: i.Title, ID: i.Address, Updated: stamp(i.Changed), Summary: i.Text,
			Link: atomLink{Rel: "alternate", Type: "text/html", Href: i.Address}}
		if i.Arrived.Known() {
			e.Published = stamp(i.Arrived)
		}
		if i.Kind != "" {
			e.Category = &atomCategory{i.Kind}
		}
		f.Entries = append(f.Entries, e)
	}
	return document(f)
}

// document writes XML with its declaration and a line end.
func document(v any) ([]byte, error) {
	out, err := xml.MarshalIndent(v, "", " ")
	if err != nil {
		return nil, fmt.Errorf("xml: %w", err)
	}
	return append(append([]byte(xml.Header), out...), '\n'), nil
}

type jsonFeed struct {
	Version  string       `json:"version"`
	Title    string       `json:"title"`
	Home     string       `json:"home_page_url"`
	Feed     string       `json:"feed_url"`
	Language string       `json:"language"`
	Authors  []jsonAuthor `json:"authors"`
	Items    []jsonItem   `json:"items"`
}

type jsonAuthor struct {
	Name string `json:"name"`
	URL  string `json:"url"`
}

type jsonItem struct {
	ID        string   `json:"id"`
	URL       string   `json:"url"`
	Title     string   `json:"title"`
	Text      string   `json:"content_text"`
	Published string   `json:"date_published,omitempty"`
	Modified  string   `json:"date_modified"`
	Tags      []string `json:"tags,omitempty"`
}

// JSON writes the same feed as JSON Feed 1.1 (jsonfeed.org/version/1.1).
func JSON(n *News) ([]byte, error) {
	items, _ := n.newest()
	f := jsonFeed{
		Version: "https://jsonfeed.org/version/1.1", Title: n.Title, Home: n.Site, Feed: n.Site + JSONPath,
		Language: n.Lang, Authors: []jsonAuthor{{n.Yard, n.Site}}, Items: []jsonItem{},
	}
	for _, i := range items {
		item := jsonItem{ID: i.Address, URL: i.Address, Title: i.Title, Text: i.Text, Modified: stamp(i.Changed)}
		if i.Arrived.Known() {
			item.Published = stamp(i.Arrived)
		}
		if i.Kind != "" {
			item.Tags = []string{i.Kind}
		}
		f.Items = append(f.Items, item)
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", " ")
	if err := e.Encode(f); err != nil {
		return nil, fmt.Errorf("json feed: %w", err)
	}
	return b.Bytes(), nil
}
