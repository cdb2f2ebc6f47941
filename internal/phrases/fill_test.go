package phrases_test

import (
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
	"tarepage/internal/phrases"
)

// Blanks are filled in as by a strings.Replacer of package strings, which looks at no text that it
// filled in.
func TestFill(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(\{[0-9+]{0,2}\}?|\}|[ab]){0,8}`).Draw(t, "text")
		blanks := rapid.SliceOfN(rapid.StringMatching(`(\{[12]\}|[xy]){0,2}`), 0, 12).Draw(t, "blanks")
		var pairs []string
		for i, b := range blanks {
			pairs = append(pairs, "{"+strconv.Itoa(i+1)+"}", b)
		}
		if got, want := phrases.English.Fill(text, blanks...), strings.NewReplacer(pairs...).Replace(text); got != want {
			t.Errorf("%q with %q is %q, want %q", text, blanks, got, want)
		}
	})
}
