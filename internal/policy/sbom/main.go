// Command sbom prints the bill of materials of a binary as CycloneDX 1.5 (ECMA-424): the
// modules that Go recorded in it, and the one part that is in no module list, the WebP
// encoder that is embedded as WebAssembly. The release script uses it.
//
//	go run ./internal/policy/sbom BINARY
package main

import (
	"debug/buildinfo"
	"encoding/json"
	"fmt"
	"os"
	"runtime/debug"
)

// The embedded encoder. internal/photo holds its bytes to the digest in a test.
const (
	encoderVersion = "1.4.0"
	encoderDigest  = "bbcf68343d79d80ba4ce7bb29215b2943711bd0787f68ff31785c6e2bb044459"
)

type bill struct {
	Format     string      `json:"bomFormat"`
	Version    string      `json:"specVersion"`
	Number     int         `json:"version"`
	Metadata   metadata    `json:"metadata"`
	Components []component `json:"components"`
}

type metadata struct {
	Component component `json:"component"`
}

type component struct {
	Type    string     `json:"type"`
	Name    string     `json:"name"`
	Version string     `json:"version"`
	URL     string     `json:"purl,omitempty"`
	Hashes  []hash     `json:"hashes,omitempty"`
	Notes   []property `json:"properties,omitempty"`
}

type hash struct {
	Algorithm string `json:"alg"`
	Content   string `json:"content"`
}

type property struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// billOf lists what a binary was built from.
func billOf(info *debug.BuildInfo) bill {
	b := bill{Format: "CycloneDX", Version: "1.5", Number: 1,
		Metadata: metadata{component{Type: "application", Name: info.Main.Path, Version: info.Main.Version}}}
	b.Components = append(b.Components, component{Type: "library", Name: "std", Version: info.GoVersion, URL: "pkg:golang/std@" + info.GoVersion[2:]})
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		b.Components = append(b.Components, component{Type: "library", Name: m.Path, Version: m.Version, URL: "pkg:golang/" + m.Path + "@" + m.Version,
			Notes: []property{{"go:sum", m.Sum}}})
	}
	b.Components = append(b.Components, component{Type: "library", Name: "libwebp", Version: encoderVersion, URL: "pkg:generic/libwebp@" + encoderVersion,
		Hashes: []hash{{"SHA-256", encoderDigest}}, Notes: []property{{"note", "compiled to WebAssembly; the digest is that of internal/photo/libwebp/webp.wasm.gz"}}})
	return b
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: go run ./internal/policy/sbom BINARY")
		os.Exit(2)
	}
	info, err := buildinfo.ReadFile(os.Args[1])
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	out := json.NewEncoder(os.Stdout)
	out.SetIndent("", "  ")
	if err := out.Encode(billOf(info)); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
