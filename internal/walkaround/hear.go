package walkaround

import (
	"iter"
	"slices"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/kinds"
)

// bar is the confidence below which a figure is given no role.
const bar = 0.5

// Hear finds the figures spoken in the captions, in the order they are said. Their
// Offset counts in the words of the cues, joined by single spaces, repeats left out.
func Hear(c captions.Track) []Candidate {
	out := hear(transcript(c))
	settleAll(out)
	return out
}

// Transcript is all that was said: the words of the cues, joined by single spaces, repeats
// left out. The Offset of what Hear finds counts in it.
func Transcript(c captions.Track) string {
	text, _ := transcript(c)
	return text
}

// HearText finds the figures in written notes. Their times are zero; their Offset is
// the byte in text where the quote begins.
func HearText(text string) []Candidate { return hear(text, tokens(text)) }

// transcript is all that was said, with its tokens. A pause ends a sentence.
func transcript(c captions.Track) (string, []token) {
	words := c.Words()
	var text strings.Builder
	t := make([]token, 0, len(words)+len(words)/4)
	for _, w := range words {
		if text.Len() > 0 {
			if w.Gap > captions.Pause {
				t = append(t, token{kind: stop, text: ".", from: text.Len(), to: text.Len()})
			}
			text.WriteByte(' ')
		}
		at := text.Len()
		text.WriteString(w.Text)
		t = lex(t, w.Text, at, w.Start, w.End)
	}
	return text.String(), t
}

// tokens cuts written notes. A blank line, a list item or a heading ends a sentence; any
// other line end is a soft edge, as prose is wrapped.
func tokens(text string) []token {
	t := make([]token, 0, 8+len(text)/4) // a word has about four letters and a space
	for at := 0; at < len(text); {
		if c := text[at]; c == ' ' || c == '\t' || c == '\r' || c == '\n' {
			if c == '\n' {
				edge := kind(comma)
				rest := strings.TrimLeft(text[at+1:], " \t\r")
				if rest == "" || rest[0] == '\n' || strings.HasPrefix(rest, "- ") || strings.HasPrefix(rest, "* ") || rest[0] == '#' {
					edge = stop
				}
				t = append(t, token{kind: edge, text: "\n", from: at, to: at})
			}
			at++
			continue
		}
		end := at
		for end < len(text) && text[end] != ' ' && text[end] != '\t' && text[end] != '\r' && text[end] != '\n' {
			end++
		}
		t = lex(t, text[at:end], at, 0, 0)
		at = end
	}
	return t
}

func hear(text string, t []token) []Candidate {
	var out []Candidate
	var topic []cue
	body, told := noPart, false
	for s := range sentences(text, t) {
		if !told {
			body, told = s.body()
		}
		s.holds = body
		s.topic = s.takesUp(topic)
		out = append(out, s.hear()...)
		topic = s.leaves()
	}
	return out
}

// longest is the most tokens that are looked at as one sentence: speech without a pause
// is cut there, so that no file takes more than its length in time.
const longest = 200

func sentences(text string, t []token) iter.Seq[*sentence] {
	return func(yield func(*sentence) bool) {
		for len(t) > 0 {
			end := 0
			for end < len(t) && end < longest && (t[end].kind != stop || putsRight(t[end+1:])) {
				if t[end].kind == stop {
					t[end].kind = comma
				}
				end++
			}
			if end == longest {
				// Captions without stops: cut where a clause begins, not within a figure.
				h := hearing{t: t[:end]}
				for i := end - 1; i > longest/2; i-- {
					if h.clause(i) {
						end = i
						break
					}
				}
			}
			if end > 0 && !yield(&sentence{hearing: hearing{t: t[:end]}, source: text}) {
				return
			}
			if end < len(t) && t[end].kind == stop {
				end++
			}
			t = t[end:]
		}
	}
}

// putsRight reports that what follows a stop is a correction with its figure, "No, sorry,
// twenty-eight inches", which belongs to the sentence before.
func putsRight(t []token) bool {
	h := hearing{t: t[:min(len(t), 12)]}
	i, found := 0, false
	for i < len(h.t) {
		switch n := h.match(corrections, i); {
		case n > 0:
			i, found = i+n, true
		case h.t[i].kind == comma || found && h.is(i, "it's", "it", "is", "that's", "they're", "about", "make", "a", "an", "the", "um", "uh"):
			i++
		default:
			return found && h.numberWord(i)
		}
	}
	return false
}

// A sentence is what is said between two pauses or full stops. Figures and the parts
// they belong to are sought within one.
type sentence struct {
	hearing
	source string
	topic  []cue // what the sentence before was about, if this one takes it up
	holds  part  // what the load goes into, where that is no deck
	aside  []string
	qs     []quantity
	cues   []placed
	out    []Candidate
}

func (s *sentence) hear() []Candidate {
	s.qs = s.quantities()
	s.patternsOfDigits()
	if len(s.qs) == 0 && len(s.out) == 0 && !s.hasSize() && !s.has("axle", "axles", "range", "lr", "lre", "lrg", "lrd", "lrh", "lrc", "dual", "rated") {
		return nil
	}
	s.aside = s.setAside()
	s.findCues()
	for _, c := range s.topic {
		s.cues = append(s.cues, placed{-1, 0, c})
	}
	s.surroundings(s.qs, s.aside)
	s.tireSizes()
	s.dates()
	s.loadRanges()
	s.sections()
	s.counts()
	s.years()
	s.pairs()
	for i := range s.qs {
		if q := &s.qs[i]; !q.used {
			s.place(q)
		}
	}
	s.deckPlusTail()
	s.total()
	s.ofThem()
	slices.SortStableFunc(s.out, func(a, b Candidate) int { return a.Offset - b.Offset })
	s.settle()
	return s.out
}

