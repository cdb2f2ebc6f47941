package inspect

var videoIndexLast = &Rule{
	Name: "video-index-last", Severity: Remark,
	Title:  "a video's index stands at its front",
	Why:    "With the index at its end a phone has to fetch that first, or all of the file, before the first picture shows; on one bar of signal that is minutes.",
	Source: "ISO/IEC 14496-12, 8.2.1 and annex A: the movie box is recommended to stand near the front of the file",
	Remedy: "move it to the front, which changes no picture: ffmpeg -i in.mp4 -c copy -movflags +faststart out.mp4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Video != nil && m.Video.IndexLast {
				f.add(m.Pos, "video %q has its index behind its pictures", m.Name)
			}
		}
	},
}
