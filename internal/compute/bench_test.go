package compute_test

import (
	"testing"

	"tarepage/internal/compute"
)

// BenchmarkUnit works every figure of the example in docs/design.md.
func BenchmarkUnit(b *testing.B) {
	u, s := example(b), settings()
	b.ReportAllocs()
	for b.Loop() {
		compute.Unit(u, s)
	}
}
