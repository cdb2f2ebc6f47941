package render

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/sitepath"
	"tarepage/internal/unit"
)

// A moment leads to a time of a recording.
type moment struct {
	href string
	// here is whether the recording is on the page, so that a script can play it there.
	here bool
}

// moments returns what leads to each time of a unit's recording: its own video, else one on
// another host, else nothing.
func (m *maker) moments(e *entry) func(unit.Clock) moment {
	if v := e.video(); v != nil {
		// W3C Media Fragments URI 1.0, 4.2.1: a player starts at t.
		return func(at unit.Clock) moment {
			return moment{fmt.Sprintf("../%s%s#t=%d", m.up, sitepath.Escape(sitepath.Video(e.Unit, v.Name)), int(at)), true}
		}
	}
	id := e.Recording.ID.Value
	return func(at unit.Clock) moment { return moment{href: m.in.Stock.Yard.VideoAt(id, at)} }
}

// video is the unit's own video, if it is there.
func (e *entry) video() *unit.Media { return e.named("recording.video") }

func (e *entry) named(key string) *unit.Media {
	for i := range e.media {
		if m := &e.media[i]; m.Path == key && m.Fault == "" {
			return m
		}
	}
	return nil
}

// recorded is what the page shows of the recording, or nil.
func (m *maker) recorded(e *entry) (*recording, error) {
	v := e.video()
	if v == nil {
		return nil, nil
	}
	r := &recording{Video: "../" + m.up + sitepath.Escape(sitepath.Video(e.Unit, v.Name)), Size: size(v.Bytes), Script: m.script}
	r.Wide, r.High = 640, 360
	if d := e.Recording.Day.Value; d.Known() {
		r.Day = d.Long()
	}
	if v.Video != nil && v.Video.Wide > 0 && v.Video.High > 0 {
		r.Wide, r.High = v.Video.Wide, v.Video.High
	}
	switch {
	case e.Recording.Length.Given():
		r.Length = e.Recording.Length.Value.String()
	case v.Video != nil && v.Video.Seconds > 0:
		r.Length = measure.Clock(int(math.Ceil(v.Video.Seconds)))
	}
	end := float64(e.Recording.Length.Value)
	if c := e.named("recording.captions"); c != nil {
		cues, _, err := captions.Read(c.Name, c.Data)
		if err != nil {
			return nil, err
		}
		for _, cue := range cues.Cues {
			end = max(end, cue.End)
		}
		r.Captions = track(cues.WebVTT())
		to := m.moments(e)
		for _, s := range spoken(cues.Cues, e.Body.Whole().Notes) {
			s.Link = to(unit.Clock(s.Seconds)).href
			r.Said = append(r.Said, s)
		}
	}
	if list := chapters(&e.Body, end); len(list) > 0 {
		r.Chapters = track(captions.Chapters(list))
	}
	return r, nil
}

// spoken joins what was said from each note's time to the next one's. What was said before the
// first note begins at 0.
func spoken(cues []captions.Cue, notes []unit.Note) []said {
	starts := []unit.Clock{0}
	for _, n := range notes {
		starts = append(starts, n.At)
	}
	slices.Sort(starts)
	starts = slices.Compact(starts)
	var out []said
	i, last := 0, -1
	for _, cue := range cues {
		for i+1 < len(starts) && cue.Start >= float64(starts[i+1]) {
			i++
		}
		text := strings.Join(strings.Fields(cue.Text), " ")
		if i == last {
			out[len(out)-1].Text += " " + text
			continue
		}
		out = append(out, said{At: starts[i].String(), Seconds: int(starts[i]), Text: text})
		last = i
	}
	return out
}

// track is a text track as an address.
func track(vtt string) template.URL {
	return template.URL("data:text/vtt;charset=utf-8," + sitepath.Escape(vtt))
}

// size is how large a file is, rounded up: somebody with one bar of signal wants to know.
func size(bytes int64) string {
	if bytes < 1<<20 {
		return measure.Count(int((bytes+1<<10-1)>>10)) + " KB"
	}
	return measure.Count(int((bytes+1<<20-1)>>20)) + " MB"
}

// chapters are the notes' headings, each from its first note to the next chapter's. One
// that does not begin after the chapter before it is left out.
func chapters(b *unit.Body, end float64) []captions.Chapter {
	b = b.Whole()
	var out []captions.Chapter
	timed := map[ast.Node]unit.Clock{}
	for _, n := range b.Notes {
		timed[n.Node] = n.At
	}
	title := ""
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if n.Kind() == ast.KindHeading {
			title = unit.PlainText(n, b.Source)
			return ast.WalkSkipChildren, nil
		}
		at, ok := timed[n]
		if !ok || title == "" {
			return ast.WalkContinue, nil
		}
		if last := len(out) - 1; last < 0 || float64(at) > out[last].Start {
			if last >= 0 {
				out[last].End = float64(at)
			}
			out = append(out, captions.Chapter{Start: float64(at), Title: title})
			title = ""
		}
		return ast.WalkContinue, nil
	})
	if last := len(out) - 1; last >= 0 {
		out[last].End = max(end, out[last].Start+1)
	}
	return out
}
