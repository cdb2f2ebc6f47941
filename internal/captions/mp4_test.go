package captions

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
)

func video(tb testing.TB, name string) []byte {
	tb.Helper()
	data, err := os.ReadFile("testdata/video/" + name)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

// cues are what the captions in a video show, one line a cue.
func cues(t *testing.T, data []byte) []string {
	t.Helper()
	file, err := InVideo(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	c, doubts, err := Read("video", file)
	if err != nil || len(doubts) > 0 {
		t.Fatal(err, doubts)
	}
	var out []string
	for _, q := range c.Cues {
		out = append(out, stamp(milliseconds(q.Start))[6:]+" "+stamp(milliseconds(q.End))[6:]+" "+strings.ReplaceAll(q.Text, "\n", " / "))
	}
	return out
}

// TestInVideo reads a video that ffmpeg 5.1 wrote from three cues (codec mov_text, which is
// tx3g). It left <two> out of the second.
func TestInVideo(t *testing.T) {
	want := []string{
		"01.000 04.500 the g v w r is fourteen thousand",
		`05.000 08.250 it weighs & holds  "axles" / second line`,
		"10.000 12.000 done",
	}
	if got := cues(t, video(t, "tx3g.mp4")); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	none := video(t, "none.mp4")
	if _, err := InVideo(bytes.NewReader(none), int64(len(none))); !errors.Is(err, ErrNoCaptions) {
		t.Errorf("a video without captions: %v", err)
	}
	if !IsVideo(none) || IsVideo([]byte("WEBVTT\n\n00:01.000 -->")) {
		t.Error("a video is not told from captions")
	}
}

func boxOf(kind string, parts ...[]byte) []byte {
	body := bytes.Join(parts, nil)
	return append(append(binary.BigEndian.AppendUint32(nil, uint32(8+len(body))), kind...), body...)
}

func words(list ...uint32) []byte {
	var out []byte
	for _, v := range list {
		out = binary.BigEndian.AppendUint32(out, v)
	}
	return out
}

// webVTTVideo is a video with a wvtt track of these samples, a second each, two in a chunk (ISO/IEC
// 14496-30 section 7; the layout is from memory).
func webVTTVideo(samples ...[]byte) []byte {
	ftyp := boxOf("ftyp", []byte("isom"), words(0))
	mdat := boxOf("mdat", samples...)
	sizes := []uint32{0, 0, uint32(len(samples))}
	places := []uint32{0, uint32((len(samples) + 1) / 2)}
	at := uint32(len(ftyp) + 8)
	for i, s := range samples {
		sizes = append(sizes, uint32(len(s)))
		if i%2 == 0 {
			places = append(places, at)
		}
		at += uint32(len(s))
	}
	stbl := boxOf("stbl", boxOf("stsd", words(0, 1), boxOf("wvtt", make([]byte, 8))), boxOf("stts", words(0, 1, uint32(len(samples)), 1000)),
		boxOf("stsc", words(0, 1, 1, 2, 1)), boxOf("stsz", words(sizes...)), boxOf("stco", words(places...)))
	mdhd := boxOf("mdhd", words(0, 0, 0, 1000, uint32(1000*len(samples)), 0))
	return slices.Concat(ftyp, mdat, boxOf("moov", boxOf("trak", boxOf("mdia", mdhd, boxOf("minf", stbl)))))
}

func vttc(text string) []byte { return boxOf("vttc", boxOf("payl", []byte(text))) }

func TestWebVTTInVideo(t *testing.T) {
	got := cues(t, webVTTVideo(vttc("<v Pat>two axles"), boxOf("vtte"), slices.Concat(vttc("first"), vttc("AT&amp;T --> both\n\nlines"))))
	want := []string{"00.000 01.000 two axles", "02.000 03.000 first", "02.000 03.000 AT&T -> both / lines"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestHostileVideo: numbers that promise more than the file holds are cut, never believed.
func TestHostileVideo(t *testing.T) {
	good := webVTTVideo(vttc("one"), vttc("two"))
	for at := range good {
		for _, v := range []byte{0, 0xFF} {
			bad := bytes.Clone(good)
			bad[at] = v
			if file, err := InVideo(bytes.NewReader(bad), int64(len(bad))); err == nil {
				if _, _, err := Read("video", file); err != nil {
					t.Fatalf("byte %d: the captions do not read: %v", at, err)
				}
			}
		}
		_, _ = InVideo(bytes.NewReader(good[:at]), int64(at))
	}
}

func FuzzInVideo(f *testing.F) {
	f.Add(webVTTVideo(vttc("one"), boxOf("vtte"), vttc("two")))
	f.Add(video(f, "tx3g.mp4"))
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := InVideo(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			return
		}
		if !strings.HasPrefix(string(file), "WEBVTT\n") || len(file) > MaxBytes+maxSample*8 {
			t.Fatalf("%d bytes that begin with %.10q", len(file), file)
		}
	})
}
