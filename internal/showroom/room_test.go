package showroom

import (
	"bufio"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
)

// patience is how long a test waits for what it knows must come.
const patience = 20 * time.Second

// bench is a showroom over a real folder, with a site that is the folder's files.
type bench struct {
	t     *testing.T
	dir   string // the folder that is watched
	url   string
	room  *Room
	made  atomic.Int32
	close func() error
}

// set opens a showroom over the folder dir/content. Times of zero are the usual ones.
func set(t *testing.T, quiet, most time.Duration) *bench {
	t.Helper()
	b := &bench{t: t, dir: filepath.Join(t.TempDir(), "content")}
	b.write("yard.html", "yard")
	b.room = &Room{
		Make:    func() (*Site, error) { b.made.Add(1); return readAll(b.dir) },
		Folders: []string{b.dir},
		Trouble: func(err error) { t.Errorf("trouble: %v", err) },
	}
	if err := b.room.open(); err != nil {
		t.Fatal(err)
	}
	if quiet > 0 {
		b.room.watch.quiet, b.room.watch.most = quiet, most
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	b.url = "http://" + l.Addr().String()
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- b.room.serve(ctx, l) }()
	closed := false
	b.close = func() error {
		closed = true
		stop()
		select {
		case err := <-ended:
			return err
		case <-time.After(patience):
			return errors.New("the showroom does not close")
		}
	}
	t.Cleanup(func() {
		if !closed {
			if err := b.close(); err != nil {
				t.Error(err)
			}
		}
	})
	return b
}

// readAll makes a site of every file below a folder. A file that says "stop" is an error.
func readAll(dir string) (*Site, error) {
	files, version := map[string][]byte{}, sha256.New()
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if string(data) == "stop" {
			return fmt.Errorf("%s says <stop>", d.Name())
		}
		rel, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(rel)] = data
		fmt.Fprintf(version, "%q %q\n", rel, data)
		return nil
	})
	return &Site{File: fileOf(files), Version: fmt.Sprintf("%x", version.Sum(nil))}, err
}

func (b *bench) write(name, text string) {
	b.t.Helper()
	path := filepath.Join(b.dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		b.t.Fatal(err)
	}
}

func (b *bench) move(from, to string) {
	b.t.Helper()
	if err := os.Rename(filepath.Join(b.dir, from), filepath.Join(b.dir, to)); err != nil {
		b.t.Fatal(err)
	}
}

