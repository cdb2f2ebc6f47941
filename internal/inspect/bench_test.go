package inspect_test

import (
	"os"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// BenchmarkUnit works and inspects a whole unit, as a build does for each unit.
func BenchmarkUnit(b *testing.B) {
	src, err := os.ReadFile("../unit/testdata/sb-1043.md")
	if err != nil {
		b.Fatal(err)
	}
	u, problems := unit.ReadUnit("content/units/sb-1043.md", src)
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	s := &unit.Stock{Yard: &unit.Yard{File: "content/yard.md"}, Units: []*unit.Unit{u}}
	settings := compute.SettingsOf(s.Yard)
	b.ReportAllocs()
	for b.Loop() {
		inspect.Stock(s, []*compute.Work{compute.Unit(u, settings)}, nil)
	}
}
