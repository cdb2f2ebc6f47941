package packed

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
)

// sample has every kind of value that is packed.
type sample struct {
	On      bool
	Small   int8
	Number  int64
	Count   uint32
	Share   float64
	Name    string
	Sum     [32]byte
	Ends    [2]int
	Text    []byte
	Names   []string
	Inner   inner
	Inners  []inner
	At, May *inner
	All     []*inner
}

type inner struct {
	File string
	Line int
}

// TestBack: what is packed comes back as it was, and takes less room than JSON.
func TestBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Make[sample]().Draw(t, "sample")
		if math.IsNaN(want.Share) {
			want.Share = 1
		}
		text, err := Append(nil, &want)
		if err != nil {
			t.Fatal(err)
		}
		var got sample
		if err := Read(string(text), &got); err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("%v: got\n%+v\nwant\n%+v", err, got, want)
		}
		long, err := json.Marshal(want)
		if err != nil || len(long) < len(text) {
			t.Errorf("%d bytes, %d as JSON: %v", len(text), len(long), err)
		}
		// No part of it is taken for the whole.
		for cut := range len(text) {
			if err := Read(string(text[:cut]), new(sample)); err == nil {
				t.Errorf("cut off after %d of %d bytes, it still reads", cut, len(text))
			}
		}
		if Read(string(text)+"\x00", new(sample)) == nil {
			t.Error("with one more byte, it still reads")
		}
	})
}

// TestAnyBytes: bytes that nobody packed end in an error or a value, and not in a panic or a
// list of a billion elements.
func TestAnyBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_ = Read(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")), new(sample))
	})
}

// TestEmptyIsNotNone: an empty list is another value than none.
func TestEmptyIsNotNone(t *testing.T) {
	for _, want := range []sample{{}, {Names: []string{}}, {Text: []byte{}}, {At: new(inner)}, {All: []*inner{nil, {}}}} {
		text, err := Append(nil, &want)
		var got sample
		if err != nil || Read(string(text), &got) != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("got %+v, want %+v: %v", got, want, err)
		}
	}
}

// TestTextsTwice: a text that was there before takes two bytes at most.
func TestTextsTwice(t *testing.T) {
	long := strings.Repeat("content/units/sb-1043.md", 20)
	text, err := Append(nil, &sample{Name: long, Names: []string{long, long}})
	if err != nil || len(text) > len(long)+12 {
		t.Errorf("%d bytes for three texts of %d: %v", len(text), len(long), err)
	}
}

// TestRefused: what would be lost is an error.
func TestRefused(t *testing.T) {
	for _, v := range []any{
		&struct{ At time.Time }{time.Unix(1, 0)},
		&struct{ M map[string]int }{map[string]int{"a": 1}},
		&struct{ V any }{1},
		&struct{ F func() }{func() {}},
		&struct{ Inner struct{ hidden int } }{struct{ hidden int }{1}},
	} {
		to := []byte("kept")
		if got, err := Append(to, v); err == nil || string(got) != "kept" {
			t.Errorf("%T is packed as %q", v, got)
		}
	}
}
