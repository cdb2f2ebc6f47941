package tables

import (
	"testing"

	"tarepage/internal/measure"
)

// The weights of the statutes that were read: R.I. Gen. Laws 31-23-4(c) "four thousand
// pounds or more", Minn. Stat. 169.67 subd. 3(a) "3,000 or more pounds", and the Texas DPS
// page "4,500 pounds or less".
func TestStateBrakes(t *testing.T) {
	for _, c := range []struct {
		state        string
		gross        measure.Pounds
		asks, allows bool
	}{
		{"TX", 4499, false, true}, {"TX", 4500, false, true}, {"TX", 4501, true, false},
		{"RI", 3999, false, true}, {"RI", 4000, true, false}, {"RI", 4001, true, false},
		{"MN", 2999, false, true}, {"MN", 3000, true, false},
		// Two lists that disagree allow nothing, whatever the higher one says.
		{"AK", 2999, false, false}, {"AK", 4000, true, false}, {"MA", 5000, true, false},
		// No weight was found for Missouri: nothing is allowed there.
		{"MO", 2999, false, false},
	} {
		row, ok := StateBrakes(c.state)
		if !ok || row.Asks(c.gross) != c.asks || row.Allows(c.gross) != c.allows {
			t.Errorf("%s at %s: asks %v, allows %v (%v); want %v, %v", c.state, c.gross, row.Asks(c.gross), row.Allows(c.gross), ok, c.asks, c.allows)
		}
	}
	// Cal. Veh. Code 26303: every trailer coach and camp trailer "of 1,500 pounds or more".
	// N.C. Gen. Stat. 20-124(f): house trailers "of 1,000 pounds or more". Texas names none.
	for _, c := range []struct {
		state string
		gross measure.Pounds
		asks  bool
	}{{"CA", 1499, false}, {"CA", 1500, true}, {"CA", 1501, true}, {"NC", 999, false}, {"NC", 1000, true}, {"TX", 4500, false}, {"TX", 4501, true}} {
		if row, _ := StateBrakes(c.state); row.ForCamper().Asks(c.gross) != c.asks {
			t.Errorf("%s asks for brakes on a camper of %s: want %v", c.state, c.gross, c.asks)
		}
	}
	if _, ok := StateBrakes("XX"); ok {
		t.Error("there is a row for a state that does not exist")
	}
	if n := len(stateBrakesSheet.all()); n != 51 {
		t.Errorf("%d rows, want the 50 states and DC", n)
	}
	const head = "state,weight_lb,at,camper_lb,condition,cite,checked,source,grade,note\n"
	for _, c := range []struct{ data, want string }{
		{"Texas,4500,above,,,a code,2026-11-25,a page,S3,\n", `brake_state.csv:2: column state: "Texas" is not a state; write two capitals, TX`},
		{"TX,4500,below,,,a code,2026-11-25,a page,S3,\n", `brake_state.csv:2: column at: "below" is neither from nor above`},
		{"TX,4500,above,,,a code,yesterday,a page,S3,\n", `brake_state.csv:2: column checked: "yesterday" is not a date; write it as 2026-11-25`},
	} {
		if err := read("brake_state.csv", []byte(head+c.data)); err == nil || err.Error() != c.want {
			t.Errorf("%q gives %v, want %s", c.data, err, c.want)
		}
	}
}
