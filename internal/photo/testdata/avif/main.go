// Avif encodes DIR/in.png as AVIF in several ways, decodes each again into a PNG beside it, and
// prints of each its speed, quality, bytes, CPU seconds and the PNG's name. It is a
// module of its own because nothing but the comparison of encoders wants AVIF: TestEncoders
// in internal/photo runs it.
package main

import (
	"bytes"
	"fmt"
	"image/png"
	"log"
	"os"
	"path/filepath"
	"syscall"

	"github.com/gen2brain/avif"
)

func main() {
	in, err := os.ReadFile(filepath.Join(os.Args[1], "in.png"))
	if err != nil {
		log.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(in))
	if err != nil {
		log.Fatal(err)
	}
	// The first picture pays for making the encoder ready.
	if err := avif.Encode(new(bytes.Buffer), m, avif.Options{Quality: 10, Speed: 10}); err != nil {
		log.Fatal(err)
	}
	for _, speed := range []int{10, 6} {
		for _, quality := range []int{60, 45, 30} {
			var b, back bytes.Buffer
			before := spent()
			if err := avif.Encode(&b, m, avif.Options{Quality: quality, Speed: speed}); err != nil {
				log.Fatal(err)
			}
			seconds := spent() - before
			seen, err := avif.Decode(bytes.NewReader(b.Bytes()))
			if err != nil {
				log.Fatal(err)
			}
			if err := png.Encode(&back, seen); err != nil {
				log.Fatal(err)
			}
			name := filepath.Join(os.Args[1], fmt.Sprintf("%d-%d.png", speed, quality))
			if err := os.WriteFile(name, back.Bytes(), 0o644); err != nil {
				log.Fatal(err)
			}
			fmt.Printf("%d %d %d %.2f %s\n", speed, quality, b.Len(), seconds, name)
		}
	}
}

func spent() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		log.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
