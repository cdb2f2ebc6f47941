package inspect

import (
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
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

// TestDaysToCome: a day on which something happened has come. Tomorrow's may be today's in another time
// zone; what is on order comes later.
func TestDaysToCome(t *testing.T) {
	for keys, stops := range map[string]int{
		"arrived: 2026-11-30":                         0,
		"arrived: 2026-12-01":                         0,
		"arrived: 2026-12-02":                         1,
		"availability: on order\narrived: 2027-02-01": 0,
		"price: $5,000 (since 2027-02-01)":            1,
		"availability: sold (since 2027-02-01)":       1,
		"price: $5,000 (since 2026-11-30)\navailability: on the yard (since 2026-11-29)": 0,
	} {
		s, _, err := unit.Read(fstest.MapFS{"content/yard.md": {Data: []byte("---\nname: Example Yard\nas-of: 2026-11-20\n---\n")}, "content/units/ex-1.md": {Data: []byte("---\nstock: EX-1\n" + keys + "\n---\n")}})
		if err != nil {
			t.Fatal(err)
		}
		s.Today = unit.Day{Year: 2026, Month: 11, Day: 30}
		n := 0
		for _, f := range Stock(s, compute.Stock(s), nil) {
			if f.Severity == Stop && f.Rule.Name == "after-as-of" {
				n++
			}
		}
		if n != stops {
			t.Errorf("%s: %d stops, want %d", keys, n, stops)
		}
	}
}
