package spanishtalk

import "strings"

var ones = map[string]int{"cero": 0, "uno": 1, "un": 1, "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9,
	"diez": 10, "once": 11, "doce": 12, "trece": 13, "catorce": 14, "quince": 15, "dieciseis": 16, "diecisiete": 17, "dieciocho": 18, "diecinueve": 19,
	"veinte": 20, "veintiun": 21, "veintiuno": 21, "veintiuna": 21, "veintidos": 22, "veintitres": 23, "veinticuatro": 24, "veinticinco": 25, "veintiseis": 26,
	"veintisiete": 27, "veintiocho": 28, "veintinueve": 29}

var tens = map[string]int{"treinta": 30, "cuarenta": 40, "cincuenta": 50, "sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90}

var hundreds = map[string]int{"cien": 100, "ciento": 100, "doscientos": 200, "doscientas": 200, "trescientos": 300, "trescientas": 300, "cuatrocientos": 400,
	"cuatrocientas": 400, "quinientos": 500, "quinientas": 500, "seiscientos": 600, "seiscientas": 600, "setecientos": 700, "setecientas": 700,
	"ochocientos": 800, "ochocientas": 800, "novecientos": 900, "novecientas": 900}

// parts are what a thing is divided into, in English: cinco dieciseisavos.
var parts = map[string]string{"dieciseisavos": "sixteenths", "dieciseisavo": "sixteenth", "octavos": "eighths", "octavo": "eighth", "cuartos": "quarters", "cuarto": "quarter"}

// numbered joins the words of each Spanish numeral into one token with the numeral in English.
func numbered(t []token) (out []token) {
	for i := 0; i < len(t); {
		english, n := numeral(t[i:])
		if n == 0 || i > 0 && t[i-1].norm == "cada" && t[i].norm == "uno" { // each
			out = append(out, t[i])
			i++
			continue
		}
		if next := i + n; next < len(t) && t[next-1].trail == "" && t[next].norm == english { // dos, two
			i += n
			continue
		}
		made := t[i]
		made.num, made.unit, made.out, made.norm = true, "", english, "#"
		made.end, made.trail = t[i+n-1].end, t[i+n-1].trail
		out = append(out, made)
		i += n
	}
	// "two and five sixteenths" is one number in English talk as well.
	for i := 1; i+2 < len(out); i++ {
		if out[i].norm == "and" && out[i-1].num && out[i+1].num && strings.HasPrefix(out[i+2].norm, "sixteenth") {
			out[i].num = true
		}
	}
	return out
}

// numeral reads the numeral at the beginning: its English, and how many words it has.
func numeral(t []token) (string, int) {
	v, n := thousands(t)
	switch {
	case n == 0 || !alone(t, n):
		return "", 0
	case n == 1 && t[0].norm == "once" && !spanishNext(t): // English: once
		return "", 0
	}
	out := inEnglish(v)
	for {
		more, taken := fraction(t, n)
		if taken == 0 {
			return out, n
		}
		out, n = out+more, n+taken
	}
}

// alone reports whether a numeral is one: "un" and "una" are articles unless a unit follows.
func alone(t []token, n int) bool {
	if n > 1 || t[0].norm != "un" && t[0].norm != "una" {
		return true
	}
	return len(t) > 1 && t[0].trail == "" && units[t[1].norm] != ""
}

func spanishNext(t []token) bool {
	return len(t) > 1 && t[0].trail == "" && (units[t[1].norm] != "" && spanishOnly[t[1].norm] || t[1].norm == "de" || spanishOnly[t[1].norm])
}

// at is the word at a place of the same clause, or nothing.
func at(t []token, i int) string {
	if i >= len(t) || i > 0 && t[i-1].trail != "" {
		return ""
	}
	return t[i].norm
}

func below100(t []token, i int) (v, n int) {
	if v, ok := ones[at(t, i)]; ok {
		return v, 1
	}
	v, ok := tens[at(t, i)]
	if !ok {
		return 0, 0
	}
	if unit, ok := ones[at(t, i+2)]; ok && at(t, i+1) == "y" && unit > 0 && unit < 10 {
		return v + unit, 3
	}
	return v, 1
}

func below1000(t []token, i int) (v, n int) {
	h, ok := hundreds[at(t, i)]
	if !ok {
		return below100(t, i)
	}
	rest, n := below100(t, i+1)
	return h + rest, n + 1
}

func thousands(t []token) (v, n int) {
	v, n = below1000(t, 0)
	if at(t, n) != "mil" {
		return v, n
	}
	if n == 0 {
		v = 1
	}
	rest, more := below1000(t, n+1)
	return v*1000 + rest, n + 1 + more
}

// fraction reads what may follow a whole number: y medio, y cinco dieciseisavos, punto cinco.
func fraction(t []token, n int) (string, int) {
	from := n
	if at(t, n) == "y" {
		n++
	}
	switch w := at(t, n); {
	case (w == "medio" || w == "media") && n > from:
		return " and a half", n + 1 - from
	case w == "punto":
		if v, taken := below100(t, n+1); taken > 0 {
			return " point " + inEnglish(v), n + 1 + taken - from
		}
	}
	if v, taken := below100(t, n); taken > 0 {
		if part := parts[at(t, n+taken)]; part != "" {
			return " and " + inEnglish(v) + " " + part, n + taken + 1 - from
		}
	}
	return "", 0
}

var small = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
var round = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")

// inEnglish is a whole number below a million in words.
func inEnglish(v int) string {
	join := func(a, b int, word string) string {
		out := inEnglish(a) + " " + word
		if b > 0 {
			out += " " + inEnglish(b)
		}
		return out
	}
	switch {
	case v < 20:
		return small[v]
	case v < 100 && v%10 == 0:
		return round[v/10]
	case v < 100:
		return round[v/10] + " " + small[v%10]
	case v < 1000:
		return join(v/100, v%100, "hundred")
	}
	return join(v/1000, v%1000, "thousand")
}
