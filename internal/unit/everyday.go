package unit

import (
	"regexp"
	"strconv"
	"strings"
)

// everyday are the words that people write for a choice, by the key's path. What they write
// is common practice, no source. An ear for talk has words of its own.
var everyday = map[string]map[string]string{
	"availability": {
		"in stock": "on the yard", "available": "on the yard", "on the lot": "on the yard", "on lot": "on the yard", "ready": "on the yard", "here": "on the yard", "yes": "on the yard",
		"sale pending": "spoken for", "pending": "spoken for", "on hold": "spoken for", "hold": "spoken for", "deposit": "spoken for", "deposit taken": "spoken for", "reserved": "spoken for",
		"ordered": "on order", "coming": "on order", "coming soon": "on order", "incoming": "on order", "in transit": "on order", "not here yet": "on order",
		"gone": "sold", "out of stock": "sold", "delivered": "sold",
	},
	"condition": {
		"brand new": "new", "like new": "used", "pre-owned": "used", "preowned": "used", "second hand": "used", "secondhand": "used", "refurbished": "used",
	},
}

// meantChoice is the choice that a word most likely means, or "".
func meantChoice(k *key, text string) string {
	word, _, _ := peel(text)
	if c := everyday[k.path][strings.ToLower(strings.Join(strings.Fields(word), " "))]; c != "" {
		return c
	}
	return Nearest(text, k.choices)
}

// usDay matches a day as it is written in the United States: 11/5/2026.
var usDay = regexp.MustCompile(`^([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{4})$`)

// rewrittenDay is the form of this program for a day in the form of the United States, or
// "". A day whose first number is not a month is not guessed at.
func rewrittenDay(s string) string {
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
