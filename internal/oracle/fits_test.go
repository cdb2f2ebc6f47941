package oracle

import (
	"testing"

	"tarepage/internal/measure"
)

// TestFits: the width of a door at, above and below the trailer's, and what is not known. By hand:
// 102 in are 8 ft 6 in.
func TestFits(t *testing.T) {
	trailer := Size{Width: in(102), Height: in(110), Length: in(240)}
	barn := Barn{Wide: in(102), High: in(120), Deep: in(288)}
	for _, c := range []struct {
		name string
		to   func(*Size, *Barn)
		want string
	}{
		{"at the door", func(*Size, *Barn) {}, "YES: empty, it goes in. The closest is the width of your door, 0 in left."},
		{"an inch less", func(_ *Size, b *Barn) { b.Wide = in(101) }, "NO: the width of your door, 1 in over."},
		{"an inch more", func(_ *Size, b *Barn) { b.Wide = in(103) }, "YES: empty, it goes in. The closest is the width of your door, 1 in left."},
		{"8 ft wide, the rest not measured", func(s *Size, b *Barn) { *s, b.Wide = Size{Width: in(102)}, in(96) }, "NO: the width of your door, 6 in over."},
		{"too narrow and not deep enough", func(s *Size, b *Barn) { b.Wide, s.Length, b.Deep = in(101), in(250), in(240) },
			"NO: the depth of your barn, 10 in over, and the width of your door, 1 in over."},
		{"the height not measured", func(s *Size, _ *Barn) { s.Height = inches{} }, "CANNOT SAY YET: it needs the trailer's height, over all. Nothing is over so far."},
		{"the depth not typed", func(_ *Size, b *Barn) { b.Deep = inches{} }, "CANNOT SAY YET: it needs the depth of your barn. Nothing is over so far."},
		{"no room for the length as worked out", func(s *Size, b *Barn) { s.Length, s.Worked, b.Deep = inches{}, in(240), in(168) }, "NO: the depth of your barn, 6 ft over."},
		{"room for the length as worked out", func(s *Size, b *Barn) { s.Length, s.Worked = inches{}, in(240) },
			"CANNOT SAY YET: it needs the trailer's measured length, over all. By the length worked out here, partly assumed and without a gate, it goes in. Nothing is over so far."},
		{"no length", func(s *Size, b *Barn) { s.Length = inches{} }, "CANNOT SAY YET: it needs the trailer's length, over all. Nothing is over so far."},
		{"nothing", func(s *Size, b *Barn) { *s, *b = Size{}, Barn{} }, "CANNOT SAY YET: it needs the width of your door, and the height of your door, and the depth of your barn."},
	} {
		s, b := trailer, barn
		c.to(&s, &b)
		if got := Fits(s, b, measure.American).Text; got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
