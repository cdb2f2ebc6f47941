package measure

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Written is a quantity as somebody wrote it: the number, whether they marked it
// approximate, and where they say it comes from.
type Written[U any] struct {
	Value U
	About bool
	From  Provenance
}

// most is the largest number any parser accepts: far above any trailer, far below
// where whole pounds stop being exact. least is the smallest number other than zero: less
// is a misplaced decimal point, and dividing by it gives figures without meaning.
const (
	most  = 1e9
	least = 1e-9
)

// ParseWeight reads "24,000 lb", "24000 lbs", "24k lb", "10,886 kg".
func ParseWeight(s string) (Written[Pounds], error) {
	return parse(s, "weight", "24,000 lb or 10,886 kg", true, weightUnits)
}

// ParseLength reads "28 ft", "83 in", "8 ft 6 in", "8'6\"", "2-5/16 in", "812 mm",
// "9.75 m", "20 ft + 8 ft".
func ParseLength(s string) (Written[Inches], error) {
	return parse(s, "length", "28 ft, 83 in, 8 ft 6 in, 812 mm or 9.75 m", true, lengthUnits)
}

// ParsePressure reads "80 psi", "550 kPa", "5.5 bar".
func ParsePressure(s string) (Written[PSI], error) {
	return parse(s, "pressure", "80 psi, 550 kPa or 5.5 bar", false, pressureUnits)
}

// ParseVolume reads "1,000 gal", "3,785 L", "450 bu", "20 cu yd", "540 cu ft". A gallon and a
// bushel are those of the United States.
func ParseVolume(s string) (Written[Gallons], error) {
	return parse(s, "volume", "1,000 gal, 3,785 L, 450 bu or 20 cu yd", false, volumeUnits)
}

// ParseAngle reads "12 degrees", "12 deg", "12°".
func ParseAngle(s string) (Written[Degrees], error) {
	return parse(s, "angle", "12 degrees", false, angleUnits)
}

// ParseShare reads "5%", "12.5 percent".
func ParseShare(s string) (Written[Share], error) {
	return parse(s, "share", "5%", false, shareUnits)
}

// ParseArea reads "238 sq ft", "22 sq m".
func ParseArea(s string) (Written[SquareFeet], error) {
	return parse(s, "area", "238 sq ft", false, areaUnits)
}

// ParseMoney reads "$18,450", "$18,450.50", "$18.5k", "18,450 USD".
func ParseMoney(s string) (Written[Dollars], error) {
	const example = "$18,450"
	body, about, from, err := peel(s, "price", example)
	if err != nil {
		return Written[Dollars]{}, err
	}
	text, marked := strings.CutPrefix(body, "$")
	if !marked {
		for _, unit := range []string{"USD", "usd", "dollars"} {
			if cut, ok := strings.CutSuffix(text, unit); ok {
				text, marked = cut, true
				break
			}
		}
	}
	text = strings.TrimSpace(text)
	v, rest, err := readNumber(text)
	if err != nil {
		return Written[Dollars]{}, fmt.Errorf("price %q cannot be read: %w; write %s", s, err, example)
	}
	if rest != "" {
		return Written[Dollars]{}, fmt.Errorf("price %q is not an amount of money; write it like %s", s, example)
	}
	if v > most {
		return Written[Dollars]{}, fmt.Errorf("price %q is larger than any trailer's; write %s", s, example)
	}
	if v > 0 && v < least {
		return Written[Dollars]{}, fmt.Errorf("price %q is less than a cent; write %s", s, example)
	}
	if odd := oddCents.FindString(text); odd != "" {
		return Written[Dollars]{}, fmt.Errorf("price %q can be read two ways; write thousands with a comma, $18,450, and cents with two digits, $18,450.50", s)
	}
	if !marked {
		return Written[Dollars]{}, fmt.Errorf("price %q has no currency; write $%s", s, text)
	}
	return Written[Dollars]{Dollars(v), about, from}, nil
}

