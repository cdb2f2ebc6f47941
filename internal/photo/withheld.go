package photo

import (
	"encoding/json"
	"runtime/debug"
	"sync"

	"golang.org/x/sync/semaphore"

	"tarepage/internal/media"
	"tarepage/internal/parallel"
)

// Sketches are the sketches of photos that are not published, by their names. No picture is made
// of them, and of what they show only the sketch is kept. One that cannot be read is left out.
func (s *Shop) Sketches(list []Original) map[string]*Sketch {
	out := map[string]*Sketch{}
	w := &work{shop: s, room: semaphore.NewWeighted(inFlight + besides)}
	if len(list) == 0 || w.open() != nil {
		return out
	}
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(min(softLimit, debug.SetMemoryLimit(-1))))
	var mu sync.Mutex
	parallel.Each(len(list), func(i int) {
		if sketch := w.sketch(list[i]); sketch.whole() {
			mu.Lock()
			defer mu.Unlock()
			out[list[i].Name] = sketch
		}
	})
	return out
}

// sketchEnding ends the name of a kept file that has nothing but a sketch.
const sketchEnding = ".sketch"

// sketch finds the sketch of a photo, or makes and keeps it. It is nil if the photo cannot be
// decoded.
func (w *work) sketch(o Original) (sketch *Sketch) {
	if key, err := keyOf(o); err == nil {
		for _, k := range w.keeps {
			if from, _ := k.findFile(key, sketchEnding); from == "" {
				continue
			} else if text, err := readKept(from); err == nil && json.Unmarshal(text, &sketch) == nil && sketch.whole() {
				return sketch
			}
		}
	}
	_, fault, _ := w.read(o, func(key string, data []byte, head *media.Photo) (string, error) {
		m, err := w.patience.decode(data, head)
		if err != nil {
			return err.Error(), nil
		}
		sketch = sketchAlone(rowsOf(m, readProfile(head.Profile), head.Kind == "WebP"), head.Turn)
		if head.Need > large {
			debug.FreeOSMemory()
		}
		text, err := json.Marshal(sketch)
		for _, k := range w.keeps {
			if err != nil {
				break // it is made again the next time
			}
			if _, _, failed := k.putFile(key, sketchEnding, text); failed == nil {
				break
			}
		}
		return "", nil
	})
	if fault != "" {
		return nil
	}
	return sketch
}

// sketchAlone is the sketch of a decoded photo of which no pictures are made.
func sketchAlone(src source, turn int) *Sketch {
	wide, high := src.size()
	small := resize(src, max(min(wide, Thumb), 1), max(min(high, Thumb), 1)).turned(turn)
	if turn >= 5 {
		wide, high = high, wide
	}
	return sketchOf(small, wide, high)
}
