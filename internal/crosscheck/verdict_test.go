package crosscheck_test

import (
	"testing"

	"tarepage/internal/crosscheck"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// said is a figure that was heard with full confidence.
func said(r walkaround.Role, v walkaround.Value, change ...func(*walkaround.Candidate)) walkaround.Candidate {
	c := walkaround.Candidate{Role: r, Value: v, Confidence: 1}
	for _, f := range change {
		f(&c)
	}
	return c
}

func compared(how walkaround.Comparison) func(*walkaround.Candidate) {
	return func(c *walkaround.Candidate) { c.Compare = how }
}

func upTo(high walkaround.Value) func(*walkaround.Candidate) {
	return func(c *walkaround.Candidate) { c.High = high }
}

func giveOrTake(t walkaround.Value) func(*walkaround.Candidate) {
	return func(c *walkaround.Candidate) { c.Tolerance = t }
}

// TestVerdicts compares figures with statements at, below and above each limit. A person
// decided each verdict from the words: a number that was said has to be the file's number, "about"
// allows 2.5% (docs/design.md), "over" and "under" leave one side open, and "up to" is a promise
// that less than the file states does not break.
func TestVerdicts(t *testing.T) {
	lb, in, psi, usd := func(v float64) measure.Pounds { return measure.Pounds(v) }, func(v float64) measure.Inches { return measure.Inches(v) },
		func(v float64) measure.PSI { return measure.PSI(v) }, func(v float64) measure.Dollars { return measure.Dollars(v) }
	week31 := unit.Week{Year: 2018, Week: 31}
	for _, c := range []struct {
		name  string
		said  walkaround.Candidate
		given unit.Given
		want  crosscheck.Verdict
	}{
		{"the same pound", said(walkaround.Empty, lb(7040)), unit.Given{Path: "weights.empty", Value: lb(7040)}, crosscheck.Agrees},
		{"a fraction of a pound off", said(walkaround.Empty, lb(7040)), unit.Given{Path: "weights.empty", Value: lb(7040.9)}, crosscheck.Agrees},
		{"a pound off", said(walkaround.Empty, lb(7041)), unit.Given{Path: "weights.empty", Value: lb(7040)}, crosscheck.Differs},
		{"a quarter inch off", said(walkaround.DeckWidth, in(83.25)), unit.Given{Path: "deck.width", Value: in(83)}, crosscheck.Agrees},
		{"half an inch off", said(walkaround.DeckWidth, in(83.5)), unit.Given{Path: "deck.width", Value: in(83)}, crosscheck.Differs},
		{"a ball 1/16 in off", said(walkaround.Ball, in(2.25)), unit.Given{Path: "hitch.ball", Value: in(2.3125)}, crosscheck.Differs},
		{"a ball 1/32 in off", said(walkaround.Ball, in(2.28125)), unit.Given{Path: "hitch.ball", Value: in(2.3125)}, crosscheck.Agrees},
		{"another psi", said(walkaround.Pressure, psi(81)), unit.Given{Path: "tires.pressure", Value: psi(80)}, crosscheck.Differs},
		{"another dollar", said(walkaround.Price, usd(4401)), unit.Given{Path: "price", Value: usd(4400)}, crosscheck.Differs},
		{"the same dollar", said(walkaround.Price, usd(4400)), unit.Given{Path: "price", Value: usd(4400)}, crosscheck.Agrees},
		{"a weight and a length", said(walkaround.Empty, lb(40)), unit.Given{Path: "weights.empty", Value: in(40)}, crosscheck.Unstated},

		{"about, 2.5% less", said(walkaround.Empty, lb(1950), compared(walkaround.About)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"about, more than 2.5% less", said(walkaround.Empty, lb(1949), compared(walkaround.About)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"the file says about", said(walkaround.Empty, lb(1950)), unit.Given{Path: "weights.empty", Value: lb(2000), About: true}, crosscheck.Agrees},

		{"give or take, at its end", said(walkaround.Empty, lb(1900), giveOrTake(lb(100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"give or take, at its other end", said(walkaround.Empty, lb(2100), giveOrTake(lb(100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"give or take, past its end", said(walkaround.Empty, lb(1899), giveOrTake(lb(100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"give or take, past its other end", said(walkaround.Empty, lb(2101), giveOrTake(lb(100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},

		{"a range that ends there", said(walkaround.Empty, lb(1900), upTo(lb(2000))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"a range that begins there", said(walkaround.Empty, lb(2000), upTo(lb(2100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"a range below", said(walkaround.Empty, lb(1800), upTo(lb(1990))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"a range above", said(walkaround.Empty, lb(2010), upTo(lb(2100))), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"a range that ends near what the file calls about", said(walkaround.Empty, lb(1800), upTo(lb(1960))), unit.Given{Path: "weights.empty", Value: lb(2000), About: true}, crosscheck.Agrees},
		{"a range that begins near what the file calls about", said(walkaround.Empty, lb(2040), upTo(lb(2400))), unit.Given{Path: "weights.empty", Value: lb(2000), About: true}, crosscheck.Agrees},

		{"over less", said(walkaround.Payload, lb(1990), compared(walkaround.Over)), unit.Given{Path: "claimed.payload", Value: lb(2000)}, crosscheck.Agrees},
		{"over that", said(walkaround.Empty, lb(2000), compared(walkaround.Over)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"over more", said(walkaround.Empty, lb(2010), compared(walkaround.Over)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"at least less", said(walkaround.Empty, lb(1990), compared(walkaround.AtLeast)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"at least more", said(walkaround.Empty, lb(2010), compared(walkaround.AtLeast)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"under more", said(walkaround.Empty, lb(2010), compared(walkaround.Under)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Agrees},
		{"under less", said(walkaround.Empty, lb(1990), compared(walkaround.Under)), unit.Given{Path: "weights.empty", Value: lb(2000)}, crosscheck.Differs},
		{"up to less", said(walkaround.HitchRating, lb(1500), compared(walkaround.UpTo)), unit.Given{Path: "hitch.rating", Value: lb(2000)}, crosscheck.Agrees},
		{"up to 2.5% more", said(walkaround.HitchRating, lb(2050), compared(walkaround.UpTo)), unit.Given{Path: "hitch.rating", Value: lb(2000)}, crosscheck.Agrees},
		{"up to more", said(walkaround.HitchRating, lb(2100), compared(walkaround.UpTo)), unit.Given{Path: "hitch.rating", Value: lb(2000)}, crosscheck.Differs},

		{"a count", said(walkaround.AxleCount, walkaround.Count(2)), unit.Given{Path: "axles.count", Value: 2}, crosscheck.Agrees},
		{"another count", said(walkaround.AxleCount, walkaround.Count(3)), unit.Given{Path: "axles.count", Value: 2}, crosscheck.Differs},
		{"at least a count", said(walkaround.AxleCount, walkaround.Count(2), compared(walkaround.AtLeast)), unit.Given{Path: "axles.count", Value: 3}, crosscheck.Agrees},
		{"a count and a word", said(walkaround.AxleCount, walkaround.Count(2)), unit.Given{Path: "axles.count", Value: "two"}, crosscheck.Unstated},
		{"a year", said(walkaround.ModelYear, walkaround.Year(2026)), unit.Given{Path: "year", Value: 2026}, crosscheck.Agrees},
		{"another year", said(walkaround.ModelYear, walkaround.Year(2025)), unit.Given{Path: "year", Value: 2026}, crosscheck.Differs},

		{"a date code", said(walkaround.TireMade, walkaround.Word("3118")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Agrees},
		{"another date code", said(walkaround.TireMade, walkaround.Word("3018")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Differs},
		{"week 20 may be a year", said(walkaround.TireMade, walkaround.Word("2018"), quoted("the date code says 2018")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Agrees},
		{"week 20, said so", said(walkaround.TireMade, walkaround.Word("2018"), quoted("Week 20 of 18")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Differs},
		{"the year of another", said(walkaround.TireMade, walkaround.Word("2017"), quoted("the date code says 2017")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Differs},
		{"no date code at all", said(walkaround.TireMade, walkaround.Word("fresh")), unit.Given{Path: "tires.made", Value: week31}, crosscheck.Unstated},
		{"a tire size without its letters", said(walkaround.TireSize, walkaround.Word("235/80R16")), unit.Given{Path: "tires.size", Value: "ST 235/80R16"}, crosscheck.Agrees},
		{"a light truck size", said(walkaround.TireSize, walkaround.Word("lt235/80r16e")), unit.Given{Path: "tires.size", Value: "235/80R16"}, crosscheck.Agrees},
		{"a passenger size", said(walkaround.TireSize, walkaround.Word("P205/75R15")), unit.Given{Path: "tires.size", Value: "205/75R15"}, crosscheck.Agrees},
		{"another tire size", said(walkaround.TireSize, walkaround.Word("235/85R16")), unit.Given{Path: "tires.size", Value: "ST235/80R16"}, crosscheck.Differs},
		{"a choice in other letters", said(walkaround.LoadRange, walkaround.Word("E")), unit.Given{Path: "tires.load-range", Value: "e"}, crosscheck.Agrees},
		{"another choice", said(walkaround.LoadRange, walkaround.Word("F")), unit.Given{Path: "tires.load-range", Value: "e"}, crosscheck.Differs},
		{"a word and a number", said(walkaround.LoadRange, walkaround.Word("F")), unit.Given{Path: "tires.load-range", Value: 2}, crosscheck.Unstated},

		{"a section", said(walkaround.Beam, walkaround.Section{Shape: "W", Depth: 10, PerFoot: 22}), unit.Given{Path: "frame.beam", Value: "w10x22"}, crosscheck.Agrees},
		{"a section of another shape", said(walkaround.Beam, walkaround.Section{Shape: "C", Depth: 10, PerFoot: 22}), unit.Given{Path: "frame.beam", Value: "W10x22"}, crosscheck.Differs},
		{"a deeper section", said(walkaround.Beam, walkaround.Section{Depth: 12, PerFoot: 22}), unit.Given{Path: "frame.beam", Value: "W10x22"}, crosscheck.Differs},
		{"a heavier section", said(walkaround.Beam, walkaround.Section{Depth: 10, PerFoot: 26}), unit.Given{Path: "frame.beam", Value: "W10x22"}, crosscheck.Differs},
		{"only the depth", said(walkaround.Beam, walkaround.Section{Depth: 10}), unit.Given{Path: "frame.beam", Value: "W10x22"}, crosscheck.Agrees},
		{"as intake writes it", said(walkaround.Beam, walkaround.Section{Depth: 10, PerFoot: 22}), unit.Given{Path: "frame.beam", Value: "10 in 22 lb/ft"}, crosscheck.Agrees},
		{"another depth than intake wrote", said(walkaround.Beam, walkaround.Section{Depth: 12, PerFoot: 22}), unit.Given{Path: "frame.beam", Value: "10 in"}, crosscheck.Differs},
		{"a section and a tube", said(walkaround.Beam, walkaround.Section{Depth: 6}), unit.Given{Path: "frame.beam", Value: "tube 6x2"}, crosscheck.Unstated},
		{"a section and a number", said(walkaround.Beam, walkaround.Section{Depth: 6}), unit.Given{Path: "frame.beam", Value: 6}, crosscheck.Unstated},

		{"no role", said("", lb(7040)), unit.Given{Path: "", Value: lb(7000)}, crosscheck.Unstated},
		{"another key", said(walkaround.Empty, lb(7040)), unit.Given{Path: "weights.gvwr", Value: lb(20000)}, crosscheck.Unstated},
		{"not sure enough", said(walkaround.Empty, lb(6000), sure(0.79)), unit.Given{Path: "weights.empty", Value: lb(7040)}, crosscheck.Unstated},
		{"just sure enough", said(walkaround.Empty, lb(6000), sure(0.8)), unit.Given{Path: "weights.empty", Value: lb(7040)}, crosscheck.Differs},
		{"a length without its unit", said(walkaround.DeckLength, in(72), withoutUnit), unit.Given{Path: "deck.length", Value: in(240)}, crosscheck.Unstated},
		{"a weight without its unit", said(walkaround.Empty, lb(6000), withoutUnit), unit.Given{Path: "weights.empty", Value: lb(7040)}, crosscheck.Differs},
	} {
		got, given := crosscheck.Of([]unit.Given{c.given}).Hold(c.said)
		if got != c.want {
			t.Errorf("%s: verdict %d, want %d", c.name, got, c.want)
		}
		if got != crosscheck.Unstated && given != c.given {
			t.Errorf("%s: the statement is %v, want %v", c.name, given, c.given)
		}
	}
}

func quoted(s string) func(*walkaround.Candidate) {
	return func(c *walkaround.Candidate) { c.Quote = s }
}

func sure(x float64) func(*walkaround.Candidate) {
	return func(c *walkaround.Candidate) { c.Confidence = x }
}

func withoutUnit(c *walkaround.Candidate) { c.UnitInferred = true }

// A figure does not contradict its key if it may mean something else that the file states: a key with a similar name in a yard, a figure that was added under the role,
// or another reading of the words.
func TestOtherMeanings(t *testing.T) {
	rating := unit.Given{Path: "hitch.rating", Value: measure.Pounds(25000)}
	ball := unit.Given{Path: "hitch.ball-rating", Value: measure.Pounds(30000)}
	empty := unit.Given{Path: "weights.empty", Value: measure.Pounds(7040)}
	added := unit.Given{Path: "tag-payload", Value: measure.Pounds(12960)}
	file := crosscheck.Of([]unit.Given{rating, ball, empty})
	file.Add(walkaround.Payload, added)

	for _, c := range []struct {
		name  string
		said  walkaround.Candidate
		want  crosscheck.Verdict
		given unit.Given
	}{
		{"the ball's rating said of the coupler", said(walkaround.HitchRating, measure.Pounds(30000)), crosscheck.Unstated, rating},
		{"neither rating", said(walkaround.HitchRating, measure.Pounds(20000)), crosscheck.Differs, rating},
		{"the added figure", said(walkaround.Payload, measure.Pounds(12960)), crosscheck.Agrees, added},
		{"not the added figure", said(walkaround.Payload, measure.Pounds(13960)), crosscheck.Differs, added},
		{"another reading of the words", said(walkaround.HitchRating, measure.Pounds(20000), func(c *walkaround.Candidate) {
			c.Alternatives = []walkaround.Alternative{{Role: walkaround.GVWR, Value: measure.Pounds(20000)}, {Role: walkaround.Empty, Value: measure.Pounds(7040)}}
		}), crosscheck.Unstated, rating},
		{"another reading that the file does not state", said(walkaround.HitchRating, measure.Pounds(20000), func(c *walkaround.Candidate) {
			c.Alternatives = []walkaround.Alternative{{Role: walkaround.Empty, Value: measure.Pounds(20000)}}
		}), crosscheck.Differs, rating},
	} {
		if got, given := file.Hold(c.said); got != c.want || given != c.given {
			t.Errorf("%s: verdict %d about %v, want %d about %v", c.name, got, given, c.want, c.given)
		}
	}
}
