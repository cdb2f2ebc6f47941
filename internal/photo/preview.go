package photo

import (
	"strconv"
	"strings"
)

// A Preview is a photo in a few dozen cells and three tones of the page: paper, and the
// two paths of what is darker. It is part of the page itself, so it is there before any
// picture is.
type Preview struct {
	// Wide and High are its cells.
	Wide, High int
	// Mid and Dark are SVG path data: strokes as thick as a cell, through its middle, each
	// at y + 0.
	Mid, Dark string
}

// Codes of gray below which a cell is dark, and below which it is between.
const (
	darkBelow = 110
	midBelow  = 185
)

func preview(l *light) Preview {
	p := Preview{Wide: 10, High: min(max((10*l.high+l.wide/2)/l.wide, 3), 14)}
	small := l
	if p.Wide < l.wide && p.High < l.high {
		small = resize(&rows{light: l}, p.Wide, p.High)
	} else {
		p.Wide, p.High = l.wide, l.high
	}
	tone := func(x, y int) int {
		at := small.at[3*(y*small.wide+x):]
		// Luminance of linear light: ITU-R BT.709, 3.2, in thousandths.
		switch c := codeOf()[(213*int(at[0])+715*int(at[1])+72*int(at[2]))/1000]; {
		case c < darkBelow:
			return 2
		case c < midBelow:
			return 1
		}
		return 0
	}
	path := func(want int) string {
		var b strings.Builder
		for y := range p.High {
			for x := 0; x < p.Wide; x++ {
				if tone(x, y) != want {
					continue
				}
				from := x
				for x+1 < p.Wide && tone(x+1, y) == want {
					x++
				}
				b.WriteString("M" + strconv.Itoa(from) + " " + strconv.Itoa(y) + "h" + strconv.Itoa(x+1-from))
			}
		}
		return b.String()
	}
	p.Mid, p.Dark = path(1), path(2)
	return p
}
