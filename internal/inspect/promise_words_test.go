package inspect

import (
	"regexp"
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
)

// The words of a text are those that an expression finds (package regexp of Go), and a text in
// which the quick look sees no number has none in the expression's words either.
func TestWordsOfPromises(t *testing.T) {
	t.Parallel()
	tokens := regexp.MustCompile(`\$?[0-9][0-9,]*(?:\.[0-9]+)?|\p{L}+(?:['’]\p{L}+)?|[.;!?\n](?:\s|$)|#`)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([0-9]{1,2}|[a-dé]{1,2}|[ .,;!?$#'’\n\t&*_/-]|ton|tongue|tonne| two | a half|½|\x{430}|\xff){0,20}`).Draw(t, "text")
		var want [][2]int
		for _, at := range tokens.FindAllStringIndex(text, -1) {
			want = append(want, [2]int(at))
		}
		if got := tokensOf(text); !slices.Equal(got, want) {
			t.Fatalf("tokensOf(%q) = %v, want %v", text, got, want)
		}
		if mayCount(text) {
			return
		}
		all := plainLetters(text)
		w := &promising{text: all, at: tokensOf(all)}
		for _, at := range w.at {
			w.word = append(w.word, all[at[0]:at[1]])
		}
		for i := range w.word {
			if q, ok := w.weight(i); ok {
				t.Errorf("mayCount(%q) is false, and it has the weight %v", text, q)
			}
		}
	})
	for _, row := range tonWords {
		if !mayCount(row.eg) {
			t.Errorf("mayCount(%q) is false", row.eg)
		}
	}
}

// Each text is written as without the quick looks, which only spare expressions that find nothing.
func TestPlainLettersTakesNoShortCut(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`([0-9]{1,3}|[ '’_·]|[a-c]|TON|é){0,12}`).Draw(t, "text")
		if got, want := plainLetters(text), apart.ReplaceAllString(ownLetters(text), "$1$2,$3$4"); got != want && emphasis.ReplaceAllString(text, "$1$2") == text {
			t.Errorf("plainLetters(%q) = %q, want %q", text, got, want)
		}
	})
}
