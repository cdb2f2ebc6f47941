package render

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"golang.org/x/net/html"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// spanishDemo are the pages of the demo yard in Spanish, by their paths.
var spanishDemo = sync.OnceValues(func() (map[string]string, error) {
	stock, problems, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		return nil, err
	}
	works := compute.Stock(stock)
	pages := map[string]string{}
	_, err = Site(theme.Files, Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems), Spanish: true},
		AddFunc(func(name string, data []byte) error {
			if strings.HasPrefix(name, "es/") && path.Ext(name) == ".html" {
				pages[name] = string(data)
			}
			return nil
		}))
	return pages, err
})

var word = regexp.MustCompile(`[\pL\d][\pL\d'’]*`)

// words are the words of a text in small letters. A number, a unit and a part of a law are none.
func words(text string) (out []string) {
	for _, w := range word.FindAllString(text, -1) {
		if w = strings.ToLower(w); len(w) > 2 && !strings.ContainsAny(w, "0123456789") {
			out = append(out, w)
		}
	}
	return out
}

// spanishWords are the words of the Spanish column, with the names that the yard's file gives, and
// what is the same in both languages.
func spanishWords(t *testing.T) map[string]bool {
	t.Helper()
	out := map[string]bool{"csv": true, "json": true, "kpa": true, "usc": true, "vii": true}
	for _, w := range words("Sawbuck Trailer Yard, Dunnock Gap, yard@sawbuck.example https html") {
		out[w] = true
	}
	for _, name := range []string{"phrases.csv", "facts.csv"} {
		f, err := os.Open("../phrases/" + name)
		if err != nil {
			t.Fatal(err)
		}
		lines, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range lines[1:] {
			if l[0] == "find ignore" { // what a search does not count, in both languages
				continue
			}
			for _, w := range words(asWritten.ReplaceAllString(l[2], " ")) {
				out[w] = true
			}
		}
	}
	return out
}

// asWritten is the sentence of a label in its quotes, and the name of a host.
var asWritten = regexp.MustCompile(`"[Tt]he [^"]*"|[a-z0-9-]+\.(com|org|gov)\b`)

// A heardText is one that a person reads or hears on a page.
type heardText struct {
	text    string
	english bool   // it says that it is English
	block   bool   // it is in notes that say so as a whole
	where   string // the element, and the attribute
}

// A listener reads a page.
type listener struct {
	z    *html.Tokenizer
	open []string // the elements, with a + before those that say lang="en"
	out  []heardText
}

// heardOn are the texts of a page.
func heardOn(page string) []heardText {
	l := &listener{z: html.NewTokenizer(strings.NewReader(page))}
	skip := ""
	for {
		switch l.z.Next() {
		case html.ErrorToken:
			return l.out
		case html.TextToken:
			raw := string(l.z.Raw())
			switch {
			case skip == "noscript":
				l.out = append(l.out, heardOn(raw)...)
			case skip == "":
				l.hear(html.UnescapeString(raw), "")
			}
		case html.StartTagToken, html.SelfClosingTagToken:
			if name := l.start(l.z.Token()); name == "script" || name == "style" || name == "noscript" {
				skip = name
			}
		case html.EndTagToken:
			name, _ := l.z.TagName()
			if skip == string(name) {
				skip = ""
			}
			// The minifier leaves out end tags: what is open within ends as well.
			for i := len(l.open) - 1; i >= 0; i-- {
				if l.open[i][1:] == string(name) {
					l.open = l.open[:i]
					break
				}
			}
		}
	}
}

func (l *listener) hear(text, attribute string) {
	if text = strings.Join(strings.Fields(text), " "); text == "" {
		return
	}
	h := heardText{text: text, where: attribute}
	for _, e := range l.open {
		h.english = h.english || e[0] == '+'
		h.block = h.block || e == "+div"
	}
	if n := len(l.open); n > 0 && attribute == "" {
		h.where = l.open[n-1][1:]
	}
	l.out = append(l.out, h)
}