// body is what the load of the trailer goes into, by the first sort of trailer that is
// named: on a dump trailer "seven by fourteen" is the bed.
func (s *sentence) body() (holds part, told bool) {
	for i := range s.t {
		switch k, n := s.kindAt(i); {
		case n == 0 || k.role != "kind" || s.is(i-1, "my", "his", "her"):
		default:
			switch kinds.Of(string(k.value)).Space {
			case kinds.Bed:
				return bedPart, true
			case kinds.Box:
				return boxPart, true
			}
			return noPart, true
		}
	}
	return noPart, false
}

// leaves is what a sentence leaves open for the next: a heading such as "The jack." all it
// names, any other the part with a rating that it ended with.
func (s *sentence) leaves() []cue {
	if len(s.qs) == 0 && len(s.t) <= 8 && s.has("what", "how", "what's") {
		// "What's the GVWR?" The answer is the next sentence.
		if len(s.cues) == 0 {
			s.findCues()
		}
		if n := len(s.cues); n == 1 && s.cues[0].to >= len(s.t)-2 && !s.cues[0].cue.other {
			return []cue{s.cues[0].cue}
		}
		return nil
	}
	if len(s.t) <= 4 && len(s.qs) == 0 {
		if len(s.cues) == 0 {
			s.findCues()
		}
		var out []cue
		for _, c := range s.cues {
			if c.cue.other {
				return nil
			}
			out = append(out, c.cue)
		}
		for i := range s.t {
			if !s.inCue(i) && s.t[i].kind == word && !s.is(i, "the", "it", "is", "a", "this", "now", "okay", "your", "our", "and", "next", "so", "then", "all", "right", "well") {
				return nil
			}
		}
		return out
	}
	var last placed
	for _, c := range s.cues {
		if c.cue.part != noPart && c.from >= last.from {
			last = c
		}
	}
	switch last.cue.weight {
	case HitchRating, JackRating, AxleRating, DRingRating:
		if !slices.ContainsFunc(s.out, func(c Candidate) bool { return c.Role == last.cue.weight }) && !last.cue.other {
			out := []cue{{weight: last.cue.weight, verb: true}}
			if last.cue.part == axlePart {
				out = append(out, cue{part: axlePart})
			}
			return out
		}
	}
	return nil
}

func (s *sentence) inCue(i int) bool {
	for _, c := range s.cues {
		if i >= c.from && i < c.to {
			return true
		}
	}
	return false
}

// takesUp is what of the topic this sentence speaks on of: a short one that names nothing
// itself; behind a whole sentence only where it says "rated" or "plate".
func (s *sentence) takesUp(topic []cue) []cue {
	if len(topic) == 0 || len(s.t) > 24 {
		return nil
	}
	if topic[0].verb && s.is(0, "each", "both", "they") && s.is(1, "one", "is", "are", "of", "rated") && s.has("rated", "stamped") {
		return topic // "There are two axles. Each is rated eight thousand pounds"
	}
	if len(s.t) > 16 || topic[0].verb && len(s.t) > 8 {
		return nil
	}
	if topic[0].verb {
		s.findCues()
		named := slices.ContainsFunc(s.cues, func(c placed) bool { return !c.cue.plate })
		s.cues = nil
		if named || !s.is(0, "plate", "rated", "stamped", "good") && !s.is(1, "rated", "good", "is") && !s.is(2, "rated", "stamped") || !s.has("plate", "rated", "stamped", "good") {
			return nil
		}
	}
	return topic
}

func (s *sentence) has(words ...string) bool {
	for i := range s.t {
		if s.is(i, words...) {
			return true
		}
	}
	return false
}

// hasSize reports a tire size in one word: "235/85R16".
func (s *sentence) hasSize() bool {
	for i := range s.t {
		if strings.HasPrefix(s.word(i), "size:") {
			return true
		}
	}
	return false
}

// emit adds a candidate over the tokens from to to.
func (s *sentence) emit(from, to int, c Candidate) {
	from, to = max(from, 0), min(max(to, from+1), len(s.t))
	for i := from; i < to; i++ {
		if w := s.aside; w != nil && w[i] != "" && c.Doubt == "" {
			c.Doubt = w[i]
		}
	}
	if c.Doubt == "" && c.Confidence < bar {
		c.Doubt = "too little around it says what it is of"
	}
	if c.Doubt != "" && c.Role != "" {
		c.Alternatives = append([]Alternative{{c.Role, c.Value}}, c.Alternatives...)
		c.Role = ""
	}
	if c.Compare == "" {
		c.Compare = Equal
	}
	c.Offset = s.t[from].from
	c.Quote = s.source[c.Offset:max(s.t[to-1].to, c.Offset)]
	c.Start, c.End = s.t[from].start, s.t[to-1].end
	s.out = append(s.out, c)
}
