package oracle

import (
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// A Class is the least and the most of what machines of one class weigh, and of how long they
// are. A least of zero is not known.
type Class struct {
	Light, Heavy      measure.Pounds
	Shortest, Longest measure.Inches
}

// Doubt questions a weight or a length that is far outside its class: under half of the least or
// over twice the most. Somebody who typed 95 lb for a track loader left out two digits. The
// halves and twices are common practice, no source. It is "" where nothing is doubtful.
func Doubt(c Class, weight measure.Pounds, length measure.Inches, in measure.System) string {
	switch {
	case c.Light > 0 && far(float64(weight), float64(c.Light), float64(c.Heavy)):
		return phrases.English.Say("doubt weight", in.Weight(weight), in.Weight(c.Light), in.Weight(c.Heavy))
	case c.Shortest > 0 && far(float64(length), float64(c.Shortest), float64(c.Longest)):
		return phrases.English.Say("doubt length", in.Length(length), in.Length(c.Shortest), in.Length(c.Longest))
	}
	return ""
}

func far(v, least, most float64) bool { return v < least/2 || v > most*2 }

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
