package measure

import "math"

// These are the products and quotients that figures need. Each result is an explicit
// conversion, so that a compiler may not fuse it with a following addition.

// Moment is the turning effect of the weight w at the distance arm behind the ball.
func Moment(w Pounds, arm Inches) PoundInches {
	return PoundInches(float64(w) * float64(arm))
}

// WeightAt is the weight that has the moment m at the distance arm. The arm must not be
// zero; callers check it first.
func WeightAt(m PoundInches, arm Inches) Pounds {
	return Pounds(float64(m) / float64(arm))
}

// ArmOf is the distance at which w has the moment m. The weight must not be zero.
func ArmOf(m PoundInches, w Pounds) Inches {
	return Inches(float64(m) / float64(w))
}

// ShareOf is part of whole as a share. The whole must not be zero.
func ShareOf(part, whole Pounds) Share {
	return Share(float64(part) / float64(whole))
}

// ShareOfLength is part of whole as a share. The whole must not be zero.
func ShareOfLength(part, whole Inches) Share {
	return Share(float64(part) / float64(whole))
}

// ShareOfPressure is part of whole as a share. The whole must not be zero.
func ShareOfPressure(part, whole PSI) Share {
	return Share(float64(part) / float64(whole))
}

// Of is the share s of the weight p. It computes with whole ten-thousandths of a percent
// where the share is a whole number of them. So 15% of 7,700 lb is exactly 1,155 lb, and the
// ends of a band stay inclusive. Binary numbers cannot hold 0.15 exactly, and 0.7 / 100 is
// not even the binary number nearest to 0.007.
func (s Share) Of(p Pounds) Pounds {
	const millionths = 1e6
	v := float64(float64(s) * millionths)
	if n := math.Round(v); math.Abs(v-n) <= 1e-9 {
		return Pounds(float64(p) * n / millionths)
	}
	return Pounds(float64(s) * float64(p))
}

// Times is the share s of the share t.
func (s Share) Times(t Share) Share { return Share(float64(s) * float64(t)) }

// OfLength is the share s of the length in.
func (s Share) OfLength(in Inches) Inches { return Inches(float64(s) * float64(in)) }

// Power is s to the power n.
func (s Share) Power(n float64) Share { return Share(math.Pow(float64(s), n)) }

// Times is n weights of p.
func (p Pounds) Times(n int) Pounds { return Pounds(float64(p) * float64(n)) }

// Part is p x num / den. It multiplies first, so that 1,925 lb x 10 / 11 is exactly 1,750 lb.
// 1,925 / 1.1 in binary is not exact (49 CFR 571.110 S4.2.2.2 is inclusive).
func (p Pounds) Part(num, den int) Pounds {
	return Pounds(float64(p) * float64(num) / float64(den))
}

// Parted is each of n equal parts of a length.
func (in Inches) Parted(n int) Inches { return Inches(float64(in) / float64(n)) }

// OfVolume is a share of a volume of liquid.
func (s Share) OfVolume(g Gallons) Gallons { return Gallons(float64(s) * float64(g)) }

// Half is half the weight, which a binary number holds exactly.
func (p Pounds) Half() Pounds { return Pounds(float64(p) / 2) }

// AtPrice is what the weight costs at so many dollars a pound.
func (p Pounds) AtPrice(perPound Dollars) Dollars { return Dollars(float64(perPound) * float64(p)) }

// OfMoney is the share s of an amount, by the same reasoning as Of.
func (s Share) OfMoney(d Dollars) Dollars { return Dollars(s.Of(Pounds(d))) }

// Times is n lengths of in.
func (in Inches) Times(n int) Inches { return Inches(float64(in) * float64(n)) }

// Half is half the length.
func (in Inches) Half() Inches { return Inches(float64(in) / 2) }

// Area is the area of a deck of the given length and width.
func Area(length, width Inches) SquareFeet {
	return SquareFeet(float64(length) * float64(width) / (InchesPerFoot * InchesPerFoot))
}

// Volume is the volume of a box of the given inside measures.
func Volume(length, width, height Inches) CubicYards {
	const cubicInchesPerCubicYard = 36 * 36 * 36
	return CubicYards(float64(length) * float64(width) * float64(height) / cubicInchesPerCubicYard)
}

// HeapedOn is the volume of a heap on a floor of the given length and width whose sides
// rise one on two (2:1) from all four edges: a hipped roof of height W/4 over the
// shorter side W, which is W x W (3 L - W) / 24.
func HeapedOn(length, width Inches) CubicYards {
	const cubicInchesPerCubicYard = 36 * 36 * 36
	l, w := float64(max(length, width)), float64(min(length, width))
	return CubicYards(w * w * (float64(3*l) - w) / (24 * cubicInchesPerCubicYard))
}

// VolumeOfWeight is the volume of a material of density d that weighs w. The density must
// not be zero.
func VolumeOfWeight(w Pounds, d PoundsPerCubicYard) CubicYards {
	return CubicYards(float64(w) / float64(d))
}

