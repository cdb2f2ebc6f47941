package photo

import (
	"bytes"
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
	"time"

	"golang.org/x/image/webp"
	"golang.org/x/sync/semaphore"

	"tarepage/internal/media"
	"tarepage/internal/parallel"
)

// An Original is a photo as it came from the phone.
type Original struct {
	// Name is what the unit files call it; it is the key of what Work returns.
	Name string
	// Path is where it is on the disk, or below Folder if that is given.
	Path string
	// Folder is one from which no link leads out, whenever it comes. It may be empty.
	Folder string
}

// A Shop makes pictures of photos.
type Shop struct {
	// Keep is the folder in which pictures are kept from one build to the next.
	Keep string
	// Spare is the folder for pictures that do not fit into Keep, because its disk is full.
	// Without it a full disk is an error.
	Spare string
	// Told, if it is set, hears how many of the photos that need work are done. It is called
	// by one goroutine at a time.
	Told func(done, all int)
}

// Limits on the memory for photos. With what the encoder and the garbage collector take, a
// build stays within 1 GiB, whatever the number of photos and cores.
const (
	// inFlight is how many bytes of decoded pictures are held at once. One photo that needs
	// more is worked alone; none may need more than media.MostNeed.
	inFlight = 320 << 20
	// besides is what the work on one photo takes besides the decoded original: the largest
	// picture as light and as codes, and the encoder's own memory.
	besides = 72 << 20
	// softLimit makes the garbage collector work harder rather than let decoded pictures lie
	// around.
	softLimit = 832 << 20
	// large is how large a picture must be for its memory to be given back before the next
	// one is begun. That takes a few hundredths of a second.
	large = 96 << 20
	// mostFile is how many bytes the file of a photo may have. It is read into memory, so that
	// the bytes that were hashed are the bytes that are decoded.
	mostFile = 192 << 20
)

// Work makes the pictures of each photo. A photo that could not be worked is in faults, with
// what is wrong in words; the error is for a disk that cannot be written.
func (s *Shop) Work(list []Original) (made map[string]*Picture, faults map[string]string, err error) {
	w := &work{shop: s, made: map[string]*Picture{}, faults: map[string]string{}, names: map[string][]Original{}}
	if len(list) == 0 {
		return w.made, w.faults, nil
	}
	if err := w.open(); err != nil {
		return nil, nil, err
	}
	// What is kept is looked up first: then it is known how much there is to do.
	parallel.Each(len(list), func(i int) { w.look(list[i]) })
	w.keeps[0].sweep()
	if len(w.todo) > 0 {
		defer debug.SetMemoryLimit(debug.SetMemoryLimit(min(softLimit, debug.SetMemoryLimit(-1))))
		w.room = semaphore.NewWeighted(inFlight + besides)
		w.tell(0)
		parallel.Each(len(w.todo), func(i int) { w.one(w.todo[i]) })
	}
	w.refuseTwins()
	return w.made, w.faults, w.failed
}

// work is one run of a shop.
type work struct {
	shop     *Shop
	keeps    []*keep
	room     *semaphore.Weighted
	patience patience
	todo     []job                 // one of each content
	names    map[string][]Original // by key, all that have the same content

	mu     sync.Mutex
	made   map[string]*Picture
	faults map[string]string
	done   int
	failed error
}

// A job is one photo to be worked, under the key that its file had when it was listed.
type job struct {
	Original
	key string
}

// open opens the folder in which pictures are kept, or the spare one if the first cannot be
// used. While the first works, the spare folder is not made before it is needed.
func (w *work) open() error {
	var failed error
	for _, dir := range []string{w.shop.Keep, w.shop.Spare} {
		if dir == "" {
			continue
		}
		k := &keep{dir: dir}
		if len(w.keeps) == 0 {
			if err := k.open(); err != nil {
				failed = errors.Join(failed, err)
				continue
			}
		}
		w.keeps = append(w.keeps, k)
	}
	if len(w.keeps) == 0 {
		return failed
	}
	return nil
}

