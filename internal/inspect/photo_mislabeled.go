package inspect

var photoMislabeled = &Rule{
	Name: "photo-mislabeled", Severity: Remark,
	Title:  "a photo is what its name says",
	Why:    "It is published all the same, but other programs will refuse the file.",
	Source: "ITU-T T.81, B.1; W3C Portable Network Graphics, 3rd edition, 5.2; RFC 9649, 2.4: how each kind of file begins",
	Remedy: "give the file the ending that fits",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if p := m.Photo; p != nil && p.Fault == "" && named(m.Name) != p.Kind {
				f.add(m.Pos, "photo %q is a %s by what it holds", m.Name, p.Kind).
					fix("name it %s, here and on the disk", map[string]string{"JPEG": ".jpg", "PNG": ".png", "WebP": ".webp"}[p.Kind])
			}
		}
	},
}
