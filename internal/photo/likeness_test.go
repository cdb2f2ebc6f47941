package photo

import (
	"image"
	"math"
	"testing"
)

// shades are a picture's luminance codes, as numbers.
type shades struct {
	wide, high int
	at         []float64
}

func shadesOf(m image.Image) shades {
	b := m.Bounds()
	s := shades{wide: b.Dx(), high: b.Dy(), at: make([]float64, b.Dx()*b.Dy())}
	for y := range s.high {
		for x := range s.wide {
			r, g, bl, _ := m.At(b.Min.X+x, b.Min.Y+y).RGBA()
			// ITU-R BT.601, 2.5.1.
			s.at[y*s.wide+x] = 0.299*float64(r>>8) + 0.587*float64(g>>8) + 0.114*float64(bl>>8)
		}
	}
	return s
}

// likeness is the mean structural similarity of two pictures of one size, 1 for the same:
// Z. Wang, A. C. Bovik, H. R. Sheikh, E. P. Simoncelli, "Image quality assessment: from
// error visibility to structural similarity", IEEE Transactions on Image Processing 13(4),
// 2004, equation 13 and section III.B: a Gaussian window of 11 x 11 with a deviation of 1.5,
// K1 = 0.01, K2 = 0.03, over all places where the window lies within the picture.
func likeness(a, b shades) float64 {
	const side, deviation = 11, 1.5
	const c1, c2 = (0.01 * 255) * (0.01 * 255), (0.03 * 255) * (0.03 * 255)
	var window [side]float64
	sum := 0.0
	for i := range window {
		d := float64(i - side/2)
		window[i] = math.Exp(-d * d / (2 * deviation * deviation))
		sum += window[i]
	}
	for i := range window {
		window[i] /= sum
	}
	// blurred is the window's mean of f at each place, first along rows, then along columns.
	blurred := func(f func(i int) float64) []float64 {
		wide, high := a.wide-side+1, a.high-side+1
		rows := make([]float64, wide*a.high)
		for y := range a.high {
			for x := range wide {
				for k, w := range window {
					rows[y*wide+x] += w * f(y*a.wide+x+k)
				}
			}
		}
		out := make([]float64, wide*high)
		for y := range high {
			for k, w := range window {
				for x := range wide {
					out[y*wide+x] += w * rows[(y+k)*wide+x]
				}
			}
		}
		return out
	}
	ma, mb := blurred(func(i int) float64 { return a.at[i] }), blurred(func(i int) float64 { return b.at[i] })
	aa, bb := blurred(func(i int) float64 { return a.at[i] * a.at[i] }), blurred(func(i int) float64 { return b.at[i] * b.at[i] })
	ab := blurred(func(i int) float64 { return a.at[i] * b.at[i] })
	total := 0.0
	for i := range ma {
		va, vb, cov := aa[i]-ma[i]*ma[i], bb[i]-mb[i]*mb[i], ab[i]-ma[i]*mb[i]
		total += (2*ma[i]*mb[i] + c1) * (2*cov + c2) / ((ma[i]*ma[i] + mb[i]*mb[i] + c1) * (va + vb + c2))
	}
	return total / float64(len(ma))
}

// TestLikeness holds the measure against another one: ssim.js 3.5.0 (the npm registry) with
// {ssim: 'original', downsample: false}, which follows the paper's own program, on pictures
// made of the same formulas; and against the paper's equation 6, which is all that is left
// of it between two even fields.
func TestLikeness(t *testing.T) {
	picture := func(f func(x, y int) int) shades {
		s := shades{64, 48, make([]float64, 64*48)}
		for i := range s.at {
			s.at[i] = float64(f(i%64, i/64))
		}
		return s
	}
	base := func(x, y int) int { return (x*x + 3*y*y + x*y) >> 4 & 255 }
	for name, c := range map[string]struct {
		other func(x, y int) int
		want  float64
	}{
		"same":    {base, 1},
		"lighter": {func(x, y int) int { return min(base(x, y)+20, 255) }, 0.974396550079453},
		"coarse":  {func(x, y int) int { return base(x, y) & 0xe0 }, 0.8602019687782166},
		"blocks":  {func(x, y int) int { return base(x&^7, y&^7) }, 0.21474341818831705},
		"flat":    {func(x, y int) int { return 128 }, 0.1317648246054825},
		"turned":  {func(x, y int) int { return 255 - base(x, y) }, -0.5833665097988411},
	} {
		if got := likeness(picture(base), picture(c.other)); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.12f, want %.12f", name, got, c.want)
		}
	}
	even := func(v int) shades { return picture(func(int, int) int { return v }) }
	const c1 = 2.55 * 2.55
	if got, want := likeness(even(100), even(120)), (2*100*120+c1)/(100*100+120*120+c1); math.Abs(got-want) > 1e-9 {
		t.Errorf("even fields: %.12f, want %.12f", got, want)
	}
}
