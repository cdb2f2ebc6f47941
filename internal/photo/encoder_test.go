package photo

import (
	"bytes"
	"compress/gzip"
	"io"
	"testing"
)

// TestEncoderIsTheOneThatWasRead holds the embedded encoder to its bytes: nobody can read
// WebAssembly in a review, so a change must be one that was meant. The file is lib/webp.wasm.gz of
// github.com/gen2brain/webp v0.5.5, byte for byte; .ci/encoder compares the two, and rebuilds it.
func TestEncoderIsTheOneThatWasRead(t *testing.T) {
	r, err := gzip.NewReader(bytes.NewReader(libwebp))
	if err != nil {
		t.Fatal(err)
	}
	wasm, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what string
		data []byte
		want string
	}{
		{"webp.wasm.gz", libwebp, "bbcf68343d79d80ba4ce7bb29215b2943711bd0787f68ff31785c6e2bb044459"},
		{"webp.wasm", wasm, "fbae2345bbfcb98575ae5e66eba1b69383ccff6615b680edbc6413a33906ae42"},
	} {
		if got := sumOf(c.data); got != c.want {
			t.Errorf("%s has the digest %s, want %s", c.what, got, c.want)
		}
	}
}
