package inspect

import (
	"regexp"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
)

var loadRangeAndPly = &Rule{
	Name: "load-range-and-ply", Severity: Stop,
	Title:  "load range and ply rating name the same tire",
	Why:    "The letter and the ply rating are two names for the same strength. If they disagree, one of them was misread, and the load with it.",
	Source: "the load range table: B is 4 ply, C 6, D 8, E 10, F 12, G 14, H 16",
	Remedy: "read both off the sidewall again",
	check: func(c *Case, f *Findings) {
		letter, ply := c.Tires.LoadRange, c.Tires.Ply
		if !letter.Given() {
			return
		}
		if tables.PassengerRange(letter.Value) {
			size, err := tables.ParseTireSize(c.Tires.Size.Value)
			if err == nil && size.Class() != tables.Passenger {
				f.add(letter.Pos, "load range %s is for passenger tires; the size is %s", strings.ToUpper(letter.Value), size).
					also(c.Tires.Size.Pos, "the size is here").
					fix("read the letter off the sidewall again")
			}
			return
		}
		lr, err := tables.LoadRange(letter.Value)
		if err != nil {
			none := f.add(letter.Pos, "there is no load range %q", letter.Value).
				fix("read the letter off the sidewall; the letters are A to N without I and K; a passenger tire has SL, XL or LL")
			if named := ofPly(letter.Value); named != "" {
				none.fix("%s is load range %s: read the letter off the sidewall, and write load-range: %s if it is that one", letter.Value, named, named)
			}
			return
		}
		if ply.Given() && ply.Value != lr.Ply {
			f.add(ply.Pos, "load range %s is %d ply; the file says %d ply", lr.Letter, lr.Ply, ply.Value).
				figures(measure.Count(ply.Value), measure.Count(lr.Ply)).
				also(letter.Pos, "the load range is here")
		}
	},
}

var plyForm = regexp.MustCompile(`^(?i)([0-9]{1,2})[ -]?ply(?: rating)?$`)

// ofPly is the load range of a ply rating, 10 ply; empty for another text.
func ofPly(text string) string {
	m := plyForm.FindStringSubmatch(text)
	if m == nil {
		return ""
	}
	for letter := 'A'; letter <= 'N'; letter++ {
		if lr, err := tables.LoadRange(string(letter)); err == nil && measure.Count(lr.Ply) == m[1] {
			return lr.Letter
		}
	}
	return ""
}
