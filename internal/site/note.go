package site

import (
	"crypto/sha256"
	"encoding/binary"
	"strings"
	"sync"
	"time"

	"tarepage/internal/files"
	"tarepage/internal/inspect"
	"tarepage/internal/packed"
	"tarepage/internal/pagedata"
	"tarepage/internal/publish"
	"tarepage/internal/stockfile"
	"tarepage/internal/unit"
)

// note is the part of a Store that a build leaves next to the target. Nothing in it is
// believed without the digests of what it was made from, and publish.Recall returns it only
// as it was left, to the byte.
type note struct {
	// findings are those of the whole yard.
	findings []inspect.Finding
	// program is the digest of the program that left the note, with its tables. Another one does
	// not read what follows.
	program [32]byte
	noteHead
	// rest recalls what was left with the note (publish.RecallMore), until it is opened: where
	// nothing changed, nobody needs it.
	rest   func() string
	opened sync.Once
	noteRest
	// units are what the units contribute, packed, by their files.
	units map[string]string
	made  map[string]keptPage
	lines map[string]keptLines
}

// noteHead is the part of a note that tells whether anything changed, packed.
type noteHead struct {
	// Basis is the digest of the program, with its tables, and of the look.
	Basis [32]byte
	// Read is the digest of content/, and List that of the site.
	Read, List [32]byte
	LeaveOut   bool
	Stamps     []unit.Stamp
	Texts      []unit.KnownText
	// Young reports that a file was so new that its stamp may not be trusted.
	Young   bool
	Count   int // of the units
	Pages   int
	LeftOut []string // the units that were left out, by name
	// Withheld are the units that their owner keeps out, by name.
	Withheld []string
	Address  string   // the site's own address, if it is known
	Example  bool     // whether the site is that of the example
	Undated  []string // the units that no feed lists
	Loss     loss     // what left the site without being sold
}

// noteRest is the part of a note that helps where something changed, packed.
type noteRest struct {
	// Offers are those of the stock.json with the digest OffersOf.
	Offers   stockfile.Offers
	OffersOf [32]byte
	// Made are the pages that say what they were made from.
	Made    []keptPage
	Lexicon pagedata.KeptLexicon
	// Lines are where the lines of units are in the files of the stock.
	Lines []keptLines
	// Units say where the units' parts of the note end.
	Units []keptEnd
}

// keptEnd is where the part of a unit ends, from the end of noteRest.
type keptEnd struct {
	File string
	At   int
}

// keptPage is a page, the digest of what it was made from, and its own digest.
type keptPage struct {
	Path    string
	Of, Sum [32]byte
}

// keptLines are the lines of the unit with a page: the digest of what they were made from, where
// they are in the files of the stock in the target, and their own digest.
type keptLines struct {
	Page string
	Of   [32]byte
	At   stockfile.Places
	Sum  [32]byte
}

func lineSum(l stockfile.Lines) (sum [32]byte) {
	h := sha256.New()
	for _, text := range l {
		h.Write(binary.AppendUvarint(nil, uint64(len(text))))
		h.Write(text)
	}
	h.Sum(sum[:0])
	return sum
}

// linesOf are the lines of a unit in the stock files, if they were made from the same data.
// They are unknown if the files have other lines there by now.
func (n *note) linesOf(page string, from [32]byte, stock [3]string) (l stockfile.Lines, known bool) {
	n.open()
	k, ok := n.lines[page]
	if !ok || k.Of != from {
		return l, false
	}
	for i, at := range k.At {
		if at.At < 0 || at.Bytes < 0 || at.Bytes > len(stock[i]) || at.At > len(stock[i])-at.Bytes {
			return l, false
		}
		l[i] = []byte(stock[i][at.At : at.At+at.Bytes])
	}
	return l, lineSum(l) == k.Sum
}

// noteForm is the first line of a note. It changes when a packed keptFinding does: a new
// program reads what an older one found. A test holds both together.
const noteForm = "tarepage note 1\n"

