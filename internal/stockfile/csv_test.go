package stockfile

import (
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
)

// TestSpreadsheetCells: a text is a cell, and so is what follows a separator in it.
func TestSpreadsheetCells(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "plain": "plain", "-4": "-4", "=1+1": "'=1+1", "a;=1+1": "a;'=1+1", "a\t@SUM(1)": "a\t'@SUM(1)", "a; \"=1": "a;' \"=1",
		"a\n-b": "a\n'-b", "\t=1": "'\t'=1", "\tx": "'\tx", ";=x": ";'=x", "a;b": "a;b", "it's": "it's", "a;'=x": "a;''=x", "\u00a0=x": "'\u00a0=x", "a\r＋x": "a\r'＋x",
	} {
		if got := Safe(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

// TestPlain holds that what was made safe for spreadsheets reads back as it was.
func TestPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[-='"; @+a1\t\n\x{a0}]{0,8}`).Draw(t, "cell")
		if got := Plain(Safe(s)); got != s {
			t.Fatalf("%q became %q and then %q", s, Safe(s), got)
		}
	})
}

// TestSignsAfterWhatIsUnseen: a sign of a formula counts after characters that show nothing too.
func TestSignsAfterWhatIsUnseen(t *testing.T) {
	for _, front := range []string{"", " ", "\u00a0", "\u2003", "\u200b", "\u2060", "\u00ad", "\u200d\" "} {
		for _, sign := range []string{"=", "+", "@", "＝"} {
			if got := Safe("red;" + front + sign + "1x"); got != "red;'"+front+sign+"1x" {
				t.Errorf("%q is written as %q", "red;"+front+sign+"1x", got)
			}
		}
		if got := Safe(front + "red = 1"); got != front+"red = 1" {
			t.Errorf("%q is written as %q", front+"red = 1", got)
		}
	}
}
