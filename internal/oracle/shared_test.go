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

// many is how many random trailers are compared with an independent solver: ten thousand in the
// long tests, else the first 2,500 of them. The mutation check asks the same tests thousands of
// times and takes fewer.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("TAREPAGE_TRAILERS")); err == nil && n > 0 {
		return n
	}
	if os.Getenv("TAREPAGE_LONG") == "" {
		return 2500
	}
	return 10000
}