// oddCents is an amount with one decimal or with more than two, which is a thousands comma
// typed as a point as often as not. $18.5k is fine.
var oddCents = regexp.MustCompile(`^[0-9,]*\.([0-9]|[0-9]{3,})$|[/½¼¾⅛⅜⅝⅞]`)

// thousandths is a weight whose point may be a thousands comma: 9.500 lb.
var thousandths = regexp.MustCompile(`^[1-9][0-9]{0,2}\.[0-9]{2}0$`)

// A scale says how many base units one of the written unit is.
type scale[U Unit] struct {
	names []string
	to    func(float64) U
	// joins marks the unit that may be followed by a smaller one, feet; joined marks
	// the one that may follow, inches.
	joins, joined bool
}

var weightUnits = []scale[Pounds]{
	{names: []string{"lb", "lbs", "lb.", "lbs.", "pound", "pounds", "#"}, to: func(v float64) Pounds { return Pounds(v) }},
	{names: []string{"kg", "kgs", "kilogram", "kilograms"}, to: FromKilograms},
}

var lengthUnits = []scale[Inches]{
	{names: []string{"ft", "ft.", "foot", "feet", "'", "’", "′"}, to: func(v float64) Inches { return Feet(v).Inches() }, joins: true},
	{names: []string{"in", "in.", "inch", "inches", `"`, "”", "″", "''"}, to: func(v float64) Inches { return Inches(v) }, joined: true},
	{names: []string{"mm", "millimeter", "millimeters"}, to: FromMillimeters},
	{names: []string{"cm", "centimeter", "centimeters"}, to: func(v float64) Inches { return FromMillimeters(v * 10) }},
	{names: []string{"m", "meter", "meters"}, to: func(v float64) Inches { return FromMillimeters(v * 1000) }},
}

var pressureUnits = []scale[PSI]{
	{names: []string{"psi", "PSI"}, to: func(v float64) PSI { return PSI(v) }},
	{names: []string{"kPa", "kpa", "KPA"}, to: FromKilopascals},
	{names: []string{"bar"}, to: func(v float64) PSI { return FromKilopascals(v * KilopascalsPerBar) }},
}

var volumeUnits = []scale[Gallons]{
	{names: []string{"gal", "gal.", "gals", "gallon", "gallons"}, to: func(v float64) Gallons { return Gallons(v) }},
	{names: []string{"L", "l", "liter", "liters"}, to: FromLiters},
	{names: []string{"bu", "bushel", "bushels"}, to: func(v float64) Gallons { return FromCubicInches(v * CubicInchesPerBushel) }},
	{names: []string{"cu yd", "cubic yard", "cubic yards", "yd", "yards"}, to: func(v float64) Gallons {
		return FromCubicInches(v * 36 * 36 * 36)
	}},
	{names: []string{"cu ft", "cubic foot", "cubic feet"}, to: func(v float64) Gallons { return FromCubicInches(v * 12 * 12 * 12) }},
}

var angleUnits = []scale[Degrees]{
	{names: []string{"degrees", "degree", "deg", "°"}, to: func(v float64) Degrees { return Degrees(v) }},
}

var areaUnits = []scale[SquareFeet]{
	{names: []string{"sq ft", "sqft", "square feet", "ft2"}, to: func(v float64) SquareFeet { return SquareFeet(v) }},
	{names: []string{"sq m", "square meters", "m2"}, to: func(v float64) SquareFeet {
		const meters = 1000 / (MillimetersPerInch * InchesPerFoot)
		return SquareFeet(v * meters * meters)
	}},
}

var shareUnits = []scale[Share]{
	{names: []string{"%", "percent"}, to: func(v float64) Share { return Share(v / 100) }},
}

