package photo

import (
	"encoding/binary"
	"math"
)

// A profile says what light a picture's codes mean. Phones write Display P3: shown
// as sRGB its red paint is dull. nil is sRGB.
type profile struct {
	r, g, b [256]uint16
	// matrix takes its light to sRGB's, in 1 << weightBits.
	matrix [9]int32
}

func (p *profile) curves() (r, g, b *[256]uint16) {
	if p == nil {
		return &lightOf, &lightOf, &lightOf
	}
	return &p.r, &p.g, &p.b
}

// mix takes a row to sRGB's primaries. What sRGB cannot show is cut off.
func (p *profile) mix(row []uint16) {
	if p == nil {
		return
	}
	m := &p.matrix
	for i := 0; i+2 < len(row); i += 3 {
		r, g, b := int32(row[i]), int32(row[i+1]), int32(row[i+2])
		for j := range 3 {
			// 15 bits of light and 14 of weight, three times with both signs: 64 bits hold it.
			v := (int64(m[3*j])*int64(r) + int64(m[3*j+1])*int64(g) + int64(m[3*j+2])*int64(b)) >> weightBits
			row[i+j] = uint16(min(max(v, 0), full))
		}
	}
}

// xyzToSRGB takes colors under D50, as a profile states them, to sRGB's light: the
// inverse of sRGB's colorants adapted to D50 (ICC.1:2010, annex E; the sRGB profile's own
// colorants 0.4361 0.2225 0.0139, 0.3851 0.7169 0.0971, 0.1431 0.0606 0.7142).
var xyzToSRGB = invert([9]float64{
	0.436066, 0.385147, 0.143066,
	0.222488, 0.716873, 0.060608,
	0.013916, 0.097076, 0.714096,
})

// readProfile reads a profile of three colorants and their curves. Of any other kind, and
// for sRGB itself, it returns nil: the codes are then taken for sRGB, as a browser takes
// them that knows no profile.
func readProfile(b []byte) *profile {
	if len(b) < 132 || string(b[16:20]) != "RGB " || string(b[20:24]) != "XYZ " {
		return nil
	}
	tags := profileTags(b)
	from, ok := colorants(tags)
	if !ok {
		return nil
	}
	p := &profile{}
	for name, to := range map[string]*[256]uint16{"rTRC": &p.r, "gTRC": &p.g, "bTRC": &p.b} {
		if !readCurve(tags[name], to) {
			return nil
		}
	}
	plain, ok := p.setMatrix(from)
	if !ok || plain && p.r == lightOf && p.g == lightOf && p.b == lightOf {
		return nil
	}
	return p
}

// profileTags returns the data of each tag (ICC.1:2010, 7.3), or nil where the table of tags
// is cut off.
func profileTags(b []byte) map[string][]byte {
	tags := map[string][]byte{}
	n := int(min(binary.BigEndian.Uint32(b[128:]), 64))
	for i := range n {
		e := 132 + 12*i
		if e+12 > len(b) {
			return nil
		}
		at, size := int64(binary.BigEndian.Uint32(b[e+4:])), int64(binary.BigEndian.Uint32(b[e+8:]))
		if at+size <= int64(len(b)) {
			tags[string(b[e:e+4])] = b[at : at+size]
		}
	}
	return tags
}

// colorants returns the three colorants as the columns of a matrix.
func colorants(tags map[string][]byte) (from [9]float64, ok bool) {
	for i, name := range []string{"rXYZ", "gXYZ", "bXYZ"} {
		t := tags[name]
		if len(t) < 20 || string(t[:4]) != "XYZ " {
			return from, false
		}
		for j := range 3 {
			from[3*j+i] = fixed(t[8+4*j:])
		}
	}
	return from, true
}

