package oracle

import (
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// A Class is the least and the most of what machines of one class weigh, and of how long and how
// wide they are. A least of zero is not known, as in the class of what is not listed.
type Class struct {
	Light, Heavy      measure.Pounds
	Shortest, Longest measure.Inches
	Narrow, Wide      measure.Inches
}

// Measured is what somebody typed for a machine, 0 where nothing.
type Measured struct {
	Weight              measure.Pounds
	Length, Width, Tall measure.Inches
}

// What no machine is below or above, whatever its class: 50 lb, 2 ft either way, and between 1 ft
// and 13 ft 6 in high. Common practice, no source.
const (
	leastWeight = 50
	leastSize   = 24
	leastTall   = 12
)

// Doubt questions what is far outside of the machine's class: more than 15% below the least, or over
// twice the most. Somebody who typed 95 lb for a track loader left out two digits, 4,309 is its weight
// in kilograms, and a width of 8 is one in feet. The shares are common practice, no source: in a
// class whose most is less than 1.87 times its least, kilograms for pounds are always below them. It
// is "" where nothing is doubtful.
func Doubt(c Class, t Measured, in measure.System) string {
	length := func(v float64) string { return in.Length(measure.Inches(v)) }
	weight := func(v float64) string { return in.Weight(measure.Pounds(v)) }
	for _, q := range []struct {
		key          string
		is           float64
		least, most  float64
		never, above float64
		write        func(float64) string
	}{
		{"weight", float64(t.Weight), float64(c.Light), float64(c.Heavy), leastWeight, 1e9, weight},
		{"length", float64(t.Length), float64(c.Shortest), float64(c.Longest), leastSize, 1e9, length},
		{"width", float64(t.Width), float64(c.Narrow), float64(c.Wide), leastSize, 1e9, length},
		{"tall", float64(t.Tall), 0, 0, leastTall, float64(highest), length},
	} {
		switch {
		case !(q.is > 0):
		case q.least > 0 && (q.is < q.least*0.85 || q.is > q.most*2):
			return phrases.English.Say("doubt "+q.key, q.write(q.is), q.write(q.least), q.write(q.most))
		case !(q.least > 0) && (q.is < q.never || q.is > q.above):
			return phrases.English.Say("doubt "+q.key+" alone", q.write(q.is))
		}
	}
	return ""
}

// Question turns a verdict on a doubtful machine into CANNOT SAY YET. A broken limit stays a no,
// and so does a no without limits: no machine goes on that trailer.
func (v *Verdict) Question(doubt string) {
	if v.Is == "no" && len(v.Limits) == 0 {
		return
	}
	for _, l := range v.Limits {
		if l.Over {
			return
		}
	}
	if doubt != "" {
		v.Is, v.Needs = "unknown", []string{"sure"}
		v.Text = phrases.English.Say("verdict", phrases.English.Say("word unknown"), doubt)
	}
}
