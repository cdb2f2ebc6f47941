package inspect

var videoNamesPlace = &Rule{
	Name: "video-names-place", Severity: Remark,
	Title:  "a video does not say where it was made",
	Why:    "Whoever has the file can read off the spot, to a few feet: perhaps the yard, perhaps somebody's home. The site's copy holds the pictures and the sound only, so customers cannot; whoever gets the file itself can.",
	Source: "3GPP TS 26.244, 8.3 (location information); Apple, QuickTime File Format: com.apple.quicktime.location.ISO6709",
	Remedy: "nothing need be done for the site; to take it out of the file too, which changes no picture: ffmpeg -i in.mp4 -map 0:v -map 0:a? -map_metadata -1 -c copy -movflags +faststart out.mp4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			switch v := m.Video; {
			case v == nil:
			case v.Track != "":
				f.add(m.Pos, "video %q has a track of data, %s, that may hold a position for each second; the site's copy does not", m.Name, v.Track)
			case v.Place:
				f.add(m.Pos, "video %q holds the position where it was made; the site's copy does not", m.Name)
			}
		}
	},
}
