package showroom

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// served is a listener with its connections, in the order in which they were taken.
func served(t *testing.T, guests, strangers, each int) (dial func() net.Conn, accepted chan net.Conn, l *limited) {
	on, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l = limit(on, guests, strangers, each)
	t.Cleanup(func() { l.Close() })
	accepted = make(chan net.Conn, 99)
	go func() {
		for c, err := l.Accept(); err == nil; c, err = l.Accept() {
			accepted <- c
		}
	}()
	return func() net.Conn {
		c, err := net.Dial("tcp", on.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { c.Close() })
		return c
	}, accepted, l
}

// ended reports whether the other side has closed a connection.
func ended(t *testing.T, c net.Conn, within time.Duration) bool {
	t.Helper()
	if err := c.SetReadDeadline(time.Now().Add(within)); err != nil {
		t.Fatal(err)
	}
	_, err := c.Read(make([]byte, 1))
	return err != nil && !os.IsTimeout(err)
}

// TestStrangersMakeWay: one connection too many closes the oldest that has shown nothing, of one
// side or of all, and never one that has shown the key.
func TestStrangersMakeWay(t *testing.T) {
	for _, c := range []struct{ strangers, each int }{{2, 9}, {9, 2}} {
		dial, accepted, _ := served(t, 9, c.strangers, c.each)
		guest := dial()
		(<-accepted).(*counted).welcome()
		first, second := dial(), dial()
		<-accepted
		<-accepted
		third := dial()
		<-accepted
		if !ended(t, first, 5*time.Second) {
			t.Errorf("%+v: the oldest stranger stays", c)
		}
		for _, other := range []net.Conn{guest, second, third} {
			if ended(t, other, 50*time.Millisecond) {
				t.Errorf("%+v: another connection is closed", c)
			}
		}
	}
}

// TestGuestsAreCounted: no more guests than places; a place that is given back is used, and
// closing twice gives one back.
func TestGuestsAreCounted(t *testing.T) {
	for _, c := range []struct{ guests, each int }{{2, 9}, {9, 2}} {
		dial, accepted, l := served(t, c.guests, 9, c.each)
		var taken []*counted
		for range 3 {
			dial()
			taken = append(taken, (<-accepted).(*counted))
			taken[len(taken)-1].welcome()
			taken[len(taken)-1].welcome()
		}
		if taken[2].guest || !taken[1].guest || l.shown != 2 {
			t.Errorf("%+v: %d guests", c, l.shown)
		}
		taken[0].Close()
		taken[0].Close()
		if taken[2].welcome(); !taken[2].guest || l.shown != 2 || l.asking.Len() != 0 {
			t.Errorf("%+v: %d guests and %d strangers after one was closed", c, l.shown, l.asking.Len())
		}
		for _, c := range taken {
			c.Close()
		}
		if l.shown != 0 || len(l.of) != 0 {
			t.Errorf("%+v: %d guests after all were closed", c, l.shown)
		}
	}
}

// TestDeskIsNotKeptOut: however many connections without the key are open and silent, this
// computer and a phone with the key are answered, and their connections stay.
func TestDeskIsNotKeptOut(t *testing.T) {
	t.Parallel() // most of it waits
	r := &Room{Key: NewKey(), Trouble: func(error) {}, Make: func() (*Site, error) {
		return &Site{File: func(string) ([]byte, error) { return []byte("page"), nil }}, nil
	}}
	on, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- r.Serve(ctx, on) }()
	ask := func(c net.Conn, header string) string {
		fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n%s\r\n", header)
		_ = c.SetReadDeadline(time.Now().Add(20 * time.Second))
		line := make([]byte, 12)
		_, _ = io.ReadFull(c, line)
		return string(line)
	}
	dial := func() net.Conn {
		c, err := net.Dial("tcp", on.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { c.Close() })
		return c
	}
	flood := func() {
		for i := range mostStrangers + mostOfOne {
			if c := dial(); i%2 == 0 {
				fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Forwarded-For: 192.0.2.1\r\n\r\n")
			}
		}
	}
	flood()
	if got := ask(dial(), ""); got != "HTTP/1.1 200" {
		t.Errorf("this computer gets %q", got)
	}
	kept := dial()
	key := "X-Forwarded-For: 192.0.2.1\r\nCookie: " + keyCookie + "=" + r.Key + "\r\n"
	if got := ask(kept, key+"Range: bytes=0-0\r\n"); got != "HTTP/1.1 200" && got != "HTTP/1.1 206" {
		t.Errorf("the phone gets %q", got)
	}
	flood()
	if got := ask(dial(), key); got != "HTTP/1.1 200" {
		t.Errorf("the phone then gets %q", got)
	}
	cancel()
	if err := <-done; err != nil {
		t.Error(err)
	}
}

