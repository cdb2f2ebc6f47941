package publish

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"tarepage/internal/testdisk"
	"tarepage/internal/thorough"
)

// TestPowerCut takes what an image holds at some moment after a build, or in the middle of
// one, for what a disk holds after a power cut, and looks at the target in it. What was
// written and not forced onto the disk is not in the image.
func TestPowerCut(t *testing.T) {
	thorough.Only(t)
	cuts, most := 4, 300*time.Millisecond
	if os.Getenv("TAREPAGE_LONG") != "" {
		cuts, most = 40, 8*time.Second // ext4 commits its journal every five seconds
	}
	a, b := yards()
	damaged, tried := 0, 0
	testdisk.Mounted(t, "loop", func(disk *testdisk.Disk) {
		target := filepath.Join(disk.Dir, "public")
		if _, err := Swap(a.site(t), target); err != nil {
			t.Error(err)
			return
		}
		for i := range cuts {
			wait := time.Duration(rand.Int64N(int64(most)))
			if i%2 == 0 { // after a build
				site := a
				if i%4 == 0 {
					site = b
				}
				if _, err := Swap(site.site(t), target); err != nil {
					t.Error(err)
					return
				}
				time.Sleep(wait)
			} else { // in the middle of one
				cmd, out, stderr := startChild(t, disk.Dir, "loop 0")
				if _, err := out.ReadString('\n'); err != nil {
					t.Errorf("%v: %s", err, stderr)
					return
				}
				time.Sleep(wait)
				if err := cmd.Process.Kill(); err != nil {
					t.Error(err)
				}
				cmd.Wait()
			}
			tried++
			if err := afterCut(t, disk, a, b); err != nil {
				damaged++
				t.Errorf("cut %d, %v: %v", i, wait, err)
			}
			if err := Check(target); err != nil {
				t.Error(err)
			}
		}
	})
	t.Logf("%d power cuts, %d damaged sites", tried, damaged)
}

// afterCut looks at the site after a power cut: whole, and one of the two. The next build
// takes it.
func afterCut(t *testing.T, disk *testdisk.Disk, sites ...pages) error {
	t.Helper()
	return disk.AfterCut(t, func(dir string) error {
		target := filepath.Join(dir, "public")
		got, err := read(target)
		if err != nil {
			return err
		}
		for _, site := range sites {
			if fmt.Sprint(got) == fmt.Sprint(site) {
				_, err = Swap(sites[0].site(t), target)
				return err
			}
		}
		return fmt.Errorf("the target holds %d files, a mixture", len(got))
	})
}

// TestListCutOff: a list that a power cut emptied or cut off, and one that was emptied by hand,
// does not make the site somebody else's: the copy next to the target knows it. What neither
// knows is refused, and so is a folder with somebody else's list.
func TestListCutOff(t *testing.T) {
	for name, damage := range map[string]func(list []byte) []byte{
		"emptied":         func([]byte) []byte { return nil },
		"zeros":           func(list []byte) []byte { return make([]byte, len(list)) },
		"cut in a line":   func(list []byte) []byte { return list[:100] },
		"cut at a line":   func(list []byte) []byte { return list[:bytesOfLine(list)] },
		"cut, then zeros": func(list []byte) []byte { return append(list[:100:100], make([]byte, 200)...) },
	} {
		base := t.TempDir()
		target := filepath.Join(base, "public")
		mustSwap(t, newSwapper(), older, target)
		if err := Remember(target, []byte("note"), nil, nil); err != nil {
			t.Fatal(err)
		}
		full := filepath.Join(target, listName)
		list, err := os.ReadFile(full)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, damage(list), 0o644); err != nil {
			t.Fatal(err)
		}
		put(t, "", target, "index.html")
		if err := Check(target); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		put(t, "mine", target, "mine.txt")
		if err := Check(target); err == nil {
			t.Errorf("%s: a file that nobody listed is taken for ours", name)
		}
		if err := os.Remove(filepath.Join(target, "mine.txt")); err != nil {
			t.Fatal(err)
		}
		mustSwap(t, newSwapper(), newer, target)
		wantSite(t, target, newer)
	}
	for name, list := range map[string]string{
		"somebody else's":  "0000000000000000000000000000000000000000000000000000000000000000  index.html\n",
		"another text":     "hello",
		"none":             "",
		"somebody's empty": "",
	} {
		base := t.TempDir()
		target := filepath.Join(base, "public")
		if name != "somebody's empty" {
			mustSwap(t, newSwapper(), older, target)
			if err := Remember(target, nil, nil, nil); err != nil {
				t.Fatal(err)
			}
			if err := os.RemoveAll(target); err != nil {
				t.Fatal(err)
			}
		}
		put(t, "somebody's own", target, "index.html")
		if name != "none" {
			put(t, list, target, listName)
		}
		if err := Check(target); err == nil {
			t.Errorf("%s: a folder of somebody else's is taken for ours", name)
		}
	}
}

func bytesOfLine(list []byte) int {
	for i, c := range list {
		if c == '\n' {
			return i + 1
		}
	}
	return 0
}

// TestPartIsALink: a link in the place of the file that becomes the note is not followed.
func TestPartIsALink(t *testing.T) {
	base := t.TempDir()
	target := filepath.Join(base, "public")
	mustSwap(t, newSwapper(), older, target)
	mine := put(t, "mine", base, "mine.txt")
	if err := os.Symlink(mine, filepath.Join(base, ".public.kept.part")); err != nil {
		t.Fatal(err)
	}
	if err := Remember(target, []byte("note"), nil, nil); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(mine); err != nil || string(got) != "mine" {
		t.Errorf("the file after the link holds %q (%v)", got, err)
	}
	if got := Recall(target); string(got) != "note" {
		t.Errorf("recalled %q", got)
	}
	if info, err := os.Stat(filepath.Join(base, ".public.kept")); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v %v", info.Mode(), err)
	}
	// Every cut of the note is noticed.
	full := filepath.Join(base, ".public.kept")
	data, err := os.ReadFile(full)
	if err != nil {
		t.Fatal(err)
	}
	for cut := range len(data) {
		put(t, string(data[:cut]), full)
		if got := Recall(target); got != nil {
			t.Fatalf("cut at %d: recalled %q", cut, got)
		}
	}
	if err := os.Remove(full); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(mine, full); err != nil {
		t.Fatal(err)
	}
	if got := Recall(target); got != nil {
		t.Errorf("recalled %q through a link", got)
	}
}

// TestHomeIsRefused: the home folder is not a target, not even when it is empty.
func TestHomeIsRefused(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", mkdir(t, home, "me"))
	for target, want := range map[string]string{
		filepath.Join(home, "me"): "is your home folder; choose another folder with -to",
		home:                      "holds your home folder; choose another folder with -to",
	} {
		if err := Check(target); err == nil || err.Error() != target+" "+want {
			t.Errorf("%v, want %s", err, want)
		}
	}
	if err := Check(filepath.Join(home, "me", "public")); err != nil {
		t.Error(err)
	}
}
