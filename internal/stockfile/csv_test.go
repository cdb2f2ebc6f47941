package stockfile

import "testing"

// TestSpreadsheetCells: a text is a cell, and so is what follows a separator in it.
func TestSpreadsheetCells(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "plain": "plain", "-4": "-4", "=1+1": "'=1+1", "a;=1+1": "a;'=1+1", "a\t@SUM(1)": "a\t'@SUM(1)", "a; \"=1": "a;' \"=1",
		"a\n-b": "a\n'-b", "\t=1": "'\t'=1", "\tx": "'\tx", ";=x": ";'=x", "a;b": "a;b", "it's": "it's", "a;'=x": "a;''=x", "\u00a0=x": "'\u00a0=x", "a\r＋x": "a\r'＋x",
	} {
		if got := text(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}
