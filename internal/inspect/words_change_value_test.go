package inspect

import (
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// TestHarmlessWords holds each row of the table against its own example, and words that change a
// price or an availability against all rows. Common practice, no source.
func TestHarmlessWords(t *testing.T) {
	for key, list := range harmless {
		for _, row := range list {
			if !row.form.MatchString(row.eg) {
				t.Errorf("%s: the example %q does not fit its row", key, row.eg)
			}
		}
	}
	for note, key := range map[string]string{
		"per month": "price", "down": "price", "monthly": "price", "deposit": "price", "each week": "price", "plus $900 freight": "price",
		"with trade": "price", "after rebate": "price", "OAC": "price", "was": "price", "firm, per month": "price", "al mes": "price",
		"enganche": "price", "1,990": "price", "cash only": "price", "frame only": "price", "without tires": "price", "maybe": "price", "1,500 to 2,500": "price",
		"sold": "availability", "SOLD": "availability", "vendido": "availability", "s o l d": "availability", "since 2026-11-18; sold": "availability",
		"deposit taken": "availability", "gone": "availability", "not for sale": "availability", "on hold for the customer": "availability",
		"rental": "availability", "until sold 18 hours": "availability", "said sold": "availability",
	} {
		g := unit.Given{Path: key, Value: measure.Dollars(2290), From: measure.ParseProvenance(note)}
		if key == "availability" {
			g.Value = "on the yard"
		}
		if changing(g) == "" && g.From.Origin != measure.Said {
			t.Errorf("%s (%s) passes", key, note)
		}
	}
}
