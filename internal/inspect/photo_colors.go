package inspect

var photoColors = &Rule{
	Name: "photo-colors", Severity: Stop,
	Title:  "a photo has colors that a screen can show",
	Why:    "CMYK is made for ink. On a screen it turns a red trailer brown.",
	Source: "IEC 61966-2-1 (sRGB); Adobe Technical Note 5116: CMYK in JPEG",
	Remedy: "save it as an RGB (sRGB) JPEG",
	check: func(c *Case, f *Findings) {
		for _, m := range c.Media {
			switch p := m.Photo; {
			case p == nil || p.Fault != "":
			case p.Colors != "":
				f.add(m.Pos, "photo %q has colors for printing, %s", m.Name, p.Colors)
			case p.Bits > 8:
				f.add(m.Pos, "photo %q has %d bits a color; a page shows 8", m.Name, p.Bits).
					fix("nothing need be done; saved as JPEG it takes a tenth of the room").only(Remark)
			}
		}
	},
}
