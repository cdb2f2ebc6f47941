package inspect

import (
	"path"
	"strings"

	"tarepage/internal/media"
	"tarepage/internal/unit"
)

var photoUnreadable = &Rule{
	Name: "photo-unreadable", Severity: Stop,
	Title:  "every photo can be read",
	Why:    "A page with a missing photo sells nothing, and half a picture hides the other half of the trailer.",
	Source: "ITU-T T.81 (JPEG); W3C Portable Network Graphics, 3rd edition; RFC 9649 (WebP): the kinds of picture that are read",
	Remedy: "copy it from the phone again; if it is damaged there too, take another photo",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			p := m.Photo
			if p == nil || p.Fault == "" || p.Moves {
				continue
			}
			unreadable(f, &m, p.Fault)
		}
	},
}

// PhotoFaults lists the photos of one unit whose pixels could not be read, which is known
// only when its pictures are made. Faults says what is wrong, by the photos' names below
// content/.
func PhotoFaults(u *unit.Unit, named []unit.Media, faults map[string]string) []Finding {
	if u.Broken {
		return nil
	}
	f := &Findings{rule: photoUnreadable, file: u.File}
	for _, m := range named {
		if fault := faults[m.Name]; fault != "" && m.Photo != nil {
			unreadable(f, &m, fault)
		}
	}
	f.fold()
	for i := range f.list {
		fromModel(&Case{Unit: u}, &f.list[i])
	}
	return f.list
}

func unreadable(f *Findings, m *unit.Media, fault string) {
	found := f.add(m.Pos, "photo %q: %s", m.Name, fault)
	switch p := m.Photo; {
	case p.Hollow:
		found.fix("save it with at most 3,000 pixels on its longer side")
	case p.Kind == "HEIC" || p.Kind == "AVIF":
		found.fix("%s", media.Export)
	case p.Kind != "JPEG" && p.Kind != "PNG" && p.Kind != "WebP":
		found.fix("save it as JPEG, or name another file")
	}
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
