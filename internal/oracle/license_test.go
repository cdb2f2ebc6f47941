package oracle_test

import (
	"strings"
	"testing"

	"tarepage/internal/measure"
	"tarepage/internal/oracle"
)

// Check values 6.1 to 6.8: 49 CFR 383.5 and 383.91(a); 6.2 is FMCSA's own guidance to
// 383.91, question 2; the sum of two trailers in 6.8 is from memory.
func TestLicenseClass(t *testing.T) {
	rated := func(p measure.Pounds) oracle.Vehicle { return oracle.Vehicle{Rating: p} }
	for _, c := range []struct {
		name  string
		truck oracle.Vehicle
		label measure.Pounds
		towed []oracle.Vehicle
		want  oracle.License
	}{
		{"6.1", rated(14000), 0, []oracle.Vehicle{rated(14000)}, oracle.ClassA},
		{"6.2", rated(11500), 0, []oracle.Vehicle{rated(14000)}, oracle.NoClass},
		{"6.3", rated(12000), 0, []oracle.Vehicle{rated(14001)}, oracle.ClassA},
		{"6.3, a pound less", rated(12000), 0, []oracle.Vehicle{rated(14000)}, oracle.NoClass},
		{"6.4", rated(16000), 0, []oracle.Vehicle{rated(10000)}, oracle.NoClass},
		{"6.5: 36,000 combined, but towed not over 10,000", rated(26000), 0, []oracle.Vehicle{rated(10000)}, oracle.NoClass},
		{"6.5, a pound more towed", rated(26000), 0, []oracle.Vehicle{rated(10001)}, oracle.ClassA},
		{"6.6", rated(26001), 0, []oracle.Vehicle{rated(10000)}, oracle.ClassB},
		{"6.6, no trailer", rated(26001), 0, nil, oracle.ClassB},
		{"6.7: the highest mix", oracle.Vehicle{Rating: 11500, Actual: 12500}, 0, []oracle.Vehicle{{Rating: 14000, Actual: 13600}}, oracle.ClassA},
		{"6.7, ratings alone", rated(11500), 0, []oracle.Vehicle{rated(14000)}, oracle.NoClass},
		{"6.7, weights alone: 26,100", oracle.Vehicle{Actual: 12500}, 0, []oracle.Vehicle{{Actual: 13600}}, oracle.ClassA},
		{"6.8", rated(20000), 0, []oracle.Vehicle{rated(6000), rated(6000)}, oracle.ClassA},
		{"6.8, one of them", rated(20000), 0, []oracle.Vehicle{rated(6000)}, oracle.NoClass},
		// 383.5: the maker's value counts "if such value is displayed on the ... label".
		{"the label's own combination rating", rated(11500), 30000, []oracle.Vehicle{rated(14000)}, oracle.ClassA},
		{"the same, towed not over 10,000", rated(11500), 30000, []oracle.Vehicle{rated(10000)}, oracle.NoClass},
		{"the same, not towing", rated(11500), 30000, nil, oracle.NoClass},
		{"an overloaded trailer counts by its weight", rated(16000), 0, []oracle.Vehicle{{Rating: 9990, Actual: 10001}}, oracle.ClassA},
	} {
		if got := oracle.LicenseClass(c.truck, c.label, c.towed...); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	for _, l := range []oracle.License{oracle.NoClass, oracle.ClassB, oracle.ClassA} {
		if !strings.Contains(l.Text(), "ask your state") {
			t.Errorf("%v decides for the state: %q", l, l.Text())
		}
	}
}

// Check value 6.9: 49 CFR 390.5, 10,001 lb or more.
func TestMayBeCommercial(t *testing.T) {
	truck := oracle.Vehicle{Rating: 7000}
	if !oracle.MayBeCommercial(truck, 0, oracle.Vehicle{Rating: 3001}) {
		t.Error("7,000 + 3,001 is 10,001")
	}
	if oracle.MayBeCommercial(truck, 0, oracle.Vehicle{Rating: 3000}) {
		t.Error("7,000 + 3,000 is 10,000")
	}
	if !oracle.MayBeCommercial(oracle.Vehicle{Rating: 10001}, 0) {
		t.Error("a truck of 10,001 lb by itself")
	}
}
