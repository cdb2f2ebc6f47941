// Package starter holds a yard to begin with: a commented yard file, one model and one
// unit, invented and sound. It writes nothing and knows no other package; the caller
// puts the files where nothing is yet.
package starter

import (
	"embed"
	"fmt"
	"io/fs"
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
