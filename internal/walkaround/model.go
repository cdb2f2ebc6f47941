package walkaround

import (
	"bytes"
	"compress/flate"
	_ "embed"
	"encoding/binary"
	"fmt"
	"io"
	"strings"
	"sync"

	"tarepage/internal/measure"
)

// The classes that have weights: none, each role, each part of the trailer and each way
// of measuring. A role's score is the sum of its own, its part's and its attribute's.
var (
	classes   int
	partClass []int // of each row
	attrClass []int
)

func init() {
	number := map[string]int{}
	class := func(name string) int {
		if n, ok := number[name]; ok {
			return n
		}
		classes++
		number[name] = classes - 1
		return classes - 1
	}
	class("none")
	for _, r := range roleTable {
		class("role " + string(r.role))
	}
	for _, r := range roleTable {
		part, attr, ok := strings.Cut(string(r.role), ".")
		if !ok {
			attr = part
		}
		if i := strings.LastIndexByte(attr, '.'); i >= 0 {
			attr = attr[i+1:]
		}
		partClass = append(partClass, class("part "+part))
		attrClass = append(attrClass, class("attr "+attr))
	}
}

// amount is a value as a number, if it is one.
func amount(v Value) (float64, bool) {
	switch v := v.(type) {
	case nil:
		return 0, false
	case measure.Pounds:
		return float64(v), true
	case measure.Inches:
		return float64(v), true
	case measure.PSI:
		return float64(v), true
	case measure.Dollars:
		return float64(v), true
	case Count:
		return float64(v), true
	case Year:
		return float64(v), true
	}
	return 0, false
}

// A weight of the model is of one feature for one class.
type weighted struct {
	class uint8
	w     int8
}

// A model holds the weights of every feature it knows.
type model struct {
	at      map[feature]uint32 // index of the feature's first weight and their number: first<<8 | n
	weights []weighted
}

// scale is how many units of a weight are one nat: weights are integers so that every
// processor decides alike.
const scale = 24

// tally adds the weights of features into sums, one for each class.
func (m *model) tally(sums []int32, fs []feature) {
	for _, f := range fs {
		if e, ok := m.at[f]; ok {
			first := e >> 8
			for _, w := range m.weights[first : first+e&0xff] {
				sums[w.class] += int32(w.w)
			}
		}
	}
}

// score is what the sums give the row.
func score(sums []int32, row int) int32 {
	return sums[1+row] + sums[partClass[row]] + sums[attrClass[row]]
}

//go:embed model.bin
var packed []byte

// shipped is the model that was trained on all labelled talk: go test -run TestTrain -train.
var shipped = sync.OnceValue(func() *model {
	m, err := unpack(packed)
	if err != nil {
		panic("internal/walkaround/model.bin: " + err.Error()) // it is part of the program
	}
	return m
})

func unpack(data []byte) (*model, error) {
	raw, err := io.ReadAll(flate.NewReader(bytes.NewReader(data)))
	if err != nil {
		return nil, err
	}
	at := 0
	number := func() int {
		v, n := binary.Uvarint(raw[at:])
		at += max(n, 0)
		return int(v)
	}
	if n := number(); n != classes {
		return nil, fmt.Errorf("it has %d classes, the table of roles makes %d; train it again", n, classes)
	}
	n := number()
	m := &model{at: make(map[feature]uint32, n)}
	f, first := feature(0), uint32(0)
	for range n {
		f += feature(number())
		if at >= len(raw) {
			return nil, io.ErrUnexpectedEOF
		}
		count := uint32(raw[at])
		at++
		m.at[f] = first<<8 | count
		first += count
	}
	if len(raw)-at != 2*int(first) {
		return nil, io.ErrUnexpectedEOF
	}
	m.weights = make([]weighted, first)
	for i := range m.weights {
		m.weights[i] = weighted{raw[at+i], int8(raw[at+int(first)+i])}
	}
	return m, nil
}
