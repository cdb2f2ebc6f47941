package captions

import (
	"errors"
	"fmt"
	"html"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// What Read accepts at most. An hour of captions is some 1,500 cues and
// 200 kB; these limits are far above any walk-around and keep a wrong file harmless.
const (
	MaxBytes    = 5 << 20
	MaxCues     = 20_000
	MaxWords    = 25_000 // about three hours of talk without a pause
	maxCueBytes = 10 << 10
	maxDoubts   = 40
)

// A Format is the kind of captions file.
type Format string

// The formats that are read.
const (
	WebVTT Format = "WebVTT"
	SubRip Format = "SubRip"
)

// A Track is the cues of one recording, in order of their start.
type Track struct {
	Name   string
	Format Format
	Cues   []Cue
}

// A Cue is one caption as it is shown, without its markup.
type Cue struct {
	Start, End float64 // seconds from the start of the recording; End > Start
	Line       int     // of its time line in the file, from 1
	Speaker    string  // as named by a <v> tag, or empty
	Text       string  // its lines, joined by "\n"
	// Times are the times inside the text, where the file gives any: byte offset into
	// Text to seconds, in order.
	Times []Mark
}

// A Mark is a time inside a cue's text.
type Mark struct {
	At     int
	Second float64
}

// A Doubt is something in a captions file that was fixed, skipped or is suspicious.
type Doubt struct {
	Line int // 1-based; 0 for the file as a whole
	Text string
}

func (d Doubt) String() string {
	if d.Line == 0 {
		return d.Text
	}
	return fmt.Sprintf("line %d: %s", d.Line, d.Text)
}

// Read reads a WebVTT or SubRip file, whichever it is; name is used only to say
// which file is meant. Broken cues are left out and doubted, not fatal. The error says
// why a file is not captions at all.
//
// WebVTT is https://www.w3.org/TR/webvtt1/ (section 4.1 for the file, 4.3 for times).
// SubRip has no specification; what is tolerated is what real files hold: missing hours
// or counters, dots or commas, coordinates behind the times, {\an8} and <font> tags,
// blank lines inside a cue. Both formats get the same tolerance.
func Read(name string, data []byte) (Track, []Doubt, error) {
	refuse := func(err error) (Track, []Doubt, error) {
		return Track{}, nil, fmt.Errorf("captions %s: %w", name, err)
	}
	if len(data) > MaxBytes {
		return refuse(fmt.Errorf("%d bytes, at most %d are read; is this the video?", len(data), MaxBytes))
	}
	text, doubts, err := decode(data)
	if err != nil {
		return refuse(err)
	}
	if strings.TrimSpace(text) == "" {
		return refuse(errors.New("the file is empty"))
	}
	r := reader{lines: strings.Split(text, "\n"), doubts: doubts}
	out := Track{Name: name, Format: SubRip}
	if first := r.lines[0]; signature(first) {
		out.Format = WebVTT
		r.header()
	} else if len(first) >= 6 && strings.EqualFold(first[:6], "WEBVTT") {
		r.doubt(1, "the file begins with %q, a WebVTT file begins with WEBVTT alone; read all the same", short(first))
	}
	if err := r.blocks(out.Format == WebVTT); err != nil {
		return refuse(err)
	}
	if len(r.cues) == 0 {
		if r.arrows > 0 {
			return refuse(fmt.Errorf("none of its %d time lines can be read; a time line is 00:01.500 --> 00:04.000", r.arrows))
		}
		if out.Format == WebVTT {
			return refuse(errors.New("it begins as WebVTT but holds no cue; a cue has a time line like 00:01.500 --> 00:04.000"))
		}
		return refuse(fmt.Errorf("it begins with %q and holds no time line like 00:01.500 --> 00:04.000; hand in a .vtt or .srt file", short(strings.TrimSpace(text))))
	}
	byStart := func(a, b Cue) int {
		switch {
		case a.Start < b.Start:
			return -1
		case a.Start > b.Start:
			return 1
		}
		return 0
	}
	if !slices.IsSortedFunc(r.cues, byStart) {
		slices.SortStableFunc(r.cues, byStart)
		r.doubt(0, "cues stand out of order; sorted by their start")
	}
	out.Cues = r.cues
	if err := out.tooLong(); err != nil {
		return refuse(err)
	}
	if r.more > 0 {
		r.doubts = append(r.doubts, Doubt{0, fmt.Sprintf("and %d more doubts of these kinds", r.more)})
	}
	return out, r.doubts, nil
}

// rolls is how often the words of rolling captions may be shown.
const rolls = 4

// tooLong tells that more is said than in any walk-around: the figures of a long talk are compared with
// each other, so its length is bounded.
func (c Track) tooLong() error {
	shown := 0
	for _, cue := range c.Cues {
		shown += len(strings.Fields(cue.Text))
	}
	if shown <= MaxWords {
		return nil
	}
	if shown > rolls*MaxWords || len(c.Words()) > MaxWords {
		return fmt.Errorf("more than %d words are said, the most that are read: about three hours of talk; is this the walk around one trailer?", MaxWords)
	}
	return nil
}

// signature reports whether the line is a WebVTT file's first: the word alone, or
// followed by a space or tab (WebVTT 4.1).
func signature(line string) bool {
	rest, ok := strings.CutPrefix(line, "WEBVTT")
	return ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t')
}

type reader struct {
	lines  []string
	at     int // index of the next line
	cues   []Cue
	arrows int // lines that hold an arrow
	doubts []Doubt
	more   int
}

func (r *reader) doubt(line int, format string, args ...any) {
	if len(r.doubts) >= maxDoubts {
		r.more++
		return
	}
	r.doubts = append(r.doubts, Doubt{line, fmt.Sprintf(format, args...)})
}

// header skips the header block, which ends with a blank line or the first time line.
func (r *reader) header() {
	for r.at = 1; r.at < len(r.lines); r.at++ {
		line := strings.TrimSpace(r.lines[r.at])
		if line == "" || isArrow(line) {
			return
		}
		if strings.HasPrefix(line, "X-TIMESTAMP-MAP") {
			r.doubt(r.at+1, "the file maps its times to a broadcast clock (%s); the times may be shifted", short(line))
		}
		if n := r.at + 1; n < len(r.lines) && isArrow(r.lines[n]) {
			return // this line is that cue's name
		}
	}
}

func isArrow(line string) bool { return strings.Contains(line, "-->") }

// blocks reads cue after cue. In WebVTT a blank line ends a cue; in SubRip it ends one
// only where the next block begins, as files in the wild hold blank lines inside cues.
func (r *reader) blocks(vtt bool) error {
	for r.at < len(r.lines) {
		line := strings.TrimSpace(r.lines[r.at])
		switch {
		case line == "":
			r.at++
		case isArrow(line):
			if err := r.cue(vtt); err != nil {
				return err
			}
		case vtt && (keyword(line, "NOTE") || keyword(line, "STYLE") || keyword(line, "REGION")):
			for r.at < len(r.lines) && strings.TrimSpace(r.lines[r.at]) != "" && !isArrow(r.lines[r.at]) {
				r.at++
			}
		default: // a cue's name or counter, or text that belongs to no cue
			if r.at+1 >= len(r.lines) || !isArrow(r.lines[r.at+1]) {
				if !isCounter(line) && len(r.cues) > 0 {
					r.doubt(r.at+1, "%q stands outside any cue; left out", short(line))
				}
			}
			r.at++
		}
	}
	return nil
}

func keyword(line, word string) bool {
	rest, ok := strings.CutPrefix(line, word)
	return ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t')
}

func isCounter(line string) bool {
	if line == "" || len(line) > 7 {
		return false
	}
	for _, c := range line {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

// cue reads the cue whose time line is next.
func (r *reader) cue(vtt bool) error {
	r.arrows++
	if r.arrows > MaxCues {
		return fmt.Errorf("more than %d cues, the most that are read", MaxCues)
	}
	number := r.at + 1
	start, end, odd, ok := readTimes(r.lines[r.at])
	timeLine := strings.TrimSpace(r.lines[r.at])
	r.at++
	first, last := r.shown(vtt)
	if !ok {
		r.doubt(number, "time line %q cannot be read, 00:01.500 --> 00:04.000 would be right; cue left out", short(timeLine))
		return nil
	}
	if odd != "" {
		r.doubt(number, "%s", odd)
	}
	raw := strings.Join(r.lines[first:last], "\n")
	if len(raw) > maxCueBytes {
		r.doubt(number, "cue text of %d bytes, cut to %d", len(raw), maxCueBytes)
		raw = strings.ToValidUTF8(raw[:maxCueBytes], "")
	}
	if end <= start {
		r.doubt(number, "cue ends at %s, not after its start %s; left out", seconds(end), seconds(start))
		return nil
	}
	c := Cue{Start: start, End: end, Line: number}
	c.Text, c.Speaker, c.Times = plain(raw)
	if c.Text != "" {
		r.cues = append(r.cues, c)
	}
	return nil
}

// shown reads the lines of text below a time line: the first, and one past the last.
func (r *reader) shown(vtt bool) (first, last int) {
	first = r.at
	last = first
	for r.at < len(r.lines) {
		line := strings.TrimSpace(r.lines[r.at])
		if isArrow(line) {
			// The line above is the next cue's counter if it is one; a missing blank line
			// between cues is common in SubRip.
			if above := r.at - 1; above >= first && isCounter(strings.TrimSpace(r.lines[above])) {
				last = min(last, above)
			}
			break
		}
		if vtt && r.lines[r.at] == "" {
			break // a line of spaces ends nothing: rolling captions begin with one
		}
		if line == "" {
			if vtt {
				r.at++
				continue
			}
			next, begins := r.nextBegins()
			if begins {
				break
			}
			r.at = next
			continue
		}
		r.at++
		last = r.at
	}
	return first, last
}

// nextBegins finds the next line with text, from the blank line at hand on. It reports whether that line is
// the start of a block, or there is none, so that the cue at hand is over.
func (r *reader) nextBegins() (next int, begins bool) {
	next = r.skipBlank(r.at)
	if next >= len(r.lines) || isArrow(r.lines[next]) {
		return next, true
	}
	if !isCounter(strings.TrimSpace(r.lines[next])) {
		return next, false
	}
	n := r.skipBlank(next + 1)
	return next, n >= len(r.lines) || isArrow(r.lines[n])
}

// skipBlank is the first line from n on that has text, or one past the last.
func (r *reader) skipBlank(n int) int {
	for n < len(r.lines) && strings.TrimSpace(r.lines[n]) == "" {
		n++
	}
	return n
}

func seconds(s float64) string { return strconv.FormatFloat(s, 'f', 3, 64) + " s" }

// short is s fit for a message: its first line, at most 40 characters.
func short(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	runes := []rune(s)
	if len(runes) > 40 {
		return string(runes[:40]) + "..."
	}
	return s
}

// readTimes reads "00:01.500 --> 00:00:04,000 align:start". odd says what had to be
// overlooked.
func readTimes(line string) (start, end float64, odd string, ok bool) {
	left, right, _ := strings.Cut(line, "-->")
	fields := strings.Fields(right)
	if len(fields) == 0 {
		return 0, 0, "", false
	}
	start, odd, ok = readTime(strings.Join(strings.Fields(left), ""))
	if !ok {
		return 0, 0, "", false
	}
	end, odd2, ok := readTime(fields[0])
	if odd == "" {
		odd = odd2
	}
	return start, end, odd, ok
}

// timeForms are [hours:]minutes:seconds with up to nine decimals after a dot, a comma or, in a
// few files with hours, a colon. The hours may have six digits, minutes three without hours.
var timeForms = []*regexp.Regexp{
	regexp.MustCompile(`^([0-9]{1,6}):([0-9]{1,3}):([0-9]{1,3})(?:[.,:]([0-9]{1,9}))?$`),
	regexp.MustCompile(`^()([0-9]{1,6}):([0-9]{1,3})(?:[.,]([0-9]{1,9}))?$`),
}

// readTime reads a time of one of those forms. What had to be overlooked is in odd.
func readTime(s string) (at float64, odd string, ok bool) {
	for _, form := range timeForms {
		m := form.FindStringSubmatch(s)
		if m == nil {
			continue
		}
		hours, minutes, seconds := digits(m[1]), digits(m[2]), digits(m[3])
		if seconds > 59 || m[1] != "" && minutes > 59 || minutes > 999 {
			return 0, "", false
		}
		if minutes > 59 {
			odd = fmt.Sprintf("time %q has more than 59 minutes and no hours; read as minutes", s)
		}
		// Whole milliseconds first: the same time in two writings is then the same number.
		total := ((hours*60+minutes)*60+seconds)*1000 + digits((m[4] + "000")[:3])
		return float64(total) / 1000, odd, true
	}
	return 0, "", false
}

// digits is the number that a few digits write, 0 for none.
func digits(s string) (n int) {
	for _, c := range []byte(s) {
		n = 10*n + int(c-'0')
	}
	return n
}

var (
	placement = regexp.MustCompile(`\{\\[^}\n]{0,40}\}`)
	tag       = regexp.MustCompile(`<(/?)([A-Za-z][A-Za-z0-9]*)?((?:\.[^\s<>.]*)*)([^<>]*)>`)
	inline    = regexp.MustCompile(`^\s*((?:\d+:)?\d+:\d+[.,]\d+)\s*$`)
)

// plain takes the markup out of a cue's text: first the tags, then the entities, once,
// so that "&lt;b&gt;" stays as the letters a person wrote. A "<" that opens no tag is
// kept.
func plain(raw string) (text, speaker string, marks []Mark) {
	if strings.Contains(raw, `{\`) {
		raw = placement.ReplaceAllString(raw, "")
	}
	var b strings.Builder
	at := 0
	if strings.Contains(raw, "<") {
		for _, m := range tag.FindAllStringSubmatchIndex(raw, -1) {
			second, timed, isTag := tagTime(raw, m)
			if !isTag {
				continue
			}
			addSeen(&b, raw[at:m[0]])
			at = m[1]
			switch {
			case timed:
				marks = append(marks, Mark{b.Len(), second})
			case group(raw, m, 2) == "v" && speaker == "" && group(raw, m, 1) == "":
				speaker = strings.TrimSpace(html.UnescapeString(group(raw, m, 4)))
			}
		}
	}
	addSeen(&b, raw[at:])
	return tidy(b.String(), marks, speaker)
}

// tagTime reads the time of a tag such as <00:01.500>, which has no name. It reports whether
// there is one, and whether the match is a tag at all and not a "<" with something else
// after it.
func tagTime(raw string, m []int) (second float64, timed, isTag bool) {
	if group(raw, m, 2) != "" || group(raw, m, 1) != "" || group(raw, m, 3) != "" {
		return 0, false, true
	}
	t := inline.FindStringSubmatch(group(raw, m, 4))
	if t == nil {
		return 0, false, false
	}
	second, _, timed = readTime(t[1])
	return second, timed, timed
}

// addSeen adds text with its entities as characters. Direction marks and other characters that
// are not seen are left out.
func addSeen(b *strings.Builder, s string) {
	if strings.Contains(s, "&") {
		s = html.UnescapeString(s)
	}
	for _, c := range s {
		switch {
		case c == '\u00A0' || c == '\t' || c == '\u2009' || c == '\u202F':
			b.WriteByte(' ')
		case c == '\n':
			b.WriteByte('\n')
		case unicode.Is(unicode.Cf, c) || unicode.IsControl(c):
		default:
			b.WriteRune(c)
		}
	}
}

// tidy takes blank lines and spaces at the ends of lines out of the text and moves the
// marks with it.
func tidy(s string, marks []Mark, speaker string) (string, string, []Mark) {
	var b strings.Builder
	moved := marks[:0]
	at := 0
	for line := range strings.SplitSeq(s, "\n") {
		body := strings.TrimLeft(line, " ")
		lead := len(line) - len(body)
		body = strings.TrimRight(body, " ")
		if body != "" && b.Len() > 0 {
			b.WriteByte('\n')
		}
		base := b.Len()
		b.WriteString(body)
		for len(marks) > 0 && marks[0].At <= at+len(line) {
			m := marks[0]
			marks = marks[1:]
			moved = append(moved, Mark{base + min(max(m.At-at-lead, 0), len(body)), m.Second})
		}
		at += len(line) + 1
	}
	return b.String(), speaker, moved
}

func group(s string, m []int, n int) string {
	if m[2*n] < 0 {
		return ""
	}
	return s[m[2*n]:m[2*n+1]]
}
