package media

import (
	"bytes"
	"testing"
)

// TestBareColors keeps colors that are given as numbers, and nothing after them (ISO/IEC 14496-12, 12.1.5:
// nclx has three numbers of two bytes and a byte of flags; nclc of QuickTime has no flags).
func TestBareColors(t *testing.T) {
	for data, want := range map[string]string{
		"nclx\x00\x01\x00\x01\x00\x01\x80":    "nclx\x00\x01\x00\x01\x00\x01\x80",
		"nclx\x00\x01\x00\x01\x00\x01\x80Bob": "nclx\x00\x01\x00\x01\x00\x01\x80",
		"nclx\x00\x01\x00\x01\x00\x01":        "",
		"nclc\x00\x01\x00\x01\x00\x01":        "nclc\x00\x01\x00\x01\x00\x01",
		"nclc\x00\x01\x00\x01\x00\x01Bob":     "nclc\x00\x01\x00\x01\x00\x01",
		"nclc\x00\x01\x00\x01\x00":            "",
		"profa profile with a name":           "",
	} {
		f, list := on(boxed("colr", []byte(data)))
		if got, err := bareColors(f, &list[0]); err != nil || string(got) != want {
			t.Errorf("%q became %q, %v; want %q", data, got, err, want)
		}
	}
}

// TestBareESDS: a description of sound comes out the same with whatever optional fields in front of the
// decoder's part (ISO/IEC 14496-1, 7.2.6.5: a stream that it depends on, an address, a clock; the
// low bits of the flags are a priority), and is refused where it is cut off.
func TestBareESDS(t *testing.T) {
	decoder := []byte{4, 17, 0x40, 0x15, 0, 0, 0, 0, 1, 0xf4, 0, 0, 1, 0xf4, 0, 5, 2, 0x12, 0x10}
	described := func(flags byte, fields ...byte) []byte {
		es := bytes.Join([][]byte{{0, 1, flags}, fields, decoder}, nil)
		return append([]byte{0, 0, 0, 0, 3, byte(len(es))}, es...)
	}
	bare := func(data []byte) ([]byte, error) {
		f, list := on(boxed("esds", data))
		return bareESDS(f, &list[0])
	}
	want, err := bare(described(0))
	if err != nil || !bytes.Contains(want, []byte{5, 2, 0x12, 0x10}) {
		t.Fatal(want, err)
	}
	for name, data := range map[string][]byte{
		"a priority": described(0x1f), "another stream": described(0x80, 0, 2), "an address": described(0x40, 3, 'B', 'o', 'b'),
		"a clock": described(0x20, 0, 3), "all": described(0xff, 0, 2, 3, 'B', 'o', 'b', 0, 3),
	} {
		if got, err := bare(data); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s: % x, %v; want % x", name, got, err, want)
		}
	}
	for n := range len(described(0)) {
		data := described(0)[:n]
		if n > 5 {
			data[5] = byte(n - 6)
		}
		if got, err := bare(data); err == nil {
			t.Errorf("cut off after %d bytes: % x", n, got)
		}
	}
}
