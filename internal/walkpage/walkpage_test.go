package walkpage

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

const heard = `---
title: 82 in x 18 ft equipment trailer
stock: SB-1050   # the yard's own
kind: equipment
condition: new
availability: on the yard
price: $6,480
model: eq-18

axles: 
  rating: 5,200 lb (said 0:20)  # "fifty-two hundred"
weights:
  gvwr: 9,900 lb (said 0:40)  # "ninety-nine hundred"
---

Words.
`

const model = `---
make: Quillfern
axles:
  count: 2
tires:
  size: ST225/75R15 (sidewall)
  load-range: D (sidewall)
  per-axle: 2
---
`

// yard is a desk over a folder of its own.
func yard(t *testing.T) (*Desk, string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"content/yard.md":          "---\nname: Quillfern Trailers\nas-of: 2026-11-20\n---\n",
		"content/models/eq-18.md":  model,
		"content/units/sb-1050.md": heard,
		"secret.md":                "---\nstock: SECRET\n---\n",
	} {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	d := &Desk{From: dir, Today: func() string { return "2026-11-30" },
		Stock: func() (*unit.Stock, error) { s, _, err := unit.Read(os.DirFS(dir)); return s, err },
		LookAt: func(name string, src []byte) (*unit.Unit, *compute.Work, []inspect.Finding, error) {
			s, problems, err := unit.ReadOne(os.DirFS(dir), "content/units/"+name, src)
			if err != nil {
				return nil, nil, nil, err
			}
			works := []*compute.Work{nil}
			if !s.Units[0].Broken {
				works[0] = compute.Unit(s.Units[0], compute.SettingsOf(s.Yard))
			}
			return s.Units[0], works[0], inspect.Stock(s, works, problems), nil
		}}
	return d, filepath.Join(dir, "content", "units", "sb-1050.md")
}

func (d *Desk) asked(method, path, kind, body string) *httptest.ResponseRecorder {
	req := httptest.NewRequest(method, "http://127.0.0.1"+path, strings.NewReader(body))
	if kind != "" {
		req.Header.Set("Content-Type", kind)
	}
	w := httptest.NewRecorder()
	d.Handler("/w").ServeHTTP(w, req)
	return w
}

// post sends answers as the page does.
func (d *Desk) post(t *testing.T, s sent) *view {
	t.Helper()
	body, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	w := d.asked("POST", "/w/sb-1050", "application/json", string(body))
	v := new(view)
	if err := json.Unmarshal(w.Body.Bytes(), v); w.Code != http.StatusOK || err != nil {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	return v
}

func content(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func (v *view) finds(text string) bool {
	for _, f := range v.Findings {
		if strings.Contains(f.Message, text) {
			return true
		}
	}
	return false
}

// Stops come before cautions, and a remedy names a value as its line on the page does.
func TestFindingsForAPhone(t *testing.T) {
	d, _ := yard(t)
	v := d.post(t, sent{})
	caution := false
	for _, f := range v.Findings {
		caution = caution || f.Severity == "caution"
		if caution && f.Severity == "stop" {
			t.Errorf("a stop comes after a caution: %+v", v.Findings)
		}
	}
	v = (&view{Findings: []finding{{Remedy: "read the coupler plate and write hitch.rating"}, {Remedy: "write tires.spare-size"}}}).in(phrases.English)
	if v.Findings[0].Remedy != "read the coupler plate and write hitch rating" || v.Findings[1].Remedy != "write tires spare size" {
		t.Errorf("the remedies are %+v", v.Findings)
	}
}

// What is only tried changes no file, and is judged by the build's own rules.
func TestTriedIsNotWritten(t *testing.T) {
	d, file := yard(t)
	v := d.post(t, sent{Answers: []walkback.Answer{{Key: "axles.rating", Own: "5,200 lb (said 0:20)", Value: "5200", Place: "tag"}}})
	if !v.finds("the tires carry 5,080 lb; the axle is rated 5,200 lb") || v.finds("axle rating was only said") {
		t.Errorf("found %+v", v.Findings)
	}
	if content(t, file) != heard {
		t.Error("the file changed")
	}
	if _, err := os.Stat(filepath.Join(d.From, "earlier")); err == nil {
		t.Error("something was kept although nothing changed")
	}
}

// The answered values change and nothing else; the model stays; the file before the session
// is kept, and not what the session wrote in between.
func TestSaved(t *testing.T) {
	d, file := yard(t)
	v := d.post(t, sent{Save: true, Note: "New tires.", Answers: []walkback.Answer{
		{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9,990", Place: "tag"},
		{Key: "tires.load-range", Value: "E", Place: "sidewall"}, // the model says D
		{Key: "axles.rating", Own: "5,200 lb (said 0:20)", Value: "a lot", Place: "tag"},
	}})
	want := strings.NewReplacer("9,900 lb (said 0:40)", "9,990 lb (tag)", "hundred\"\n---\n", "hundred\"\ntires:\n  load-range: E (sidewall)\n---\n",
		"Words.\n", "Words.\n\nNew tires.\n").Replace(heard)
	if got := content(t, file); got != want {
		t.Errorf("the file is\n%s\nwant\n%s", got, want)
	}
	if !v.NoteTaken || len(v.Outcomes) != 3 || v.Outcomes[2].Outcome != walkback.Refused {
		t.Errorf("told %+v", v.Outcomes)
	}
	if content(t, filepath.Join(d.From, "content", "models", "eq-18.md")) != model {
		t.Error("the model changed")
	}
	earlier := filepath.Join(d.From, "earlier", "sb-1050.md")
	d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "price", Own: "$6,480", Value: "6200"}}})
	if content(t, earlier) != heard {
		t.Error("the file before the session is not kept")
	}
	// Somebody at the desk saves; the next answer keeps what they wrote.
	atDesk := strings.Replace(content(t, file), "Words.", "Better words.", 1)
	if err := os.WriteFile(file, []byte(atDesk), 0o644); err != nil {
		t.Fatal(err)
	}
	d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "price", Own: "$6,200 (since 2026-11-30)", Value: "6100"}}})
	if content(t, earlier) != atDesk || !strings.Contains(content(t, file), "Better words.") {
		t.Error("what somebody wrote at the desk is lost")
	}
}

