package unit

import (
	"regexp"
	"strconv"
	"strings"
)

// Everyday is the choice of a key that everyday words name, as in "sale pending" for spoken
// for; empty if they are not known.
func Everyday(path, words string) string { return choiceWords[path][plainWord(words)] }

// meantChoice is the choice that a word most likely means, or "".
func meantChoice(k *key, text string) string {
	word, _, _ := peel(text)
	if c := Everyday(k.path, word); c != "" {
		return c
	}
	return Nearest(text, k.choices)
}

// usDay matches a day as it is written in the United States: 11/5/2026.
var usDay = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{4})$`)

// USDay is the form of this program for a day in the form of the United States, or
// "". A day whose first number is not a month is not guessed at.
func USDay(s string) string {
	m := usDay.FindStringSubmatch(s)
	if m == nil {
		return ""
	}
	month, _ := strconv.Atoi(m[1])
	day, _ := strconv.Atoi(m[2])
	year, _ := strconv.Atoi(m[3])
	d, err := ParseDay(Day{year, month, day}.String())
	if err != nil {
		return ""
	}
	return d.String()
}

// vinForm matches a number with the length and the characters of a VIN (49 CFR 565.13).
var vinForm = regexp.MustCompile(`^[0-9A-Za-z]{17}$`)

// capitals reads small letters in a VIN as the capitals that are stamped.
func capitals(k *key, text string) string {
	if k.path == "serial" && vinForm.MatchString(text) {
		return strings.ToUpper(text)
	}
	return text
}
