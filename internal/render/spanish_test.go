package render

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"tarepage/internal/phrases"
	theme "tarepage/themes/default"
)

// filesIn are the files of the yard of TestWhatPagesAreGiven, in English alone or in Spanish too.
func filesIn(t *testing.T, spanish bool) map[string]string {
	t.Helper()
	in := given(t)
	in.Spanish = spanish
	files := map[string]string{}
	_, err := Site(theme.Files, in, AddFunc(func(path string, data []byte) error {
		if _, twice := files[path]; twice {
			t.Errorf("%s is written twice", path)
		}
		files[path] = string(data)
		return nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// TestSpanishPages: every page that a customer sees is there in both languages, each leads to the
// other, and what is named as an alternate exists (Google Search Central asks for links that
// return; HTML Living Standard, 4.6.6.2 alternate with hreflang).
func TestSpanishPages(t *testing.T) {
	files := filesIn(t, true)
	pages := 0
	for name, page := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		pages++
		spanish := strings.HasPrefix(name, "es/")
		other, lang := "es/"+name, "es-US"
		if spanish {
			other, lang = strings.TrimPrefix(name, "es/"), "en-US"
		}
		if files[other] == "" {
			t.Errorf("%s is there, and %s is not", name, other)
		}
		if !strings.Contains(page, `<html lang="`+map[bool]string{true: "es-US", false: "en-US"}[spanish]+`"`) {
			t.Errorf("%s does not say its language", name)
		}
		if path.Base(name) == "404.html" {
			continue // its links begin at the host's root
		}
		link := regexp.MustCompile(`<a class="language" lang="([^"]*)" hreflang="[^"]*" href="([^"]*)"`).FindStringSubmatch(page)
		if link == nil || link[1] != lang || path.Join(path.Dir(name), link[2]) != other {
			t.Errorf("%s leads to %q", name, link)
		}
		for _, want := range []string{`hreflang="en-US"`, `hreflang="es-US"`, `hreflang="x-default"`} {
			if !strings.Contains(page, want) {
				t.Errorf("%s lacks %s", name, want)
			}
		}
		for _, m := range regexp.MustCompile(`(?:href|src|poster)="([^"#:?]+)"`).FindAllStringSubmatch(page, -1) {
			to := path.Join(path.Dir(name), html.UnescapeString(m[1]))
			if _, there := files[to]; !there && !strings.HasSuffix(to, ".mp4") {
				t.Errorf("%s leads to %s, which is not there", name, to)
			}
		}
	}
	if pages < 20 {
		t.Errorf("%d pages", pages)
	}
	for name, text := range files {
		if strings.ContainsAny(text, "\ue000\ue001") {
			t.Errorf("%s has marks", name)
		}
	}
	if m := files["sitemap.xml"]; !strings.Contains(m, `hreflang="es-US" href="https://yard.example/lot/es/"`) || strings.Contains(m, "404") {
		t.Errorf("the sitemap is\n%s", m)
	}
}

// TestSpanishSaysWhatIsEnglish: a text of a Spanish page that nobody translated has lang="en" around
// it; a page never mixes a sentence of both.
func TestSpanishSaysWhatIsEnglish(t *testing.T) {
	for in, want := range map[string]string{
		"<p>\ue000Manda\ue001 the tag governs</p>":                    "<p>Manda <span>manda la etiqueta</span></p>",
		"<p>the tag governs</p>":                                      "<p>manda la etiqueta</p>",
		"<p>Spare on the tongue</p>":                                  `<p lang="en">Spare on the tongue</p>`,
		"<p>\ue000Marca:\ue001 Oxbow &amp; Sons</p>":                  `<p>Marca: <span lang="en">Oxbow &amp; Sons</span></p>`,
		"<p>the tag governs. Nobody knows. The tag governs.</p>":      `<p>manda la etiqueta. <span lang="en">Nobody knows.</span> Manda la etiqueta.</p>`,
		"<p>the tag governs, since nobody weighed it on a Friday</p>": `<p lang="en">the tag governs, since nobody weighed it on a Friday</p>`,
		"<p>1,234 lb</p>":                                             "<p>1,234 lb</p>",
		"<div lang=\"en\"><p>Sold by <b>us</b></p></div><p>sold</p>":  "<div lang=\"en\"><p>Sold by <b>us</b></p></div><p>vendido</p>",
		"<p>about 7,000 lb</p>":                                       `<p data-si="aprox. 3,175 kg">aprox. 7,000 lb</p>`,
		"<svg><text>sold &lt;b&gt;</text></svg>":                      `<svg><text lang="en">sold &lt;b&gt;</text></svg>`,
		"<img alt=\"sold\">":                                          "<img alt=\"vendido\">",
		"<a href=\"sold\">sold</a>":                                   "<a href=\"sold\">vendido</a>",
		"<script type=\"application/ld+json\">{\"@type\":\"sold\",\"name\":\"sold\"}</script>": "<script type=\"application/ld+json\">{\"@type\":\"sold\",\"name\":\"vendido\"}</script>",
		// a key stays, whatever its value is (JSON-LD 1.1, 9.1: the vocabulary's terms are keys)
		`<script type="application/ld+json">{"price":1,"payload":{"name":"sold"},"sold":["sold"]}</script>`: `<script type="application/ld+json">{"price":1,"payload":{"name":"vendido"},"sold":["vendido"]}</script>`,
	} {
		got := string(inLanguage([]byte("<title></title>"+in), phrases.Spanish.Marked(), nil))
		got = strings.TrimPrefix(got, "<title></title>")
		if strings.ReplaceAll(strings.ReplaceAll(got, "<span>", ""), "</span>", "") != strings.ReplaceAll(strings.ReplaceAll(want, "<span>", ""), "</span>", "") {
			t.Errorf("%s\nbecomes %s\nwant    %s", in, got, want)
		}
	}
}

// TestEnglishAlone: a site without Spanish has nothing of it.
func TestEnglishAlone(t *testing.T) {
	for name, text := range filesIn(t, false) {
		if strings.HasPrefix(name, "es/") || strings.Contains(text, "tarepage-language") || strings.Contains(text, "hreflang") {
			t.Errorf("%s knows of another language", name)
		}
	}
}