// setMatrix sets the matrix from the profile's light to that of sRGB. It reports whether that
// changes nothing that can be seen, and whether the colorants are possible.
func (p *profile) setMatrix(from [9]float64) (plain, ok bool) {
	plain = true
	for j := range 3 {
		for i := range 3 {
			sum := 0.0
			for k := range 3 {
				sum += float64(xyzToSRGB[3*j+k] * from[3*k+i])
			}
			one := 0.0
			if i == j {
				one = 1
			}
			plain = plain && math.Abs(sum-one) < 0.004
			if math.Abs(sum) > 16 {
				return false, false
			}
			p.matrix[3*j+i] = int32(math.Round(sum * (1 << weightBits)))
		}
	}
	return plain, true
}

// fixed is an s15Fixed16Number (ICC.1:2010, 4.6).
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// readCurve fills in the light of each code (ICC.1:2010, 10.5 and 10.15).
func readCurve(t []byte, to *[256]uint16) bool {
	if len(t) < 12 {
		return false
	}
	var f func(float64) float64
	switch string(t[:4]) {
	case "curv":
		f = sampledCurve(t)
	case "para":
		f = parametricCurve(t)
	}
	if f == nil {
		return false
	}
	for i := range to {
		v := f(float64(i) / 255)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
		to[i] = uint16(math.Round(full * min(max(v, 0), 1)))
	}
	// A curve that says what sRGB says is sRGB's, to the last bit.
	for i := range to {
		if d := int(to[i]) - int(lightOf[i]); d < -24 || d > 24 {
			return true
		}
	}
	*to = lightOf
	return true
}

// sampledCurve is a curveType (10.5): nothing for a straight line, one number for a power, or
// a table with straight lines between its values. It returns nil where the table is cut off.
func sampledCurve(t []byte) func(float64) float64 {
	n := int64(binary.BigEndian.Uint32(t[8:]))
	switch {
	case n == 0:
		return func(v float64) float64 { return v }
	case n == 1 && len(t) >= 14:
		gamma := float64(binary.BigEndian.Uint16(t[12:])) / 256
		return func(v float64) float64 { return math.Pow(v, gamma) }
	case n > 1 && int64(len(t)) >= 12+2*n:
		return func(v float64) float64 {
			at := float64(v * float64(n-1))
			i := min(int64(at), n-2)
			a, b := float64(binary.BigEndian.Uint16(t[12+2*i:])), float64(binary.BigEndian.Uint16(t[14+2*i:]))
			return (a + float64((b-a)*(at-float64(i)))) / 65535
		}
	}
	return nil
}

// parametricCurve is a parametricCurveType (10.15, table 65): (a v + b) to the power of g, plus
// e, from d on, and c v + f below. The five kinds leave out more or fewer of the numbers. It
// returns nil for another kind.
func parametricCurve(t []byte) func(float64) float64 {
	kind := binary.BigEndian.Uint16(t[8:])
	count := []int{1, 3, 4, 5, 7}
	if int(kind) >= len(count) || len(t) < 12+4*count[kind] {
		return nil
	}
	var q [7]float64 // g a b c d e f
	q[1] = 1
	for i := range count[kind] {
		q[i] = fixed(t[12+4*i:])
	}
	g, a, b, c, d, e, last := q[0], q[1], q[2], q[3], q[4], q[5], q[6]
	switch kind {
	case 1:
		d = -b / a
	case 2:
		c, d, e, last = 0, -b/a, c, c
	}
	return func(v float64) float64 {
		if v >= d {
			return math.Pow(float64(a*v)+b, g) + e
		}
		return float64(c*v) + last
	}
}

func invert(m [9]float64) [9]float64 {
	c := func(a, b, d, e int) float64 { return float64(m[a]*m[b]) - float64(m[d]*m[e]) }
	det := float64(m[0]*c(4, 8, 5, 7)) - float64(m[1]*c(3, 8, 5, 6)) + float64(m[2]*c(3, 7, 4, 6))
	out := [9]float64{
		c(4, 8, 5, 7), c(2, 7, 1, 8), c(1, 5, 2, 4),
		c(5, 6, 3, 8), c(0, 8, 2, 6), c(2, 3, 0, 5),
		c(3, 7, 4, 6), c(1, 6, 0, 7), c(0, 4, 1, 3),
	}
	for i := range out {
		out[i] /= det
	}
	return out
}
