package crosscheck

import (
	"math"
	"slices"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/walkaround"
)

// A Worked is a claim after it was worked out.
type Worked struct {
	Verdict Verdict
	// Terms, Said and Right are the readings that the verdict rests on: the terms, what was
	// said to come out, and what comes out. Right is the payload where the claim is held
	// against that.
	Terms       []float64
	Said, Right float64
	// Payload reports that the claim was held against the payload.
	Payload bool
}

// How far a spoken result may be from the right one, as a part of it. Common practice, no source.
const (
	roughly   = 0.025 // where "about" was said, or it is rounded down
	nearUnder = 0.1   // "almost", "just under"
	heard     = 0.001 // a word of the sentence taken into the figure: "three twenty for" is not 324
	nobody    = 2     // a result that is so many times off was not understood
)

// Work works out a claim. Payload is what the file lets the trailer carry, or 0 if that is not
// known: a claim about the load is held against it too. A claim that was taken back, or that
// nothing in the file can check, is Unstated.
func Work(c walkaround.Claim, payload measure.Pounds) Worked {
	if c.Retracted || c.Operation == walkaround.Rule {
		return Worked{}
	}
	w := Worked{Said: weighty(c.Result)}
	switch c.Operation {
	case walkaround.Leaves:
		w = left(c, payload)
	case walkaround.OverBy:
		return over(c, payload)
	case walkaround.Volume:
		return volume(c)
	case walkaround.Holds:
	default:
		w = arithmetic(liquid(c))
	}
	payload -= tare(c)
	if !c.Load || payload <= 0 || w.Verdict == Differs {
		return w
	}
	slack := payload
	if w.Verdict == Agrees && (c.Operation == walkaround.Less || c.Operation == walkaround.Leaves) || c.Compare == walkaround.About {
		slack = measure.Pounds(float64(payload) * (1 + roughly))
	}
	under := c.Compare == walkaround.Under && w.Said*(1-nearUnder) <= float64(payload)
	switch {
	case measure.Pounds(w.Said) > slack && !under:
		return Worked{Verdict: Differs, Terms: w.Terms, Said: w.Said, Right: float64(payload), Payload: true}
	case w.Verdict == Unstated:
		return Worked{Verdict: Agrees, Said: w.Said, Right: float64(payload), Payload: true}
	}
	return w
}

// weighty is the likeliest reading that is a weight.
func weighty(readings []float64) float64 {
	for _, r := range readings {
		if r >= 300 {
			return r
		}
	}
	return readings[0]
}

// arithmetic works out an operation over all readings of its terms. It agrees if any of them
// comes out as it was said.
func arithmetic(c walkaround.Claim) Worked {
	var best Worked
	for terms := range readings(c.Terms) {
		right := operate(c.Operation, terms)
		for _, said := range c.Result {
			if comesOut(said, right, c.Compare) {
				return Worked{Verdict: Agrees, Terms: slices.Clone(terms), Said: said, Right: right}
			}
			// What was meant is what comes the nearest.
			if right > 0 && said <= nobody*right && right <= nobody*said && (best.Verdict != Differs || apart(said, right) < apart(best.Said, best.Right)) {
				best = Worked{Verdict: Differs, Terms: slices.Clone(terms), Said: said, Right: right}
			}
		}
	}
	return best
}

func apart(a, b float64) float64 {
	if a > b {
		return a / b
	}
	return b / a
}

// readings are all ways to read the terms.
func readings(terms [][]float64) func(func([]float64) bool) {
	return func(yield func([]float64) bool) {
		at := make([]int, len(terms))
		v := make([]float64, len(terms))
		for {
			for i := range terms {
				v[i] = terms[i][at[i]]
			}
			if !yield(v) {
				return
			}
			i := 0
			for ; i < len(terms); i++ {
				if at[i]++; at[i] < len(terms[i]) {
					break
				}
				at[i] = 0
			}
			if i == len(terms) {
				return
			}
		}
	}
}

func operate(op walkaround.Operation, terms []float64) float64 {
	out := terms[0]
	for i, t := range terms[1:] {
		if op == walkaround.Volume && i == 2 {
			out /= t // the unit
			continue
		}
		switch op {
		case walkaround.Less:
			out -= t
		case walkaround.Plus:
			out += t
		default:
			out *= t
		}
	}
	return out
}

