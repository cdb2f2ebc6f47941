package inspect

var notesUnread = &Rule{
	Name: "notes-unread", Severity: Stop,
	Title: "somebody has read the notes that were made from a recording before customers do",
	Why: "People who walk around a trailer also say what they paid, who had it and where the key is. A program cannot tell " +
		"all of that from what is for customers.",
	Source: Practice,
	Remedy: "read them below the second line of ---, delete what is not for customers, and write notes: read below recording:",
	check: func(c *Case, f *Findings) {
		notes := c.Recording.Notes
		if notes.Value != "heard" {
			return
		}
		n := len(c.Body.Notes)
		if n == 0 {
			return
		}
		found := f.add(notes.Pos, "customers would read %d notes that were heard, and nobody says that they may: notes is heard", n)
		if n == 1 {
			found.Message = "customers would read a note that was heard, and nobody says that they may: notes is heard"
		}
		found.also(c.Body.Notes[0].Pos, "the first note is here")
	},
}
