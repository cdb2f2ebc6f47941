package inspect

var photoMislabeled = &Rule{
	Name: "photo-mislabeled", Severity: Remark,
	Title:  "a photo is what its name says",
	Why:    "The photo is published all the same, but other programs may refuse the file.",
	Source: "ITU-T T.81, B.1; W3C Portable Network Graphics, 3rd edition, 5.2; RFC 9649, 2.4: how each kind of file begins",
	Remedy: "change the file's ending to the one that fits",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			if p := m.Photo; p != nil && p.Fault == "" && named(m.Name) != p.Kind {
				f.add(m.Pos, "photo %q is really a %s file", m.Name, p.Kind).
					fix("name it %s, here and on the disk", map[string]string{"JPEG": ".jpg", "PNG": ".png", "WebP": ".webp"}[p.Kind])
			}
		}
	},
}
