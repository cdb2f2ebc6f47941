package main

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"runtime/debug"
	"slices"
	"testing"
)

// TestBill: every module of a binary is listed, and the encoder that is in no module list has
// the digest of the file that is embedded.
func TestBill(t *testing.T) {
	info := &debug.BuildInfo{GoVersion: "go1.26.0", Main: debug.Module{Path: "tarepage", Version: "v1.0.0"}, Deps: []*debug.Module{
		{Path: "example.org/a", Version: "v1.2.3", Sum: "h1:x"},
		{Path: "example.org/b", Version: "v0.1.0", Replace: &debug.Module{Path: "example.org/c", Version: "v0.2.0"}},
	}}
	b := billOf(info)
	var got []string
	for _, c := range b.Components {
		got = append(got, c.URL)
	}
	want := []string{"pkg:golang/std@1.26.0", "pkg:golang/example.org/a@v1.2.3", "pkg:golang/example.org/c@v0.2.0", "pkg:generic/libwebp@1.4.0"}
	if !slices.Equal(got, want) || b.Metadata.Component.Version != "v1.0.0" || b.Format != "CycloneDX" || b.Version != "1.5" {
		t.Errorf("%+v", b)
	}
	data, err := os.ReadFile("../../photo/libwebp/webp.wasm.gz")
	if err != nil {
		t.Fatal(err)
	}
	if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != encoderDigest {
		t.Errorf("the encoder has the digest %x, the bill says %s", sum, encoderDigest)
	}
}
