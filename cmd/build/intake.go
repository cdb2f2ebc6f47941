package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/intake"
	"tarepage/internal/report"
	"tarepage/internal/site"
	"tarepage/internal/unit"
)

// intake makes the first unit file of a recording, or holds the recording against a unit
// file that is there.
func (c *command) intake(stdout io.Writer) (int, error) {
	src, err := readUpTo(c.name, captions.MaxBytes)
	if err != nil {
		return failed, fmt.Errorf("captions %w", err)
	}
	talk, err := intake.Listen(filepath.Base(c.name), src)
	if err != nil {
		return failed, err
	}
	if c.into != "" {
		u, err := c.existing()
		if err != nil {
			return failed, err
		}
		return clean, report.Compared(stdout, talk, talk.Against(u), c.quiet)
	}
	if err := site.CheckFolder(c.from); err != nil {
		return failed, err
	}
	content := contentDir(c.from)
	if info, err := os.Stat(content); err != nil || !info.IsDir() {
		return failed, fmt.Errorf("in %q: no content here; name the folder that holds content/ with -from", c.from)
	}
	named, there := c.namedCaptions()
	sheet := talk.Sheet(c.stock, named)
	file := "content/units/" + strings.ToLower(c.stock) + ".md"
	if err := writeNew(filepath.Join(c.from, filepath.FromSlash(file)), sheet.Text); err != nil {
		return failed, err
	}
	if err := report.Heard(stdout, talk, sheet, c.quiet); err != nil {
		return failed, err
	}
	if !c.quiet {
		put := ""
		if !there {
			put = filepath.ToSlash(filepath.Join(content, filepath.FromSlash(named)))
		}
		report.Written(stdout, filepath.ToSlash(filepath.Join(c.from, filepath.FromSlash(file))), put, program(), filepath.ToSlash(c.from))
	}
	return clean, nil
}

// namedCaptions is the path below content/ by which the unit names its captions, and
// whether the file stands there already. One that stands elsewhere is expected in media/.
func (c *command) namedCaptions() (name string, there bool) {
	content, err1 := filepath.Abs(contentDir(c.from))
	file, err2 := filepath.Abs(c.name)
	if err1 == nil && err2 == nil {
		if rel, err := filepath.Rel(content, file); err == nil && fs.ValidPath(filepath.ToSlash(rel)) {
			return filepath.ToSlash(rel), true
		}
	}
	return path.Join("media", filepath.Base(c.name)), false
}

// existing reads the unit of -into: with its model if it stands in the yard, else alone.
func (c *command) existing() (*unit.Unit, error) {
	if units, err := filepath.Abs(filepath.Join(contentDir(c.from), "units")); err == nil {
		if file, err := filepath.Abs(c.into); err == nil && filepath.Dir(file) == units {
			stock, _, err := unit.Read(os.DirFS(c.from))
			if err != nil {
				return nil, fmt.Errorf("in %q: %w", c.from, err)
			}
			for _, u := range stock.Units {
				if path.Base(u.File) == filepath.Base(file) {
					return readable(u, c.into)
				}
			}
		}
	}
	src, err := readUpTo(c.into, unit.MostBytes)
	if err != nil {
		return nil, fmt.Errorf("-into %w", err)
	}
	u, _ := unit.ReadUnit(filepath.ToSlash(c.into), src)
	return readable(u, c.into)
}

func readable(u *unit.Unit, name string) (*unit.Unit, error) {
	if u.Broken {
		return nil, fmt.Errorf("-into %q does not read as a unit file; inspect says why", name)
	}
	return u, nil
}

// readUpTo reads a file, and one byte more than most of one that is larger, so that
// whoever judges it sees that it is.
func readUpTo(name string, most int64) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("%q: %w", name, plainPath(err))
	}
	defer f.Close()
	src, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, fmt.Errorf("%q: %w", name, plainPath(err))
	}
	return src, nil
}

// plainPath is the reason alone: the name is said in front of it.
func plainPath(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// writeNew writes a file that is not there. One that is there stays as it is, and a file
// that could not be written whole is taken away again.
func writeNew(name string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return fmt.Errorf("%q: %w", name, plainPath(err))
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there and stays as it is; -into %s compares, or give another stock number", filepath.ToSlash(name), filepath.ToSlash(name))
	} else if err != nil {
		return fmt.Errorf("%q: %w", name, plainPath(err))
	}
	_, err = f.Write(text)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return errors.Join(fmt.Errorf("%q: %w", name, plainPath(err)), os.Remove(name))
	}
	return nil
}
