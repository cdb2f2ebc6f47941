package publish

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// recover clears up after builds that were killed. The lock must be held: whatever
// is found then belongs to no build under way.
//
// It goes by more than the names. A container has the mark in it, or is empty, which
// is a build killed before it wrote the mark; a folder put aside has our list.
// Anything else under such a name is somebody's own and stays as it is.
func (s *swapper) recover(p place) error {
	entries, err := os.ReadDir(p.parent)
	if err != nil {
		return p.refuse(chooseAnother, "cannot be replaced, because the folder around it cannot be read (%w)", cause(err))
	}
	var containers, aside []string
	for _, e := range entries {
		full := filepath.Join(p.parent, e.Name())
		switch {
		case !e.IsDir():
		case isNumbered(e.Name(), "."+p.base+".staging-"):
			if _, err := os.Lstat(filepath.Join(full, markName)); err == nil {
				containers = append(containers, full)
			} else {
				os.Remove(full) // removes an empty folder only
			}
		case isNumbered(e.Name(), "."+p.base+".old-"):
			h, err := p.survey(full)
			if err != nil {
				return err
			}
			if h.listed != nil {
				aside = append(aside, full)
			}
		}
	}

	if _, err := os.Lstat(p.real()); errors.Is(err, fs.ErrNotExist) && len(aside) > 0 {
		if len(aside) > 1 {
			return p.refuse("rename the right one to "+p.base+" and move the others away",
				"is missing, and killed builds left more than one old site: %s", few(names(aside)))
		}
		if err := s.step("restore"); err != nil {
			return err
		}
		if err := rename(aside[0], p.real()); err != nil {
			return err
		}
		aside = nil
	}
	for _, dir := range aside {
		if err := p.refuseLeft(dir); err != nil {
			return err
		}
		container, err := s.contain(p, dir)
		if err != nil {
			return err
		}
		containers = append(containers, container)
	}
	for _, container := range containers {
		if err := p.refuseLeft(filepath.Join(container, siteName)); err != nil {
			return err
		}
		if err := s.discard(container); err != nil {
			return err
		}
	}
	return nil
}

// isNumbered reports whether name is the prefix and the number os.MkdirTemp makes.
func isNumbered(name, prefix string) bool {
	number, ok := strings.CutPrefix(name, prefix)
	return ok && number != "" && strings.Trim(number, "0123456789") == ""
}

func names(paths []string) []string {
	var bases []string
	for _, path := range paths {
		bases = append(bases, filepath.Base(path))
	}
	return bases
}

// refuseLeft refuses to remove a site that somebody put a file into. A site without
// a list was never finished, and lies where nobody else writes.
func (p place) refuseLeft(dir string) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	h, err := p.survey(dir)
	if err != nil {
		return err
	}
	if h.listed == nil {
		return nil
	}
	return h.refuseStrangers(dir + ", which a killed build left,")
}

// contain moves an old site into a container, so that being killed while it is
// removed does not leave half of it under the name of a whole one.
func (s *swapper) contain(p place, dir string) (string, error) {
	if err := s.step("make container"); err != nil {
		return "", err
	}
	container, err := os.MkdirTemp(p.parent, "."+p.base+".staging-*")
	if err != nil {
		return "", err
	}
	if _, err := s.write(filepath.Join(container, markName), content{}); err != nil {
		return "", errors.Join(err, s.discard(container))
	}
	if err := s.step("rename old"); err != nil {
		return "", errors.Join(err, s.discard(container))
	}
	if err := rename(dir, filepath.Join(container, siteName)); err != nil {
		return "", errors.Join(err, s.discard(container))
	}
	return container, nil
}

// discard removes a container, the mark last: a build killed here leaves something
// the next one still knows.
func (s *swapper) discard(container string) error {
	if container == "" {
		return nil
	}
	if err := s.step("remove site"); err != nil {
		return err
	}
	for _, name := range []string{siteName, spoolName} {
		if err := os.RemoveAll(filepath.Join(container, name)); err != nil {
			return err
		}
	}
	for _, name := range []string{listName, markName, ""} {
		if err := s.step("remove " + name); err != nil {
			return err
		}
		if err := os.Remove(filepath.Join(container, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}
