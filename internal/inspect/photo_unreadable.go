package inspect

import (
	"path"
	"strings"

	"tarepage/internal/media"
)

var photoUnreadable = &Rule{
	Name: "photo-unreadable", Severity: Stop,
	Title:  "every photo can be read",
	Why:    "A page with a hole in it sells nothing, and half a picture hides the other half of the trailer.",
	Source: "ITU-T T.81 (JPEG); W3C Portable Network Graphics, 3rd edition; RFC 9649 (WebP): the kinds of picture that are read",
	Remedy: "copy it anew from the phone; if it is damaged there too, take another",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			p := m.Photo
			if p == nil || p.Fault == "" || p.Moves {
				continue
			}
			found := f.add(m.Pos, "photo %q: %s", m.Name, p.Fault)
			switch {
			case p.Kind == "HEIC" || p.Kind == "AVIF":
				found.fix("%s", media.Export)
			case p.Kind != "JPEG" && p.Kind != "PNG" && p.Kind != "WebP":
				found.fix("save it as JPEG, or name another file")
			}
		}
	},
}

// named is the kind of picture that a file's name promises, or "" if it promises none.
func named(file string) string {
	switch strings.ToLower(path.Ext(file)) {
	case ".jpg", ".jpeg", ".jpe":
		return "JPEG"
	case ".png":
		return "PNG"
	case ".webp":
		return "WebP"
	}
	return ""
}
