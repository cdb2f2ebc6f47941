package walkaround

import (
	"strings"

	"tarepage/internal/measure"
)

// A dimension is what a figure of a role is measured in.
type dimension uint8

const (
	weight dimension = iota
	length           // said in feet or inches; a bare number is feet where the role is long
	pressure
	money
	count
	year
	week    // of manufacture
	section // of a beam or a channel
	size    // of a tire
	letter  // a load range
)

// A roleRow says what a figure of a role can be. Low and high bound what is sensible, in
// pounds, inches, psi, dollars or pieces: a figure outside is never given the role. The
// bounds are common practice, no source. The example is a sentence in which the ear hears
// the role; a test says it.
type roleRow struct {
	role      Role
	dim       dimension
	low, high float64
	example   string
}

// ft is a length in feet.
const ft = measure.InchesPerFoot

var roleTable = []roleRow{
	{GVWR, weight, 1000, 80000, "gvwr is fourteen thousand"},
	{Empty, weight, 200, 30000, "it weighs 4,100 lb empty"},
	{TongueEmpty, weight, 20, 12000, "tongue weight is 450 pounds"},
	{Payload, weight, 300, 60000, "payload is 9,800 lb"},
	{AxleRating, weight, 1500, 30000, "two 7,000 lb axles"},
	{HitchRating, weight, 1500, 80000, "coupler is rated 20,000 lb"},
	{JackRating, weight, 800, 30000, "a 12,000 lb jack"},
	{DRingRating, weight, 500, 50000, "eight d-rings rated 5,000 lb each"},
	{ChainsBreaking, weight, 2000, 120000, "safety chains with a breaking strength of 26,500 lb each"},
	{RampRating, weight, 500, 60000, "the ramps are rated 7,000 lb for the pair"},
	{TireSingle, weight, 500, 8000, "the sidewall says 3,520 pounds single"},
	{TireDual, weight, 500, 8000, "the sidewall says 3,080 pounds dual"},
	{WheelRating, weight, 500, 10000, "the wheels are stamped 3,750 pounds"},

	{DeckLength, length, 4 * ft, 53 * ft, "the deck is 20 ft long"},
	{DeckFlat, length, 4 * ft, 53 * ft, "twenty foot of flat deck"},
	{DeckTail, length, 12, 24 * ft, "a five foot dovetail"},
	{DeckWidth, length, 48, 108, "the deck is 102 inches wide"},
	{DeckBetween, length, 48, 102, "83 inches between the fenders"},
	{DeckHeight, length, 8, 60, "the deck is 34 inches off the ground"},
	{DeckPivot, length, 2 * ft, 30 * ft, ""},
	{DeckFront, length, 2 * ft, 20 * ft, ""},
	{DeckTailEnd, length, 6, 48, ""},
	{BedLength, length, 6 * ft, 40 * ft, "dump bed is 14 ft long"},
	{BedWidth, length, 48, 102, "dump bed is 83 inches wide"},
	{BedHeight, length, 6, 72, "seven by fourteen dump with two foot sides"},
	{BedFloor, length, 8, 60, ""},
	{BoxLength, length, 6 * ft, 53 * ft, "enclosed trailer, the box is 16 ft long inside"},
	{BoxWidth, length, 48, 108, "inside it's 16 ft long, 82 inches wide and 84 inches high"},
	{BoxHeight, length, 48, 120, "enclosed trailer, interior height is 84 inches"},
	{BoxFloor, length, 8, 60, ""},
	{RampLength, length, 24, 14 * ft, "the ramps are five foot long"},
	{RampWidth, length, 8, 102, "the ramps are 16 inches wide"},
	{AxleSpacing, length, 28, 130, "axle spacing is 34 inches"},
	{AxleCenter, length, 4 * ft, 45 * ft, ""},
	{CrossSpacing, length, 8, 48, "crossmembers are 16 inches on center"},
	{Ball, length, 1.875, 3, "it takes a 2-5/16 ball"},
	{OverallWidth, length, 48, 120, ""},

	{Pressure, pressure, 20, 130, "run the tires at 80 psi"},
	{SidewallPSI, pressure, 20, 130, "each tire is rated 3,520 pounds at 80 psi"},
	{Price, money, 300, 250000, "asking $8,500"},

	{AxleCount, count, 1, 4, "two 7,000 lb axles"},
	{BrakeAxles, count, 1, 4, "brakes on both axles"},
	{JackCount, count, 1, 4, "two jacks up front"},
	{DRings, count, 1, 60, "eight d-rings"},
	{StakePockets, count, 1, 80, "22 stake pockets"},
	{Ply, count, 4, 20, "ten ply tires"},
	{PerAxle, count, 2, 4, ""},
	{ChainsCount, count, 1, 4, "two safety chains"},

	{ModelYear, year, 1960, 2040, "it's a 2024 model"},
	{TireMade, week, 0, 0, "date code on the tires is 3124"},
	{Beam, section, 0, 0, "main frame is a ten inch I-beam"},
	{Crossmember, section, 0, 0, "crossmembers are three inch channel"},
	{TireSize, size, 0, 0, "tires are 235/80R16"},
	{LoadRange, letter, 0, 0, "load range E tires"},
}

// roleIndex is the place of a role in roleTable.
var roleIndex = func() map[Role]int {
	m := map[Role]int{}
	for i, r := range roleTable {
		m[r.role] = i
	}
	return m
}()

// byDimension are the rows of each dimension.
var byDimension = func() [letter + 1][]int {
	var m [letter + 1][]int
	for i, r := range roleTable {
		m[r.dim] = append(m[r.dim], i)
	}
	return m
}()

// balls are the ball sizes that are made; anything else near a ball is something else.
var balls = []float64{1.875, 2, 2.3125, 3}

func (r *roleRow) fits(v float64) bool {
	if r.role == Ball {
		for _, b := range balls {
			if b == v {
				return true
			}
		}
		return false
	}
	return v >= r.low && v <= r.high
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}
