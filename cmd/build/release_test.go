package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/starter"
)

// TestRelease builds the binary as README.md says, and runs it in a folder that holds only
// content/: without Go, source or environment.
func TestRelease(t *testing.T) {
	long(t)
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	const line = "CGO_ENABLED=0 go build -trimpath -o tarepage ./cmd/build"
	if !strings.Contains(string(readme), "\n    "+line+"\n") {
		t.Fatalf("README.md does not say %q", line)
	}
	home := t.TempDir()
	binary := filepath.Join(home, "tarepage")
	cmd := exec.Command("go", "build", "-trimpath", "-o", binary, "./cmd/build")
	cmd.Dir = "../.."
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	data, err := os.ReadFile(binary)
	if err != nil {
		t.Fatal(err)
	}
	here, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(data, []byte(here)) {
		t.Errorf("the binary names %s, the folder in which it was built", here)
	}
	dir := t.TempDir()
	run := func(args ...string) string {
		cmd := exec.Command(binary, args...)
		cmd.Dir, cmd.Env = dir, []string{}
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
		return string(out)
	}
	for _, f := range starter.Files() {
		name := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if out := run("inspect"); !strings.Contains(out, "0 stops, 0 cautions, 0 remarks") {
		t.Errorf("inspect says %s", out)
	}
	run()
	if out := run(); !strings.Contains(out, "nothing changed") {
		t.Errorf("the second build says %s", out)
	}
	checkWhole(t, filepath.Join(dir, "public"))
	if out := run("rule", "tires-under-axle"); !strings.Contains(out, "3,641 lb") {
		t.Errorf("rule says %s", out)
	}
	if out := run("help"); !strings.HasPrefix(out, "tarepage makes") {
		t.Errorf("help says %s", out)
	}
	out := run("-version")
	if !strings.HasPrefix(out, "tarepage ") || !strings.Contains(out, "tires ") {
		t.Errorf("-version says %s", out)
	}
	t.Logf("%d MB\n%s", len(data)>>20, out)
	// It is static: it names no interpreter. A program that is linked when it starts has a
	// PT_INTERP (ELF, System V ABI, "Program Header").
	if file, err := exec.LookPath("readelf"); err == nil {
		headers, err := exec.Command(file, "-l", binary).CombinedOutput()
		if err != nil || strings.Contains(string(headers), "INTERP") {
			t.Errorf("readelf: %v\n%s", err, headers)
		}
	}
}
