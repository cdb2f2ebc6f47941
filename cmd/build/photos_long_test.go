package main

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

// phonePhoto is a photo of 48 megapixels as a phone's main camera writes it, 8064 x 6048
// in 4:2:0: a sky that grows lighter, and gravel's grain below it.
func phonePhoto(t *testing.T) []byte {
	t.Helper()
	m := image.NewYCbCr(image.Rect(0, 0, 8064, 6048), image.YCbCrSubsampleRatio420)
	grain := uint32(1)
	for y := range 6048 {
		row := m.Y[y*m.YStride:][:8064]
		for x := range row {
			row[x] = uint8(90 + y/48)
			if y > 2400 {
				grain = grain*1664525 + 1013904223
				row[x] = uint8(110 + x%640/16 + int(grain>>27))
			}
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(120+i/1000000), uint8(130+i%4032/400)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 80}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// apart makes another photo of the same picture: with a comment of its own, and lying on
// its side every other time (EXIF 2.32, 4.6.4 A, orientation 6), as a phone that was held
// upright leaves it.
func apart(data []byte, n int) []byte {
	turn := "\x01\x06"[n&1]
	exif := "\xff\xe1\x00\x22Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00" + string(turn) + "\x00\x00\x00\x00\x00\x00"
	note := fmt.Sprintf("photo %05d", n)
	out := append([]byte("\xff\xd8"), exif...)
	out = append(out, 0xff, 0xfe, 0, byte(len(note)+2))
	return append(append(out, note...), data[2:]...)
}

// TestManyLargePhotos builds a yard with new photos of 48 megapixels, and checks that the
// command never has more than 1 GiB: the limit for a hundred of them. Eight show as much,
// because no photo stays in memory after its pictures are made. TAREPAGE_PHOTOS=100 takes a
// hundred, and GOMAXPROCS sets the number of workers of a larger machine.
//
// The memory is the high-water mark that Linux keeps (proc(5), VmHWM). A child's rusage would
// count what this test had when it started the child.
func TestManyLargePhotos(t *testing.T) {
	long(t)
	if runtime.GOOS != "linux" {
		t.Skip("the high-water mark is read from /proc")
	}
	n := 8
	if s := os.Getenv("TAREPAGE_PHOTOS"); s != "" {
		n, _ = strconv.Atoi(s)
	}
	dir := t.TempDir()
	copyDir(t, "../../content", filepath.Join(dir, "content"))
	data := phonePhoto(t)
	name := filepath.Join(dir, "content", "units", "sb-1016.md")
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(src), "\nphotos:\n")
	if !ok {
		t.Fatal("the demo's SB-1016 has no photos")
	}
	var list strings.Builder
	for i := range n {
		file := fmt.Sprintf("media/large-%03d.jpg", i)
		if err := os.WriteFile(filepath.Join(dir, "content", file), apart(data, i), 0o644); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&list, "  - file: %s\n    alt: The trailer from its left side, number %d\n", file, i+1)
	}
	if err := os.WriteFile(name, []byte(before+"\nphotos:\n"+list.String()+rest), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(binary(t), "-from", dir, "-to", filepath.Join(dir, "public"))
	cmd.Env = append(os.Environ(), "XDG_CACHE_HOME="+filepath.Join(dir, "cache"), "GOMEMLIMIT=", "GOGC=")
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &out
	start := time.Now()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	most := 0
	for running := true; running; {
		select {
		case err := <-ended:
			if err != nil {
				t.Fatalf("%v\n%.2000s", err, out.String())
			}
			running = false
		case <-time.After(20 * time.Millisecond):
			most = max(most, highWater(cmd.Process.Pid))
		}
	}
	// The demo's own photos have no picture of that size.
	made, err := filepath.Glob(filepath.Join(dir, "public", "photos", "*-1600.webp"))
	if err != nil || len(made) == 0 {
		t.Errorf("%d photos have a WebP of 1600 px, want some (%v)", len(made), err)
	}
	page, err := os.ReadFile(filepath.Join(dir, "public", "u", "sb-1016.html"))
	if err != nil {
		t.Fatal(err)
	}
	shown := map[string]bool{}
	for _, name := range regexp.MustCompile(`photos/[0-9a-f]+-[0-9]+\.jpg`).FindAllString(string(page), -1) {
		if _, err := os.Stat(filepath.Join(dir, "public", name)); err == nil {
			shown[name] = true
		}
	}
	if want := n + strings.Count(rest, "- file: "); len(shown) != want { // its own photos stay
		t.Errorf("the page shows a JPEG of %d photos, want %d", len(shown), want)
	}
	cpu := cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
	t.Logf("%d photos of 48 megapixels, %d workers: at most %d MiB, %.1f CPU s, %.1f s", n, runtime.GOMAXPROCS(0), most>>10, cpu.Seconds(), time.Since(start).Seconds())
	if most == 0 || most > 1<<20 {
		t.Errorf("the build took %d KiB, want no more than 1 GiB", most)
	}
}

// highWater is the most memory that a process has had so far, in KiB; 0 once it has ended.
func highWater(pid int) int {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0
	}
	var kib int
	_, _ = fmt.Sscan(between(string(status), "VmHWM:", "kB"), &kib)
	return kib
}
