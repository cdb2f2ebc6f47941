package crosscheck

import (
	"slices"

	"tarepage/internal/measure"
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
	if c.Operation == walkaround.Leaves {
		w = left(c)
	} else if c.Operation != walkaround.Holds {
		w = arithmetic(c)
	}
	if !c.Load || payload == 0 || w.Verdict == Differs {
		return w
	}
	slack := payload
	if w.Verdict == Agrees || c.Compare == walkaround.About {
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
	for _, t := range terms[1:] {
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

// left finds two of the terms whose difference is what is left. What agrees with none is not
// judged here: there may be a term that nobody said.
func left(c walkaround.Claim) Worked {
	for _, a := range c.Terms {
		for _, b := range c.Terms {
			w := arithmetic(walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{a, b}, Result: c.Result, Compare: c.Compare})
			if w.Verdict == Agrees && w.Right > 0 {
				return w
			}
		}
	}
	w := Worked{Said: weighty(c.Result)}
	if len(c.Terms) == 2 {
		// The two that were said are all there is: gross, then empty.
		w = arithmetic(walkaround.Claim{Operation: walkaround.Less, Terms: [][]float64{c.Terms[1], c.Terms[0]}, Result: c.Result, Compare: c.Compare})
	}
	return w
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
		return -off <= roughly*right && how != walkaround.AtLeast || how == walkaround.Over
	case how == walkaround.Under || how == walkaround.UpTo:
		return off <= nearUnder*right
	}
	return how == walkaround.About && off <= roughly*right
}
