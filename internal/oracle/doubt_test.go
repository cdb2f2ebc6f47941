package oracle

import (
	"testing"

	"tarepage/internal/measure"
)

// TestDoubt: half of the least and twice the most of a class are the last that are not questioned.
func TestDoubt(t *testing.T) {
	class := Class{Light: 8000, Heavy: 10500, Shortest: 120, Longest: 144}
	for _, c := range []struct {
		weight measure.Pounds
		length measure.Inches
		want   string
	}{
		{9500, 132, ""},
		{4000, 60, ""},
		{21000, 288, ""},
		{3999, 132, "is it really 3,999 lb? This class weighs 8,000 lb to 10,500 lb"},
		{95, 132, "is it really 95 lb? This class weighs 8,000 lb to 10,500 lb"},
		{21001, 132, "is it really 21,001 lb? This class weighs 8,000 lb to 10,500 lb"},
		{9500, 59, "is it really 4 ft 11 in long? This class is 10 ft to 12 ft long"},
		{9500, 11, "is it really 11 in long? This class is 10 ft to 12 ft long"},
		{9500, 289, "is it really 24 ft 1 in long? This class is 10 ft to 12 ft long"},
	} {
		if got := Doubt(class, c.weight, c.length, measure.American); got != c.want {
			t.Errorf("%v, %v: %q, want %q", c.weight, c.length, got, c.want)
		}
	}
	if got := Doubt(Class{}, 95, 11, measure.American); got != "" {
		t.Errorf("a class that nobody knows: %q", got)
	}
}

func TestQuestion(t *testing.T) {
	v := Verdict{Is: "yes", Limits: []Checked{{}}}
	v.Question("")
	if v.Is != "yes" {
		t.Errorf("without a doubt: %+v", v)
	}
	if v.Question("is it really 95 lb"); v.Is != "unknown" || v.Text != "CANNOT SAY YET: is it really 95 lb." {
		t.Errorf("%+v", v)
	}
	for _, limits := range [][]Checked{nil, {{}, {Over: true}}} {
		v = Verdict{Is: "no", Limits: limits}
		if v.Question("is it really 95 lb"); v.Is != "no" {
			t.Errorf("%+v", v)
		}
	}
}
