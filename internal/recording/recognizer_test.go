package recording

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// recognizer is set for a process of this test that plays the yard's speech recognizer.
const recognizer = "TAREPAGE_TEST_RECOGNIZER"

func TestMain(m *testing.M) {
	if as := os.Getenv(recognizer); as != "" {
		os.Exit(recognize(as, os.Args[len(os.Args)-2], os.Args[len(os.Args)-1]))
	}
	os.Exit(m.Run())
}

// recognize writes captions the way recognizers do: to the file that is named, with another
// ending, as SubRip, not at all, or it fails.
func recognize(as, in, out string) int {
	heard, err := os.ReadFile(in)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 2
	}
	text := "WEBVTT\n\n00:01.000 --> 00:04.000\n" + string(heard) + "\n"
	switch as {
	case "fails":
		return 3
	case "writes nothing":
		return 0
	case "hangs":
		time.Sleep(time.Minute)
	case "a mark in front":
		text = "\ufeff" + text
	case "SubRip":
		text = "1\n00:00:01,000 --> 00:00:04,000\n" + string(heard) + "\n"
	case "an ending of its own":
		out += ".srt"
	}
	fmt.Println("loading the model") // belongs to the terminal, not to the captions
	if os.WriteFile(out, []byte(text), 0o600) != nil {
		return 2
	}
	return 0
}

// TestRecognized runs a recognizer on a recording and takes what it wrote, under the name of the
// recording and with the ending of its form.
func TestRecognized(t *testing.T) {
	me, err := os.Executable()
	if err != nil || strings.ContainsAny(me, " \t") {
		t.Skip("NOT CHECKED: the path of the test holds a blank: ", me, err)
	}
	dir := t.TempDir()
	t.Setenv("TMPDIR", t.TempDir())
	talk := put(t, filepath.Join(dir, "the walk.m4a"), "the deck is 20 ft long")
	command := me + " -test.run=^$ {in} {out}"
	for as, want := range map[string]string{
		"usual": "the walk.vtt", "a mark in front": "the walk.vtt", "SubRip": "the walk.srt", "an ending of its own": "the walk.vtt",
		"fails":          "did not succeed: exit status 3",
		"writes nothing": "wrote no captions to {out}; it has to write WebVTT or SubRip there",
	} {
		t.Setenv(recognizer, as)
		c, err := Read(talk, command)
		if strings.HasPrefix(want, "the walk") {
			if err != nil || c.Name != want || c.File != "" || !strings.Contains(string(c.Text), "the deck is 20 ft long\n") || strings.Contains(string(c.Text), "model") {
				t.Errorf("%s: %q, %q, %v", as, c.Name, c.Text, err)
			}
		} else if err == nil || !strings.Contains(err.Error(), want) || c.Text != nil {
			t.Errorf("%s: %q, %q, %v", as, c.Name, c.Text, err)
		}
	}
	for _, c := range []struct{ name, command, want string }{
		{filepath.Join(dir, "nowhere.m4a"), command, "no such recording"},
		{talk, me + " {in}", "does not say where"},
		{talk, "no-such-command-anywhere {in} {out}", `"no-such-command-anywhere" did not succeed`},
	} {
		if got, err := Read(c.name, c.command); err == nil || !strings.Contains(err.Error(), c.want) || got.Text != nil {
			t.Errorf("%s, %s: %q, %v", c.name, c.command, got.Name, err)
		}
	}
	left, err := os.ReadDir(os.Getenv("TMPDIR"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// TestRecognizerIsEnded: one that takes too long is ended, and leaves nothing.
func TestRecognizerIsEnded(t *testing.T) {
	me, err := os.Executable()
	if err != nil || strings.ContainsAny(me, " \t") {
		t.Skip("NOT CHECKED: the path of the test holds a blank: ", me, err)
	}
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	t.Setenv(recognizer, "hangs")
	talk := put(t, filepath.Join(t.TempDir(), "walk.m4a"), "the deck is 20 ft long")
	start := time.Now()
	if _, err := recognized(talk, me+" -test.run=^$ {in} {out}", 300*time.Millisecond); err == nil || !strings.Contains(err.Error(), "took longer than 300ms") || time.Since(start) > 30*time.Second {
		t.Errorf("after %v: %v", time.Since(start), err)
	}
	if left, err := os.ReadDir(temp); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}
