package photo

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"runtime/debug"
	"sync"

	"golang.org/x/image/webp"
	"golang.org/x/sync/semaphore"

	"tarepage/internal/media"
	"tarepage/internal/parallel"
)

// An Original is a photo as it came from the phone.
type Original struct {
	// Name is what the unit files call it; it is the key of what Work returns.
	Name string
	// Path is where it stands on the disk.
	Path string
}

// A Shop works photos.
type Shop struct {
	// Keep is the folder in which what was worked is kept from one build to the next.
	Keep string
	// Told, where it is given, is told how many of the photos that must be worked are done.
	// It is called by one at a time.
	Told func(done, all int)
}

// inFlight is how many bytes of decoded pictures are held at once, whatever the number of
// photos and cores: with what the encoder and the collector of garbage take beside them
// a build stays within 1 GiB. One photo that needs more is worked alone; none may need
// more than media.MostNeed.
const inFlight = 320 << 20

// beside is what the work on one photo takes beside the decoded original: the largest
// picture as light and as codes, and the encoder's own memory.
const beside = 72 << 20

// softLimit makes the collector of garbage work harder rather than let decoded pictures
// lie about.
const softLimit = 832 << 20

// Work makes the pictures of each photo. A photo that could not be worked is in faults,
// with what is wrong in words; the error is for a disk that cannot be written.
func (s *Shop) Work(list []Original) (made map[string]*Picture, faults map[string]string, err error) {
	made, faults = map[string]*Picture{}, map[string]string{}
	if len(list) == 0 {
		return made, faults, nil
	}
	k := &keep{dir: s.Keep}
	if err := k.open(); err != nil {
		return nil, nil, err
	}
	// What is kept is looked through first: then it is known how much there is to do.
	type job struct {
		Original
		key string
	}
	var todo []job
	also := map[string][]Original{} // by key, what has the same content
	var mu sync.Mutex
	parallel.Each(len(list), func(i int) {
		o := list[i]
		key, err := keyOf(o.Path)
		var p *Picture
		if err == nil {
			p = k.find(key, o.Name)
		}
		mu.Lock()
		defer mu.Unlock()
		switch {
		case err != nil:
			faults[o.Name] = "it cannot be read: " + plain(err)
		case p != nil:
			made[o.Name] = p
		case also[key] == nil:
			todo = append(todo, job{o, key})
			fallthrough
		default:
			also[key] = append(also[key], o)
		}
	})
	k.sweep()
	if len(todo) == 0 {
		return made, faults, nil
	}
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(min(softLimit, debug.SetMemoryLimit(-1))))
	room := semaphore.NewWeighted(inFlight + beside)
	done := 0
	var failed error
	tell := func(n int) {
		if s.Told != nil {
			s.Told(n, len(todo))
		}
	}
	tell(0)
	parallel.Each(len(todo), func(i int) {
		j := todo[i]
		fault, err := s.one(k, j.Path, j.key, room)
		mu.Lock()
		defer mu.Unlock()
		for _, o := range also[j.key] {
			switch {
			case fault != "":
				faults[o.Name] = fault
			case err == nil:
				if p := k.find(j.key, o.Name); p != nil {
					made[o.Name] = p
				} else {
					err = fmt.Errorf("what was just written to %s does not read back", s.Keep)
				}
			}
		}
		failed = errors.Join(failed, err)
		done++
		tell(done)
	})
	return made, faults, failed
}

// one works one photo and keeps what came out.
func (s *Shop) one(k *keep, path, key string, room *semaphore.Weighted) (fault string, err error) {
	f, err := os.Open(path)
	if err != nil {
		return "it cannot be read: " + plain(err), nil
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return "it cannot be read: " + plain(err), nil
	}
	// The file may have changed since the stock was read; it is judged as it is now.
	head := media.LookAtPhoto(f, info.Size())
	if fault := Refused(&head); fault != "" {
		return fault, nil
	}
	weight := min(head.Need, inFlight) + beside
	if err := room.Acquire(context.Background(), weight); err != nil {
		return "", err
	}
	defer room.Release(weight)
	m, err := decode(f, &head)
	if err != nil {
		return "it is damaged: " + err.Error(), nil
	}
	p, data, err := work(rowsOf(m, readProfile(head.Profile), head.Kind == "WebP"), head.Turn)
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, err)
	}
	return "", k.put(key, p, data)
}

// Refused says why a photo cannot be worked, or nothing.
func Refused(p *media.Photo) string {
	switch {
	case p.Fault != "":
		return p.Fault
	case p.Moves:
		return "it is an animation"
	case p.Colors != "":
		return "its colors are " + p.Colors
	case p.TooLarge():
		return fmt.Sprintf("it has %d x %d pixels", p.Wide, p.High)
	}
	return ""
}

// decode decodes a photo whose head was looked at. The decoder's own reading of the head
// is held against it before anything is allocated.
func decode(f io.ReadSeeker, head *media.Photo) (image.Image, error) {
	config, read := jpeg.DecodeConfig, jpeg.Decode
	switch head.Kind {
	case "PNG":
		config, read = png.DecodeConfig, png.Decode
	case "WebP":
		config, read = webp.DecodeConfig, webp.Decode
	}
	for _, again := range []bool{false, true} {
		if _, err := f.Seek(0, io.SeekStart); err != nil {
			return nil, err
		}
		r := bufio.NewReaderSize(f, 1<<16)
		if again {
			return read(r)
		}
		c, err := config(r)
		if err != nil {
			return nil, err
		}
		if c.Width != head.Wide || c.Height != head.High {
			return nil, fmt.Errorf("it says that it has %d x %d pixels and %d x %d", head.Wide, head.High, c.Width, c.Height)
		}
	}
	panic("unreachable")
}

// keyOf is what a photo's pictures are kept under: the hash of its bytes.
func keyOf(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

func plain(err error) string {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
