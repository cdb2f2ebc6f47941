package unit

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"tarepage/internal/measure"
)

// A WrittenRating is a gross rating in the words of the listing: "26,500 lb GVWR" in the title
// or in the text.
type WrittenRating struct {
	Weight measure.Pounds
	Pos    Pos
	// Words are the words as written.
	Words string
	// Where is "the title" or "the text".
	Where string
	// Rounded reports whether the weight is in thousands, "16K", which covers anything close.
	Rounded bool
}

// between matches what may separate the weight and the word: blanks, emphasis, the bar of a
// table, a colon, and the rest of a link.
const (
	between = `(?:\]\([^()\s]*\))?[\s*_|:=,]*(?:of|is|-|–)?[\s*_\[]*`
	weight  = `([0-9]{1,3}(?:,[0-9]{3})+|[0-9]{4,6}|[0-9]{1,3}(?:\.[0-9])?[\s-]?k)\b[\s*_-]*(lbs?\b\.?|pounds?\b|kg\b|#)?`
	gross   = `(?:G\.?V\.?W\.?R?\.?|gross(?:\s+(?:vehicle|trailer))?(?:\s+weight)?(?:\s+rating)?)`
)

var (
	weightThenGross = regexp.MustCompile(`(?i)` + weight + between + `\b` + gross + `(?:[^a-z]|$)`)
	grossThenWeight = regexp.MustCompile(`(?i)\b` + gross + between + weight)
	// another matches words that give a rating to the truck, the combination or an axle.
	another = regexp.MustCompile(`(?i)\b(?:truck|pickup|tow vehicle|tractor|gcwr|combined|combination|gross\s+(?:combin|axle))`)
	// clauseEnd matches the end of a clause. A point inside a number does not count.
	clauseEnd = regexp.MustCompile(`[;!?]|\.(?:\s|$)|\n\s*\n|\n\s*[-*]\s`)
)

// WrittenRatings finds the gross ratings in the title and the body. In the body, that is a
// weight next to GVWR, GVW or gross. In the title, it is any weight, as in "26,500 lb" or
// "16K", because sellers advertise trailers that way. It ignores a weight that belongs to a
// truck, a combination, an axle, a payload or a part.
func (u *Unit) WrittenRatings() []WrittenRating {
	var out []WrittenRating
	if u.Title.Given() {
		for _, r := range titleRatings(u.Title.Value) {
			r.Pos, r.Where = u.Title.Pos, "the title"
			out = append(out, r)
		}
	}
	for _, b := range u.Bodies() {
		for _, r := range ratingsIn(string(b.Source)) {
			r.Pos, r.Where = b.pos(r.offset), "the text"
			out = append(out, r.WrittenRating)
		}
	}
	return out
}

var (
	// titleWeight matches a weight in a title: with its unit, or in thousands.
	titleWeight = regexp.MustCompile(`(?i)(?:^|[^0-9.,$])((?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{3,6})[\s-]*(?:lbs?\b|pounds?\b|kg\b|#)|[0-9]{1,3}(?:\.[0-9])?[\s-]?k\b(?:[\s-]*(?:lbs?\b|pounds?\b))?)`)
	// ofPart matches what follows a weight that is not the trailer's, partOf what comes before
	// one.
	ofPart = regexp.MustCompile(`(?i)^\.?[\s-]*(?:(?:rated|electric|hydraulic|drop|set[\s-]?back|torsion|spring|working|oil[\s-]?bath|brake|idler)[\s-]+)*(?:axles?|winch|jacks?|ramps?|gates?|doors?|payload|capacity|cargo|load|coupler|hitch|hitches|ball|couplings?|rings?|d-rings?|tie-?downs?|springs?|empty|dry|curb|tongue|pin|kingpin|tires?|wheels?|hoist|lift|gawr|miles?)\b`)
	partOf = regexp.MustCompile(`(?i)(?:axles?|winch|jacks?|ramps?|payload|capacity|cargo|carries|hauls|weighs|empty|dry|tongue|gawr|two|three|tandem|triple|dual|[0-9]\s*x|\([0-9]\))[\s:-]*(?:of\s+|at\s+)?$`)
)

// titleRatings returns the weights in a title that a reader takes for the gross rating.
func titleRatings(title string) []WrittenRating {
	var out []WrittenRating
	for _, m := range titleWeight.FindAllStringSubmatchIndex(title, -1) {
		words := title[m[2]:m[3]]
		if ofPart.MatchString(title[m[3]:]) || partOf.MatchString(title[:m[2]]) || another.MatchString(title) {
			continue
		}
		if w, ok := writtenWeight(words); ok {
			out = append(out, WrittenRating{Weight: w, Words: strings.Join(strings.Fields(words), " "), Rounded: strings.ContainsAny(words, "kK") && !strings.Contains(strings.ToLower(words), "kg")})
		}
	}
	// "GVWR 26,500" and "26,500 GVWR" need no unit.
	for _, r := range ratingsIn(title) {
		known := false
		for _, o := range out {
			known = known || o.Weight == r.Weight
		}
		if !known {
			out = append(out, r.WrittenRating)
		}
	}
	return out
}

var weightWords = regexp.MustCompile(`(?i)^([0-9,.]+)[\s-]*(k?)[\s-]*(kg|lbs?|pounds?|#)?$`)

// writtenWeight reads the words that titleWeight found: 26,500 lbs, 16K, 16-k lb.
func writtenWeight(words string) (measure.Pounds, bool) {
	m := weightWords.FindStringSubmatch(words)
	if m == nil {
		return 0, false
	}
	unit := "lb"
	if strings.EqualFold(m[3], "kg") {
		unit = "kg"
	}
	w, err := measure.ParseWeight(m[1] + strings.ToLower(m[2]) + " " + unit)
	return w.Value, err == nil
}

type foundRating struct {
	WrittenRating
	offset int
}

// mentions reports whether the text may mention a gross rating: it has GV, G.V or gros, or gro and
// another alphabet's letter. Most texts do not, and need no closer look.
func mentions(text string) bool {
	for i := 0; i+2 < len(text); i++ {
		if text[i]|0x20 != 'g' {
			continue
		}
		switch text[i+1] | 0x20 {
		case 'v':
			return true
		case '.' | 0x20:
			if text[i+2]|0x20 == 'v' {
				return true
			}
		case 'r':
			if i+3 < len(text) && text[i+2]|0x20 == 'o' && (text[i+3]|0x20 == 's' || text[i+3] >= utf8.RuneSelf) {
				return true
			}
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
		if mentions(clause) && strings.ContainsAny(clause, "0123456789") && !another.MatchString(clause) {
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
