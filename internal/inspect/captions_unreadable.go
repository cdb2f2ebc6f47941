package inspect

import (
	"strings"

	"tarepage/internal/captions"
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