// HeightOfVolume is how high a volume stands, level, on a floor of the given length and
// width, which must not be zero.
func HeightOfVolume(v CubicYards, length, width Inches) Inches {
	const cubicInchesPerCubicYard = 36 * 36 * 36
	return Inches(float64(v) * cubicInchesPerCubicYard / (float64(length) * float64(width)))
}

// WeightOfLiquid is the weight of a volume of a liquid.
func WeightOfLiquid(g Gallons, d PoundsPerGallon) Pounds { return Pounds(float64(g) * float64(d)) }

// LiquidOfWeight is the volume of a liquid of that weight.
func LiquidOfWeight(w Pounds, d PoundsPerGallon) Gallons { return Gallons(float64(w) / float64(d)) }

// WeightOfVolume is the weight of the volume v at density d.
func WeightOfVolume(v CubicYards, d PoundsPerCubicYard) Pounds {
	return Pounds(float64(v) * float64(d))
}

// WeightOfLength is the weight of a bar of the given length.
func WeightOfLength(length Inches, w PoundsPerFoot) Pounds {
	return Pounds(float64(length) * float64(w) / InchesPerFoot)
}

// WeightOfArea is the weight of a floor of the given area, from its pounds a square foot.
func WeightOfArea(a SquareFeet, perSquareFoot float64) Pounds {
	return Pounds(float64(a) * perSquareFoot)
}

// PerSquareFoot is the weight of a square foot of a sheet, in pounds, from its thickness and
// its pounds a cubic foot.
func PerSquareFoot(thickness Inches, perCubicFoot float64) float64 {
	return float64(thickness) * perCubicFoot / InchesPerFoot
}

// Spaces is the number of whole steps that fit into the length. The step must not be zero.
func (in Inches) Spaces(step Inches) int { return int(math.Floor(float64(in)/float64(step) + slack)) }

// Steps is the number of steps that cover the length. A step that is begun counts.
func (in Inches) Steps(step Inches) int { return int(math.Ceil(float64(in)/float64(step) - slack)) }

// Incline is the angle of a ramp of the given length that rises by rise. It
// reports false when the ramp is too short to reach or a measure is not positive.
func Incline(rise, ramp Inches) (Degrees, bool) {
	if ramp <= 0 || rise < 0 || rise > ramp {
		return 0, false
	}
	return Degrees(math.Asin(float64(rise)/float64(ramp)) * 180 / math.Pi), true
}

// HarmonicMean is the weight whose inverse is the mean of the inverses of a and b, both
// above zero. The tangents at a and b of a curve x = m / w meet there.
func HarmonicMean(a, b Pounds) Pounds {
	return Pounds(2 / (1/float64(a) + 1/float64(b)))
}

// ArcSteps is the number of chords that replace the curve x = m / w between the weights a
// and b, both above zero, so that no chord is off by more than within. A chord between
// u = 1/sqrt(w) and u + d is off by m d^2, so even steps of u give even errors.
func ArcSteps(m PoundInches, a, b Pounds, within Inches) int {
	span := math.Abs(1/math.Sqrt(float64(a)) - 1/math.Sqrt(float64(b)))
	return max(1, int(math.Ceil(span*math.Sqrt(math.Abs(float64(m))/float64(within)))))
}

// ArcWeight is the weight after step k of n on the way from a to b, in even steps of
// 1/sqrt(w) (see ArcSteps). Steps 0 and n are a and b themselves.
func ArcWeight(a, b Pounds, k, n int) Pounds {
	switch k {
	case 0:
		return a
	case n:
		return b
	}
	u, v := 1/math.Sqrt(float64(a)), 1/math.Sqrt(float64(b))
	at := u + float64((v-u)*float64(k)/float64(n))
	return Pounds(1 / float64(at*at))
}

// Sensible reports whether v is a number that a unit file could state: finite, and not
// larger than the parser accepts. Sums and products of a few sensible numbers stay finite.
func Sensible[U ~float64](v U) bool { return math.Abs(float64(v)) <= most }

// Finite reports whether v is a number that can be shown: not NaN, not infinite.
func Finite[U ~float64](v U) bool {
	return !math.IsNaN(float64(v)) && !math.IsInf(float64(v), 0)
}

// Run is the distance along the ground of a ramp of the given length that rises by rise
// (Pythagoras). It reports false when the ramp is too short to reach or a measure
// is not positive.
func Run(rise, ramp Inches) (Inches, bool) {
	if ramp <= 0 || rise < 0 || rise > ramp {
		return 0, false
	}
	return Inches(math.Sqrt(float64(ramp-rise) * float64(ramp+rise))), true
}

// Apart is the difference of two lengths as a share of the greater one. Neither may be below
// zero. For two zeros it is zero.
func Apart[U Unit](a, b U) Share {
	if a == b {
		return 0
	}
	return Share(math.Abs(float64(a)-float64(b)) / math.Max(float64(a), float64(b)))
}
