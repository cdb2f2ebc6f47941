package sitepath_test

import (
	"net/url"
	"testing"

	"tarepage/internal/sitepath"
	"tarepage/internal/unit"
)

func TestPaths(t *testing.T) {
	u := new(unit.Unit)
	u.Stock.Value = "SB-1043"
	for _, c := range []struct{ got, want string }{
		{sitepath.Trailer(u), "u/sb-1043.html"},
		{sitepath.Figures(u), "figures/sb-1043.html"},
		{sitepath.LotSheet(u), "lot/sb-1043.html"},
		{sitepath.HandOver(u), "handover/sb-1043.html"},
		{sitepath.Kind("car-hauler"), "kind-car-hauler.html"},
		{sitepath.Further(sitepath.List, 0), "list.html"},
		{sitepath.Further(sitepath.List, 1), "list-2.html"},
		{sitepath.Video(u, "media/sb-1043.mp4"), "media/sb-1043.mp4"},
		{sitepath.Video(u, "media/Mabel Quillfern 555-0142.MOV"), "media/sb-1043.mov"},
		{sitepath.Whole("", "u/sb-1.html"), ""},
		{sitepath.Whole("https://yard.example/a/", sitepath.Yard), "https://yard.example/a/"},
		{sitepath.Whole("https://yard.example/a/", "u/sb 1.html"), "https://yard.example/a/u/sb%201.html"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	if kind, ok := sitepath.KindOf("kind-dump.html"); kind != "dump" || !ok {
		t.Errorf("kind-dump.html lists %q, %v", kind, ok)
	}
	if _, ok := sitepath.KindOf(sitepath.List); ok {
		t.Error("the plain list is taken for the page of a kind")
	}
}

// RFC 3986, 2.3: the unreserved characters are letters, digits, hyphen, period, underscore
// and tilde. Go's own reader of addresses reads back what was written.
func TestEscape(t *testing.T) {
	const unreserved = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._~"
	if got := sitepath.Escape(unreserved + "/"); got != unreserved+"/" {
		t.Errorf("unreserved characters became %q", got)
	}
	for c := range 256 {
		text := string([]byte{byte(c)})
		if back, err := url.PathUnescape(sitepath.Escape(text)); err != nil || back != text {
			t.Errorf("%q came back as %q, %v", text, back, err)
		}
	}
	if got := sitepath.Escape("a b/ü?"); got != "a%20b/%C3%BC%3F" {
		t.Errorf("got %q", got)
	}
}
