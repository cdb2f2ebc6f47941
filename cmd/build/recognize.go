package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/files"
)

// heard is what intake reads: captions from a file, from inside a video, or from a speech
// recognizer that the yard has.
type heard struct {
	src  []byte
	name string // of the captions, for messages
	made bool   // they have no file of their own yet
}

// words are the words of -captions-by with the two files in their places. There is no shell: a
// quote or a $ is a character like any other.
func words(template, in, out string) ([]string, error) {
	list := strings.Fields(template)
	if len(list) == 0 || !strings.Contains(template, "{in}") || !strings.Contains(template, "{out}") {
		return nil, fmt.Errorf(`-captions-by %q does not say where the recording and the captions go: -captions-by "recognizer {in} {out}"`, template)
	}
	if strings.Contains(list[0], "{") {
		return nil, fmt.Errorf("-captions-by %q begins with a file; it begins with the command", template)
	}
	files := strings.NewReplacer("{in}", in, "{out}", out)
	for i := range list[1:] {
		list[i+1] = files.Replace(list[i+1])
	}
	return list, nil
}

// captions reads the captions that intake is to hear.
func (c *command) captions() (heard, error) {
	if c.captionsBy != "" {
		return c.recognized()
	}
	f, err := os.Open(c.name)
	if err != nil {
		_, err = files.ReadUpTo(c.name, captions.MaxBytes) // says why in the program's words
		return heard{}, fmt.Errorf("captions %w", err)
	}
	defer f.Close()
	head := make([]byte, 12)
	n, _ := f.ReadAt(head, 0)
	if info, err := f.Stat(); err == nil && captions.IsVideo(head[:n]) {
		src, err := captions.InVideo(f, info.Size())
		if errors.Is(err, captions.ErrNoCaptions) {
			err = fmt.Errorf("%w; save them as a .vtt or .srt file, or name a speech recognizer with -captions-by", err)
		}
		if err != nil {
			return heard{}, fmt.Errorf("captions %s: %w", filepath.Base(c.name), err)
		}
		return heard{src, captionsFile(c.name, ".vtt"), true}, nil
	}
	src, err := files.ReadUpTo(c.name, captions.MaxBytes)
	if err != nil {
		return heard{}, fmt.Errorf("captions %w", err)
	}
	return heard{src, filepath.Base(c.name), false}, nil
}

// captionsFile is the name of the captions of a recording.
func captionsFile(recording, ext string) string {
	base := filepath.Base(recording)
	return strings.TrimSuffix(base, filepath.Ext(base)) + ext
}

// recognized runs the yard's speech recognizer and reads what it wrote: the file that {out}
// names, or else the only captions next to it, as some add an ending.
func (c *command) recognized() (heard, error) {
	in, err := filepath.Abs(c.name) // never taken for a flag
	if err != nil {
		return heard{}, err
	}
	if _, err := os.Stat(in); err != nil {
		return heard{}, fmt.Errorf("%q: no such recording", c.name)
	}
	dir, err := os.MkdirTemp("", "captions")
	if err != nil {
		return heard{}, err
	}
	defer os.RemoveAll(dir)
	list, err := words(c.captionsBy, in, filepath.Join(dir, "captions.vtt"))
	if err != nil {
		return heard{}, err
	}
	run := exec.Command(list[0], list[1:]...)
	run.Stdout, run.Stderr = os.Stderr, os.Stderr
	if err := run.Run(); err != nil {
		return heard{}, fmt.Errorf("-captions-by: %q did not succeed: %w", list[0], err)
	}
	found, err := filepath.Glob(filepath.Join(dir, "*.[vs][tr]t"))
	if err != nil || len(found) == 0 {
		return heard{}, fmt.Errorf("-captions-by: %q wrote no captions to {out}; it has to write WebVTT or SubRip there", list[0])
	}
	src, err := files.ReadUpTo(found[0], captions.MaxBytes)
	if err != nil {
		return heard{}, fmt.Errorf("-captions-by: captions %w", err)
	}
	ext := ".srt"
	if bytes.HasPrefix(bytes.TrimPrefix(src, []byte("\xEF\xBB\xBF")), []byte("WEBVTT")) {
		ext = ".vtt"
	}
	return heard{src, captionsFile(c.name, ext), true}, nil
}

// keep writes captions that have no file yet into media/, and goes on with that file.
func (c *command) keep(h heard, unitFile string) (written string, err error) {
	if !h.made {
		return "", nil
	}
	if _, err := os.Stat(unitFile); err == nil {
		return "", nil // draft says that it exists
	}
	name := filepath.Join(contentDir(c.from), "media", h.name)
	shown := filepath.ToSlash(name)
	switch err := files.WriteNew(name, h.src); {
	case errors.Is(err, files.ErrExists):
		return "", fmt.Errorf("%s exists and stays as it is; run intake on it, or take it away", shown)
	case err != nil:
		return "", err
	}
	c.name = name
	return shown, nil
}
