package showroom

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// still is a room that shows one site and watches nothing.
func still(t *testing.T, s *Site, err error) http.Handler {
	t.Helper()
	r := &Room{Make: func() (*Site, error) { return s, err }, Trouble: func(err error) { t.Error(err) }}
	if err := r.open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = r.watch.system.Close() })
	return r.handler()
}

func ask(h http.Handler, method, host, path string) *httptest.ResponseRecorder {
	req := httptest.NewRequest(method, "http://127.0.0.1"+path, nil)
	req.RemoteAddr = desk
	req.Host = host
	w := httptest.NewRecorder()
	h.ServeHTTP(w, req)
	return w
}

var one = &Site{File: fileOf(map[string][]byte{"index.html": []byte("<title>the yard</title>"), "u/a.html": []byte("<p>a"),
	"stock.csv": []byte("a,b\n"), "odd.xyz": []byte("?")})}

// fileOf gives files that are made already.
func fileOf(files map[string][]byte) func(string) ([]byte, error) {
	return func(path string) ([]byte, error) {
		if data, ok := files[path]; ok {
			return data, nil
		}
		return nil, fs.ErrNotExist
	}
}

// TestHosts: a name from the web is refused with any port, because somebody could make it lead
// to this computer. RFC 9110, 7.2 and RFC 3986, 3.2.2 give the forms.
func TestHosts(t *testing.T) {
	h := still(t, one, nil)
	for host, want := range map[string]int{
		"127.0.0.1:2516": 200, "127.0.0.1": 200, "localhost:2516": 200, "LocalHost": 200, "localhost.": 200,
		"[::1]:2516": 200, "[::1]": 200, "192.0.2.7:2516": 200, "[2001:db8::1]:80": 200,
		"": 403, "yard.example": 403, "yard.example:2516": 403, "localhost.yard.example": 403, "127.0.0.1.yard.example": 403,
		"localhost@yard.example": 403, "2130706433": 403, "0x7f.1": 403, "127.0.0.1,yard.example": 403,
	} {
		for _, path := range []string{"/", findingsPath, eventsPath} {
			method := http.MethodGet
			if path == eventsPath {
				method = http.MethodHead
			}
			if got := ask(h, method, host, path).Code; got != want {
				t.Errorf("host %q, %s: status %d, want %d", host, path, got, want)
			}
		}
	}
	if body := ask(h, "GET", "yard.example", "/").Body.String(); !strings.Contains(body, `"yard.example"`) || strings.Contains(body, "the yard") {
		t.Errorf("a refused host gets %q", body)
	}
}

func TestOnlyLookedAt(t *testing.T) {
	h := still(t, one, nil)
	for _, method := range []string{"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND"} {
		for _, path := range []string{"/", eventsPath} {
			w := ask(h, method, "localhost", path)
			if w.Code != http.StatusMethodNotAllowed || w.Header().Get("Allow") != "GET, HEAD" {
				t.Errorf("%s %s: status %d, allow %q", method, path, w.Code, w.Header().Get("Allow"))
			}
		}
	}
}

// TestHead: the headers of GET and no body (RFC 9110, 9.3.2), through a real server.
func TestHead(t *testing.T) {
	server := httptest.NewServer(still(t, one, nil))
	defer server.Close()
	for _, path := range []string{"/", "/u/a.html", "/nowhere", findingsPath, eventsPath} {
		resp, err := http.Head(server.URL + path)
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(resp.Body)
		resp.Body.Close()
		if len(body) > 0 || resp.Header.Get("Content-Type") == "" {
			t.Errorf("HEAD %s: %d bytes, type %q", path, len(body), resp.Header.Get("Content-Type"))
		}
	}
}

func TestAnswers(t *testing.T) {
	h := still(t, one, nil)
	for _, c := range []struct {
		path, kind string
		status     int
	}{
		{"/", "text/html; charset=utf-8", 200},
		{"/index.html", "text/html; charset=utf-8", 200},
		{"/?from=phone", "text/html; charset=utf-8", 200},
		{"/u/a.html", "text/html; charset=utf-8", 200},
		{"/stock.csv", "text/csv; charset=utf-8", 200},
		{"/odd.xyz", "application/octet-stream", 200},
		{"/u/", "text/html; charset=utf-8", 404},
		{"/u/A.html", "text/html; charset=utf-8", 404},
		{"/showroom/", "text/html; charset=utf-8", 404},
	} {
		w := ask(h, "GET", "localhost", c.path)
		if w.Code != c.status || w.Header().Get("Content-Type") != c.kind {
			t.Errorf("%s: status %d, type %q; want %d, %q", c.path, w.Code, w.Header().Get("Content-Type"), c.status, c.kind)
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY",
			"Cache-Control": "no-store", "Referrer-Policy": "no-referrer", "Cross-Origin-Resource-Policy": "same-origin"} {
			if got := w.Header().Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", c.path, name, got, want)
			}
		}
	}
	if got := ask(h, "GET", "localhost", "/stock.csv").Body.String(); got != "a,b\n" {
		t.Errorf("a file that is not a page comes as %q", got)
	}
}