// left finds terms whose difference is what is left: one less another, or less two others. If none comes
// out, the nearest is what was meant, as long as all of it was said.
func left(c walkaround.Claim, payload measure.Pounds) Worked {
	best := Worked{Said: weighty(c.Result)}
	if payload > 0 {
		c.Terms = append(slices.Clone(c.Terms), []float64{float64(payload)}) // known before all that was said
	}
	meant := spare(c)
	for i, a := range c.Terms {
		for k, b := range c.Terms {
			for l := k; l < len(c.Terms); l++ {
				if k == i || l == i || l > k && slices.Equal(b, c.Terms[l]) {
					continue // a figure that was said twice is taken away once
				}
				terms := [][]float64{a, b}
				if l > k {
					terms = append(terms, c.Terms[l])
				}
				w := arithmetic(walkaround.Claim{Operation: walkaround.Less, Terms: terms, Result: c.Result, Compare: c.Compare})
				if w.Verdict == Agrees && w.Right > 0 {
					return w
				}
				if w.Verdict == Differs && i > max(k, l) && (best.Verdict != Differs || apart(w.Said, w.Right) < apart(best.Said, best.Right)) {
					best = w // the terms run backward: the whole was said first
				}
			}
		}
	}
	if meant.Verdict == Differs && best.Verdict == Differs {
		return meant
	}
	return best
}

// spare is what is left of the last term after the first one, where the claim is that something is to spare.
func spare(c walkaround.Claim) Worked {
	if !c.Spare {
		return Worked{}
	}
	terms := [][]float64{c.Terms[len(c.Terms)-1], c.Terms[0]}
	return arithmetic(walkaround.Claim{Operation: walkaround.Less, Terms: terms, Result: c.Result, Compare: c.Compare})
}

// comesOut reports whether a result is as it was said. A load may be rounded down a little,
// never up.
func comesOut(said, right float64, how walkaround.Comparison) bool {
	off := said - right
	switch {
	case off < 0.5 && off > -0.5:
		return true
	case right > 0 && off > 0 && off <= heard*right:
		return true
	case right <= 0:
		return false
	case off < 0:
		return -off <= roughly*right && how != walkaround.AtLeast && (how == walkaround.About || rounder(said, right)) || how == walkaround.Over
	case how == walkaround.Under || how == walkaround.UpTo:
		return off <= nearUnder*right
	}
	return how == walkaround.About && off <= roughly*right
}

// rounder reports that a figure is one that people round another one to: "almost sixteen thousand" for
// 15,960, but not 58,050 for 58,550.
func rounder(said, right float64) bool {
	for _, n := range []float64{1000, 500, 100, 50, 10} {
		a, b := math.Mod(said, n) == 0, math.Mod(right, n) == 0
		if a || b {
			return a && (!b || n == 1000)
		}
	}
	return said == math.Trunc(said)
}

// over works out by how much a load is over the payload. It rests on the load that was said last; if any of the
// others comes out, that one was meant.
func over(c walkaround.Claim, payload measure.Pounds) Worked {
	best := Worked{Said: weighty(c.Result)}
	if payload == 0 {
		return best
	}
	for _, term := range c.Terms {
		w := arithmetic(walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{term, {float64(payload)}}, Result: c.Result, Compare: walkaround.About})
		if w.Verdict == Agrees {
			return w
		}
		if w.Verdict == Differs && best.Verdict != Differs {
			best = w
		}
	}
	return best
}

// volumes is how far a spoken volume may be from the one of the sides, as those are nominal. Common practice, no source.
const volumes = 1.1

// volume works out what three sides hold.
func volume(c walkaround.Claim) Worked {
	w := arithmetic(c)
	if w.Verdict == Differs && apart(w.Said, w.Right) <= volumes {
		w.Verdict = Agrees
	}
	return w
}

// liquid adds the weight of a gallon to a claim that only counts the gallons.
func liquid(c walkaround.Claim) walkaround.Claim {
	if c.Of != "" {
		if row, ok := tables.Liquid(c.Of); ok {
			c.Terms = append(slices.Clone(c.Terms), []float64{float64(row.Density)})
		}
	}
	return c
}

// tare is the weight of the bin that the load lies in, or 0.
func tare(c walkaround.Claim) measure.Pounds {
	if len(c.Tare) == 0 {
		return 0
	}
	return measure.Pounds(weighty(c.Tare))
}
