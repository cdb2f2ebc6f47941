package walkaround

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
)

// A figure is a label of testdata or what was heard, in one writing.
type figure struct {
	role, compare, value string
	at                   float64
}

// key leaves out the comparison: role, value and unit are what is scored.
func (f figure) key() string { return f.role + " " + f.value }

var comparisons = map[string]bool{"~": true, "<": true, ">": true, "<=": true, ">=": true}

// label reads "deck.height ~ 32 in". Quantities go through internal/measure's own
// parsers, so that 6 ft 10 in and 82 in are the same.
func label(t *testing.T, s string) figure {
	t.Helper()
	f := strings.Fields(s)
	if len(f) < 2 {
		t.Fatalf("label %q does not read", s)
	}
	out := figure{role: f[0], compare: "="}
	f = f[1:]
	if comparisons[f[0]] {
		out.compare, f = f[0], f[1:]
	}
	v := strings.Join(f, " ")
	if low, high, ok := strings.Cut(v, ".."); ok {
		out.compare = "range"
		out.value = canonical(t, out.role, low) + ".." + canonical(t, out.role, high)
		return out
	}
	out.value = canonical(t, out.role, v)
	return out
}

func canonical(t *testing.T, role, v string) string {
	t.Helper()
	switch {
	case role == "frame.beam" || role == "frame.crossmember":
		return v
	case strings.HasSuffix(v, " lb"):
		w, err := measure.ParseWeight(v)
		if err != nil {
			t.Fatal(err)
		}
		return w.Value.String()
	case strings.HasSuffix(v, " ft"), strings.HasSuffix(v, " in"):
		w, err := measure.ParseLength(v)
		if err != nil {
			t.Fatal(err)
		}
		return w.Value.InInches()
	case strings.HasSuffix(v, " psi"):
		w, err := measure.ParsePressure(v)
		if err != nil {
			t.Fatal(err)
		}
		return w.Value.String()
	case strings.HasPrefix(v, "$"):
		w, err := measure.ParseMoney(v)
		if err != nil {
			t.Fatal(err)
		}
		return w.Value.String()
	}
	return v
}

func printed(v Value) string {
	if in, ok := v.(measure.Inches); ok {
		return in.InInches()
	}
	return v.String()
}

func heard(cs []Candidate) []figure {
	var out []figure
	for _, c := range cs {
		if c.Role == "" {
			continue
		}
		f := figure{role: string(c.Role), compare: string(c.Compare), value: printed(c.Value), at: c.Start}
		if c.High != nil {
			f.value += ".." + printed(c.High)
		}
		if !slices.ContainsFunc(out, func(g figure) bool { return g.key() == f.key() }) {
			out = append(out, f)
		}
	}
	return out
}

// A score counts what was heard against what was said.
type score struct {
	right, wrong, missed int
	compare              int // right, but = for ~ and the like
	late                 int // right, but not at its time
	fromNothing          int // heard in a line that holds none
	lines                int
}

func (s score) precision() float64 { return ratio(s.right, s.right+s.wrong) }
func (s score) recall() float64    { return ratio(s.right, s.right+s.missed) }

func ratio(a, b int) float64 {
	if b == 0 {
		return 1
	}
	return float64(a) / float64(b)
}

func (s score) String() string {
	return fmt.Sprintf("%d texts: %d right, %d wrong, %d missed: precision %.1f%%, recall %.1f%%; %d comparisons off, %d times off, %d figures where there is none",
		s.lines, s.right, s.wrong, s.missed, 100*s.precision(), 100*s.recall(), s.compare, s.late, s.fromNothing)
}

func (s *score) count(got, want []figure, report func(format string, args ...any), text string) {
	s.lines++
	if len(want) == 0 {
		s.fromNothing += len(got)
	}
	for _, w := range want {
		i := slices.IndexFunc(got, func(g figure) bool { return g.key() == w.key() })
		if i < 0 {
			s.missed++
			report("missed %s in %q", w.key(), text)
			continue
		}
		s.right++
		if got[i].compare != w.compare {
			s.compare++
			report("%s is %q, want %q in %q", w.key(), got[i].compare, w.compare, text)
		}
		// The time of a figure is its cue's start, so it may stand before the word by as
		// much as a cue is long.
		// A label stands at the first word of a pair, and a figure may have been said earlier too.
		if w.at > 0 && (got[i].at > w.at+3.5 || got[i].at < w.at-8) {
			s.late++
			report("%s at %.1f, want %.1f", w.key(), got[i].at, w.at)
		}
	}
	for _, g := range got {
		if !slices.ContainsFunc(want, func(w figure) bool { return w.key() == g.key() }) {
			s.wrong++
			report("wrong %s in %q", g.key(), text)
		}
	}
}

func scoreLines(t *testing.T, part string, report func(string, ...any)) score {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", part, "lines", "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines in %s: %v", part, err)
	}
	var s score
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		var text string
		var want []figure
		labels := 0
		flush := func() {
			if text == "" {
				return
			}
			if labels == 0 {
				t.Fatalf("%s: %q has no label; write - for none", name, text)
			}
			s.count(heard(HearText(text)), want, report, text)
		}
		in := bufio.NewScanner(f)
		for in.Scan() {
			line := in.Text()
			if l, ok := strings.CutPrefix(line, "\t"); ok {
				labels++
				if l != "-" {
					want = append(want, label(t, l))
				}
				continue
			}
			flush()
			text, want, labels = line, nil, 0
		}
		flush()
	}
	return s
}

