package render_test

import (
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestLotCopy: a yard that turns the copies off takes them back and offers none; what a phone
// is told to keep is there. What a worker does in a browser is checked in
// .ci/browser/lot.mjs (Service Workers, W3C).
func TestLotCopy(t *testing.T) {
	units := map[string]string{"content/units/ex-1.md": sound}
	off, err := filesOf(maps.Clone(units), strings.Replace(yard, "as-of:", "save-for-the-lot: no\nas-of:", 1))
	if err != nil {
		t.Fatal(err)
	}
	if w := off["worker.js"]; !strings.Contains(w, "unregister()") || strings.Contains(w, "fetch") {
		t.Errorf("a yard that does not ask ships the worker %q", w)
	}
	for path, text := range off {
		if strings.HasPrefix(path, "s/keep-") || strings.HasSuffix(path, ".html") && (strings.Contains(text, `id="kept"`) || strings.Contains(text, `id="save"`)) {
			t.Errorf("%s offers to save what the yard does not offer", path)
		}
	}
	on, err := filesOf(maps.Clone(units), yard)
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^var KEEP=(\[[^\]]*\])`).FindStringSubmatch(on["worker.js"])
	if m == nil || strings.Contains(on["worker.js"], "unregister()") {
		t.Fatalf("a yard that asks ships the worker %.80q", on["worker.js"])
	}
	var keep []string
	if err := json.Unmarshal([]byte(m[1]), &keep); err != nil {
		t.Fatal(err)
	}
	for _, path := range keep {
		if on[path] == "" {
			t.Errorf("the worker keeps %s, which is not there", path)
		}
		if strings.HasSuffix(path, ".mp4") {
			t.Errorf("the worker keeps the recording %s", path)
		}
	}
	// Everything that the front page loads by itself works without a host.
	for _, src := range regexp.MustCompile(`(?:src|data-stock)="([^"]+)"`).FindAllStringSubmatch(on["index.html"], -1) {
		if !slices.Contains(keep, src[1]) {
			t.Errorf("the front page loads %s, which the worker does not keep", src[1])
		}
	}
	if !strings.Contains(on["index.html"], `id="kept"`) || !slices.Contains(keep, "index.html") {
		t.Error("the front page does not offer to be saved")
	}
}