// parse reads [about] term {+ term} [(provenance)] where a term is a number with its
// unit, or feet followed by inches.
func parse[U Unit](s, what, example string, sums bool, scales []scale[U]) (Written[U], error) {
	body, about, from, err := peel(s, what, example)
	if err != nil {
		return Written[U]{}, err
	}
	terms := []string{body}
	if sums {
		terms = strings.Split(body, "+")
	}
	p := parser[U]{what, example, scales, sums}
	var total U
	for _, term := range terms {
		v, problem := p.term(strings.TrimSpace(term))
		if problem != "" {
			return Written[U]{}, fmt.Errorf("%s %q %s", what, s, problem)
		}
		total += v
	}
	switch v := float64(total); {
	case v > most:
		return Written[U]{}, fmt.Errorf("%s %q is larger than anything a yard weighs or measures", what, s)
	case v > 0 && v < least:
		return Written[U]{}, fmt.Errorf("%s %q is smaller than anything a yard weighs or measures", what, s)
	}
	return Written[U]{total, about, from}, nil
}

// A parser reads the terms of one kind of quantity.
type parser[U Unit] struct {
	what, example string
	scales        []scale[U]
	// fractions reports that the quantity may be written with a fraction. A share or a
	// pressure is not: 10/15% is a band, 50/65 psi are two ratings.
	fractions bool
}

// term reads one term, or says why it does not read.
func (p parser[U]) term(rest string) (total U, problem string) {
	if rest == "" {
		return 0, fmt.Sprintf("has a + with nothing next to it; write %s", p.example)
	}
	for joined := false; rest != ""; joined = true {
		v, after, problem := p.part(rest, joined)
		if problem != "" {
			return 0, problem
		}
		total += v
		rest = after
	}
	return total, ""
}

// twoWays says why a number can be read in two ways.
func (p parser[U]) twoWays(number string) string {
	switch {
	case !p.fractions && strings.Contains(number, "/"):
		return fmt.Sprintf("is a fraction, or two values in one; write %s", p.example)
	case p.what == "weight" && thousandths.MatchString(number):
		return fmt.Sprintf("can be read as a small number or as thousands; write %s or %s",
			strings.TrimSuffix(strings.TrimRight(number, "0"), "."), strings.Replace(number, ".", ",", 1))
	}
	return ""
}

// noUnit says what is wrong with a number that no unit follows. What is left after the number
// is in left.
func (p parser[U]) noUnit(text, left string, joined bool) string {
	switch {
	case left != "":
		return fmt.Sprintf("cannot be read from %q on; write %s", left, p.example)
	case joined:
		return fmt.Sprintf("has no unit after the feet; write %s in", text)
	}
	return fmt.Sprintf("has no unit; write %s", bareExamples(text, p.scales))
}

// part reads one number with its unit; joined reports that feet came before it.
func (p parser[U]) part(text string, joined bool) (value U, after, problem string) {
	v, after, err := readNumber(text)
	if err != nil {
		return 0, "", fmt.Sprintf("cannot be read: %v; write %s", err, p.example)
	}
	number := strings.TrimSpace(text[:max(len(text)-len(after), 0)])
	left := strings.TrimSpace(after)
	unit, after := readUnit(after)
	if unit == "" {
		return 0, "", p.noUnit(text, left, joined)
	}
	sc, ok := findScale(p.scales, unit)
	if !ok && p.what == "weight" && tonUnit.MatchString(unit) {
		return 0, "", whichTon(v)
	}
	if !ok {
		return 0, "", fmt.Sprintf("is in %q, which is not a unit of %s; write %s", unit, p.what, p.example)
	}
	if problem := p.twoWays(number); problem != "" {
		return 0, "", problem
	}
	if sc.joins && dashedInches.MatchString(after) {
		after = after[1:] // 8'-6", as shop drawings write it
	}
	after = strings.TrimSpace(after)
	switch {
	case joined && !sc.joined:
		return 0, "", fmt.Sprintf("has %s after feet; only inches can follow feet", unit)
	case joined && v >= InchesPerFoot:
		return 0, "", fmt.Sprintf("has %s inches after the feet; write fewer than 12 inches there", Number(v, 4))
	case after != "" && (!sc.joins || joined):
		return 0, "", fmt.Sprintf("goes on after %s with %q; write %s", unit, after, p.example)
	}
	return sc.to(v), after, ""
}

// tonUnit is a ton that does not say which one it is.
var tonUnit = regexp.MustCompile(`(?i)^(t|tons?)\.?$`)