func scoreWalks(t *testing.T, part string, report func(string, ...any)) score {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("testdata", part, "walks", "*.want"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no walks in %s: %v", part, err)
	}
	clock := regexp.MustCompile(`^(\d\d):(\d\d) `)
	var s score
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var want []figure
		for line := range strings.Lines(string(data)) {
			m := clock.FindStringSubmatch(line)
			if m == nil {
				t.Fatalf("%s: %q has no time", name, line)
			}
			f := label(t, strings.TrimSpace(line[len(m[0]):]))
			minute, _ := strconv.Atoi(m[1])
			second, _ := strconv.Atoi(m[2])
			f.at = float64(minute*60 + second)
			want = append(want, f)
		}
		for _, ext := range []string{".vtt", ".srt"} {
			file := strings.TrimSuffix(name, ".want") + ext
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			c, doubts, err := captions.Read(file, data)
			if err != nil || len(doubts) > 0 {
				t.Fatalf("%s: %v %v", file, err, doubts)
			}
			s.count(heard(Hear(c)), want, report, filepath.Base(file))
		}
	}
	return s
}

// labelled is one set of labelled texts. Once its errors have been read it is tuned on.
type labelled struct {
	name string
	// seen parts print what went wrong; an unseen one only its score, so that nobody tunes
	// on it by accident.
	seen         bool
	lines, walks floor
}

// A floor is what must not get worse.
type floor struct{ precision, recall float64 }

// parts and what each gave. Every unseen part was labelled and committed before the
// grammar met it, and looked at once; its first and only independent look stands in
// testdata/README.md. What is held here is what it gives since its errors were mended, so
// it measures nothing any more: it only keeps what was won.
var parts = []labelled{
	{"tune", true, floor{0.99, 0.99}, floor{0.99, 0.98}},
	{"unseen-1", true, floor{0.99, 0.98}, floor{0.99, 0.97}},
	{"traps", true, floor{0.99, 0.94}, floor{0.99, 0.95}},
	{"unseen-2", true, floor{0.99, 0.95}, floor{0.99, 0.92}},
	{"unseen-3", true, floor{0.99, 0.96}, floor{0.99, 0.94}},
	{"unseen-4", true, floor{0.99, 0.94}, floor{0.99, 0.92}},
	{"asides", true, floor{0.99, 0.93}, floor{}},
	{"unseen-5", true, floor{0.99, 0.88}, floor{0.99, 0.95}},
	{"unseen-6", true, floor{0.99, 0.97}, floor{0.99, 0.94}},
	{"unseen-7", true, floor{0.99, 0.94}, floor{0.99, 0.92}},
	{"unseen-8", true, floor{0.99, 0.89}, floor{0.99, 0.89}},
	{"unseen-9", true, floor{0.99, 0.97}, floor{0.99, 0.97}},
	{"unseen-10", true, floor{0.99, 0.89}, floor{0.99, 0.93}},
	{"unseen-11", true, floor{0.99, 0.91}, floor{0.99, 0.87}},
}

// TestSpokenFigures measures precision and recall of role, value and unit on the labelled
// lines and walk-arounds (testdata/README.md). The aim, from the project's reference notes
// on spoken figures: 98% precision, 85% recall, nothing from lines that hold nothing.
func TestSpokenFigures(t *testing.T) {
	for _, p := range parts {
		report := func(string, ...any) {}
		if p.seen && testing.Verbose() {
			report = t.Logf
		}
		hold := func(kind string, s score, least floor) {
			t.Logf("%s %s: %v", p.name, kind, s)
			if s.precision() < least.precision || s.recall() < least.recall {
				t.Errorf("%s %s: precision %.3f and recall %.3f, must not be below %.3f and %.3f", p.name, kind, s.precision(), s.recall(), least.precision, least.recall)
			}
			if s.fromNothing > 0 {
				t.Errorf("%s %s: %d figures from texts that hold none", p.name, kind, s.fromNothing)
			}
		}
		if p.lines != (floor{}) {
			hold("lines", scoreLines(t, p.name, report), p.lines)
		}
		if p.walks != (floor{}) {
			hold("walks", scoreWalks(t, p.name, report), p.walks)
		}
	}
}

// TestCandidatesStandInWindows checks that no role is given to a value outside its window
// and that every quote is the speaker's own words at its offset.
func TestCandidatesStandInWindows(t *testing.T) {
	files, err := filepath.Glob("testdata/*/lines/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no lines", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			line = strings.TrimRight(line, "\n")
			for _, c := range HearText(line) {
				sound(t, line, c)
			}
		}
	}
}

// sound fails if a candidate breaks what the package promises.
func sound(t *testing.T, text string, c Candidate) {
	t.Helper()
	if c.Offset < 0 || c.Offset+len(c.Quote) > len(text) || text[c.Offset:c.Offset+len(c.Quote)] != c.Quote {
		t.Fatalf("quote %q does not stand at %d in %q", c.Quote, c.Offset, text)
	}
	if (c.Role == "") != (c.Doubt != "") {
		t.Fatalf("role %q with doubt %q in %q", c.Role, c.Doubt, text)
	}
	if c.Value == nil {
		t.Fatalf("no value in %q", text)
	}
	if c.Role == "" {
		return
	}
	for _, v := range []Value{c.Value, c.High} {
		var x float64
		switch v := v.(type) {
		case measure.Pounds:
			x = float64(v)
		case measure.Inches:
			x = float64(v)
		case measure.PSI:
			x = float64(v)
		case measure.Dollars:
			x = float64(v)
		case Count:
			x = float64(v)
		case Year:
			x = float64(v)
		default:
			continue
		}
		if math.IsNaN(x) || !inWindow(c.Role, x) {
			t.Fatalf("%s %v is outside its window in %q", c.Role, v, text)
		}
	}
}
