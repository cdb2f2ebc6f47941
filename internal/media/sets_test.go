package media

import (
	"bytes"
	"encoding/hex"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestParameterSets: testdata/sets.txt has the parameter sets that x264 164 and x265 3.5 wrote for
// pictures of each kind they can store: depths, colors, fields, rates, sublayers, lists, tiles of
// the screen. Each is clean as it is, to the last bit, so every number in it was read. Words
// after it are taken out, and one that lost its end does not read.
func TestParameterSets(t *testing.T) {
	for line := range strings.Lines(string(testFile(t, "sets.txt"))) {
		list := strings.Fields(line)
		clean := cleaner(hevcBare)
		if strings.HasPrefix(list[0], "h264") {
			clean = newAVCSets().bare
		}
		for _, text := range list[1:] {
			set, err := hex.DecodeString(text)
			if err != nil {
				t.Fatal(err)
			}
			if got, err := clean(set); err != nil || !bytes.Equal(got, set) {
				t.Errorf("%s: %x became %x, %v", list[0], set, got, err)
			}
			got, err := clean(append(set[:len(set):len(set)], "Bob, 14 Oak St"...))
			if err != nil || bytes.Contains(got, []byte("ob, 1")) {
				t.Errorf("%s: %x with words became %q, %v", list[0], set, got, err)
			}
			if got, err := clean(set[:len(set)/2]); err == nil {
				t.Errorf("half of %s: %x became %x", list[0], set, got)
			}
		}
	}
}

// TestParameterSetsOfWords: words in place of a parameter set do not become one that holds them.
func TestParameterSetsOfWords(t *testing.T) {
	sequence, _ := hex.DecodeString("6764000dacd94141fb011000000300100000030320f1429960")
	for _, words := range []string{"Bob Smith, 14 Oak Street, behind the barn", "47.61N 122.33W", "gate code 4412"} {
		avc := newAVCSets()
		if _, err := avc.bare(sequence); err != nil {
			t.Fatal(err)
		}
		for head, clean := range map[string]cleaner{"\x67": avc.bare, "\x68": avc.bare, "\x40\x01": hevcBare, "\x42\x01": hevcBare, "\x44\x01": hevcBare} {
			if got, err := clean([]byte(head + words)); err == nil && bytes.Contains(got, []byte(words)) {
				t.Errorf("%q became %q", head+words, got)
			}
		}
	}
}

// TestParameterSetsOfNoise: no bytes are too much, and what is clean stays as it is.
func TestParameterSetsOfNoise(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 7))
	avc := newAVCSets()
	for range 20_000 {
		unit := make([]byte, 3+r.IntN(60))
		for i := range unit {
			unit[i] = byte(r.Uint32()) & byte(r.Uint32()|r.Uint32())
		}
		for head, clean := range map[byte]cleaner{0x67: avc.bare, 0x68: avc.bare, 0x40: hevcBare, 0x42: hevcBare, 0x44: hevcBare} {
			unit[0] = head
			got, err := clean(unit)
			if err != nil {
				continue
			}
			if again, err := clean(got); err != nil || !bytes.Equal(again, got) {
				t.Fatalf("%x became %x, and that %x, %v", unit, got, again, err)
			}
		}
	}
}
