package showroom

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// A batch of changes is over when it has been quiet for quietTime, and after mostTime in any
// case. An editor's save is several events, and a copy of many files goes on for a while.
const (
	quietTime = 20 * time.Millisecond
	mostTime  = 300 * time.Millisecond
)

// A watch tells that something below its folders changed. It does not tell what changed: after
// a folder was renamed, the system's events have its old path.
type watch struct {
	folders     []string // absolute
	quiet, most time.Duration
	trouble     func(error)
	// changed gets one message for each batch; one more can wait in it.
	changed chan struct{}

	system *fsnotify.Watcher
	dirs   map[string]bool // every folder that is watched for its files
}

func newWatch(folders []string, trouble func(error)) (*watch, error) {
	w := &watch{quiet: quietTime, most: mostTime, trouble: trouble, changed: make(chan struct{}, 1)}
	for _, f := range folders {
		abs, err := filepath.Abs(f)
		if err != nil {
			return nil, fmt.Errorf("cannot watch %s: %w", f, err)
		}
		w.folders = append(w.folders, abs)
	}
	if err := w.look(); err != nil {
		return nil, err
	}
	return w, nil
}

// look begins to watch the folders as they are now, with a new watcher each time. The system
// watches a folder, not its path, and not what is below it: after a folder was moved, an old
// watcher reports wrong paths, or nothing once the folder comes back.
//
// A folder is watched before it is read, so whoever reads the files after look misses
// nothing.
func (w *watch) look() error {
	system, err := fsnotify.NewWatcher()
	if err != nil {
		return fmt.Errorf("cannot watch for changes: %w", err)
	}
	var failed error
	dirs := map[string]bool{}
	enter := func(dir string) {
		if err := system.Add(dir); err != nil && !errors.Is(err, fs.ErrNotExist) && failed == nil {
			failed = fmt.Errorf("cannot watch %s, so changes in it are not noticed: %w", dir, err)
		}
	}
	for _, folder := range w.folders {
		// The folder above tells when the folder itself appears, goes or is replaced.
		enter(filepath.Dir(folder))
		root := folder
		if real, err := filepath.EvalSymlinks(folder); err == nil {
			root = real
		}
		_ = filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil || !d.IsDir():
				// Whoever makes the site will say what is gone or cannot be read.
				return nil
			case path != root && noise(path):
				return fs.SkipDir
			}
			dirs[path] = true
			enter(path)
			return nil
		})
	}
	if w.system != nil {
		_ = w.system.Close()
	}
	w.system, w.dirs = system, dirs
	if failed != nil {
		w.trouble(failed)
	}
	return nil
}

// run gathers events into batches until the context ends.
func (w *watch) run(ctx context.Context) {
	var quiet, most <-chan time.Time
	stale := false // the watched folders may not be those that exist now
	begin := func() {
		quiet = time.After(w.quiet)
		if most == nil {
			most = time.After(w.most)
		}
	}
	for {
		select {
		case <-ctx.Done():
			_ = w.system.Close()
			return
		case e := <-w.system.Events:
			if w.concerns(e) {
				stale = stale || w.dirs[e.Name] || isDir(e.Name)
				begin()
			}
			continue
		case err := <-w.system.Errors:
			// Events were lost, so look at everything again.
			if err != nil && !errors.Is(err, fsnotify.ErrEventOverflow) {
				w.trouble(fmt.Errorf("watching for changes: %w", err))
			}
			stale = true
			begin()
			continue
		case <-quiet:
		case <-most:
		}
		quiet, most = nil, nil
		if stale {
			stale = false
			if err := w.look(); err != nil {
				w.trouble(err)
			}
		}
		select {
		case w.changed <- struct{}{}:
		default:
		}
	}
}

// concerns reports whether an event can have changed the site.
func (w *watch) concerns(e fsnotify.Event) bool {
	if e.Op == fsnotify.Chmod {
		// Search indexers and backups change attributes, and the bytes stay as they are.
		return false
	}
	if w.dirs[e.Name] || slices.Contains(w.folders, e.Name) {
		return true
	}
	return w.dirs[filepath.Dir(e.Name)] && !noise(e.Name)
}

// noise reports whether a name is that of an editor's scratch file or of a hidden file. No
// file of content/ or of a look has such a name.
func noise(path string) bool {
	name := filepath.Base(path)
	return strings.HasPrefix(name, ".") || strings.HasSuffix(name, "~") || strings.HasSuffix(name, ".swp") ||
		strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#") || name == "4913"
}

func isDir(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
