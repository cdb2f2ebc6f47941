package showroom

import (
	"container/list"
	"context"
	"net"
	"net/http"
	"sync"
)

// Connections of two kinds are open at once: of guests, which this computer's own browser or the
// key has shown to be welcome, and of strangers, which have not shown anything yet.
const (
	// mostGuests is how many guests' connections stay open. A browser opens six, and each page
	// keeps one for as long as it is shown.
	mostGuests = 192
	// mostStrangers is how many others there are. The next one closes the oldest of them, so
	// that nobody without the key keeps somebody with it out, however many addresses they have.
	mostStrangers = 64
	// mostOfOne is how many connections of either kind one computer or phone may have.
	mostOfOne = 32
)

// limited is a listener of which so many connections are open at once.
type limited struct {
	net.Listener
	guests, strangers, each int

	mu     sync.Mutex
	asking *list.List     // strangers' connections, the oldest first
	shown  int            // guests' connections
	of     map[string]int // guests' connections by the address of the other side
}

func limit(l net.Listener, guests, strangers, each int) *limited {
	return &limited{Listener: l, guests: guests, strangers: strangers, each: each, asking: list.New(), of: map[string]int{}}
}

// Accept takes the next connection, as a stranger's.
func (l *limited) Accept() (net.Conn, error) {
	c, err := l.Listener.Accept()
	if err != nil {
		return nil, err
	}
	next := &counted{Conn: c, of: l, from: hostOf(c)}
	for _, old := range l.enter(next) {
		_ = old.Close()
	}
	return next, nil
}

// enter counts a stranger's connection, and returns those that it takes the place of.
func (l *limited) enter(c *counted) (out []*counted) {
	l.mu.Lock()
	defer l.mu.Unlock()
	c.place = l.asking.PushBack(c)
	var first *counted
	own := 0
	for e := l.asking.Front(); e != nil; e = e.Next() {
		if other := e.Value.(*counted); other.from == c.from {
			if own++; first == nil {
				first = other
			}
		}
	}
	if own > l.each {
		out = append(out, first)
	} else if l.asking.Len() > l.strangers {
		out = append(out, l.asking.Front().Value.(*counted))
	}
	return out
}

// hostOf is the address of the other side without its port.
func hostOf(c net.Conn) string {
	host, _, err := net.SplitHostPort(c.RemoteAddr().String())
	if err != nil {
		return c.RemoteAddr().String()
	}
	return host
}

// counted gives its place back when it is closed.
type counted struct {
	net.Conn
	of   *limited
	from string

	place *list.Element // among the strangers; nil for a guest's and after Close
	guest bool
}

// Close closes the connection.
func (c *counted) Close() error {
	c.of.mu.Lock()
	if c.place != nil {
		c.of.asking.Remove(c.place)
		c.place = nil
	}
	if c.guest {
		c.guest = false
		c.of.shown--
		if c.of.of[c.from]--; c.of.of[c.from] == 0 {
			delete(c.of.of, c.from)
		}
	}
	c.of.mu.Unlock()
	return c.Conn.Close()
}

// welcome makes a stranger's connection a guest's, as long as there are places.
func (c *counted) welcome() {
	c.of.mu.Lock()
	defer c.of.mu.Unlock()
	if c.place == nil || c.of.shown >= c.of.guests || c.of.of[c.from] >= c.of.each {
		return
	}
	c.of.asking.Remove(c.place)
	c.place, c.guest = nil, true
	c.of.shown++
	c.of.of[c.from]++
}

// connection is the key under which a request's context has its connection.
type connection struct{}

// withConnection keeps a connection with the requests that come over it.
func withConnection(ctx context.Context, c net.Conn) context.Context {
	return context.WithValue(ctx, connection{}, c)
}

// welcome makes the connection of a request a guest's.
func welcome(req *http.Request) {
	if c, ok := req.Context().Value(connection{}).(*counted); ok {
		c.welcome()
	}
}
