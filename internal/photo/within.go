package photo

import (
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
)

// Within reads a worked photo back and makes it small enough for a window: one that is
// wider than high fills it, cut at two opposite edges, and one that is higher than wide
// is shown whole. None is made larger.
func (p *Picture) Within(wide, high int) (*image.RGBA, error) {
	f, _, err := open(p.JPEG.From)
	if err != nil {
		return nil, fmt.Errorf("a worked photo is gone: %w", err)
	}
	defer f.Close()
	m, err := jpeg.Decode(f)
	if err != nil {
		return nil, fmt.Errorf("the worked photo %s is damaged: %w", p.JPEG.From, err)
	}
	src := rowsOf(m, nil, false)
	w, h := src.size()
	to := image.Pt(wide, max((wide*h+w/2)/w, 1))
	if cover := w > h; cover == (to.Y < high) {
		to = image.Pt(max((high*w+h/2)/h, 1), high)
	}
	if to.X > w {
		to = image.Pt(w, h)
	}
	small := resize(src, to.X, to.Y).codes()
	seen := image.Rect(0, 0, min(to.X, wide), min(to.Y, high))
	out := image.NewRGBA(seen)
	draw.Draw(out, seen, small, image.Pt((to.X-seen.Dx())/2, (to.Y-seen.Dy())/2), draw.Src)
	return out, nil
}
