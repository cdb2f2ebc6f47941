package oracle_test

import (
	"math"
	"os"
	"strconv"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

func nearly(got measure.Pounds, want, within float64) bool {
	return math.Abs(float64(got)-want) <= within
}

// cargo is the trailer of check values 8.13 and 8.14, worked by hand: 2,000 lb with its
// center of gravity 10 ft behind the ball, the axle at 12 ft, so T0 = 2,000 / 6.
var cargo = compute.Rig{
	Empty: 2000, Tongue: 2000.0 / 6, Axles: 144, Front: 60, Length: 216,
	GVWR: 7000, Hold: 6200, HoldBy: compute.WheelHold, Holds: [3]measure.Pounds{7000, 6500, 6200},
	TongueMost: 1050, Coupler: 7000, Ball: 7500, Least: 0.10, Most: 0.15,
}

func fiveThousand(feet float64) compute.Placed {
	return compute.Placed{Load: compute.Load{Weight: 5000, Length: 96}, Behind: measure.Feet(feet).Inches() - cargo.Front}
}

// many is how many random trailers are held against an independent solver: ten thousand, or
// fewer where the mutation check asks the same tests thousands of times.
func many() int {
	if n, err := strconv.Atoi(os.Getenv("TAREPAGE_TRAILERS")); err == nil && n > 0 {
		return n
	}
	return 10000
}