// TestRequestsHaveNoBody: a body is refused before a byte of it is read, and so is a very long
// address.
func TestRequestsHaveNoBody(t *testing.T) {
	r := &Room{Make: func() (*Site, error) {
		return &Site{File: func(string) ([]byte, error) { return []byte("page"), nil }}, nil
	}, Trouble: func(error) {}}
	if err := r.open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = r.watch.system.Close() })
	h := r.handler()
	for _, c := range []struct {
		target string
		body   io.Reader
		want   int
	}{
		{"/", nil, http.StatusOK}, {"/", strings.NewReader("x"), http.StatusRequestEntityTooLarge},
		{"/", io.MultiReader(strings.NewReader("of no size")), http.StatusRequestEntityTooLarge},
		{"/" + strings.Repeat("a", 5000), nil, http.StatusRequestURITooLong},
	} {
		req := httptest.NewRequest("GET", c.target, c.body)
		req.RemoteAddr = desk
		req.Host = "localhost"
		w := httptest.NewRecorder()
		h.ServeHTTP(w, req)
		if w.Code != c.want {
			t.Errorf("%.20s: %d, want %d", c.target, w.Code, c.want)
		}
	}
}

// TestFindingsArePaged: no page of findings is large, and together they show all.
func TestFindingsArePaged(t *testing.T) {
	rule := &inspect.Rule{Name: "some-rule"}
	s := &Site{Units: map[string]string{}}
	for i := range 4321 {
		file := fmt.Sprintf("content/units/u-%d.md", i/3)
		s.Findings = append(s.Findings, inspect.Finding{Rule: rule, Severity: inspect.Stop, Unit: file, Message: fmt.Sprintf("finding-%d-", i), At: unit.Pos{File: file, Line: int32(i + 1), Column: 1}})
	}
	seen := map[string]bool{}
	number := ""
	for pages := 1; ; pages++ {
		page := string(s.findings(number))
		if len(page) > 200<<10 {
			t.Fatalf("page %q has %d bytes", number, len(page))
		}
		for i := range s.Findings {
			if strings.Contains(page, fmt.Sprintf("finding-%d-", i)) {
				seen[fmt.Sprint(i)] = true
			}
		}
		_, rest, ok := strings.Cut(page, `?page=`+fmt.Sprint(pages+1)+`"`)
		if number = fmt.Sprint(pages + 1); !ok || rest == "" {
			if pages != 22 {
				t.Errorf("%d pages, want 22", pages)
			}
			break
		}
	}
	if len(seen) != len(s.Findings) {
		t.Errorf("%d of %d findings are shown", len(seen), len(s.Findings))
	}
	first := string(s.findings(""))
	for _, number := range []string{"0", "-1", "23", "x", "99999999999999999999", "<script>"} {
		if string(s.findings(number)) != first {
			t.Errorf("page %q is not the first", number)
		}
	}
	if panel := s.panel(front); len(panel) > 200<<10 {
		t.Errorf("the panel has %d bytes", len(panel))
	}
	if page := s.missing("/x"); len(page) > 200<<10 {
		t.Errorf("the page for what is missing has %d bytes", len(page))
	}
}
