package compute

import (
	"runtime"
	"strings"
	"testing"
)

// TestManyTerms: the working of a long sum takes memory in proportion to its length. As a
// sentence in a sentence it took 9 GB for 30,000 terms.
func TestManyTerms(t *testing.T) {
	var terms sums
	for range 30_000 {
		terms = append(terms, say("%d x %s", 8, "5,000 lb"))
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	text := say("(%s) / 2", terms).String()
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 32<<20 {
		t.Errorf("%d MB for %d bytes", took>>20, len(text))
	}
	if !strings.HasPrefix(text, "(8 x 5,000 lb + 8 x 5,000 lb + ") || !strings.HasSuffix(text, " + 8 x 5,000 lb) / 2") {
		t.Errorf("%.50s", text)
	}
}
