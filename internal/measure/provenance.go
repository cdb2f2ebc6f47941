package measure

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// An Origin is the kind of place that a figure was read from.
type Origin uint8

// The origins.
const (
	Unstated     Origin = iota // no note was written
	Tag                        // the certification label
	CouplerPlate               // the plate on the coupler
	AxleTag                    // the axle maker's tag
	Sidewall                   // molded on the tire
	Stamp                      // stamped into the part
	ScaleTicket                // weighed, with a date
	Tape                       // measured with a tape
	MakersSheet                // the maker's specification sheet
	Model                      // filled in from the model's file
	Said                       // said in the recording, at a time
	Estimate                   // estimated
	Since                      // for a price or a state: the first day that it holds
	Unknown                    // nobody knows the value; the text is the reason
	Other                      // any other text, kept and shown
)

// Provenance says where a figure comes from: the note in parentheses after it. It is small,
// because each of a unit's hundred fields has one.
type Provenance struct {
	// Text is the note as pages show it. A known origin has one standard text.
	Text string
	// At is the time in the recording, in seconds, of a Said figure.
	At     int32
	Origin Origin
	// Timed reports whether a Said figure names its time.
	Timed bool
}

// Date is the date of a scale ticket or of a "since" note, as written, yyyy-mm-dd. It is
// empty for other notes.
func (p Provenance) Date() string {
	if p.Origin != ScaleTicket && p.Origin != Since {
		return ""
	}
	return strings.TrimPrefix(strings.TrimPrefix(p.Text, p.Origin.String()), " ")
}

var plainOrigins = map[string]Origin{
	"tag": Tag, "label": Tag, "certification label": Tag,
	"coupler plate": CouplerPlate, "axle tag": AxleTag, "sidewall": Sidewall,
	"stamp": Stamp, "tape": Tape, "maker's sheet": MakersSheet, "maker’s sheet": MakersSheet,
	"makers sheet": MakersSheet, "from the model": Model, "model": Model, "estimate": Estimate, "estimated": Estimate,
	"said": Said, "scale ticket": ScaleTicket,
}

var (
	saidForm  = regexp.MustCompile(`^said\s+([0-9]{1,3}(?::[0-9]{2}){1,2})$`)
	sinceForm = regexp.MustCompile(`^since\s+([0-9]{4}-[0-9]{2}-[0-9]{2})$`)
	scaleForm = regexp.MustCompile(`^scale ticket\s+([0-9]{4}-[0-9]{2}-[0-9]{2})$`)
)

// ParseProvenance reads a note: "tag", "scale ticket 2026-11-03", "said 1:42". It keeps
// other text as it is.
func ParseProvenance(note string) Provenance {
	note = strings.Join(strings.Fields(note), " ")
	low := strings.ToLower(note)
	if note == "" {
		return Provenance{}
	}
	if o, ok := plainOrigins[low]; ok {
		return Provenance{Origin: o, Text: o.String()}
	}
	if m := saidForm.FindStringSubmatch(low); m != nil {
		if at, err := ParseClock(m[1]); err == nil {
			return Provenance{Origin: Said, Text: "said " + Clock(at), At: int32(at), Timed: true}
		}
	}
	if m := scaleForm.FindStringSubmatch(low); m != nil {
		return Provenance{Origin: ScaleTicket, Text: "scale ticket " + m[1]}
	}
	if m := sinceForm.FindStringSubmatch(low); m != nil {
		return Provenance{Origin: Since, Text: "since " + m[1]}
	}
	// "said by the owner", "said 1:75", "tag; said 0:40": still only said, so it must be
	// confirmed. A guess stays one in any words.
	switch words := noteWords(low); {
	case anyOf(words, hearsay) || tells(words):
		return Provenance{Origin: Said, Text: note}
	case strings.Contains(low, "?") || anyOf(words, guesses):
		return Provenance{Origin: Estimate, Text: note}
	}
	return Provenance{Origin: Other, Text: note}
}

// String is the note as it is written in a unit file, without its parentheses.
func (p Provenance) String() string { return p.Text }

var originNames = [...]string{"", "tag", "coupler plate", "axle tag", "sidewall", "stamp",
	"scale ticket", "tape", "maker's sheet", "from the model", "said", "estimate", "since", "unknown", ""}

func (o Origin) String() string { return originNames[o] }

// ParseClock reads a time in a recording, "6:12" or "1:02:03", in seconds.
func ParseClock(s string) (seconds int, err error) {
	parts := strings.Split(s, ":")
	if len(parts) < 2 || len(parts) > 3 {
		return 0, fmt.Errorf("time %q cannot be read; write minutes and seconds, 6:12, or hours too, 1:02:03", s)
	}
	for i, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 || len(p) == 0 || len(p) > 3 || i > 0 && (len(p) != 2 || n > 59) || (p[0] == '+' || p[0] == '-') {
			return 0, fmt.Errorf("time %q cannot be read; write minutes and seconds, 6:12, or hours too, 1:02:03", s)
		}
		seconds = seconds*60 + n
	}
	return seconds, nil
}

// Clock prints a time in a recording: 6:12, 1:02:03.
func Clock(seconds int) string {
	if seconds >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", seconds/3600, seconds/60%60, seconds%60)
	}
	return fmt.Sprintf("%d:%02d", seconds/60, seconds%60)
}
