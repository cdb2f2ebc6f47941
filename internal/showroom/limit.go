package showroom

import (
	"net"
	"sync"
)

// mostConnections is how many connections are open at once. A browser opens six, and each
// page keeps one for as long as it is shown.
const mostConnections = 256

// limited is a listener of which so many connections are open at once; the next one waits.
type limited struct {
	net.Listener
	free chan bool // holds one value for each open connection
	done chan bool // closed when the listener is
	once sync.Once
}

func limit(l net.Listener, most int) net.Listener {
	return &limited{Listener: l, free: make(chan bool, most), done: make(chan bool)}
}

// Accept waits until a connection may be opened.
func (l *limited) Accept() (net.Conn, error) {
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
	return &counted{Conn: c, free: l.free}, nil
}

// Close ends the waiting too.
func (l *limited) Close() error {
	l.once.Do(func() { close(l.done) })
	return l.Listener.Close()
}

// counted gives its place back when it is closed.
type counted struct {
	net.Conn
	free chan bool
	once sync.Once
}

// Close closes the connection.
func (c *counted) Close() error {
	err := c.Conn.Close()
	c.once.Do(func() { <-c.free })
	return err
}