// whichTon asks which ton is meant, and gives the weight both ways.
func whichTon(tons float64) string {
	return fmt.Sprintf("is in tons; which ton? One is 2,000 lb, the other 1,000 kg; write %s or %s kg",
		Pounds(tons*2000), strings.TrimSuffix(Pounds(tons*1000).String(), " lb"))
}

// RoundedBy returns how much a metric length may be off because it was rounded before it was
// written: half of its last place, 0.5 mm for 8535 mm and 5 mm for 8.53 m. It returns 0 for
// feet and inches, which are written as they were read, for a sum, and for a text that is
// not a length.
func RoundedBy(length string) Inches {
	text, _, _, err := peel(length, "length", "")
	if err != nil {
		return 0
	}
	digits := numberForm.FindString(text)
	sc, ok := findScale(lengthUnits, strings.TrimSpace(text[len(digits):]))
	if digits == "" || !ok || sc.joins || sc.joined {
		return 0
	}
	half := 0.5
	_, decimals, _ := strings.Cut(digits, ".")
	for range decimals {
		half /= 10
	}
	return sc.to(half)
}

func findScale[U Unit](scales []scale[U], unit string) (scale[U], bool) {
	for _, sc := range scales {
		for _, name := range sc.names {
			if unit == name || strings.EqualFold(unit, name) {
				return sc, true
			}
		}
	}
	return scale[U]{}, false
}

// bareExamples writes the number with each unit that it could have.
func bareExamples[U Unit](bare string, scales []scale[U]) string {
	bare = strings.TrimSpace(bare)
	var out []string
	for _, sc := range scales {
		if sc.names[0] == "%" || sc.names[0] == "°" {
			out = append(out, bare+sc.names[0])
			continue
		}
		out = append(out, bare+" "+sc.names[0])
	}
	if len(out) == 1 {
		return out[0]
	}
	return strings.Join(out[:len(out)-1], ", ") + " or " + out[len(out)-1]
}

var aboutWord = regexp.MustCompile(`(?i)^(about|approximately|approx\.?|ca\.|~)\s*`)

// oddSpaces are the spaces that come with a paste from a sheet or a page: no-break,
// narrow no-break and thin (U+00A0, U+202F, U+2009).
var oddSpaces = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ")

// peel takes "about" from the front and the parenthesis from the end.
func peel(s, what, example string) (body string, about bool, from Provenance, err error) {
	body = strings.TrimSpace(oddSpaces.Replace(s))
	if body == "" {
		return "", false, from, fmt.Errorf("%s is empty; write %s", what, example)
	}
	if len(body) > 200 {
		return "", false, from, fmt.Errorf("%s %q is too long to be one; write %s", what, body[:40]+"...", example)
	}
	if m := aboutWord.FindString(body); m != "" {
		about, body = true, body[len(m):]
	}
	if open := strings.IndexByte(body, '('); open >= 0 {
		note, closed := strings.CutSuffix(body[open+1:], ")")
		if !closed {
			return "", false, from, fmt.Errorf("%s %q opens a parenthesis that does not close at the end", what, s)
		}
		if strings.ContainsAny(note, "()") {
			return "", false, from, fmt.Errorf("%s %q has a parenthesis inside a parenthesis; give one place where it comes from", what, s)
		}
		if from = ParseProvenance(note); from == (Provenance{}) {
			from.Origin = Other // empty parentheses name no place
		}
		body = strings.TrimSpace(body[:open])
	}
	if body == "" {
		return "", false, from, fmt.Errorf("%s %q has no number; write %s", what, s, example)
	}
	return body, about, from, nil
}

