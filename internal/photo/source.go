package photo

import (
	"image"
	"image/color"
)

// rowsOf reads a decoded picture row by row as light. What is transparent lies on white
// paper.
func rowsOf(m image.Image, p *profile) source {
	switch m := m.(type) {
	case *image.YCbCr:
		return &ycbcr{m: m, profile: p}
	case *image.Gray:
		return &gray{m: m}
	}
	return &anyImage{m: m, profile: p}
}

type ycbcr struct {
	m *image.YCbCr
	*profile
	y int
}

func (s *ycbcr) size() (int, int) { return s.m.Rect.Dx(), s.m.Rect.Dy() }

// next converts as image/color.YCbCrToRGB does: JFIF, 7.
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
		yy := int32(luma[x]) * 0x10101
		cb := int32(s.m.Cb[c]) - 128
		cr := int32(s.m.Cr[c]) - 128
		o := row[3*x:][:3:3]
		o[0] = r[byte255((yy+91881*cr)>>16)]
		o[1] = g[byte255((yy-22554*cb-46802*cr)>>16)]
		o[2] = b[byte255((yy+116130*cb)>>16)]
	}
	s.mix(row)
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
		if c.A != 255 {
			a := uint32(c.A)
			for i, v := range o {
				o[i] = uint16((uint32(v)*a + full*(255-a)) / 255)
			}
		}
	}
	s.y++
	s.mix(row)
}
