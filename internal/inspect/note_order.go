package inspect

var noteOrder = &Rule{
	Name: "note-order", Severity: Remark,
	Title:  "the timed notes under one heading are in the order of the recording",
	Why:    "Somebody who reads along with the recording loses the place, and a time out of order is often a mistake.",
	Source: "the unit file's format, docs/unit-file.md: timed notes",
	Remedy: "put the note where its time belongs, or correct the time",
	check: func(c *Case, f *Findings) {
		for _, b := range c.Bodies() {
			for i := 1; i < len(b.Notes); i++ {
				note, before := b.Notes[i], b.Notes[i-1]
				if note.At < before.At && note.Section == before.Section {
					f.add(note.Pos, "the note at %s comes after the one at %s", note.At, before.At).
						figures(note.At.String(), before.At.String()).
						also(before.Pos, "the note before it is here")
				}
			}
		}
	},
}
