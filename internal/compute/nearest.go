package compute

import (
	"slices"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// Nearest are the trailers on the yard that come nearest to one that is gone: of its
// kind before any other, then those whose length and payload, each as a share of the
// greater one, differ least. A value that is not known counts as the largest difference. It
// returns at most this many, equally near ones in the order of their stock numbers.
//
// How far apart two trailers are is common practice, no source: nobody has measured it.
func Nearest(gone *Work, among []*Work, most int) []*Work {
	type candidate struct {
		work  *Work
		other bool
		apart measure.Share
	}
	order := func(a, b candidate) int {
		switch {
		case a.other != b.other && a.other, a.other == b.other && a.apart > b.apart:
			return 1
		case a.other != b.other, a.apart < b.apart:
			return -1
		}
		return strings.Compare(a.work.Unit.Stock.Value, b.work.Unit.Stock.Value)
	}
	var found []candidate
	for _, w := range among {
		if w == gone || w == nil || w.Unit.Availability.Value != "on the yard" {
			continue
		}
		// Only the nearest until now are kept in order: a yard of thousands has as many that are
		// sold, and each is held against all.
		c := candidate{w, w.Unit.Kind.Value != gone.Unit.Kind.Value, apart(gone, w)}
		if n := len(found); n > 0 && n == most && order(c, found[n-1]) > 0 {
			continue
		}
		at, _ := slices.BinarySearchFunc(found, c, order)
		if found = slices.Insert(found, at, c); len(found) > most {
			found = found[:most]
		}
	}
	var out []*Work
	for _, c := range found {
		out = append(out, c.work)
	}
	return out
}

func apart(a, b *Work) measure.Share {
	return lengthApart(a.Space.Length, b.Space.Length) + payloadApart(a.Payload, b.Payload)
}

func lengthApart(a, b unit.Length) measure.Share {
	if !a.Given() || !b.Given() || a.Value < 0 || b.Value < 0 {
		return 1
	}
	return measure.Apart(a.Value, b.Value)
}

func payloadApart(a, b Result[measure.Pounds]) measure.Share {
	if !a.Known || !b.Known {
		return 1
	}
	return measure.Apart(a.Value, b.Value)
}
