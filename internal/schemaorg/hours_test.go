package schemaorg

import (
	"strings"
	"testing"
)

// TestHours reads opening hours as yards write them. The form of what is stated is that of
// https://schema.org/OpeningHoursSpecification: full names of days, hh:mm (ISO 8601).
func TestHours(t *testing.T) {
	for _, c := range []struct{ lines, want string }{
		{"Monday to Friday, 8 to 5|Saturday, 8 to noon|Sunday, closed", "Monday Tuesday Wednesday Thursday Friday 08:00 17:00; Saturday 08:00 12:00"},
		{"Mon-Fri: 8:30 am - 5:30 pm", "Monday Tuesday Wednesday Thursday Friday 08:30 17:30"},
		{"Sat and Sun, 9 to 1", "Saturday Sunday 09:00 13:00"},
		{"Wed. 1 to 5", "Wednesday 13:00 17:00"},
		{"Monday, 7 to 7", "Monday 07:00 19:00"},
		{"Monday, 8 to midnight", "Monday 08:00 23:59"},
		{"Monday, 12 am to 6 a.m.", "Monday 00:00 06:00"},
		{"Monday, 08:00 to 17:00", "Monday 08:00 17:00"},
		{"Monday to Friday, 8 to 5|by appointment", ""}, // one line that does not read: none
		{"Friday to Monday, 8 to 5", ""},                // over the end of the week
		{"Monday, 13 pm to 5", ""},
		{"Monday, 8 to 8:75", ""},
		{"Mo, 8 to 5", ""},
		{"Holidays, closed", ""},
		{"Sunday, closed", ""},
	} {
		var got []string
		for _, h := range hoursOf(strings.Split(c.lines, "|")) {
			got = append(got, strings.ReplaceAll(strings.Join(h.Days, " "), "https://schema.org/", "")+" "+h.Opens+" "+h.Closes)
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s: %q, want %q", c.lines, s, c.want)
		}
	}
}
