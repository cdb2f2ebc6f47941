package walkaround

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/captions"
	"tarepage/internal/thorough"
)

var updateHeard = flag.Bool("update", false, "write what is heard as it now is")

// TestHeardAsReviewed: what the ear makes of two dozen walk-arounds is as somebody read and accepted
// it: figures and words with their runners-up, equipment, claims, notes and what they leave out. Of all
// other talk the file has a digest, which names the talk to look at. Read a difference like code; then
// run go test ./internal/walkaround -run HeardAsReviewed -update.
func TestHeardAsReviewed(t *testing.T) {
	golden := new(txtar.Archive)
	sets, err := filepath.Glob(filepath.Join(talkDir, "*", "*.vtt"))
	walks, walksErr := filepath.Glob(filepath.Join(talkDir, "*", "walks", "*.vtt"))
	if err = errors.Join(err, walksErr); err != nil || len(sets) < 90 || len(walks) < 50 {
		t.Fatal(len(sets), len(walks), err)
	}
	var digests strings.Builder
	for _, name := range append(sets, walks...) {
		called := filepath.ToSlash(strings.TrimPrefix(name, talkDir+string(filepath.Separator)))
		set, _, _ := strings.Cut(called, "/")
		whole := set == "kept-aside" || set == "stranger-1"
		if !whole && !thorough.BeforePush() && !*updateHeard {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := captions.Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		heard := []byte(heardIn(c))
		if whole {
			golden.Files = append(golden.Files, txtar.File{Name: called, Data: heard})
			continue
		}
		fmt.Fprintf(&digests, "%s %.6x\n", called, sha256.Sum256(heard))
	}
	// The digests come first, as the comment of the archive, which the quick tests leave alone.
	at := filepath.Join("testdata", "heard.txtar")
	golden.Comment = []byte(digests.String())
	got := txtar.Format(golden)
	if *updateHeard {
		if err := os.WriteFile(at, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(at)
	if err != nil {
		t.Fatal(err)
	}
	if !thorough.BeforePush() {
		reviewed := txtar.Parse(want)
		reviewed.Comment = nil
		want = txtar.Format(reviewed)
	}
	if bytes.Equal(got, want) {
		return
	}
	is, was := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range min(len(is), len(was)) {
		if is[i] != was[i] {
			t.Fatalf("line %d of %s:\n is  %s\n was %s", i+1, at, is[i], was[i])
		}
	}
	t.Fatalf("%s has %d lines, there are now %d", at, len(was), len(is))
}

// heardIn is everything that the ear makes of a recording, a line each.
func heardIn(c captions.Track) string {
	var b strings.Builder
	candidates := func(what string, list []Candidate) {
		for _, x := range list {
			fmt.Fprintf(&b, "%s %.1f-%.1f %s %s %q at %d, %.3f", what, x.Start, x.End, x.Role, x.Written(true), x.Quote, x.Offset, x.Confidence)
			if x.Doubt != "" {
				fmt.Fprintf(&b, "; %s", x.Doubt)
			}
			if x.Count > 0 || x.Contested || x.UnitInferred || x.Tolerance != nil {
				fmt.Fprintf(&b, "; of %d, contested %v, unit inferred %v, within %v", x.Count, x.Contested, x.UnitInferred, x.Tolerance)
			}
			for _, a := range x.Alternatives {
				fmt.Fprintf(&b, "; or %+v", a)
			}
			b.WriteString("\n")
		}
	}
	heard, words := Hear(c), Words(c)
	candidates("figure", heard)
	candidates("word", words)
	for _, x := range Equipment(c) {
		fmt.Fprintf(&b, "item %.1f %s, optional %v, %q at %d\n", x.Start, x.Name, x.Optional, x.Quote, x.Offset)
	}
	for _, x := range Claims(c) {
		fmt.Fprintf(&b, "claim %+v\n", x)
	}
	for _, x := range Private(c) {
		fmt.Fprintf(&b, "private %.1f %s\n", x.At, x.Reason)
	}
	for _, x := range Sayings(c) {
		if x.Another {
			fmt.Fprintf(&b, "another %.1f %s\n", x.Start, x.Text)
		}
	}
	notes, left := Notes(c, append(heard, words...))
	for _, n := range notes {
		fmt.Fprintf(&b, "note %.1f-%.1f %s: %s\n", n.Start, n.End, n.Heading, n.Text)
	}
	for _, x := range left {
		fmt.Fprintf(&b, "left out %.1f %s\n", x.At, x.Reason)
	}
	return b.String()
}
