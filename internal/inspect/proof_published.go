package inspect

import (
	"fmt"

	"tarepage/internal/unit"
)

var proofPublished = &Rule{
	Name: "proof-published", Severity: Stop,
	Title:  "a photo that is kept off the site is not published under another key or another name",
	Why:    "Whoever keeps a photo off the site has a reason, such as a buyer's name on a ticket. A copy of the file has the same picture. Where a unit's file does not read, what it names waits, because it may be kept off the site there.",
	Source: "the unit file's format, docs/unit-file.md: proof",
	Remedy: "take it out here, or take withhold out there",
	checkYard: func(y *Yard, f *Findings) {
		for _, c := range y.Cases {
			for _, m := range c.Media {
				why, off := y.Stock.KeptOff(m.Name)
				if !off || m.Withheld || why.At.File == c.File && why.Unread {
					continue
				}
				if why.Unread {
					f.add(m.Pos, "%q%s is named in a file that does not read, so nobody knows whether it is kept off the site", m.Name, sameAs(why)).
						also(why.At, "this does not read").fix("put that file right").Unit = c.File
					continue
				}
				f.add(m.Pos, "photo %q%s is kept off the site by a proof, so it is not shown here", m.Name, sameAs(why)).
					also(why.At, "it is withheld here").Unit = c.File
			}
		}
	},
}

// sameAs says which file has the same bytes, if it is another.
func sameAs(why unit.KeptOff) string {
	if why.Same == "" {
		return ""
	}
	return fmt.Sprintf(", which is the same as %q,", why.Same)
}