// pack is the note as it is left for the next build, and what is left with it.
func (n *note) pack(parts []*contribution) (text, more []byte, err error) {
	at := 0
	for _, p := range parts {
		if p.packed != "" {
			at += len(p.packed)
			n.Units = append(n.Units, keptEnd{p.read.Unit.File, at})
		}
	}
	found := keepFindings(n.findings)
	list, err := packed.Append(nil, &found)
	if err != nil {
		return nil, nil, err
	}
	text = append(binary.AppendUvarint([]byte(noteForm), uint64(len(list))), list...)
	text, err = packed.Append(append(text, n.program[:]...), &n.noteHead)
	if err != nil {
		return nil, nil, err
	}
	rest, err := packed.Append(nil, &n.noteRest)
	if err != nil {
		return nil, nil, err
	}
	more = make([]byte, 0, len(rest)+at+binary.MaxVarintLen64)
	more = append(binary.AppendUvarint(more, uint64(len(rest))), rest...)
	for _, p := range parts {
		more = append(more, p.packed...)
	}
	return text, more, nil
}

// readNote reads a note. It returns nil if there is none that this program understands. Of a
// note that another program left, only the findings are read. More is what was left with it.
func readNote(text string, more func() string) *note {
	text, ok := strings.CutPrefix(text, noteForm)
	list, text, whole := part(text)
	var found []keptFinding
	if !ok || !whole || packed.Read(list, &found) != nil {
		return nil
	}
	n := &note{findings: findingsOf(found)}
	program, err := programSum()
	if err != nil || !strings.HasPrefix(text, string(program[:])) {
		return n
	}
	if packed.Read(text[len(program):], &n.noteHead) != nil {
		return n
	}
	n.rest, n.program = more, program
	return n
}

// open reads the rest of a note, once. If it does not hold together, nothing in it is used.
func (n *note) open() {
	n.opened.Do(func() {
		if n.rest == nil {
			return
		}
		rest, text, whole := part(n.rest())
		var r noteRest
		if !whole || packed.Read(rest, &r) != nil {
			return
		}
		n.noteRest = r
		n.units = make(map[string]string, len(n.Units))
		from := 0
		for _, u := range n.Units {
			if u.At < from || u.At > len(text) {
				return
			}
			n.units[u.File] = text[from:u.At]
			from = u.At
		}
		n.made = make(map[string]keptPage, len(n.Made))
		for _, p := range n.Made {
			n.made[p.Path] = p
		}
		n.lines = make(map[string]keptLines, len(n.Lines))
		for _, l := range n.Lines {
			n.lines[l.Page] = l
		}
	})
}

// part is what follows a length, and the rest after it.
func part(text string) (part, rest string, ok bool) {
	n, size := binary.Uvarint([]byte(text[:min(len(text), binary.MaxVarintLen64)]))
	if size <= 0 || n > uint64(len(text)-size) {
		return "", "", false
	}
	return text[size : size+int(n)], text[size+int(n):], true
}

// keptFinding is a finding with its rule by name. Source and Remedy are empty where they are
// the rule's.
type keptFinding struct {
	Rule           string
	Severity       inspect.Severity
	At             unit.Pos
	Unit           string
	Message        string
	Value, Limit   string
	Related        []unit.Place
	Source, Remedy string
	First          bool
}

func keepFindings(list []inspect.Finding) []keptFinding {
	out := make([]keptFinding, len(list))
	for i, f := range list {
		k := keptFinding{Rule: f.Rule.Name, Severity: f.Severity, At: f.At, Unit: f.Unit, Message: f.Message,
			Value: f.Value, Limit: f.Limit, Related: f.Related, First: f.First}
		if f.Source != f.Rule.Source {
			k.Source = f.Source
		}
		if f.Remedy != f.Rule.Remedy {
			k.Remedy = f.Remedy
		}
		out[i] = k
	}
	return out
}

