package walkaround

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// tireSizes finds "ST235/80R16", "235 80 R16", "two thirty-five eighty sixteens".
func (s *sentence) tireSizes() {
	for i := range s.t {
		if w, ok := strings.CutPrefix(s.word(i), "size:"); ok {
			m := sizeForm.FindStringSubmatch(w)
			s.tire(i, i+1, strings.ToUpper(m[1]), m[2]+m[3]+m[4], false)
		}
	}
	for i := range s.qs {
		q := &s.qs[i]
		if q.used || q.unit != bare && q.unit != foreign || q.amount < 0 {
			continue
		}
		digits, to := run(q.parts), q.to
		k := i
		for k+1 < len(s.qs) && len(digits) < 7 {
			next := &s.qs[k+1]
			gap := next.from - to
			if gap > 2 || gap == 2 && !(s.is(to, "r", "/", "-") && s.is(to+1, "r")) || gap == 1 && !s.is(to, "r", "/", "-", "our", "are") {
				break
			}
			digits += run(next.parts)
			to = next.to
			k++
		}
		if k > i && s.qs[k].unit == bare {
			to = s.qs[k].numeral.to
		}
		prefix, from := "", q.from
		if s.is(from-1, "st", "lt") {
			prefix = strings.ToUpper(s.word(from - 1))
			from--
		} else if s.is(from-1, "t") && s.is(from-2, "s", "l") {
			prefix = strings.ToUpper(s.word(from-2)) + "T"
			from -= 2
		}
		if s.tire(from, to, prefix, digits, true) {
			for ; k >= i; k-- {
				s.qs[k].used = true
			}
		}
	}
}

// tire emits the size that the digits spell, if they spell one that is made: a width
// ending in 5, an aspect that is a multiple of 5, a rim of 12 to 24 inches.
func (s *sentence) tire(from, to int, prefix, digits string, spoken bool) bool {
	if len(digits) < 7 {
		return false
	}
	width, err1 := strconv.Atoi(digits[:3])
	aspect, err2 := strconv.Atoi(digits[3:5])
	rimText := digits[5:]
	if len(rimText) == 3 && rimText[2] == '5' {
		rimText = rimText[:2] + ".5"
	}
	rim, err3 := strconv.ParseFloat(rimText, 64)
	if err1 != nil || err2 != nil || err3 != nil || width < 135 || width > 455 || width%5 != 0 || width%10 == 0 ||
		aspect < 30 || aspect > 90 || aspect%5 != 0 || rim < 12 || rim > 24.5 || rim != math.Trunc(rim) && rim-math.Trunc(rim) != 0.5 {
		return false
	}
	c := Candidate{Role: TireSize, Value: Word(prefix + digits[:3] + "/" + digits[3:5] + "R" + rimText), Confidence: 0.97}
	if spoken {
		c.Confidence = 0.92
	}
	if s.ofSpare(from) {
		c.Doubt = "of the spare"
	}
	if s.aside != nil && s.aside[from] == hours {
		clear(s.aside[from:to]) // "I replaced in May, all four are ..."
	}
	s.emit(from, to, c)
	return true
}

// ofSpare reports that the spare is what is spoken of at token i: "the spare is a load range
// E". A spare that is listed ("... and a spare, load range E all round") is not.
func (s *sentence) ofSpare(i int) bool {
	for k := i - 1; k >= max(0, i-8); k-- {
		switch {
		case s.is(k, "spare"):
			return s.t[k].possessive || k+1 == i || s.is(k+1, "is", "has", "tire", "takes", "though", "only", "just", "wheel", "was") || s.is(k+1, "on") && s.is(k+2, "it", "there", "this", "the")
		case s.is(k, "tires", "other", "others", "rest", "these", "all"), s.is(k, "and") && s.is(k+1, "the"):
			return false
		}
	}
	return false
}

// justSized reports that a tire's size ends with token i.
func (s *sentence) justSized(i int) bool {
	return slices.ContainsFunc(s.out, func(c Candidate) bool { return c.Role == TireSize && c.Offset+len(c.Quote) == s.t[i].to })
}

// letterNames are how captions write a letter that was said.
var letterNames = map[string]string{"bee": "B", "cee": "C", "sea": "C", "see": "C", "dee": "D", "ee": "E", "eff": "F", "ef": "F",
	"gee": "G", "jee": "G", "aitch": "H", "jay": "J", "ell": "L"}

// loadRanges finds "load range E", "LR E", "LRE", "e rated".
func (s *sentence) loadRanges() {
	letter := func(i int) string {
		w := s.word(i)
		if l, ok := letterNames[w]; ok && s.is(i-1, "range") {
			return l
		}
		if len(w) == 1 && w >= "b" && w <= "n" && w != "i" && w != "k" {
			return strings.ToUpper(w)
		}
		return ""
	}
	for i := range s.t {
		var l string
		to, here := i+1, letter(i)
		switch {
		case s.is(i, "load") && s.is(i+1, "range"):
			l, to = letter(i+2), i+3
		case s.is(i, "range") && s.is(i+1, "of") && s.is(i+2, "load"):
			l, to = letter(i+3), i+4
		case s.is(i, "lr"):
			l, to = letter(i+1), i+2
		case strings.HasPrefix(s.word(i), "lr") && len(s.word(i)) == 3:
			l = strings.ToUpper(s.word(i)[2:])
		case here != "" && s.is(i+1, "range") && !s.is(i-1, "a") && !s.is(i, "a"):
			l, to = here, i+2
		case here != "" && s.is(i+1, "rated") && slices.ContainsFunc(s.out, func(c Candidate) bool { return c.Role == TireSize }):
			l, to = here, i+2
		case here != "" && s.is(i+1, "load") && i > 0 && (s.t[i-1].kind == comma && s.justSized(max(0, i-2)) || s.justSized(i-1)):
			l, to = here, i+2 // "two thirty-five eighty sixteens, G load"
		case here != "" && i > 0 && s.justSized(i-1) && !s.is(i, "b", "j", "l", "m", "n"):
			l = here // "ST235/80R16 E"
		case here != "" && s.t[max(0, i-1)].kind == comma && s.is(i-2, "ply") && (i+1 == len(s.t) || s.t[i+1].kind == comma):
			l = here
		case here != "" && s.is(i+1, "rated") && (s.is(i+2, "tires", "tire") || s.has("ply")):
			l, to = here, i+2
		}
		if l != "" {
			c := Candidate{Role: LoadRange, Value: Word(l), Confidence: 0.95}
			if s.ofSpare(i) {
				c.Doubt = "of the spare"
			}
			s.emit(i, to, c)
		}
	}
}
