package unit_test

import (
	"net/url"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

// The first four are the forms of RFC 3966, 6, and of the North American Numbering Plan's
// own examples, without the tel: in front of them.
func TestNumberFault(t *testing.T) {
	for _, c := range []struct{ number, says string }{
		{"+1-201-555-0123", ""},
		{"(201) 555-0123", ""},
		{"201.555.0123", ""},
		{"555-0142", ""},
		{"+15550100", ""},
		{"555-014", "7 digits or more"},
		{"1+5550142", "cannot dial"},
		{"555-0142 ext. 5", "cannot dial"},
		{"555-0100 or 0101", "cannot dial"},
		{"tel:555-0142", "cannot dial"},
		{"٥٥٥٠١٤٢", "cannot dial"},
		{"123456789012345", ""},
		{"1234567890123456", "at most 15"},
		{"", "7 digits or more"},
	} {
		if got := unit.NumberFault(c.number); (got == "") != (c.says == "") || !strings.Contains(got, c.says) {
			t.Errorf("%q: %q, want %q", c.number, got, c.says)
		}
	}
}

// A link that is taken is one that net/url reads as https with a host.
func TestDirectionsFault(t *testing.T) {
	for link, sound := range map[string]bool{
		"https://map.example/?to=4100+County+Road+9":    true,
		"https://map.example/a%20b#c":                   true,
		"https://map.example":                           true,
		"http://map.example/":                           false,
		"javascript:alert(1)":                           false,
		"https://":                                      false,
		"https:///a":                                    false,
		"https://map.example/a b":                       false,
		"https://map.example/\"><script>":               false,
		" https://map.example/":                         false,
		"https://me@map.example/":                       false,
		"geo:37.786971,-122.399677":                     false,
		"https://map.example/{place}":                   false,
		"https://map.example:8443/dir/?destination=1,2": true,
	} {
		if got := unit.DirectionsFault(link); (got == "") != sound {
			t.Errorf("%q: %q", link, got)
		}
		if u, err := url.Parse(link); sound && (err != nil || u.Scheme != "https" || u.Host == "" || u.User != nil) {
			t.Errorf("%q: net/url reads %+v, %v", link, u, err)
		}
	}
}
