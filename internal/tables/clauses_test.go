package tables

import (
	"slices"
	"testing"
)

func TestClauses(t *testing.T) {
	for _, c := range []struct {
		source string
		want   []string
	}{
		{"49 CFR 393.130 (2015 edition)", []string{"393.130"}},
		{"49 CFR 393.13", []string{"393.13"}},
		{"in service 393.11(b), 393.13", []string{"393.11", "393.13"}},
		{"49 CFR 571.110 S4.2.2.1, S4.2.2.2 (2015, amended 2016)", []string{"571.110"}},
		{"26 USC 4051(a)(1); 26 CFR 145.4051-1(e)(3)(iv)", []string{"145.4051-1", "USC 4051"}},
		{"SAE J684; the stamp governs", []string{"J684"}},
		{"1393.13 and 0.393.13", nil},
		{"common practice, no source", nil},
	} {
		var got []string
		for _, found := range Clauses(c.source) {
			got = append(got, found.Mark)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q cites %q, want %q", c.source, got, c.want)
		}
	}
	since := map[string]string{
		"393.42":  "not checked since 2015",
		"571.110": "amended on 9 November 2016 (81 FR 78724): special trailer tires are expressly allowed; the rest was not checked",
		"R54":     "not checked since",
	}
	for _, c := range AllClauses() {
		if want, ok := since[c.Mark]; ok && c.Since() != want {
			t.Errorf("%s: %q, want %q", c.Mark, c.Since(), want)
		}
	}
}
