package unit

import (
	"regexp"
	"strings"

	"tarepage/internal/measure"
)

// A WrittenRating is a gross rating that the listing's own words state: "26,500 lb GVWR"
// in the title or in the text.
type WrittenRating struct {
	Weight measure.Pounds
	Pos    Pos
	// Words are the words as they stand there.
	Words string
	// Where is "the title" or "the text".
	Where string
}

// between is what may stand between the weight and the word: blanks, emphasis, a table's
// bar, a colon, and the rest of a link.
const (
	between = `(?:\]\([^()\s]*\))?[\s*_|:=,]*(?:of|is|-|–)?[\s*_\[]*`
	weight  = `([0-9]{1,3}(?:,[0-9]{3})+|[0-9]{4,6}|[0-9]{1,3}(?:\.[0-9])?[\s-]?k)\b[\s*_-]*(lbs?\b\.?|pounds?\b|kg\b|#)?`
	gross   = `(?:G\.?V\.?W\.?R?\.?|gross(?:\s+(?:vehicle|trailer))?(?:\s+weight)?(?:\s+rating)?)`
)

var (
	weightThenGross = regexp.MustCompile(`(?i)` + weight + between + `\b` + gross + `(?:[^a-z]|$)`)
	grossThenWeight = regexp.MustCompile(`(?i)\b` + gross + between + weight)
	// another is what makes a rating the truck's, the combination's or an axle's.
	another = regexp.MustCompile(`(?i)\b(?:truck|pickup|tow vehicle|tractor|gcwr|combined|combination|gross\s+(?:combin|axle))`)
	// clauseEnd is where a clause ends; a point inside a number is none.
	clauseEnd = regexp.MustCompile(`[;!?]|\.(?:\s|$)|\n\s*\n|\n\s*[-*]\s`)
)

// WrittenRatings finds the gross ratings in the title and the body: a weight directly
// beside GVWR, GVW or gross. A clause that speaks of a truck, a combination or an axle is
// left alone.
func (u *Unit) WrittenRatings() []WrittenRating {
	var out []WrittenRating
	if u.Title.Given() {
		for _, r := range ratingsIn(u.Title.Value) {
			r.Pos, r.Where = u.Title.Pos, "the title"
			out = append(out, r.WrittenRating)
		}
	}
	for _, r := range ratingsIn(string(u.Body.Source)) {
		r.Pos, r.Where = u.Body.pos(r.offset), "the text"
		out = append(out, r.WrittenRating)
	}
	return out
}

type foundRating struct {
	WrittenRating
	offset int
}

// mentions reports whether the text speaks of a gross rating at all; most do not, and
// need no closer look.
func mentions(text string) bool {
	for i := 0; i+2 < len(text); i++ {
		if text[i]|0x20 != 'g' {
			continue
		}
		switch text[i+1] | 0x20 {
		case 'v', 'r', '.' | 0x20:
			return true
		}
	}
	return false
}

func ratingsIn(text string) []foundRating {
	var out []foundRating
	if !mentions(text) {
		return nil
	}
	from := 0
	for from <= len(text) {
		end := len(text)
		next := len(text) + 1
		if m := clauseEnd.FindStringIndex(text[from:]); m != nil {
			end, next = from+m[0], from+m[1]
		}
		clause := text[from:end]
		if mentions(clause) && !another.MatchString(clause) {
			for _, form := range []*regexp.Regexp{weightThenGross, grossThenWeight} {
				for _, m := range form.FindAllStringSubmatchIndex(clause, -1) {
					number, unit := clause[m[2]:m[3]], "lb"
					if m[4] >= 0 && strings.EqualFold(clause[m[4]:m[5]], "kg") {
						unit = "kg"
					}
					number = strings.NewReplacer("-", "", " ", "").Replace(number)
					w, err := measure.ParseWeight(number + " " + unit)
					if err != nil {
						continue
					}
					words := strings.Join(strings.Fields(clause[m[0]:m[1]]), " ")
					out = append(out, foundRating{WrittenRating{Weight: w.Value, Words: strings.TrimRight(words, ".,: ")}, from + m[0]})
				}
			}
		}
		from = next
	}
	return out
}
