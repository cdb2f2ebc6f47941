package unit

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Everyday is the choice of a key that everyday words name, as in "sale pending" for spoken
// for; empty if they are not known.
func Everyday(path, words string) string { return choiceWords[path][plainWord(words)] }

// unsure are everyday words that do not say for certain which choice is meant, by key: the
// reader asks. "*" stands for every word of a key, because too much hangs on it.
var unsure = map[string][]string{
	"kind": {"*"}, "condition": {"*"}, "availability": {"*"}, "ownership.paper": {"*"}, "ownership.state": {"*"},
	"hitch.kind":     {"ball", "tag", "receiver", "lunette"},
	"hitch.plug":     {"7", "4", "7 pin", "4 pin", "7 way", "5 way", "6 way"}, // a 7-way of a semitrailer is round
	"deck.tail-kind": {"hydraulic", "fixed"},
	"brakes.kind":    {"electric hydraulic"},
	"frame.fenders":  {"teardrop"},
	"hoist.power":    {"hydraulic", "electric"},
	"jack.drive":     {"crank", "manual"},
	"ramps.kind":     {"ramp"},
	"gate.kind":      {"ramp", "2 way"},
	"sides.kind":     {"steel", "pipe", "tube", "wood"},
	"tank.liquid":    {"fuel"},
	"winch.kind":     {"manual"},
}

// KeyMeant is the key outside any section that a word or its path names, as people write it: "Spare
// Size" is tires.spare-size. It is empty if none is meant, or one of several.
func KeyMeant(words string) string {
	plain := plainWord(words)
	for _, k := range Keys() {
		if k.Kind != "section" && k.Kind != "list" && plainWord(k.Path) == plain {
			return k.Path
		}
	}
	e, ok := everydayFor(words, "")
	if k := keyNamed(e.path); ok && k != nil && k.kids == nil && !k.list {
		return e.path
	}
	return ""
}

// synonym is the choice that an everyday word says for certain, with or without a plural's s;
// empty for none.
func synonym(path, text string) string {
	for _, word := range synonyms(path) {
		if sameWords(word, text) || sameWords(word+"s", text) {
			return choiceWords[path][word]
		}
	}
	return ""
}

// synonyms are the words that synonym knows for a key, in order.
func synonyms(path string) []string {
	if slices.Contains(unsure[path], "*") {
		return nil
	}
	var out []string
	for _, word := range slices.Sorted(maps.Keys(choiceWords[path])) {
		if !slices.Contains(unsure[path], word) {
			out = append(out, word)
		}
	}
	return out
}

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
