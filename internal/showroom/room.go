package showroom

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"slices"
	"sync"
	"time"

	"tarepage/internal/inspect"
)

// front is the site's front page.
const front = "index.html"

// A Site is one state of the site, as it would be published, and what was found.
type Site struct {
	// Files are the finished files by their paths, as in public/.
	Files map[string][]byte
	// Units are the unit files by the path of the page that each made.
	Units map[string]string
	// Media are the files on the disk by the paths in the site at which they are played.
	Media map[string]string
	// Findings are in the order of inspect.Stock.
	Findings []inspect.Finding
}

// A Room shows a site for as long as Serve runs.
type Room struct {
	// Make makes the site anew. An error is shown in its stead.
	Make func() (*Site, error)
	// Folders are watched, with everything below them.
	Folders []string
	// Trouble is told what keeps changes from being noticed.
	Trouble func(error)

	mu    sync.Mutex
	shown *state
	next  chan struct{} // closed when shown is replaced
	done  chan struct{} // closed when the room closes
	watch *watch
}

// state is what is shown at one moment.
type state struct {
	site *Site
	err  error
	// version is the same for the same site: a page loads again only for another one.
	version string
}

// open watches and makes the site for the first time, in this order: what changes
// while it is made is noticed.
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

// Serve shows the site on the listener until the context ends, which is no error. It
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
	server := &http.Server{Handler: r.handler(), ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	closed := make(chan error, 1)
	go func() { closed <- server.Serve(l) }()
	select {
	case err := <-closed:
		close(r.done)
		return err
	case <-ctx.Done():
	}
	// The streams are ended first: Shutdown waits for them, and they for nobody else.
	close(r.done)
	last, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if err := server.Shutdown(last); errors.Is(err, context.DeadlineExceeded) {
		// A phone that stopped reading in the middle of a page is not waited for.
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
	close(r.next)
	r.next = make(chan struct{})
}

// now is what is shown, and what is closed when that is over.
func (r *Room) now() (*state, <-chan struct{}) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.shown, r.next
}

func versionOf(s *state) string {
	h := sha256.New()
	enter := func(text string) { fmt.Fprintf(h, "%d %s\n", len(text), text) }
	if s.err != nil {
		enter(s.err.Error())
	} else {
		for _, path := range slices.Sorted(maps.Keys(s.site.Files)) {
			enter(path)
			_, _ = h.Write(s.site.Files[path])
			enter(s.site.Units[path])
		}
		for _, path := range slices.Sorted(maps.Keys(s.site.Media)) {
			enter(path)
		}
		for _, f := range s.site.Findings {
			enter(f.Rule.Name + f.At.String() + f.Severity.String() + f.Unit)
			enter(f.Message + f.Remedy)
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:8])
}

// events is the stream that tells pages the version that is shown (HTML Standard,
// 9.2, server-sent events): at once, and whenever it is replaced.
func (r *Room) events(w http.ResponseWriter, req *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	if req.Method == http.MethodHead {
		return
	}
	stream := http.NewResponseController(w)
	send := func(text string) bool {
		// A peer that is gone is noticed, however many messages fit into its buffers.
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
		// A site that comes out the same loads no page again.
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
