package inspect

import "tarepage/internal/measure"

// Below leastWide nothing can be seen; below sharpWide a phone shows it blurred.
const (
	leastWide = 32
	sharpWide = 800
)

var photoTooSmall = &Rule{
	Name: "photo-too-small", Severity: Stop,
	Title:  "every photo is large enough to see something on it",
	Why:    "A phone shows 800 pixels across. A smaller photo is blurred, and a tiny one is probably a thumbnail.",
	Source: Practice,
	Remedy: "use the original photo, not a thumbnail or a copy that was sent through a messenger",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			p := m.Photo
			if p == nil || p.Fault != "" {
				continue
			}
			wide, high := p.Seen()
			switch w, h := measure.Count(wide), measure.Count(high); {
			case wide < leastWide || high < leastWide:
				f.add(m.Pos, "photo %q has %s x %s pixels; with fewer than %d there is nothing to see", m.Name, w, h, leastWide).figures(measure.Count(min(wide, high)), measure.Count(leastWide))
			case wide < sharpWide && high < sharpWide:
				f.add(m.Pos, "photo %q has %s x %s pixels; a phone shows %d across and blurs it", m.Name, w, h, sharpWide).figures(measure.Count(max(wide, high)), measure.Count(sharpWide)).only(Remark)
			}
		}
	},
}