// Many phones at once: each answer is written or told to be in conflict, and none is lost
// without a word.
func TestManyPhones(t *testing.T) {
	d, file := yard(t)
	var wg sync.WaitGroup
	var mu sync.Mutex
	outcomes := map[string]int{}
	for i := range 12 {
		wg.Go(func() {
			v := d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: fmt.Sprint(9000 + i), Place: "tag"}}})
			mu.Lock()
			outcomes[v.Outcomes[0].Outcome]++
			mu.Unlock()
		})
	}
	wg.Wait()
	if outcomes[walkback.Taken] != 1 || outcomes[walkback.Conflict] != 11 {
		t.Errorf("outcomes %v, want 1 taken and 11 in conflict", outcomes)
	}
	if got := content(t, file); strings.Count(got, "(tag)") != 1 || len(got) > len(heard)+10 {
		t.Errorf("the file is\n%s", got)
	}
}

// Only unit files are reached, only by JSON, and only so much.
func TestWhatIsRefused(t *testing.T) {
	d, file := yard(t)
	if runtime.GOOS != "windows" {
		if err := os.Symlink(filepath.Join(d.From, "secret.md"), filepath.Join(d.From, "content", "units", "link.md")); err != nil {
			t.Fatal(err)
		}
	}
	const json = "application/json"
	for _, c := range []struct {
		method, path, kind, body string
		want                     int
	}{
		{"GET", "/w/../../secret", "", "", http.StatusNotFound},
		{"GET", "/w/..%2f..%2fsecret", "", "", http.StatusNotFound},
		{"GET", `/w/..%5c..%5csecret`, "", "", http.StatusNotFound},
		{"GET", "/w/link", "", "", http.StatusNotFound},
		{"GET", "/w/nowhere", "", "", http.StatusNotFound},
		{"GET", "/w/.sb-1050", "", "", http.StatusNotFound},
		{"GET", "/w/C:sb", "", "", http.StatusNotFound},
		{"GET", "/w/sb-1050%00", "", "", http.StatusNotFound},
		{"GET", "/w/" + strings.Repeat("a", 5000), "", "", http.StatusNotFound},
		{"POST", "/w/link", json, "{}", http.StatusNotFound},
		{"POST", "/w/nowhere", json, `{"save":true,"note":"x"}`, http.StatusNotFound},
		{"POST", "/w/sb-1050", "text/plain", `{"save":true,"note":"x"}`, http.StatusUnsupportedMediaType},
		{"POST", "/w/sb-1050", "application/x-www-form-urlencoded", `note=x`, http.StatusUnsupportedMediaType},
		{"POST", "/w/sb-1050", json, `{`, http.StatusBadRequest},
		{"POST", "/w/sb-1050", json, `{"note":"` + strings.Repeat("x", mostSent) + `"}`, http.StatusBadRequest},
		{"POST", "/w/sb-1050", json, `{"answers":[` + strings.Repeat(`{},`, mostAnswers) + `{}]}`, http.StatusBadRequest},
		{"POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag", json, "{}", http.StatusUnsupportedMediaType},
		{"POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag", "image/jpeg", "<svg/>", http.StatusUnsupportedMediaType},
		{"POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag", "image/jpeg", jpeg, http.StatusConflict}, // only said
		{"POST", "/w/link/photo?key=weights.gvwr&place=tag", "image/jpeg", jpeg, http.StatusNotFound},
		{"POST", "/w", json, "{}", http.StatusBadRequest},
		{"POST", "/w", "text/plain", `{"walked":true}`, http.StatusUnsupportedMediaType},
		{"PUT", "/w", json, "{}", http.StatusMethodNotAllowed},
		{"PUT", "/w/sb-1050", json, "{}", http.StatusMethodNotAllowed},
		{"DELETE", "/w/sb-1050", "", "", http.StatusMethodNotAllowed},
	} {
		if w := d.asked(c.method, c.path, c.kind, c.body); w.Code != c.want || strings.Contains(w.Body.String(), "SECRET") {
			t.Errorf("%s %s (%s): %d %.80s, want %d", c.method, c.path, c.kind, w.Code, w.Body, c.want)
		}
	}
	if content(t, file) != heard {
		t.Error("the file changed")
	}
}

