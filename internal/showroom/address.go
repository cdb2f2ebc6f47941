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
		return nil, fmt.Errorf("-at %s is taken, perhaps by another showroom; end that one, or write -at %s",
			at, net.JoinHostPort(host, strconv.FormatUint(other, 10)))
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("-at %s is not allowed to you; ports from 1024 up are", at)
	}
	var op *net.OpError
	if errors.As(err, &op) {
		err = op.Err
	}
	return nil, fmt.Errorf("-at %s cannot be opened: %w", at, err)
}

// taken reports whether somebody else listens there. Windows has a number of its own
// for it (WSAEADDRINUSE, Windows Sockets Error Codes).
func taken(err error) bool {
	const windows = syscall.Errno(10048)
	return errors.Is(err, syscall.EADDRINUSE) || errors.Is(err, windows)
}

// Addresses are what to open in a browser: on this computer, and on others in the same
// network, of which there are none where the listener takes only this computer's own.
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
		// A link-local address needs the name of an interface behind it, which no browser takes.
		if ok && n.IP.IsGlobalUnicast() && (n.IP.To4() != nil || tcp.IP.To4() == nil) {
			others = append(others, link(n.IP.String()))
		}
	}
	return here, others
}

// known reports whether a Host header names an IP address or this computer. A name from
// the web can be made to lead here (DNS rebinding); then its page could read ours.
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

// ours reports whether no page of somebody else's asks: a browser names the page's origin
// where it is another's (Fetch Standard, 3.2), and where a line is to be kept open for both
// sides (RFC 6455, 10.2), which we have none of.
func ours(req *http.Request) bool {
	origin, given := req.Header["Origin"]
	return !given || len(origin) == 1 && strings.EqualFold(origin[0], "http://"+req.Host)
}
