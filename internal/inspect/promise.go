package inspect

import (
	"html"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"tarepage/internal/measure"
)

// A promise is a load that words say the trailer takes.
type promise struct {
	says string // the words, in small letters
	load measure.Pounds
	// plain reports that the words call it the payload or a capacity.
	plain bool
}

// maxBetween is how many words may be between "payload" or "carries" and the weight.
const maxBetween = 8

var (
	promiseTokens = regexp.MustCompile(`\$?[0-9][0-9,]*(?:\.[0-9]+)?|[a-z]+(?:['’][a-z]+)?|[.;!?\n](?:\s|$)|#`)
	glyphs        = strings.NewReplacer("½", ".5", "¼", ".25", "¾", ".75")

	// carries are the words that say what a trailer does with a load.
	carries = set("carry carries carried carrying haul hauls hauled hauling hold holds take takes handle handles transport transports tote totes move moves good")
	// otherParts are what a weight near such a word may belong to in place of the trailer.
	otherParts = set(`ramp ramps gate gates tailgate jack jacks winch coupler ball hitch axle axles tire tires wheel wheels rim rims hoist cylinder spring springs
		suspension chain chains strap straps ring rings hook hooks pocket pockets tie binder binders rack racks box toolbox tongue kingpin pintle landing leg legs
		deck floor plank planks crossmember crossmembers lift fork forks bucket crane beam truck pickup tow pull pulls behind brakes brake scale tank compressor`)
	// otherLimits are the words after a weight that say that it is not a load.
	otherLimits  = set("gvwr gvw gcwr gross axle axles coupler tongue empty springs jack winch tires each per torsion ball hitch ramps chain chains")
	otherWeights = set("gvwr gvw")
	refusals     = set("not never don't doesn't cannot can't won't no nor isn't without less minus if when instead")
	// praises are the words after a refusal with which it makes the promise stronger: not only, no
	// problem, no less than, won't hesitate.
	praises = set(`only just merely simply alone less fewer under below problem problems trouble doubt worry worries matter question issue issues
		sweat strain effort hesitate mind fail fails failed care wrong joke kidding lie fear blink surprise wonder excuse limit stranger match equal`)
	// clauses are the words that begin another clause, which the refusal is not about.
	clauses     = set("it she he they this but because since so yet though although while then and who")
	numberWords = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
		"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
		"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
	multiples = map[string]float64{"hundred": 100, "thousand": 1000, "k": 1000, "grand": 1000, "million": 1e6}
	// weightWords are pounds in one of what the word means: a ton is the short ton, a tonne the
	// metric one (NIST Handbook 44, Appendix C).
	weightWords = map[string]float64{"lb": 1, "lbs": 1, "pound": 1, "pounds": 1, "#": 1, "ton": 2000, "tons": 2000, "tonne": 2204.62, "tonnes": 2204.62,
		"kg": 2.20462, "kgs": 2.20462, "kilo": 2.20462, "kilos": 2.20462, "kilogram": 2.20462, "kilograms": 2.20462}
	thousandsPoint = regexp.MustCompile(`^[0-9]{1,3}\.[0-9]{3}$`)
)

func set(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// A weighed is a weight among the words of a text.
type weighed struct {
	from, to int // its words
	pounds   float64
	unit     bool // whether a unit follows the number
}

// A promising is a text cut into small words, numbers and ends of sentences.
type promising struct {
	text string
	at   [][]int
}

// is the word at i; a point where there is none, or where a line ends.
func (w *promising) is(i int) string {
	if i >= 0 && i < len(w.at) {
		if s := strings.TrimSpace(w.text[w.at[i][0]:w.at[i][1]]); s != "" {
			return s
		}
	}
	return "."
}

// ends reports whether a sentence ends at i.
func (w *promising) ends(i int) bool { return strings.ContainsAny(w.is(i)[:1], ".;!?") }

// promises finds the loads that a text promises, in numbers or in words.
func promises(text string) []promise {
	text = strings.ToLower(norm.NFKC.String(glyphs.Replace(html.UnescapeString(text))))
	text = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, text)
	w := &promising{text: text, at: promiseTokens.FindAllStringIndex(text, -1)}
	var found []promise
	for i := 0; i < len(w.at); {
		q, ok := w.weight(i)
		if !ok {
			i++
			continue
		}
		if from, to, plain, ok := w.promised(q); ok {
			found = append(found, promise{strings.TrimSpace(text[w.at[from][0]:w.at[to-1][1]]), measure.Pounds(q.pounds), plain})
		}
		i = q.to
	}
	return found
}

