package showroom

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// TestOneSideIsCounted: the third connection of one side, which may have two, is closed, and a
// fourth is taken once one of them is closed.
func TestOneSideIsCounted(t *testing.T) {
	on, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := limit(on, 9, 2)
	defer l.Close()
	accepted := make(chan net.Conn, 9)
	go func() {
		for c, err := l.Accept(); err == nil; c, err = l.Accept() {
			accepted <- c
		}
	}()
	dial := func() net.Conn {
		c, err := net.Dial("tcp", on.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { c.Close() })
		return c
	}
	dial()
	dial()
	first := <-accepted
	<-accepted
	third := dial()
	if err := third.SetReadDeadline(time.Now().Add(5 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if n, err := third.Read(make([]byte, 1)); n > 0 || err == nil || strings.Contains(err.Error(), "timeout") {
		t.Errorf("a third connection of one side is open: %d, %v", n, err)
	}
	first.Close()
	dial()
	select {
	case <-accepted:
	case <-time.After(5 * time.Second):
		t.Error("a place that was given back is not used")
	}
}

// TestConnectionsAreCounted: the third of two connections waits until one is closed, and
// closing the listener ends the waiting.
func TestConnectionsAreCounted(t *testing.T) {
	on, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := limit(on, 2, 9)
	accepted := make(chan net.Conn, 9)
	ended := make(chan error, 1)
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				ended <- err
				return
			}
			accepted <- c
		}
	}()
	for range 3 {
		c, err := net.Dial("tcp", on.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
	}
	first := <-accepted
	<-accepted
	select {
	case <-accepted:
		t.Fatal("a third connection is open")
	case <-time.After(100 * time.Millisecond):
	}
	first.Close()
	first.Close() // twice gives one place back
	select {
	case <-accepted:
	case <-time.After(5 * time.Second):
		t.Fatal("a place that was given back is not used")
	}
	if err := l.Close(); err != nil {
		t.Error(err)
	}
	l.Close()
	select {
	case <-ended:
	case <-time.After(5 * time.Second):
		t.Fatal("the listener still waits")
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
