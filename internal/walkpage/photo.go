package walkpage

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"tarepage/internal/files"
	"tarepage/internal/walkback"
)

// photoPath follows the name of a unit in the address that takes a photo.
const photoPath = "/photo"

const (
	// mostPhoto is how many bytes a photo may have: a phone's largest is about half of it.
	mostPhoto = 40 << 20
	// mostArriving is how many photos are taken at once: each is held in memory until it is whole.
	mostArriving = 4
	// photoTime is how long a photo may take over a weak signal.
	photoTime = 3 * time.Minute
	// mostKeys is how many values one photo may prove.
	mostKeys = 40
)

// photoKinds are the pictures that can be published, by what their bytes are (WHATWG, MIME
// Sniffing, 6.1), with the endings of their files.
var photoKinds = map[string]string{"image/jpeg": ".jpg", "image/png": ".png", "image/webp": ".webp"}

// takePhoto keeps a photo in content/media and names it in the unit's file as the proof of the
// values in the address. A form of another site cannot send a picture as its own kind.
func (d *Desk) takePhoto(w http.ResponseWriter, req *http.Request, name string) {
	if !strings.HasPrefix(req.Header.Get("Content-Type"), "image/") {
		http.Error(w, "this address takes a photo", http.StatusUnsupportedMediaType)
		return
	}
	defer d.arriving.Add(-1)
	if d.arriving.Add(1) > mostArriving {
		w.Header().Set("Retry-After", "10")
		http.Error(w, "other photos are being sent at this moment; send it again", http.StatusServiceUnavailable)
		return
	}
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(photoTime))
	data, err := io.ReadAll(http.MaxBytesReader(w, req.Body, mostPhoto))
	if err != nil {
		http.Error(w, fmt.Sprintf("the photo did not arrive whole, or has more than %d MB", mostPhoto>>20), http.StatusBadRequest)
		return
	}
	ending := photoKinds[http.DetectContentType(data)]
	if ending == "" {
		http.Error(w, "this is not a JPEG, PNG or WebP; tell the phone's camera to save JPEG", http.StatusUnsupportedMediaType)
		return
	}
	ask := req.URL.Query()
	p := walkback.Photo{Place: ask.Get("place"), Keys: ask["key"]}
	if ask.Has("private") {
		p.Private = "not for customers"
	}
	if len(p.Keys) > mostKeys {
		http.Error(w, "a photo proves fewer values", http.StatusBadRequest)
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	v, err := d.keepPhoto(name, data, ending, p)
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(v.in(languageOf(req)))
}

// keepPhoto writes the photo and then the unit's file. If the second cannot be, the photo goes.
func (d *Desk) keepPhoto(name string, data []byte, ending string, p walkback.Photo) (*view, error) {
	path, before, err := d.read(name)
	if err != nil {
		return nil, err
	}
	if err := d.took.photo(name, int64(len(data))); err != nil {
		return nil, refused{err}
	}
	media := filepath.Join(d.From, "content", "media")
	what := strings.NewReplacer(" ", "-", "'", "").Replace(p.Place)
	for n := 1; ; n++ {
		p.File = fmt.Sprintf("media/%s-%s-%d%s", strings.ToLower(name), what, n, ending)
		if _, err := os.Lstat(filepath.Join(d.From, "content", filepath.FromSlash(p.File))); errors.Is(err, os.ErrNotExist) {
			break
		} else if err != nil || n == 999 {
			return nil, errors.Join(fmt.Errorf("the photo cannot be kept in %s", media), err)
		}
	}
	after, err := walkback.AddPhoto(before, p)
	if err != nil {
		return nil, refused{err}
	}
	file := filepath.Join(d.From, "content", filepath.FromSlash(p.File))
	if err := files.NoLinks(d.From, file); err != nil {
		return nil, err
	}
	if err := files.WriteNew(file, data); err != nil {
		return nil, err
	}
	if err := d.write(name, path, before, after); err != nil {
		return nil, errors.Join(err, files.Remove([]string{file}))
	}
	d.took.tookPhoto(name, int64(len(data)))
	return d.viewOf(name, after)
}

// refused is an error of what was sent, and not of the desk.
type refused struct{ error }
