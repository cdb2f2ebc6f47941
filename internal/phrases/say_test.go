package phrases

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"
)

// TestSay fills the blanks of a phrase, in either language; a key that is missing is seen.
func TestSay(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{English.Say("and"), ", and "},
		{Spanish.Say("and"), ", y "},
		{English.Say("verdict no", "A", "B", "C"), "A: B, C."},
		{English.Say("left", "9 {2}", "x"), "9 {2} left"}, // a blank's text is not filled in again
		{Spanish.Say("left", "9 lb"), "quedan 9 lb"},
		{English.Say("no such key", "x"), "no such key"},
		{Spanish.Say("no such key"), "no such key"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestCounted: one trailer, none or many trailers, and numbers with commas. English and Spanish
// have the singular for 1 alone (Unicode CLDR, plural rules); Spanish has a third form for whole
// millions, which reads as the one for many here.
func TestCounted(t *testing.T) {
	for n, want := range map[int][2]string{
		0:         {"0 trailers", "0 remolques"},
		1:         {"1 trailer", "1 remolque"},
		2:         {"2 trailers", "2 remolques"},
		11:        {"11 trailers", "11 remolques"},
		21:        {"21 trailers", "21 remolques"},
		1234:      {"1,234 trailers", "1,234 remolques"},
		1_000_000: {"1,000,000 trailers", "1,000,000 remolques"},
	} {
		if got := English.Counted("count trailer", n); got != want[0] {
			t.Errorf("%q, want %q", got, want[0])
		}
		if got := Spanish.Counted("count trailer", n); got != want[1] {
			t.Errorf("%q, want %q", got, want[1])
		}
	}
}

// TestScript hands a page's scripts the phrases that they name, and no others: by a whole key,
// or all that begin with a word.
func TestScript(t *testing.T) {
	phrases := func(text []byte) map[string]string {
		t.Helper()
		body, ok := strings.CutPrefix(string(text), `var PHRASES=Object.assign(typeof PHRASES=="undefined"||!PHRASES?{}:PHRASES,`)
		body, closed := strings.CutSuffix(body, ");\n")
		out := map[string]string{}
		if err := json.Unmarshal([]byte(body), &out); !ok || !closed || err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		return out
	}
	const script = `say("left", n); say("need " + kind); other("no such key"); over`
	got := phrases(English.Script(script))
	if got["left"] != "{1} left" || got["need payload"] != "the trailer's payload" {
		t.Errorf("%v", got)
	}
	for key := range got {
		if key != "left" && !strings.HasPrefix(key, "need ") {
			t.Errorf("%q is not named by the script", key)
		}
	}
	if want := phrases(Spanish.Script(script)); !slices.Equal(slices.Sorted(maps.Keys(want)), slices.Sorted(maps.Keys(got))) || want["left"] != "quedan {1}" {
		t.Errorf("in Spanish %v", want)
	}
	if got := phrases(English.Script("nothing")); len(got) != 0 {
		t.Errorf("%v", got)
	}
	one, two := string(English.Script(script)), string(English.Script(script))
	if one != two {
		t.Error("two scripts differ")
	}
}
