package walkpage

import (
	"cmp"
	"maps"
	"net/http"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/language"

	"tarepage/internal/inspect"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

// The page speaks the language of the phone that asks (RFC 9110, 12.5.4 Accept-Language). What it sends
// is the same in both: keys and values of the unit file stay English.

var spoken = []phrases.Language{phrases.English, phrases.Spanish}

var matcher = language.NewMatcher([]language.Tag{spoken[0].Tag, spoken[1].Tag})

// languageOf is the language of the phone; English where it names no other that the table has.
func languageOf(req *http.Request) phrases.Language {
	_, i := language.MatchStrings(matcher, req.Header.Get("Accept-Language"))
	return spoken[i]
}

// in puts what the page shows into the language. A key without a label there, and what a finding
// says that the table lacks, stay English; the finding begins with what its rule asks for.
func (v *view) in(lang phrases.Language) *view {
	if !lang.Foreign() {
		for i, f := range v.Findings {
			v.Findings[i].Remedy = onPhone().Replace(f.Remedy)
		}
		return v
	}
	for i, f := range v.Figures {
		v.Figures[i] = figure{lang.Plain(f.Label), lang.Plain(f.Text)}
	}
	for i, f := range v.Findings {
		message, whole := lang.Of(f.Message)
		if !whole {
			if message = f.Message; inspect.Lookup(f.rule) != nil {
				if title, ok := lang.Fact("rule/" + f.rule); ok {
					message = title + ": " + f.Message
				}
			}
		}
		v.Findings[i].Message, v.Findings[i].Remedy = message, lang.Plain(f.Remedy)
	}
	for i := range v.Stations {
		named(lang, v.Stations[i].Open)
		named(lang, v.Stations[i].Rest)
	}
	named(lang, v.Sale)
	return v
}

// onPhone writes the keys in a remedy as the page names its lines: hitch rating for hitch.rating.
var onPhone = sync.OnceValue(func() *strings.Replacer {
	var paths, pairs []string
	for _, k := range unit.Keys() {
		if strings.Contains(k.Path, ".") {
			paths = append(paths, k.Path)
		}
	}
	// A longer key comes before its beginning: the replacer takes the first that fits.
	slices.SortStableFunc(paths, func(a, b string) int { return cmp.Compare(len(b), len(a)) })
	for _, p := range paths {
		pairs = append(pairs, p, walkback.NameOf(p))
	}
	return strings.NewReplacer(pairs...)
})

// named gives lines the labels that the pages have in the language.
func named(lang phrases.Language, lines []walkback.Line) {
	for i, l := range lines {
		if label, ok := lang.Fact("key/" + l.Key); ok {
			lines[i].Ask, lines[i].Name = label, label
		}
	}
}

// words are what the script says: the page's phrases, and the choices of the lines.
func (v *view) words(lang phrases.Language) map[string]string {
	out := maps.Clone(lang.Group("phone"))
	if v == nil || !lang.Foreign() {
		return out
	}
	lists := [][]walkback.Line{v.Sale}
	for _, s := range v.Stations {
		lists = append(lists, s.Open, s.Rest)
	}
	for _, list := range lists {
		for _, l := range list {
			for _, c := range l.Choices {
				text, ok := lang.Fact("choice/" + l.Key + "/" + c)
				if l.Key == "kind" {
					text, ok = lang.Fact("kind/" + c)
				}
				if _, said := out["phone choice "+c]; ok && !said {
					out["phone choice "+c] = text
				}
			}
		}
	}
	return out
}
