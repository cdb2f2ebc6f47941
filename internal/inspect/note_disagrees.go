package inspect

import (
	"strings"
	"unicode/utf8"

	"tarepage/internal/captions"
	"tarepage/internal/crosscheck"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var noteDisagrees = &Rule{
	Name: "note-disagrees", Severity: Caution,
	Title: "a figure in the notes or in the recording agrees with the file",
	Why: "The notes or the recording say one thing and the numbers another. Ask which is right, and go by the label. " +
		"The word about allows 2.5% to either side, but a payload or a rating is better rounded down.",
	Source: "the unit file's format, docs/unit-file.md: the notes and the captions are read with the grammar of spoken figures",
	Remedy: "correct the note or the key; write about in front of a number that is meant roughly",
	check: func(c *Case, f *Findings) {
		file := &filed{Case: c}
		tapes := recordings(c)
		told := map[string]int{} // where in the list the notes' findings are
		for i, p := range c.Passages() {
			for _, said := range c.notes(i).Figures() {
				// figure-disagrees compares a checked figure with its working.
				if said.Role == "" || p.Checked(said.Offset, said.Offset+len(said.Quote)) || file.loose(sentenceAt(p.Text, said), said) {
					continue
				}
				verdict, file := file.hold(said)
				if verdict != crosscheck.Differs || p.Note != nil && tapes.knowBetter(said) {
					continue
				}
				where := "the notes say"
				if p.Note != nil {
					where = "the note at " + p.Note.At.String() + " says"
				}
				says := said.Written(false)
				told[file.Path+" "+says] = len(f.list)
				f.add(p.Pos(said.Offset), "%s %s; the listing gives %s as the %s", where, says, file.Text, worded(file.Path)).
					figures(says, file.Text).
					also(file.Pos, file.Path+" is here")
			}
		}
		for i := range tapes {
			recorded(&tapes[i], file, told, f)
		}
	},
}

// A tape is a recording's captions with what they say.
type tape struct {
	unit.Media
	track captions.Track
	said  []walkaround.Candidate
}

type tapes []tape

// recordings are the captions of a unit that read. captions-unreadable tells of the others.
func recordings(c *Case) tapes {
	var out tapes
	for _, m := range c.Media {
		if m.Path != "recording.captions" || m.Fault != "" {
			continue
		}
		if track, _, err := captions.Read(m.Name, m.Data); err == nil {
			out = append(out, tape{m, track, walkaround.Hear(track)})
		}
	}
	return out
}

// knowBetter reports whether the whole recording says what a note's figure is about, and that it
// is about something else. A note is a part of the recording, and tells less.
func (list tapes) knowBetter(said walkaround.Candidate) bool {
	of := func(role bool) bool {
		for _, t := range list {
			for _, c := range t.said {
				if c.Value == said.Value && (c.Role == said.Role) == role {
					return true
				}
			}
		}
		return false
	}
	return of(false) && !of(true)
}

// recorded compares what the captions say with the file. What the notes say too is one
// finding with both places.
func recorded(m *tape, filed *filed, told map[string]int, f *Findings) {
	text, track := walkaround.Transcript(m.track), m.track
	once := map[string]bool{}
	for _, said := range m.said {
		if filed.loose(nearby(text, said.Offset, len(said.Quote)), said) {
			continue
		}
		verdict, file := filed.hold(said)
		says := said.Written(false)
		if key := file.Path + " " + says; verdict != crosscheck.Differs || once[key] {
			continue
		} else {
			once[key] = true
		}
		at := unit.Pos{File: "content/" + m.Name, Line: int32(line(track, said.Start)), Column: 1}
		clock := measure.Clock(int(said.Start))
		if i, there := told[file.Path+" "+says]; there {
			f.list[i].also(at, "said at "+clock)
			continue
		}
		f.add(at, "the recording at %s says %s; the listing gives %s as the %s", clock, says, file.Text, worded(file.Path)).
			figures(says, file.Text).
			also(file.Pos, file.Path+" is here").
			fix("go by the label or the scale: correct the key, or the captions where they misheard; mention a slip of the tongue in the notes")
	}
}

// line is the line of the cue that shows a second.
func line(c captions.Track, second float64) int {
	at := 1
	for _, cue := range c.Cues {
		if cue.Start > second {
			break
		}
		at = cue.Line
	}
	return at
}

// nearby is what was said within a breath of a quote: captions have no sentences to go by.
func nearby(text string, at, length int) string {
	const breath = 70
	return text[max(0, at-breath):min(len(text), at+length+breath)]
}

// filled is what is printed for a checked figure whose words are left out.
func (c *Case) filled(figure string) string {
	if f := c.Work.Figure(figure); f != nil {
		return f.Text
	}
	return ""
}

// filed is what the file states, gathered when the first figure is compared with it.
type filed struct {
	*Case
	stated *crosscheck.Statements
	most   measure.Pounds // see payloads
}

func (f *filed) gather() {
	if f.stated == nil {
		f.stated = crosscheck.Of(f.Givens())
		f.most = payloads(f.Case, f.stated)
		for _, g := range f.Givens() {
			if g.Path == "offer.cash" || g.Path == "offer.was" {
				f.stated.Add(walkaround.Price, g)
			}
		}
	}
}

func (f *filed) loose(near string, said walkaround.Candidate) bool {
	f.gather()
	return loose(near, said, f.most)
}

func (f *filed) hold(said walkaround.Candidate) (crosscheck.Verdict, unit.Given) {
	f.gather()
	return f.stated.Hold(said)
}

// payloads adds the payloads that were worked out to the maker's own: notes may quote
// any of them. It returns the largest that anybody may load by.
func payloads(c *Case, stated *crosscheck.Statements) measure.Pounds {
	most := c.Claimed.Payload.Value
	for _, name := range []string{"payload", "tag-payload", "working-payload", "even-load-payload"} {
		if f := c.Work.Figure(name); f != nil {
			w := measure.Pounds(f.Value)
			stated.Add(walkaround.Payload, unit.Given{Path: name, Value: w, Text: f.Text, About: f.About})
			if name == "payload" || name == "tag-payload" {
				most = max(most, w)
			}
		}
	}
	return most
}

// loose reports a figure whose words do not say enough that it is this trailer's: "a
// bale weighs", "carries my skid steer". Common practice, no source.
func loose(near string, said walkaround.Candidate, most measure.Pounds) bool {
	near = strings.ToLower(near)
	if takenBack(near, strings.ToLower(said.Quote)) {
		return true
	}
	w, ok := said.Value.(measure.Pounds)
	if !ok {
		return false
	}
	switch said.Role {
	case walkaround.Empty:
		return !mentions(near, "empty", "dry", "scale", "scaled", "tare", "curb", "unladen", "trailer", "it weighs", "she weighs", "one weighs", "weighs in")
	case walkaround.AxleRating:
		return mentions(near, "tire", "dual", "sidewall", "wheel", "spring")
	case walkaround.Payload:
		// What is hauled on it may weigh anything up to the payload.
		return w <= most && !mentions(near, "payload", "capacity")
	}
	return false
}

// takenBack reports whether a figure is taken back in the few words after it. What is said in
// its place is a figure of its own.
func takenBack(near, quote string) bool {
	const words = 30 // letters
	_, after, found := strings.Cut(near, quote)
	return found && mentions(after[:min(len(after), words)], "scratch that", "strike that", "take that back", "forget that", "i lied", "my mistake")
}

// sentenceAt is the sentence in the notes that has a figure in it.
func sentenceAt(text string, said walkaround.Candidate) string {
	from, to := around(text, said.Offset, len(said.Quote))
	return text[from:to]
}

// mostSentence is how far the beginning and the end of a sentence are looked for, in bytes. Nobody
// writes a longer one, and many figures in words without an end would take minutes.
const mostSentence = 600

// around is the sentence about a quote, or as much of it as is near.
func around(text string, at, length int) (from, to int) {
	from, to = max(0, at-mostSentence), min(len(text), at+length+mostSentence)
	for from > 0 && from < at && !utf8.RuneStart(text[from]) {
		from++
	}
	for to < len(text) && !utf8.RuneStart(text[to]) {
		to++
	}
	for i := at - 2; i >= from; i-- {
		if endsAt(text, i) {
			from = i + len(". ")
			break
		}
	}
	return from, min(to, at+length+sentenceEnd(text[at+length:to]))
}

// sentenceEnd is where the first sentence of a text ends.
func sentenceEnd(text string) int {
	for i := range len(text) {
		if endsAt(text, i) {
			return i
		}
	}
	return len(text)
}

// endsAt reports whether a sentence ends at a place, with a blank after it.
func endsAt(text string, i int) bool {
	return i+1 < len(text) && text[i+1] == ' ' && (text[i] == '.' || text[i] == '!' || text[i] == '?')
}

func mentions(text string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}
