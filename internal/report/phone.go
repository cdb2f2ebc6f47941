package report

import (
	"fmt"
	"strings"

	qr "github.com/piglig/go-qr"
)

// free is how many modules around a code stay empty (ISO/IEC 18004, from memory: four).
const free = 4

// phoneCode is an address as a QR code in characters, for a phone to read off the screen: two
// rows of modules to a line, black on white whatever the terminal's own colors are, since a
// phone reads no light code on a dark ground for certain.
func phoneCode(address string) (string, error) {
	c, err := qr.EncodeText(address, qr.Medium)
	if err != nil {
		return "", fmt.Errorf("the address %q makes no QR code: %w", address, err)
	}
	size := c.Size()
	dark := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < size && y < size && c.Module(x, y)
	}
	var b strings.Builder
	for y := -free; y < size+free; y += 2 {
		b.WriteString("\x1b[30;107m") // ECMA-48, 8.3.117; bright white is common practice, no source
		for x := -free; x < size+free; x++ {
			switch {
			case dark(x, y) && dark(x, y+1):
				b.WriteRune('█')
			case dark(x, y):
				b.WriteRune('▀')
			case dark(x, y+1):
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteString("\x1b[0m\n")
	}
	return b.String(), nil
}
