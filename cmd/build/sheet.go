package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"tarepage/internal/amend"
	"tarepage/internal/files"
	"tarepage/internal/report"
	"tarepage/internal/spreadsheet"
	"tarepage/internal/unit"
)

// checkSheet refuses a sheet verb that does not say what to read.
func (c *command) checkSheet() error {
	if c.name == "" {
		return errors.New("sheet needs the spreadsheet after it: sheet stock.xlsx")
	}
	return nil
}

// sheet says what the yard's spreadsheet would do to the yard, and does it with -apply.
func (c *command) sheet(stdout io.Writer) (int, error) {
	data, err := files.ReadUpTo(c.name, spreadsheet.MaxBytes)
	if err != nil {
		return failed, fmt.Errorf("sheet %w", err)
	}
	if len(data) > spreadsheet.MaxBytes {
		return failed, fmt.Errorf("sheet %q has more than %d MB; save it without pictures", c.name, spreadsheet.MaxBytes>>20)
	}
	table, err := spreadsheet.Read(filepath.Base(c.name), data)
	if err != nil {
		return failed, err
	}
	stock, _, err := unit.Read(os.DirFS(c.from))
	if err != nil {
		return failed, fmt.Errorf("in %q: %w", c.from, err)
	}
	keptFile := filepath.Join(contentDir(c.from), spreadsheet.KeptName)
	kept, err := readKept(keptFile)
	if err != nil {
		return failed, err
	}
	columns := spreadsheet.Match(table.Header, kept)
	plan := spreadsheet.Make(table, columns, stock.Units)
	if c.apply {
		if err := c.applySheet(&plan, keptFile); err != nil {
			return failed, err
		}
	}
	return clean, report.Planned(stdout, &plan, c.apply, program(), c.from, c.name)
}

func readKept(name string) (map[string]string, error) {
	text, err := files.Read(name)
	if err != nil || text == nil {
		return nil, err
	}
	return spreadsheet.ParseKept(text)
}

// applySheet writes the new units and the edits. Nothing is written if one of them cannot be.
func (c *command) applySheet(plan *spreadsheet.Plan, keptFile string) error {
	changed, before := map[string][]byte{}, map[string][]byte{}
	var order []string
	for _, e := range plan.Edits {
		name := filepath.Join(c.from, filepath.FromSlash(e.File))
		if before[name] == nil {
			text, err := files.Read(name)
			if err != nil {
				return err
			}
			before[name], changed[name] = text, text
			order = append(order, name)
		}
		text, err := amend.Apply(changed[name], []amend.Change{e.Change})
		if err != nil {
			return fmt.Errorf("%s: %w", e.File, err)
		}
		changed[name] = text
	}
	var written []string
	for _, n := range plan.New {
		name := filepath.Join(c.from, filepath.FromSlash(n.File))
		if err := files.WriteNew(name, n.Text); err != nil {
			return errors.Join(err, files.Remove(written))
		}
		written = append(written, name)
	}
	for _, name := range order {
		if err := files.ReplaceKeeping(c.from, name, before[name], changed[name]); err != nil {
			return err
		}
	}
	return files.Replace(keptFile, spreadsheet.Kept(plan.Columns))
}
