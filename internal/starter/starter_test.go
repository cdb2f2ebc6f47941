package starter

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// TestSetUp writes a first yard that reads without a fault, once, and leaves alone what it did
// not write.
func TestSetUp(t *testing.T) {
	dir := t.TempDir()
	if err := CheckEmpty(dir); err != nil {
		t.Fatal(err)
	}
	help, err := NewEditorHelp(filepath.Join(dir, "editor-help"))
	if err != nil {
		t.Fatal(err)
	}
	written, err := SetUp(dir, help, func(yard []byte) []byte { return bytes.Replace(yard, []byte("Your Town"), []byte("Quillfern"), 1) })
	if err != nil || len(written) != len(Files())+len(unit.EditorFiles()) {
		t.Errorf("%q, %v", written, err)
	}
	stock, problems, err := unit.Read(os.DirFS(dir))
	if err != nil || len(problems) > 0 || len(stock.Units) == 0 {
		t.Errorf("%v, %v", problems, err)
	}
	if yard, _ := os.ReadFile(filepath.Join(dir, yardFile)); !bytes.Contains(yard, []byte("Quillfern")) {
		t.Errorf("the answers are not in the yard's file:\n%s", yard)
	}
	for _, name := range append(written, filepath.Join(dir, "content", "media")) {
		if _, err := os.Stat(name); err != nil {
			t.Error(err)
		}
	}
	if err := CheckEmpty(dir); err == nil || !strings.Contains(err.Error(), "stays as it is") {
		t.Errorf("a second time: %v", err)
	}
	if again, err := SetUp(dir, help, nil); err == nil || again != nil {
		t.Errorf("over what is there: %q, %v", again, err)
	}
	if err := help.Write(); err != nil {
		t.Errorf("its own files are not written again: %v", err)
	}
	if err := os.WriteFile(help.Names()[0], []byte("{}"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := NewEditorHelp(filepath.Join(dir, "editor-help")); err == nil || !strings.Contains(err.Error(), "editor-help did not make it") {
		t.Errorf("over a file of somebody else: %v", err)
	}
}

// TestSetUpTakesBack: where a file is in the way, the files written before it are taken away
// again, and what was there stays.
func TestSetUpTakesBack(t *testing.T) {
	all := Files()
	asked := false
	for _, blocked := range []string{all[len(all)-1].Name, "content/media", "editor-help"} {
		dir := t.TempDir()
		in := filepath.Join(dir, filepath.FromSlash(blocked))
		if err := os.MkdirAll(filepath.Dir(in), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(in, []byte("mine"), 0o644); err != nil {
			t.Fatal(err)
		}
		help := &EditorHelp{dir: filepath.Join(dir, "editor-help"), files: unit.EditorFiles()}
		written, err := SetUp(dir, help, func(yard []byte) []byte {
			asked = bytes.Contains(yard, []byte("Your Town"))
			return yard
		})
		if err == nil || written != nil || !asked {
			t.Errorf("%s is in the way: %q, %v; the yard's file was asked for: %v", blocked, written, err, asked)
		}
		if got, err := os.ReadFile(in); err != nil || string(got) != "mine" {
			t.Errorf("%s became %q, %v", blocked, got, err)
		}
		if blocked == "editor-help" {
			continue // the yard is there and whole; only the help is missing
		}
		for _, f := range all {
			if _, err := os.Stat(filepath.Join(dir, filepath.FromSlash(f.Name))); err == nil && f.Name != blocked {
				t.Errorf("%s was in the way, and %s is left", blocked, f.Name)
			}
		}
	}
	// A folder under the name of a file of the help cannot be looked into.
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, unit.EditorFiles()[0].Name), 0o755); err != nil {
		t.Fatal(err)
	}
	if help, err := NewEditorHelp(dir); err == nil || help != nil {
		t.Errorf("%+v, %v", help, err)
	}
	if err := (&EditorHelp{dir: dir, files: unit.EditorFiles()}).Write(); err == nil {
		t.Error("a folder was written over")
	}
}

// TestEditorHelpFollowsNoLink: the help is not written where a link leads.
func TestEditorHelpFollowsNoLink(t *testing.T) {
	dir, outside := t.TempDir(), t.TempDir()
	link := filepath.Join(dir, "editor-help")
	if err := os.Symlink(outside, link); err != nil {
		t.Skip(err)
	}
	if _, err := NewEditorHelp(link); err == nil || !strings.Contains(err.Error(), "is a link to another place") {
		t.Error(err)
	}
}
