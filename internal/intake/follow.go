package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// A conclusion is a value that nobody said and that follows from what was said. It is marked as
// said, with the words that it follows from: customers read that it was only said, and the phone
// asks to confirm it.
type conclusion struct {
	key, value string
	// from is a key whose value is one of is, or any where is is nil; empty where no value matters.
	from string
	is   []string
	// words match what must be in the talk, unless what must not be; nil where no words matter.
	words, unless *regexp.Regexp
	// why is the remark next to the value.
	why string
	// example is talk that it is drawn from. A test hears it.
	example string
}

var (
	// otherHitch matches the words for what does not couple on a ball at the bumper.
	otherHitch = regexp.MustCompile(`goose ?neck|(?:fifth|5th) wheel|king ?pin|pintle|lunette`)
	// pairs match the words for tires in pairs. After them no number of tires is concluded.
	pairs = regexp.MustCompile(`\bduals?\b|\bdually\b|\beach side\b|\ba side\b`)
	// counted matches the words for tires in pairs, and for any number of tires.
	counted = regexp.MustCompile(pairs.String() + `|\b(?:two|both|four|six|eight|ten|twelve|[2468])[., ]+(?:[a-z]+ )?(?:tires|wheels)\b`)
)

// conclusions are tried in order; the first one counts for its key. All are common practice, no
// source. Two tires are the fewest that an axle can have, so they never raise a limit.
var conclusions = []conclusion{
	{key: "hitch.kind", value: "bumper-pull", from: "hitch.ball", is: []string{"1-7/8 in", "2 in"},
		why: "a gooseneck's ball is larger", example: "it takes a two inch ball"},
	{key: "hitch.kind", value: "bumper-pull", words: regexp.MustCompile(`\badjustable channel\b|\bchannel coupler\b`), unless: otherHitch,
		why: "a coupler on a channel is for a bumper-pull trailer", example: "coupler's adjustable channel, two and five-sixteenths"},
	{key: "hitch.kind", value: "bumper-pull", words: regexp.MustCompile(`\ba[- ]?frame (?:jack|coupler|tongue)\b`), unless: otherHitch,
		why: "an A-frame is for a bumper-pull trailer", example: "the jack is a two thousand pound a frame jack"},
	{key: "hitch.kind", value: "bumper-pull", words: regexp.MustCompile(`\btongue(?:'s| is)(?: a)?(?: [a-z]+){1,2} (?:inch|tube|channel)\b`), unless: otherHitch,
		why: "a gooseneck has a neck instead of a tongue", example: "the tongue is eight inch on this one"},
	{key: "tires.per-axle", value: "2", from: "axles.count", is: []string{"1"}, words: regexp.MustCompile(`\b(?:two|both) (?:tires|wheels)\b`), unless: pairs,
		why: "on one axle", example: "single axle, and both tires are new"},
	{key: "tires.per-axle", value: "2", from: "axles.count", is: []string{"2"}, words: regexp.MustCompile(`\b(?:four|4) (?:tires|wheels)\b`), unless: pairs,
		why: "on two axles", example: "it's a tandem axle with electric brakes on all four wheels"},
	{key: "tires.per-axle", value: "2", from: "axles.count", is: []string{"3"}, words: regexp.MustCompile(`\b(?:six|6) (?:tires|wheels)\b`), unless: pairs,
		why: "on three axles", example: "it's a triple axle with electric brakes on all six wheels"},
	{key: "tires.per-axle", value: "2", from: "axles.count", unless: counted,
		why: "nobody said how many; an axle has two or more", example: "single axle, leaf springs"},
}

// conclude adds what follows from the values that were taken and from the notes.
func (t *Talk) conclude() {
	for _, c := range conclusions {
		if t.took(c.key) != nil || c.unless != nil && t.says(c.unless) != nil {
			continue
		}
		var quote string
		at := 0
		if c.from != "" {
			v := t.took(c.from)
			if v == nil || len(v.Others) > 0 || c.is != nil && !slices.Contains(c.is, unsaid(v.Value)) {
				continue
			}
			quote, at = v.Quote, v.At
		}
		if c.words != nil {
			n := t.says(c.words)
			if n == nil {
				continue
			}
			quote, at = n.quote, n.at
		}
		t.enter(Taken{Path: c.key, Value: fmt.Sprintf("%s (said %s)", c.value, measure.Clock(at)), At: at, Quote: quote, Remarks: []string{c.why}})
	}
}

// took is the value that was taken for a key, or nil.
func (t *Talk) took(key string) *Taken {
	if i := slices.IndexFunc(t.Taken, func(v Taken) bool { return v.Path == key }); i >= 0 {
		return &t.Taken[i]
	}
	return nil
}

// wordsSaid are words of a note, and the second at which the note begins.
type wordsSaid struct {
	quote string
	at    int
}

// says are the first words of the notes that match, or nil.
func (t *Talk) says(words *regexp.Regexp) *wordsSaid {
	for _, n := range t.Notes {
		if quote := words.FindString(strings.ToLower(strings.ReplaceAll(n.Text, "’", "'"))); quote != "" {
			return &wordsSaid{quote, int(n.Start)}
		}
	}
	return nil
}

// enter puts a value where the format has its key.
func (t *Talk) enter(v Taken) {
	place := map[string]int{}
	for i, k := range unit.Keys() {
		place[k.Path] = i
	}
	of := func(path string) int {
		if strings.HasPrefix(path, "tie-downs.") {
			path = "tie-downs" // its entries have no keys of their own
		}
		return place[path]
	}
	i := slices.IndexFunc(t.Taken, func(o Taken) bool { return of(o.Path) > of(v.Path) })
	if i < 0 {
		i = len(t.Taken)
	}
	t.Taken = slices.Insert(t.Taken, i, v)
}
