package measure

import "testing"

// TestReadNumbersStrictly: front matter refuses a price with one or three decimals, and a
// fraction that is a band or two ratings.
func TestReadNumbersStrictly(t *testing.T) {
	bad := map[string]error{}
	read := func(text string, _ any, err error) { bad[text] = err }
	for _, s := range []string{"$18.450", "$18.4", "$1,234.5", "$18.4500"} {
		w, err := ParseMoney(s)
		read(s, w, err)
	}
	for _, s := range []string{"10/15%", "9/16%"} {
		w, err := ParseShare(s)
		read(s, w, err)
	}
	for _, s := range []string{"50/65 psi", "1/2 psi"} {
		w, err := ParsePressure(s)
		read(s, w, err)
	}
	for _, s := range []string{"500/600 lb", "124/126 kg", "9.500 lb", "18.450 lb"} {
		w, err := ParseWeight(s)
		read(s, w, err)
	}
	for _, s := range []string{"10/15 in", "5/12 ft"} {
		w, err := ParseLength(s)
		read(s, w, err)
	}
	for s, err := range bad {
		if err == nil {
			t.Errorf("%q was read", s)
		}
	}
	for _, s := range []string{"$18,450.50", "$18.5k", "$18", "18,450 USD"} {
		if _, err := ParseMoney(s); err != nil {
			t.Error(err)
		}
	}
	if w, err := ParseLength("2-5/16 in"); err != nil || w.Value != 2.3125 {
		t.Error(w, err)
	}
	if w, err := ParseWeight("0.125 lb"); err != nil || w.Value != 0.125 {
		t.Error(w, err)
	}
}
