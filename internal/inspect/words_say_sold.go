package inspect

import (
	"regexp"
	"strings"
)

var wordsSaySold = &Rule{
	Name: "words-say-sold", Severity: Stop,
	Title:  "a unit whose words say that it is sold is not offered for sale",
	Why:    "The list, the feeds and search engines go by the availability. Somebody drives out for a trailer that is gone.",
	Source: Practice,
	Remedy: "write availability: sold or availability: spoken for; or take the word out, if it is about something else",
	check: func(c *Case, f *Findings) {
		if c.Availability.Value == "sold" {
			return
		}
		state := "nothing says that it is gone"
		if c.Availability.Given() {
			state = "the availability is " + c.Availability.Value
		}
		if says := soldIn(c.Title.Value, true, c.Availability.Value); says != "" {
			f.add(c.Title.Pos, "the title says %q; %s", says, state).also(c.Availability.Pos, "it is given here")
		}
		for _, t := range c.writing() {
			if t.code || t.spoken || t.at == c.Availability.Pos { // words-change-value reads those after the availability
				continue
			}
			if says := soldIn(t.text, false, c.Availability.Value); says != "" {
				at := t.at
				if t.of != nil {
					at = t.of.Pos(strings.Index(t.text, says))
				}
				f.add(at, "the words say %q; %s", says, state).also(c.Availability.Pos, "it is given here")
			}
		}
	},
}

var (
	// soldWords say that a trailer is gone, alone or with what is before them.
	soldWords = regexp.MustCompile(`(?i)(?:^|[^\pL])(sold|vendid[oa]|sale\s+pending|deposit\s+(?:taken|received))(?:[^\pL]|$)`)
	// goneBefore is what is before such a word where it is about the trailer: the beginning of a
	// sentence, or the trailer and a verb.
	goneBefore = regexp.MustCompile(`(?i)(?:^|[.;:!?\n(*_\-–—])[\s*_"'“]*$|(?:it|one|trailer|unit|she|this|that|remolque|está|fue)(?:\s+(?:is|was|has|been|already|now|just|got|ya|está|fue)|['’]s)*\s+$`)
	// goneRest is what is after it then: nothing, or who took it and when.
	goneRest = regexp.MustCompile(`(?i)^\s*(?:$|[^\pL\s]|\n|(?:today|yesterday|already|pending|thanks?|this|last|a|al|ayer|hoy|on|el|to\s+(?:a|an|the|his|her|my|our|somebody|someone))(?:[^\pL]|$))`)
	// goneAfter are the words after it by which it is about how the trailer is sold.
	goneAfter = regexp.MustCompile(`(?i)^[\s-]*(?:as|with|without|new|by|in|separately|at|from|for|through|under|every|each|only|many|lots|out|here|elsewhere|un|una|nuev[oa]|con|sin|por|en|como|first|per|together|originally)(?:[^\pL]|$)`)
)

// soldIn returns the words of a text that say that the trailer is gone. In a title, a short
// text about the trailer alone, the word is enough; so it is in capitals.
func soldIn(text string, title bool, availability string) string {
	if !mayHold(text, "sold", "vendid", "pending", "deposit") {
		return ""
	}
	for _, at := range soldWords.FindAllStringSubmatchIndex(text, -1) {
		says, before, after := text[at[2]:at[3]], text[:at[2]], text[at[3]:]
		low := strings.ToLower(says)
		kept := availability == "spoken for" && !strings.HasPrefix(low, "sold") && !strings.HasPrefix(low, "vendid")
		if kept || goneAfter.MatchString(after) || strings.HasSuffix(strings.ToLower(strings.TrimSpace(before)), " not") {
			continue
		}
		if title || says == strings.ToUpper(says) || goneBefore.MatchString(before) && goneRest.MatchString(after) {
			return says
		}
	}
	return ""
}
