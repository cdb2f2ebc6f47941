package inspect

var photoWithoutAlt = &Rule{
	Name: "photo-without-alt", Severity: Remark,
	Title:  "every photo says what it shows",
	Why:    "A customer who cannot see the photo, or whose signal is too weak to load it, has only the words.",
	Source: "WCAG 2.2, 1.1.1 Non-text Content",
	Remedy: "write alt: with what the photo shows",
	check: func(c *Case, f *Findings) {
		for _, p := range c.Photos {
			if p.File.Given() && !p.Alt.Given() {
				f.add(p.File.Pos, "photo %q has no description", p.File.Value)
			}
		}
	},
}
