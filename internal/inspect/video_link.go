package inspect

import "tarepage/internal/unit"

var videoLink = &Rule{
	Name: "video-link", Severity: Stop,
	Title:  "the address pattern for recordings on another host works for each of them",
	Why:    "A customer who taps a moment would land somewhere else, or nowhere.",
	Source: "RFC 3986; RFC 9110, 4.2: http and https lead to a page",
	Remedy: "write it like https://video.example/{id}?t={s}",
	checkYard: func(y *Yard, f *Findings) {
		v := y.Stock.Yard.VideoLink
		if !v.Given() {
			return
		}
		if fault := unit.VideoLinkFault(v.Value); fault != "" {
			f.add(v.Pos, "video-link %q: %s", v.Value, fault)
		}
	},
}
