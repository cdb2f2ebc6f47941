package walkaround

import (
	"strings"

	"tarepage/internal/captions"
)

// A Saying is what was said in one clause: up to a full stop, a pause, or where the speaker
// turns to the next thing, since automatic captions have no stops.
type Saying struct {
	Text  string
	Start float64 // seconds
	// Another reports that it is said of another unit, or of one that might be.
	Another bool
}

// Sayings cuts what was said in the captions into clauses.
func Sayings(c captions.Track) []Saying {
	text, t := transcript(c)
	return sayings(text, t)
}

func sayings(text string, t []token) []Saying {
	var out []Saying
	for s := range sentences(text, t) {
		aside := s.setAside()
		for from := 0; from < len(s.t); {
			to, another := from+1, aside[from] != ""
			for to < len(s.t) && !(s.clause(to) && !s.is(to-1, "on", "of", "in", "to", "for", "with", "like", "that")) {
				another = another || aside[to] != ""
				to++
			}
			if said := strings.TrimSpace(text[s.t[from].from:s.t[to-1].to]); said != "" {
				out = append(out, Saying{said, s.t[from].start, another})
			}
			from = to
		}
	}
	return out
}

// OfAnother reports that written notes speak of another unit, or of one that might be.
func OfAnother(text string) bool {
	for s := range sentences(text, tokens(text)) {
		for _, why := range s.setAside() {
			if why != "" && why != hours {
				return true
			}
		}
	}
	return false
}
