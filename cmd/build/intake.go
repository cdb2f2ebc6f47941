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

	"tarepage/internal/files"
	"tarepage/internal/intake"
	"tarepage/internal/report"
	"tarepage/internal/site"
	"tarepage/internal/unit"
)

// checkIntake refuses an intake that does not say what to read or where to write.
func (c *command) checkIntake() error {
	switch {
	case c.name == "":
		return fmt.Errorf("intake needs the captions after it: intake walk.vtt -stock SB-1050")
	case c.given["into"] && c.given["stock"]:
		return fmt.Errorf("intake -into takes no -stock: the file has its number, and nothing is written")
	case c.given["into"]:
		return nil
	case !c.given["stock"]:
		return fmt.Errorf("intake needs the yard's number for the unit: -stock SB-1050, or -into FILE to compare with a file that exists")
	case !unit.NamesPage(c.stock):
		return fmt.Errorf("stock number %q cannot name a page; use %s", c.stock, unit.StockForm)
	}
	return nil
}

// intake makes the first unit file of a recording, or compares the recording with a unit
// file that exists.
func (c *command) intake(stdout io.Writer) (int, error) {
	h, err := c.captions()
	if err != nil {
		return failed, err
	}
	talk, err := intake.Listen(h.name, h.src)
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
	if info, err := os.Stat(contentDir(c.from)); err != nil || !info.IsDir() {
		return failed, fmt.Errorf("in %q: no content/ here; name the folder that holds content/ with -from", c.from)
	}
	return clean, c.draft(talk, h, stdout)
}

// draft writes the unit file, and says what it was made from.
func (c *command) draft(talk *intake.Talk, h heard, stdout io.Writer) error {
	name := filepath.Join(contentDir(c.from), "units", strings.ToLower(c.stock)+".md")
	kept, err := c.keep(h, name)
	if err != nil {
		return err
	}
	captionsName, inPlace := c.captionsName()
	sheet := talk.Sheet(c.stock, captionsName)
	shown := filepath.ToSlash(name)
	err = files.WriteNew(name, sheet.Text)
	if errors.Is(err, files.ErrExists) {
		return fmt.Errorf("%s exists and stays as it is; compare with -into %s, or give another stock number", shown, shown)
	} else if err != nil {
		return err
	}
	if err := report.Heard(stdout, talk, sheet, c.quiet); err != nil || c.quiet {
		return err
	}
	put := ""
	if !inPlace {
		put = filepath.ToSlash(filepath.Join(contentDir(c.from), filepath.FromSlash(captionsName)))
	}
	if kept != "" {
		fmt.Fprintf(stdout, "wrote %s\n", kept)
	}
	report.Written(stdout, shown, put, program(), filepath.ToSlash(c.from))
	return nil
}

// captionsName is the path below content/ by which the unit names its captions, and whether
// the file is there already. One that is elsewhere is expected in media/.
func (c *command) captionsName() (name string, inPlace bool) {
	content, err1 := filepath.Abs(contentDir(c.from))
	file, err2 := filepath.Abs(c.name)
	if err1 == nil && err2 == nil {
		if rel, err := filepath.Rel(content, file); err == nil && fs.ValidPath(filepath.ToSlash(rel)) {
			return filepath.ToSlash(rel), true
		}
	}
	return path.Join("media", filepath.Base(c.name)), false
}

// existing reads the unit of -into: with its model if it is in the yard, else by itself.
func (c *command) existing() (*unit.Unit, error) {
	u, err := c.inYard()
	if u == nil && err == nil {
		src, failed := files.ReadUpTo(c.into, unit.MostBytes)
		if failed != nil {
			return nil, fmt.Errorf("-into %w", failed)
		}
		u, _ = unit.ReadUnit(filepath.ToSlash(c.into), src)
	}
	if err == nil && u.Broken {
		err = fmt.Errorf("-into %q cannot be read as a unit file; inspect says why", c.into)
	}
	return u, err
}

// inYard is the unit of -into in the yard, or nil if its file is somewhere else.
func (c *command) inYard() (*unit.Unit, error) {
	units, err1 := filepath.Abs(filepath.Join(contentDir(c.from), "units"))
	file, err2 := filepath.Abs(c.into)
	if err1 != nil || err2 != nil || filepath.Dir(file) != units {
		return nil, nil
	}
	stock, _, err := unit.Read(os.DirFS(c.from))
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", c.from, err)
	}
	for _, u := range stock.Units {
		if path.Base(u.File) == filepath.Base(file) {
			return u, nil
		}
	}
	return nil, nil
}
