package main

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// snapshot DIR FILE writes the name, size, modification time and hash of every file below DIR,
// so that a script can compare two moments with cmp.
func snapshot(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: snapshot DIR FILE")
	}
	var b strings.Builder
	dir := ts.MkAbs(args[0])
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%s %d %s %x\n", filepath.ToSlash(rel), len(data), info.ModTime().UTC().Format(time.RFC3339Nano), sha256.Sum256(data))
		return nil
	})
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(b.String()), 0o644))
}

// status N PROGRAM ARGS... runs a program, which must end with the exit status N.
func exitStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N PROGRAM ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// replace FILE OLD NEW replaces OLD, which FILE must have exactly once; \n in NEW is a new
// line.
func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace FILE OLD NEW")
	}
	path := ts.MkAbs(args[0])
	data, err := os.ReadFile(path)
	ts.Check(err)
	if n := strings.Count(string(data), args[1]); n != 1 {
		ts.Fatalf("%s holds %q %d times, want once", args[0], args[1], n)
	}
	ts.Check(os.WriteFile(path, []byte(strings.Replace(string(data), args[1], strings.ReplaceAll(args[2], `\n`, "\n"), 1)), 0o644))
}

// windows FILE gives a file the line ends and the byte order mark of an editor on Windows, and
// unix FILE removes them.
func lineEnds(to string) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if neg || len(args) != 1 {
			ts.Fatalf("usage: %s FILE", to)
		}
		path := ts.MkAbs(args[0])
		data, err := os.ReadFile(path)
		ts.Check(err)
		text := strings.ReplaceAll(strings.TrimPrefix(string(data), "\ufeff"), "\r\n", "\n")
		if to == "windows" {
			text = "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n")
		}
		ts.Check(os.WriteFile(path, []byte(text), 0o644))
	}
}

// pause waits, so that the next write has a later modification time.
func pause(ts *testscript.TestScript, _ bool, _ []string) { time.Sleep(20 * time.Millisecond) }

// demoYard copies the demo yard into a folder: yard DIR.
func demoYard(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.CopyFS(ts.MkAbs(filepath.Join(args[0], "content")), os.DirFS(filepath.Join(ts.Getenv("DEMO"), "content"))))
}
