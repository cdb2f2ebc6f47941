package files

import (
	"io/fs"
	"os"
	"path"
	"sync"
)

// Below is a folder as a file system from which no link leads out. Each folder in it is opened
// once and stays the same folder, so one that is replaced by a link while it is read leads nowhere
// either. A link within one folder is followed; whoever reads refuses links by Lstat.
func Below(folder string) fs.FS { return &below{top: folder, folders: map[string]*os.Root{}} }

// below implements fs.ReadLinkFS and fs.StatFS. Its folders are closed when nobody reads them any more.
type below struct {
	top     string
	mu      sync.Mutex
	folders map[string]*os.Root
}

// folder opens a folder, once.
func (b *below) folder(name string) (*os.Root, error) {
	b.mu.Lock()
	known := b.folders[name]
	b.mu.Unlock()
	if known != nil {
		return known, nil
	}
	opened, err := b.open(name)
	if err != nil {
		return nil, err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if known = b.folders[name]; known != nil {
		opened.Close()
		return known, nil
	}
	b.folders[name] = opened
	return opened, nil
}

func (b *below) open(name string) (*os.Root, error) {
	if name == "." {
		return os.OpenRoot(b.top)
	}
	above, err := b.folder(path.Dir(name))
	if err != nil {
		return nil, err
	}
	return above.OpenRoot(path.Base(name))
}

// in is the folder that holds a name, and the name there.
func (b *below) in(op, name string) (*os.Root, string, error) {
	if !fs.ValidPath(name) {
		return nil, "", &fs.PathError{Op: op, Path: name, Err: fs.ErrInvalid}
	}
	folder, err := b.folder(path.Dir(name))
	return folder, path.Base(name), err
}

// Open implements fs.FS.
func (b *below) Open(name string) (fs.File, error) {
	folder, base, err := b.in("open", name)
	if err != nil {
		return nil, err
	}
	f, err := folder.Open(base)
	if err != nil {
		return nil, err // and not a file that is nil
	}
	return f, nil
}

// Stat implements fs.StatFS.
func (b *below) Stat(name string) (fs.FileInfo, error) {
	folder, base, err := b.in("stat", name)
	if err != nil {
		return nil, err
	}
	return folder.Stat(base)
}

// Lstat implements fs.ReadLinkFS.
func (b *below) Lstat(name string) (fs.FileInfo, error) {
	folder, base, err := b.in("lstat", name)
	if err != nil {
		return nil, err
	}
	return folder.Lstat(base)
}

// ReadLink implements fs.ReadLinkFS.
func (b *below) ReadLink(name string) (string, error) {
	folder, base, err := b.in("readlink", name)
	if err != nil {
		return "", err
	}
	return folder.Readlink(base)
}
