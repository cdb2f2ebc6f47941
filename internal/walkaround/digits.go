package walkaround

import "strings"

// Captions mix digits and words in one number: "26 hundred and 40", "15 thousand 5 hundred and
// seventy", "33 90". This file writes such numbers in words, so that there is one way to read
// them. A number in digits alone stays.

// inWords writes digits in words where they are next to another part of a number.
func inWords(t []token) []token {
	var out []token // nil until something changes
	for i := range t {
		w := ""
		if t[i].shortNumber() && !ofFraction(t, i) && !ofBall(t, i) && !ofSize(t, i) && (mixedWith(t, i, -1) || mixedWith(t, i, 1)) {
			w = spokenDigits(t[i].text)
		}
		if w == "" {
			if out != nil {
				out = append(out, t[i])
			}
			continue
		}
		if out == nil {
			out = append(make([]token, 0, len(t)+8), t[:i]...)
		}
		x := t[i]
		x.kind, x.value, x.glued = word, 0, false
		for n := range strings.FieldsSeq(w) {
			x.text = n
			out = append(out, x)
			x.from = x.to
		}
	}
	if out == nil {
		return t
	}
	return out
}

// shortNumber reports one or two digits that stand by themselves.
func (t *token) shortNumber() bool {
	return t.kind == number && !t.decimal && !t.glued && len(t.text) <= 2
}

// ofSize reports that token i is of a run of digits that begins with three or more, as a
// tire's size does: "235 80 16".
func ofSize(t []token, i int) bool {
	for i > 0 && t[i].shortNumber() {
		i--
	}
	return t[i].kind == number && !t[i].shortNumber()
}

// mixedWith reports that what comes before or after token i is a part of the same number.
func mixedWith(t []token, i, step int) bool {
	k := i + step
	if k < 0 || k >= len(t) {
		return false
	}
	if t[k].text == "and" && k+step >= 0 && k+step < len(t) {
		k += step
		return step < 0 && scaleWords[t[k].text] && t[k].kind == word
	}
	if k+1 < len(t) && t[k+1].glued || k == i+1 && k+1 < len(t) && (t[k+1].text == "/" || t[k+1].text == "-") {
		return false // "2 5/16"
	}
	switch t[k].kind {
	case number:
		return t[k].shortNumber() && !ofBall(t, k)
	case word:
		return isNumberWord(t[k].text) && t[k].text != "k" && !aparted[t[k].text]
	}
	return false
}

// ofFraction reports that token i is of a fraction in digits: "2 5/16".
func ofFraction(t []token, i int) bool {
	slash := func(k int) bool { return k > 0 && k < len(t) && (t[k].text == "/" || t[k].text == "-" && t[k].glued) }
	return slash(i-1) || slash(i+1)
}

// ofBall reports that token i is of the fraction of a ball, "2 5 16", which is read as it is.
func ofBall(t []token, i int) bool {
	is := func(k int, five, sixteen string) bool {
		return k >= 0 && k+1 < len(t) && t[k].text == five && t[k+1].text == sixteen
	}
	return is(i, "5", "16") || is(i-1, "5", "16")
}

// scaleWords multiply what is in front of them.
var scaleWords = set("hundred thousand")

// aparted are words of numbers that also stand for something else.
var aparted = set("one half quarter second third")

// spokenDigits is how a number of one or two digits is said: "thirty three", "oh five".
func spokenDigits(digits string) string {
	n := int(digits[len(digits)-1] - '0')
	if len(digits) == 1 {
		return numberNames[n]
	}
	ten := int(digits[0] - '0')
	switch {
	case ten == 0 && n == 0:
		return ""
	case ten == 0:
		return "oh " + numberNames[n]
	case ten == 1:
		return numberNames[10+n]
	case n == 0:
		return tenNames[ten]
	}
	return tenNames[ten] + " " + numberNames[n]
}

var (
	numberNames = strings.Fields(`zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen
		seventeen eighteen nineteen`)
	tenNames = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
)
