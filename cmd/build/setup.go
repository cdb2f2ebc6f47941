package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"tarepage/internal/files"
	"tarepage/internal/report"
	"tarepage/internal/starter"
	"tarepage/internal/unit"
)

// yardFile is the file that says who sells, below the folder that holds content/.
const yardFile = "content/yard.md"

// firstYard sets up a content folder with a commented yard file and one worked example. It
// writes nothing if content/ holds any file.
func (c *command) firstYard(stdout io.Writer) error {
	content := contentDir(c.from)
	found, err := files.First(content)
	if err != nil {
		return err
	}
	if found != "" {
		return fmt.Errorf("%s exists, and everything in content/ stays as it is; name another folder with -from", filepath.ToSlash(found))
	}
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	var written []string
	for _, f := range starter.Files() {
		if f.Name == yardFile && !c.quiet && atTerminal(stdout) {
			f.Data = askFirst(os.Stdin, stdout, f.Data)
		}
		name := filepath.Join(c.from, filepath.FromSlash(f.Name))
		if err := files.WriteNew(name, f.Data); err != nil {
			return errors.Join(err, files.Remove(written))
		}
		written = append(written, name)
	}
	if err := files.MakeFolder(filepath.Join(content, "media")); err != nil {
		return errors.Join(err, files.Remove(written))
	}
	if err := help.write(); err != nil {
		return err
	}
	if !c.quiet {
		report.SetUp(stdout, names(append(written, help.names()...), filepath.ToSlash), program(), filepath.ToSlash(c.from))
	}
	return nil
}

// helpFiles are the editor files and the folder for them.
type helpFiles struct {
	dir   string
	files []unit.EditorFile
}

// helpFiles refuses to overwrite a file of the same name that editor-help did not make.
func (c *command) helpFiles() (helpFiles, error) {
	h := helpFiles{dir: c.to, files: unit.EditorFiles()}
	if c.verb != "editor-help" || !c.given["to"] {
		h.dir = filepath.Join(c.from, "editor-help")
	}
	for _, name := range h.names() {
		old, err := files.Read(name)
		if err != nil {
			return h, err
		}
		if old != nil && !bytes.Contains(old, []byte(unit.EditorMark)) {
			return h, fmt.Errorf("%s exists and editor-help did not make it, so it stays as it is; move it, or name another folder with -to", filepath.ToSlash(name))
		}
	}
	return h, nil
}

func (h helpFiles) names() []string {
	return names(h.files, func(f unit.EditorFile) string { return filepath.Join(h.dir, f.Name) })
}

func (h helpFiles) write() error {
	if err := files.MakeFolder(h.dir); err != nil {
		return err
	}
	for i, name := range h.names() {
		if err := files.Replace(name, h.files[i].Data); err != nil {
			return err
		}
	}
	return nil
}

// editorHelp writes the JSON Schemas with which an editor completes and explains keys.
func (c *command) editorHelp(stdout io.Writer) error {
	help, err := c.helpFiles()
	if err != nil {
		return err
	}
	if err := help.write(); err != nil {
		return err
	}
	if !c.quiet {
		report.EditorHelp(stdout, names(help.names(), filepath.ToSlash))
	}
	return nil
}
