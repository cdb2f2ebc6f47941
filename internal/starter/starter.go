// Package starter holds a yard to begin with: a commented yard file, one model and one unit,
// invented and sound. It sets the yard up where nothing is yet, and asks a new owner for what the
// yard file needs first. It writes the files that help an editor too.
package starter

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"tarepage/internal/files"
)

//go:embed content
var content embed.FS

// A File is one file of the yard, by its path below the folder that is to hold content/.
type File struct {
	Name string // content/units/ex-1.md
	Data []byte
}

// Files are the files of the yard in the order of their names.
func Files() []File {
	var out []File
	err := fs.WalkDir(content, "content", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := content.ReadFile(name)
		out = append(out, File{name, data})
		return err
	})
	if err != nil {
		panic(fmt.Sprintf("starter: the files in the program do not read: %v", err)) // they are part of it
	}
	return out
}

// yardFile is the file that says who sells.
const yardFile = "content/yard.md"

// SetUp writes the yard into a folder, and the editor files next to it. It writes nothing if
// content/ holds any file. If ask is not nil, it may fill in the yard file first. It returns the
// files that it wrote.
func SetUp(dir string, help *EditorHelp, ask func(yard []byte) []byte) (written []string, err error) {
	for _, f := range Files() {
		if f.Name == yardFile && ask != nil {
			f.Data = ask(f.Data)
		}
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := files.WriteNew(name, f.Data); err != nil {
			return nil, errors.Join(err, files.Remove(written))
		}
		written = append(written, name)
	}
	if err := files.MakeFolder(filepath.Join(dir, "content", "media")); err != nil {
		return nil, errors.Join(err, files.Remove(written))
	}
	if err := help.Write(); err != nil {
		return nil, err
	}
	return append(written, help.Names()...), nil
}

// CheckEmpty refuses a folder in which content/ holds any file.
func CheckEmpty(dir string) error {
	found, err := files.First(filepath.Join(dir, "content"))
	if err == nil && found != "" {
		err = fmt.Errorf("%s exists, and everything in content/ stays as it is; name another folder with -from", filepath.ToSlash(found))
	}
	return err
}
