package inspect

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"tarepage/internal/captions"
	"tarepage/internal/crosscheck"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var claimWrong = &Rule{
	Name: "claim-wrong", Severity: Caution,
	Title: "arithmetic that is said aloud comes out, and no more is promised than the payload",
	Why: "A customer hears it and loads by it. What the speaker took back is not a claim. A load may be rounded down, " +
		"never up; the word about allows 2.5%.",
	Source: Practice,
	Remedy: "say the right number in the notes, at the time it was said",
	check: func(c *Case, f *Findings) {
		file := &filed{Case: c}
		for i, p := range c.Passages() {
			notes := c.notes(i)
			heard := sync.OnceValue(notes.Figures)
			for _, said := range notes.Claims() {
				if p.Checked(said.Offset, said.Offset+len(said.Quote)) || p.Checked(said.Answer, said.Answer+1) {
					continue
				}
				w := crosscheck.Work(said, file.payload())
				if w.Verdict != crosscheck.Differs || w.Payload && file.differs(heard(), said.Answer) {
					continue
				}
				where := "the notes say"
				if p.Note != nil {
					where = "the note at " + p.Note.At.String() + " says"
				}
				f.add(p.Pos(said.Answer), "%s %q; %s", where, said.Quote, worked(said, w)).
					figures(outcome(said, w.Said), outcome(said, w.Right))
			}
		}
		for _, m := range c.Media {
			if m.Path == "recording.captions" && m.Fault == "" {
				claimed(m, file, f)
			}
		}
	},
}

// claimed works out the claims in the captions.
func claimed(m unit.Media, file *filed, f *Findings) {
	track, _, err := captions.Read(m.Name, m.Data)
	if err != nil {
		return // captions-unreadable says so
	}
	heard := sync.OnceValue(func() []walkaround.Candidate { return walkaround.Hear(track) })
	for _, said := range walkaround.Claims(track) {
		w := crosscheck.Work(said, file.payload())
		if w.Verdict != crosscheck.Differs || w.Payload && file.differs(heard(), said.Answer) {
			continue
		}
		at := unit.Pos{File: "content/" + m.Name, Line: int32(line(track, said.Start)), Column: 1}
		f.add(at, "the recording at %s says %q; %s", measure.Clock(int(said.Start)), said.Quote, worked(said, w)).
			figures(outcome(said, w.Said), outcome(said, w.Right))
	}
}

// payload is the most that anybody may load by the file, or 0.
func (f *filed) payload() measure.Pounds {
	f.gather()
	return f.most
}

// differs reports whether note-disagrees already finds the figure that was heard at this place.
func (f *filed) differs(heard []walkaround.Candidate, at int) bool {
	return slices.ContainsFunc(heard, func(c walkaround.Candidate) bool {
		if at < c.Offset || at >= c.Offset+len(c.Quote) {
			return false
		}
		verdict, _ := f.hold(c)
		return verdict == crosscheck.Differs
	})
}

// signs are written between the terms of a claim.
var signs = map[walkaround.Operation]string{walkaround.Less: " - ", walkaround.Leaves: " - ", walkaround.Plus: " + ", walkaround.Times: " x ", walkaround.Volume: " x ", walkaround.OverBy: " - ", walkaround.Share: " x "}

// worked is a claim with what comes out of it: "14,000 - 4,100 = 9,900 lb, not 10,900 lb".
func worked(c walkaround.Claim, w crosscheck.Worked) string {
	if w.Payload {
		return fmt.Sprintf("the payload is %s, not %s", outcome(c, w.Right), outcome(c, w.Said))
	}
	var terms []string
	for _, t := range w.Terms {
		terms = append(terms, plainNumber(t))
	}
	per := ""
	if c.Operation == walkaround.Volume {
		last := len(terms) - 1
		terms, per = terms[:last], " / "+terms[last]
	}
	return fmt.Sprintf("%s = %s, not %s", strings.Join(terms, signs[c.Operation])+per, outcome(c, w.Right), outcome(c, w.Said))
}

// outcome is a result: pounds where it is a load.
func outcome(c walkaround.Claim, v float64) string {
	if c.Load {
		return measure.Pounds(v).String()
	}
	return plainNumber(v)
}

// plainNumber is a number without a unit: a whole one with commas.
func plainNumber(v float64) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e9 {
		return measure.Count(int(v))
	}
	return measure.Number(v, 3)
}
