package showroom

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"tarepage/internal/inspect"
)

// The showroom's own addresses. No page of a site has a name below showroom/.
const (
	findingsPath = "/showroom/findings"
	eventsPath   = "/showroom/events"
)

// types are the files of a site. The system's own list is not asked: it differs from
// one computer to the next.
var types = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".txt": "text/plain; charset=utf-8", ".csv": "text/csv; charset=utf-8", ".vtt": "text/vtt; charset=utf-8",
	".json": "application/json", ".xml": "application/xml", ".svg": "image/svg+xml", ".jpg": "image/jpeg",
	".png": "image/png", ".webp": "image/webp", ".avif": "image/avif", ".mp4": "video/mp4",
	".m4v": "video/mp4", ".webm": "video/webm", ".mov": "video/quicktime",
}

// handler answers: the guard first, then the showroom's own addresses, then the site.
func (r *Room) handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		h := w.Header()
		h.Set("Cache-Control", "no-store")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		switch {
		case !known(req.Host):
			http.Error(w, fmt.Sprintf("the showroom does not answer to the host %q; open it by its IP address or as localhost", req.Host), http.StatusForbidden)
		case !ours(req):
			http.Error(w, fmt.Sprintf("the showroom does not answer to a page of %q; open it itself", req.Header.Get("Origin")), http.StatusForbidden)
		case req.Method != http.MethodGet && req.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			http.Error(w, fmt.Sprintf("the showroom is only looked at; it takes no %s", req.Method), http.StatusMethodNotAllowed)
		case req.ContentLength != 0:
			h.Set("Connection", "close")
			http.Error(w, "the showroom takes no body", http.StatusRequestEntityTooLarge)
		case len(req.URL.Path) > 4096:
			http.Error(w, "no address here is that long", http.StatusRequestURITooLong)
		case req.URL.Path == eventsPath:
			r.events(w, req)
		default:
			r.show(w, req)
		}
	})
}

// show answers with a file of the site, or with a page that says why there is none. Names
// are looked up as they are: there is no folder to climb out of. Where a page cannot be
// made, the one that was last made stands below what was found.
func (r *Room) show(w http.ResponseWriter, req *http.Request) {
	s, _ := r.now()
	own := func(status int, page []byte) {
		w.Header().Set("Content-Type", types[".html"])
		w.Header().Set("Content-Security-Policy", ownPolicy)
		w.WriteHeader(status)
		_, _ = w.Write(dress(page, s.version, nil))
	}
	good := r.lastGood()
	if req.URL.Path == findingsPath {
		if s.err != nil {
			own(http.StatusServiceUnavailable, broken(s.err))
			return
		}
		own(http.StatusOK, s.site.findings(req.URL.Query().Get("page")))
		return
	}
	name := strings.TrimPrefix(req.URL.Path, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += front
	}
	page := func(data []byte, panel []byte) {
		w.Header().Set("Content-Type", kindOf(name))
		if path.Ext(name) == ".html" {
			data = dress(data, s.version, panel)
		}
		http.ServeContent(w, req, "", time.Time{}, bytes.NewReader(data))
	}
	err := s.err
	if err == nil {
		if r.play(w, req, name, s.site) {
			return
		}
		var data []byte
		if data, err = s.site.File(name); err == nil {
			page(data, s.site.panel(name))
			return
		}
	}
	// Gone on purpose, or because it does not read: only of the latter does anything tell.
	if good != nil && good != s.site && (s.err != nil || inspect.Count(s.site.Findings, inspect.Stop) > 0) && r.play(w, req, name, good) {
		return // a photo on the page that stands below what was found
	}
	if good != nil && good != s.site && (s.err != nil || s.site.tells(good.Units[name])) {
		if data, failed := good.File(name); failed == nil {
			page(data, s.over(good.Units[name]))
			return
		}
	}
	switch {
	case s.err != nil:
		own(http.StatusServiceUnavailable, broken(s.err))
	case errors.Is(err, fs.ErrNotExist) || s.site.tells(s.site.Units[name]):
		own(http.StatusNotFound, s.site.missing(req.URL.Path))
	default:
		own(http.StatusServiceUnavailable, broken(err))
	}
}

func kindOf(name string) string {
	if kind := types[strings.ToLower(path.Ext(name))]; kind != "" {
		return kind
	}
	return "application/octet-stream"
}

// fetch opens a file that the site names. What is named below the yard's folder is there, and
// not where a link leads that came into its place since the yard was read.
func (r *Room) fetch(file string) (*os.File, error) {
	for _, folder := range r.Folders {
		name, err := filepath.Rel(folder, file)
		if err != nil || !filepath.IsLocal(name) {
			continue
		}
		root, err := os.OpenRoot(folder)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		// A pipe would keep the answer waiting for ever.
		if info, err := root.Stat(name); err != nil || !info.Mode().IsRegular() {
			return nil, fs.ErrNotExist
		}
		return root.Open(name)
	}
	return os.Open(file)
}

// play answers with a file from the disk, in the ranges that a player asks for (RFC 9110,
// 14). It reports false for what is none, or is gone since the site was made.
func (r *Room) play(w http.ResponseWriter, req *http.Request, name string, s *Site) bool {
	if s.Disk == nil || path.Ext(name) == ".html" {
		return false
	}
	file, err := s.Disk(name)
	if err != nil {
		return false
	}
	f, err := r.fetch(file)
	if err != nil {
		return false
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return false
	}
	var content io.ReadSeeker = f
	if strings.HasPrefix(kindOf(name), "video/") && s.Video != nil {
		video, size, err := s.Video(f)
		if err != nil {
			return false
		}
		content = io.NewSectionReader(video, 0, size)
	}
	w.Header().Set("Content-Type", kindOf(name))
	http.ServeContent(w, req, "", info.ModTime(), content)
	return true
}
