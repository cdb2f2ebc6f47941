package compute

import (
	"testing"

	"tarepage/internal/measure"
)

// TestEveryFigureHasAMetricForm: every unit of a definition has a form or a declared none,
// and a text that quotes such a figure is turned into metric in the same way. Without the
// second half the trial unit lb/sq ft printed "5,424 kg / 31.6 sq m = 35.2 lb/sq ft".
func TestEveryFigureHasAMetricForm(t *testing.T) {
	used := map[string]bool{}
	for _, d := range All {
		used[d.Unit] = true
		form, ok := metricForms[d.Unit]
		if !ok {
			t.Errorf("figure %s is in %q, which has no entry in metricForms", d.Name, d.Unit)
			continue
		}
		f := &Figure{Definition: d, Value: 35.25, Text: "35.25 " + d.Unit}
		got, inText := form(f), measure.InMetric("35.25 "+d.Unit, nil)
		switch turned := inText != "35.25 "+d.Unit; {
		case got == "" && turned && d.Unit != "lb-ft":
			t.Errorf("%q is declared to be the same in metric, and texts turn it into %s", d.Unit, inText)
		case got != "" && !turned:
			t.Errorf("%q is %s in metric, and texts leave it as it is", d.Unit, got)
		}
	}
	for unit := range metricForms {
		if !used[unit] {
			t.Errorf("metricForms has %q, which no figure is in", unit)
		}
	}
}

// TestMetricForms: 1 lb is 0.45359237 kg and 1 ft is 0.3048 m, both exactly (NIST SP 811,
// 2008, appendix B.8), and so on.
func TestMetricForms(t *testing.T) {
	for _, c := range []struct {
		unit  string
		value float64
		want  string
	}{
		{"lb", 1000, "454 kg"},
		{"ft", 20, "6.10 m"},
		{"mph", 65, "104.6 km/h"},
		{"sq ft", 100, "9.3 sq m"},
		{"cu yd", 10, "7.6 cu m"},
		{"ft/s2", 20, "6.1 m/s2"},
		{"lb/ft", 22, "32.74 kg/m"},
		{"%", 12, ""},
		{"lamps", 9, ""},
	} {
		f := &Figure{Definition: &Definition{Name: "trial", Unit: c.unit}, Value: c.value}
		if got := (&Work{}).Metric(f); got != c.want {
			t.Errorf("%v %s is %q, want %q", c.value, c.unit, got, c.want)
		}
	}
}

// TestUnknownUnitIsNotSilent: a figure of a unit without a form never comes out empty.
func TestUnknownUnitIsNotSilent(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a figure in lb/sq ft passes for one that is the same in metric")
		}
	}()
	(&Work{}).Metric(&Figure{Definition: &Definition{Name: "trial", Unit: "lb/sq ft"}, Value: 35.2})
}
