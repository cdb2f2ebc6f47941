package photo

import (
	"math"
	"sync"
)

// Light is measured in fixed numbers, 0 for none to full for all of it: whole numbers add
// up the same on every machine. Colors are averaged as light and not as codes, because a
// code is a root of the light it means; averaged codes darken whatever is fine and
// bright.
const (
	lightBits = 15
	full      = 1<<lightBits - 1
)

// lightOf is the light of a code (IEC 61966-2-1, sRGB).
var lightOf = func() (of [256]uint16) {
	for c := range of {
		of[c] = uint16(math.Round(full * fromSRGB(float64(c)/255)))
	}
	return of
}()

// codeOf is the code of each light. A program that works no photo does not wait for them.
var codeOf = sync.OnceValue(func() *[full + 1]uint8 {
	var of [full + 1]uint8
	for l := range of {
		of[l] = uint8(math.Round(255 * toSRGB(float64(l)/full)))
	}
	return &of
})

func fromSRGB(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func toSRGB(v float64) float64 {
	if v <= 0.0031308 {
		return v * 12.92
	}
	return float64(1.055*math.Pow(v, 1/2.4)) - 0.055
}

// A plane of light: three numbers a pixel, row by row.
type light struct {
	wide, high int
	at         []uint16
}

func newLight(wide, high int) *light {
	return &light{wide: wide, high: high, at: make([]uint16, 3*wide*high)}
}

// row is one row's numbers.
func (l *light) row(y int) []uint16 { return l.at[3*l.wide*y : 3*l.wide*(y+1)] }

// turned is the picture as it is seen: EXIF 2.32, 4.6.4 A, tag 0112, names for each
// orientation which side of what is seen the first row and the first column are.
func (l *light) turned(turn int) *light {
	if turn < 2 || turn > 8 {
		return l
	}
	wide, high := l.wide, l.high
	if turn >= 5 {
		wide, high = high, wide
	}
	out := newLight(wide, high)
	for y := range l.high {
		row := l.row(y)
		for x := range l.wide {
			tx, ty := turnedTo(x, y, wide, high, turn)
			copy(out.at[3*(ty*wide+tx):][:3], row[3*x:])
		}
	}
	return out
}

// turnedTo is where a cell comes to be in a turned picture, which is so wide and high.
func turnedTo(x, y, wide, high, turn int) (tx, ty int) {
	switch turn {
	case 2:
		return wide - 1 - x, y
	case 3:
		return wide - 1 - x, high - 1 - y
	case 4:
		return x, high - 1 - y
	case 5:
		return y, x
	case 6:
		return wide - 1 - y, x
	case 7:
		return wide - 1 - y, high - 1 - x
	case 8:
		return y, high - 1 - x
	}
	return x, y
}
