package inspect

import "strings"

var wordsOverPayload = &Rule{
	Name: "words-over-payload", Severity: Stop,
	Title:  "the words below the front matter promise no more payload than the trailer has",
	Why:    "Whoever reads that it takes 12,000 lb loads 12,000 lb.",
	Source: "49 CFR 567.4(g)(3): the GVWR covers the trailer and its cargo",
	Remedy: "correct the words; the page prints the payload by itself",
	check: func(c *Case, f *Findings) {
		for _, p := range c.Passages() {
			if p.Note != nil {
				continue // said-not-confirmed and note-disagrees compare what was said with the file
			}
			if says, is, at := payloadIn(c, p.Text); says != "" {
				f.add(p.Pos(strings.Index(p.Text, says)), "the words say %s; the payload is %s", says, is).figures(says, is).also(at, "gvwr is here")
			}
		}
	},
}
