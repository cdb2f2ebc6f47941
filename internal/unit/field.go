package unit

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"tarepage/internal/measure"
)

// A Pos is a place in a file under content/. Line and Column count from 1; columns
// count characters, not bytes. The zero Pos means "nowhere".
type Pos struct {
	File         string
	Line, Column int32 // MostBytes keeps both below the limit of int32
}

// posAt makes a Pos from a line and a column.
func posAt(file string, line, column int) Pos { return Pos{file, int32(line), int32(column)} }

// Known reports whether the position names a place.
func (p Pos) Known() bool { return p.Line > 0 }

// String is file:line:column.
func (p Pos) String() string { return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column) }

// Before orders positions by file, line and column.
func (p Pos) Before(q Pos) bool {
	if p.File != q.File {
		return p.File < q.File
	}
	if p.Line != q.Line {
		return p.Line < q.Line
	}
	return p.Column < q.Column
}

// A Field is one value of the front matter with its place.
type Field[T any] struct {
	Value T
	// From is the note in parentheses after the value.
	From measure.Provenance
	// Pos is the place of the value; unknown if the author gave no value.
	Pos Pos
	// Raw is the value as written.
	Raw string
	// About reports whether the author marked the value approximate.
	About bool
	// Spoiled reports whether there is a value that cannot be read.
	Spoiled bool

	// Empty is the place of the key if its value was left empty, or nil. It is a pointer to
	// save memory: a yard can have a million fields, and few of them are left empty.
	Empty *Pos
}

// Given reports whether the author gave a value. One that the author calls unknown is none.
func (f Field[T]) Given() bool { return f.Pos.Known() && f.From.Origin != measure.Unknown }

// The kinds of field.
type (
	Text     = Field[string]
	Count    = Field[int]
	Flag     = Field[bool]
	Weight   = Field[measure.Pounds]
	Length   = Field[measure.Inches]
	Pressure = Field[measure.PSI]
	Volume   = Field[measure.Gallons]
	Money    = Field[measure.Dollars]
	Percent  = Field[measure.Share]
	Moment   = Field[Clock]
	Date     = Field[Day]
	Made     = Field[Week]
	Built    = Field[Month]
	Stopping = Field[measure.Stopping]
	Wait     = Field[Days]
)

// Days is a length of time, in days.
type Days int

var daysForm = regexp.MustCompile(`^(?i)0*([0-9]{1,4}) *(days?|weeks?)$`)

// ParseDays reads "90 days" and "12 weeks".
func ParseDays(s string) (Days, error) {
	m := daysForm.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, fmt.Errorf("%q is not a number of days; write 90 days or 12 weeks", s)
	}
	n, _ := strconv.Atoi(m[1])
	if m[2][0]|0x20 == 'w' {
		n = n * 7
	}
	if n == 0 {
		return 0, fmt.Errorf("%q is not a length of time; write 1 day or more", s)
	}
	return Days(n), nil
}

// Clock is a time in a recording, in seconds.
type Clock int

func (c Clock) String() string { return measure.Clock(int(c)) }

// A Day is a calendar day.
type Day struct{ Year, Month, Day int }

func (d Day) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// Long prints the day as people read it: November 2, 2026.
func (d Day) Long() string {
	return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC).Format("January 2, 2006")
}

// Known reports whether d is a day and not the zero value.
func (d Day) Known() bool { return d.Year != 0 }

// After reports whether d is later than e.
func (d Day) After(e Day) bool { return d.String() > e.String() }

// Days is the number of days since the first of January of the year 1.
func (d Day) Days() int {
	return int(time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC).Unix()/86400) + 719162
}

// No day of a trailer in stock is outside these years: a mistyped one is, as 1926 and 2206 for 2026.
const (
	firstYear = 1950
	lastYear  = 2099
)

