package tables

// A Grade says how far a row may be trusted.
type Grade string

// The grades, from the strongest to the weakest.
const (
	Official   Grade = "S3"    // government, regulator database, university extension or a maker's own document
	TwoSources Grade = "S2"    // two independent sources agree
	OneSource  Grade = "S1"    // one source: a retail chart, a forum quotation, an article
	Derived    Grade = "D"     // arithmetic on other figures
	Memory     Grade = "M"     // from memory, no source found, or common practice
	MemoryWeak Grade = "M-low" // from memory and weak: never enough without the marking on the part itself
)

// Grades returns every grade, the strongest first.
func Grades() []Grade {
	return []Grade{Official, TwoSources, OneSource, Derived, Memory, MemoryWeak}
}

var gradeMeanings = map[Grade]string{
	Official:   "government, regulator, university or maker's own document",
	TwoSources: "two independent sources agree",
	OneSource:  "one source",
	Derived:    "worked from other figures",
	Memory:     "common knowledge of the trade, no source found",
	MemoryWeak: "weak: not to be used without the marking on the part",
}

// Meaning is the grade in words, or empty for a grade that does not exist.
func (g Grade) Meaning() string { return gradeMeanings[g] }

// Known reports whether the grade exists.
func (g Grade) Known() bool { return gradeMeanings[g] != "" }

// rank counts from the strongest, 0; an unknown grade is weaker than all.
func (g Grade) rank() int {
	for i, known := range Grades() {
		if g == known {
			return i
		}
	}
	return len(gradeMeanings)
}

// Weaker returns the weaker of two grades: a figure is no better than its worst input.
func (g Grade) Weaker(other Grade) Grade {
	if other.rank() > g.rank() {
		return other
	}
	return g
}

// Cited is where a row comes from.
type Cited struct {
	Source string // in words that a reader can follow
	Grade  Grade
	Note   string // a conflict, a limit of use, or empty
}
