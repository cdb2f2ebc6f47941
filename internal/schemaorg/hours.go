package schemaorg

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// hours are when somebody is at the yard on some days of the week.
type hours struct {
	Type   string   `json:"@type"`
	Days   []string `json:"dayOfWeek"`
	Opens  string   `json:"opens"`
	Closes string   `json:"closes"`
}

var weekdays = []string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// hoursLine is a line such as "Monday to Friday, 8 to 5" or "Sun: closed".
var hoursLine = regexp.MustCompile(`(?i)^([a-z]+)\.?(?: *(to|through|-|\x{2013}|and|&) *([a-z]+)\.?)?(?:, *|: *| +)(closed|(\S+?(?: ?[ap]\.?m\.?)?) *(?:to|through|-|\x{2013}) *(\S+?(?: ?[ap]\.?m\.?)?))$`)

// hoursOf reads a yard's opening hours. Where one line does not read, none is stated: a program
// would take the others for all there are. A day on which the yard is closed is left out, which
// is how the vocabulary says it.
func hoursOf(lines []string) []hours {
	var out []hours
	for _, line := range lines {
		m := hoursLine.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			return nil
		}
		days := daysOf(m[1], strings.ToLower(m[2]), m[3])
		if days == nil {
			return nil
		}
		if strings.EqualFold(m[4], "closed") {
			continue
		}
		opens, closes, ok := span(m[5], m[6])
		if !ok {
			return nil
		}
		h := hours{Type: "OpeningHoursSpecification", Opens: opens, Closes: closes}
		for _, d := range days {
			h.Days = append(h.Days, term(d))
		}
		out = append(out, h)
	}
	return out
}

// daysOf are the days from one to another, both of two, or one alone.
func daysOf(first, joined, last string) []string {
	a, b := dayOf(first), dayOf(last)
	switch {
	case a < 0 || last != "" && b < 0:
		return nil
	case last == "":
		return weekdays[a : a+1]
	case joined == "and" || joined == "&":
		return []string{weekdays[a], weekdays[b]}
	case b < a:
		return nil
	}
	return weekdays[a : b+1]
}

// dayOf is the number of a day by its name or the first three or more letters of it.
func dayOf(name string) int {
	for i, d := range weekdays {
		if len(name) >= 3 && strings.HasPrefix(strings.ToLower(d), strings.ToLower(name)) {
			return i
		}
	}
	return -1
}

// span is when a yard opens and closes. Without am and pm a yard opens in the morning, at 5 or
// later, and closes after it opened.
func span(from, to string) (opens, closes string, ok bool) {
	a, half, ok1 := clock(from)
	b, halfToo, ok2 := clock(to)
	if !ok1 || !ok2 {
		return "", "", false
	}
	if !half && a < 5*60 {
		a += 12 * 60
	}
	if !halfToo && b <= a {
		b += 12 * 60
	}
	if b <= a || b > 24*60 {
		return "", "", false
	}
	return hhmm(a), hhmm(min(b, 23*60+59)), true
}

func hhmm(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60) }

var clockForm = regexp.MustCompile(`^(\d{1,2})(?::(\d\d))? ?(?:([ap])\.?m\.?)?$`)

// clock reads a time of day in minutes after midnight, and whether it says which half of the day.
func clock(s string) (minutes int, half, ok bool) {
	s = strings.ToLower(s)
	if s == "noon" {
		return 12 * 60, true, true
	}
	if s == "midnight" {
		return 24 * 60, true, true
	}
	m := clockForm.FindStringSubmatch(s)
	if m == nil {
		return 0, false, false
	}
	hour, _ := strconv.Atoi(m[1])
	minute, _ := strconv.Atoi("0" + m[2])
	if hour > 24 || minute > 59 || m[3] != "" && (hour > 12 || hour == 0) {
		return 0, false, false
	}
	switch {
	case m[3] == "p" && hour < 12:
		hour += 12
	case m[3] == "a" && hour == 12:
		hour = 0
	}
	return hour*60 + minute, m[3] != "" || hour > 12, true
}
