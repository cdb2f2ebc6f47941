package walkaround

import (
	"strings"

	"tarepage/internal/captions"
)

// Hear finds the figures spoken in the captions, in the order they are said, and decides
// over the whole recording what each is of. Their Offset counts in Transcript.
func Hear(c captions.Track) []Candidate {
	text, t := transcript(c)
	return shipped().hear(text, t, true)
}

// Prose is written notes, cut into words once for their figures and their claims.
type Prose struct {
	text string
	t    []token
}

// ReadProse cuts written notes into words.
func ReadProse(text string) Prose { return Prose{text, tokens(text)} }

// Figures finds the figures in the notes. Their times are zero; their Offset is the place of the
// figure in the text.
func (p Prose) Figures() []Candidate { return shipped().hear(p.text, p.t, false) }

// Transcript is all that was said: the words of the cues, joined by single spaces, repeats
// left out.
func Transcript(c captions.Track) string {
	text, _ := transcript(c)
	return text
}

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
	return text.String(), inWords(unhear(t))
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
	return inWords(unhear(t))
}

// hear decides what each figure of a talk is of. In a recording each key has one value.
func (m *model) hear(text string, t []token, recording bool) []Candidate {
	cands := find(t)
	s := setScene(t, cands)
	ds := m.decide(s)
	settle(ds, s, t, recording, (&hearing{t: t}).kindOf(text, s.away))
	var out []Candidate
	for k := range ds {
		if d := &ds[k]; len(d.choices) > 0 {
			out = append(out, d.told(text, t))
		}
	}
	return out
}

// bar is the score, in units of scale, below which a figure is given no role: two nats and a half. It was
// chosen on the talk of strangers that the model was not trained on.
var bar int32 = 60

// noteBar is the same for written notes. What is heard in them is only compared with the keys.
const noteBar int32 = 48

// told is a decided figure for the world outside.
func (d *decided) told(text string, t []token) Candidate {
	c := Candidate{Compare: d.compare}
	best := d.choices[0]
	if d.pick >= 0 {
		best = d.choices[d.pick]
		c.Role = roleTable[best.row].role
	} else if c.Doubt = d.doubt; c.Doubt == "" {
		c.Doubt = "too little around it says what it is of"
	}
	if d.lost != nil {
		best, c.Contested = *d.lost, true
		c.Alternatives = []Alternative{{roleTable[best.row].role, best.value}}
	}
	c.Value, c.High, c.UnitInferred = best.value, best.high, best.inferred
	if c.High != nil {
		c.Compare = Range
	}
	c.Confidence = confidence(best.score)
	if strings.HasPrefix(d.shape, "=") {
		c.Confidence = min(c.Confidence, 0.75) // "tandem" is often said of other things
	}
	for i, o := range d.choices {
		if (i != d.pick) && len(c.Alternatives) < 2 && o.score > -4*scale {
			c.Alternatives = append(c.Alternatives, Alternative{roleTable[o.row].role, o.value})
		}
	}
	end := d.of
	if _, counts := c.Value.(Count); counts {
		end = counted(t, d.of, c.Role)
	}
	c.Offset = t[d.head].from
	c.Quote = text[c.Offset:max(t[end-1].to, c.Offset)]
	c.Start, c.End = t[d.head].start, t[end-1].end
	return c
}

// things are what is counted, by the role of the count.
var things = map[Role]string{AxleCount: "axle", JackCount: "jack", DRings: "ring", StakePockets: "pocket", Ply: "ply", BrakeAxles: "axle", ChainsCount: "chain"}

// counted is where the quote of a count ends: behind the thing that is counted, if it
// follows within a few words.
func counted(t []token, of int, r Role) int {
	for k := of; k < min(of+7, len(t)) && t[k].kind != stop; k++ {
		if t[k].kind == word && stem(t[k].text) == things[r] {
			return k + 1
		}
	}
	return of
}

// confidence turns a score into a number from 0 to 1 that orders a list.
func confidence(score int32) float64 {
	if score <= 0 {
		return 0
	}
	return float64(score) / float64(score+10)
}
