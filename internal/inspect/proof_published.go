package inspect

import (
	"fmt"

	"tarepage/internal/unit"
)

var proofPublished = &Rule{
	Name: "proof-published", Severity: Stop,
	Title:  "a photo that is kept off the site is not published under another key or another name",
	Why:    "Whoever keeps a photo off the site has a reason, such as a buyer's name on a ticket. A copy of the file has the same picture. If a unit's file cannot be read, the photos that it names wait, because that file may keep them off the site.",
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

// PhotoCopies lists the photos of one unit whose pictures are nearly those of photos that are kept
// off the site, which is known only when its pictures are made. Of names these, by the photos'
// names below content/.
func PhotoCopies(s *unit.Stock, u *unit.Unit, of map[string]string) []Finding {
	if u.Broken {
		return nil
	}
	f := &Findings{rule: proofPublished, file: u.File}
	for _, m := range s.Media[u.File] {
		kept := of[m.Name]
		why, off := s.KeptOff(kept)
		switch {
		case m.Photo == nil || !off:
		case why.Unread:
			f.add(m.Pos, "photo %q looks like %q, which is named in a file that does not read, so nobody knows whether it is kept off the site", m.Name, kept).
				also(why.At, "this does not read").fix("put that file right, or use another photo")
		default:
			f.add(m.Pos, "photo %q looks like %q, which %s withholds, so it is not shown here", m.Name, kept, holder(s, why.At.File)).
				also(why.At, "it is withheld here").fix("use another photo, or take withhold out there")
		}
	}
	f.fold()
	for i := range f.list {
		fromModel(&Case{Unit: u}, &f.list[i])
	}
	return f.list
}

// holder is the stock number of the unit in a file, or the file where that is not a unit's.
func holder(s *unit.Stock, file string) string {
	for _, u := range s.Units {
		if u.File == file && u.Stock.Given() {
			return u.Stock.Value
		}
	}
	return file
}
