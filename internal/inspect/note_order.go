package inspect

var noteOrder = &Rule{
	Name: "note-order", Severity: Remark,
	Title:  "the timed notes under one heading are in the order of the recording",
	Why:    "Somebody who reads along with the recording loses the place, and a time out of order is often a mistake.",
	Source: "the unit file's format, docs/unit-file.md: timed notes",
	Remedy: "put the note where its time belongs, or correct the time",
	check: func(c *Case, f *Findings) {
		notes := c.Body.Notes
		for i := 1; i < len(notes); i++ {
			if before := notes[i-1]; notes[i].At < before.At && notes[i].Section == before.Section {
				f.add(notes[i].Pos, "the note at %s comes after the one at %s", notes[i].At, before.At).
					figures(notes[i].At.String(), before.At.String()).
					also(before.Pos, "the note before it is here")
			}
		}
	},
}
