// Command yardphotos draws the photos of the demo yard from its unit files, so that a photo
// never contradicts its unit: kind, dimensions, axles, hitch and color are the unit's own. It
// writes content/media/STOCK-VIEW.jpg for each photo that a unit lists, and STOCK-label.jpg or
// STOCK-ticket.jpg for a proof. Run it from the project's folder after
// a demo unit has changed:
//
//	go run ./internal/yardphotos
//	go run ./internal/yardphotos sb-1043 sb-1062-front
//
// With stock numbers or names of photos it draws those only.
//
// Faces are flat, shaded by one sun, and drawn in perspective with a depth for each point. A
// person of 5 ft 9 in and a fence of 5 ft give the scale. What a unit does not state has a
// usual shape (common practice, no source).
package main

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

func main() {
	if err := run(".", os.Args[1:]); err != nil {
		_, _ = fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run draws every photo that a unit below root lists and that has the name of a view, or
// those with these stock numbers or names.
func run(root string, only []string) error {
	return each(os.DirFS(root), func(name string, draw func() ([]byte, error)) error {
		if len(only) > 0 && !slices.ContainsFunc(only, func(s string) bool {
			base, s := path.Base(name), strings.ToLower(s)
			return strings.HasPrefix(base, s+"-") || base == s+".jpg"
		}) {
			return nil
		}
		data, err := draw()
		if err != nil {
			return err
		}
		return os.WriteFile(path.Join(root, name), data, 0o644)
	})
}

// each calls do for every photo of the yard, with the function that draws it.
func each(yard fs.FS, do func(name string, draw func() ([]byte, error)) error) error {
	stock, _, err := unit.Read(yard)
	if err != nil {
		return err
	}
	for _, u := range stock.Units {
		for _, p := range u.Photos {
			view, ok := strings.CutPrefix(p.File.Value, "media/"+strings.ToLower(u.Stock.Value)+"-")
			view = strings.TrimSuffix(view, ".jpg")
			if _, known := views[view]; !ok || !known {
				return fmt.Errorf("%s: photo %q is not named after the stock number and a view", u.File, p.File.Value)
			}
			w := compute.Unit(u, compute.SettingsOf(stock.Yard))
			if err := do("content/"+p.File.Value, func() ([]byte, error) { return photograph(w, view) }); err != nil {
				return err
			}
		}
		for _, p := range u.Proof {
			what := strings.TrimSuffix(strings.TrimPrefix(p.File.Value, "media/"+strings.ToLower(u.Stock.Value)+"-"), ".jpg")
			if papers[what] == nil {
				return fmt.Errorf("%s: proof %q is not named after the stock number and a paper", u.File, p.File.Value)
			}
			if err := do("content/"+p.File.Value, func() ([]byte, error) { return paperPhoto(u, what) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// photograph is a finished JPEG file.
func photograph(w *compute.Work, view string) ([]byte, error) {
	r, c := posed(w, view)
	r.fence(view)
	var b bytes.Buffer
	err := jpeg.Encode(&b, r.draw(c), &jpeg.Options{Quality: 78})
	return b.Bytes(), err
}

// posed is the trailer with a person, and the camera for a view of them.
func posed(w *compute.Work, view string) (*rig, camera) {
	r := rigOf(w)
	r.build()
	p := views[view].person(r)
	p.y *= r.side()
	r.person(p)
	r.sun = sunFrom(r.side())
	r.own = len(r.faces)
	return r, r.camera(views[view])
}

// fence adds the fence of the yard.
func (r *rig) fence(view string) {
	plank := paint{0.55, 0.47, 0.38}
	from := len(r.faces)
	defer func() {
		if r.side() < 0 {
			r.flip(from)
		}
	}()
	back := -(r.half() + 150)
	for x := -900.0; x < r.rear()+900; x += 96 {
		r.box(x-2.5, x+2.5, back-2.5, back+2.5, 0, 60, plank)
	}
	for z := 14.0; z <= 54; z += 20 {
		r.box(-900, r.rear()+900, back+2.5, back+4, z-3, z+3, plank.times(1.1))
	}
	if view == "front" {
		for y := back; y < 700; y += 96 {
			r.box(r.rear()+395, r.rear()+400, y-2.5, y+2.5, 0, 60, plank)
		}
		r.box(r.rear()+395, r.rear()+397, back, 700, 48, 54, plank)
	}
}

// person adds somebody 5 ft 9 in tall.
func (r *rig) person(p vec) {
	jeans, shirt, skin, hat := paint{0.20, 0.28, 0.44}, paint{0.76, 0.30, 0.16}, paint{0.78, 0.60, 0.48}, paint{0.30, 0.26, 0.20}
	limb := func(y, z0, z1, wide float64, tint paint) {
		r.box(p.x-wide, p.x+wide, p.y+y-wide, p.y+y+wide, z0, z1, tint)
	}
	limb(-4, 3, 33, 2.8, jeans)
	limb(4, 3, 33, 2.8, jeans)
	r.box(p.x-6, p.x+3, p.y-7, p.y-1.5, 0, 3.5, dark)
	r.box(p.x-6, p.x+3, p.y+1.5, p.y+7, 0, 3.5, dark)
	r.box(p.x-4, p.x+4, p.y-7.5, p.y+7.5, 32, 57, shirt)
	limb(-9.5, 31, 56, 2.2, shirt.times(0.92))
	limb(9.5, 31, 56, 2.2, shirt.times(0.92))
	limb(0, 57, 60, 2, skin)
	r.prism(circle(p.x, 64, 4.2, 5), p.y-3.6, p.y+3.6, skin)
	r.box(p.x-6.5, p.x+6.5, p.y-6, p.y+6, 66.3, 67.2, hat)
	r.box(p.x-4, p.x+4, p.y-3.8, p.y+3.8, 67, 69.5, hat)
}
