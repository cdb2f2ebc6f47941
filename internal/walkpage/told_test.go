package walkpage

import (
	"encoding/base64"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

// TestPagesAreWhole: both pages hold their own style and script, which the policy lets run by
// their digests (Content Security Policy Level 3, 6.7.3.3), and the unit's data.
func TestPagesAreWhole(t *testing.T) {
	d, _ := yard(t)
	for path, own := range map[string]string{"/w": listScript, "/w/sb-1050": script} {
		w := d.asked("GET", path, "", "")
		body := w.Body.String()
		if !strings.Contains(body, "<style>"+style+"</style>") || !strings.Contains(body, "<script>"+own+"</script>") {
			t.Errorf("%s lacks its style or its script", path)
		}
		if got := w.Header().Get("Content-Type"); got != "text/html; charset=utf-8" {
			t.Errorf("%s is %q", path, got)
		}
	}
	// The digest of the empty text, from FIPS 180-4's published examples of SHA-256.
	if got := hash(""); got != "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='" {
		t.Errorf("the digest of nothing is %s", got)
	}
	for _, text := range []string{style, script, listScript} {
		if !strings.Contains(policy, hash(text)) || len(hash(text)) != len("'sha256-'")+base64.StdEncoding.EncodedLen(32) {
			t.Errorf("the policy is %s", policy)
		}
	}
	if w := d.asked("PUT", "/w", "", ""); w.Header().Get("Allow") != "GET, HEAD, POST" {
		t.Errorf("PUT may %q", w.Header().Get("Allow"))
	}
	w := d.asked("POST", "/w/sb-1050", "application/json; charset=utf-8", "{}")
	if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "application/json" {
		t.Errorf("%d as %q", w.Code, w.Header().Get("Content-Type"))
	}
}

// TestView: figures, stations, findings and outcomes of a unit; the remarks for the owner's desk
// are not among the findings.
func TestView(t *testing.T) {
	d, _ := yard(t)
	v := d.post(t, sent{Answers: []walkback.Answer{{Key: "weights.empty", Value: "2640", Place: "scale ticket", Day: "2026-11-18"},
		{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9900", Place: "tag"}}})
	found := map[string]string{}
	for _, f := range v.Figures {
		found[f.Label] = f.Text
	}
	// 9,900 - 2,640 lb (49 CFR 571.120 S5.1.2: the label's weight less the trailer's own).
	if found["Payload"] != "7,260 lb" && found["Payload by the label"] != "7,260 lb" {
		t.Errorf("figures %v", found)
	}
	if v.Stock != "SB-1050" || v.Today != "2026-11-30" || v.Broken || len(v.Stations) == 0 || len(v.Sale) == 0 || len(v.Findings) == 0 {
		t.Errorf("%+v", v)
	}
	for _, f := range v.Findings {
		if f.Severity == "remark" || f.Message == "" || f.Remedy == "" {
			t.Errorf("finding %+v", f)
		}
	}
}

// TestRows puts units with something to confirm, and those that do not read, in front of the
// rest; a sold unit needs nobody.
func TestRows(t *testing.T) {
	stock := &unit.Stock{}
	sources := map[string]string{
		"a":    "---\nstock: A-1\ntitle: One\navailability: on the yard\n---\n",
		"sold": "---\nstock: A-2\navailability: sold\n---\n",
		"bad":  "---\nstock: \"A-3\n---\n",
		"none": "---\ntitle: No number\n---\n",
	}
	for _, name := range []string{"a", "sold", "bad", "none"} {
		u, _ := unit.ReadUnit("content/units/"+name+".md", []byte(sources[name]))
		stock.Units = append(stock.Units, u)
	}
	open, done := rows(stock, func(name string) []byte { return []byte(sources[name]) })
	var got []string
	for _, r := range open {
		got = append(got, fmt.Sprintf("%s %s %v %v", r.Name, r.Stock, r.Open > 0, r.Broken))
	}
	for _, r := range done {
		got = append(got, fmt.Sprintf("done: %s %s %s", r.Name, r.Stock, r.State))
	}
	if want := "a A-1 true false; bad bad true true; none none true false; done: sold A-2 sold"; strings.Join(got, "; ") != want {
		t.Errorf("%s\nwant\n%s", strings.Join(got, "; "), want)
	}
}

// TestDeskFails: what goes wrong at the desk is told to the phone, and nothing is left half done.
func TestDeskFails(t *testing.T) {
	d, file := yard(t)
	d.LookAt = nil
	stock := d.Stock
	d.Stock = func() (*unit.Stock, error) { return nil, errors.New("the disk is gone") }
	if w := d.asked("GET", "/w", "", ""); w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "the disk is gone") {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	d.Stock = stock
	// A name of 200 characters may be a unit's; one of 201 is none.
	for n, want := range map[int]error{200: nil, 201: errNoUnit} {
		name := strings.Repeat("a", n)
		if err := os.WriteFile(filepath.Join(filepath.Dir(file), name+".md"), []byte(heard), 0o644); err != nil {
			t.Fatal(err)
		}
		if _, err := d.path(name); !errors.Is(err, want) {
			t.Errorf("a name of %d characters: %v", n, err)
		}
	}
	if err := os.WriteFile(file, []byte(heard+strings.Repeat("x", unit.MostBytes-len(heard)+1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if w := d.asked("GET", "/w/sb-1050", "", ""); w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "too long") {
		t.Errorf("a long file: %d %s", w.Code, w.Body)
	}
	// Somebody saves the file between reading and writing it.
	if err := d.write("sb-1050", file, []byte(heard), []byte("new")); err == nil || !strings.Contains(err.Error(), "somebody saved the file") {
		t.Errorf("%v", err)
	}
	if err := d.write("gone", filepath.Join(d.From, "gone.md"), nil, []byte("new")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%v", err)
	}
	// The yard's file has no front matter that a day can go into.
	yardFile := filepath.Join(d.From, "content", "yard.md")
	if err := os.WriteFile(yardFile, []byte("words\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if w := d.asked("POST", "/w", "application/json", `{"walked":true}`); w.Code != http.StatusServiceUnavailable || !strings.Contains(w.Body.String(), "content/yard.md: ") || content(t, yardFile) != "words\n" {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	if err := os.WriteFile(yardFile, []byte("---\nas-of: 2026-11-30\n---\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if w := d.asked("POST", "/w", "application/json", `{"walked":true}`); w.Code != http.StatusNoContent {
		t.Errorf("walked twice a day: %d %s", w.Code, w.Body)
	}
	if _, err := os.Stat(filepath.Join(d.From, "earlier", "yard.md")); err == nil {
		t.Error("a file that stays as it is was kept")
	}
}

// TestPhotosThatAreRefused: too many values, no unit, a folder full of photos, and a photo whose
// unit cannot be written leave nothing behind.
func TestPhotosThatAreRefused(t *testing.T) {
	d, file := yard(t)
	d.post(t, sent{Save: true, Answers: []walkback.Answer{{Key: "weights.gvwr", Own: "9,900 lb (said 0:40)", Value: "9,900", Place: "tag"}}})
	send := func(query, body string) (int, string) {
		w := d.asked("POST", "/w/sb-1050/photo?place=tag"+query, "image/jpeg", body)
		return w.Code, w.Body.String()
	}
	many := strings.Repeat("&key=weights.gvwr", mostKeys+1)
	if code, said := send(many, jpeg); code != http.StatusBadRequest || !strings.Contains(said, "fewer values") {
		t.Errorf("%d %s", code, said)
	}
	if code, said := send("&key=weights.gvwr", strings.Repeat("x", mostPhoto+1)); code != http.StatusBadRequest || !strings.Contains(said, "more than 40 MB") {
		t.Errorf("%d %s", code, said)
	}
	before := content(t, file)
	media := filepath.Join(d.From, "content", "media")
	if err := os.MkdirAll(media, 0o755); err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= 999; n++ {
		if err := os.WriteFile(filepath.Join(media, fmt.Sprintf("sb-1050-tag-%d.jpg", n)), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if code, said := send("&key=weights.gvwr", jpeg); code < 400 || !strings.Contains(said, "cannot be kept in") || content(t, file) != before {
		t.Errorf("%d %s", code, said)
	}
	if err := os.Remove(filepath.Join(media, "sb-1050-tag-7.jpg")); err != nil {
		t.Fatal(err)
	}
	w := d.asked("POST", "/w/sb-1050/photo?place=tag&key=weights.gvwr", "image/jpeg", jpeg)
	if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "application/json" || content(t, filepath.Join(media, "sb-1050-tag-7.jpg")) != jpeg {
		t.Errorf("%d %s", w.Code, w.Body)
	}
}
