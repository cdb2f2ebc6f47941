package inspect

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// otherSerial reports a serial that is not a VIN: home-built trailers, numbers assigned by
// a state, and trailers from before 1981 carry other forms. Only a note that says so
// marks one; a note that says where a VIN was read, (tag) or (left rail), marks nothing. A
// number of 17 characters still counts as a VIN if the note says only whose number it is
// or what the trailer is for.
func otherSerial(c *Case) bool {
	if c.Year.Given() && c.Year.Value < 1981 {
		return true
	}
	if c.Serial.From.Origin != measure.Other {
		return false
	}
	note := strings.ReplaceAll(strings.ToLower(c.Serial.From.Text), "\u2019", "'")
	return mentions(note, "state", "assigned", "home-built", "home built", "homemade", "home-made", "no vin", "not a vin") ||
		len(c.Serial.Value) != 17 && mentions(note, "maker's number", "maker's own number", "maker's serial", "farm use")
}

var serialCheckDigit = &Rule{
	Name: "serial-check-digit", Severity: Stop,
	Title:  "the VIN's check digit is right",
	Why:    "A mistyped VIN belongs to another trailer, and the buyer, the bank and the title office all rely on it.",
	Source: "49 CFR 565.13(b), (g), 565.15(c) (2015)",
	Remedy: "read the VIN off the label again; if the number is not a VIN, write (not a VIN), (state-assigned) or (home-built) after it",
	check: func(c *Case, f *Findings) {
		if !c.Serial.Given() || otherSerial(c) {
			return
		}
		vin := c.Serial.Value
		if together := strings.Join(strings.Fields(strings.ReplaceAll(vin, "-", " ")), ""); together != vin && len(together) == 17 {
			f.add(c.Serial.Pos, "serial %q has blanks or dashes in it; a VIN is written without them", vin).
				fix("write serial: %s", strings.ToUpper(together))
			return
		}
		if len(vin) != 17 {
			f.add(c.Serial.Pos, "serial %q has %d characters; a VIN has 17", vin, len([]rune(vin))).
				figures(measure.Count(len([]rune(vin))), "17")
			return
		}
		want, err := CheckDigit(vin)
		if err != nil {
			found := f.add(c.Serial.Pos, "serial %q: %v", vin, err)
			if digits := noLetters.Replace(vin); digits != vin {
				if right, err := CheckDigit(digits); err == nil && digits[8] == right {
					found.fix("the digits 0 and 1 are meant: write serial: %s", digits)
				}
			}
			return
		}
		if got := vin[8]; got != want {
			f.add(c.Serial.Pos, "serial %s has check digit %c; its other characters give %c", vin, got, want).
				figures(string(got), string(want))
		}
	},
}

// noLetters are the digits that the letters which no VIN holds are mistaken for.
var noLetters = strings.NewReplacer("O", "0", "Q", "0", "I", "1")

// vinValues are the values of the letters, 49 CFR 565.15(c) Table III.
var vinValues = map[byte]int{
	'A': 1, 'B': 2, 'C': 3, 'D': 4, 'E': 5, 'F': 6, 'G': 7, 'H': 8,
	'J': 1, 'K': 2, 'L': 3, 'M': 4, 'N': 5, 'P': 7, 'R': 9,
	'S': 2, 'T': 3, 'U': 4, 'V': 5, 'W': 6, 'X': 7, 'Y': 8, 'Z': 9,
}

// vinWeights are the weights of the positions, 49 CFR 565.15(c) Table IV.
var vinWeights = [17]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}

// CheckDigit is the character that position 9 of a 17-character VIN must hold. It
// works with the whole remainder: the decimal table of the regulation (Table V) has a
// misprint at 7/11. An error names the character that no VIN may hold.
func CheckDigit(vin string) (byte, error) {
	if len(vin) != 17 {
		return 0, fmt.Errorf("a VIN has 17 characters, not %d", len(vin))
	}
	total := 0
	for i := range 17 {
		c := vin[i]
		v, letter := vinValues[c]
		switch {
		case letter:
		case c >= '0' && c <= '9':
			v = int(c - '0')
		default:
			return 0, fmt.Errorf("a VIN holds capitals without I, O and Q, and digits; position %d is %q", i+1, c)
		}
		total += v * vinWeights[i]
	}
	if r := total % 11; r < 10 {
		return byte('0' + r), nil
	}
	return 'X', nil
}
