package showroom

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// nowhere is a listener that nothing reaches.
type nowhere struct{ addr net.Addr }

func (n nowhere) Addr() net.Addr            { return n.addr }
func (n nowhere) Accept() (net.Conn, error) { return nil, errors.New("too many open files") }
func (n nowhere) Close() error              { return nil }

// TestWhatToOpen: the addresses to open, by what the listener listens on. One of IPv4 alone
// (0.0.0.0) is not reached by an address of IPv6, and a listener that is not TCP by none.
func TestWhatToOpen(t *testing.T) {
	tcp := func(ip string) nowhere { return nowhere{&net.TCPAddr{IP: net.ParseIP(ip), Port: 2516}} }
	for ip, want := range map[string]string{
		"127.0.0.1": "here [http://127.0.0.1:2516/] others []", "::1": "here [http://[::1]:2516/] others []",
		"192.0.2.7": "here [] others [http://192.0.2.7:2516/]", "2001:db8::7": "here [] others [http://[2001:db8::7]:2516/]",
	} {
		here, others := Addresses(tcp(ip))
		if got := fmt.Sprintf("here %v others %v", here, others); got != want {
			t.Errorf("%s: %s, want %s", ip, got, want)
		}
	}
	here, others := Addresses(tcp("0.0.0.0"))
	if len(here) != 1 || here[0] != "http://127.0.0.1:2516/" {
		t.Errorf("here %v", here)
	}
	for _, o := range others {
		if strings.Contains(o, "[") {
			t.Errorf("an address of IPv6 for IPv4 alone: %s", o)
		}
	}
	if here, others := Addresses(nowhere{&net.UnixAddr{Name: "/x"}}); here != nil || others != nil {
		t.Errorf("%v, %v", here, others)
	}
}

// TestTakenPort: the message names the next port, and of the last one the port before it.
func TestTakenPort(t *testing.T) {
	for _, port := range []int{65535, 0} {
		l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
		if err != nil {
			continue // somebody else has the last port at this moment
		}
		defer l.Close()
		n := l.Addr().(*net.TCPAddr).Port
		want := fmt.Sprintf("or write -at 127.0.0.1:%d", n+1)
		if n == 65535 {
			want = "or write -at 127.0.0.1:65534"
		}
		if got, err := Listen(l.Addr().String()); err == nil {
			got.Close()
			t.Errorf("%d opens twice", n)
		} else if !strings.HasSuffix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// TestAcceptFails: an error of the listener comes out; a connection whose
// other side has no port counts by its whole address.
func TestAcceptFails(t *testing.T) {
	l := limit(nowhere{}, 1, 1, 1)
	for range 3 {
		if c, err := l.Accept(); c != nil || err == nil || err.Error() != "too many open files" {
			t.Fatalf("%v, %v", c, err)
		}
	}
	a, b := net.Pipe()
	defer a.Close()
	defer b.Close()
	if got := hostOf(a); got != "pipe" {
		t.Errorf("the other side of a pipe is %q", got)
	}
}

// TestPagesOfFindings at the limits of a page: 200 findings are one page, 201 are two.
func TestPagesOfFindings(t *testing.T) {
	for n, want := range map[int][]string{0: {"Nothing found", "Every unit adds up."}, 1: {"1 stop"}, onePage: {"200 stops"}, onePage + 1: {"Page 1 of 2.", `findings?page=2"`}} {
		s := &Site{Units: map[string]string{}}
		for i := range n {
			file := fmt.Sprintf("content/units/u-%d.md", i)
			s.Findings = append(s.Findings, inspect.Finding{Rule: &inspect.Rule{Name: "some-rule"}, Severity: inspect.Stop, Unit: file, Message: fmt.Sprintf("finding-%d-", i), At: unit.Pos{File: file, Line: 1, Column: 1}})
		}
		page := string(s.findings(""))
		for _, w := range want {
			if !strings.Contains(page, w) {
				t.Errorf("%d findings: the page lacks %q", n, w)
			}
		}
		if n <= onePage && (strings.Contains(page, "Page 1") || strings.Contains(page, "?page=")) {
			t.Errorf("%d findings are on more than one page", n)
		}
		if n != onePage+1 {
			continue
		}
		second := string(s.findings("2"))
		if !strings.Contains(second, "Page 2 of 2.") || !strings.Contains(second, `findings?page=1"`) || strings.Contains(second, "?page=3") || strings.Contains(page, "?page=0") ||
			!strings.Contains(second, "finding-200-") || strings.Contains(second, "finding-199-") || strings.Contains(page, "finding-200-") {
			t.Errorf("the second page is\n%s", second)
		}
	}
}

// TestAnswersWithoutASite: a yard that could not be made answers with why, and a site whose file
// does not open says so; neither is a page that is missing.
func TestAnswersWithoutASite(t *testing.T) {
	none := still(t, nil, errors.New("the yard's file is gone"))
	for _, path := range []string{"/", "/u/a.html", findingsPath} {
		if w := ask(none, "GET", "localhost", path); w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "the yard&#39;s file is gone") {
			t.Errorf("%s: %d %s", path, w.Code, w.Body)
		}
	}
	bad := still(t, &Site{File: func(string) ([]byte, error) { return nil, errors.New("the disk is gone") }}, nil)
	if w := ask(bad, "GET", "localhost", "/u/a.html"); w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "the disk is gone") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}

// TestFetch opens regular files of the yard and files elsewhere that the site names, and follows
// no link out of a folder.
func TestFetch(t *testing.T) {
	folder, outside := t.TempDir(), t.TempDir()
	write := func(name string) string {
		if err := os.WriteFile(name, []byte(filepath.Base(name)), 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	in, out := write(filepath.Join(folder, "in.mp4")), write(filepath.Join(outside, "out.mp4"))
	r := &Room{Folders: []string{filepath.Join(folder, "other"), folder}}
	for _, name := range []string{in, out} {
		f, err := r.fetch(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		f.Close()
	}
	refused := []string{folder, filepath.Join(folder, "gone.mp4"), filepath.Join(folder, "other", "gone.mp4"), filepath.Join(outside, "gone.mp4")}
	if runtime.GOOS != "windows" {
		link := filepath.Join(folder, "link.mp4")
		if err := os.Symlink(out, link); err != nil {
			t.Fatal(err)
		}
		refused = append(refused, link)
	}
	for _, name := range refused {
		if f, err := r.fetch(name); err == nil {
			f.Close()
			t.Errorf("%s was opened", name)
		}
	}
	// What the site plays is a regular file that it has.
	site := &Site{File: one.File, Disk: func(name string) (string, error) {
		if name == "media/a.mp4" {
			return in, nil
		}
		if name == "media/folder.mp4" {
			return outside, nil
		}
		return "", os.ErrNotExist
	}}
	h := still(t, site, nil)
	for path, want := range map[string]string{"/media/a.mp4": "in.mp4", "/media/folder.mp4": "", "/media/b.mp4": ""} {
		w := ask(h, "GET", "localhost", path)
		if got := w.Body.String(); (want != "") != (w.Code == http.StatusOK) || want != "" && got != want {
			t.Errorf("%s: %d %.60q", path, w.Code, got)
		}
	}
}
