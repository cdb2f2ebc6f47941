package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tarepage/internal/testyard"
)

// long skips a test that takes minutes unless TAREPAGE_LONG is set; .ci/nightly sets it.
func long(t *testing.T) {
	t.Helper()
	if os.Getenv("TAREPAGE_LONG") == "" {
		t.Skip("set TAREPAGE_LONG=1 to run it; .ci/nightly does")
	}
}

// binary builds the command for a test that runs it as a process.
func binary(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "build.exe")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return path
}

var ofOneTrailer = regexp.MustCompile(`(?m)^(?:serial:.*|proof:(?:\n[ -].*)*)\n`)

// bigYard writes a yard of n units, which are copies of the demo's with other stock numbers.
func bigYard(t *testing.T, dir string, n int) {
	t.Helper()
	copyDir(t, "../../content", filepath.Join(dir, "content"))
	units, err := filepath.Glob("../../content/units/*.md")
	if err != nil || len(units) == 0 {
		t.Fatalf("the demo has no units: %v", err)
	}
	for i := len(units); i < n; i++ {
		src, err := os.ReadFile(units[i%len(units)])
		if err != nil {
			t.Fatal(err)
		}
		old := strings.TrimSpace(between(string(src), "\nstock:", "\n"))
		text := strings.Replace(string(src), "stock: "+old, fmt.Sprintf("stock: BIG-%05d", i), 1)
		// A serial number and the photos that prove it belong to one trailer, so the copies have none.
		text = ofOneTrailer.ReplaceAllString(text, "")
		if err := os.WriteFile(filepath.Join(dir, "content", "units", fmt.Sprintf("big-%05d.md", i)), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func between(s, from, to string) string {
	_, rest, ok := strings.Cut(s, from)
	if !ok {
		return ""
	}
	mid, _, _ := strings.Cut(rest, to)
	return mid
}

func copyDir(t *testing.T, from, to string) {
	t.Helper()
	if err := os.CopyFS(to, os.DirFS(from)); err != nil {
		t.Fatal(err)
	}
}

// mostMB is how much memory a build of ten thousand units may take. It took 490 MB. The bound
// is wide, because how much garbage remains depends on the machine.
const mostMB = 900

// TestTenThousandUnits builds a yard of ten thousand units and builds it again: every
// unit has its page, the memory is bounded, and the second time nothing is written.
func TestTenThousandUnits(t *testing.T) {
	long(t)
	const n = 10_000
	dir := t.TempDir()
	bigYard(t, dir, n)
	build := binary(t)
	start := time.Now()
	took := peak(t, "-from", dir, "-to", filepath.Join(dir, "public"))
	t.Logf("built in %.1f s with %.0f MB", time.Since(start).Seconds(), took)
	if took > mostMB {
		t.Errorf("a cold build took %.0f MB at once, more than %d", took, mostMB)
	}
	cmd := exec.Command(build, "-from", dir, "-to", filepath.Join(dir, "public"))
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	start = time.Now()
	if err := cmd.Run(); err != nil {
		t.Fatalf("the second build: %v\n%s\n%.2000s", err, stdout.String(), stderr.String())
	}
	t.Logf("again: %.1f s\n%s", time.Since(start).Seconds(), stdout.String())
	for _, want := range []string{fmt.Sprintf("%d units on ", n), "nothing changed"} {
		if !strings.Contains(stdout.String(), want) {
			t.Errorf("the second build says %q, want %q in it", stdout.String(), want)
		}
	}
	pages, err := filepath.Glob(filepath.Join(dir, "public", "u", "*.html"))
	if err != nil || len(pages) != n {
		t.Errorf("%d unit pages, want %d (%v)", len(pages), n, err)
	}
}

// TestAMillionFindings: a thousand units, each with a thousand unknown keys, and one sound
// unit. The findings stay short enough to read, file by file; the sound unit is published;
// and the command takes no more memory than for a sound yard of that size (Linux's high-water
// mark, proc(5), VmHWM).
func TestAMillionFindings(t *testing.T) {
	long(t)
	dir := t.TempDir()
	if err := testyard.Write(dir, 1); err != nil {
		t.Fatal(err)
	}
	var keys strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&keys, "gvwr%d: 1\n", i)
	}
	text := spoilt(strings.TrimSuffix(keys.String(), "\n"), "x")
	for i := range 1000 {
		write(t, dir, map[string]string{fmt.Sprintf("content/units/m-%d.md", i): strings.Replace(text, "PV-00001", fmt.Sprintf("M-%d", i), 1)})
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	target := filepath.Join(dir, "public")
	var out bytes.Buffer
	cmd := &exec.Cmd{Path: self, Args: []string{"build-peak", "-from", dir, "-to", target, "-leave-out"}, Stdout: &out}
	start := time.Now()
	_ = cmd.Run()
	if status := cmd.ProcessState.ExitCode(); status != stops {
		t.Fatalf("status %d, want %d: %.500s", status, stops, out.String())
	}
	took := time.Since(start)
	kB := 0
	if _, told, ok := strings.Cut(out.String(), "\nVmHWM:"); ok {
		if _, err := fmt.Sscan(told, &kB); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%.1f s, %d MB", took.Seconds(), kB/1024)
	// Two minutes allow for a slow and busy machine; on idle cores it takes about five seconds.
	// The test is for a cost that grows with the square.
	if took > 2*time.Minute || kB > 600*1024 {
		t.Errorf("a million findings take %s and %d MB", took, kB/1024)
	}
	if _, ok := filesBelow(t, target)[testyard.Page(0)]; !ok {
		t.Error("the sound unit has no page")
	}
	_, says := built(t, stops, "inspect", "-from", dir)
	if n := strings.Count(says, "more of this kind"); n < 1000 || len(says) > 60_000*1000 {
		t.Errorf("%d of 1000 files have their findings shortened, in %d bytes", n, len(says))
	}
}

// checkWhole compares every file with SHA256SUMS and finds no other file.
func checkWhole(t *testing.T, target string) {
	t.Helper()
	list, err := os.ReadFile(filepath.Join(target, "SHA256SUMS"))
	if err != nil {
		t.Error(err)
		return
	}
	n := 0
	for line := range strings.Lines(string(list)) {
		sum, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		if !ok {
			t.Errorf("a line of the list cannot be parsed: %q", line)
			return
		}
		data, err := os.ReadFile(filepath.Join(target, filepath.FromSlash(name)))
		if err != nil {
			t.Error(err)
			return
		}
		if got := fmt.Sprintf("%x", sha256.Sum256(data)); got != sum {
			t.Errorf("%s has another hash than its list", name)
		}
		n++
	}
	files := 0
	err = filepath.WalkDir(target, func(_ string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files++
		}
		return err
	})
	if err != nil || files != n+1 {
		t.Errorf("%d files, the list names %d (%v)", files, n, err)
	}
}
