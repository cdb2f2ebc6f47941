package walkpage

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

// TestWordsAreInTheTable: the pages and their scripts say what the table of phrases has, in any
// language of it, and nothing by themselves.
func TestWordsAreInTheTable(t *testing.T) {
	have, used := phrases.English.Group("phone"), map[string]bool{}
	code := script + listScript + pagesText
	for _, m := range regexp.MustCompile(`['"](phone [^'"]*)['"]`).FindAllStringSubmatch(code, -1) {
		key := m[1]
		// A key that ends with a blank, is counted or names a place has its end from somewhere else.
		for _, end := range []string{"", " one", " many"} {
			if _, ok := have[key+end]; ok {
				used[key+end] = true
			}
		}
		for k := range have {
			if strings.HasSuffix(key, " ") && strings.HasPrefix(k, key) || k == key+" at" {
				used[k] = true
			}
		}
		if !slices.ContainsFunc(slices.Collect(maps.Keys(used)), func(k string) bool { return strings.HasPrefix(k, key) }) {
			t.Errorf("the page says %q, which the table lacks", key)
		}
	}
	for key := range have {
		if !used[key] && key != "phone list" && key != "phone unit" { // the titles, in Go
			t.Errorf("no page says %q", key)
		}
	}
	file := []byte("---\nstock: A-1\nstandard:\n  - spare\n---\n")
	u, _ := unit.ReadUnit("a-1.md", file)
	for _, s := range walkback.Stations(u, file) {
		if have["phone station "+s.Name] == "" {
			t.Errorf("the station %q has no name", s.Name)
		}
	}
	// What a template says by itself is between its tags, and what a script says begins with a
	// capital and has a blank in it.
	text := regexp.MustCompile(`(?s){{.*?}}|<[^>]*>`).ReplaceAllString(pagesText, "")
	if words := regexp.MustCompile(`[A-Za-z]+`).FindAllString(text, -1); words != nil {
		t.Errorf("the pages say %q by themselves", words)
	}
	if words := regexp.MustCompile(`'[A-Z][a-z]+[ .,][^']*'`).FindAllString(script+listScript, -1); words != nil {
		t.Errorf("the scripts say %q by themselves", words)
	}
}
