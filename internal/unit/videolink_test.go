package unit_test

import (
	"net/url"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
	"tarepage/internal/unit"
)

func TestVideoLinkFault(t *testing.T) {
	for template, want := range map[string]string{
		"https://video.example/{id}?t={s}":       "",
		"http://video.example/w?v={id}#t={hms}":  "",
		"https://video.example/{id}/{ms}":        "",
		"javascript:alert({id}{s})":              "https://",
		"data:text/html,{id}{s}":                 "https://",
		"//video.example/{id}?t={s}":             "https://",
		"https://{id}.example/?t={s}":            "host",
		"https:///{id}?t={s}":                    "host",
		"https://a:b@video.example/{id}?t={s}":   "host",
		"https://video.example/{id}":             "every moment",
		"https://video.example/?t={s}":           "same recording",
		"https://video.example/{id}?t={second}":  "{second}",
		"https://video.example/{id}?t={s":        "lone braces",
		"https://video.example/{id} ?t={s}":      "blanks",
		"https://video.example/{id}\"><b>?t={s}": "quotes",
		"https://[video.example/{id}?t={s}":      "host",
	} {
		got := unit.VideoLinkFault(template)
		if (got == "") != (want == "") || !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q in it", template, got, want)
		}
	}
}

// TestVideoAt: whatever a recording is called, the address leads to the yard's host, and
// the parser of net/url gives back the very id and moment.
func TestVideoAt(t *testing.T) {
	y, problems := unit.ReadYard("content/yard.md", []byte("---\nname: Example Yard\nas-of: 2026-11-20\nvideo-link: https://video.example/w?v={id}&t={s}\n---\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if got := y.VideoAt("a b/c", 3723); got != "https://video.example/w?v=a%20b%2Fc&t=3723" {
		t.Error(got)
	}
	if got := y.VideoAt("", 1); got != "" {
		t.Errorf("a link without a recording: %s", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.StringN(1, 20, -1).Draw(t, "id")
		at := rapid.IntRange(0, 400_000).Draw(t, "at")
		u, err := url.Parse(y.VideoAt(id, unit.Clock(at)))
		if err != nil {
			t.Fatal(err)
		}
		if u.Host != "video.example" || u.Scheme != "https" || u.Query().Get("v") != id || u.Fragment != "" {
			t.Fatalf("%q leads to %s", id, u)
		}
	})
}
