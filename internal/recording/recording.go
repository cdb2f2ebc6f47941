// Package recording finds the captions of a recording for intake: in a file of captions, inside
// a video, or by running the speech recognizer that the yard has. It does not judge what was
// said.
package recording

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"time"

	"tarepage/internal/captions"
	"tarepage/internal/files"
)

// Captions are the captions of a recording.
type Captions struct {
	Text []byte
	Name string // of the file, for messages
	// File is the path of the file; empty if the captions have no file of their own yet.
	File string
}

// Read reads the captions of a recording: those of a captions file, those inside a video, or, if
// a command is given, those that a speech recognizer makes.
func Read(name, command string) (Captions, error) {
	if command != "" {
		return recognized(name, command, mostRecognizing)
	}
	f, err := files.Open(name)
	if err != nil {
		return Captions{}, fmt.Errorf("captions %w", err)
	}
	defer f.Close()
	head := make([]byte, 12)
	n, _ := f.ReadAt(head, 0)
	if info, err := f.Stat(); err == nil && captions.IsVideo(head[:n]) {
		text, err := captions.InVideo(f, info.Size())
		if errors.Is(err, captions.ErrNoCaptions) {
			err = fmt.Errorf("%w; save them as a .vtt or .srt file, or name a speech recognizer with -captions-by", err)
		}
		if err != nil {
			return Captions{}, fmt.Errorf("captions %s: %w", filepath.Base(name), err)
		}
		return Captions{Text: text, Name: captionsFile(name, ".vtt")}, nil
	}
	text, err := files.ReadUpTo(name, captions.MaxBytes)
	if err != nil {
		return Captions{}, fmt.Errorf("captions %w", err)
	}
	return Captions{Text: text, Name: filepath.Base(name), File: name}, nil
}

// captionsFile is the name of the captions of a recording.
func captionsFile(recording, ext string) string {
	base := filepath.Base(recording)
	return strings.TrimSuffix(base, filepath.Ext(base)) + ext
}

// words are the words of a recognizer's command with the two files in their places. There is no
// shell: a quote or a $ is a character like any other.
func words(command, in, out string) ([]string, error) {
	list := strings.Fields(command)
	if len(list) == 0 || !strings.Contains(command, "{in}") || !strings.Contains(command, "{out}") {
		return nil, fmt.Errorf(`-captions-by %q does not say where the recording and the captions go: -captions-by "recognizer {in} {out}"`, command)
	}
	if strings.Contains(list[0], "{") {
		return nil, fmt.Errorf("-captions-by %q begins with a file; it begins with the command", command)
	}
	places := strings.NewReplacer("{in}", in, "{out}", out)
	for i := range list[1:] {
		list[i+1] = places.Replace(list[i+1])
	}
	return list, nil
}

// mostRecognizing is how long a speech recognizer may take. A slow one takes several times as long
// as the recording.
const mostRecognizing = 6 * time.Hour

// recognized runs the yard's speech recognizer and reads what it wrote: the file that {out}
// names, or else the only captions next to it, as some add an ending. One that takes too long is
// ended.
func recognized(name, command string, most time.Duration) (Captions, error) {
	in, err := filepath.Abs(name) // never taken for a flag
	if err != nil {
		return Captions{}, err
	}
	if _, err := os.Stat(in); err != nil {
		return Captions{}, fmt.Errorf("%q: no such recording", name)
	}
	dir, err := os.MkdirTemp("", "captions")
	if err != nil {
		return Captions{}, err
	}
	defer os.RemoveAll(dir)
	list, err := words(command, in, filepath.Join(dir, "captions.vtt"))
	if err != nil {
		return Captions{}, err
	}
	ctx, stop := context.WithTimeout(context.Background(), most)
	defer stop()
	run := exec.CommandContext(ctx, list[0], list[1:]...)
	run.Stdout, run.Stderr = os.Stderr, os.Stderr
	if err := run.Run(); ctx.Err() != nil {
		return Captions{}, fmt.Errorf("-captions-by: %q took longer than %v and was ended", list[0], most)
	} else if err != nil {
		return Captions{}, fmt.Errorf("-captions-by: %q did not succeed: %w", list[0], err)
	}
	found, err := filepath.Glob(filepath.Join(dir, "*.[vs][tr]t"))
	if err != nil || len(found) == 0 {
		return Captions{}, fmt.Errorf("-captions-by: %q wrote no captions to {out}; it has to write WebVTT or SubRip there", list[0])
	}
	text, err := files.ReadUpTo(found[0], captions.MaxBytes)
	if err != nil {
		return Captions{}, fmt.Errorf("-captions-by: captions %w", err)
	}
	ext := ".srt"
	if bytes.HasPrefix(bytes.TrimPrefix(text, []byte("\xEF\xBB\xBF")), []byte("WEBVTT")) {
		ext = ".vtt"
	}
	return Captions{Text: text, Name: captionsFile(name, ext)}, nil
}

// Keep writes captions that have no file yet into media/ of a content folder. It reports whether
// it wrote them.
func (c *Captions) Keep(content string) (wrote bool, err error) {
	if c.File != "" {
		return false, nil
	}
	name := filepath.Join(content, "media", c.Name)
	if err := files.NoLinks(content, name); err != nil {
		return false, err
	}
	switch err := files.WriteNew(name, c.Text); {
	case errors.Is(err, files.ErrExists):
		return false, fmt.Errorf("%s exists and stays as it is; run intake on it, or take it away", filepath.ToSlash(name))
	case err != nil:
		return false, err
	}
	c.File = name
	return true, nil
}

// In is the path below a content folder by which a unit names the captions, and whether the file
// is there already. A file that is elsewhere is expected in media/.
func (c Captions) In(content string) (name string, inPlace bool) {
	dir, err1 := filepath.Abs(content)
	file, err2 := filepath.Abs(c.File)
	if c.File != "" && err1 == nil && err2 == nil {
		if rel, err := filepath.Rel(dir, file); err == nil && fs.ValidPath(filepath.ToSlash(rel)) {
			return filepath.ToSlash(rel), true
		}
	}
	return path.Join("media", c.Name), false
}
