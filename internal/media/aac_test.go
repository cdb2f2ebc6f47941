package media

import (
	"encoding/hex"
	"strings"
	"testing"
)

// TestBareAAC: setups as encoders write them stay as they are (ISO/IEC 14496-3, 1.6.2.1: two bytes for
// plain AAC; five where sharper sound is announced at the end), and words in or after them go.
func TestBareAAC(t *testing.T) {
	for setup, want := range map[string]string{
		"1210": "1210", "1190": "1190", "2b8a0800": "2b8a0800", "11b056e500": "11b056e500", "139056e5a0": "139056e5a0",
		"139056e5a54880": "139056e5a54880", "eb8a0800": "eb8a0800",
		"1210426f62":                       "1210",                  // Bob
		"11b056e500426f62":                 "11b056e500",            // Bob
		"118004c4000020" + "03" + "426f62": "118004c4000020" + "00", // a list of channels with a comment
		"118004c4000020" + "00":            "118004c4000020" + "00",
		"12":                               "", "11": "",
	} {
		data, err := hex.DecodeString(setup)
		if err != nil {
			t.Fatal(err)
		}
		got, err := bareAAC(0x40, data)
		if text := hex.EncodeToString(got); text != want || (err != nil) != (want == "") {
			t.Errorf("%s became %s, %v; want %s", setup, text, err, want)
		}
	}
}

// TestCommentOnChannels: a comment on the channels in front of the sound is cleared, and the sound
// keeps its place.
func TestCommentOnChannels(t *testing.T) {
	// The element 5, then tag 0, AAC-LC, rate 4, one pair in front, nothing else, no mixing down;
	// the pair; 8 bits for the length; and a single channel.
	bits := "101" + "0000" + "01" + "0100" + "0001" + "0000" + "0000" + "00" + "000" + "0000" + "000" + "10000"
	for len(bits)%8 != 0 {
		bits += "0"
	}
	var data []byte
	for i := 0; i < len(bits); i += 8 {
		v := byte(0)
		for _, c := range bits[i : i+8] {
			v = v<<1 | byte(c-'0')
		}
		data = append(data, v)
	}
	data = append(data, "\x0dfilmed by Ann\x20sound"...)
	out, end := emptied(data)
	want := strings.Replace(string(data), "filmed by Ann", strings.Repeat("\x00", 13), 1)
	if string(out) != want || end != len(data)-len("sound") {
		t.Errorf("%q to %d", out, end)
	}
}
