package inspect

var notePastRecording = &Rule{
	Name: "note-past-recording", Severity: Stop,
	Title:  "no note and no photo names a moment after the recording's end",
	Why:    "Nobody can check a note that the recording does not reach.",
	Source: "the unit file's format, docs/unit-file.md: timed notes",
	Remedy: "correct the note's time or the recording's length",
	check: func(c *Case, f *Findings) {
		length := c.Recording.Length
		if !length.Given() {
			return
		}
		for _, b := range c.Bodies() {
			for _, n := range b.Notes {
				if n.At > length.Value {
					f.add(n.Pos, "the note is at %s; the recording ends at %s", n.At, length.Value).
						figures(n.At.String(), length.Value.String()).
						also(length.Pos, "the recording's length is here")
				}
			}
		}
		for _, p := range c.Photos {
			if p.Moment.Given() && p.Moment.Value > length.Value {
				f.add(p.Moment.Pos, "the photo names the moment %s; the recording ends at %s", p.Moment.Value, length.Value).
					figures(p.Moment.Value.String(), length.Value.String()).
					also(length.Pos, "the recording's length is here").
					fix("correct the photo's moment or the recording's length")
			}
		}
	},
}