// findingsOf are the findings as they were, without those of rules that are gone.
func findingsOf(list []keptFinding) []inspect.Finding {
	var out []inspect.Finding
	for _, k := range list {
		r := inspect.Lookup(k.Rule)
		if r == nil {
			continue
		}
		f := inspect.Finding{Rule: r, Severity: k.Severity, At: k.At, Unit: k.Unit, Message: k.Message,
			Value: k.Value, Limit: k.Limit, Related: k.Related, Source: r.Source, Remedy: r.Remedy, First: k.First}
		if k.Source != "" {
			f.Source = k.Source
		}
		if k.Remedy != "" {
			f.Remedy = k.Remedy
		}
		out = append(out, f)
	}
	return out
}

// under reports whether this program made the note, with this look.
func (n *note) under(basis [32]byte) bool {
	return n != nil && n.program != [32]byte{} && n.Basis == basis
}

// offersIn are the offers of a stock.json: as they were noted if the file is still the same, else
// read.
func (n *note) offersIn(text []byte) stockfile.Offers {
	if n != nil {
		if n.open(); n.Offers != nil && n.OffersOf == sha256.Sum256(text) {
			return n.Offers
		}
	}
	return stockfile.ReadOffers(text)
}

// page is the digest of a page that was made from the same data.
func (n *note) page(path string, from [32]byte) (sum publish.Sum, ok bool) {
	n.open()
	p, ok := n.made[path]
	return p.Sum, ok && p.Of == from
}

// unchanged is the result of a build in which nothing changed: it reads and compares bytes
// and makes nothing. It is nil if something did change.
func (n *note) unchanged(o *Options) (*Result, error) {
	if n.Young || n.LeaveOut != o.LeaveOut || o.AllFigures {
		return nil, nil
	}
	// A folder that became a link keeps the times of its files.
	if err := CheckFolder(o.From); err != nil {
		return nil, err
	}
	root := files.Below(o.From)
	read, err := unit.DigestOf(root, n.Texts)
	if err != nil || read != n.Read || !unit.Hold(root, n.Stamps) {
		return nil, nil
	}
	files, intact, err := publish.Intact(o.To, n.List, o.content())
	if err != nil || !intact {
		return nil, err
	}
	return &Result{Units: n.Count, Findings: n.findings, Published: true, Pages: n.Pages, Files: publish.Report{Unchanged: files},
		LeftOut: n.LeftOut, Withheld: n.Withheld, Address: n.Address, Example: n.Example, Undated: n.Undated, Before: true}, nil
}

// leaveNote leaves next to the target what this build knows. Where it cannot, the next build
// does everything again, and that is not a failure: the site is in its place.
func (s *Store) leaveNote(o *Options, y *Yard, r *Result, g *publish.Staging, basis [32]byte, start time.Time) {
	read, ok := y.Stock.Digest()
	// If somebody saved the look while the pages were made, only some of them have it.
	now, known := basisOf(o.Look)
	program, err := programSum()
	if !ok || !known || now != basis || err != nil {
		return
	}
	n := &note{findings: r.Findings, program: program, noteHead: noteHead{Basis: basis, Read: read, List: g.List(), LeaveOut: o.LeaveOut,
		Stamps: y.Stock.Stamps(), Count: r.Units, Pages: r.Pages, LeftOut: r.LeftOut, Withheld: r.Withheld, Address: r.Address, Example: r.Example, Undated: r.Undated, Loss: r.loss}}
	for _, stamp := range n.Stamps {
		n.Young = n.Young || young(stamp, start)
	}
	for _, p := range y.parts {
		if text, ok := p.read.Known(); ok {
			n.Texts = append(n.Texts, text)
		}
	}
	digests := g.Digests()
	for path, from := range s.madeFrom {
		if sum, ok := digests[path]; ok {
			n.Made = append(n.Made, keptPage{path, from, sum})
		}
	}
	n.Lines, n.Lexicon = s.lines, s.lexicon.Keep()
	n.Offers, n.OffersOf = stockfile.OffersOf(r.listed), digests[stockfile.JSONPath]
	if text, more, err := n.pack(y.parts); err == nil {
		_ = publish.Remember(o.To, text, more, g.Written())
	}
}
