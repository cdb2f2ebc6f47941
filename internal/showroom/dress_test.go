package showroom

import (
	"strings"
	"testing"
)

// TestDressAddsAndChangesNothing: without what was added the page is as it was.
func TestDressAddsAndChangesNothing(t *testing.T) {
	const panel = `<div><template shadowrootmode="open">panel</template></div>`
	waiter := `<script data-version="v1">` + script + `</script>`
	for name, page := range map[string]string{
		"whole":        "<!doctype html><HTML><Head><title></body><head></title></HEAD>\n<body  class='x'><p>a&nbsp;b <b>&amp;c</B><br/></body></html>\n",
		"no head":      "<p>a<body><p>b",
		"no body":      "<head></head><p>a",
		"nothing":      "just text & more",
		"empty":        "",
		"raw text":     "<head><style>a::before{content:'</head><body>'}</style></head><body><textarea><body></textarea><!-- <body> --></body>",
		"two bodies":   "<head></head><body>a</body><body>b</body><head></head>",
		"cut short":    "<head></head><body><p class=",
		"other bytes":  "<head></head><body>\xff\xfe\x00</body>",
		"other policy": `<head><meta name="description" content="default-src 'none'"></head><body>`,
	} {
		got := string(dress([]byte(page), "v1", []byte(panel)))
		if strings.Count(got, waiter) != 1 || strings.Count(got, panel) != 1 {
			t.Errorf("%s: the script or the panel is not there exactly once: %q", name, got)
		}
		back := strings.Replace(strings.Replace(got, waiter, "", 1), panel, "", 1)
		if back != page {
			t.Errorf("%s: without what was added it is %q, want %q", name, back, page)
		}
		if strings.Index(got, waiter) > strings.Index(got, panel) {
			t.Errorf("%s: the script comes after the panel", name)
		}
	}
	got := string(dress([]byte("<head><title><body></title></head><body><p>"), "v1", []byte(panel)))
	if want := "<head><title><body></title>" + waiter + "</head><body>" + panel + "<p>"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestDressAdmitsItselfInThePolicy(t *testing.T) {
	page := `<head><meta HTTP-EQUIV="content-security-policy" content="default-src &#39;none&#39;; style-src 'sha256-x'"></head><body>`
	got := string(dress([]byte(page), "v1", nil))
	want := `<head><meta http-equiv="Content-Security-Policy" content="` + strings.ReplaceAll(
		"default-src 'none'; style-src 'sha256-x' "+hash(style)+"; script-src "+hash(script)+"; connect-src 'self'", "'", "&#39;") + `">`
	if !strings.HasPrefix(got, want) {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestWiden follows CSP Level 3: 6.8.3 for fallbacks, 2.2.1 for directives given twice,
// 6.7.3.2 for 'unsafe-inline' next to a hash.
func TestWiden(t *testing.T) {
	for _, c := range []struct{ policy, want string }{
		{"", ""},
		{"img-src 'self'", "img-src 'self'"}, // nothing governs scripts: all pass
		{"default-src 'none'", "default-src 'none'; script-src 'sha256-A='"},
		{"default-src 'self'", "default-src 'self'; script-src 'self' 'sha256-A='"},
		{"script-src 'none'", "script-src 'sha256-A='"},
		{" ; Script-Src 'self';default-src 'none';", "script-src 'self' 'sha256-A='; default-src 'none'"},
		{"script-src 'self'; script-src 'none'", "script-src 'self' 'sha256-A='; script-src 'none'"},
		{"script-src 'self'; script-src-elem a.example", "script-src 'self'; script-src-elem a.example 'sha256-A='"},
		{"script-src 'unsafe-inline'", "script-src 'unsafe-inline'"},
		{"script-src 'unsafe-inline' 'sha256-B='", "script-src 'unsafe-inline' 'sha256-B=' 'sha256-A='"},
		{"script-src 'unsafe-inline' 'nonce-b'", "script-src 'unsafe-inline' 'nonce-b' 'sha256-A='"},
		{"script-src 'sha256-A='", "script-src 'sha256-A='"},
	} {
		if got := widen(c.policy, "'sha256-A='", "script-src-elem", "script-src", "default-src"); got != c.want {
			t.Errorf("%q becomes %q, want %q", c.policy, got, c.want)
		}
	}
}
