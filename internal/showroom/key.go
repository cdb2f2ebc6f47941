package showroom

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// KeyPath is the address that a phone opens first, from the code on the desk's screen: it
// takes the key, and the phone keeps it in a cookie.
const KeyPath = "/showroom/phone"

// keyCookie is the name of that cookie.
const keyCookie = "showroom-key"

// NewKey makes the key of one session: 130 bits in letters and digits.
func NewKey() string { return rand.Text() }

// PhoneLink is what a phone opens: the address of the showroom with the key.
func PhoneLink(address, key string) string {
	return strings.TrimSuffix(address, "/") + KeyPath + "?key=" + key
}

// may reports whether a request may see anything: it comes from this computer itself, or it
// brings the key of this session.
func (r *Room) may(req *http.Request) bool {
	c, err := req.Cookie(keyCookie)
	if !atTheDesk(req) && (err != nil || !r.isKey(c.Value)) {
		return false
	}
	welcome(req)
	return true
}

// isKey compares in constant time, so that the time of an answer tells nothing about the key.
// Digests are compared, because they have one length. A room without a key admits nobody.
func (r *Room) isKey(given string) bool {
	is, want := sha256.Sum256([]byte(given)), sha256.Sum256([]byte(r.Key))
	return subtle.ConstantTimeCompare(is[:], want[:]) == 1 && r.Key != ""
}

// passedOn are the parts of headers' names by which a program says that it passes on what
// another computer asked (RFC 7239, 5; RFC 9110, 7.6.3; the others are common practice, no
// source). No browser sends a header with one of them.
var passedOn = []string{"Forward", "Via", "Real-Ip", "Realip", "Client-Ip", "Clientip", "Connecting-Ip", "Remote-", "Proxy", "Original-", "Tunnel", "Gateway",
	"Source-Ip", "Src-Ip", "Origin-Ip", "User-Ip", "Visitor-Ip", "Cluster-", "Edge-", "Hops", "Ingress", "Balancer", "Cdn-"}

// atTheDesk reports whether a request comes from this computer. One that another program
// passed on for somebody else does not.
func atTheDesk(req *http.Request) bool {
	for name, values := range req.Header {
		if slices.ContainsFunc(passedOn, func(part string) bool { return strings.Contains(name, part) }) || slices.ContainsFunc(values, namesAddress) {
			return false
		}
	}
	host, _, err := net.SplitHostPort(req.RemoteAddr)
	if err != nil {
		return false
	}
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.Unmap().IsLoopback()
}

// namesAddress reports whether a header's value is the address of a computer, or a list of them,
// whatever the header is called.
func namesAddress(value string) bool {
	for part := range strings.FieldsFuncSeq(value, func(r rune) bool { return r == ',' || r == ';' || r == ' ' || r == '"' || r == '=' }) {
		if _, err := netip.ParseAddr(strings.Trim(part, "[]")); err == nil {
			return true
		}
		if _, err := netip.ParseAddrPort(part); err == nil {
			return true
		}
	}
	return false
}

// admit answers the address that a phone opens first. The cookie ends with the browser, no
// script reads it, and no other site's page sends it along with a form.
func (r *Room) admit(w http.ResponseWriter, req *http.Request) {
	if !r.isKey(req.URL.Query().Get("key")) {
		noKey(w)
		return
	}
	welcome(req)
	http.SetCookie(w, &http.Cookie{Name: keyCookie, Value: r.Key, Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode})
	to := "/"
	if r.Walk != nil {
		to = WalkPath
	}
	http.Redirect(w, req, to, http.StatusSeeOther)
}

// noKey is all that somebody without the key sees.
func noKey(w http.ResponseWriter) {
	w.Header().Set("Connection", "close")
	http.Error(w, "this showroom asks for its key: scan the code that the desk shows now; it is a new one each time the showroom opens", http.StatusForbidden)
}
