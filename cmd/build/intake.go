package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"tarepage/internal/files"
	"tarepage/internal/intake"
	"tarepage/internal/recording"
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
	heard, err := recording.Read(c.name, c.captionsBy)
	if err != nil {
		return failed, err
	}
	talk, err := unit.InTime(unit.MostJudgingTime, func() (*intake.Talk, error) { return intake.Listen(heard.Name, heard.Text) })
	if err != nil {
		return failed, err
	}
	if c.into != "" {
		u, err := site.UnitIn(c.from, c.into)
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
	return clean, c.draft(talk, heard, stdout)
}

// draft writes the unit file, and says what it was made from.
func (c *command) draft(talk *intake.Talk, heard recording.Captions, stdout io.Writer) error {
	name := filepath.Join(contentDir(c.from), "units", strings.ToLower(c.stock)+".md")
	shown := filepath.ToSlash(name)
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s exists and stays as it is; compare with -into %s, or give another stock number", shown, shown)
	}
	if err := files.NoLinks(c.from, name); err != nil {
		return err
	}
	kept, err := heard.Keep(contentDir(c.from))
	if err != nil {
		return err
	}
	captions, inPlace := heard.In(contentDir(c.from))
	sheet := talk.Sheet(c.stock, captions)
	if err := files.WriteNew(name, sheet.Text); err != nil {
		return err
	}
	if err := report.Heard(stdout, talk, sheet, c.quiet); err != nil || c.quiet {
		return err
	}
	put := ""
	if !inPlace {
		put = filepath.ToSlash(filepath.Join(contentDir(c.from), filepath.FromSlash(captions)))
	}
	if kept {
		fmt.Fprintf(stdout, "wrote %s\n", filepath.ToSlash(heard.File))
	}
	report.Written(stdout, shown, put, program(), filepath.ToSlash(c.from))
	return nil
}
