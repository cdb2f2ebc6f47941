package inspect

import (
	"slices"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/unit"
)

var captionsUnreadable = &Rule{
	Name: "captions-unreadable", Severity: Stop,
	Title:  "the captions file can be read",
	Why:    "Customers who cannot hear the recording have only the captions.",
	Source: "W3C WebVTT 1; WCAG 2.2, 1.2.2 Captions (Prerecorded)",
	Remedy: "name the recording's .vtt or .srt file",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Path != "recording.captions" || m.Fault != "" {
				continue
			}
			if _, _, err := captions.Read(m.Name, m.Data); err != nil {
				f.add(m.Pos, "%s is not a captions file: %s", m.Name, strings.TrimPrefix(err.Error(), "captions "+m.Name+": "))
			}
		}
	},
}

// Late is what is found about a unit that was not judged in time, as the error says. The unit is
// stopped: nobody knows what is wrong with it.
func Late(u *unit.Unit, named []unit.Media, late error) []Finding {
	f := &Findings{rule: fileUnreadable, file: u.File}
	at := u.Top
	if i := slices.IndexFunc(named, func(m unit.Media) bool { return m.Path == "recording.captions" }); i >= 0 {
		f.rule, at = captionsUnreadable, named[i].Pos
	}
	f.add(at, "%v", late).fix("write less into the file, and name captions of a walk around one trailer only")
	for i := range f.list {
		fromModel(&Case{Unit: u}, &f.list[i])
	}
	return f.list
}