var (
	numberForm   = regexp.MustCompile(`^[0-9][0-9,]*(\.[0-9]+)?|^\.[0-9]+`)
	fractionForm = regexp.MustCompile(`^(?:[- ]\s*)?([0-9]{1,3})/([0-9]{1,3})`)
	// dashedInches is a dash close between feet and inches; with a space before it, it
	// would be a minus sign.
	dashedInches = regexp.MustCompile(`^-[0-9]`)
	thousands    = regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+$`)
)

var digitAfterGlyph = regexp.MustCompile(`[½¼¾⅛⅜⅝⅞][0-9/]`)

var singleGlyphFractions = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// readNumber reads a number at the start of s: digits with correct thousands commas,
// decimals, a k for thousands, a fraction (5/16) or a mixed one (2-5/16).
func readNumber(s string) (v float64, rest string, err error) {
	if digit := digitAfterGlyph.FindString(s); digit != "" {
		return 0, "", fmt.Errorf("%q has a digit right after a fraction", s) // 1½5 is not 1 1/25
	}
	s = strings.TrimSpace(singleGlyphFractions.Replace(s))
	if strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−") {
		return 0, "", fmt.Errorf("%q is below zero", s)
	}
	if m := fractionForm.FindStringSubmatch(s); m != nil {
		return readFraction(0, m, s)
	}
	digits := numberForm.FindString(s)
	if digits == "" {
		return 0, "", fmt.Errorf("%q is not a number", s)
	}
	rest = s[len(digits):]
	whole, _, _ := strings.Cut(digits, ".")
	if strings.Contains(whole, ",") && !thousands.MatchString(whole) {
		return 0, "", fmt.Errorf("%q has its commas in the wrong places, or a digit is missing", digits)
	}
	v, err = strconv.ParseFloat(strings.ReplaceAll(digits, ",", ""), 64)
	if err != nil || v > most {
		return 0, "", fmt.Errorf("%q is too large", digits)
	}
	if m := fractionForm.FindStringSubmatch(rest); m != nil && !strings.Contains(digits, ".") {
		return readFraction(v, m, rest)
	}
	if strings.HasPrefix(rest, "/") {
		return 0, "", fmt.Errorf("%q is not a fraction", s)
	}
	if len(rest) > 0 && (rest[0] == 'k' || rest[0] == 'K') && (len(rest) == 1 || rest[1] == ' ') {
		v, rest = float64(v*1000), rest[1:]
	}
	return v, rest, nil
}

func readFraction(whole float64, m []string, s string) (float64, string, error) {
	num, _ := strconv.Atoi(m[1])
	den, _ := strconv.Atoi(m[2])
	switch {
	case den == 0 || num >= den:
		return 0, "", fmt.Errorf("%q is not a proper fraction", strings.TrimSpace(m[0]))
	case den != 3 && (den > 64 || den&(den-1) != 0):
		return 0, "", fmt.Errorf("%q is not a fraction from halves to sixty-fourths", strings.TrimSpace(m[0]))
	}
	return whole + float64(num)/float64(den), s[len(m[0]):], nil
}

// readUnit reads the unit word at the start of s: letters and slashes, or one of the
// marks for feet, inches, degrees and percent.
func readUnit(s string) (unit, rest string) {
	s = strings.TrimLeft(s, " -")
	if strings.HasPrefix(s, "''") {
		return "''", s[2:]
	}
	for _, mark := range []string{"'", "’", "′", `"`, "”", "″", "°", "%", "#"} {
		if strings.HasPrefix(s, mark) {
			return mark, s[len(mark):]
		}
	}
	for _, phrase := range []string{"pounds per foot", "lb per foot", "sq ft", "square feet", "sq m", "square meters", "ft2", "m2",
		"cubic yards", "cubic yard", "cu yd", "cubic feet", "cubic foot", "cu ft"} {
		if strings.HasPrefix(s, phrase) {
			return phrase, s[len(phrase):]
		}
	}
	i := strings.IndexFunc(s, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '/' || r == '.')
	})
	if i < 0 {
		i = len(s)
	}
	return s[:i], s[i:]
}

// Agrees reports whether a number that somebody wrote is the same as the computed one:
// to the precision written (step is one unit of its last place), or within 2.5% when marked
// "about" (Tarepage's own allowance).
func Agrees[U ~float64](written, worked, step U, about bool) bool {
	if about {
		return math.Abs(float64(written)-float64(worked)) <= 0.025*math.Abs(float64(worked))
	}
	return math.Abs(float64(written)-float64(worked)) < float64(step)*(1-slack)
}
