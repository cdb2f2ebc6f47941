package tables

import "testing"

// 26 USC 4051(c): the tax "shall not apply" on and after 1 October 2028.
func TestExciseEnds(t *testing.T) {
	for day, want := range map[string]bool{"2026-11-25": true, "2028-09-30": true, "2028-10-01": false, "2030-01-01": false} {
		for _, part := range []string{"trailer", "later parts"} {
			if _, ok := Excise(part, day); ok != want {
				t.Errorf("%s on %s: %v, want %v", part, day, ok, want)
			}
		}
	}
	e, _ := Excise("trailer", "2026-11-25")
	if e.Rate.String() != "12%" || e.Over != 26000 { // 26 USC 4051(a)(1), (a)(3)
		t.Errorf("the trailer's row is %+v", e)
	}
	p, _ := Excise("later parts", "2026-11-25")
	if p.Floor != 1000 || p.Months != 6 { // 26 USC 4051(b)(1), (b)(2)(B)
		t.Errorf("the row of later parts is %+v", p)
	}
}

// Every state rule says where it comes from and when it was looked at; the loaders
// refuse one that does not.
func TestStateRules(t *testing.T) {
	const head = "state,subject,value,unit,condition,cite,checked,source,grade,note\n"
	for _, c := range []struct{ data, want string }{
		{"Texas,brakes,4500,lb,,a code,2026-11-25,a page,S3,\n", `state_rule.csv:2: column state: "Texas" is not a state; write two capitals, TX`},
		{"TX,brakes,4500,stone,,a code,2026-11-25,a page,S3,\n", `state_rule.csv:2: column unit: "stone" is none of lb, ft, in, min, %, mph`},
		{"TX,brakes,4500,lb,,a code,yesterday,a page,S3,\n", `state_rule.csv:2: column checked: "yesterday" is not a date; write it as 2026-11-25`},
		{"TX,brakes,4500,lb,,,2026-11-25,a page,S3,\n", "state_rule.csv:2: column cite is blank"},
	} {
		if err := read("state_rule.csv", []byte(head+c.data)); err == nil || err.Error() != c.want {
			t.Errorf("%q gives %v, want %s", c.data, err, c.want)
		}
	}
	for _, s := range StateRules() {
		// Rows the reference could not confirm keep a weak grade (regulations section 7).
		if s.Cite == "digest only; no clause seen" && s.Grade != OneSource {
			t.Errorf("%s %s rests on a digest and is graded %s", s.State, s.Subject, s.Grade)
		}
	}
}
