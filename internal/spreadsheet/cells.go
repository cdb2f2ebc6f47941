package spreadsheet

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/unit"
)

// A cellForm is a short way to write a value that is clear in a column for its key, but not in a
// unit file. How yards write is common practice, no source. A test holds each row by its example.
type cellForm struct {
	kind, key     string // the kind of value, or the key; the other is empty
	form          *regexp.Regexp
	example, made string
	write         func(m []string) string
}

// as writes the same words for every cell.
func as(words string) func([]string) string { return func([]string) string { return words } }

var cellForms = []cellForm{
	{kind: "weight", form: regexp.MustCompile(`(?i)^([0-9]{1,3}(?:\.[0-9]+)?) ?k(?: ?(?:lbs?\.?|#))?$`), example: "25.9K", made: "25900",
		write: func(m []string) string {
			n, _ := strconv.ParseFloat(m[1], 64)
			return strconv.FormatFloat(math.Round(n*1000), 'f', -1, 64)
		}},
	{key: "year", form: regexp.MustCompile(`^['’‘]?([0-3][0-9])$`), example: "'26", made: "2026", write: func(m []string) string { return "20" + m[1] }},
	{key: "year", form: regexp.MustCompile(`^['’‘]?([6-9][0-9])$`), example: "’98", made: "1998", write: func(m []string) string { return "19" + m[1] }},
	{kind: "date", form: regexp.MustCompile(`^([0-9]{1,2})([/.-])([0-9]{1,2})[/.-]([0-9]{2})$`), example: "11/2/26", made: "2026-11-02",
		write: func(m []string) string { return unit.USDay(m[1] + m[2] + m[3] + m[2] + "20" + m[4]) }},
	{key: "brakes.kind", form: regexp.MustCompile(`(?i)^elec\.?$`), example: "Elec", made: "electric", write: as("electric")},
	{key: "availability", form: regexp.MustCompile(`(?i)^(in |on )?(the )?(lot|yard)$`), example: "lot", made: "on the yard", write: as("on the yard")},
	// To whom and when stays in the sheet. What is pending is not sold yet, and is asked for.
	{key: "availability", form: regexp.MustCompile(`(?i)^sold\b(.*)$`), example: "SOLD - Haskell", made: "sold", write: func(m []string) string {
		if notSold.MatchString(m[1]) {
			return ""
		}
		return "sold"
	}},
	{key: "condition", form: regexp.MustCompile(`(?i)^n$`), example: "N", made: "new", write: as("new")},
	{key: "condition", form: regexp.MustCompile(`(?i)^u$`), example: "U", made: "used", write: as("used")},
}

// notSold are words after "sold" by which a trailer may not be sold, or not this one.
var notSold = regexp.MustCompile(`(?i)pend|not|fell|back|\?|\bas\b|separate|if\b`)

// plainCell writes a cell of a short form as the reader of values takes it; other cells stay.
func (c Column) plainCell(cell, kind string) string {
	for _, f := range cellForms {
		if f.kind != kind && f.key != c.Key || f.kind == "weight" && c.Unit == "kg" {
			continue
		}
		if m := f.form.FindStringSubmatch(cell); m != nil {
			if out := f.write(m); out != "" {
				return out
			}
		}
	}
	return cell
}

// leastPounds is the smallest weight that is taken from a cell without a unit, of the weights of a
// whole trailer. A smaller number is likely thousands of pounds. The other weights, such as that on
// the tongue, can be smaller. Common practice, no source.
const (
	leastPounds      = 100
	leastSmallPounds = 10
)

// tooSmall is the error for a number without a unit that is hardly a weight of its column.
func (c Column) tooSmall(cell string, number float64) error {
	least := float64(leastPounds)
	if !wholeTrailer[c.Key] {
		least = leastSmallPounds
	}
	inPounds := number
	if c.Unit == "kg" {
		inPounds = number * 2.2
	}
	if number <= 0 || inPounds >= least {
		return nil
	}
	unitOf := c.Unit
	if unitOf == "" {
		unitOf = "lb"
	}
	return fmt.Errorf("%q is very little for %s; if it is thousands, write %s; if it is right, write %s %s", cell, c.Key, thousands(math.Round(number*1000)), cell, unitOf)
}

// wholeTrailer are the weights that no trailer has below leastPounds.
var wholeTrailer = map[string]bool{"weights.gvwr": true, "weights.empty": true, "axles.rating": true, "hitch.rating": true, "claimed.payload": true, "weights.max-load": true}

// leastPrice is the smallest price in dollars that is taken from a cell. A smaller number is likely one of
// thousands, or an answer of yes, which a workbook keeps as 1. Common practice, no source.
const leastPrice = 100

// tooCheap is the error for a number that is hardly the price of a trailer. None is the price to ask for.
func (c Column) tooCheap(cell string, number float64) error {
	if c.Key != "price" || number <= 0 || number >= leastPrice {
		return nil
	}
	return fmt.Errorf("%q is very little for a trailer's price; write it in full, %s if it is thousands; or leave the cell empty, and the page asks to call", cell, thousands(math.Round(number*1000)))
}

// kindsOfNumber are the kinds of value whose cells are numbers, with or without a unit after them.
var kindsOfNumber = map[string]bool{"money": true, "weight": true, "length": true, "count": true, "pressure": true, "volume": true}

var (
	// rounded matches a number as programs for sheets show one that is too long for them: 1.23E+16. Its last
	// digits are lost.
	rounded = regexp.MustCompile(`(?i)^-?[0-9]+(\.[0-9]+)?e[+-][0-9]+$`)
	// powers matches a number with a power of ten, with or without a sign.
	powers = regexp.MustCompile(`(?i)^[$ -]*[0-9.,]+e[+-]?[0-9]+$`)
	// amounts matches a number with a comma or with two points in it, at the beginning of a cell.
	amounts = regexp.MustCompile(`^[$ -]*([0-9]+[0-9.]*[,.][0-9.,]*)`)
	// inThrees matches a number whose commas, if it has any, are between thousands.
	inThrees = regexp.MustCompile(`^([0-9]+|[0-9]{1,3}(,[0-9]{3})+)(\.[0-9]*)?$`)
)

// odd is the error for a cell whose number was rounded, or can be read in two ways.
func odd(cell, kind string) error {
	if rounded.MatchString(cell) || kindsOfNumber[kind] && powers.MatchString(cell) {
		return fmt.Errorf("%q is a number that the program for sheets has shortened; make the column text, and type it again in full", cell)
	}
	if m := amounts.FindStringSubmatch(cell); m != nil && kindsOfNumber[kind] && !inThrees.MatchString(strings.TrimRight(m[1], ".,")) {
		return fmt.Errorf("%q has commas or points in the wrong places; write thousands with a comma, 18,450, and a part of one after a point, 18.5", cell)
	}
	return nil
}

// sums are the words at the beginning of a row of sums: "TOTAL", "Grand total:".
var sums = regexp.MustCompile(`(?i)^(grand |sub-?)?(totals?|sums?|averages?|avg)( (units|trailers|value|inventory|stock|price))?[ :.]*$`)

// notOne says that a row is not a trailer, or a model: empty if it may be one.
func notOne(called string) string {
	if sums.MatchString(called) {
		return fmt.Sprintf("%q is a row of sums; delete it in the sheet, or leave it", called)
	}
	return ""
}