func (l *listener) start(t html.Token) string {
	at := map[string]string{}
	for _, a := range t.Attr {
		at[a.Key] = a.Val
	}
	mark := " "
	if strings.HasPrefix(at["lang"], "en") && t.Data != "html" {
		mark = "+"
	}
	if l.open = append(l.open, mark+t.Data); void[t.Data] || t.Type == html.SelfClosingTagToken {
		defer func() { l.open = l.open[:len(l.open)-1] }()
	}
	for _, key := range []string{"aria-label", "title", "alt", "placeholder", "label", "data-si"} {
		l.hear(at[key], key)
	}
	if slices.Contains([]string{"description", "og:title", "og:description", "og:image:alt"}, at["name"]+at["property"]) {
		l.hear(at["content"], at["name"]+at["property"])
	}
	return t.Data
}

// TestNoEnglishLeft: on the demo's pages in Spanish no word outside lang="en" is missing from the
// Spanish column of the table. What is inside is what the owner wrote; only "How we figure" names the
// sources of tables as they are published, and it does not get more of them unnoticed.
func TestNoEnglishLeft(t *testing.T) {
	if testing.Short() {
		t.Skip("reads every page")
	}
	thorough.Only(t)
	pages, err := spanishDemo()
	if err != nil {
		t.Fatal(err)
	}
	known, own := spanishWords(t), ownersWords(t)
	texts, quoted := 0, map[string]bool{}
	for name, page := range pages {
		for _, h := range heardOn(page) {
			texts++
			switch {
			case !h.english:
				for _, w := range words(asWritten.ReplaceAllString(h.text, " ")) {
					if !known[w] {
						t.Errorf("%s: %s: %q in %q is in no Spanish phrase, and nothing says that it is English", name, h.where, w, h.text)
					}
				}
			case h.block || h.where == "data-si" || h.text == "English" || ownersList(own, h.text):
			case name == "es/how-we-figure.html":
				quoted[h.text] = true
			default:
				t.Errorf("%s: %s: %q says that it is English, and the owner did not write it: add its Spanish to facts.csv", name, h.where, h.text)
			}
		}
	}
	if texts < 20_000 || len(pages) < 150 {
		t.Errorf("only %d texts on %d pages were read", texts, len(pages))
	}
	if len(quoted) > mostQuoted {
		t.Errorf("%d names of sources are English on How we figure, at most %d were", len(quoted), mostQuoted)
	}
}

// mostQuoted is how many names of sources the page "How we figure" has in English.
const mostQuoted = 190

// ownersWords is what the demo's owner wrote, in small letters with single spaces.
func ownersWords(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	err := filepath.WalkDir("../../content", func(name string, _ fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != ".md" && path.Ext(name) != ".vtt" {
			return err
		}
		text, err := os.ReadFile(name)
		out.WriteString(" " + strings.ToLower(strings.Join(strings.Fields(string(text)), " ")))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// ownersList reports whether the owner wrote a text, or each member of a list by itself.
func ownersList(own, text string) bool {
	for part := range strings.SplitSeq(text, ", ") {
		if !strings.Contains(own, strings.ToLower(strings.TrimSuffix(part, "."))) {
			return false
		}
	}
	return true
}

// TestHeardOn: the test above hears a word in a text, in an attribute and without scripts.
func TestHeardOn(t *testing.T) {
	page := `<html lang="es-US"><meta name="description" content="one"><p title="two">three <span lang="en">four</span><img alt="five"></p>` +
		`<noscript><p>six</p></noscript><div lang="en"><p>seven</p></div><script>eight</script><p>nine`
	var plain, english []string
	for _, h := range heardOn(page) {
		if h.english {
			english = append(english, h.text)
		} else {
			plain = append(plain, h.text)
		}
	}
	if got := strings.Join(plain, " "); got != "one two three five six nine" {
		t.Errorf("%s", got)
	}
	if got := strings.Join(english, " "); got != "four seven" {
		t.Errorf("%s in English", got)
	}
}
