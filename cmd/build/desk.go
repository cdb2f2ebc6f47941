package main

import (
	"fmt"
	"os"
	"reflect"
	"sync"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/render"
	"tarepage/internal/unit"
)

// yard is everything that was read, worked and found.
type yard struct {
	stock *unit.Stock
	works []*compute.Work // briefs, but for a desk that keeps them whole
	// figures works the figures of a unit once more; nil where the works are whole.
	figures  render.Figures
	problems []unit.Problem
	found    [][]inspect.Finding // of each unit by itself
	findings []inspect.Finding
}

// whole is the work of unit i with all figures.
func (y *yard) whole(i int) *compute.Work {
	if y.figures == nil {
		return y.works[i]
	}
	return y.figures.Of(y.stock.Units[i])
}

// again works the figures of a unit once more, by the yard's settings.
type again struct{ settings compute.Settings }

func (a again) Of(u *unit.Unit) *compute.Work { return compute.Unit(u, a.settings) }

// desk is where units are read, worked and inspected, each as soon as it is read, so that
// no more than the results of a large yard are in memory at once. With memory.Keep it
// does again only what changed.
type desk struct {
	memory unit.Memory
	// whole keeps all figures of all units. Else they are let go when a unit was inspected:
	// at ten thousand units they are a quarter of a gigabyte, and working them again for a
	// unit's pages takes a thirtieth of the time of these.
	whole    bool
	settings compute.Settings
	done     map[*unit.Unit]*result
}

// result is what is known of one unit.
type result struct {
	media []unit.Media
	work  *compute.Work
	found []inspect.Finding
}

// folder refuses a -from that is no folder.
func (c *command) folder() error {
	if info, err := os.Stat(c.from); err != nil || !info.IsDir() {
		return fmt.Errorf("-from %q is no folder; name the folder that holds content/", c.from)
	}
	return nil
}

func (c *command) look(d *desk) (*yard, error) {
	if err := c.folder(); err != nil {
		return nil, err
	}
	var once sync.Once
	var settings compute.Settings
	var before map[*unit.Unit]*result // what still holds
	var mu sync.Mutex
	done := map[*unit.Unit]*result{}
	stock, problems, err := d.memory.Read(os.DirFS(c.from), func(s *unit.Stock, u *unit.Unit, media []unit.Media) {
		once.Do(func() {
			settings = compute.SettingsOf(s.Yard)
			if reflect.DeepEqual(settings, d.settings) {
				before = d.done
			}
		})
		r := before[u]
		if r == nil || !reflect.DeepEqual(r.media, media) {
			r = &result{media: media}
			if !u.Broken {
				r.work = compute.Unit(u, settings)
				r.found = inspect.Unit(u, r.work, media)
				if !d.whole {
					r.work = r.work.Brief()
				}
			}
			u.Body.Fold()
		}
		mu.Lock()
		defer mu.Unlock()
		done[u] = r
	})
	if err != nil {
		return nil, fmt.Errorf("in %q: %w", c.from, err)
	}
	d.settings, d.done = settings, nil
	if d.memory.Keep {
		d.done = done
	}
	y := &yard{stock: stock, problems: problems}
	if !d.whole {
		y.figures = again{settings}
	}
	y.found = make([][]inspect.Finding, len(stock.Units))
	for i, u := range stock.Units {
		y.works = append(y.works, done[u].work)
		y.found[i] = done[u].found
	}
	y.findings = inspect.Yardwide(stock, y.works, y.found, problems)
	return y, nil
}
