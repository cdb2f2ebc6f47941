package showroom

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"sync"
	"time"

	"tarepage/internal/inspect"
)

// front is the site's front page.
const front = "index.html"

// A Site is one state of the site, as it would be published, and what was found.
type Site struct {
	// Version is the same for the same site: an open page reloads only for another version.
	Version string
	// File makes the file with the path, as in public/; its error is fs.ErrNotExist if there
	// is none. Several requests may call it at the same time.
	File func(path string) ([]byte, error)
	// Disk, if it is not nil, says where the files are on the disk that a site copies. It is
	// asked first, but not for pages.
	Disk func(path string) (string, error)
	// Video, if it is not nil, is what customers may have of an open video: how to read it
	// and how many bytes it has. An error means that nothing of it may be shown.
	Video func(f *os.File) (io.ReaderAt, int64, error)
	// Units are the unit files by the path of the page that each makes.
	Units map[string]string
	// Findings are in the order of inspect.Stock.
	Findings []inspect.Finding
}

// A Room shows a site for as long as Serve runs.
type Room struct {
	// Make makes the site again. If it fails, the error is shown instead.
	Make func() (*Site, error)
	// Folders are watched, with everything below them.
	Folders []string
	// Key admits the other computers and phones of the network; this computer needs none. If it
	// is empty, nobody else sees anything.
	Key string
	// Walk, if it is not nil, answers below WalkPath: the pages on which a unit is confirmed. A
	// request reaches it only after host, origin and key were checked.
	Walk http.Handler
	// Trouble is told what keeps changes from being noticed.
	Trouble func(error)

	mu    sync.Mutex
	shown *state
	good  *Site         // the last one without stops, or the first; its pages are shown for those that cannot be made
	next  chan struct{} // closed when shown is replaced
	done  chan struct{} // closed when the room closes
	watch *watch
}

// state is what is shown at one moment.
type state struct {
	site *Site
	err  error
	// version is the site's, or one of the error.
	version string
}

// open begins to watch and then makes the site for the first time, so that a change in the
// meantime is noticed.
func (r *Room) open() error {
	w, err := newWatch(r.Folders, r.Trouble)
	if err != nil {
		return err
	}
	r.watch = w
	r.next, r.done = make(chan struct{}), make(chan struct{})
	r.remake()
	return nil
}

// Serve shows the site on the listener until the context ends, which is not an error. It
// closes the listener.
func (r *Room) Serve(ctx context.Context, l net.Listener) error {
	defer l.Close()
	if err := r.open(); err != nil {
		return err
	}
	return r.serve(ctx, l)
}

func (r *Room) serve(ctx context.Context, l net.Listener) error {
	ctx, stop := context.WithCancel(ctx)
	var wg sync.WaitGroup
	defer wg.Wait()
	defer stop()
	wg.Go(func() { r.watch.run(ctx) })
	wg.Go(func() {
		for {
			select {
			case <-ctx.Done():
				return
			case <-r.watch.changed:
				r.remake()
			}
		}
	})
	// Somebody in the same network may not use up the computer: requests are short, and
	// connections are counted. Answers have no limit, because a video may be long.
	server := &http.Server{Handler: r.handler(), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 20 * time.Second,
		IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 16 << 10, ConnContext: withConnection}
	l = limit(l, mostGuests, mostStrangers, mostOfOne)
	closed := make(chan error, 1)
	go func() { closed <- server.Serve(l) }()
	select {
	case err := <-closed:
		close(r.done)
		return err
	case <-ctx.Done():
	}
	// The streams are ended first, because Shutdown waits for them.
	close(r.done)
	last, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(last); errors.Is(err, context.DeadlineExceeded) {
		// Do not wait for a phone that stopped reading in the middle of a page.
		return server.Close()
	} else if err != nil {
		return err
	}
	return nil
}

// remake makes the site and shows it.
func (r *Room) remake() {
	s := &state{}
	s.site, s.err = r.Make()
	s.version = versionOf(s)
	r.mu.Lock()
	defer r.mu.Unlock()
	r.shown = s
	if s.err == nil && (r.good == nil || inspect.Count(s.site.Findings, inspect.Stop) == 0) {
		r.good = s.site
	}
	close(r.next)
	r.next = make(chan struct{})
}

// lastGood is the last site without stops, or the first site.
func (r *Room) lastGood() *Site {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.good
}

// now is what is shown, and a channel that is closed when something else is shown.
func (r *Room) now() (*state, <-chan struct{}) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.shown, r.next
}

func versionOf(s *state) string {
	if s.err == nil {
		return s.site.Version
	}
	sum := sha256.Sum256([]byte(s.err.Error()))
	return "error-" + hex.EncodeToString(sum[:8])
}

// events is the stream that tells open pages which version is shown (HTML Standard, 9.2,
// server-sent events): at once, and whenever it changes.
func (r *Room) events(w http.ResponseWriter, req *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	if req.Method == http.MethodHead {
		return
	}
	stream := http.NewResponseController(w)
	send := func(text string) bool {
		// This notices a browser that is gone, however many messages fit into the buffers.
		_ = stream.SetWriteDeadline(time.Now().Add(10 * time.Second))
		_, err := io.WriteString(w, text)
		return err == nil && stream.Flush() == nil
	}
	if !send("retry: 500\n\n") {
		return
	}
	beat := time.NewTicker(20 * time.Second)
	defer beat.Stop()
	told := ""
	for {
		s, next := r.now()
		// No page reloads for a site that comes out the same.
		if s.version != told {
			told = s.version
			if !send("data: " + told + "\n\n") {
				return
			}
		}
		select {
		case <-next:
		case <-beat.C:
			if !send(": still here\n\n") {
				return
			}
		case <-req.Context().Done():
			return
		case <-r.done:
			return
		}
	}
}
