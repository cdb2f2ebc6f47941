package inspect

import (
	"regexp"

	"tarepage/internal/measure"
)

var wordsUnderPayload = &Rule{
	Name: "words-under-payload", Severity: Caution,
	Title:  "no text of the unit limits the load to less than the payload on the page",
	Why:    "The page gives a payload, and its own words allow less. Whoever goes by the larger number may break what the smaller one protects.",
	Source: Practice,
	Remedy: "if a plate on the trailer says it, write weights.max-load with where it is, as in max-load: 500 lb (plate); if it is about a part, name the part",
	check: func(c *Case, f *Findings) {
		own := c.Work.Payload
		if !own.Known {
			return
		}
		texts := c.writing()
		for i := range texts {
			t := &texts[i]
			if t.code {
				continue
			}
			for _, l := range t.read().leastAllowed() {
				// A text may round the payload down to the next 50 lb, or to thousands.
				if l.load >= measure.Down(own.Value, 50) || near(l.load, []measure.Pounds{own.Value}) {
					continue
				}
				f.add(t.pos(l.says), "the words allow %s; the payload is %s", l.says, own.Value.Limit()).
					figures(l.says, own.Value.Limit()).also(c.Weights.GVWR.Pos, "gvwr is here")
			}
		}
	},
}

var (
	// limits are the words in front of a weight that say that no more may be loaded.
	limits = regexp.MustCompile(`(?:\bmax(?:imum)?\.?\s+load|\bload\s+limit|\blimit(?:ed)?\s+(?:the\s+)?loads?\s+to|\bmax(?:imum)?\.?\s+(?:payload|cargo)|\bcarga\s+maxima|` +
		`\b(?:not?|don['’]t|never|no)\s+(?:\pL+\s+){0,3}?(?:load|haul|carry|put|cargue|cargues)\s+(?:\pL+\s+){0,4}?(?:more\s+than|over|above|mas\s+de|past))(?:\s+(?:is|of|about|de|es))?\s*:?\s*$`)
	// partLimits are words by which the limit is that of a part, or of each of several.
	partLimits = regexp.MustCompile(`\b(?:ramps?|gates?|jacks?|winch|coupler|ball|axles?|tires?|wheels?|rims?|springs?|racks?|box|toolbox|shelf|shelves|roof|doors?|rings?|hooks?|straps?|chains?|receiver|forks?|single|dual|psi|each|per|apiece|square|sq|one\s+end|rear|front|nose|behind\s+the|rampas?|llantas?|ejes?|cada)\b`)
)

// leastAllowed finds the loads to which a text limits the trailer.
func (w *promising) leastAllowed() (out []promise) {
	for i := 0; i < len(w.at); {
		q, ok := w.weight(i)
		if !ok {
			i++
			continue
		}
		i = q.to
		at, end := w.at[q.from][0], w.at[q.to-1][1]
		from, to := around(w.text, at, end-at)
		if q.unit && limits.MatchString(w.text[from:at]) && !partLimits.MatchString(w.text[from:to]) {
			out = append(out, promise{says: w.text[at:end], load: measure.Pounds(q.pounds)})
		}
	}
	return out
}
