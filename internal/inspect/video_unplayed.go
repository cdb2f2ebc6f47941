package inspect

var videoUnplayed = &Rule{
	Name: "video-unplayed", Severity: Remark,
	Title:  "every phone can play the video's format's format",
	Why:    "A customer taps the video, waits, and sees a black box.",
	Source: "ISO/IEC 14496-12, 4.2 and 8.5.2 (the file and its sample descriptions); which codecs phones play: common practice, no source",
	Remedy: "on the phone choose \"most compatible\" for the camera's formats; a file that is there already becomes one with: ffmpeg -i in.mov -c:v libx264 -pix_fmt yuv420p -c:a aac -movflags +faststart out.mp4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Video == nil || m.Video.Unclean != "" {
				continue
			}
			if why := m.Video.Unplayed(); why != "" {
				f.add(m.Pos, "video %q cannot be played everywhere: %s", m.Name, why)
			}
		}
	},
}