// TestNoWayOut writes paths as no client library would.
func TestNoWayOut(t *testing.T) {
	server := httptest.NewServer(still(t, one, nil))
	defer server.Close()
	for _, path := range []string{"/../answer.go", "/u/../../answer.go", "/%2e%2e/answer.go", "/..%2fanswer.go", "/u/..%5c..%5canswer.go",
		"//etc/passwd", "/./answer.go", "/answer.go", "/u/%00", "/\\..\\answer.go", "/%252e%252e/answer.go", "/..;/answer.go", "/%c0%ae%c0%ae/answer.go", "/%uff0e%uff0e/answer.go", "/u/%2e%2e/%2e%2e/answer.go",
		"/../../../../../../etc/passwd", "/file:///etc/passwd", "/C:/Windows/win.ini", "/showroom/../answer.go", "/showroom/events/../../answer.go"} {
		c, err := net.Dial("tcp", server.Listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		_ = c.SetDeadline(time.Now().Add(patience))
		fmt.Fprintf(c, "GET %s HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", path)
		resp, err := http.ReadResponse(bufio.NewReader(c), nil)
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		if resp.StatusCode != http.StatusNotFound && resp.StatusCode != http.StatusBadRequest {
			t.Errorf("%s: status %d, want 404 or 400", path, resp.StatusCode)
		}
		resp.Body.Close()
		c.Close()
	}
}

// TestRawRequests writes whole requests that no browser would send: the target as a whole
// address (RFC 9112, 3.2.2: its host counts), no host or several, a tunnel, a WebSocket, pages
// of another site. None of those gets the yard; our own requests do.
func TestRawRequests(t *testing.T) {
	server := httptest.NewServer(still(t, one, nil))
	defer server.Close()
	at := server.Listener.Addr().String()
	for request, want := range map[string][]int{
		"GET / HTTP/1.1\r\nHost: " + at + "\r\n":                                 {200},
		"GET / HTTP/1.1\r\nHost: " + at + "\r\nOrigin: http://" + at + "\r\n":    {200},
		"GET http://" + at + "/ HTTP/1.1\r\nHost: " + at + "\r\n":                {200},
		"GET http://yard.example/ HTTP/1.1\r\nHost: " + at + "\r\n":              {403},
		"GET http://yard.example/ HTTP/1.1\r\nHost: yard.example\r\n":            {403},
		"GET http://" + at + "/../../answer.go HTTP/1.1\r\nHost: " + at + "\r\n": {404, 400},
		"GET file:///etc/passwd HTTP/1.1\r\nHost: " + at + "\r\n":                {403, 404, 400},
		"GET / HTTP/1.1\r\n": {400},
		"GET / HTTP/1.0\r\n": {403},
		"GET / HTTP/1.1\r\nHost: " + at + "\r\nHost: yard.example\r\n":                             {400},
		"GET / HTTP/1.1\r\nHost: yard.example\r\nX-Forwarded-Host: " + at + "\r\n":                 {403},
		"GET / HTTP/1.1\r\nHost: 127.0.0.1.yard.example:80\r\n":                                    {403},
		"GET / HTTP/1.1\r\nHost: " + at + "@yard.example\r\n":                                      {400, 403},
		"GET / HTTP/1.1\r\nHost: yard.example#" + at + "\r\n":                                      {400, 403},
		"CONNECT yard.example:443 HTTP/1.1\r\nHost: yard.example:443\r\n":                          {403, 405},
		"CONNECT " + at + " HTTP/1.1\r\nHost: " + at + "\r\n":                                      {405},
		"GET " + eventsPath + " HTTP/1.1\r\nHost: " + at + "\r\nOrigin: http://yard.example\r\n":   {403},
		"GET " + eventsPath + " HTTP/1.1\r\nHost: " + at + "\r\nOrigin: null\r\n":                  {403},
		"GET " + eventsPath + " HTTP/1.1\r\nHost: " + at + "\r\nOrigin: https://" + at + "\r\n":    {403},
		"GET " + eventsPath + " HTTP/1.1\r\nHost: yard.example\r\nOrigin: http://yard.example\r\n": {403},
		"GET / HTTP/1.1\r\nHost: " + at + "\r\nOrigin: http://yard.example\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n": {403},
	} {
		c, err := net.Dial("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		_ = c.SetDeadline(time.Now().Add(patience))
		if !strings.Contains(request, "Connection:") {
			request += "Connection: close\r\n"
		}
		fmt.Fprintf(c, "%s\r\n", request)
		resp, err := http.ReadResponse(bufio.NewReader(c), nil)
		if err != nil {
			t.Fatalf("%q: %v", request, err)
		}
		body, _ := io.ReadAll(io.LimitReader(resp.Body, 1<<20))
		if !slices.Contains(want, resp.StatusCode) || (resp.StatusCode != 200) == strings.Contains(string(body), "<title>the yard") {
			t.Errorf("%q: status %d, want %d; it gets %.200q", request, resp.StatusCode, want, body)
		}
		if resp.Header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%q: pages of others may read the answer", request)
		}
		resp.Body.Close()
		c.Close()
	}
}

// TestLinksLeadNowhere: after the yard was read, a file that the site plays, or its folder, is
// replaced by a link out of the folder or by a device.
func TestLinksLeadNowhere(t *testing.T) {
	base := t.TempDir()
	content := filepath.Join(base, "content")
	write := func(name, text string) {
		path := filepath.Join(base, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	write("content/media/walk.mp4", "ours")
	write("elsewhere/walk.mp4", "secret")
	disk := func(path string) (string, error) { return filepath.Join(content, filepath.FromSlash(path)), nil }
	r := &Room{Make: func() (*Site, error) { return &Site{File: one.File, Disk: disk}, nil }, Folders: []string{content}, Trouble: func(err error) { t.Error(err) }}
	if err := r.open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = r.watch.system.Close() })
	h := r.handler()
	plays := func() (int, string) {
		w := ask(h, "GET", "localhost", "/media/walk.mp4")
		return w.Code, w.Body.String()
	}
	if status, body := plays(); status != 200 || body != "ours" {
		t.Errorf("status %d, %q", status, body)
	}
	media := filepath.Join(content, "media")
	swap := func(path, target string) {
		if err := os.RemoveAll(path); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(target, path); err != nil {
			t.Skip("NOT CHECKED: no symbolic links here: ", err)
		}
	}
	for _, c := range []struct{ path, target string }{
		{filepath.Join(media, "walk.mp4"), filepath.Join(base, "elsewhere", "walk.mp4")},
		{filepath.Join(media, "walk.mp4"), "../../elsewhere/walk.mp4"},
		{filepath.Join(media, "walk.mp4"), os.DevNull},
		{media, filepath.Join(base, "elsewhere")},
		{media, "../elsewhere"},
	} {
		swap(c.path, c.target)
		if status, body := plays(); status != 404 || strings.Contains(body, "secret") {
			t.Errorf("%s is a link to %s: status %d, %.100q", c.path, c.target, status, body)
		}
	}
}

// found is a site with two units that have pages and one that has none.
func found() *Site {
	finding := func(file string, s inspect.Severity, message string) inspect.Finding {
		return inspect.Finding{Rule: inspect.Lookup("tires-under-axle"), Severity: s, Unit: file, At: unit.Pos{File: file, Line: 31, Column: 9},
			Message: message, Source: "49 CFR 571.120", Remedy: "fit larger tires",
			Related: []unit.Place{{At: unit.Pos{File: file, Line: 5, Column: 2}, What: "the size"}}}
	}
	return &Site{
		File:  fileOf(map[string][]byte{"index.html": []byte("<body>yard"), "u/a.html": []byte("<body>a"), "u/b.html": []byte("<body>b"), "how.html": []byte("<body>how")}),
		Units: map[string]string{"u/a.html": "content/units/a.md", "u/b.html": "content/units/b.md"},
		Findings: []inspect.Finding{
			finding("content/units/a.md", inspect.Stop, "a's tires carry <too> little"),
			finding("content/units/a.md", inspect.Caution, "a is wide"),
			finding("content/units/b.md", inspect.Remark, "b has no price"),
			finding("content/units/c.md", inspect.Stop, "c does not read"),
		},
	}
}

func TestFindingsAreOnTheirPages(t *testing.T) {
	h := still(t, found(), nil)
	const a, b, c = "a&#39;s tires carry &lt;too&gt; little", "b has no price", "c does not read"
	for path, want := range map[string][]string{
		"/u/a.html":          {a, "content/units/a.md:31:9", "fix: fit larger tires", "content/units/a.md:5:2", "49 CFR 571.120", "1 stop, 1 caution; this unit is not published", "<details><summary>1 caution</summary>", "a is wide", "<details open>"},
		"/u/b.html":          {b, "Showroom: 1 remark<"},
		"/":                  {c, "content/units/c.md:31:9", "2 stops, 1 caution, 1 remark in the whole yard", "<details open>"},
		"/how.html":          {},
		"/u/c.html":          {c, "content/units/c.md:31:9", "No page was made"},
		"/showroom/findings": {a, b, c, `href="/u/a.html"`, `href="/u/b.html"`, "2 stops, 1 caution, 1 remark"},
	} {
		page := ask(h, "GET", "localhost", path).Body.String()
		for _, w := range want {
			if !strings.Contains(page, w) {
				t.Errorf("%s lacks %q:\n%s", path, w, page)
			}
		}
		for _, message := range []string{a, b, c} {
			wanted := false
			for _, w := range want {
				wanted = wanted || w == message
			}
			if !wanted && strings.Contains(page, message) {
				t.Errorf("%s shows %q, which is not its own", path, message)
			}
		}
	}
	if page := ask(h, "GET", "localhost", "/how.html").Body.String(); strings.Contains(page, "shadowrootmode") {
		t.Error("a page without findings has a panel")
	}
	if page := ask(h, "GET", "localhost", "/u/b.html").Body.String(); strings.Contains(page, "<details open>") {
		t.Error("a panel without stops is open")
	}
	clean := still(t, one, nil)
	if page := ask(clean, "GET", "localhost", findingsPath).Body.String(); !strings.Contains(page, "Nothing found") {
		t.Error("the page of findings does not say that there are none")
	}
}

// TestOwnPagesPassTheirPolicy: the hashes in the header are those of the script and the style
// in the page (CSP Level 3, 2.3.1).
func TestOwnPagesPassTheirPolicy(t *testing.T) {
	for name, h := range map[string]http.Handler{"findings": still(t, found(), nil), "error": still(t, nil, io.ErrUnexpectedEOF)} {
		w := ask(h, "GET", "localhost", findingsPath)
		policy := w.Header().Get("Content-Security-Policy")
		for _, element := range []string{"script", "style"} {
			text := regexp.MustCompile(`(?s)<` + element + `[^>]*>(.*?)</` + element + `>`).FindStringSubmatch(w.Body.String())
			if text == nil || !strings.Contains(policy, element+"-src "+hash(text[1])) {
				t.Errorf("%s: the policy %q does not let the %s pass", name, policy, element)
			}
		}
	}
}

func TestListen(t *testing.T) {
	l, err := Listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	here, others := Addresses(l)
	if len(here) != 1 || here[0] != "http://"+l.Addr().String()+"/" || others != nil {
		t.Errorf("addresses %v and %v, want http://%s/ alone", here, others, l.Addr())
	}
	_, port, _ := net.SplitHostPort(l.Addr().String())
	for at, want := range map[string]string{
		l.Addr().String():    "is in use, perhaps by another showroom; end that one, or write -at 127.0.0.1:",
		"127.0.0.1":          `-at "127.0.0.1" is not an address; write 127.0.0.1:2516`,
		"2516":               `-at "2516" is not an address`,
		"":                   `-at "" is not an address`,
		"127.0.0.1:":         "has no port from 0 to 65535",
		"127.0.0.1:http":     "has no port from 0 to 65535",
		":65536":             "has no port from 0 to 65535",
		"192.0.2.77:" + port: "cannot be opened", // TEST-NET-1 (RFC 5737): nobody's own address
	} {
		got, err := Listen(at)
		if err == nil {
			got.Close()
			t.Errorf("-at %q opens", at)
		} else if !strings.Contains(err.Error(), want) {
			t.Errorf("-at %q: %v, want %q", at, err, want)
		}
	}
	open, err := Listen(":0")
	if err != nil {
		t.Fatal(err)
	}
	defer open.Close()
	here, _ = Addresses(open)
	if len(here) != 1 || !strings.HasPrefix(here[0], "http://127.0.0.1:") {
		t.Errorf("open to the network: here is %v, want 127.0.0.1", here)
	}
}
