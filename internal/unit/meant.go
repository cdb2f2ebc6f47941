package unit

import (
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
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
	{kind: "money", example: "$3 995", meant: "$3,995", make: func(_ *key, text string) string { return commasFor(text) }},
	{kind: "money", example: "1O,500", meant: "$10,500", make: func(k *key, text string) string { return meantMoney(k, digitsFor(text)) }},
	{kind: "money", example: "3 995", meant: "$3,995", make: func(k *key, text string) string { return meantMoney(k, commasFor(text)) }},
	{kind: "weight", example: "9 900 lb", meant: "9,900 lb", make: func(_ *key, text string) string { return commasFor(text) }},
	{kind: "money", example: "3,900", meant: "$3,900", make: meantMoney},
	{kind: "money", example: "$6480 OBO", meant: "$6,480", make: meantMoney},
	{kind: "money", example: "6.5k", meant: "$6,500", make: meantMoney},
	{kind: "weight", example: "9.9k (tag)", meant: "9,900 lb (tag)", make: func(_ *key, text string) string {
		m := thousandForm.FindStringSubmatch(text)
		if m == nil {
			return ""
		}
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil || v <= 0 || v > 200 {
			return ""
		}
		return withCommas(strconv.Itoa(int(v*1000+0.5))) + " lb" + m[2]
	}},
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
	{kind: "choice", example: "sold 11/20/2026", meant: "sold (since 2026-11-20)", make: func(k *key, text string) string {
		words, day, two := cutWord(text)
		if us := USDay(day); two && us != "" && k.dated() {
			return words + " (since " + us + ")"
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
	shortDay     = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{2})$`)
)

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
	message, remedy = k.path+": "+err.Error(), "write it like "+k.name+": "+k.example
	if k.kind == "money" && !strings.ContainsAny(text, "0123456789") {
		// price: call
		remedy = "leave the key out, and the page asks to call; or write " + k.name + ": " + k.example
	}
	if k.kind == "yes or no" && countForm.MatchString(strings.TrimSpace(text)) && strings.Trim(text, " 0") != "" {
		remedy = "write " + k.name + ": yes; how many there are can be told under standard"
	}
	if k.choices != nil {
		// An example would be one of the choices, and probably the wrong one.
		remedy = "write " + k.name + ": and one of these words"
		if near := meantChoice(k, text); near != "" {
			remedy = "write " + k.name + ": " + near
		}
	}
	meant := meantValue(l, k, text)
	if meant != "" {
		remedy = "write " + k.name + ": " + meant
	}
	switch {
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
