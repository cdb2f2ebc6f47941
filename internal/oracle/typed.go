package oracle

import (
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A Field is what one field of a page asks for. Unit is the unit of a bare number: lb, ft or
// in, which is kg, m or mm for somebody who reads metric units. Signed lets a number be
// below zero, Zero lets it be zero.
type Field struct {
	Unit         string
	Signed, Zero bool
}

// Typed is what somebody typed into a field, as it was understood.
type Typed struct {
	// Is is ok, blank, ask (a ton may be 2,000 lb or 1,000 kg) or bad.
	Is string
	// Value is in pounds or in inches. Echo writes it back in the unit in which it was typed
	// and, where that is another, in the reader's.
	Value float64
	Echo  string
	// Code and What say what cannot be read, and which part of it.
	Code, What string
	// Choices are the two weights that a ton may be.
	Choices []string
}

// typedUnit is a unit that may be typed. A value is multiplied and then divided.
type typedUnit struct {
	words       string
	weight      bool
	times, over float64
}

var typedUnits = []typedUnit{
	{"lb lbs pound pounds #", true, 1, 1},
	{"kg kgs kilo kilos kilogram kilograms", true, 1, measure.KilogramsPerPound},
	{"tonne tonnes", true, 1000, measure.KilogramsPerPound},
	{"shortton", true, 2000, 1},
	{"ft foot feet '", false, measure.InchesPerFoot, 1},
	{`in inch inches " ''`, false, 1, 1},
	{"mm millimeter millimeters millimetre millimetres", false, 1, measure.MillimetersPerInch},
	{"cm centimeter centimeters centimetre centimetres", false, 10, measure.MillimetersPerInch},
	{"m meter meters metre metres", false, 1000, measure.MillimetersPerInch},
}

func typedUnitOf(word string) *typedUnit {
	for i := range typedUnits {
		if strings.Contains(" "+typedUnits[i].words+" ", " "+word+" ") {
			return &typedUnits[i]
		}
	}
	return nil
}

// Default is the unit of a bare number.
func (f Field) Default(s measure.System) string {
	if s == measure.Metric {
		return map[string]string{"lb": "kg", "ft": "m", "in": "mm"}[f.Unit]
	}
	return f.Unit
}

var (
	tidyMarks = strings.NewReplacer("\u00a0", " ", "\u2007", " ", "\u2009", " ", "\u202f", " ", "\t", " ", "\r", " ", "\n", " ",
		"\u2018", "'", "\u2019", "'", "\u2032", "'", "\u201d", `"`, "\u2033", `"`, "\u2212", "-", "\u2013", "-", "\u2014", "-",
		"½", " 1/2 ", "¼", " 1/4 ", "¾", " 3/4 ", "⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ")
	manySpaces = regexp.MustCompile(` +`)
	metricTon  = regexp.MustCompile(`metric tons?`)
	shortTon   = regexp.MustCompile(`(short|us) tons?`)

	typedCommas = regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+$`)
	typedNumber = regexp.MustCompile(`^([\d,]*)(\.\d*)?`)
	pureOver    = regexp.MustCompile(`^/(\d*)`)
	mixedOver   = regexp.MustCompile(`^[ -](\d+)/(\d*)`)
	typedK      = regexp.MustCompile(`^ ?(k|thousand)([^a-z]|$)`)
	typedWord   = regexp.MustCompile(`^ ?-?([a-z]+|''|['"#])\.?`)
	typedTon    = regexp.MustCompile(`^(t|tons?)$`)
	typedDen    = regexp.MustCompile(`^(2|4|8|16|32|64)$`)
	betweenFeet = regexp.MustCompile(`^(-|, ?|and )`)
)

// tidy writes a text with plain marks, small letters and single spaces.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' {
			return r + 'a' - 'A'
		}
		return r
	}, tidyMarks.Replace(s))
	s = manySpaces.ReplaceAllString(s, " ")
	s = strings.TrimSuffix(strings.TrimPrefix(s, " "), " ")
	return shortTon.ReplaceAllString(metricTon.ReplaceAllString(s, "tonne"), "shortton")
}

// typedPart is one number with its unit. Code says why there is none.
type typedPart struct {
	v          float64
	whole      bool // no fraction and no decimals
	unit       *typedUnit
	ton        bool
	rest       string
	code, what string
}

