package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

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
	table, err := spreadsheet.ReadFile(c.name)
	if err != nil {
		return failed, err
	}
	stock, _, err := unit.Read(files.Below(c.from))
	if err != nil {
		return failed, fmt.Errorf("in %q: %w", c.from, err)
	}
	plan, err := spreadsheet.For(c.from, table, stock, c.models)
	if err != nil {
		return failed, err
	}
	if c.anyway != "" {
		stocks := strings.FieldsFunc(c.anyway, func(r rune) bool { return r == ',' || r == ' ' })
		if err := plan.Anyway(stocks); err != nil {
			return failed, err
		}
	}
	if c.apply {
		if err := plan.Write(c.from); err != nil {
			return failed, err
		}
	}
	return clean, report.Planned(stdout, &plan, c.apply, program(), c.from, c.name)
}
