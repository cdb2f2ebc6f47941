package seal

import (
	"bytes"
	"encoding/hex"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// TestMark: a mark holds for its data in its place under its key, and for nothing else.
func TestMark(t *testing.T) {
	mark := Of("photo a", []byte("data"))
	if !Holds(mark[:], "photo a", []byte("data")) {
		t.Error("the mark does not hold")
	}
	for what, holds := range map[string]bool{
		"other data":         Holds(mark[:], "photo a", []byte("date")),
		"another place":      Holds(mark[:], "photo b", []byte("data")),
		"a moved border":     Holds(mark[:], "photo ad", []byte("ata")),
		"a mark cut off":     Holds(mark[:Size-1], "photo a", []byte("data")),
		"no mark":            Holds(nil, "photo a", []byte("data")),
		"under another key":  of(newKey(), "photo a", []byte("data")) == mark,
		"under an empty key": of(nil, "photo a", []byte("data")) == mark,
	} {
		if holds {
			t.Errorf("%s: the mark holds", what)
		}
	}
}

// TestHMAC compares a mark with the HMAC of another program: printf '\0\0\0\0\0\0\0\001adata' |
// openssl dgst -sha256 -mac HMAC -macopt hexkey:000102...1f (OpenSSL 3).
func TestHMAC(t *testing.T) {
	key := make([]byte, keySize)
	for i := range key {
		key[i] = byte(i)
	}
	got := of(key, "a", []byte("data"))
	if want := "59454299ee4ca02d41a4ef0b93d17f04e9417afa9090bb32d3f5da55a06855d4"; hex.EncodeToString(got[:]) != want {
		t.Errorf("%x, want %s", got, want)
	}
}

// TestKey: a key is made once, only its owner can read it, and one that is not a secret or not
// whole is replaced.
func TestKey(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "tarepage")
	k := keyIn(dir)
	if len(k) != keySize || !bytes.Equal(k, keyIn(dir)) {
		t.Fatalf("keys of %d and %d bytes", len(k), len(keyIn(dir)))
	}
	name := filepath.Join(dir, "key")
	for what, change := range map[string]func() error{
		"cut off":         func() error { return os.Truncate(name, 9) },
		"emptied":         func() error { return os.Truncate(name, 0) },
		"longer":          func() error { return os.Truncate(name, 1<<40) },
		"others can read": func() error { return os.Chmod(name, 0o644) },
	} {
		if runtime.GOOS == "windows" && what == "others can read" {
			continue
		}
		before := keyIn(dir)
		if err := change(); err != nil {
			t.Fatal(err)
		}
		after := keyIn(dir)
		if len(after) != keySize || bytes.Equal(before, after) {
			t.Errorf("%s: the key stays", what)
		}
		if info, err := os.Stat(name); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", what, info.Mode(), err)
		}
	}
	secret := filepath.Join(t.TempDir(), "secret")
	if err := os.WriteFile(secret, bytes.Repeat([]byte{7}, keySize), 0o600); err != nil {
		t.Fatal(err)
	}
	if os.Remove(name) == nil && os.Symlink(secret, name) == nil && bytes.Equal(keyIn(dir), bytes.Repeat([]byte{7}, keySize)) {
		t.Error("a link leads to a key of somebody else")
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
		t.Errorf("left are %v, %v", entries, err)
	}
	if k := keyIn(filepath.Join(secret, "below")); k != nil {
		t.Error("a key is kept below a file")
	}
}
