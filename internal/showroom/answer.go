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
	// WalkPath is where Room.Walk answers.
	WalkPath = "/showroom/walk"
)

// types are the kinds of file in a site. The system's own list differs from one computer to
// the next, so it is not used.
var types = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".txt": "text/plain; charset=utf-8", ".csv": "text/csv; charset=utf-8", ".vtt": "text/vtt; charset=utf-8",
	".json": "application/json", ".xml": "application/xml", ".svg": "image/svg+xml", ".jpg": "image/jpeg",
	".png": "image/png", ".webp": "image/webp", ".avif": "image/avif", ".mp4": "video/mp4",
	".m4v": "video/mp4", ".webm": "video/webm", ".mov": "video/quicktime",
}

// handler checks a request, and then answers with one of the showroom's own addresses or
// with a file of the site.
func (r *Room) handler() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		h := w.Header()
		h.Set("Cache-Control", "no-store")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if atTheDesk(req) {
			// A browser heeds it only where the connection is safe, and complains elsewhere.
			h.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		switch {
		case !known(req.Host):
			http.Error(w, fmt.Sprintf("the showroom does not answer to the host %q; open it by its IP address or as localhost", req.Host), http.StatusForbidden)
		case !ours(req):
			http.Error(w, fmt.Sprintf("the showroom does not answer to a page of %q; open the showroom itself", req.Header.Get("Origin")), http.StatusForbidden)
		case req.URL.Path == KeyPath && req.Method == http.MethodGet:
			r.admit(w, req)
		case !r.may(req):
			noKey(w)
		case r.Walk != nil && (req.URL.Path == WalkPath || strings.HasPrefix(req.URL.Path, WalkPath+"/")):
			r.Walk.ServeHTTP(w, req)
		case req.Method != http.MethodGet && req.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			http.Error(w, fmt.Sprintf("the showroom only shows pages; it does not take %s", req.Method), http.StatusMethodNotAllowed)
		case req.ContentLength != 0:
			h.Set("Connection", "close")
			http.Error(w, "the showroom takes no body", http.StatusRequestEntityTooLarge)
		case len(req.URL.Path) > 4096:
			http.Error(w, "the address is longer than 4,096 bytes", http.StatusRequestURITooLong)
		case req.URL.Path == eventsPath:
			r.events(w, req)
		default:
			s, _ := r.now()
			(&answer{r, w, req, s, r.lastGood(), nameOf(req.URL.Path)}).show()
		}
	})
}

// nameOf is the name in the site of what an address asks for.
func nameOf(path string) string {
	name := strings.TrimPrefix(path, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += front
	}
	return name
}

// answer is one request, with what is shown now and what was shown before.
type answer struct {
	room *Room
	w    http.ResponseWriter
	req  *http.Request
	now  *state
	good *Site // Room.good
	name string
}

// show answers with a file of the site, or with a page that says why there is none. Names
// are looked up as they are, so no name leads out of a folder.
func (a *answer) show() {
	if a.req.URL.Path == findingsPath {
		if a.now.err != nil {
			a.own(http.StatusServiceUnavailable, broken(a.now.err))
		} else {
			a.own(http.StatusOK, a.now.site.findings(a.req.URL.Query().Get("page")))
		}
		return
	}
	err := a.now.err
	if err == nil {
		if a.room.play(a.w, a.req, a.name, a.now.site) {
			return
		}
		var data []byte
		if data, err = a.now.site.File(a.name); err == nil {
			a.page(data, a.now.site.panel(a.name))
			return
		}
	}
	if a.showBefore() {
		return
	}
	switch {
	case a.now.err != nil:
		a.own(http.StatusServiceUnavailable, broken(a.now.err))
	case errors.Is(err, fs.ErrNotExist) || a.now.site.tells(a.now.site.Units[a.name]):
		a.own(http.StatusNotFound, a.now.site.missing(a.req.URL.Path))
	default:
		a.own(http.StatusServiceUnavailable, broken(err))
	}
}

// showBefore answers with what the last good site had: the page as it was, below what was
// found, or a photo of that page. It does so only if a stop or an error says why there is
// nothing newer: a unit that was deleted on purpose has no page.
func (a *answer) showBefore() bool {
	if a.good == nil || a.good == a.now.site {
		return false
	}
	file := a.good.Units[a.name]
	stopped := a.now.err != nil || inspect.Count(a.now.site.Findings, inspect.Stop) > 0
	if stopped && a.room.play(a.w, a.req, a.name, a.good) {
		return true
	}
	if a.now.err == nil && !a.now.site.tells(file) {
		return false
	}
	data, err := a.good.File(a.name)
	if err == nil {
		a.page(data, a.now.over(file))
	}
	return err == nil
}

// page answers with a file of the site. A page gets the script that waits for the next
// version, and a panel.
func (a *answer) page(data, panel []byte) {
	a.w.Header().Set("Content-Type", kindOf(a.name))
	if path.Ext(a.name) == ".html" {
		data = dress(data, a.now.version, panel)
	}
	http.ServeContent(a.w, a.req, "", time.Time{}, bytes.NewReader(data))
}

// own answers with a page of the showroom's own.
func (a *answer) own(status int, page []byte) {
	a.w.Header().Set("Content-Type", types[".html"])
	a.w.Header().Set("Content-Security-Policy", ownPolicy)
	a.w.WriteHeader(status)
	_, _ = a.w.Write(dress(page, a.now.version, nil))
}

func kindOf(name string) string {
	if kind := types[strings.ToLower(path.Ext(name))]; kind != "" {
		return kind
	}
	return "application/octet-stream"
}

// fetch opens a file that the site names. If it is below the yard's folder, no link is
// followed out of that folder: a link may have replaced the file since the yard was read.
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
		// Opening a pipe could wait forever.
		if info, err := root.Stat(name); err != nil || !info.Mode().IsRegular() {
			return nil, fs.ErrNotExist
		}
		return root.Open(name)
	}
	return os.Open(file)
}

// play answers with a file from the disk, in the ranges that a player asks for (RFC 9110,
// 14). It reports false if the site has no such file, or if the file was deleted since.
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