// ParseDay reads 2026-11-02.
func ParseDay(s string) (Day, error) {
	t, err := time.Parse("2006-01-02", strings.TrimSpace(s))
	if err == nil && (t.Year() < firstYear || t.Year() > lastYear) {
		return Day{}, fmt.Errorf("date %q is in another century; check the year, and write it like 2026-11-02", s)
	}
	if err != nil {
		if us := USDay(strings.TrimSpace(s)); us != "" {
			return Day{}, fmt.Errorf("date %q is not written year-month-day; write %s", s, us)
		}
		if m := isoDay.FindStringSubmatch(s); m != nil {
			return Day{}, fmt.Errorf("date %q is not in the calendar: %s", s, notInCalendar(m))
		}
		return Day{}, fmt.Errorf("date %q does not read; write year-month-day, 2026-11-02", s)
	}
	return Day{t.Year(), int(t.Month()), t.Day()}, nil
}

// isoDay matches the form of a day, whether there is such a day or not.
var isoDay = regexp.MustCompile(`^\s*([0-9]{4})-([0-9]{2})-([0-9]{2})\s*$`)

// notInCalendar says why there is no such day as isoDay matched.
func notInCalendar(m []string) string {
	year, _ := strconv.Atoi(m[1])
	month, _ := strconv.Atoi(m[2])
	if month < 1 || month > 12 {
		return "there are 12 months"
	}
	last := time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC)
	return fmt.Sprintf("%s has %d days", last.Format("January 2006"), last.Day())
}

// A Week is a production week, from the last four digits of a tire's date code.
type Week struct{ Week, Year int }

func (w Week) String() string { return fmt.Sprintf("week %d %d", w.Week, w.Year) }

// Days is the number of days from the first of January of the year 1 to the Monday
// of the week.
func (w Week) Days() int {
	// ISO 8601: week 1 is the week that holds the fourth of January.
	fourth := Day{w.Year, 1, 4}
	weekday := (fourth.Days()) % 7 // the first of January of the year 1 was a Monday
	return fourth.Days() - weekday + 7*(w.Week-1)
}

var (
	weekForm = regexp.MustCompile(`^(?i)(?:week|wk)\s+([0-9]{1,2})(?:\s+of|,)?\s+([0-9]{4})$`)
	codeForm = regexp.MustCompile(`^(?i)(?:DOT\s+)?([0-9]{2})([0-9]{2})$`)
)

// ParseWeek reads "week 31 2026" or the four digits of the date code, "3126".
func ParseWeek(s string) (Week, error) {
	s = strings.TrimSpace(s)
	var w Week
	if m := weekForm.FindStringSubmatch(s); m != nil {
		w.Week, _ = strconv.Atoi(m[1])
		w.Year, _ = strconv.Atoi(m[2])
	} else if m := codeForm.FindStringSubmatch(s); m != nil {
		w.Week, _ = strconv.Atoi(m[1])
		w.Year, _ = strconv.Atoi(m[2])
		w.Year += 2000
	}
	if w.Week < 1 || w.Week > 53 || w.Year < 1990 || w.Year > 2100 {
		return Week{}, fmt.Errorf("date code %q does not read; write week 31 2026, or the four digits 3126", s)
	}
	return w, nil
}

// A Month is a month of a year, as a label states it (49 CFR 567.4(g)(2): "June 1970" or
// "6/70").
type Month struct{ Year, Month int }

func (m Month) String() string { return fmt.Sprintf("%04d-%02d", m.Year, m.Month) }

// Long prints the month as people read it: October 2025.
func (m Month) Long() string {
	return time.Date(m.Year, time.Month(m.Month), 1, 0, 0, 0, 0, time.UTC).Format("January 2006")
}

// First is the first day of the month.
func (m Month) First() Day { return Day{m.Year, m.Month, 1} }

const (
	isoMonth   = `((?:19|20)[0-9]{2})-(0[1-9]|1[0-2])`
	slashMonth = `(0?[1-9]|1[0-2])/((?:19|20)?[0-9]{2})`
)

var (
	isoMonthForm   = regexp.MustCompile(`^` + isoMonth + `$`)
	slashMonthForm = regexp.MustCompile(`^` + slashMonth + `$`)
)

// ParseMonth reads 10/2025, 10/25 and 2025-10. Two digits are a year from 1951 to 2050.
func ParseMonth(s string) (Month, error) {
	var m Month
	if p := isoMonthForm.FindStringSubmatch(s); p != nil {
		m.Year, _ = strconv.Atoi(p[1])
		m.Month, _ = strconv.Atoi(p[2])
		return m, nil
	}
	p := slashMonthForm.FindStringSubmatch(s)
	if p == nil {
		return m, fmt.Errorf("month %q does not read; write 10/2025 or 2025-10", s)
	}
	m.Month, _ = strconv.Atoi(p[1])
	m.Year, _ = strconv.Atoi(p[2])
	switch {
	case m.Year <= 50:
		m.Year += 2000
	case m.Year < 100:
		m.Year += 1900
	}
	return m, nil
}

