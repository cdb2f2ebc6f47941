package render

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"tarepage/internal/phrases"
	theme "tarepage/themes/default"
)

// TestPhrasesOfScripts: every phrase that statics.js names is in the table, and so is one
// for each thing that it asks of a truck.
func TestPhrasesOfScripts(t *testing.T) {
	text, err := fs.ReadFile(theme.Files, "statics.js")
	if err != nil {
		t.Fatal(err)
	}
	named := regexp.MustCompile(`\bsay\("([^"]+)"[,)]`).FindAllStringSubmatch(string(text), -1)
	var keys []string
	for _, m := range named {
		keys = append(keys, m[1])
	}
	for _, k := range regexp.MustCompile(`needed\(v, "([^"]+)"\)`).FindAllStringSubmatch(string(text), -1) {
		keys = append(keys, "need "+k[1])
	}
	for _, k := range regexp.MustCompile(`\bnote\("([^"]+)"`).FindAllStringSubmatch(string(text), -1) {
		keys = append(keys, "note "+k[1])
	}
	for _, k := range regexp.MustCompile(`\["(\w+)", "(?:lb|in|kind|yes)", "(?:need|better|more)"`).FindAllStringSubmatch(string(text), -1) {
		keys = append(keys, "truck "+k[1], "truck "+k[1]+" at")
	}
	if len(keys) < 80 {
		t.Errorf("only %d keys were found; the patterns no longer match", len(keys))
	}
	for _, k := range keys {
		if phrases.English.Say(k) == k || strings.TrimSpace(phrases.English.Say(k)) == "" {
			t.Errorf("phrases.csv has nothing for %q", k)
		}
	}
}
