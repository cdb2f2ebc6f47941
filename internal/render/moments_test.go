package render_test

import (
	"crypto/sha256"
	"encoding/base64"
	"html"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/asticode/go-astisub"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

const captions = "WEBVTT\n\n00:45.000 --> 00:48.500\nThe coupler & its <i>plate</i>.\n\n01:10.000 --> 01:12.000\nThat's \"it\".\n"

// recorded makes the page of the sound unit with a recording section and yard keys.
func recorded(t *testing.T, recording, yardKeys string, media map[string]string) (page string, carried map[string]string) {
	t.Helper()
	root := fstest.MapFS{
		"content/yard.md":       {Data: []byte(strings.Replace(yard, "phone:", yardKeys+"phone:", 1))},
		"content/units/ex-1.md": {Data: []byte(strings.Replace(sound, "standard:", recording+"standard:", 1) + "\n## Tail & ramps\n\n2:05 The tail.\n\n2:30 And its pins.\n")},
	}
	for name, text := range media {
		root["content/"+name] = &fstest.MapFile{Data: []byte(text)}
	}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	findings := inspect.Stock(stock, works, problems)
	for _, f := range findings {
		if f.Rule.Name == "file-missing" || f.Rule.Name == "captions-unreadable" || f.Rule.Name == "video-link" || f.Rule.Name == "unknown-key" {
			t.Fatalf("%s: %s", f.At, f.Message)
		}
	}
	carried = map[string]string{}
	made, err := render.Site(theme.Files, render.Input{Stock: stock, Works: works, Findings: findings},
		render.AddFunc(func(path string, data []byte) error {
			if path == "u/ex-1.html" {
				page = string(data)
			}
			return nil
		}))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range made.Media {
		carried[f.Path] = f.From
	}
	return page, carried
}

// TestRecording: a page with a video of its own plays from each note on, without a script
// by the address alone (W3C Media Fragments URI 1.0, 4.2.1), loads no byte of it
// before, and holds its captions and chapters, where an independent reader,
// github.com/asticode/go-astisub v0.34.0, finds them.
func TestRecording(t *testing.T) {
	page, carried := recorded(t, "recording:\n  length: 3:00\n  video: media/walk 1.mp4\n  captions: media/walk.vtt\n", "",
		map[string]string{"media/walk 1.mp4": strings.Repeat("x", 1<<20+1), "media/walk.vtt": captions})
	if len(carried) != 1 || carried["media/ex-1.mp4"] != "media/walk 1.mp4" {
		t.Errorf("carried: %v", carried)
	}
	for _, want := range []string{
		`<a class="at" data-t="45" href="../media/ex-1.mp4#t=45">0:45</a>`,
		`<a class="at" data-t="125" href="../media/ex-1.mp4#t=125">2:05</a>`,
		`preload="none"`, `controls`, `src="../media/ex-1.mp4"`, `width="640" height="360"`,
		"3:00 long, 2 MB.",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %s", want)
		}
	}
	if strings.Contains(page, "walk%201") {
		t.Error("the page tells the name of a file that the owner chose")
	}
	if strings.Contains(page, "autoplay") || strings.Contains(page, "<source") {
		t.Error("something may load before a tap")
	}
	tracks := regexp.MustCompile(`<track kind="([a-z]+)"[^>]* src="data:text/vtt[^,]*,([^"]*)"`).FindAllStringSubmatch(page, -1)
	want := map[string][]string{
		"captions": {"45s The coupler & its plate.", "1m10s That's \"it\"."},
		"chapters": {"45s Walk-around", "2m5s Tail & ramps"},
	}
	if len(tracks) != 2 {
		t.Fatalf("%d tracks in the page", len(tracks))
	}
	for _, track := range tracks {
		text, err := url.PathUnescape(html.UnescapeString(track[2]))
		if err != nil {
			t.Fatal(err)
		}
		read, err := astisub.ReadFromWebVTT(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, item := range read.Items {
			got = append(got, item.StartAt.String()+" "+html.UnescapeString(item.String()))
		}
		if strings.Join(got, "|") != strings.Join(want[track[1]], "|") {
			t.Errorf("%s: %q, want %q", track[1], got, want[track[1]])
		}
	}
	// The policy admits the page's script and its tracks, and nothing of another host.
	script := regexp.MustCompile(`(?s)<script>(\(function\(\).*?)</script>`).FindStringSubmatch(page)
	policy := html.UnescapeString(regexp.MustCompile(`content="([^"]*style-src[^"]*)"`).FindStringSubmatch(page)[1])
	if script == nil {
		t.Fatal("no script")
	}
	sum := sha256.Sum256([]byte(script[1]))
	for _, want := range []string{" 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'", "media-src 'self' data:;"} {
		if !strings.Contains(policy, want) {
			t.Errorf("policy %s lacks %s", policy, want)
		}
	}
}

// TestChaptersEnd: a chapter ends where the next one begins, and the last one with the recording,
// which is as long as its captions where the file says less.
func TestChaptersEnd(t *testing.T) {
	for _, c := range []struct{ length, cue, ends string }{
		{"3:00", "01:10.000 --> 01:12.000", "00:02:05.000 00:03:00.000"},
		{"2:30", "02:38.000 --> 02:40.000", "00:02:05.000 00:02:40.000"},
	} {
		page, _ := recorded(t, "recording:\n  length: "+c.length+"\n  video: media/walk.mp4\n  captions: media/walk.vtt\n", "",
			map[string]string{"media/walk.mp4": "x", "media/walk.vtt": "WEBVTT\n\n" + c.cue + "\nThat's it.\n"})
		track := regexp.MustCompile(`<track kind="chapters"[^>]* src="data:text/vtt[^,]*,([^"]*)"`).FindStringSubmatch(page)
		if track == nil {
			t.Fatal("the page has no chapters")
		}
		text, err := url.PathUnescape(html.UnescapeString(track[1]))
		if err != nil {
			t.Fatal(err)
		}
		var ends []string
		for _, m := range regexp.MustCompile(`--> (\S+)`).FindAllStringSubmatch(text, -1) {
			ends = append(ends, m[1])
		}
		if got := strings.Join(ends, " "); got != c.ends {
			t.Errorf("a recording of %s with a caption at %s: chapters end at %s, want %s", c.length, c.cue, got, c.ends)
		}
	}
}

// TestRecordingElsewhere: the yard's template leads to another host, which learns nothing
// of where the visitor comes from.
func TestRecordingElsewhere(t *testing.T) {
	page, carried := recorded(t, "recording:\n  id: a&b\n", "video-link: https://video.example/{id}?t={s}&u={hms}\n", nil)
	want := `<a class="at" rel="noopener noreferrer" referrerpolicy="no-referrer" href="https://video.example/a%26b?t=125&amp;u=0h2m5s">2:05</a>`
	if !strings.Contains(page, want) {
		t.Errorf("the page lacks %s", want)
	}
	if len(carried) > 0 || strings.Contains(page, "<video") || strings.Contains(page, "<script>(function()") || strings.Contains(html.UnescapeString(page), "media-src 'self' data:") {
		t.Error("a page without a video of its own has something for one")
	}
	page, _ = recorded(t, "recording:\n  length: 3:00\n", "video-link: https://video.example/{id}?t={s}\n", nil)
	if !strings.Contains(page, `<li class="moment"><span class="at">2:05</span> The tail.`) || strings.Contains(page, "video.example") {
		t.Error("a unit whose recording nobody names has links to one")
	}
}