// leaf is what the reader needs from every field.
type leaf interface {
	// read sets the value from its text, or returns why it cannot.
	read(text string, k *key) error
	place(at Pos, raw string)
	blank(at Pos)
	spoil()
	given() bool
	unknown() bool
	inherit()
	// lacks reports whether there is no value at all, not even one that cannot be read. It
	// also returns the place of the key if its value was left empty.
	lacks() (blank Pos, lacks bool)
	origin() measure.Origin
	as(path string) Given
}

func (f *Field[T]) place(at Pos, raw string) { f.Pos, f.Raw = at, raw }
func (f *Field[T]) blank(at Pos)             { f.Empty = &at }
func (f *Field[T]) spoil()                   { f.Spoiled = true }
func (f *Field[T]) given() bool              { return f.Given() }

func (f *Field[T]) lacks() (Pos, bool) {
	var blank Pos
	if f.Empty != nil {
		blank = *f.Empty
	}
	return blank, !f.Pos.Known() && !f.Spoiled
}

func (f *Field[T]) read(text string, k *key) error {
	if f.readUnknown(text, k) {
		return nil
	}
	switch v := any(&f.Value).(type) {
	case *string:
		return f.readText(v, text, k)
	case *int:
		return f.readCount(v, text, k)
	case *bool:
		return f.readYesNo(v, text)
	case *measure.Pounds:
		number, _, _ := strings.Cut(text, "(")
		if m := pointForComma.FindStringSubmatch(number); m != nil {
			return fmt.Errorf("weight %q can be read two ways; write %s,%s with a comma, or no more than two digits after the point", text, m[1], m[2])
		}
		return take(f, v, text, measure.ParseWeight)
	case *measure.Inches:
		return take(f, v, text, measure.ParseLength)
	case *measure.PSI:
		return take(f, v, text, measure.ParsePressure)
	case *measure.Gallons:
		return take(f, v, text, measure.ParseVolume)
	case *measure.Dollars:
		return take(f, v, text, measure.ParseMoney)
	case *measure.Share:
		return take(f, v, text, measure.ParseShare)
	case *measure.Stopping:
		return take(f, v, text, measure.ParseStopping)
	case *Clock:
		n, err := measure.ParseClock(strings.TrimSpace(text))
		*v = Clock(n)
		return err
	case *Day:
		d, err := ParseDay(text)
		*v = d
		return err
	case *Days:
		d, err := ParseDays(text)
		*v = d
		return err
	case *Week:
		var w Week
		var err error
		text, f.About, f.From = peel(text)
		w, err = ParseWeek(text)
		*v = w
		return err
	case *Month:
		m, err := Month{}, error(nil)
		text, f.About, f.From = peel(text)
		m, err = ParseMonth(text)
		*v = m
		return err
	}
	panic(fmt.Sprintf("unit: a field of type %T has no reader", f.Value))
}

// take reads a quantity with the parser of its unit.
func take[T, U any](f *Field[T], v *U, text string, parse func(string) (measure.Written[U], error)) error {
	w, err := parse(text)
	*v, f.About, f.From = w.Value, w.About, w.From
	return err
}

func (f *Field[T]) readText(v *string, text string, k *key) error {
	// A text of several lines (title: |) is shown as one.
	text = strings.ReplaceAll(strings.TrimSpace(text), "\n", " ")
	if k.noted || k.choices != nil {
		text, f.About, f.From = peel(text)
	}
	if k.choices == nil {
		*v = capitals(k, text)
		return nil
	}
	i := slices.IndexFunc(k.choices, func(c string) bool { return sameWords(c, text) })
	if i < 0 {
		if *v = synonym(k.path, text); *v != "" {
			return nil
		}
		return choiceError(k, text)
	}
	*v = k.choices[i]
	return nil
}

