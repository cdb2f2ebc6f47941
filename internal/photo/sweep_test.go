package photo

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestSweep: what no build has used for three months goes, whoever made it, and nothing else; what
// a build finds is young again.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	const day = 24 * time.Hour
	enter := func(name string, ago time.Duration) string {
		t.Helper()
		full := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(full, []byte(name), 0o644); err != nil {
			t.Fatal(err)
		}
		then := time.Now().Add(-ago)
		if err := os.Chtimes(full, then, then); err != nil {
			t.Fatal(err)
		}
		return full
	}
	there := func(name string) bool {
		_, err := os.Lstat(name)
		return err == nil
	}
	k := &keep{dir: dir}
	key := "ab" + "cd0123456789"
	stays := []string{
		enter(edition+"/aa/young/"+noteName, 89*day), enter(edition+"/aa/young/800.webp", 400*day),
		enter("0/aa/older-edition/"+noteName, 10*day), enter(edition+"/bb/card.jpg", 5*day), enter(edition+"/bb/card.sum", 5*day),
		enter(edition+"/cc/making-1/800.webp", time.Hour), enter(edition+"/cc/future/"+noteName, -200*day),
		enter(".gitignore", 900*day), enter("somebodys-own/notes.txt", 900*day),
	}
	goes := []string{
		enter(edition+"/aa/sold/"+noteName, 91*day), enter(edition+"/aa/sold/800.webp", 91*day), enter("0/aa/unused/"+noteName, 91*day),
		enter(edition+"/bb/old.jpg", 91*day), enter(edition+"/bb/old.sum", 91*day), enter(edition+"/cc/making-2", 2*day), enter(edition+"/cc/leaving-3", 2*day),
	}
	found := enter(edition+"/ab/cd0123456789/"+noteName, 200*day)
	k.find(key) // it does not read, but it was asked for
	k.sweep()
	for _, name := range append(stays, found) {
		if !there(name) {
			t.Errorf("%s is gone", name)
		}
	}
	for _, name := range goes {
		if there(name) {
			t.Errorf("%s is still there", name)
		}
	}
	// Once a day is enough.
	again := enter(edition+"/aa/sold/"+noteName, 91*day)
	if k.sweep(); !there(again) {
		t.Error("it was swept twice in a day")
	}
}

// TestSweepBesideBuilds: sweeping while others find, put and draw what is kept takes
// nothing out of their hands.
func TestSweepBesideBuilds(t *testing.T) {
	dir := t.TempDir()
	s := &Shop{Keep: dir}
	key := "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"
	k := &keep{dir: dir}
	stop := make(chan struct{})
	swept := make(chan int)
	go func() {
		n := 0
		for ; ; n++ {
			select {
			case <-stop:
				swept <- n
				return
			default:
				os.Remove(filepath.Join(dir, ".swept"))
				k.sweep()
			}
		}
	}()
	long := time.Now().Add(-unusedFor - time.Hour)
	for i := range 300 {
		from, _, err := s.Kept(key, ".jpg", func() ([]byte, error) { return []byte("a card"), nil })
		if err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(from)
		for n := 0; errors.Is(err, fs.ErrNotExist) && n < 1000; n++ {
			// It was moved aside at this very moment, and is put back.
			time.Sleep(time.Millisecond)
			data, err = os.ReadFile(from)
		}
		if err != nil || string(data) != "a card" {
			t.Fatalf("time %d: %q, %v", i, data, err)
		}
		// Three months go by.
		_ = os.Chtimes(from, long, long)
		_ = os.Chtimes(from[:len(from)-len(".jpg")]+".sum", long, long)
	}
	close(stop)
	if n := <-swept; n == 0 {
		t.Error("it was never swept")
	}
}
