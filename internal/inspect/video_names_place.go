package inspect

var videoNamesPlace = &Rule{
	Name: "video-names-place", Severity: Remark,
	Title:  "a video does not tell where it was made",
	Why:    "The file is published as it is, and anybody who has it can read off the spot, to a few feet: perhaps the yard, perhaps somebody's home.",
	Source: "3GPP TS 26.244, 8.3 (location information); Apple, QuickTime File Format: com.apple.quicktime.location.ISO6709",
	Remedy: "take it out, which changes no picture: ffmpeg -i in.mp4 -map_metadata -1 -c copy -movflags +faststart out.mp4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Video != nil && m.Video.Place {
				f.add(m.Pos, "video %q holds the position where it was made", m.Name)
			}
		}
	},
}
