package compute

import (
	"strconv"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

// LoadPoints are the published points of load against pressure, for the tests.
func LoadPoints(t *testing.T) []tables.LoadPointRow { return loadPoints(t) }

func loadPoints(t *testing.T) []tables.LoadPointRow {
	t.Helper()
	var out []tables.LoadPointRow
	for _, table := range tables.All() {
		if table.Name != "load-points" {
			continue
		}
		for _, cells := range table.Records {
			at := map[string]string{}
			for i, column := range table.Columns {
				at[column] = cells[i]
			}
			psi, err := strconv.ParseFloat(at["psi"], 64)
			if err != nil {
				t.Fatal(err)
			}
			lb, err := strconv.ParseFloat(at["lb"], 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, tables.LoadPointRow{Size: at["size"], Dual: at["mounting"] == "dual", Pressure: measure.PSI(psi), Load: measure.Pounds(lb),
				Cited: tables.Cited{Source: at["source"], Grade: tables.Grade(at["grade"])}})
		}
	}
	if len(out) == 0 {
		t.Fatal("there is no table of load points")
	}
	return out
}
