package compute

import (
	"cmp"
	"slices"

	"tarepage/internal/measure"
)

// Federal axle weights on the Interstate System: 23 CFR 658.17 with the definitions of
// 658.5, 23 USC 127(a)(2) (2015 edition). States keep tables of their own, which are
// data and not this formula.
const (
	// SingleAxleMost is the most on one axle (658.17(c)).
	SingleAxleMost measure.Pounds = 20000
	// TandemMost is the most on a tandem (658.17(d)).
	TandemMost measure.Pounds = 34000
	// GrossMost is the most of a whole vehicle or combination (658.17(b), (e)).
	GrossMost measure.Pounds = 80000
	// SingleWithin is the span within which axles count as one (658.5).
	SingleWithin measure.Inches = 40
	// TandemWithin is the span within which two or more axles are one tandem (658.5).
	TandemWithin measure.Inches = 96
	// TandemsApart is the span from which two tandems may carry TandemMost each
	// (658.17(e)).
	TandemsApart measure.Inches = 36 * measure.InchesPerFoot
)

// BridgeFormula is W = 500 [L N / (N - 1) + 12 N + 36] to the nearest 500 lb, for n axles
// with the first and the last this many whole feet apart (23 CFR 658.5). Halves go
// down, as the printed table has them (N = 3, L = 9: 42,750 is printed as 42,500). It
// knows no caps: see AxleGroupMost. One axle has no formula: zero.
func BridgeFormula(n, feet int) measure.Pounds {
	if n < 2 || feet < 0 {
		return 0
	}
	// The bracket is (L N + (12 N + 36)(N - 1)) / (N - 1), and the nearest whole number
	// with halves down is the half below it, rounded up. In whole numbers no tie is lost.
	num, den := feet*n+(12*n+36)*(n-1), n-1
	return measure.Pounds(500).Times((2*num - den + 2*den - 1) / (2 * den))
}

// An AxleLimit is the most that a group of axles may weigh, with its rule.
type AxleLimit struct {
	Most   measure.Pounds
	Rule   string // in words: "one axle", "a tandem"
	Source string
}

// AxleGroupMost is the federal limit for n consecutive axles with the distance span from the
// first to the last. Within 40 in they count as one axle. Within 96 in they are one tandem,
// whatever their number. Beyond that the formula holds, with at most 20,000 lb an axle. The
// span is rounded down to a whole foot: that is the
// reading that cannot allow too much, and it gives the table's row "more than 8 ft". The
// 36-ft rule needs more than a span: see AxleRuns. No axle has no limit: zero.
func AxleGroupMost(n int, span measure.Inches) AxleLimit {
	if n < 1 {
		return AxleLimit{}
	}
	if !(span >= 0 && measure.Sensible(span)) {
		span = 0
	}
	switch {
	case n == 1:
		return AxleLimit{SingleAxleMost, "one axle", "23 CFR 658.17(c)"}
	case measure.NotOver(span, SingleWithin):
		return AxleLimit{SingleAxleMost, "axles within 40 in, counted as one", "23 CFR 658.5, 658.17(c)"}
	case measure.NotOver(span, TandemWithin):
		return AxleLimit{TandemMost, "a tandem (axles within 96 in)", "23 CFR 658.5, 658.17(d)"}
	}
	formula := BridgeFormula(n, span.WholeFeet())
	if each := SingleAxleMost.Times(n); each < formula {
		return AxleLimit{each, "as many axles at 20,000 lb each", "23 CFR 658.17(c)"}
	}
	return AxleLimit{formula, "axles that far apart (the bridge formula)", "23 CFR 658.5, 658.17(e)"}
}

// A StandingAxle is one axle of a vehicle or a combination.
type StandingAxle struct {
	At     measure.Inches // along the vehicle, from anywhere
	Weight measure.Pounds
}

// An AxleRun is some consecutive axles held against the federal limit.
type AxleRun struct {
	First, Last int // axles, counted from 0 at the front
	Span        measure.Inches
	Weight      measure.Pounds
	Limit       AxleLimit
}

// Axles is how many axles the run has.
func (r AxleRun) Axles() int { return r.Last - r.First + 1 }

// Over reports that the run weighs more than its limit, which is inclusive.
func (r AxleRun) Over() bool { return !measure.NotOver(r.Weight, r.Limit.Most) }

// AxleRuns compares every run of consecutive axles with the federal limits, as 658.17(e)
// requires: a combination can pass by its gross weight and by each axle and fail in between. The
// axles are taken front to rear. No run may weigh more than 80,000 lb, which the whole
// may not. Two tandems of which the first and last axle are 36 ft apart or more may
// carry 34,000 lb each.
func AxleRuns(axles []StandingAxle) []AxleRun {
	axles = slices.Clone(axles)
	slices.SortStableFunc(axles, func(a, b StandingAxle) int { return cmp.Compare(a.At, b.At) })
	var out []AxleRun
	for first := range axles {
		var weight measure.Pounds
		for last := first; last < len(axles); last++ {
			weight += axles[last].Weight
			run := AxleRun{First: first, Last: last, Span: axles[last].At - axles[first].At, Weight: weight}
			run.Limit = AxleGroupMost(run.Axles(), run.Span)
			if both := TandemMost.Times(2); run.Limit.Most < both && twoTandems(axles[first:last+1]) {
				run.Limit = AxleLimit{both, "two tandems 36 ft apart or more", "23 CFR 658.17(e)"}
			}
			if run.Limit.Most > GrossMost {
				run.Limit = AxleLimit{GrossMost, "the whole vehicle", "23 CFR 658.17(b)"}
			}
			out = append(out, run)
		}
	}
	return out
}

// twoTandems reports whether the axles are two consecutive tandems far enough apart for
// the exception of 658.17(e).
func twoTandems(axles []StandingAxle) bool {
	end := len(axles) - 1
	if end < 3 || !measure.NotOver(TandemsApart, axles[end].At-axles[0].At) {
		return false
	}
	tandem := func(first, last int) bool {
		span := axles[last].At - axles[first].At
		return !measure.NotOver(span, SingleWithin) && measure.NotOver(span, TandemWithin)
	}
	for cut := 1; cut < end-1; cut++ {
		if tandem(0, cut) && tandem(cut+1, end) {
			return true
		}
	}
	return false
}

// GroupRuns compares the unit's own axle group with the federal limits, each axle at its
// rating, or at its even part of the GVWR where that is less: an axle never carries more
// than the whole trailer. It is nil where the number, the rating or the spacing is not
// known.
func (w *Work) GroupRuns() []AxleRun {
	ax, gvwr := w.Unit.Axles, w.Unit.Weights.GVWR
	if !ax.Count.Given() || !ax.Rating.Given() || ax.Count.Value < 1 || ax.Count.Value > mostAxles || ax.Rating.Value <= 0 {
		return nil
	}
	n, each := ax.Count.Value, ax.Rating.Value
	if gvwr.Given() && gvwr.Value > 0 {
		each = min(each, gvwr.Value.Part(1, n))
	}
	if n > 1 && !(ax.Spacing.Given() && ax.Spacing.Value > 0) {
		return nil
	}
	axles := make([]StandingAxle, n)
	for i := range axles {
		axles[i] = StandingAxle{At: ax.Spacing.Value.Times(i), Weight: each}
	}
	return AxleRuns(axles)
}

// mostAxles is more than any trailer has: a slip of the pen must not cost minutes.
const mostAxles = 40
