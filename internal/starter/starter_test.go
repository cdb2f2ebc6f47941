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
