package inspect

var fileMissing = &Rule{
	Name: "file-missing", Severity: Stop,
	Title:  "every file that the unit names exists",
	Why:    "A customer would see an empty space instead of the photo or the recording.",
	Source: "the unit file's format, docs/unit-file.md: files are below content/",
	Remedy: "put the file there, correct its name, or take the key out",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Fault != "" {
				f.add(m.Pos, "%s names %q: %s", m.Path, m.Name, m.Fault)
			}
		}
	},
}
