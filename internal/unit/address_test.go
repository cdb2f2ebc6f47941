package unit_test

import (
	"net/url"
	"testing"

	"tarepage/internal/unit"
)

// What is taken is what net/url, an independent reader of RFC 3986, takes for an https
// address with a host and neither query nor fragment, and pages resolve below it.
func TestSiteAddress(t *testing.T) {
	for _, c := range []struct{ address, site string }{
		{"https://yard.example", "https://yard.example/"},
		{"https://yard.example/", "https://yard.example/"},
		{"https://Yard.Example:8443/a/B", "https://yard.example:8443/a/B/"},
		{"https://yard.example/a/b/c/", "https://yard.example/a/b/c/"},
		{"https://yard.example/~owner/trailer%20sales/", "https://yard.example/~owner/trailer%20sales/"},
		{"http://yard.example/", ""},
		{"yard.example", ""},
		{"https://", ""},
		{"https:///a/", ""},
		{"https://yard..example/", ""},
		{"https://me@yard.example/", ""},
		{"https://yard.example/?a=b", ""},
		{"https://yard.example/#top", ""},
		{"https://yard.example/index.html", ""},
		{"https://yard.example/a//b/", ""},
		{"https://yard.example//", ""},
		{"https://yard.example/../b/", ""},
		{"https://yard.example/a b/", ""},
		{"https://yard.example/50%/", ""},
		{`https://yard.example/"><script>`, ""},
		{"javascript:alert(1)", ""},
	} {
		y := &unit.Yard{}
		y.Address.Value, y.Address.Pos = c.address, unit.Pos{File: "content/yard.md", Line: 2, Column: 10}
		if got := y.Site(); got != c.site {
			t.Errorf("%s gives the site %q, want %q", c.address, got, c.site)
		}
		if (unit.AddressFault(c.address) == "") != (c.site != "") {
			t.Errorf("%s: %q", c.address, unit.AddressFault(c.address))
		}
		if c.site == "" {
			continue
		}
		u, err := url.Parse(c.site)
		if err != nil || u.Scheme != "https" || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" {
			t.Errorf("%s: net/url reads %+v, %v", c.site, u, err)
			continue
		}
		if page := u.ResolveReference(&url.URL{Path: "u/ex-1.html"}).String(); page != c.site+"u/ex-1.html" {
			t.Errorf("a page below %s is %s", c.site, page)
		}
	}
}

func TestChanged(t *testing.T) {
	for _, c := range []struct{ keys, want string }{
		{"arrived: 2026-11-02", "2026-11-02"},
		{"arrived: 2026-11-02\nprice: $5,200", "2026-11-02"},
		{"arrived: 2026-11-02\nprice: $5,200 (since 2026-11-10)", "2026-11-10"},
		{"arrived: 2026-11-02\nprice: $5,200 (since 2026-10-10)", "2026-11-02"},
		{"arrived: 2026-11-02\nprice: $5,200 (since 2026-11-10)\navailability: sold (since 2026-11-18)", "2026-11-18"},
		{"price: $5,200 (Since  2026-11-10)", "2026-11-10"},
		{"price: $5,200 (since 2026-13-10)", "0000-00-00"},
		{"price: $5,200 (asking)", "0000-00-00"},
		{"availability: on order\narrived: 2026-12-24", "0000-00-00"},
	} {
		u, _ := unit.ReadUnit("content/units/ex-1.md", []byte("---\nstock: EX-1\n"+c.keys+"\n---\n"))
		if got := u.Changed().String(); got != c.want {
			t.Errorf("%q changed on %s, want %s", c.keys, got, c.want)
		}
	}
}
