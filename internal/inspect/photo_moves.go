package inspect

var photoMoves = &Rule{
	Name: "photo-moves", Severity: Stop,
	Title:  "a photo does not move",
	Why:    "Only one of its pictures would be shown, and nobody could say which. An animation that starts by itself also keeps some people from reading the page.",
	Source: "WCAG 2.2, 2.2.2 Pause, Stop, Hide",
	Remedy: "save one of its pictures as JPEG, or use it as the recording's video, an MP4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if p := m.Photo; p != nil && p.Moves {
				f.add(m.Pos, "photo %q is an animated %s", m.Name, p.Kind)
			}
		}
	},
}
