package files

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func write(t *testing.T, name, text string) string {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestReadUpTo(t *testing.T) {
	name := write(t, filepath.Join(t.TempDir(), "talk.vtt"), "12345")
	for most, want := range map[int64]string{3: "1234", 4: "12345", 5: "12345", 9: "12345"} {
		if got, err := ReadUpTo(name, most); string(got) != want || err != nil {
			t.Errorf("up to %d: %q, %v; want %q", most, got, err, want)
		}
	}
	for _, missing := range []string{name + "x", filepath.Dir(name)} {
		_, err := ReadUpTo(missing, 9)
		if err == nil || strings.Count(err.Error(), filepath.Base(missing)) != 1 || strings.Contains(err.Error(), "open ") {
			t.Errorf("%s: %v", missing, err)
		}
	}
}

func TestWriteNew(t *testing.T) {
	name := filepath.Join(t.TempDir(), "content", "units", "ex-1.md")
	if err := WriteNew(name, []byte("first")); err != nil {
		t.Fatal(err)
	}
	if err := WriteNew(name, []byte("second")); !errors.Is(err, ErrExists) || !strings.Contains(err.Error(), "ex-1.md") {
		t.Errorf("over a file: %v", err)
	}
	if got, err := Read(name); string(got) != "first" || err != nil {
		t.Errorf("it holds %q, %v", got, err)
	}
	if err := WriteNew(filepath.Join(name, "below.md"), nil); err == nil || errors.Is(err, ErrExists) {
		t.Errorf("below a file: %v", err)
	}
}

func TestFirst(t *testing.T) {
	dir := t.TempDir()
	for _, empty := range []string{dir, filepath.Join(dir, "nowhere")} {
		if file, err := First(empty); file != "" || err != nil {
			t.Errorf("%s: %q, %v", empty, file, err)
		}
	}
	deep := filepath.Join(dir, "a", "b")
	if err := MakeFolder(deep); err != nil {
		t.Fatal(err)
	}
	if file, err := First(dir); file != "" || err != nil {
		t.Errorf("folders without files: %q, %v", file, err)
	}
	want := write(t, filepath.Join(deep, "x.md"), "")
	write(t, filepath.Join(dir, "z.md"), "")
	if file, err := First(dir); file != want || err != nil {
		t.Errorf("%q, %v; want %q", file, err, want)
	}
}

func TestReplaceReadRemove(t *testing.T) {
	name := filepath.Join(t.TempDir(), "schema.json")
	if data, err := Read(name); data != nil || err != nil {
		t.Errorf("no file: %q, %v", data, err)
	}
	if _, err := Read(filepath.Dir(name)); err == nil {
		t.Error("a folder is read as a file")
	}
	for _, text := range []string{"first", "next"} {
		if err := Replace(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, _ := Read(name); string(got) != text {
			t.Errorf("%q, want %q", got, text)
		}
	}
	if err := Replace(filepath.Join(name, "x"), nil); err == nil {
		t.Error("a file below a file is written")
	}
	if err := MakeFolder(filepath.Join(name, "x")); err == nil {
		t.Error("a folder below a file is made")
	}
	other := write(t, name+"2", "")
	if err := Remove([]string{name, other}); err != nil {
		t.Error(err)
	}
	if err := Remove([]string{name, other}); err == nil || !strings.Contains(err.Error(), "schema.json2") {
		t.Errorf("removed twice: %v", err)
	}
}

// TestPermissions: what the program writes can be read by everyone and written by its owner, as
// the umask allows, since a web server often runs as another user.
func TestPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has permissions of another kind")
	}
	dir := t.TempDir()
	plain := write(t, filepath.Join(dir, "plain"), "") // with what the umask leaves of 0644
	folder := filepath.Join(dir, "plain-folder")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	mode := func(name string) os.FileMode {
		t.Helper()
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		return info.Mode()
	}
	made, replaced := filepath.Join(dir, "a", "new"), filepath.Join(dir, "replaced")
	if err := errors.Join(WriteNew(made, nil), Replace(replaced, nil), MakeFolder(filepath.Join(dir, "b"))); err != nil {
		t.Fatal(err)
	}
	if mode(made) != mode(plain) || mode(replaced).Perm() != 0o644 || mode(filepath.Join(dir, "a")) != mode(folder) || mode(filepath.Join(dir, "b")) != mode(folder) {
		t.Errorf("%v, %v, %v and %v", mode(made), mode(replaced), mode(filepath.Join(dir, "a")), mode(filepath.Join(dir, "b")))
	}
}

// TestPermissionsStay: a file that only its owner reads, or that a group writes, stays so, and so
// does what is kept of it.
func TestPermissionsStay(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has permissions of another kind")
	}
	dir := t.TempDir()
	for _, want := range []os.FileMode{0o600, 0o640, 0o664, 0o644} {
		name := write(t, filepath.Join(dir, "sb-1.md"), "before")
		if err := errors.Join(os.Chmod(name, want), ReplaceKeeping(dir, name, []byte("before"), []byte("after"))); err != nil {
			t.Fatal(err)
		}
		for _, file := range []string{name, filepath.Join(dir, "earlier", "sb-1.md")} {
			if info, err := os.Stat(file); err != nil || info.Mode().Perm() != want {
				t.Errorf("%s has %v, want %v (%v)", filepath.Base(filepath.Dir(file)), info.Mode(), want, err)
			}
		}
	}
}

// TestErrorsNameTheFile: every error says which file, once.
func TestErrorsNameTheFile(t *testing.T) {
	dir := t.TempDir()
	file := write(t, filepath.Join(dir, "ex-1.md"), "")
	for name, err := range map[string]error{
		"new, below a file":      WriteNew(filepath.Join(file, "below.md"), nil),
		"new, a folder":          WriteNew(dir, nil),
		"replaced, below a file": Replace(filepath.Join(file, "below.md"), nil),
		"a folder below a file":  MakeFolder(filepath.Join(file, "below.md")),
	} {
		want := "below.md"
		if name == "new, a folder" {
			want = filepath.Base(dir)
		}
		if err == nil || strings.Count(err.Error(), want) != 1 {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := First(filepath.Join(file, "x")); err == nil || !strings.Contains(err.Error(), "ex-1.md") {
		t.Errorf("below a file there is nothing to look through: %v", err)
	}
}
