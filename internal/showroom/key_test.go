package showroom

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// asked is the answer to a request of the network that a room gets straight, without a
// listener.
func asked(r *Room, method, target, from string, header map[string]string) *http.Response {
	req := httptest.NewRequest(method, target, nil)
	req.RemoteAddr = from
	for name, value := range header {
		req.Header.Set(name, value)
	}
	w := httptest.NewRecorder()
	r.handler().ServeHTTP(w, req)
	return w.Result()
}

const (
	desk  = "127.0.0.1:40000"
	phone = "192.0.2.9:40000" // RFC 5737
)

func keyed(t *testing.T) *Room {
	b := set(t, 0, 0)
	b.room.Key = NewKey()
	b.room.Walk = http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) { _, _ = w.Write([]byte("the walk")) })
	return b.room
}

// TestKey: whatever the network asks for without the key, it sees none of it; this computer
// sees everything.
func TestKey(t *testing.T) {
	r := keyed(t)
	if len(r.Key) < 26 || r.Key == NewKey() {
		t.Errorf("the key is %q; 26 characters of 5 bits each are expected, and another one each time", r.Key)
	}
	for _, path := range []string{"/yard.html", "/", findingsPath, eventsPath, WalkPath, WalkPath + "/sb-1", "/nowhere"} {
		for what, header := range map[string]map[string]string{
			"no key":            nil,
			"another key":       {"Cookie": keyCookie + "=" + NewKey()},
			"an empty key":      {"Cookie": keyCookie + "="},
			"the key, cut":      {"Cookie": keyCookie + "=" + r.Key[:25]},
			"the key, longer":   {"Cookie": keyCookie + "=" + r.Key + "A"},
			"the key elsewhere": {"Authorization": r.Key, "X-Key": r.Key},
			"as this computer":  {"X-Forwarded-For": "127.0.0.1"},
		} {
			for _, method := range []string{"GET", "HEAD", "POST"} {
				got := asked(r, method, "http://192.0.2.7:2516"+path, phone, header)
				if got.StatusCode != http.StatusForbidden || len(got.Cookies()) > 0 {
					t.Errorf("%s %s with %s: %s", method, path, what, got.Status)
				}
			}
		}
	}
	for _, from := range []string{desk, "[::1]:40000", "[::ffff:127.0.0.1]:40000"} {
		if got := asked(r, "GET", "http://127.0.0.1:2516/yard.html", from, nil); got.StatusCode != http.StatusOK {
			t.Errorf("from %s: %s", from, got.Status)
		}
	}
	// A program on this computer that passes on what others ask is not this computer.
	for _, name := range []string{"Forwarded", "Via", "X-Forwarded-For", "x-forwarded-host", "X-Forwarded-Proto", "X-Forwarded", "X-Real-IP", "True-Client-IP",
		"X-Client-IP", "X-Cluster-Client-IP", "X-Connecting-IP", "X-ProxyUser-Remote-Addr", "X-Original-Forwarded-For",
		"X-Original-Host", "X-Original-Url", "X-Proxy-For", "Proxy-Client-IP", "X-RealIP", "X-ClientIP", "X-Remote-User", "X-Source-IP", "X-Tunnel-Id", "X-Max-Hops", "Cdn-Loop", "X-Gateway-Request", "X-Of-Some-Maker"} {
		if got := asked(r, "GET", "http://127.0.0.1:2516/yard.html", desk, map[string]string{name: "192.0.2.9"}); got.StatusCode != http.StatusForbidden {
			t.Errorf("passed on with %s: %s", name, got.Status)
		}
	}
	r.Key = ""
	for _, key := range []string{"", NewKey()} {
		if got := asked(r, "GET", "http://192.0.2.7:2516"+KeyPath+"?key="+key, phone, map[string]string{"Cookie": keyCookie + "=" + key}); got.StatusCode != http.StatusForbidden {
			t.Errorf("a room without a key, asked with %q: %s", key, got.Status)
		}
	}
}

// TestKeyFromTheCode: the code's address gives the phone a cookie that no script reads and no
// other site's form sends along (RFC 6265bis, 4.1.2), and then everything is shown.
func TestKeyFromTheCode(t *testing.T) {
	r := keyed(t)
	link := PhoneLink("http://192.0.2.7:2516/", r.Key)
	if link != "http://192.0.2.7:2516"+KeyPath+"?key="+r.Key {
		t.Fatalf("the code leads to %s", link)
	}
	got := asked(r, "GET", link, phone, nil)
	cookies := got.Cookies()
	if got.StatusCode != http.StatusSeeOther || got.Header.Get("Location") != WalkPath || len(cookies) != 1 {
		t.Fatalf("opened: %s to %q with cookies %v", got.Status, got.Header.Get("Location"), cookies)
	}
	c := cookies[0]
	if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || c.MaxAge != 0 || c.Path != "/" {
		t.Errorf("the cookie is %v", c)
	}
	with := map[string]string{"Cookie": c.Name + "=" + c.Value}
	for path, want := range map[string]int{"/yard.html": http.StatusOK, findingsPath: http.StatusOK, WalkPath: http.StatusOK, WalkPath + "er": http.StatusNotFound} {
		if got := asked(r, "GET", "http://192.0.2.7:2516"+path, phone, with); got.StatusCode != want {
			t.Errorf("%s with the key: %s, want %d", path, got.Status, want)
		}
	}
	// The key opens nothing to another host's name or another site's page.
	if got := asked(r, "GET", "http://showroom.example/yard.html", phone, with); got.StatusCode != http.StatusForbidden {
		t.Errorf("another host: %s", got.Status)
	}
	with["Origin"] = "http://attacker.example"
	if got := asked(r, "POST", "http://192.0.2.7:2516"+WalkPath, phone, with); got.StatusCode != http.StatusForbidden {
		t.Errorf("another origin: %s", got.Status)
	}
	if got := asked(r, "GET", strings.Replace(link, r.Key, NewKey(), 1), phone, nil); got.StatusCode != http.StatusForbidden || len(got.Cookies()) > 0 {
		t.Errorf("an old code: %s", got.Status)
	}
}
