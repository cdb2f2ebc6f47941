package inspect

var htmlLeftOut = &Rule{
	Name: "html-left-out", Severity: Remark,
	Title:  "the notes have no raw HTML",
	Why:    "Raw HTML is left out, so whatever it should show is missing from the page.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "write it in Markdown",
	check: func(c *Case, f *Findings) {
		last := int32(0)
		for _, b := range c.Bodies() {
			for _, at := range b.RawHTML {
				// A tag and its closing tag on one line are one thing to rewrite.
				if at.Line == last {
					continue
				}
				last = at.Line
				f.add(at, "raw HTML is left out")
			}
		}
	},
}
