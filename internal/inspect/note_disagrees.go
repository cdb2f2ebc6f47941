package inspect

import (
	"strings"

	"tarepage/internal/hearsay"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var noteDisagrees = &Rule{
	Name: "note-disagrees", Severity: Caution,
	Title:  "a figure in the notes is the one in the file",
	Why:    "The notes and the numbers tell the customer two things; ask which one holds, and go by the label.",
	Source: "the unit file's format, docs/unit-file.md: the notes are read with the grammar of spoken figures",
	Remedy: "correct the note or the key; write about in front where the note means it roughly",
	check: func(c *Case, f *Findings) {
		stated := hearsay.Of(c.Givens)
		most := payloads(c, stated)
		for _, p := range c.Passages() {
			for _, said := range walkaround.HearText(p.Text) {
				// A checked figure is held against its working by figure-disagrees.
				if p.Checked(said.Offset, said.Offset+len(said.Quote)) || loose(p.Text, said, most) {
					continue
				}
				verdict, file := stated.Hold(said)
				if verdict != hearsay.Differs {
					continue
				}
				where := "the notes say"
				if p.Note != nil {
					where = "the note at " + p.Note.At.String() + " says"
				}
				says := said.Written(false)
				f.add(p.Pos(said.Offset), "%s %s, %s is %s", where, says, file.Path, file.Text).
					figures(says, file.Text).
					also(file.Pos, file.Path+" stands here")
			}
		}
	},
}

// filled is what stands in the place of a checked figure whose words are left out.
func (c *Case) filled(figure string) string {
	if f := c.Work.Figure(figure); f != nil {
		return f.Text
	}
	return ""
}

// payloads enters the payloads that were worked out beside the maker's: notes may quote
// any of them. It returns the largest that anybody may load by.
func payloads(c *Case, stated *hearsay.Statements) measure.Pounds {
	most := c.Claimed.Payload.Value
	for _, name := range []string{"payload", "tag-payload", "working-payload", "even-load-payload", "truck-share-payload"} {
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
func loose(text string, said walkaround.Candidate, most measure.Pounds) bool {
	w, ok := said.Value.(measure.Pounds)
	if !ok {
		return false
	}
	from, to := around(text, said.Offset, len(said.Quote))
	near := strings.ToLower(text[from:to])
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

// around is the sentence about a quote.
func around(text string, at, length int) (from, to int) {
	from, to = 0, len(text)
	for _, end := range []string{". ", "! ", "? "} {
		if i := strings.LastIndex(text[:at], end); i >= 0 {
			from = max(from, i+len(end))
		}
		if i := strings.Index(text[at+length:], end); i >= 0 {
			to = min(to, at+length+i)
		}
	}
	return from, to
}

func mentions(text string, words ...string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}
