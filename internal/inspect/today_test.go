package inspect

import (
	"testing"
	"testing/fstest"

	"tarepage/internal/unit"
)

// TestAsOfAfterToday: the day of the stock may be today's, and tomorrow's where another time zone is
// ahead. A later one stops the yard, if the clock is believed.
func TestAsOfAfterToday(t *testing.T) {
	for asOf, stops := range map[string]int{"2026-11-30": 0, "2026-12-01": 0, "2026-12-02": 1, "2062-11-30": 1} {
		s, _, err := unit.Read(fstest.MapFS{"content/yard.md": {Data: []byte("---\nname: Example Yard\nas-of: " + asOf + "\n---\n")}, "content/units/ex-1.md": {Data: []byte("not a unit")}})
		if err != nil {
			t.Fatal(err)
		}
		if n := Count(Across(s, nil), Stop); n != 0 {
			t.Errorf("%s: %d stops without a clock", asOf, n)
		}
		s.Today = unit.Day{Year: 2026, Month: 11, Day: 30}
		if n := Count(Across(s, nil), Stop); n != stops {
			t.Errorf("%s: %d stops, want %d", asOf, n, stops)
		}
	}
}
