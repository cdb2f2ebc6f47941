package phrases

import (
	"encoding/csv"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestTable: the table can take another language as it is. No key comes twice, no phrase is
// empty, and what is counted has a phrase for one and a phrase for many with the same blanks.
func TestTable(t *testing.T) {
	lines, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, l := range lines[1:] {
		if _, twice := all[l[0]]; twice {
			t.Errorf("%q is in the table twice", l[0])
		}
		all[l[0]] = l[1]
		if strings.Contains(l[0], `"`) {
			t.Errorf("%q has a quotation mark", l[0])
		}
		if strings.TrimSpace(l[1]) == "" {
			t.Errorf("%q has no text", l[0])
		}
	}
	for key, text := range all {
		if one, ok := strings.CutSuffix(key, " one"); ok {
			if many := all[one+" many"]; !slices.Equal(blanks(many), blanks(text)) {
				t.Errorf("%q is %q and for many %q", one, text, many)
			}
		}
	}
	if got := Say("from to", "1", "2"); got != "1 to 2" {
		t.Errorf("got %q", got)
	}
	if got := Say("no such key", "1"); got != "no such key" {
		t.Errorf("got %q", got)
	}
}

var blank = regexp.MustCompile(`\{\d\}`)

func blanks(text string) []string {
	out := blank.FindAllString(text, -1)
	slices.Sort(out)
	return out
}
