package intake_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/intake"
)

var lookAt = flag.String("look", "", "a folder of labelled talk, whose titles are printed next to those that a person wrote")

// TestTitles prints the titles that are written for a folder of talk, with -look DIR. A person
// compares them: a title is right where it names the size and the kind, and nothing in it is wrong.
func TestTitles(t *testing.T) {
	if *lookAt == "" {
		t.Skip("no talk: give its folder with -look")
	}
	names, _ := filepath.Glob(filepath.Join(*lookAt, "*.about"))
	for _, name := range names {
		about, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		file := strings.TrimSuffix(name, ".about") + ".vtt"
		captions, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		talk, err := intake.Listen(file, captions)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Println(filepath.Base(name))
		for _, text := range []string{string(about), string(talk.Sheet("EX-1", "media/walk.vtt").Text)} {
			for line := range strings.Lines(text) {
				if strings.HasPrefix(line, "title:") || strings.HasPrefix(line, "condition:") || strings.HasPrefix(line, "availability:") {
					fmt.Print("   ", line)
				}
			}
		}
	}
}
