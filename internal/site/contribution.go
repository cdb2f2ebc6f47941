package site

import (
	"crypto/sha256"
	"fmt"
	"hash"
	"time"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/packed"
	"tarepage/internal/unit"
)

// contribution is what one unit contributes to the yard, as far as inspection takes it. It is
// kept, and made again only if something that it is made from changed: the program and its
// tables, the file, its model (unit.Kept), the settings or the files that the unit names.
type contribution struct {
	read *unit.Kept
	// of is a digest of the settings and of the files that the unit names.
	of   [32]byte
	work *compute.Work // a brief, unless all figures were asked for; nil for a file that did not read
	// found are the findings before waivers, which are a matter of the whole yard.
	found []inspect.Finding
	// packed is all of this as the next build reads it; empty if it is not kept.
	packed string
}

// keptUnit is a contribution that is packed.
type keptUnit struct {
	Read  unit.Kept
	Of    [32]byte
	Work  *compute.KeptBrief
	Found []keptFinding
}

// examiner examines the units of one yard.
type examiner struct {
	settings compute.Settings
	of       [32]byte // the digest of the settings
	// whole keeps all figures, and keep packs what is kept for the next build.
	whole, keep bool
	patience    time.Duration // for judging one unit
}

func newExaminer(y *unit.Yard) *examiner {
	x := &examiner{settings: compute.SettingsOf(y), patience: unit.MostJudgingTime}
	// A map is written in the order of its keys (package fmt).
	x.of = sha256.Sum256(fmt.Appendf(nil, "%#v", x.settings))
	return x
}

// unit computes and inspects a unit that was read, or returns what it contributed before if
// that would be the same now.
func (x *examiner) unit(read *unit.Kept, media []unit.Media, before *contribution) *contribution {
	of := x.made(media)
	if before != nil && before.read.Unit == read.Unit && before.of == of && !x.whole {
		if before.read == read && (before.packed != "" || !x.keep) {
			return before
		}
		again := *before
		again.read = read
		x.pack(&again)
		return &again
	}
	c := &contribution{read: read, of: of}
	u := read.Unit
	if !u.Broken {
		c.work = compute.Unit(u, x.settings)
		var judged bool
		c.found, judged = judge(u, c.work, media, x.patience)
		if !x.whole {
			c.work = c.work.Brief()
		}
		if !judged {
			return c // its text is still read, and the next build tries again
		}
	}
	u.Body.Fold()
	x.pack(c)
	return c
}

// judge inspects a unit. One that takes too long is stopped for that. What inspects it goes on
// reading it for nobody; only the day since when a price holds may change meanwhile.
func judge(u *unit.Unit, w *compute.Work, media []unit.Media, most time.Duration) (found []inspect.Finding, done bool) {
	found, late := unit.InTime(most, func() ([]inspect.Finding, error) { return inspect.Unit(u, w, media), nil })
	if late != nil {
		return inspect.Late(u, media, late), false
	}
	return found, true
}

// made is a digest of the settings and of what is known about the files that a unit names.
func (x *examiner) made(media []unit.Media) (sum [32]byte) {
	if len(media) == 0 {
		return x.of
	}
	h := sha256.New()
	h.Write(x.of[:])
	for i := range media {
		enterMedia(h, &media[i])
	}
	h.Sum(sum[:0])
	return sum
}

func enterMedia(h hash.Hash, m *unit.Media) {
	fmt.Fprintf(h, "%q %q %q %d %d %t %x\n", m.Path, m.Name, m.Fault, m.Bytes, m.Time.UnixNano(), m.Withheld, sha256.Sum256(m.Data))
	if m.Photo != nil {
		fmt.Fprintf(h, "%#v\n", *m.Photo)
	}
	if m.Video != nil {
		fmt.Fprintf(h, "%#v\n", *m.Video)
	}
}

// pack packs what is kept. A file that does not read is read again next time.
func (x *examiner) pack(c *contribution) {
	c.packed = ""
	if !x.keep || c.work == nil {
		return
	}
	text, err := packed.Append(nil, &keptUnit{*c.read, c.of, c.work.Brief().Keep(), keepFindings(c.found)})
	if err == nil {
		c.packed = string(text)
	}
}

// recall is what a unit contributed to the build before; nil if it is not known.
func (n *note) recall(file string, x *examiner) *contribution {
	if n == nil {
		return nil
	}
	if n.open(); n.units[file] == "" {
		return nil
	}
	k, text := new(keptUnit), n.units[file]
	if packed.Read(text, k) != nil || k.Work == nil || k.Read.Unit == nil {
		return nil
	}
	// What was made with other settings is not used.
	c := &contribution{read: &k.Read, of: k.Of, work: k.Work.Brief(k.Read.Unit, x.settings), found: findingsOf(k.Found), packed: text}
	if c.work == nil || len(c.found) != len(k.Found) {
		return nil
	}
	return c
}
