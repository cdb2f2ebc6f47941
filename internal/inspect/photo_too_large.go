package inspect

import (
	"tarepage/internal/measure"
	"tarepage/internal/media"
)

var photoTooLarge = &Rule{
	Name: "photo-too-large", Severity: Stop,
	Title:  "no photo has more pixels than the program can work with",
	Why:    "A small file can claim to be a picture of any size. Believing it would take all of the computer's memory.",
	Source: Practice,
	Remedy: "save it smaller; 50 megapixels are plenty for any page",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			p := m.Photo
			if p == nil || p.Fault != "" || !p.TooLarge() {
				continue
			}
			mb := func(bytes int64) string { return measure.Count(int((bytes+1<<20-1)>>20)) + " MB" }
			need := p.Need
			if need < p.Pixels() {
				need = p.Pixels() // more than a number of bytes can be
			}
			f.add(m.Pos, "photo %q has %s x %s pixels, which need %s of memory; the limit is %s", m.Name,
				measure.Count(p.Wide), measure.Count(p.High), mb(need), mb(media.MostNeed)).
				figures(mb(need), mb(media.MostNeed))
		}
	},
}
