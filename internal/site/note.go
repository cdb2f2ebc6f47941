package site

import (
	"bytes"
	"encoding/json"
	"os"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/publish"
	"tarepage/internal/unit"
)

// note is the part of a Store that a build leaves next to the target. Pages are taken over
// from it only if the bytes in the target still have their digest, and the whole site only
// if everything that was read and every byte that was written is as it was.
type note struct {
	// Basis is the digest of the program, with its tables, and of the look.
	Basis []byte
	// Read is the digest of content/, and List that of the site.
	Read, List []byte
	LeaveOut   bool
	Stamps     []unit.Stamp
	// Young reports that a file was so new that its stamp may not be trusted.
	Young    bool
	Units    int
	Findings []keptFinding
	Pages    int
	LeftOut  []string // the units that were left out, by name
	Address  string   // the site's own address, if it is known
	Example  bool     // whether the site is that of the example
	Undated  []string // the units that no feed tells of
	// Made are the pages of units, by their paths.
	Made map[string]keptPage
}

// keptPage is what a page was made from, and its own digest.
type keptPage struct{ Of, Sum []byte }

// keptFinding is a finding with its rule by name. Source and Remedy are empty where they are
// the rule's.
type keptFinding struct {
	Rule           string
	Severity       inspect.Severity
	At             unit.Pos
	Unit           string
	Message        string
	Value, Limit   string       `json:",omitempty"`
	Related        []unit.Place `json:",omitempty"`
	Source, Remedy string       `json:",omitempty"`
	First          bool         `json:",omitempty"`
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

// findings are the findings as they were; false if a rule is not known.
func (n *note) findings() ([]inspect.Finding, bool) {
	out := make([]inspect.Finding, len(n.Findings))
	for i, k := range n.Findings {
		r := inspect.Lookup(k.Rule)
		if r == nil {
			return nil, false
		}
		f := inspect.Finding{Rule: r, Severity: k.Severity, At: k.At, Unit: k.Unit, Message: k.Message,
			Value: k.Value, Limit: k.Limit, Related: k.Related, Source: r.Source, Remedy: r.Remedy, First: k.First}
		if k.Source != "" {
			f.Source = k.Source
		}
		if k.Remedy != "" {
			f.Remedy = k.Remedy
		}
		out[i] = f
	}
	return out, true
}

// under is the note, if this program made it with this look, and nil otherwise.
func (e earlier) under(basis [32]byte) *note {
	if e.note == nil || !bytes.Equal(e.note.Basis, basis[:]) {
		return nil
	}
	return e.note
}

// page is the digest of a page that was made from the same.
func (n *note) page(path string, from [32]byte) (sum publish.Sum, ok bool) {
	p := n.Made[path]
	if !bytes.Equal(p.Of, from[:]) || len(p.Sum) != len(sum) {
		return sum, false
	}
	return publish.Sum(p.Sum), true
}

// unchanged is the result of a build in which nothing changed: it reads and compares bytes
// and makes nothing. It is nil if something did change.
func (n *note) unchanged(o *Options) (*Result, error) {
	if n == nil || n.Young || n.LeaveOut != o.LeaveOut || o.AllFigures || len(n.List) != len(publish.Sum{}) {
		return nil, nil
	}
	root := os.DirFS(o.From)
	read, err := unit.DigestOf(root)
	if err != nil || !bytes.Equal(read[:], n.Read) || !unit.Hold(root, n.Stamps) {
		return nil, nil
	}
	files, intact, err := publish.Intact(o.To, publish.Sum(n.List), o.content())
	if err != nil || !intact {
		return nil, err
	}
	findings, ok := n.findings()
	if !ok {
		return nil, nil
	}
	return &Result{Units: n.Units, Findings: findings, Published: true, Pages: n.Pages, Files: publish.Report{Unchanged: files},
		LeftOut: n.LeftOut, Address: n.Address, Example: n.Example, Undated: n.Undated, Before: true}, nil
}

// leaveNote leaves next to the target what this build knows. Where it cannot, the next build
// does everything again, and that is not a failure: the site is in its place.
func (s *Store) leaveNote(o *Options, y *Yard, r *Result, g *publish.Staging, basis [32]byte, start time.Time) {
	read, ok := y.Stock.Digest()
	// If somebody saved the look while the pages were made, only some of them have it.
	now, known := basisOf(o.Look)
	if !ok || !known || now != basis {
		return
	}
	list := g.List()
	n := &note{Basis: basis[:], Read: read[:], List: list[:], LeaveOut: o.LeaveOut, Stamps: y.Stock.Stamps(), Units: r.Units,
		Findings: keepFindings(r.Findings), Pages: r.Pages, LeftOut: r.LeftOut, Address: r.Address, Example: r.Example, Undated: r.Undated,
		Made: map[string]keptPage{}}
	for _, stamp := range n.Stamps {
		n.Young = n.Young || young(stamp, start)
	}
	digests := g.Digests()
	for path, from := range s.madeFrom {
		if sum, ok := digests[path]; ok {
			n.Made[path] = keptPage{from[:], sum[:]}
		}
	}
	if text, err := json.Marshal(n); err == nil {
		_ = publish.Remember(o.To, text)
	}
}
