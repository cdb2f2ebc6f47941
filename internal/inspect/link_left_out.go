package inspect

import "tarepage/internal/unit"

var linkLeftOut = &Rule{
	Name: "link-left-out", Severity: Remark,
	Title:  "every link in the notes leads to a safe address",
	Why:    "Only the words of the link are shown. Where it should lead, or its picture, is missing from the page.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "link to https:, mailto:, tel: or a place on this site",
	check: func(c *Case, f *Findings) {
		for _, b := range c.Bodies() {
			leftOut(b, f)
		}
	},
	checkYard: func(y *Yard, f *Findings) { leftOut(&y.Stock.Yard.Body, f) },
}

func leftOut(b *unit.Body, f *Findings) {
	for _, l := range b.LeftOut {
		if l.Picture {
			f.add(l.Pos, "a picture in the notes is left out and only its words are shown").fix("name the file under photos")
			continue
		}
		f.add(l.Pos, "the link to %q is left out and only its words are shown", clipped(l.Address))
	}
}

// clipped is the beginning of a text, which may be long.
func clipped(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "..."
	}
	return s
}
