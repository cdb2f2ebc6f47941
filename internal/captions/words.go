package captions

import "strings"

// Pause is the silence, in seconds, that ends a sentence: a figure is not put together
// across it, a note is cut at it.
const Pause = 1.5

// hold is the length, in seconds, below which a cue that says nothing new is only the
// display of rolling captions being held.
const hold = 0.05

// A Word is one word between spaces, with when it is shown.
type Word struct {
	Text       string
	Start, End float64 // seconds
	Gap        float64 // silence before it, in seconds
}

// Words is what was said, each word once, in order. Rolling captions show each line
// twice: what a cue repeats of the one before is left out.
func (c Track) Words() []Word {
	rolling := c.rolling()
	out := make([]Word, 0, 8*len(c.Cues))
	var shown []string // the words of the cue before, as shown
	var shownEnd float64
	var shownText string
	for _, cue := range c.Cues {
		said := cueWords(cue)
		if len(said) == 0 {
			continue
		}
		again := 0
		switch {
		case cue.Text == shownText && (rolling || cue.Start-shownEnd < hold):
			again = len(said)
		case rolling:
			again = overlap(shown, said, 1)
			if cue.End-cue.Start < hold && contains(shown, said) {
				again = len(said)
			}
		default:
			// In captions that do not roll a person may say a word twice; four words the
			// same across a cue's edge are a repetition of the captions.
			again = overlap(shown, said, 4)
		}
		for _, w := range said[again:] {
			w.Gap = w.Start
			if n := len(out); n > 0 {
				w.Gap = max(0, w.Start-out[n-1].End)
			}
			out = append(out, w)
		}
		// A held cue prolongs nothing; others end the words that they show.
		if again == len(said) && len(out) > 0 && cue.End-cue.Start >= hold {
			out[len(out)-1].End = max(out[len(out)-1].End, min(cue.End, out[len(out)-1].End+Pause))
		}
		shown = shown[:0]
		for _, w := range said {
			shown = append(shown, w.Text)
		}
		shownText, shownEnd = cue.Text, cue.End
	}
	return out
}

// rolling reports whether these captions roll: a quarter of the cues begin with the
// last line of the cue before. Measured on the file as a whole, since a single repeat
// may be a person saying a thing twice.
func (c Track) rolling() bool {
	repeats := 0
	for i := 1; i < len(c.Cues); i++ {
		before, now := c.Cues[i-1].Text, c.Cues[i].Text
		last := before[strings.LastIndexByte(before, '\n')+1:]
		first, _, more := strings.Cut(now, "\n")
		if first == last && (more || before != now) {
			repeats++
		}
	}
	return repeats > 0 && repeats*4 >= len(c.Cues)-1
}

func cueWords(cue Cue) []Word {
	out := make([]Word, 0, 16)
	at, mark := 0, 0
	second := cue.Start
	for at < len(cue.Text) {
		if cue.Text[at] == ' ' || cue.Text[at] == '\n' {
			at++
			continue
		}
		end := at
		for end < len(cue.Text) && cue.Text[end] != ' ' && cue.Text[end] != '\n' {
			end++
		}
		for mark < len(cue.Times) && cue.Times[mark].At <= at {
			if t := cue.Times[mark].Second; t >= second && t <= cue.End {
				second = t
			}
			mark++
		}
		out = append(out, Word{Text: cue.Text[at:end], Start: second, End: cue.End})
		at = end
	}
	// A word of known start ends where the next begins.
	for i := 0; i+1 < len(out); i++ {
		if out[i+1].Start > out[i].Start {
			out[i].End = out[i+1].Start
		}
	}
	return out
}

// overlap is how many words at least, and as many as can be, end before and begin now.
func overlap(before []string, now []Word, least int) int {
	for n := min(len(before), len(now)); n >= least; n-- {
		same := true
		for i := range n {
			if before[len(before)-n+i] != now[i].Text {
				same = false
				break
			}
		}
		if same {
			return n
		}
	}
	return 0
}

func contains(shown []string, said []Word) bool {
	for i := 0; i+len(said) <= len(shown); i++ {
		same := true
		for j := range said {
			if shown[i+j] != said[j].Text {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}
