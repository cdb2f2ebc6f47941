// Package seal marks what the program keeps from one build to the next, so that the next build
// believes only what this program wrote on this computer for this user. A digest next to the
// bytes tells what was damaged; it does not tell what somebody else wrote, who can write the
// digest too: a yard that came in a ZIP file or over a shared disk may hold pictures, notes and
// pages that were "kept" by nobody.
//
// The mark is an HMAC (FIPS 198-1) of SHA-256. Its key is made of random bytes at the first
// build and lies in the user's cache folder, which only the user reads. Without that folder each
// run has a key of its own, and believes nothing of the runs before. If the key is gone,
// everything is made again once, and nothing else happens.
package seal

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// Size is how many bytes a mark has.
const Size = sha256.Size

// keySize is how many bytes the key has: as many as the digest (FIPS 198-1, 3).
const keySize = sha256.Size

// Of is the mark of data. The place says what the data are and where they are kept, so that
// what is moved to another place is not believed there.
func Of(place string, data []byte) [Size]byte { return of(key(), place, data) }

// Holds reports whether a mark is that of the data in this place.
func Holds(mark []byte, place string, data []byte) bool {
	want := Of(place, data)
	return hmac.Equal(mark, want[:])
}

func of(key []byte, place string, data []byte) (mark [Size]byte) {
	h := hmac.New(sha256.New, key)
	h.Write(binary.BigEndian.AppendUint64(nil, uint64(len(place))))
	h.Write([]byte(place))
	h.Write(data)
	h.Sum(mark[:0])
	return mark
}

// key is this user's key, read once.
var key = sync.OnceValue(func() []byte {
	if cache, err := os.UserCacheDir(); err == nil {
		if k := keyIn(filepath.Join(cache, "tarepage")); k != nil {
			return k
		}
	}
	return newKey()
})

func newKey() []byte {
	k := make([]byte, keySize)
	_, _ = rand.Read(k) // it ends the program rather than fail
	return k
}

// keyIn reads the key in a folder, and makes one if there is none that can be used; nil if none
// can be kept there. Of two runs that make one at once, one believes nothing of its own later.
func keyIn(dir string) []byte {
	name := filepath.Join(dir, "key")
	if k := read(name); k != nil {
		return k
	}
	if os.MkdirAll(dir, 0o755) != nil {
		return nil
	}
	f, err := os.CreateTemp(dir, "key-") // only its owner may read it
	if err != nil {
		return nil
	}
	defer os.Remove(f.Name())
	_, err = f.Write(newKey())
	if closed := f.Close(); err != nil || closed != nil || os.Rename(f.Name(), name) != nil {
		return nil
	}
	return read(name)
}

// read reads a key. One that others can read is not a secret, and one of another length is not a
// key; both are nil.
func read(name string) []byte {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() != keySize ||
		runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
		return nil
	}
	k, err := os.ReadFile(name)
	if err != nil || len(k) != keySize {
		return nil
	}
	return k
}
