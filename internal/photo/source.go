package photo

import (
	"image"
	"image/color"
)

// rowsOf reads a decoded picture row by row as light. What is transparent lies on white
// paper. Go's decoder of WebP hands out codes of BT.601's narrow range, as WebP has them
// (RFC 6386, 9.2), in a picture that Go takes for JPEG's full range; narrow says so.
func rowsOf(m image.Image, p *profile, narrow bool) source {
	switch m := m.(type) {
	case *image.YCbCr:
		return &ycbcr{m: m, profile: p, narrow: narrow}
	case *image.NYCbCrA:
		return &ycbcr{m: &m.YCbCr, alpha: m.A, alphaStride: m.AStride, profile: p, narrow: narrow}
	case *image.Gray:
		return &gray{m: m}
	}
	return &anyImage{m: m, profile: p}
}

type ycbcr struct {
	m *image.YCbCr
	*profile
	narrow bool
	// alpha says of each pixel how much of it covers the paper; nil for all of it.
	alpha       []uint8
	alphaStride int
	y           int
}

func (s *ycbcr) size() (int, int) { return s.m.Rect.Dx(), s.m.Rect.Dy() }

// next converts as image/color.YCbCrToRGB does: JFIF, 7. In the narrow range black is 16 and
// white 235, and the weights are those of ITU-R BT.601, 2.5.1 and 2.5.2, times 255/219 and
// 255/224.
func (s *ycbcr) next(row []uint16) {
	y := s.m.Rect.Min.Y + s.y
	s.y++
	r, g, b := s.curves()
	x0, n := s.m.Rect.Min.X, s.m.Rect.Dx()
	luma := s.m.Y[s.m.YOffset(x0, y):]
	half := s.m.SubsampleRatio == image.YCbCrSubsampleRatio420 || s.m.SubsampleRatio == image.YCbCrSubsampleRatio422
	whole := s.m.SubsampleRatio == image.YCbCrSubsampleRatio444 || s.m.SubsampleRatio == image.YCbCrSubsampleRatio440
	base := s.m.COffset(x0, y)
	for x := range n {
		c := base
		switch {
		case half:
			c += (x0+x)/2 - x0/2
		case whole:
			c += x
		default:
			c = s.m.COffset(x0+x, y)
		}
		cb := int32(s.m.Cb[c]) - 128
		cr := int32(s.m.Cr[c]) - 128
		o := row[3*x:][:3:3]
		if s.narrow {
			yy := (int32(luma[x])-16)*76309 + 1<<15
			o[0] = r[byte255((yy+104597*cr)>>16)]
			o[1] = g[byte255((yy-25675*cb-53279*cr)>>16)]
			o[2] = b[byte255((yy+132201*cb)>>16)]
			continue
		}
		yy := int32(luma[x]) * 0x10101
		o[0] = r[byte255((yy+91881*cr)>>16)]
		o[1] = g[byte255((yy-22554*cb-46802*cr)>>16)]
		o[2] = b[byte255((yy+116130*cb)>>16)]
	}
	s.mix(row)
	if s.alpha != nil {
		for x, a := range s.alpha[(s.y-1)*s.alphaStride:][:n] {
			onPaper(row[3*x:][:3], a)
		}
	}
}

// onPaper lays a pixel on white paper.
func onPaper(o []uint16, alpha uint8) {
	if alpha == 255 {
		return
	}
	a := uint32(alpha)
	for i, v := range o {
		o[i] = uint16((uint32(v)*a + full*(255-a)) / 255)
	}
}

func byte255(v int32) uint8 {
	if uint32(v) <= 255 {
		return uint8(v)
	}
	return uint8(^(v >> 31))
}

type gray struct {
	m *image.Gray
	y int
}

func (s *gray) size() (int, int) { return s.m.Rect.Dx(), s.m.Rect.Dy() }

func (s *gray) next(row []uint16) {
	from := s.m.Pix[s.m.PixOffset(s.m.Rect.Min.X, s.m.Rect.Min.Y+s.y):]
	s.y++
	for x := range s.m.Rect.Dx() {
		l := lightOf[from[x]]
		row[3*x], row[3*x+1], row[3*x+2] = l, l, l
	}
}

type anyImage struct {
	m image.Image
	*profile
	y int
}

func (s *anyImage) size() (int, int) { return s.m.Bounds().Dx(), s.m.Bounds().Dy() }

func (s *anyImage) next(row []uint16) {
	r, g, b := s.curves()
	bounds := s.m.Bounds()
	for x := range bounds.Dx() {
		var c color.NRGBA
		switch m := s.m.(type) {
		case *image.NRGBA:
			c = m.NRGBAAt(bounds.Min.X+x, bounds.Min.Y+s.y)
		case *image.RGBA:
			p := m.RGBAAt(bounds.Min.X+x, bounds.Min.Y+s.y)
			if c = color.NRGBA(p); p.A != 255 {
				c = color.NRGBAModel.Convert(p).(color.NRGBA)
			}
		default:
			c = color.NRGBAModel.Convert(m.At(bounds.Min.X+x, bounds.Min.Y+s.y)).(color.NRGBA)
		}
		o := row[3*x:][:3:3]
		o[0], o[1], o[2] = r[c.R], g[c.G], b[c.B]
		onPaper(o, c.A)
	}
	s.y++
	s.mix(row)
}