// TestPhotosAtOnce: each photo is in memory until it is whole, so one more than may arrive at
// once is asked to come again, and is taken later.
func TestPhotosAtOnce(t *testing.T) {
	d, _ := yard(t)
	send := func(body io.Reader) int {
		w := httptest.NewRecorder()
		req := httptest.NewRequest("POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag", body)
		req.Header.Set("Content-Type", "image/jpeg")
		d.Handler("/w").ServeHTTP(w, req)
		return w.Code
	}
	var all sync.WaitGroup
	var halves []*io.PipeWriter
	for range mostArriving {
		r, half := io.Pipe()
		halves = append(halves, half)
		all.Go(func() { send(r) })
		if _, err := half.Write([]byte("\xff")); err != nil { // It is being read.
			t.Fatal(err)
		}
	}
	if got := send(strings.NewReader(jpeg)); got != http.StatusServiceUnavailable {
		t.Errorf("a photo more than may arrive at once: %d", got)
	}
	for _, half := range halves {
		half.Close()
	}
	all.Wait()
	if got := send(strings.NewReader(jpeg)); got != http.StatusConflict { // only said
		t.Errorf("a photo after the others: %d", got)
	}
}

// The day of the walk over the lot is one tap.
func TestWalkedToday(t *testing.T) {
	d, _ := yard(t)
	file := filepath.Join(d.From, "content", "yard.md")
	before := content(t, file)
	if w := d.asked("GET", "/w", "", ""); !strings.Contains(w.Body.String(), "The stock was walked on 2026-11-20.") {
		t.Errorf("the list does not say when: %s", w.Body)
	}
	if w := d.asked("POST", "/w", "application/json", `{"walked":true}`); w.Code != http.StatusNoContent {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if got := content(t, file); got != strings.Replace(before, "2026-11-20", "2026-11-30", 1) || content(t, filepath.Join(d.From, "earlier", "yard.md")) != before {
		t.Errorf("the yard's file is\n%s", got)
	}
	if w := d.asked("GET", "/w", "", ""); strings.Contains(w.Body.String(), `id="walked"`) {
		t.Error("walked today, it still asks")
	}
}

// jpeg is how a JPEG begins (ITU-T T.81, B.1.1.3).
const jpeg = "\xff\xd8\xff\xe0 and so on"

// A photo goes into media under a name of its own, and never over another file.
func TestPhoto(t *testing.T) {
	d, file := yard(t)
	d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9,900", Place: "tag"}}})
	before := content(t, file)
	for _, n := range []string{"1", "2"} {
		if w := d.asked("POST", "/w/sb-1050/photo?key=weights.gvwr&place=tag&private=1", "image/jpeg", jpeg+n); w.Code != http.StatusOK {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
		if got := content(t, filepath.Join(d.From, "content", "media", "sb-1050-tag-"+n+".jpg")); got != jpeg+n {
			t.Errorf("photo %s is %q", n, got)
		}
	}
	item := func(n string) string {
		return "  - file: media/sb-1050-tag-" + n + ".jpg\n    shows: label\n    proves: weights.gvwr\n    withhold: not for customers\n"
	}
	if got, want := content(t, file), strings.Replace(before, "---\n\nWords", "proof:\n"+item("1")+item("2")+"---\n\nWords", 1); got != want {
		t.Errorf("the file is\n%s\nwant\n%s", got, want)
	}
}

// Links in a yard that came from somebody else lead nothing out of it: no photo, no answer, and
// not what a file was before.
func TestLinksAreNotWrittenThrough(t *testing.T) {
	d, file := yard(t)
	d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9,900", Place: "tag"}}})
	before := content(t, file)
	outside := t.TempDir()
	yardFile := filepath.Join(d.From, "content", "yard.md")
	for link, to := range map[string]string{filepath.Join(d.From, "content", "media"): outside, yardFile: filepath.Join(d.From, "secret.md")} {
		if err := errors.Join(os.RemoveAll(link), os.Symlink(to, link)); err != nil {
			t.Skip("NOT CHECKED: no symbolic links here: ", err)
		}
	}
	for path, kind := range map[string]string{"/w/sb-1050/photo?key=weights.gvwr&place=tag": "image/jpeg", "/w": "application/json"} {
		body := jpeg
		if kind != "image/jpeg" {
			body = `{"walked":true}`
		}
		if w := d.asked("POST", path, kind, body); w.Code < 400 || !strings.Contains(w.Body.String(), "is a link to another place") {
			t.Errorf("%s: %d %s", path, w.Code, w.Body)
		}
	}
	left, err := os.ReadDir(outside)
	if err != nil || len(left) > 0 || content(t, file) != before || content(t, filepath.Join(d.From, "secret.md")) != "---\nstock: SECRET\n---\n" {
		t.Errorf("outside are %v (%v), the file is\n%s", left, err, content(t, file))
	}
}

// Markup in a unit's file is words on both pages, and the page's policy lets nothing else run.
func TestMarkupIsWords(t *testing.T) {
	d, file := yard(t)
	spell := `"</script><script>bad=1</script><img src=x onerror=bad=1>"`
	hostile := strings.NewReplacer("title: 82 in x 18 ft equipment trailer", "title: '"+spell+"'", `"fifty-two hundred"`, spell).Replace(heard)
	if err := os.WriteFile(file, []byte(hostile), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"/w", "/w/sb-1050"} {
		w := d.asked("GET", path, "", "")
		if w.Code != http.StatusOK || bytes.Contains(w.Body.Bytes(), []byte("<script>bad")) || bytes.Contains(w.Body.Bytes(), []byte("<img src=x")) {
			t.Errorf("%s: %d\n%s", path, w.Code, w.Body)
		}
		if policy := w.Header().Get("Content-Security-Policy"); !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") {
			t.Errorf("%s has the policy %q", path, policy)
		}
	}
}

// A file that does not read is shown as such, and nothing is written into it.
func TestBrokenFile(t *testing.T) {
	d, file := yard(t)
	broken := strings.Replace(heard, "weights:", "weights: [", 1)
	if err := os.WriteFile(file, []byte(broken), 0o644); err != nil {
		t.Fatal(err)
	}
	if w := d.asked("GET", "/w", "", ""); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), "cannot be read: fix its file at the desk") {
		t.Errorf("the list: %d %s", w.Code, w.Body)
	}
	v := d.post(t, sent{Save: true, Note: "x", Answers: []walkback.Answer{{Key: "weights.gvwr", Value: "9900", Place: "tag"}}})
	if !v.Broken || v.Outcomes[0].Outcome != walkback.Refused || v.NoteTaken || len(v.Findings) == 0 {
		t.Errorf("told %+v", v)
	}
	if content(t, file) != broken {
		t.Error("the file changed")
	}
}
