package unit

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// What is standard on the model comes first, then what the unit adds; standard-not takes away.
func TestStandardOfModelAndUnit(t *testing.T) {
	for _, c := range []struct {
		name, unit string
		want       []string
		problem    string
	}{
		{"nothing of its own", "", []string{"spare tire", "winch plate"}, ""},
		{"one more", "standard:\n  - toolbox\n", []string{"spare tire", "winch plate", "toolbox"}, ""},
		{"the same again", "standard:\n  - Spare Tire\n", []string{"winch plate", "Spare Tire"}, ""},
		{"one less", "standard-not:\n  - Winch Plate\n", []string{"spare tire"}, ""},
		{"one more and none of the model's", "standard:\n  - toolbox\nstandard-not:\n  - spare tire\n  - winch plate\n", []string{"toolbox"}, ""},
		{"mistyped", "standard-not:\n  - winch plates\n", []string{"spare tire", "winch plate"}, `did you mean "winch plate"?`},
		{"nothing like it", "standard-not:\n  - ramps\n", []string{"spare tire", "winch plate"}, "spare tire; winch plate"},
		{"both ways", "standard:\n  - toolbox\nstandard-not:\n  - toolbox\n", []string{"spare tire", "winch plate", "toolbox"}, "keep one of the two"},
		{"no model", "model:\nstandard:\n  - toolbox\nstandard-not:\n  - ramps\n", []string{"toolbox"}, "leave it out"},
	} {
		front := "---\nstock: EX-1\nmodel: m\n" + c.unit + "---\n"
		if strings.HasPrefix(c.unit, "model:") {
			front = "---\nstock: EX-1\n" + strings.TrimPrefix(c.unit, "model:\n") + "---\n"
		}
		stock, problems, err := Read(fstest.MapFS{
			"content/yard.md":     {Data: []byte("---\nname: A\nas-of: 2026-11-20\n---\n")},
			"content/models/m.md": {Data: []byte("---\nstandard:\n  - spare tire\n  - winch plate\n---\n")},
			"content/units/a.md":  {Data: []byte(front)},
		})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, item := range stock.Units[0].Standard {
			got = append(got, item.Value)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: standard is %q, want %q", c.name, got, c.want)
		}
		if (len(problems) > 0) != (c.problem != "") || c.problem != "" && !strings.Contains(problems[0].Remedy, c.problem) {
			t.Errorf("%s: problems %v", c.name, problems)
		}
	}
}
