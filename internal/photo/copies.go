package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"maps"
	"slices"

	"tarepage/internal/parallel"
)

// Copies finds the photos that nearly have the picture of one that is withheld, by their names, and
// names that one. To compare two pictures takes milliseconds, so the photos that were not found
// are kept, under what is withheld: the next build compares only those that are new.
func (s *Shop) Copies(shown map[string]*Picture, withheld map[string]*Sketch) map[string]string {
	out := map[string]string{}
	w := &work{shop: s}
	if len(shown) == 0 || len(withheld) == 0 || w.open() != nil {
		return out
	}
	names := slices.Sorted(maps.Keys(withheld))
	h := sha256.New()
	for _, name := range names {
		sum := withheld[name].sum()
		h.Write(sum[:])
	}
	key := hex.EncodeToString(h.Sum(nil))
	known := w.others(key)
	list := sorted(shown)
	of := make([]string, len(list))
	sums := make([][sha256.Size]byte, len(list))
	parallel.Each(len(list), func(i int) {
		sketch := shown[list[i]].Sketch
		if sums[i] = sketch.sum(); known[sums[i]] {
			return
		}
		if at := slices.IndexFunc(names, func(name string) bool { return sketch.Alike(withheld[name]) }); at >= 0 {
			of[i] = names[at]
		}
	})
	others := map[[sha256.Size]byte]bool{}
	for i, name := range list {
		if of[i] != "" {
			out[name] = of[i]
		} else {
			others[sums[i]] = true
		}
	}
	if !maps.Equal(known, others) {
		w.keepOthers(key, others)
	}
	return out
}

// othersEnding ends the name of a kept list of photos that are copies of none that is withheld.
const othersEnding = ".others"

func (w *work) others(key string) map[[sha256.Size]byte]bool {
	out := map[[sha256.Size]byte]bool{}
	for _, k := range w.keeps {
		from, _ := k.findFile(key, othersEnding)
		if from == "" {
			continue
		}
		data, err := readKept(from)
		if err != nil {
			continue
		}
		for part := range slices.Chunk(data, sha256.Size) {
			if len(part) == sha256.Size {
				out[[sha256.Size]byte(part)] = true
			}
		}
		break
	}
	return out
}

// keepOthers keeps the list. If it cannot, the photos are compared again the next time.
func (w *work) keepOthers(key string, others map[[sha256.Size]byte]bool) {
	list := slices.SortedFunc(maps.Keys(others), func(a, b [sha256.Size]byte) int { return bytes.Compare(a[:], b[:]) })
	var data []byte
	for _, sum := range list {
		data = append(data, sum[:]...)
	}
	for _, k := range w.keeps {
		if _, _, err := k.putFile(key, othersEnding, data); err == nil {
			return
		}
	}
}

// sum is a digest of what a sketch says.
func (s *Sketch) sum() (sum [sha256.Size]byte) {
	if !s.whole() {
		return sum
	}
	h := sha256.New()
	for _, s := range s.forms() {
		h.Write(binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(nil, uint64(s.Wide)), uint64(s.High)))
		h.Write(slices.Concat(s.Gray, s.Blue, s.Red))
	}
	h.Sum(sum[:0])
	return sum
}
