package showroom

import (
	"net"
	"sync"
)

// mostConnections is how many connections are open at once. A browser opens six, and each
// page keeps one for as long as it is shown.
const mostConnections = 256

// mostOfOne is how many of them one computer or phone may have, so that one alone cannot keep
// the others out.
const mostOfOne = 64

// limited is a listener of which so many connections are open at once; the next one waits.
type limited struct {
	net.Listener
	free chan bool // holds one value for each open connection
	done chan bool // closed when the listener is
	once sync.Once

	mu   sync.Mutex
	each int
	of   map[string]int // open connections by the address of the other side
}

func limit(l net.Listener, most, each int) net.Listener {
	return &limited{Listener: l, free: make(chan bool, most), done: make(chan bool), each: each, of: map[string]int{}}
}

// Accept waits until a connection may be opened. One too many from the same side is closed.
func (l *limited) Accept() (net.Conn, error) {
	for {
		select {
		case l.free <- true:
		case <-l.done:
			return nil, net.ErrClosed
		}
		c, err := l.Listener.Accept()
		if err != nil {
			<-l.free
			return nil, err
		}
		from := hostOf(c)
		if l.enter(from) {
			return &counted{Conn: c, leave: func() { l.leave(from) }}, nil
		}
		_ = c.Close()
		<-l.free
	}
}

// hostOf is the address of the other side without its port.
func hostOf(c net.Conn) string {
	host, _, err := net.SplitHostPort(c.RemoteAddr().String())
	if err != nil {
		return c.RemoteAddr().String()
	}
	return host
}

// enter counts a connection of a side, if it may have one more.
func (l *limited) enter(from string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.of[from] >= l.each {
		return false
	}
	l.of[from]++
	return true
}

// leave gives a place back.
func (l *limited) leave(from string) {
	l.mu.Lock()
	if l.of[from]--; l.of[from] == 0 {
		delete(l.of, from)
	}
	l.mu.Unlock()
	<-l.free
}

// Close ends the waiting too.
func (l *limited) Close() error {
	l.once.Do(func() { close(l.done) })
	return l.Listener.Close()
}

// counted gives its place back when it is closed.
type counted struct {
	net.Conn
	leave func()
	once  sync.Once
}

// Close closes the connection.
func (c *counted) Close() error {
	err := c.Conn.Close()
	c.once.Do(c.leave)
	return err
}
