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

// The quick looks find each word that the expressions after them ask for, and let nothing pass that
// one of them would find.
func TestMayHold(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]bool{"SOLD": true, "it is sold": true, "ſold": true, "Vendida": true, "gone": false, "": false} {
		if got := mayHold(text, "sold", "vendid", "pending", "deposit"); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(sold|SALE|sale | pending|deposit | taken|vendido|[ 0-9k$.]|USD|bucks|Dollars|dólares|\x{17f}old|[a-c]){0,10}`).Draw(t, "text")
		if soldWords.MatchString(text) && !mayHold(text, "sold", "vendid", "pending", "deposit") {
			t.Errorf("%q says that it is sold", text)
		}
		if amounts.MatchString(text) && !mayHold(text, "$", "usd", "dollars", "bucks") {
			t.Errorf("%q has an amount", text)
		}
	})
}
