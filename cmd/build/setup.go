package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"tarepage/internal/report"
	"tarepage/internal/starter"
	"tarepage/internal/unit"
)

// firstYard sets up a content folder with a commented yard file and one worked example. It
// writes nothing where content/ holds anything.
func (c *command) firstYard(stdout io.Writer) error {
	content := contentDir(c.from)
	there, err := anyFile(content)
	if err != nil {
		return fmt.Errorf("%q: %w", content, plainPath(err))
	}
	if there != "" {
		return fmt.Errorf("%s is there, and everything in content/ stays as it is; name another folder with -from", filepath.ToSlash(there))
	}
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	var written []string
	for _, f := range starter.Files() {
		name := filepath.Join(c.from, filepath.FromSlash(f.Name))
		if err := writeNew(name, f.Data); err != nil {
			return errors.Join(err, undo(written))
		}
		written = append(written, name)
	}
	if err := os.MkdirAll(filepath.Join(content, "media"), 0o755); err != nil {
		return errors.Join(fmt.Errorf("%q: %w", content, plainPath(err)), undo(written))
	}
	if err := help.write(); err != nil {
		return err
	}
	if !c.quiet {
		report.SetUp(stdout, slashed(append(written, help.names()...)), program(), filepath.ToSlash(c.from))
	}
	return nil
}

// anyFile is the first file below a folder, or nothing.
func anyFile(dir string) (file string, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if !d.IsDir() {
			file = path
			return fs.SkipAll
		}
		return nil
	})
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return file, err
}

func undo(written []string) error {
	var all []error
	for _, name := range written {
		all = append(all, os.Remove(name))
	}
	return errors.Join(all...)
}

func slashed(names []string) []string {
	out := slices.Clone(names)
	for i := range out {
		out[i] = filepath.ToSlash(out[i])
	}
	return out
}

// helpFiles are the editor files with where they go.
type helpFiles struct {
	dir   string
	files []unit.EditorFile
}

// helpFiles refuses to write over a file of the same name that is none of ours.
func (c *command) helpFiles() (helpFiles, error) {
	h := helpFiles{dir: c.to, files: unit.EditorFiles()}
	if c.verb != "editor-help" || !c.toGiven {
		h.dir = filepath.Join(c.from, "editor-help")
	}
	for _, name := range h.names() {
		old, err := os.ReadFile(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return h, fmt.Errorf("%q: %w", name, plainPath(err))
		case !bytes.Contains(old, []byte(unit.EditorMark)):
			return h, fmt.Errorf("%s is there and was not made by editor-help; it stays as it is: move it, or name another folder with -to", filepath.ToSlash(name))
		}
	}
	return h, nil
}

func (h helpFiles) names() []string {
	var out []string
	for _, f := range h.files {
		out = append(out, filepath.Join(h.dir, f.Name))
	}
	return out
}

func (h helpFiles) write() error {
	if err := os.MkdirAll(h.dir, 0o755); err != nil {
		return fmt.Errorf("%q: %w", h.dir, plainPath(err))
	}
	for i, name := range h.names() {
		if err := os.WriteFile(name, h.files[i].Data, 0o644); err != nil {
			return fmt.Errorf("%q: %w", name, plainPath(err))
		}
	}
	return nil
}

// editorHelp writes the JSON Schemas by which an editor completes and explains keys.
func (c *command) editorHelp(stdout io.Writer) error {
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	if err := help.write(); err != nil {
		return err
	}
	if !c.quiet {
		report.EditorHelp(stdout, slashed(help.names()))
	}
	return nil
}
