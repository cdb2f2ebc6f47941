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

// RFC 6068, 2: a ? begins fields such as bcc, a comma a second address, %0D%0A a header.
func TestMailFault(t *testing.T) {
	for address, sound := range map[string]bool{
		"yard@yard.example": true, "o'neil+trailers@county-road.example": true,
		"": false, "yard": false, "yard@yard": false, "yard@yard.example?bcc=x@x.example": false, "a@a.example,b@b.example": false,
		"yard@yard.example%0D%0Abcc:x@x.example": false, "yard@yard.example&body=x": false, "a\"b@yard.example": false, "<yard@yard.example>": false,
	} {
		if got := unit.MailFault(address); (got == "") != sound {
			t.Errorf("%q: %q, sound %v", address, got, sound)
		}
	}
}

// Two slashes begin another host (RFC 3986, 4.2), and a browser takes backslashes for them.
func TestLeadsNowhereElse(t *testing.T) {
	for address, leads := range map[string]bool{
		"u/ex-1.html": true, "/u/ex-1.html": true, "https://x.example/a": true, "//x.example/a": false, "\\\\x.example": false, "/\\x.example": false,
		" //x.example": false, "\t//x.example": false, "javascript:go()": false,
	} {
		if got := unit.Leads(address); got != leads {
			t.Errorf("%q leads: %v", address, got)
		}
	}
}