func (f *Field[T]) readCount(v *int, text string, k *key) error {
	text, f.About, f.From = peel(text)
	n, err := strconv.Atoi(strings.ReplaceAll(text, ",", ""))
	if err != nil || !countForm.MatchString(text) || n < 0 || n > mostCount {
		return fmt.Errorf("%q is not a count; write a whole number such as %s", text, k.example)
	}
	*v = n
	return nil
}

func (f *Field[T]) readYesNo(v *bool, text string) error {
	text, _, f.From = peel(text)
	switch strings.ToLower(text) {
	case "yes", "true":
		*v = true
	case "no", "false":
		*v = false
	default:
		return fmt.Errorf("%q is neither yes nor no", text)
	}
	return nil
}

// pointForComma matches a point that may be a mistyped thousands comma. Read as seven pounds,
// an empty weight of 7.040 lb would make the payload three tons too high. Yards do not weigh
// to a thousandth of a pound or kilogram.
var pointForComma = regexp.MustCompile(`(?:^|[^0-9.,])` + pointForCommaNumber + `(?:[^0-9]|$)`)

const pointForCommaNumber = `([1-9][0-9]{0,2})\.([0-9]{3})`

// countNumber matches a count: 8,8 is not eighty-eight.
const countNumber = `(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)`

var countForm = regexp.MustCompile(`^` + countNumber + `$`)

// mostCount is the largest count that the reader accepts.
const mostCount = 100000

// kindName names the kind of value that a field takes, for the reference page.
func (f *Field[T]) kindName() string {
	switch any(f.Value).(type) {
	case string:
		return "text"
	case int:
		return "count"
	case bool:
		return "yes or no"
	case measure.Pounds:
		return "weight"
	case measure.Inches:
		return "length"
	case measure.PSI:
		return "pressure"
	case measure.Gallons:
		return "volume"
	case measure.Dollars:
		return "money"
	case measure.Share:
		return "share"
	case measure.Stopping:
		return "stopping distance"
	case Clock:
		return "time in the recording"
	case Day:
		return "date"
	case Days:
		return "days"
	case Week:
		return "production week"
	case Month:
		return "month"
	}
	panic(fmt.Sprintf("unit: a field of type %T has no name", f.Value))
}

// peel removes "about" from the front of a text and a provenance from its end.
func peel(text string) (rest string, about bool, from measure.Provenance) {
	rest, about, note := split(text)
	if note == "" && strings.HasSuffix(strings.TrimSpace(text), ")") && !strings.HasSuffix(rest, ")") {
		return rest, about, measure.Provenance{Origin: measure.Other} // empty parentheses
	}
	return rest, about, measure.ParseProvenance(note)
}

// split is peel with the note as it is written. It ignores an empty note.
func split(text string) (rest string, about bool, note string) {
	const word = "about "
	rest = strings.TrimSpace(text)
	if len(rest) >= len(word) && strings.EqualFold(rest[:len(word)], word) {
		about, rest = true, strings.TrimSpace(rest[len(word):])
	}
	if open := strings.LastIndexByte(rest, '('); open > 0 && strings.HasSuffix(rest, ")") {
		note = rest[open+1 : len(rest)-1]
		rest = strings.TrimSpace(rest[:open])
	}
	return rest, about, note
}

// noteFault says what is wrong with the note in parentheses after a value, and what to do.
func noteFault(text string, k *key) (message, remedy string) {
	switch k.kind {
	case "text":
		if !k.noted && k.choices == nil {
			return "", ""
		}
	case "date", "days", "time in the recording":
		return "", ""
	}
	_, note, _ := strings.Cut(text, "(")
	if word := measure.LookAlike(note); word != "" {
		return fmt.Sprintf("has letters of another alphabet in the word %+q", word), "type the word again"
	}
	return "", ""
}

// sameWords compares a choice with what was written: capitals, hyphens and blanks aside.
func sameWords(choice, text string) bool {
	spaced := func(s string) string { return strings.ReplaceAll(s, "-", " ") }
	return strings.EqualFold(spaced(choice), spaced(text))
}

func choiceError(k *key, text string) error {
	if near := meantChoice(k, text); near != "" {
		return fmt.Errorf("%q is not one of its values; did you mean %q?", text, near)
	}
	return fmt.Errorf("%q is not one of its values; write %s", text, strings.Join(k.choices, ", "))
}
