package compute_test

import (
	"testing"

	"tarepage/internal/compute"
)

// BenchmarkUnit works every figure of the design's example.
func BenchmarkUnit(b *testing.B) {
	u, s := example(b), settings()
	b.ReportAllocs()
	for b.Loop() {
		compute.Unit(u, s)
	}
}
