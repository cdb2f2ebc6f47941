package measure

import (
	"fmt"
	"strings"
)

// Plain is a number without a unit: a count, or a quantity in a unit that unit files do not
// use.
type Plain float64

// Symbol is empty: the text names the unit next to the number.
func (Plain) Symbol() string { return "" }

func (p Plain) String() string { return number(float64(p), "") }

// ParsePlain reads a number that is followed by the unit's own word: "20 lamps", "about
// 7.2 cu yd".
func ParsePlain(s, unit string) (Written[Plain], error) {
	example := "20 " + unit
	body, about, from, err := peel(s, "number", example)
	if err != nil {
		return Written[Plain]{}, err
	}
	v, rest, err := readNumber(body)
	if err != nil {
		return Written[Plain]{}, fmt.Errorf("number %q cannot be read: %v; write %s", s, err, example)
	}
	if strings.TrimSpace(rest) != unit {
		return Written[Plain]{}, fmt.Errorf("number %q is not in %s; write %s", s, unit, example)
	}
	return Written[Plain]{Plain(v), about, from}, nil
}
