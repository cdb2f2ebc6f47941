package files

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"

	"tarepage/internal/testdisk"
)

// TestPowerCut: what was written is there after a power cut in the next moment: a new file, one
// in a new folder, one that was replaced, and what is kept of it. The option switches off that
// ext4 flushes a file that replaces another (mount(8), auto_da_alloc), since other file systems
// do not.
func TestPowerCut(t *testing.T) {
	cuts := 0
	testdisk.Mounted(t, "noauto_da_alloc", func(disk *testdisk.Disk) {
		name := func(dir, name string) string { return filepath.Join(dir, "content", "units", name) }
		before := "before"
		if err := WriteNew(name(disk.Dir, "sb-1.md"), []byte(before)); err != nil {
			t.Error(err)
			return
		}
		unix.Sync() // the disk is at rest
		for i := range 5 {
			after := fmt.Sprintf("answer %d", i)
			fresh := fmt.Sprintf("%d/sb-2.md", i)
			if err := WriteNew(name(disk.Dir, fresh), []byte(after)); err != nil {
				t.Error(err)
			}
			if err := ReplaceKeeping(disk.Dir, name(disk.Dir, "sb-1.md"), []byte(before), []byte(after)); err != nil {
				t.Error(err)
			}
			err := disk.AfterCut(t, func(dir string) error {
				for file, want := range map[string]string{
					name(dir, "sb-1.md"): after, name(dir, fresh): after, filepath.Join(dir, "earlier", "sb-1.md"): before,
				} {
					if got, err := os.ReadFile(file); err != nil || string(got) != want {
						t.Errorf("cut %d: %s holds %q, want %q (%v)", i, filepath.Base(file), got, want, err)
					}
				}
				return nil
			})
			if err != nil {
				t.Error(err)
			}
			before = after
			cuts++
		}
	})
	t.Logf("%d power cuts", cuts)
}
