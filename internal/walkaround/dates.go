package walkaround

import (
	"strconv"
	"strings"
)

// dates finds the week and year a tire was made: "date code thirty-one twenty-five",
// "week eighteen of twenty-three". The code is 49 CFR 574.5: two digits of the week,
// two of the year.
func (s *sentence) dates() {
	for i := range s.t {
		switch {
		case s.is(i, "date") && s.is(i+1, "code", "codes") && s.is(i+2, "run", "runs", "range", "go", "are", "vary") && s.has("from", "to", "between", "all"):
			// of several tires that were made at different times
		case s.is(i, "date") && s.is(i+1, "code", "codes", "coded", "thing", "stamp", "on"), s.is(i, "dot", "dots") && s.is(i+1, "says", "code", "date", "is", "number", "stamp"),
			s.is(i, "code") && s.is(i+1, "on") && s.is(i+3, "side", "sidewall", "tire", "tires"),
			s.is(i, "numbers") && s.is(i+1, "on") && s.is(i+2, "em", "them", "those", "these") && s.is(i+3, "are", "is", "say", "says"),
			s.is(i, "numbers", "digits") && (s.is(i-1, "little", "four", "tiny", "small") || s.is(i+1, "on") && s.is(i+3, "side", "sidewall")) && (s.is(i+1, "say", "says", "are") || s.is(i+4, "say", "says", "are")):
			for k := range s.qs {
				q := &s.qs[k]
				if q.from <= i || q.from > i+9 || q.used {
					continue
				}
				digits := ""
				for _, p := range q.parts {
					// "oh eight nineteen" begins with the oh that is no number of its own
					digits += plainNumber(p)
				}
				if q.single() && s.t[q.from].kind == number {
					digits = s.t[q.from].text // with its leading zero
				}
				if len(digits) == 3 && s.is(q.from-1, "oh", "o", "zero") {
					digits = "0" + digits
				}
				if s.made(i, q.to, digits) {
					q.used = true
				}
				break
			}
		case s.is(i, "week") && s.is(i+1, "of"):
			// "the 48th week of 24", "nineteenth week of twenty three"
			for k := range s.qs {
				b := &s.qs[k]
				y, ok := b.whole()
				if len(b.parts) == 2 && b.parts[0] == 20 {
					y, ok = int(b.parts[1]), true
				}
				if b.from != i+2 || !ok {
					continue
				}
				if y >= 2000 {
					y -= 2000
				}
				if w := s.ordinalBefore(i); w > 0 && w < 54 && y < 60 && s.made(i-1, b.to, twoDigits(w)+twoDigits(y)) {
					b.used = true
				}
			}
		case s.is(i, "week"):
			for k := 0; k+1 < len(s.qs); k++ {
				a, b := &s.qs[k], &s.qs[k+1]
				if a.from == i+1 && b.from == a.to+1 && s.is(a.to, "of") {
					w, ok1 := a.whole()
					y, ok2 := b.whole()
					if y >= 2000 {
						y -= 2000
					} else if len(b.parts) == 2 && b.parts[0] == 20 {
						y, ok2 = int(b.parts[1]), true
					}
					if ok1 && ok2 && w < 54 && y < 60 && s.made(i, b.to, twoDigits(w)+twoDigits(y)) {
						a.used, b.used = true, true
					}
				}
			}
		}
	}
}

// ordinals are those that end otherwise than in th.
var ordinals = map[string]int{"first": 1, "second": 2, "third": 3, "fifth": 5, "eighth": 8, "ninth": 9, "twelfth": 12, "twentieth": 20, "thirtieth": 30, "fortieth": 40, "fiftieth": 50}

// ordinalBefore is the ordinal that ends before token i: "48th", "nineteenth", "thirty third"; or 0.
func (s *sentence) ordinalBefore(i int) int {
	if s.is(i-1, "th", "st", "nd", "rd") {
		if v, ok := s.digits(i - 2); ok {
			return int(v)
		}
		return 0
	}
	w := s.word(i - 1)
	n, ok := ordinals[w]
	if !ok {
		stem, cut := strings.CutSuffix(w, "th")
		if !cut {
			return 0
		}
		v, isOne := ones[stem]
		if !isOne {
			v, isOne = teens[stem]
		}
		if !isOne {
			return 0
		}
		n = int(v)
	}
	if t, ok := tens[s.word(i-2)]; ok && n < 10 {
		n += int(t)
	}
	return n
}

func twoDigits(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

func (s *sentence) made(from, to int, digits string) bool {
	n, err := strconv.Atoi(digits)
	if err != nil || len(digits) != 4 || n/100 < 1 || n/100 > 53 || n%100 > 45 {
		return false
	}
	s.emit(from, to, Candidate{Role: TireMade, Value: Word("week " + strconv.Itoa(n/100) + " " + strconv.Itoa(2000+n%100)), Confidence: 0.93})
	return true
}

// years finds the model year: "a twenty twenty-six", "2026 model".
func (s *sentence) years() {
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.rejected != "" || q.unit != bare {
			continue
		}
		var y float64
		switch {
		case q.single() && !q.broken && q.amount >= 1980 && q.amount <= 2040 && !s.is(q.to-1, "k", "grand"):
			y = q.amount
		case len(q.parts) == 2 && q.parts[0] == 20 && q.parts[1] >= 10 && q.parts[1] <= 40:
			y = 2000 + q.parts[1]
		case len(q.parts) == 2 && q.parts[0] == 19 && q.parts[1] >= 80:
			y = 1900 + q.parts[1]
		case len(q.parts) == 3 && q.parts[0] == 20 && q.parts[1] == 0 && q.parts[2] < 10:
			y = 2000 + q.parts[2]
		default:
			continue
		}
		near := false
		for k := max(0, q.from-4); k < min(q.to+2, len(s.t)); k++ {
			near = near || s.is(k, "year", "yr", "model")
		}
		if s.is(q.to, "title", "registration", "receipt", "inspection", "paint", "tires") {
			continue
		}
		first := q.from == 0 && q.single() && (sorts[s.word(q.to)] || described[s.word(q.to)]) // "2024 tilt deck, 20 ft"
		if !near && !first && !s.is(q.from-1, "a", "an", "new") {
			continue
		}
		if _, d, ok := s.nearest(q.from, q.to, func(c cue) bool { return c.money != "" || c.weight != "" }); ok && d < 2 && !near && !s.is(q.from-1, "a", "an") {
			continue
		}
		q.used = true
		s.emit(q.from, q.to, Candidate{Role: ModelYear, Value: Year(y), Confidence: 0.93})
	}
}
