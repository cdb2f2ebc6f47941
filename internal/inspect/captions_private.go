package inspect

import (
	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var captionsPrivate = &Rule{
	Name: "captions-private", Severity: Remark,
	Title:  "captions that customers read hold no name and no telephone number",
	Why:    "The captions are published with the video, word for word. A person or a customer may not want to be in them.",
	Source: Practice,
	Remedy: "take the words out of the captions, or leave them if they may be read by everybody",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Path != "recording.captions" || m.Fault != "" {
				continue
			}
			track, _, err := captions.Read(m.Name, m.Data)
			if err != nil {
				return // captions-unreadable says so
			}
			for _, o := range walkaround.Private(track) {
				at := unit.Pos{File: "content/" + m.Name, Line: int32(line(track, o.At)), Column: 1}
				f.add(at, "the captions hold %s at %s", o.Reason, measure.Clock(int(o.At)))
			}
		}
	},
}
