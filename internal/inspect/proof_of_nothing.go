package inspect

import (
	"slices"

	"tarepage/internal/unit"
)

var proofOfNothing = &Rule{
	Name: "proof-of-nothing", Severity: Stop,
	Title:  "what a photo proves is a value that the unit gives",
	Why:    "A photo that proves a misspelled key proves nothing, and the number that it was taken for stays without a proof.",
	Source: "the unit file's format, docs/unit-file.md: proof",
	Remedy: "name keys as they are written from the top, with a period between them: weights.gvwr",
	check: func(c *Case, f *Findings) {
		if len(c.Proof) == 0 {
			return
		}
		unread := c.Unread()
		for i := range c.Proof {
			for _, k := range c.Proof[i].Keys() {
				switch given := c.givenAt(k.Path); {
				case given != nil && unit.Provable(k.Path), slices.Contains(unread, k.Path):
				case given != nil:
					f.add(k.Pos, "%s is not something that a photo can prove", k.Path).
						fix("name what is read off the trailer, such as weights.gvwr or axles.rating")
				case unit.Provable(k.Path):
					f.add(k.Pos, "the photo proves %s, and the unit does not give it", k.Path).
						fix("write the value as the photo shows it, or take the key out of proves")
				default:
					found := f.add(k.Pos, "there is no key %s", clipped(k.Path))
					if meant := unit.MeantKey(k.Path); meant != "" {
						found.fix("did you mean %s?", meant)
					}
				}
			}
		}
	},
}

// givenAt is the value that the unit gives for a key, or nil.
func (c *Case) givenAt(path string) *unit.Given {
	list := c.Givens()
	for i := range list {
		if list[i].Path == path {
			return &list[i]
		}
	}
	return nil
}
