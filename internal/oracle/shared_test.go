package oracle_test

import (
	"math"
	"os"
	"strconv"

	"tarepage/internal/measure"
)

func nearly(got measure.Pounds, want, within float64) bool {
	return math.Abs(float64(got)-want) <= within
}

// many is how many random trailers are held against an independent solver: ten thousand, or
// fewer where the mutation check asks the same tests thousands of times.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("TAREPAGE_TRAILERS")); err == nil && n > 0 {
		return n
	}
	return 10000
}
