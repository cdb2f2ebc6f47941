package main

import (
	"io"
	"os"
	"path/filepath"

	"golang.org/x/term"

	"tarepage/internal/report"
	"tarepage/internal/starter"
)

// firstYard sets up a content folder with a commented yard file and one worked example.
func (c *command) firstYard(stdout io.Writer) error {
	if err := starter.CheckEmpty(c.from); err != nil {
		return err
	}
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	var ask func(yard []byte) []byte
	if !c.quiet && atTerminal(stdout) {
		ask = func(yard []byte) []byte { return starter.Ask(os.Stdin, stdout, yard) }
	}
	written, err := starter.SetUp(c.from, help, ask)
	if err != nil {
		return err
	}
	if !c.quiet {
		report.SetUp(stdout, names(written, filepath.ToSlash), program(), filepath.ToSlash(c.from))
	}
	return nil
}

// atTerminal reports whether somebody sits at a terminal and can answer a question.
func atTerminal(stdout io.Writer) bool {
	return stdout == io.Writer(os.Stdout) && term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stdout.Fd()))
}

// helpFiles are the editor files, in the folder for them.
func (c *command) helpFiles() (*starter.EditorHelp, error) {
	dir := c.to
	if c.verb != "editor-help" || !c.given["to"] {
		dir = filepath.Join(c.from, "editor-help")
	}
	return starter.NewEditorHelp(dir)
}

// editorHelp writes the JSON Schemas with which an editor completes and explains keys.
func (c *command) editorHelp(stdout io.Writer) error {
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	if err := help.Write(); err != nil {
		return err
	}
	if !c.quiet {
		report.EditorHelp(stdout, names(help.Names(), filepath.ToSlash))
	}
	return nil
}
