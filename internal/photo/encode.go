package photo

import (
	"bytes"
	"image"
	"image/jpeg"
)

// codes takes light to a picture of codes.
func (l *light) codes() *image.RGBA {
	m, code := image.NewRGBA(image.Rect(0, 0, l.wide, l.high)), codeOf()
	for i, o := 0, 0; i < len(l.at); i, o = i+3, o+4 {
		p := m.Pix[o:][:4:4]
		p[0], p[1], p[2], p[3] = code[l.at[i]], code[l.at[i+1]], code[l.at[i+2]], 255
	}
	return m
}

// The qualities between which an encoder looks for what fits: above the first the eye
// sees no gain on a phone, below the last it sees the blocks.
const (
	bestQuality  = 76
	leastQuality = 24
)

// fit encodes at the best quality that stays within a count of bytes, or at the least
// quality if none does.
func fit(most int, encode func(quality int) ([]byte, error)) ([]byte, error) {
	q := bestQuality
	for {
		out, err := encode(q)
		if err != nil || len(out) <= most || q == leastQuality {
			return out, err
		}
		// The more is too much, the wider the step.
		step := 4
		switch over := 100 * len(out) / most; {
		case over > 220:
			step = 34
		case over > 160:
			step = 22
		case over > 125:
			step = 12
		}
		q = max(q-step, leastQuality)
	}
}

func encodeJPEG(m *image.RGBA, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}
