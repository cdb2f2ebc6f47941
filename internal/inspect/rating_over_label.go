package inspect

import (
	"strings"

	"tarepage/internal/measure"
)

var ratingOverLabel = &Rule{
	Name: "rating-over-label", Severity: Stop,
	Title: "no gross rating in the title or on the maker's sheet is above the label's",
	Why: "Buyers load by the largest number they have read. The label on the trailer governs, and it may be the smaller one, " +
		"because a down-rated trailer keeps its maker's printed sheet.",
	Source: "49 CFR 567.4(g)(3) (2015): the GVWR is the one on the label; 26 CFR 145.4051-1(e)(3)(iv) (2015): an advertised one can count too",
	Remedy: "read the label again; if it is right, correct the words",
	check: func(c *Case, f *Findings) {
		label := c.Weights.GVWR
		if !label.Given() || label.Value <= 0 {
			return
		}
		// A label in kilograms and a sheet in pounds part by their rounding.
		over := func(w measure.Pounds, words string) bool {
			most := label.Value
			if strings.Contains(words, "kg") != strings.Contains(label.Raw, "kg") {
				most += measure.FromKilograms(0.5)
			}
			return !measure.NotOver(w, most)
		}
		if claim := c.Claimed.GVWR; claim.Given() && over(claim.Value, claim.Raw) {
			f.add(claim.Pos, "the maker's sheet says gvwr %s; gvwr is %s, and the label governs", claim.Words(), label.Words()).
				figures(claim.Words(), label.Words()).only(Caution). // the sheet is quoted next to the label
				also(label.Pos, "gvwr is here")
		}
		// note-disagrees compares what the text says with the file.
		for _, w := range c.WrittenRatings() {
			if w.Where != "the title" || !over(w.Weight, w.Words) {
				continue
			}
			// 10K is what a trailer of 9,990 lb is called.
			if w.Rounded && measure.NotOver(w.Weight, roundName.Of(label.Value)) {
				continue
			}
			found := f.add(w.Pos, "the title says %s; gvwr is %s, and the label governs", w.Words, label.Words()).
				figures(w.Words, label.Words()).
				also(label.Pos, "gvwr is here")
			if near(w.Weight, []measure.Pounds{label.Value}) {
				found.only(Caution)
			}
		}
	},
}

// roundName is how far a rating in thousands may be above the label's: 3K for 2,990 lb is
// a third of a percent, 16K for 15,900 lb six tenths. Common practice, no source.
const roundName measure.Share = 1.01
