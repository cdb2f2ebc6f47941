package starter

import (
	"bytes"
	"fmt"
	"path/filepath"

	"tarepage/internal/files"
	"tarepage/internal/unit"
)

// EditorHelp is a folder for the JSON Schemas with which an editor completes and explains keys.
type EditorHelp struct {
	dir   string
	files []unit.EditorFile
}

// NewEditorHelp refuses to overwrite a file of the same name that editor-help did not make.
func NewEditorHelp(dir string) (*EditorHelp, error) {
	h := &EditorHelp{dir: dir, files: unit.EditorFiles()}
	for _, name := range h.Names() {
		if err := files.NoLinks(filepath.Dir(filepath.Clean(dir)), name); err != nil {
			return nil, err
		}
		old, err := files.Read(name)
		if err != nil {
			return nil, err
		}
		if old != nil && !bytes.Contains(old, []byte(unit.EditorMark)) {
			return nil, fmt.Errorf("%s exists and editor-help did not make it, so it stays as it is; move it, or name another folder with -to", filepath.ToSlash(name))
		}
	}
	return h, nil
}

// Names are the files, with the folder.
func (h *EditorHelp) Names() []string {
	var out []string
	for _, f := range h.files {
		out = append(out, filepath.Join(h.dir, f.Name))
	}
	return out
}

// Write writes the files.
func (h *EditorHelp) Write() error {
	if err := files.MakeFolder(h.dir); err != nil {
		return err
	}
	for i, name := range h.Names() {
		if err := files.Replace(name, h.files[i].Data); err != nil {
			return err
		}
	}
	return nil
}
