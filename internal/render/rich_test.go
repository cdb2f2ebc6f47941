package render

import (
	"html/template"
	"strings"
	"testing"

	"tarepage/internal/phrases"
)

// TestRich: marks of a phrase become elements, and nothing in a blank does.
func TestRich(t *testing.T) {
	for _, c := range []struct {
		key    string
		blanks []any
		want   string
	}{
		{"card stock", []any{"a<b>*x*[y]____"}, `Stock <b>a&lt;b&gt;*x*[y]____</b>`},
		{"card torque", []any{ticks([]string{"20", "<40>"})}, `<span class="tick"><b>20</b></span> <span class="tick"><b>&lt;40&gt;</b></span> lb-ft`},
		{"card points", []any{[]labeled{{Label: "D-rings", Text: "4 & more"}, {Label: "Rails", Text: "2"}}}, `<b>D-rings</b> 4 &amp; more; <b>Rails</b> 2`},
		{"card torque unknown", nil, `[first`},
	} {
		got := string(richIn(phrases.English)(c.key, c.blanks...))
		if c.key == "card torque unknown" {
			if strings.ContainsAny(got, "[]_*") || strings.Count(got, `<span class="tick">`) != 3 || strings.Count(got, `<span class="line"></span>`) != 3 {
				t.Errorf("%s: %s", c.key, got)
			}
			continue
		}
		if !strings.HasSuffix(got, c.want) {
			t.Errorf("%s: %s, want it to end with %s", c.key, got, c.want)
		}
	}
	if got := richIn(phrases.English)("card points", template.HTML("<i>")); !strings.HasSuffix(string(got), "<i>") {
		t.Errorf("HTML in a blank became %s", got)
	}
}
