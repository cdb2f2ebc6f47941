package compute

import (
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

// heapSource: the slope of the heap is the 2:1 of the SAE J742 kind of capacity rating.
// The text of the standard was not at hand; the slope is from memory.
const heapSource = "geometry: sides of 2:1 as in capacity ratings of the SAE J742 kind, from memory"

// A Heap is one loose material on a dump bed.
type Heap struct {
	Material string
	Density  measure.PoundsPerCubicYard
	// Struck and Heaped are the weights of a full bed of it, level and heaped.
	Struck, Heaped measure.Pounds
	// Fits is how much of it the payload allows, zero if the payload is not known.
	Fits measure.CubicYards
	// FitsStruck and FitsHeaped report that a full bed stays within the payload.
	FitsStruck, FitsHeaped bool
	// Level is how high the payload of it is above the bed's floor, level; zero where the payload
	// or the floor is not known.
	Level  measure.Inches
	Source string
}

// loose are the rows of the density table that are loaded loose; solid blocks, packed
// ground and water do not heap. A hopper is for grain, a dump bed for the rest.
func (p *calc) loose(b tables.BulkDensityRow) bool {
	if grain := strings.HasPrefix(b.Material, "grain, "); grain != (p.Unit.Kind.Value == "hopper") {
		return false
	}
	return !strings.Contains(b.Material, "solid") && !strings.Contains(b.Material, "compacted") && b.Material != "water"
}

// bed takes the bed's inside measures, or skips a trailer without one.
func (p *calc) bed() (length, width, height measure.Inches) {
	b := p.Unit.Bed
	if !b.Length.Given() {
		p.skip()
		return
	}
	return need(p, b.Length, "bed.length"), need(p, b.Width, "bed.width"), need(p, b.Height, "bed.height")
}

var struckVolume = &Definition{
	Name: "struck-volume", Label: "Bed, struck level",
	What:    "What the bed holds filled level with its sides. Most soil and stone reaches the payload before that: see what it weighs.",
	Formula: "length x width x height of the sides",
	Unit:    "cu yd", Source: "geometry",
	work: func(p *calc) {
		v, heaped, working := p.struck()
		if !p.ready() {
			return
		}
		for _, b := range tables.BulkDensities() {
			if !p.loose(b) {
				continue
			}
			heap := Heap{Material: b.Material, Density: b.Density, Source: b.Source,
				Struck: measure.WeightOfVolume(v, b.Density), Heaped: measure.WeightOfVolume(heaped, b.Density)}
			if p.Payload.Known {
				heap.Fits = measure.VolumeOfWeight(p.Payload.Value, b.Density)
				heap.FitsStruck, heap.FitsHeaped = measure.NotOver(heap.Struck, p.Payload.Value), measure.NotOver(heap.Heaped, p.Payload.Value)
				if b := p.Unit.Bed; !b.Volume.Given() && b.Length.Value > 0 && b.Width.Value > 0 {
					heap.Level = measure.HeightOfVolume(heap.Fits, b.Length.Value, b.Width.Value)
				}
			}
			p.Heaps = append(p.Heaps, heap)
			full := say("%s at %s: %s struck, %s heaped", b.Material, b.Density, load(heap.Struck), load(heap.Heaped))
			if p.Payload.Known && !heap.FitsStruck {
				full = say("%s; the payload is reached at %s", full, near{measure.Down(heap.Fits, 0.1)})
			}
			p.notes = append(p.notes, full)
		}
		p.enter(float64(v), v.Near(), 0.1, working)
	},
}

// struck is what a bed holds level and heaped. The volume that the maker states counts first: a
// hopper's floor slopes, and its sides do not say what it holds.
func (p *calc) struck() (level, heaped measure.CubicYards, working words) {
	if b := p.Unit.Bed; b.Volume.Given() {
		v := need(p, b.Volume, "bed.volume")
		return v.CubicYards(), v.CubicYards(), say("%s", near{v})
	}
	l, w, h := p.bed()
	level = measure.Volume(l, w, h)
	return level, level + measure.HeapedOn(l, w), say("%s x %s x %s", l, inInches(w), inInches(h))
}

var heapedVolume = &Definition{
	Name: "heaped-volume", Label: "Bed, heaped",
	What:    "What the bed holds with a heap on top whose sides rise one on two from all four edges.",
	Formula: "struck + W x W x (3 L - W) / 24, L the longer side and W the shorter",
	Unit:    "cu yd", Source: heapSource,
	work: func(p *calc) {
		if p.Unit.Bed.Volume.Given() {
			p.skip()
			return
		}
		l, w, h := p.bed()
		if !p.ready() {
			return
		}
		v := measure.Volume(l, w, h) + measure.HeapedOn(l, w)
		if hp := p.Unit.Bed.Heap; hp.Given() && !hp.Value {
			p.note("this bed is not to be heaped")
		}
		p.enter(float64(v), v.Near(), 0.1, say("%s + the heap's %s", near{measure.Volume(l, w, h)}, near{measure.HeapedOn(l, w)}))
	},
}