// get fetches a page.
func (b *bench) get(path string) (int, string) {
	b.t.Helper()
	resp, err := http.Get(b.url + path)
	if err != nil {
		b.t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		b.t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

// listen opens a stream and sends the versions on it, until it ends; then the error that it
// ended with.
func (b *bench) listen() (<-chan string, <-chan error) {
	b.t.Helper()
	resp, err := http.Get(b.url + eventsPath)
	if err != nil {
		b.t.Fatal(err)
	}
	if got := resp.Header.Get("Content-Type"); got != "text/event-stream" {
		b.t.Fatalf("the stream is %q, want text/event-stream", got)
	}
	versions, end := make(chan string, 100), make(chan error, 1)
	go func() {
		defer resp.Body.Close()
		r := bufio.NewReader(resp.Body)
		for {
			line, err := r.ReadString('\n')
			if v, ok := strings.CutPrefix(line, "data: "); ok {
				versions <- strings.TrimSpace(v)
			}
			if err != nil {
				end <- err
				return
			}
		}
	}()
	// The first message is the version that is shown now.
	b.next(versions)
	return versions, end
}

func (b *bench) next(versions <-chan string) string {
	b.t.Helper()
	select {
	case v := <-versions:
		return v
	case <-time.After(patience):
		b.t.Fatal("no message on the stream")
		return ""
	}
}

// until waits, message by message, until a page answers as it should.
func (b *bench) until(versions <-chan string, path string, status int, text string) {
	b.t.Helper()
	for {
		b.next(versions)
		if s, body := b.get(path); s == status && strings.Contains(body, text) {
			return
		}
	}
}

func TestWhatIsWrittenIsShown(t *testing.T) {
	b := set(t, 0, 0)
	versions, _ := b.listen()

	b.write("yard.html", "the yard, swept")
	b.until(versions, "/yard.html", 200, "the yard, swept")

	b.write("new.html", "a new one")
	b.until(versions, "/new.html", 200, "a new one")

	// As editors save: they write a scratch file and rename it.
	b.write(".new.html.swp", "saved in one step")
	b.move(".new.html.swp", "new.html")
	b.until(versions, "/new.html", 200, "saved in one step")

	if err := os.Remove(filepath.Join(b.dir, "new.html")); err != nil {
		t.Fatal(err)
	}
	b.until(versions, "/new.html", 404, "No page here")

	// A folder that appears with a folder and files in it.
	b.write("units/deep/a.html", "deep")
	b.until(versions, "/units/deep/a.html", 200, "deep")
	b.write("units/deep/a.html", "deeper")
	b.until(versions, "/units/deep/a.html", 200, "deeper")
}

// TestFolderThereAndBack: after a folder was renamed and renamed back, the system's own watches
// report wrong paths or nothing. Changes in the folder are noticed anyway.
func TestFolderThereAndBack(t *testing.T) {
	b := set(t, 0, 0)
	b.write("units/a.html", "0")
	versions, _ := b.listen()
	for i := range 5 {
		b.move("units", "moved")
		b.until(versions, "/moved/a.html", 200, "")
		b.write("moved/a.html", fmt.Sprintf("away %d", i))
		b.until(versions, "/moved/a.html", 200, fmt.Sprintf("away %d", i))
		b.move("moved", "units")
		b.until(versions, "/units/a.html", 200, fmt.Sprintf("away %d", i))
		// At once, within one batch.
		b.move("units", "moved")
		b.move("moved", "units")
		b.write("units/a.html", fmt.Sprintf("home %d", i))
		b.until(versions, "/units/a.html", 200, fmt.Sprintf("home %d", i))
	}
}

// TestTheFolderItself moves the watched folder away and back.
func TestTheFolderItself(t *testing.T) {
	b := set(t, 0, 0)
	versions, _ := b.listen()
	b.move(".", "../away")
	b.until(versions, "/yard.html", 200, "cannot be made; below is the page as it was")
	b.move("../away", ".")
	b.until(versions, "/yard.html", 200, "yard")
	b.write("yard.html", "back")
	b.until(versions, "/yard.html", 200, "back")
}

func TestManyFilesMakeOneBatch(t *testing.T) {
	t.Parallel() // most of it waits
	// Times that a busy machine does not exceed between two writes.
	b := set(t, time.Second, patience)
	versions, _ := b.listen()
	before := b.made.Load()
	for i := range 200 {
		b.write(fmt.Sprintf("u-%d.html", i), "one of many")
	}
	b.until(versions, "/u-199.html", 200, "one of many")
	if n := b.made.Load() - before; n != 1 {
		t.Errorf("200 files at once made the site %d times, want 1", n)
	}
}

// TestMostTime: a copy that never pauses is shown in between.
func TestMostTime(t *testing.T) {
	b := set(t, patience, 50*time.Millisecond)
	versions, _ := b.listen()
	b.write("yard.html", "still copying")
	b.until(versions, "/yard.html", 200, "still copying")
}

// TestNoiseMakesNothing: attributes and scratch files do not count as changes, and no page
// reloads for a site that comes out the same.
func TestNoiseMakesNothing(t *testing.T) {
	b := set(t, 0, 0)
	versions, _ := b.listen()
	before := b.made.Load()
	if err := os.Chmod(filepath.Join(b.dir, "yard.html"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"yard.html~", ".yard.html.swp", ".#yard.html", "#yard.html#", "4913", "x.swp"} {
		b.write(name, "scratch")
		if err := os.Remove(filepath.Join(b.dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	// Several quiet times: if one of the events counted, the site would be made by now.
	time.Sleep(5 * quietTime)
	if n := b.made.Load() - before; n != 0 {
		t.Errorf("noise made the site %d times, want 0", n)
	}
	// In one step, and from outside the folder: a busy machine may read a file between truncating
	// and writing it, and the site of this test has every file of the folder.
	b.write("../part", "yard") // the same text again
	b.move("../part", "yard.html")
	for deadline := time.Now().Add(patience); b.made.Load() == before && time.Now().Before(deadline); {
		time.Sleep(5 * time.Millisecond)
	}
	b.write("../part", "another")
	b.move("../part", "yard.html")
	b.next(versions)
	if _, body := b.get("/yard.html"); !strings.Contains(body, "another") {
		t.Error("the pages were told of the same text as of a change")
	}
}

// TestLostEvents: when the system says that it lost events, everything is read again.
func TestLostEvents(t *testing.T) {
	b := set(t, 0, 0)
	versions, _ := b.listen()
	system := b.room.watch.system
	if err := system.Remove(b.dir); err != nil {
		t.Fatal(err)
	}
	b.write("yard.html", "nobody told of this")
	system.Errors <- fsnotify.ErrEventOverflow
	b.until(versions, "/yard.html", 200, "nobody told of this")
	b.write("yard.html", "watched again")
	b.until(versions, "/yard.html", 200, "watched again")
}

func TestAnErrorIsShownAndFixed(t *testing.T) {
	b := set(t, 0, 0)
	versions, _ := b.listen()
	b.write("bad.html", "stop")
	b.until(versions, "/yard.html", 200, "bad.html says &lt;stop&gt;")
	_, body := b.get("/yard.html")
	if !strings.HasPrefix(body, "yard<script") {
		t.Errorf("below the error is %q, not the page as it was", body)
	}
	if status, body := b.get("/nowhere.html"); status != 503 || !strings.Contains(body, "bad.html says &lt;stop&gt;") {
		t.Errorf("a page that never was: %d, %s", status, body)
	}
	if !strings.Contains(body, "new EventSource") {
		t.Error("the page of the error does not wait for the next site")
	}
	b.write("bad.html", "good")
	b.until(versions, "/bad.html", 200, "good")
}

// TestCloseEndsTheStreams: streams end in the regular way and not by a time-out, and nothing
// hangs.
func TestCloseEndsTheStreams(t *testing.T) {
	b := set(t, 0, 0)
	var ends []<-chan error
	for range 5 {
		_, end := b.listen()
		ends = append(ends, end)
	}
	if err := b.close(); err != nil {
		t.Fatal(err)
	}
	for _, end := range ends {
		select {
		case err := <-end:
			if err != io.EOF {
				t.Errorf("a stream ended with %v, want its regular end", err)
			}
		case <-time.After(patience):
			t.Error("a stream is still open")
		}
	}
}
