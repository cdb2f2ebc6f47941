package inspect

var figureDisagrees = &Rule{
	Name: "figure-disagrees", Severity: Stop,
	Title:  "a number written in the notes is the one that was worked out",
	Why:    "A customer reads the sentence and loads by it.",
	Source: "the unit file's format, docs/unit-file.md: checked figures",
	Remedy: "correct the words, or leave them empty and the figure is filled in",
	check: func(c *Case, f *Findings) {
		for _, link := range c.Body.Figures {
			fig := c.Work.Figure(link.Name)
			if fig == nil || link.Text == "" {
				continue
			}
			says, ok, err := Agrees(link.Text, fig)
			switch {
			case err != nil:
				f.add(link.Pos, "%q does not read as %s: %v", link.Text, fig.Name, err).
					fix("write it like %s, or leave the words empty", fig.Text)
			case !ok:
				f.add(link.Pos, "the text says %s, %s is %s (%s)", says, fig.Name, fig.Text, fig.Working).
					figures(says, fig.Text)
			}
		}
	},
}