// find looks for pictures that are kept.
func (w *work) find(key string) *Picture {
	for _, k := range w.keeps {
		if p := k.find(key); p != nil {
			return p
		}
	}
	return nil
}

// look finds the pictures of a photo, or puts it on the list of what has to be done.
func (w *work) look(o Original) {
	key, err := keyOf(o)
	var p *Picture
	if err == nil {
		p = w.find(key)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	switch {
	case err != nil:
		w.faults[o.Name] = err.Error()
	case p != nil:
		w.made[o.Name] = p
	default:
		if w.names[key] == nil {
			w.todo = append(w.todo, job{o, key})
		}
		w.names[key] = append(w.names[key], o)
	}
}

func (w *work) tell(n int) {
	if w.shop.Told != nil {
		w.shop.Told(n, len(w.todo))
	}
}

// one works one photo for all that have its content.
func (w *work) one(j job) {
	key, fault, err := w.make(j.Original)
	list := []Original{j.Original}
	if key == j.key {
		list = w.names[j.key]
	}
	w.finish(list, key, fault, err)
	for _, o := range w.names[j.key][len(list):] { // the file is another one by now: each for itself
		key, fault, err := w.make(o)
		w.finish([]Original{o}, key, fault, err)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.done++
	w.tell(w.done)
}

// finish notes what became of photos with one content.
func (w *work) finish(list []Original, key, fault string, err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, o := range list {
		if fault != "" {
			w.faults[o.Name] = fault
			continue
		}
		if err != nil {
			break
		}
		p := w.find(key)
		if p == nil {
			err = fmt.Errorf("the picture that was just written to %s does not read back", w.shop.Keep)
			break
		}
		w.made[o.Name] = p
	}
	w.failed = errors.Join(w.failed, err)
}

// make makes the pictures of a photo and keeps them.
func (w *work) make(o Original) (key, fault string, err error) {
	return w.read(o, func(key string, data []byte, head *media.Photo) (fault string, err error) {
		p, files, fault, err := w.pictures(data, head)
		if head.Need > large {
			debug.FreeOSMemory() // before the next one is admitted
		}
		if fault != "" || err != nil {
			return fault, err
		}
		for _, k := range w.keeps {
			if err = k.put(key, p, files); err == nil {
				break
			}
		}
		return "", err
	})
}

// read reads a photo once, when there is memory for it: the bytes that are decoded are those that
// give the key under which the results are kept, whatever happens to the file meanwhile.
func (w *work) read(o Original, then func(key string, data []byte, head *media.Photo) (fault string, err error)) (key, fault string, err error) {
	f, size, err := o.open()
	if err != nil {
		return "", err.Error(), nil
	}
	defer f.Close()
	// The head says how much memory the photo needs, before the photo takes any.
	head := media.LookAtPhoto(f, size)
	if fault := Refused(&head); fault != "" {
		return "", fault, nil
	}
	weight := min(head.Need+size, inFlight) + besides
	if err := w.room.Acquire(context.Background(), weight); err != nil {
		return "", "", err
	}
	defer w.room.Release(weight)
	data := bytes.NewBuffer(make([]byte, 0, size+bytes.MinRead))
	if _, err := data.ReadFrom(io.NewSectionReader(f, 0, size)); err != nil {
		return "", "it cannot be read: " + plain(err), nil
	}
	key = sumOf(data.Bytes())
	now := media.LookAtPhoto(bytes.NewReader(data.Bytes()), int64(data.Len()))
	if now.Need != head.Need || Refused(&now) != "" {
		return key, "it was changed while it was read; build again", nil
	}
	fault, err = then(key, data.Bytes(), &now)
	return key, fault, err
}

// pictures decodes a photo and makes its pictures. Nothing of the decoded photo is left when
// it returns.
func (w *work) pictures(data []byte, head *media.Photo) (p *Picture, files [][]byte, fault string, err error) {
	m, err := w.patience.decode(data, head)
	if err != nil {
		return nil, nil, "it is damaged: " + err.Error(), nil
	}
	p, files, err = worked(rowsOf(m, readProfile(head.Profile), head.Kind == "WebP"), head.Turn)
	return p, files, "", err
}

// refuseTwins refuses photos whose pictures would have one name and different bytes. Names
// carry the beginning of a hash, and two files can be made to share it.
func (w *work) refuseTwins() {
	sums := map[string]string{}
	who := map[string]string{}
	for _, name := range sorted(w.made) {
		p := w.made[name]
		for _, f := range append([]File{p.JPEG}, p.WebP...) {
			if sum, ok := sums[f.Name]; ok && sum != f.Sum {
				delete(w.made, name)
				w.faults[name] = fmt.Sprintf("its address %s is that of another photo, %s; save it once more, which changes its bytes", f.Name, who[f.Name])
				break
			}
			sums[f.Name], who[f.Name] = f.Sum, name
		}
	}
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

// decode decodes a photo whose head was read. The decoder's own reading of the head is
// compared with it before anything is allocated.
func decode(data []byte, head *media.Photo, until time.Time) (image.Image, error) {
	config, read := jpeg.DecodeConfig, jpeg.Decode
	switch head.Kind {
	case "PNG":
		config, read = png.DecodeConfig, png.Decode
	case "WebP":
		config, read = webp.DecodeConfig, webp.Decode
	}
	c, err := config(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	if c.Width != head.Wide || c.Height != head.High {
		return nil, fmt.Errorf("it says that it has %d x %d pixels and %d x %d", head.Wide, head.High, c.Width, c.Height)
	}
	return read(&timed{r: bytes.NewReader(data), until: until})
}

// timed reads a little at a time until it is too late.
type timed struct {
	r     io.Reader
	until time.Time
}

func (t *timed) Read(p []byte) (int, error) {
	if time.Now().After(t.until) {
		return 0, errTooLong
	}
	return t.r.Read(p[:min(len(p), 1<<12)])
}

// open opens the file of a photo. The error is in words that follow "photo x: ".
func open(path string) (*os.File, int64, error) { return openIn(disk{}, path) }

// open opens the file of an original.
func (o Original) open() (*os.File, int64, error) {
	if o.Folder == "" {
		return open(o.Path)
	}
	folder, err := os.OpenRoot(o.Folder)
	if err != nil {
		return nil, 0, errors.New("it cannot be read: " + plain(err))
	}
	defer folder.Close()
	return openIn(folder, o.Path)
}

// place is where files are opened: os.Root is one.
type place interface {
	Stat(name string) (os.FileInfo, error)
	Open(name string) (*os.File, error)
}

// disk is the place of files that are named by their whole paths.
type disk struct{}

func (disk) Stat(name string) (os.FileInfo, error) { return os.Stat(name) }
func (disk) Open(name string) (*os.File, error)    { return os.Open(name) }

func openIn(at place, path string) (*os.File, int64, error) {
	info, err := at.Stat(path) // a pipe would keep Open waiting
	if err == nil && !info.Mode().IsRegular() {
		err = errors.New("not a plain file")
	}
	var f *os.File
	if err == nil {
		f, err = at.Open(path)
	}
	if err != nil {
		return nil, 0, errors.New("it cannot be read: " + plain(err))
	}
	if info, err = f.Stat(); err != nil || !info.Mode().IsRegular() {
		f.Close()
		return nil, 0, errors.New("it cannot be read: not a plain file")
	}
	if info.Size() > mostFile {
		f.Close()
		return nil, 0, fmt.Errorf("its file has %d MB; a photo may have %d", info.Size()>>20, mostFile>>20)
	}
	return f, info.Size(), nil
}

// keyOf is the hash of a photo's bytes, under which its pictures are kept.
func keyOf(o Original) (string, error) {
	f, _, err := o.open()
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", errors.New("it cannot be read: " + plain(err))
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// plain is an error without the call and the path.
func plain(err error) string {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