// ReadTyped reads what somebody typed into a field of a page: a number with or without
// thousands commas, decimals or a fraction, in lb, kg, tonnes, k or thousand, or in feet,
// inches, mm, cm and m. It reads all of the text or refuses it. The script of the pages
// does the same (themes/default/statics.js), and a test compares the two.
func ReadTyped(text string, f Field, s measure.System) Typed {
	bad := func(code, what string) Typed { return Typed{Is: "bad", Code: code, What: what} }
	t := tidy(text)
	if t == "" {
		return Typed{Is: "blank"}
	}
	t, minus := strings.CutPrefix(t, "-")
	if minus && !f.Signed {
		return bad("below", "")
	}
	heavy, usual := f.Unit == "lb", f.Default(s)
	if minus {
		t = strings.TrimPrefix(t, " ")
	}
	p := readPart(t, heavy, usual)
	if p.code != "" {
		return bad(p.code, p.what)
	}
	more := 0.0
	rest := strings.TrimPrefix(p.rest, " ")
	if rest != "" && p.unit != nil && p.unit.times == measure.InchesPerFoot {
		q := readPart(betweenFeet.ReplaceAllString(rest, ""), heavy, "in")
		switch {
		case q.code != "":
			return bad(q.code, q.what)
		case q.unit.times/q.unit.over != 1:
			return bad("rest", rest)
		case !p.whole || !(q.v < measure.InchesPerFoot):
			return bad("inches", rest)
		}
		more, rest = q.v, strings.TrimPrefix(q.rest, " ")
	}
	if rest != "" {
		return bad("rest", rest)
	}
	if p.ton {
		return Typed{Is: "ask", Code: "ton", Choices: []string{measure.American.Weight(measure.Pounds(p.v * 2000)), measure.Metric.Weight(measure.Pounds(p.v * 1000 / measure.KilogramsPerPound))}}
	}
	v := float64(p.v*p.unit.times/p.unit.over) + more
	return f.typed(v, minus, p.unit.over != 1, s)
}

// The most that a field takes: more than any trailer weighs or measures.
const (
	mostTyped       measure.Pounds = 300_000
	mostTypedLength measure.Inches = 2400
)

// typed checks a value and echoes it.
func (f Field) typed(v float64, minus, metric bool, s measure.System) Typed {
	heavy := f.Unit == "lb"
	switch {
	case heavy && v > float64(mostTyped), !heavy && v > float64(mostTypedLength):
		return Typed{Is: "bad", Code: "large"}
	case v == 0 && !f.Zero:
		return Typed{Is: "bad", Code: "zero"}
	}
	if minus {
		v = -v
	}
	write := func(s measure.System) string {
		if heavy {
			return s.Weight(measure.Pounds(v))
		}
		return s.Length(measure.Inches(v))
	}
	own := measure.American
	if metric {
		own = measure.Metric
	}
	echo := write(own)
	if own != s {
		echo += " = " + write(s)
	}
	return Typed{Is: "ok", Value: v, Echo: echo}
}

// readPart reads one number with its unit from the front of a text.
func readPart(s string, heavy bool, usual string) typedPart {
	p := readDigits(s, heavy)
	if p.code != "" {
		return p
	}
	if m := typedK.FindStringSubmatch(p.rest); heavy && m != nil {
		p.v = float64(p.v * 1000)
		p.rest = strings.TrimPrefix(p.rest, " ")[len(m[1]):]
	}
	m := typedWord.FindStringSubmatch(p.rest)
	if m == nil {
		p.unit = typedUnitOf(usual)
		return p
	}
	p.rest = p.rest[len(m[0]):]
	p.unit = typedUnitOf(m[1])
	if heavy && typedTon.MatchString(m[1]) {
		p.ton, p.unit = true, nil
		return p
	}
	if p.unit == nil || p.unit.weight != heavy {
		return typedPart{code: "unit", what: m[1]}
	}
	return p
}

// readDigits reads a number with its commas, decimals or fraction.
func readDigits(s string, heavy bool) typedPart {
	m := typedNumber.FindStringSubmatch(s)
	digits, decimals, rest := m[1], m[2], s[len(m[0]):]
	switch {
	case decimals == ".", digits == "" && decimals == "":
		return typedPart{code: "number"}
	case strings.Contains(digits, ",") && !typedCommas.MatchString(digits):
		return typedPart{code: "commas", what: digits + decimals}
	}
	// 9.500 lb is nine and a half to one reader and nine thousand five hundred to another.
	if heavy && len(decimals) == 4 && len(digits) < 4 && strings.Trim(digits, "0") != "" {
		return typedPart{code: "decimals", what: digits + decimals}
	}
	v, err := strconv.ParseFloat("0"+strings.ReplaceAll(digits, ",", "")+decimals, 64)
	if err != nil || v > 1e9 {
		return typedPart{code: "large"}
	}
	p := typedPart{v: v, whole: decimals == "", rest: rest}
	if decimals != "" {
		return p
	}
	if m := pureOver.FindStringSubmatch(rest); m != nil {
		return p.fraction(0, digits, m[1], digits+"/"+m[1], rest[len(m[0]):])
	}
	if m := mixedOver.FindStringSubmatch(rest); m != nil {
		return p.fraction(v, m[1], m[2], digits+" "+m[1]+"/"+m[2], rest[len(m[0]):])
	}
	return p
}

func (p typedPart) fraction(whole float64, over, under, text, rest string) typedPart {
	n, err := strconv.Atoi(over)
	if err != nil || len(over) > 2 || !typedDen.MatchString(under) {
		return typedPart{code: "fraction", what: text}
	}
	d, _ := strconv.Atoi(under)
	if n >= d {
		return typedPart{code: "fraction", what: text}
	}
	return typedPart{v: whole + float64(n)/float64(d), rest: rest}
}
