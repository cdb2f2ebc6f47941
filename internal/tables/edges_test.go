package tables

import (
	"testing"

	"tarepage/internal/measure"
)

// TestTireSizeLimits: a size that no tire has is a slip of the pen. The limits are wider than any
// tire of a road trailer (common practice, no source).
func TestTireSizeLimits(t *testing.T) {
	for s, ok := range map[string]bool{
		"ST100/75R15": true, "ST99/75R15": false, "ST500/75R22.5": true, "ST501/75R22.5": false,
		"ST205/20R15": true, "ST205/19R15": false, "ST205/100R15": true, "ST205/101R15": false,
		"ST205/75R4": true, "ST205/75R3": false, "ST205/75R30": true, "ST205/75R31": false,
		"16x16-15": true, "15x6-15": false, "31x10.50R15LT": true, "24.00R25": true, "24.50R25": false,
	} {
		if _, err := ParseTireSize(s); (err == nil) != ok {
			t.Errorf("%s: %v", s, err)
		}
	}
}

// TestLoadAtPressures: of the points with a source, the least load at that pressure or more. The
// pressures and loads are those of the chart that load_inflation.csv cites; what is from memory
// (40 and 45 psi) does not count.
func TestLoadAtPressures(t *testing.T) {
	for _, c := range []struct {
		psi  measure.PSI
		want measure.Pounds
	}{{20, 1480}, {35, 1480}, {36, 1820}, {40, 1820}, {50, 1820}} {
		if got, ok := LoadAt("ST205/75R15", false, c.psi); !ok || got.Load != c.want {
			t.Errorf("at %s: %s (%v), want %s", c.psi, got.Load, ok, c.want)
		}
	}
	for _, psi := range []measure.PSI{500, 1000} {
		if got, ok := LoadAt("ST205/75R15", false, psi); ok {
			t.Errorf("at %s: %s", psi, got.Load)
		}
	}
	if got, ok := LoadAt("nonsense", false, 20); ok {
		t.Errorf("without a tire it carries %s", got.Load)
	}
}

// TestBrakesAsked: "over 3,000 lb" leaves 3,000 lb free, "from 3,000 lb" does not. A row from
// memory lets nothing go without.
func TestBrakesAsked(t *testing.T) {
	over, from := StateBrakesRow{Weight: 3000}, StateBrakesRow{Weight: 3000, From: true}
	for _, c := range []struct {
		row   StateBrakesRow
		gross measure.Pounds
		want  bool
	}{{over, 2999, false}, {over, 3000, false}, {over, 3001, true}, {from, 2999, false}, {from, 3000, true}, {from, 3001, true}, {StateBrakesRow{}, 0, false}} {
		if c.row.Asks(c.gross) != c.want {
			t.Errorf("%+v at %s: %v", c.row, c.gross, !c.want)
		}
		for grade, counts := range map[Grade]bool{Official: true, TwoSources: true, OneSource: false, Memory: false, MemoryWeak: false} {
			row := c.row
			row.Grade = grade
			if row.Allows(c.gross) != (counts && !c.want) {
				t.Errorf("grade %s at %s allows: %v", grade, c.gross, row.Allows(c.gross))
			}
		}
	}
}
