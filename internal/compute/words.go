package compute

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// words are a sentence with figures in it. It is written out when somebody reads it: every
// unit is worked to be held against the rules, and no rule reads how.
type words struct {
	format string
	args   []any
}

// say keeps a sentence as fmt.Sprintf would write it. Its arguments must not change
// afterwards.
func say(format string, args ...any) words {
	if false {
		_ = fmt.Sprintf(format, args...) // so that go vet checks the arguments against the format
	}
	return words{format, args}
}

func (w words) String() string { return fmt.Sprintf(w.format, w.args...) }

// sums are the terms of a sum.
type sums []words

func (s sums) String() string {
	var b strings.Builder
	for i, w := range s {
		if i > 0 {
			b.WriteString(" + ")
		}
		b.WriteString(w.String())
	}
	return b.String()
}

// near shows a quantity as its Near does.
type near struct {
	quantity interface{ Near() string }
}

func (n near) String() string { return n.quantity.Near() }

// How a sentence shows its figures where the quantity's own writing is not meant. Each
// writes as the function of internal/measure that it is named after.
type (
	inInches measure.Inches
	inFeet   measure.Inches
	limit    measure.Pounds
	load     measure.Pounds
	count    int
	number   struct {
		of       float64
		decimals int
	}
	fromTo   struct{ from, to measure.Inches }
	verbatim string
)

func (in inInches) String() string { return measure.Inches(in).InInches() }
func (in inFeet) String() string   { return measure.Inches(in).InFeet() }
func (p limit) String() string     { return measure.Pounds(p).Limit() }
func (p load) String() string      { return measure.Pounds(p).Load() }
func (n count) String() string     { return measure.Count(int(n)) }
func (n number) String() string    { return measure.Number(n.of, n.decimals) }
func (s fromTo) String() string    { return measure.American.Stretch(s.from, s.to) }
func (s verbatim) String() string  { return string(s) }
