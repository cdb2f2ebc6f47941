package walkaround

import (
	"strings"
)

// pause is the silence, in seconds, that ends a sentence: a figure is not put together
// across it, a note is cut at it.
const pause = 1.5

// hold is the length, in seconds, below which a cue that says nothing new is only the
// display of rolling captions being held.
const hold = 0.05

// A spokenWord is one word between spaces, with when it is shown.
type spokenWord struct {
	text       string
	start, end float64
	gap        float64 // silence before it
}

// words is what was said, each word once, in order. Rolling captions show each line
// twice: what a cue repeats of the one before is left out.
func (c Captions) words() []spokenWord {
	rolling := c.rolling()
	out := make([]spokenWord, 0, 8*len(c.Cues))
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
			w.gap = w.start
			if n := len(out); n > 0 {
				w.gap = max(0, w.start-out[n-1].end)
			}
			out = append(out, w)
		}
		// A held cue prolongs nothing; others end the words that they show.
		if again == len(said) && len(out) > 0 && cue.End-cue.Start >= hold {
			out[len(out)-1].end = max(out[len(out)-1].end, min(cue.End, out[len(out)-1].end+pause))
		}
		shown = shown[:0]
		for _, w := range said {
			shown = append(shown, w.text)
		}
		shownText, shownEnd = cue.Text, cue.End
	}
	return out
}

// rolling reports whether these captions roll: a quarter of the cues begin with the
// last line of the cue before. Measured on the file as a whole, since a single repeat
// may be a person saying a thing twice.
func (c Captions) rolling() bool {
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

func cueWords(cue Cue) []spokenWord {
	out := make([]spokenWord, 0, 16)
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
		out = append(out, spokenWord{text: cue.Text[at:end], start: second, end: cue.End})
		at = end
	}
	// A word of known start ends where the next begins.
	for i := 0; i+1 < len(out); i++ {
		if out[i+1].start > out[i].start {
			out[i].end = out[i+1].start
		}
	}
	return out
}

// overlap is how many words at least, and as many as can be, end before and begin now.
func overlap(before []string, now []spokenWord, least int) int {
	for n := min(len(before), len(now)); n >= least; n-- {
		same := true
		for i := range n {
			if before[len(before)-n+i] != now[i].text {
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

func contains(shown []string, said []spokenWord) bool {
	for i := 0; i+len(said) <= len(shown); i++ {
		same := true
		for j := range said {
			if shown[i+j] != said[j].text {
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
