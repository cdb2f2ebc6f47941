package seal

import (
	"encoding/hex"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
)

// marks is set for a process of this test that prints a mark, as a run of the program makes it.
const marks = "TAREPAGE_TEST_MARK"

func TestMain(m *testing.M) {
	if os.Getenv(marks) != "" {
		mark := Of("a", []byte("data"))
		fmt.Printf("mark %s\n", hex.EncodeToString(mark[:]))
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// TestRunsOfOneUser: the runs of one user make the same marks, those of another user make
// others, and where no key can be kept each run has a key of its own.
func TestRunsOfOneUser(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("NOT CHECKED: the folder of a user's caches is not that of XDG here")
	}
	me, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	run := func(cache string) string {
		t.Helper()
		cmd := exec.Command(me, "-test.run=^$")
		cmd.Env = slices.DeleteFunc(os.Environ(), func(s string) bool { return len(s) > 4 && (s[:4] == "XDG_" || s[:5] == "HOME=") })
		cmd.Env = append(cmd.Env, marks+"=1")
		if cache != "" {
			cmd.Env = append(cmd.Env, "XDG_CACHE_HOME="+cache)
		}
		out, err := cmd.Output()
		if err != nil || len(out) != len("mark \n")+2*Size {
			t.Fatalf("%q, %v", out, err)
		}
		return string(out)
	}
	one, other := t.TempDir(), t.TempDir()
	first := run(one)
	if run(one) != first {
		t.Error("two runs of one user make different marks")
	}
	if run(other) == first {
		t.Error("another user makes the same marks")
	}
	if a, b := run(""), run(""); a == b {
		t.Error("two runs without a place for a key make the same marks")
	}
	file := filepath.Join(one, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if a, b := run(file), run(file); a == b {
		t.Error("two runs that cannot keep a key make the same marks")
	}
	if got := newKey(); len(got) != keySize || slices.Equal(got, make([]byte, keySize)) {
		t.Errorf("a new key is %x", got)
	}
}
