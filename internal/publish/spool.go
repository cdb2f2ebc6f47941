package publish

import (
	"bufio"
	"os"
	"path/filepath"
)

// A Spool is a file of the site that is written piece by piece, next to the site, because it
// is too large to be held in memory. It belongs to the site once Add has taken it.
type Spool struct {
	g    *Staging
	path string
	f    *os.File
	w    *bufio.Writer
}

const spoolName = "spool"

// Spool begins a file of the site. Finish and Abandon remove what is
// left of it.
func (g *Staging) Spool(path string) (*Spool, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if err := g.contain(); err != nil {
		return nil, g.unwritten(path, err)
	}
	dir := filepath.Join(g.container, spoolName)
	if err := g.s.mkdirAll(dir, g.folders); err != nil {
		return nil, g.unwritten(path, err)
	}
	f, err := os.CreateTemp(dir, "")
	if err != nil {
		return nil, g.unwritten(path, err)
	}
	spool := &Spool{g, path, f, bufio.NewWriterSize(f, 64<<10)}
	g.spools = append(g.spools, spool)
	return spool, nil
}

// closeSpools closes what was begun and not added: Windows removes no file that is open.
func (g *Staging) closeSpools() {
	for _, s := range g.spools {
		s.f.Close() // one that was added is closed already
	}
}

// Write writes the next bytes.
func (s *Spool) Write(p []byte) (int, error) {
	n, err := s.w.Write(p)
	if err != nil {
		err = s.g.unwritten(s.path, err)
	}
	return n, err
}

// Add puts what was written into the site, as AddFile does.
func (s *Spool) Add() error {
	err := s.w.Flush()
	if failed := s.f.Close(); err == nil {
		err = failed
	}
	if err != nil {
		return s.g.unwritten(s.path, err)
	}
	return s.g.AddFile(s.path, s.f.Name())
}
