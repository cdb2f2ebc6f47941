package spreadsheet

import (
	"fmt"
	"strings"
	"unicode"

	"tarepage/internal/unit"
)

// bareNumber is a stock number in small letters without dashes and other marks, and without zeros in front.
// A program for sheets takes 00105 for a number and keeps 105, and people write a dash one time and
// not the next. Common practice, no source.
func bareNumber(stock string) string {
	letters := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, stock)
	return strings.TrimLeft(letters, "0")
}

// A likeness finds stock numbers that differ from others only in marks and zeros in front.
type likeness map[string]string

// likenessOf knows the numbers of the yard.
func likenessOf(yard *unit.Stock) likeness {
	out := likeness{}
	for _, u := range yard.Units {
		out[bareNumber(u.Stock.Value)] = u.Stock.Value
	}
	return out
}

// refuse says why no file is made of a new number: it is like another. It is empty if none is, and
// the number is known from then on.
func (l likeness) refuse(stock string) string {
	if other := l[bareNumber(stock)]; other != "" {
		return fmt.Sprintf("stock number %q is like %s, which is there already; if it is the same trailer, write %s in this cell; if it is another one, give it a number that differs in more than marks and zeros", stock, other, other)
	}
	l[bareNumber(stock)] = stock
	return ""
}
