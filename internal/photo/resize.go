package photo

import "math"

// weightBits of a weight; with the light's they stay within 32 bits.
const weightBits = 14

// A tap is what one source pixel gives to one target pixel.
type taps struct {
	first  int
	weight []uint32 // adds up to 1 << weightBits
}

// tapsOf are the taps of each target pixel. The kernel is Hermite's cubic, 2|x|^3 -
// 3|x|^2 + 1: it is nowhere negative, so no edge gets a halo, and it is sharper than a
// triangle. (D. P. Mitchell, A. N. Netravali, "Reconstruction filters in computer
// graphics", 1988: B = 0, C = 0.)
func tapsOf(from, to int) []taps {
	out := make([]taps, to)
	ratio := float64(from) / float64(to)
	reach := max(ratio, 1)
	for i := range out {
		middle := float64((float64(i)+0.5)*ratio) - 0.5
		first := max(int(math.Ceil(middle-reach)), 0)
		last := min(int(math.Floor(middle+reach)), from-1)
		raw := make([]float64, last-first+1)
		sum := 0.0
		for j := range raw {
			x := min(math.Abs(float64(first+j)-middle)/reach, 1)
			raw[j] = 1 - float64(x*x*float64(3-float64(2*x)))
			sum += raw[j]
		}
		t := taps{first: first, weight: make([]uint32, len(raw))}
		left, heaviest := uint32(1<<weightBits), 0
		for j, w := range raw {
			t.weight[j] = min(uint32(math.Round(w/sum*(1<<weightBits))), left)
			left -= t.weight[j]
			if t.weight[j] > t.weight[heaviest] {
				heaviest = j
			}
		}
		// What rounding left over: an even field stays even.
		t.weight[heaviest] += left
		out[i] = t
	}
	return out
}

// A source gives the rows of a picture, one after the other from the top.
type source interface {
	size() (wide, high int)
	// next fills in the next row's light, three numbers a pixel.
	next(row []uint16)
}

func (l *light) size() (int, int) { return l.wide, l.high }

// rows reads a plane of light as a source.
type rows struct {
	*light
	y int
}

func (r *rows) next(row []uint16) {
	copy(row, r.row(r.y))
	r.y++
}

// resize makes a picture of a size out of a source. It holds one row of the source and
// the sums of the target's rows that are open, never the source as light.
func resize(s source, wide, high int) *light {
	sw, sh := s.size()
	across, down := tapsOf(sw, wide), tapsOf(sh, high)
	out := newLight(wide, high)
	row := make([]uint16, 3*sw)
	short := make([]uint32, 3*wide)
	sums := map[int][]uint32{}
	var spare [][]uint32
	open := 0 // the first target row that is not done
	for y := range sh {
		s.next(row)
		for x := range across {
			t := &across[x]
			var r, g, b uint32
			for j, w := range t.weight {
				p := row[3*(t.first+j):][:3:3]
				r += uint32(p[0]) * w
				g += uint32(p[1]) * w
				b += uint32(p[2]) * w
			}
			o := short[3*x:][:3:3]
			o[0], o[1], o[2] = r>>weightBits, g>>weightBits, b>>weightBits
		}
		for ty := open; ty < high && down[ty].first <= y; ty++ {
			t := &down[ty]
			last := t.first + len(t.weight) - 1
			if y > last {
				continue
			}
			sum := sums[ty]
			if sum == nil {
				if n := len(spare); n > 0 {
					sum, spare = spare[n-1], spare[:n-1]
					clear(sum)
				} else {
					sum = make([]uint32, 3*wide)
				}
				sums[ty] = sum
			}
			w := t.weight[y-t.first]
			for i, v := range short {
				sum[i] += v * w
			}
			if y == last {
				to := out.row(ty)
				for i, v := range sum {
					to[i] = uint16(min(v>>weightBits, full))
				}
				delete(sums, ty)
				spare = append(spare, sum)
			}
		}
		for open < high && y >= down[open].first+len(down[open].weight)-1 {
			open++
		}
	}
	return out
}
