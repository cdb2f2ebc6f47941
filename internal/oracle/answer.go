package oracle

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// Answer is both verdicts for what a customer brings, as cards and pages give them: whether the
// trailer carries the machines, nil without machines, and whether the truck pulls it with them on
// it, nil without a truck. heads are what people call the leading ends of the machines, and doubt
// questions them (Doubt). With several machines another order counts where it is the first that fits.
func Answer(t Trailer, list []compute.Machine, heads []string, doubt string, truck *Truck, in measure.System) (*Carried, *Pulled) {
	var carried *Carried
	if len(list) > 0 {
		c := Carry(t, list, heads[0], truck, in)
		for _, order := range orders(len(list))[1:] {
			if c.Is == "yes" {
				break
			}
			if other := Carry(t, inOrder(list, order), heads[order[0]], truck, in); other.Is == "yes" {
				c = other
			}
		}
		c.Question(doubt)
		carried = &c
	}
	if truck == nil {
		return carried, nil
	}
	if carried == nil {
		p := Pull(t.Towed, *truck, nil)
		return nil, &p
	}
	p := PullWith(t, *truck, carried, carried.Put)
	if p.Is != "no" {
		p.Question(doubt)
	}
	return carried, &p
}

// orders are the ways to put n machines in a row: as they are first, and last turned around.
func orders(n int) [][]int {
	if n == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for first := range n {
		for _, rest := range orders(n - 1) {
			order := []int{first}
			for _, i := range rest {
				if i >= first {
					i++
				}
				order = append(order, i)
			}
			out = append(out, order)
		}
	}
	return out
}

func inOrder(list []compute.Machine, order []int) []compute.Machine {
	out := make([]compute.Machine, len(order))
	for k, i := range order {
		out[k] = list[i]
	}
	return out
}

// PullWith is Pull with the machines of a verdict on the trailer at these places. Without places
// nothing is known but what they weigh, and without a weight the truck pulls the trailer full.
func PullWith(t Trailer, truck Truck, c *Carried, sets []compute.Set) Pulled {
	if c.All == 0 {
		return Pull(t.Towed, truck, nil)
	}
	on := &On{Load: c.All, Held: t.Held(sets), Carried: c}
	if len(sets) > 0 && t.Whole {
		stand, isApart := t.Bear(sets)
		on.Placed = &Placed{Stand: stand, Apart: isApart, Alone: len(sets) == 1}
		if t.TongueEmpty.Known {
			on.Tongue = pounds{Value: stand.Tongue, Known: true}
		}
	}
	return Pull(t.Towed, truck, on)
}
