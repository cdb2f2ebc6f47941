package inspect

var videoUnclean = &Rule{
	Name: "video-unclean", Severity: Stop,
	Title:  "the site can have a copy of the video with nothing in it except its pictures and its sound",
	Why:    "A phone writes more into a video than what is seen and heard: where it was made, when, and by which phone. The site gets a new file with the pictures and the sound. A file that cannot be checked, or is not a video, is not published.",
	Source: "ISO/IEC 14496-12, 4.2 (the parts of MP4 and QuickTime); RFC 9559 (the parts of WebM)",
	Remedy: "export it as MP4 with H.264 and AAC: ffmpeg -i in.mov -c:v libx264 -pix_fmt yuv420p -c:a aac -movflags +faststart out.mp4",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if m.Video != nil && m.Fault == "" && m.Video.Unclean != "" {
				f.add(m.Pos, "video %q cannot be published: %s", m.Name, m.Video.Unclean)
			}
		}
	},
}