// weight reads a number and its unit: 9,000 lb, 50 tons, 99k, twelve thousand pounds.
func (w *promising) weight(i int) (q weighed, ok bool) {
	v, at := w.number(i)
	if at == i {
		return q, false
	}
	q = weighed{from: i, to: at, pounds: v}
	metric := w.is(at) == "metric"
	if metric || w.is(at) == "short" {
		at++
	}
	if each, is := weightWords[w.is(at)]; is {
		if metric && each == 2000 {
			each = 2204.62
		}
		q.pounds, q.to, q.unit = float64(q.pounds*each), at+1, true
	}
	return q, q.pounds > 0
}

// number reads a number in digits or in words, and returns where it ends.
func (w *promising) number(i int) (v float64, at int) {
	sum, part := 0.0, 0.0
	if n, is := digitsIn(w.is(i)); is {
		part, at = n, i+1
	} else if numberWords[w.is(i)] > 0 {
		at = i
	} else {
		return 0, i
	}
	for ; ; at++ {
		s := w.is(at)
		if n := numberWords[s]; n > 0 {
			part += n
		} else if m := multiples[s]; m == 100 {
			part = float64(part * m)
		} else if m > 0 {
			sum, part = sum+float64(part*m), 0
		} else if s != "and" {
			return sum + part, at
		} else if w.is(at+1) == "a" && w.is(at+2) == "half" {
			part += 0.5
			at += 2
		} else if numberWords[w.is(at+1)] == 0 {
			return sum + part, at
		}
	}
}

// digitsIn reads the digits of a number. A point in front of three digits is taken for a comma.
func digitsIn(s string) (v float64, ok bool) {
	if s[0] < '0' || s[0] > '9' {
		return 0, false
	}
	if thousandsPoint.MatchString(s) {
		s = strings.Replace(s, ".", "", 1)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	return v, err == nil
}

// promised reports whether the words around a weight say that the trailer takes it as a load.
func (w *promising) promised(q weighed) (from, to int, plain, ok bool) {
	if otherLimits[w.is(q.to)] || w.refused(q.from) {
		return 0, 0, false, false
	}
	capacity := q.unit && !w.other(q.from)
	// 9,000 lb of payload, 9,000 lb load capacity
	for i := q.to; i < q.to+4 && !w.ends(i); i++ {
		if s := w.is(i); s == "payload" || s == "capacity" && capacity {
			return q.from, i + 1, true, true
		}
	}
	for i := q.from - 1; i >= q.from-maxBetween && !w.ends(i); i-- {
		switch s := w.is(i); {
		case weightWords[s] > 0, otherWeights[s]:
			return 0, 0, false, false // that word is about another weight
		case s == "payload":
			return i, q.to, true, q.unit || q.pounds >= 1000
		case s == "capacity" && capacity:
			return i, q.to, true, true
		case carries[s] && (s != "good" || w.is(i+1) == "for"):
			return i, q.to, false, capacity
		}
	}
	return 0, 0, false, false
}

// other reports whether the sentence is about a part, up to a word of it.
func (w *promising) other(i int) bool { return w.before(i, otherParts) }

// maxRefused is how many words may be between a refusal and the weight that it is about.
const maxRefused = 7

// refused reports whether the words say that it is not so: a refusal in the same clause, close to
// the weight, that is not praise. "Do not haul 10,000 lb" is a refusal; "not only does it haul 50
// tons" and "no problem, it hauls 50 tons" are promises.
func (w *promising) refused(at int) bool {
	for i := at - 1; i >= at-1-maxRefused && !w.ends(i) && !w.parted(i); i-- {
		s := strings.ReplaceAll(w.is(i), "’", "'")
		next := w.is(i + 1)
		switch {
		case refusals[s]:
			praise := praises[next] || praises[w.is(i+2)] && i+2 < at || praises[w.is(i+3)] && i+3 < at
			return !praise && !(s == "less" && refusals[w.is(i-1)]) // "not less than 50 tons" is at least that

		case clauses[s] && !refusals[w.is(i-1)]: // "if it hauls" is one clause
			return false
		}
	}
	return false
}

// parted reports whether a comma, a colon, a dash or a parenthesis follows the word at i.
func (w *promising) parted(i int) bool {
	return i+1 < len(w.at) && strings.ContainsAny(w.text[w.at[i][1]:w.at[i+1][0]], ",:()–—")
}

func (w *promising) before(i int, list map[string]bool) bool {
	for i--; !w.ends(i); i-- {
		if list[w.is(i)] {
			return true
		}
	}
	return false
}
