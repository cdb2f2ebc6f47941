package measure

import (
	"regexp"
	"strings"
	"unicode"
)

// A form is a regular expression that says what a parser reads. Editors use it to check a
// value without the parser. It uses only the syntax that Go and ECMA-262 share, and it is
// made from the same units as the parser. A form accepts every text that its parser reads.
// It also accepts numbers outside the range of the parsers (above most, below least) and
// fractions that are not proper (9/8, 1/0).

const (
	space     = "[ \u00a0\u202f\u2009]*" // as oddSpaces
	between   = "[- \u00a0\u202f\u2009]*"
	aboutForm = `(?:[Aa][Bb][Oo][Uu][Tt]|[Aa][Pp][Pp][Rr][Oo][Xx][Ii][Mm][Aa][Tt][Ee][Ll][Yy]|[Aa][Pp][Pp][Rr][Oo][Xx]\.?|[Cc][Aa]\.|~)?` + space
	noteForm  = space + `(?:\([^()]*\))?` + space

	digitsForm = `(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)`
	pointForm  = `(?:` + digitsForm + `(?:\.[0-9]+)?|\.[0-9]+)`
	partForm   = `(?:[0-9]{1,3}/[0-9]{1,3})`
	glyphForm  = `[½¼¾⅛⅜⅝⅞]`
	mixedForm  = `(?:` + digitsForm + `(?:[- ]` + space + partForm + `|` + space + glyphForm + `)|` + partForm + `|` + glyphForm + `)`
	// kiloForm is a number with a k for thousands; a blank or nothing follows the k.
	kiloForm = pointForm + `[kK]`
)

// WeightForm is what ParseWeight reads.
func WeightForm() string { return form(weightUnits, true) }

// LengthForm is what ParseLength reads.
func LengthForm() string { return form(lengthUnits, true) }

// PressureForm is what ParsePressure reads.
func PressureForm() string { return form(pressureUnits, false) }

// VolumeForm is what ParseVolume reads.
func VolumeForm() string { return form(volumeUnits, false) }

// ShareForm is what ParseShare reads.
func ShareForm() string { return form(shareUnits, false) }

// MoneyForm is what ParseMoney reads.
func MoneyForm() string {
	number := `(?:` + digitsForm + `(?:\.[0-9]{2})?|\.[0-9]{2}|` + kiloForm + `)`
	return `^` + space + aboutForm + `(?:\$` + space + number + `|` + number + space + `(?:USD|usd|dollars))` + noteForm + `$`
}

// StoppingForm is what ParseStopping reads. It also accepts a length or a speed of zero,
// which ParseStopping refuses.
func StoppingForm() string {
	return `^` + space + aboutForm + sum(lengthUnits) + ` +(?:at|from) +[0-9]{1,3}(?:\.[0-9])?` + space + `(?:mph|MPH|km/h|kph)` + noteForm + `$`
}

func form[U Unit](scales []scale[U], sums bool) string {
	terms := term(scales, sums)
	if sums {
		terms = sum(scales)
	}
	return `^` + space + aboutForm + terms + noteForm + `$`
}

func sum[U Unit](scales []scale[U]) string {
	one := term(scales, true)
	return one + `(?:` + space + `\+` + space + one + `)*`
}

// term is a number with its unit, or feet followed by inches. Only what may be a sum may have
// a fraction with a slash.
func term[U Unit](scales []scale[U], fractions bool) string {
	number := pointForm + `|` + kiloForm + `[ ` + "\u00a0\u202f\u2009" + `]`
	if fractions {
		number += `|` + mixedForm
	} else {
		number += `|` + digitsForm + space + glyphForm + `|` + glyphForm // a slash separates two values
	}
	number = `(?:` + number + `)`
	var all, joins, joined []string
	for _, s := range scales {
		for _, name := range s.names {
			folded := fold(name)
			all = append(all, folded)
			if s.joins {
				joins = append(joins, folded)
			}
			if s.joined {
				joined = append(joined, folded)
			}
		}
	}
	one := number + between + `(?:` + strings.Join(all, "|") + `)`
	if joins == nil {
		return one
	}
	// Inches after feet stay below twelve. A dash touches them: 8'-6".
	const below = `0*(?:[0-9]|1[01])`
	inches := below + `(?:\.[0-9]+|[- ]` + space + partForm + `|` + space + glyphForm + `)?|` + partForm
	after := `(?:-(?:` + inches + `)|` + space + `(?:` + inches + `|\.[0-9]+|` + glyphForm + `))` + between + `(?:` + strings.Join(joined, "|") + `)`
	return `(?:` + number + between + `(?:` + strings.Join(joins, "|") + `)` + after + `|` + one + `)`
}

// fold writes a name so that the form accepts it in capitals too.
func fold(name string) string {
	var b strings.Builder
	for _, r := range name {
		if low, high := unicode.ToLower(r), unicode.ToUpper(r); low != high {
			b.WriteString("[" + string(low) + string(high) + "]")
		} else {
			b.WriteString(regexp.QuoteMeta(string(r)))
		}
	}
	return b.String()
}
