package unit

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"tarepage/internal/measure"
)

// A guess writes a value that does not read as it is most likely meant; "" for no guess.
type guess struct {
	kind    string // of the key; empty for every kind
	example string // a value that does not read
	meant   string // what is made of it
	make    func(k *key, text string) string
}

// guesses are tried in order; the first that reads is shown to the owner, who decides. A test
// holds every row by its example.
var guesses = []guess{
	{kind: "", example: "9,900 lb (tag", meant: "9,900 lb (tag)", make: func(_ *key, text string) string {
		if strings.Count(text, "(") == strings.Count(text, ")")+1 {
			return text + ")"
		}
		return ""
	}},
	{kind: "", example: "1O,5l0 lb", meant: "10,510 lb", make: func(_ *key, text string) string { return digitsFor(text) }},
	{kind: "money", example: "2300k", meant: "$2,300", make: func(k *key, text string) string {
		if m := kTooMany.FindStringSubmatch(text); m != nil {
			return meantMoney(k, m[1])
		}
		return ""
	}},
	{kind: "money", example: "$3 995", meant: "$3,995", make: func(_ *key, text string) string { return commasFor(text) }},
	{kind: "money", example: "1O,500", meant: "$10,500", make: func(k *key, text string) string { return meantMoney(k, digitsFor(text)) }},
	{kind: "money", example: "3 995", meant: "$3,995", make: func(k *key, text string) string { return meantMoney(k, commasFor(text)) }},
	{kind: "weight", example: "9 900 lb", meant: "9,900 lb", make: func(_ *key, text string) string { return commasFor(text) }},
	{kind: "weight", example: "7.040 lb (tag)", meant: "7,040 lb (tag)", make: func(_ *key, text string) string {
		number, note, noted := strings.Cut(text, "(")
		if m := pointForComma.FindStringSubmatch(number); m != nil {
			number = strings.Replace(number, m[1]+"."+m[2], m[1]+","+m[2], 1)
		}
		if noted {
			return number + "(" + note
		}
		return number
	}},
	{kind: "", example: "7,000 lb tag", meant: "7,000 lb (tag)", make: func(k *key, text string) string {
		if !bareStart.MatchString(text) || k.kind == "count" {
			return ""
		}
		for i := strings.IndexByte(text, ' '); i > 0 && !strings.Contains(text, "("); {
			if measure.ParseProvenance(text[i+1:]).Origin != measure.Other {
				return text[:i] + " (" + text[i+1:] + ")"
			}
			next := strings.IndexByte(text[i+1:], ' ')
			if next < 0 {
				break
			}
			i += 1 + next
		}
		return ""
	}},
	{kind: "weight", example: "2 x 3,500 lb (tag)", meant: "3,500 lb (tag)", make: func(_ *key, text string) string { return oneOf(text) }},
	{kind: "weight", example: "7k x 2 (tag)", meant: "7,000 lb (tag)", make: func(_ *key, text string) string { return oneOf(text) }},
	{kind: "length", example: "18'6", meant: "18 ft 6 in", make: func(_ *key, text string) string {
		if m := feetMark.FindStringSubmatch(text); m != nil {
			return m[1] + " ft " + m[2] + " in" + m[3]
		}
		return ""
	}},
	{kind: "production week", example: "DOT A1B2 C3D4 1826", meant: "1826", make: func(_ *key, text string) string {
		if m := wholeCode.FindStringSubmatch(text); m != nil {
			return m[1]
		}
		return ""
	}},
	{kind: "money", example: "3,900", meant: "$3,900", make: meantMoney},
	{kind: "money", example: "$6480 OBO", meant: "$6,480", make: meantMoney},
	{kind: "money", example: "6.5k", meant: "$6,500", make: meantMoney},
	{kind: "weight", example: "9.9k (tag)", meant: "9,900 lb (tag)", make: func(_ *key, text string) string { return thousandsOfPounds(text) }},
	{kind: "weight", example: "2300k (tag)", meant: "2,300 lb (tag)", make: func(_ *key, text string) string { return thousandsOfPounds(text) }},
	{kind: "date", example: "11/2/2026", meant: "2026-11-02", make: func(_ *key, text string) string { return USDay(text) }},
	{kind: "date", example: "17-11-2026", meant: "2026-11-17", make: func(_ *key, text string) string {
		if m := usDay.FindStringSubmatch(text); m != nil {
			return USDay(m[2] + "/" + m[1] + "/" + m[3])
		}
		return ""
	}},
	{kind: "date", example: "11/17/26", meant: "2026-11-17", make: func(_ *key, text string) string {
		if m := shortDay.FindStringSubmatch(text); m != nil {
			return USDay(m[1] + "/" + m[2] + "/20" + m[3])
		}
		return ""
	}},
	{kind: "date", example: "Nov 2, 2026", meant: "2026-11-02", make: func(_ *key, text string) string { return spelledDay(text) }},
	{kind: "date", example: "2026/11/2", meant: "2026-11-02", make: func(_ *key, text string) string {
		if m := yearFirst.FindStringSubmatch(text); m != nil {
			return USDay(m[2] + "/" + m[3] + "/" + m[1])
		}
		return ""
	}},
	{kind: "date", example: "2026-17-11", meant: "2026-11-17", make: func(_ *key, text string) string {
		if m := yearFirst.FindStringSubmatch(text); m != nil {
			return USDay(m[3] + "/" + m[2] + "/" + m[1])
		}
		return ""
	}},
	{kind: "choice", example: "sold 11/20/26", meant: "sold (since 2026-11-20)", make: func(k *key, text string) string {
		words, day, two := cutWord(text)
		if m := shortDay.FindStringSubmatch(day); m != nil {
			day = m[1] + "/" + m[2] + "/20" + m[3]
		}
		if us := USDay(day); two && us != "" && k.dated() {
			return strings.ToLower(words) + " (since " + us + ")"
		}
		return ""
	}},
	{kind: "choice", example: "Sold to a neighbor", meant: "sold", make: func(k *key, text string) string {
		for words, _, more := cutWord(text); more && k.dated(); words, _, more = cutWord(words) {
			if slices.ContainsFunc(k.choices, func(c string) bool { return sameWords(c, words) }) {
				return strings.ToLower(words)
			}
		}
		return ""
	}},
	{kind: "choice", example: "equipment trailer", meant: "equipment", make: func(k *key, text string) string {
		return meantChoice(k, strings.TrimSuffix(strings.ToLower(text), " trailer"))
	}},
	{kind: "count", example: "4 tires", meant: "4", make: func(_ *key, text string) string {
		n, rest, _ := strings.Cut(text, " ")
		if !hasLetter.MatchString(rest) {
			return ""
		}
		return n
	}},
}

