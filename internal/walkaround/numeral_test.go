package walkaround

import (
	"bufio"
	"compress/bzip2"
	"os"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/thorough"
)

func lexed(s string) *hearing {
	h := &hearing{}
	for w := range strings.FieldsSeq(s) {
		h.t = lex(h.t, w, 0, 0, 0)
	}
	return h
}

// TestEveryIntegerReadsBack reads every integer to 100,000 as an independent library
// speaks it: testdata/numbers.txt.bz2 is the output of the npm package number-to-words
// 1.2.4, toWords(0) to toWords(100000), one a line. Its commas are not spoken and are
// left out here.
func TestEveryIntegerReadsBack(t *testing.T) {
	f, err := os.Open("testdata/numbers.txt.bz2")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := bufio.NewScanner(bzip2.NewReader(f))
	i, wrong := 0, 0
	for ; in.Scan(); i++ {
		if i > 2_000 && i%11 != 0 && !thorough.BeforePush() {
			continue // one in eleven, which meets every last digit
		}
		h := lexed(strings.ReplaceAll(in.Text(), ",", "") + " pounds")
		n, ok := h.numeralAt(0)
		v, whole := 0.0, false
		if ok {
			v, whole = n.together()
		}
		if !ok || !whole || v != float64(i) || n.to != len(h.t)-1 {
			t.Errorf("%q read as %v (%d of %d words)", in.Text(), n.parts, n.to, len(h.t)-1)
			if wrong++; wrong > 20 {
				t.FailNow()
			}
		}
	}
	if i != 100001 {
		t.Fatalf("%d numbers in the table, 100001 expected", i)
	}
}

// TestNumeralsAsSaid holds the forms of web talk that no library speaks. Common practice,
// no source.
func TestNumeralsAsSaid(t *testing.T) {
	for _, c := range []struct {
		said string
		want float64
	}{
		{"seventy-seven hundred", 7700}, {"fifteen four", 15400}, {"twenty-nine fifty", 2950},
		{"eighteen four fifty", 18450}, {"nine nine ninety", 9990}, {"nine nine nine oh", 9990},
		{"ninety-nine ninety", 9990}, {"ten nine ninety five", 10995}, {"one twenty-five", 125},
		{"a hundred and two", 102}, {"hundred and two", 102}, {"fifteen k", 15000}, {"25.9k", 25900},
		{"twelve point five thousand", 12500}, {"9 grand", 9000}, {"24,000", 24000}, {"14,9", 14900},
		{"two and five sixteenths", 2.3125}, {"two five sixteenths", 2.3125}, {"two and five sixteens", 2.3125},
		{"2-5/16", 2.3125}, {"2 and 5/16ths", 2.3125}, {"two 5/16", 2.3125}, {"eight and a half", 8.5},
		{"thirty-four and a quarter", 34.25}, {"three and three eighths", 3.375}, {"8 1/2", 8.5},
		{"seventeen point five", 17.5}, {"twenty-one thousand nine ninety-five", 21995}, {"15 thousand 6 hundred", 15600},
	} {
		h := lexed(c.said)
		n, ok := h.numeralAt(0)
		v, whole := 0.0, false
		if ok {
			v, whole = n.together()
		}
		if !ok || !whole || v != c.want || n.to != len(h.t) {
			t.Errorf("%q read as %v, %d of %d words, want %v", c.said, n.parts, n.to, len(h.t), c.want)
		}
	}
}

// TestNumeralsApart: where one number ends and the next begins, without a comma. Common practice,
// no source.
func TestNumeralsApart(t *testing.T) {
	for said, want := range map[string][]float64{
		"twenty nine ninety two thousand nine hundred and ninety": {2990, 2990},
		"nineteen ninety five nineteen hundred and ninety five":   {1995, 1995},
		"seventeen thousand two hundred sixty tires":              {17260},
		"ten thousand and eight tires":                            {10000, 8},
		"twenty twenty five seventy seven by fourteen":            {2025, 77, 14},
		"25 9 25 9 gross": {25900, 25900},
	} {
		h := &hearing{t: tokens(said)}
		var got []float64
		for _, q := range h.quantities() {
			v, _ := q.together()
			got = append(got, v)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", said, got, want)
		}
	}
}

// TestPairAfterLetters: a pair after an abbreviation or a tire size in the same word once
// ended the program.
func TestPairAfterLetters(t *testing.T) {
	for said, want := range map[string]string{"g-v$14,9": "gv $ 14 9", "235/80r16$14,9.": "size:235/80r16 $ 14 9 ."} {
		var got []string
		for _, tok := range lexed(said).t {
			got = append(got, tok.text)
		}
		if s := strings.Join(got, " "); s != want {
			t.Errorf("%q is %q, want %q", said, s, want)
		}
	}
}
