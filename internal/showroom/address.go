package showroom

import (
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"syscall"
)

// The address that is opened if no other is asked for, which only this computer reaches, and
// the same port for everybody on the network. The port is that of a 2-5/16 in ball.
const (
	Usual     = "127.0.0.1" + UsualPort
	UsualPort = ":2516"
)

// Listen opens the address, which is HOST:PORT, or :PORT for the whole network.
func Listen(at string) (net.Listener, error) {
	host, port, err := net.SplitHostPort(at)
	if err != nil {
		return nil, fmt.Errorf("-at %q is not an address; write %s, or %s for phones on the same network", at, Usual, UsualPort)
	}
	n, err := strconv.ParseUint(port, 10, 16)
	if err != nil {
		return nil, fmt.Errorf("-at %q has no port from 0 to 65535 after its last colon; write %s", at, Usual)
	}
	l, err := net.Listen("tcp", at)
	switch {
	case err == nil:
		return l, nil
	case taken(err):
		other := n + 1
		if n == 65535 {
			other = n - 1
		}
		return nil, fmt.Errorf("-at %s is in use, perhaps by another showroom; end that one, or write -at %s",
			at, net.JoinHostPort(host, strconv.FormatUint(other, 10)))
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("you may not open -at %s; take a port from 1024 up", at)
	}
	var op *net.OpError
	if errors.As(err, &op) {
		err = op.Err
	}
	return nil, fmt.Errorf("-at %s cannot be opened: %w", at, err)
}

// taken reports whether another program has the port. Windows has a number of its own for
// this error (WSAEADDRINUSE, Windows Sockets Error Codes).
func taken(err error) bool {
	const windows = syscall.Errno(10048)
	return errors.Is(err, syscall.EADDRINUSE) || errors.Is(err, windows)
}

// Addresses are what to open in a browser: on this computer, and on others in the same
// network. There are no others if the listener takes only connections of this computer.
func Addresses(l net.Listener) (here []string, others []string) {
	tcp, ok := l.Addr().(*net.TCPAddr)
	if !ok {
		return nil, nil
	}
	port := strconv.Itoa(tcp.Port)
	link := func(ip string) string { return "http://" + net.JoinHostPort(ip, port) + "/" }
	switch {
	case tcp.IP.IsLoopback():
		return []string{link(tcp.IP.String())}, nil
	case !tcp.IP.IsUnspecified():
		return nil, []string{link(tcp.IP.String())}
	}
	here = []string{link("127.0.0.1")}
	addrs, err := net.InterfaceAddrs()
	if err != nil {
		return here, nil
	}
	for _, a := range addrs {
		n, ok := a.(*net.IPNet)
		// A link-local address needs the name of an interface after it, and no browser takes one.
		if ok && n.IP.IsGlobalUnicast() && (n.IP.To4() != nil || tcp.IP.To4() == nil) {
			others = append(others, link(n.IP.String()))
		}
	}
	return here, others
}

// known reports whether a Host header names an IP address or this computer. Somebody could
// make a name on the web lead here (DNS rebinding), and a page of that name could read ours.
func known(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	} else {
		name = strings.TrimSuffix(strings.TrimPrefix(name, "["), "]")
	}
	if strings.EqualFold(strings.TrimSuffix(name, "."), "localhost") {
		return true
	}
	_, err := netip.ParseAddr(name)
	return err == nil
}

// ours reports whether the request comes from no other site's page. A browser sends the
// origin of such a page (Fetch Standard, 3.2). It also sends an origin to open a WebSocket
// (RFC 6455, 10.2), and the showroom has none.
func ours(req *http.Request) bool {
	origin, given := req.Header["Origin"]
	return !given || len(origin) == 1 && strings.EqualFold(origin[0], "http://"+req.Host)
}