var (
	// moneyForm matches an amount with what people write around it.
	moneyForm = regexp.MustCompile(`^\$? ?([0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(\.[0-9]+)?( ?[kK])?\b(.*)$`)
	// thousandForm matches thousands with a k, and a note after it.
	thousandForm = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) ?[kK](?: ?lbs?| pounds)?( \(.*\))?$`)
	bareStart    = regexp.MustCompile(`^[0-9]`)
	// wholeCode matches a tire's whole code; the week is in its last four digits (49 CFR 574.5).
	wholeCode = regexp.MustCompile(`(?i)^(?:dot|tin)\b.* ([0-9]{4})$`)
	// timesForm matches several of one weight: 2 x 3,500 lb, 2-7000 lb.
	timesForm = regexp.MustCompile(`^([1-9]) ?[xX×@-] ?([0-9].*)$`)
	// timesAfter matches one weight and how many of it there are: 7k x 2 (tag).
	timesAfter = regexp.MustCompile(`^([0-9][0-9.,]* ?(?:[kK]|lbs?|pounds)?) ?[xX×*@] ?([1-9])( \(.*\))?$`)
	// feetMark matches feet and inches whose second mark is missing, and a note after them.
	feetMark  = regexp.MustCompile(`^([0-9]+)' ?-?([0-9]{1,2})( \(.*\))?$`)
	yearFirst = regexp.MustCompile(`^([0-9]{4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,2})$`)
	shortDay  = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{2})$`)
)

// kTooMany matches a whole amount with a k after it that does not belong there: 2300k.
var kTooMany = regexp.MustCompile(`^\$? ?([0-9]{4}) ?[kK]( \(.*\))?$`)

// thousandsOfPounds writes thousands with a k, with or without a unit, as pounds. Four digits
// before the k are pounds already. It is empty for another text.
func thousandsOfPounds(text string) string {
	if m := kTooMany.FindStringSubmatch(text); m != nil {
		return withCommas(m[1]) + " lb" + m[2]
	}
	m := thousandForm.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil || v <= 0 || v > 200 {
		return ""
	}
	return withCommas(strconv.Itoa(int(v*1000+0.5))) + " lb" + m[2]
}

// several is a text that gives several of one weight, as how many there are and one of them; empty
// for another text.
func several(text string) (count, one string) {
	if m := timesForm.FindStringSubmatch(text); m != nil {
		return m[1], m[2]
	}
	if m := timesAfter.FindStringSubmatch(text); m != nil {
		return m[2], m[1] + m[3]
	}
	return "", ""
}

// oneOf is one of several weights as the file takes it, or "".
func oneOf(text string) string {
	_, one := several(text)
	if pounds := thousandsOfPounds(one); pounds != "" {
		return pounds
	}
	return one
}

func meantMoney(_ *key, text string) string {
	m := moneyForm.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || strings.ContainsAny(m[4], "0123456789") {
		return ""
	}
	whole := strings.ReplaceAll(m[1], ",", "")
	if m[3] != "" {
		v, err := strconv.ParseFloat(whole+m[2], 64)
		if err != nil || v > 9999 {
			return ""
		}
		return "$" + withCommas(strconv.Itoa(int(v*1000+0.5)))
	}
	return "$" + withCommas(whole) + m[2]
}

// spelledDay is a day whose month is a word, as this program writes it; "" for another text.
func spelledDay(text string) string {
	plain := strings.Join(strings.Fields(strings.NewReplacer(",", " ", ".", " ").Replace(text)), " ")
	for _, form := range []string{"Jan 2 2006", "January 2 2006", "2 Jan 2006", "2 January 2006", "2-Jan-2006", "2-Jan-06"} {
		if t, err := time.Parse(form, plain); err == nil {
			return t.Format("2006-01-02")
		}
	}
	return ""
}

// withCommas groups the digits of a whole number.
func withCommas(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// dated reports whether the key's value may have the day since when it holds.
func (k *key) dated() bool { return k.path == "availability" || k.path == "price" }

// meantValue is what a value that does not read most likely means, written so that it reads;
// "" where nobody can tell.
func meantValue(l leaf, k *key, text string) string {
	for _, g := range guesses {
		if g.kind != "" && g.kind != k.kind {
			continue
		}
		meant := g.make(k, text)
		if meant == "" || meant == text {
			continue
		}
		again := reflect.New(reflect.TypeOf(l).Elem()).Interface().(leaf)
		if again.read(meant, k) == nil {
			return meant
		}
	}
	return ""
}

// unreadable says what is wrong with a value that does not read, and what to write instead.
func unreadable(l leaf, k *key, text string, err error) (message, remedy string) {
	message, remedy = k.path+": "+err.Error(), unguessed(k, text)
	meant := meantValue(l, k, text)
	switch with := withUnit(l, k, text); {
	case meant != "":
		remedy = "write " + k.name + ": " + meant
	case with != "":
		remedy = "write " + k.name + ": " + with + ", if that is its unit"
	}
	switch {
	case strings.ContainsAny(text, "“”„«»") && k.kind != "text":
		message = fmt.Sprintf("%s: there are quotation marks around %s", k.path, strings.Trim(text, "“”„«» "))
		remedy = "write " + k.name + ": " + strings.Trim(text, "“”„«» ")
	case meant != "" && kTooMany.MatchString(text):
		message = fmt.Sprintf("%s: %q has a k, which makes thousands of it", k.path, text)
	case meant != "" && thousandForm.MatchString(text):
		message = fmt.Sprintf("%s: %q has no unit", k.path, text)
	case meant != "" && k.kind == "weight" && oneOf(text) != "":
		message = fmt.Sprintf("%s: %q is several weights; the rating of one is written here", k.path, text)
		count, _ := several(text)
		remedy += ", and how many there are in a line of its own, count: " + count
	case noAnswer.MatchString(text):
		message = fmt.Sprintf("%s: %q is not a value", k.path, text)
		remedy = "leave the line out until somebody knows it; or write " + k.name + ": " + k.example
		if k.mayBeUnknown() {
			message = fmt.Sprintf("%s: %q does not say why nobody knows it", k.path, text)
			remedy = "go and look; if nobody can find out, write the reason after it, as in " + k.name + ": unknown (the label is painted over)"
		}
	case meant != "" && letterDigit.MatchString(text):
		message = fmt.Sprintf("%s: %q has a letter where a digit belongs: the letter O or o is not a zero, and l or I is not a one", k.path, text)
	}
	return message, remedy
}

// unguessed says what to write for a value of which nobody can tell how it is meant.
func unguessed(k *key, text string) string {
	switch near := meantChoice(k, text); {
	case k.choices != nil && near != "":
		return "write " + k.name + ": " + near
	case k.choices != nil:
		// An example would be one of the choices, and probably the wrong one.
		return "write " + k.name + ": and one of these words"
	case k.kind == "money" && !strings.ContainsAny(text, "0123456789"):
		// price: call
		return "leave the key out, and the page asks to call; or write " + k.name + ": " + k.example
	case k.kind == "yes or no" && countForm.MatchString(strings.TrimSpace(text)) && strings.Trim(text, " 0") != "":
		return "write " + k.name + ": yes; how many there are can be told under standard"
	case k.kind == "yes or no":
		return "write " + k.name + ": yes or " + k.name + ": no; write other words under standard"
	}
	return "write it like " + k.name + ": " + k.example
}

// withUnit is a number without a unit with the unit of the key's example after it, "" for another
// text. Nobody knows whether that is its unit.
func withUnit(l leaf, k *key, text string) string {
	number, note, noted := strings.Cut(strings.TrimSpace(text), "(")
	number = strings.TrimSpace(number)
	m := exampleUnit.FindStringSubmatch(k.example)
	if m == nil || !bareNumber.MatchString(number) {
		return ""
	}
	if whole := strings.ReplaceAll(number, ",", ""); k.kind == "weight" && len(whole) > 3 && !strings.Contains(whole, ".") {
		number = withCommas(whole)
	}
	number = strings.Replace(number, " ", "-", 1) + m[1]
	if noted {
		number += " (" + note
	}
	again := reflect.New(reflect.TypeOf(l).Elem()).Interface().(leaf)
	if again.read(number, k) != nil {
		return ""
	}
	return number
}

var (
	// bareNumber matches a number and nothing else: 7,000, 2.3125, 2 5/16, 2-5/16.
	bareNumber = regexp.MustCompile(`^[0-9][0-9,]*(?:\.[0-9]+|[ -][0-9]+/[0-9]+)?$`)
	// exampleUnit is the unit in an example, with the blank in front of it: " lb", "%".
	exampleUnit = regexp.MustCompile(`^[0-9][0-9,./-]*( (?:lb|ft|in|psi|gal)|%)`)
)

// noAnswer is what people write where they do not know a value.
var noAnswer = regexp.MustCompile(`^(?i)\s*(?:unknown|unk\.?|not known|not sure|don'?t know|no idea|tbd|tba|n/a|see label|check|\?+|-+|x+)\s*$`)

// letterDigit is a letter next to a digit that looks like one: 1O, l0.
var letterDigit = regexp.MustCompile(`[0-9][,.]?[OolI]|[OolI][,.]?[0-9]`)

// digitsFor writes the digits that letters in a number were meant for.
func digitsFor(text string) string {
	number, note, noted := strings.Cut(text, "(")
	for letterDigit.MatchString(number) {
		number = letterDigit.ReplaceAllStringFunc(number, func(s string) string {
			return strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1").Replace(s)
		})
	}
	if noted {
		number += "(" + note
	}
	return number
}

// blankThousands is a number with blanks between its thousands: 9 900.
var blankThousands = regexp.MustCompile(`\b[0-9]{1,3}(?: [0-9]{3})+\b`)

// commasFor writes commas where blanks are between thousands.
func commasFor(text string) string {
	return blankThousands.ReplaceAllStringFunc(text, func(s string) string { return strings.ReplaceAll(s, " ", ",") })
}
