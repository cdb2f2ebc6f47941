package walkaround

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"unicode"
	"unicode/utf8"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
)

// A Note is a paragraph of what was said, under the heading of its subject.
type Note struct {
	// Heading is the subject. Notes that follow each other with one heading belong under it
	// together.
	Heading    string
	Start, End float64 // seconds
	Text       string
}

// String is the note as a timed note of a unit file: "0:45 The neck has four bolt holes."
func (n Note) String() string { return measure.Clock(int(n.Start)) + " " + n.Text }

// The first heading is of what is said first: people begin with what it is.
const openingHeading = "First look"

// subjects are the headings and the words that open them, in the order a walk goes round.
var subjects = []struct {
	heading string
	words   map[string]bool
}{
	{"Coupler", set("coupler hitch ball neck pintle chains chain breakaway kingpin")},
	{"Jack", set("jack jacks crank")},
	{"Frame", set("frame beam beams crossmember crossmembers channel rails i-beam")},
	{"Deck", set("deck floor pine fenders stake pockets rub boards bed sides")},
	{"Axles", set("axle axles hubs hub suspension torsion springs spring spindle")},
	{"Brakes", set("brake brakes drums disc")},
	{"Tires", set("tire tires ply psi wheels wheel spare tread sidewall")},
	{"Lights", set("light lights lamps led wiring harness plug markers")},
	{"Tail", set("tail dovetail ramp ramps beavertail gate")},
	{"Tie-downs", set("d-rings d-ring rings tie-down tie-downs")},
	{"Weights", set("gvwr gross weighs weight payload empty scale carry tag")},
	{"Price", set("price asking dollars financing cash bucks")},
}

// Notes are what was said as paragraphs, cut at pauses and at changes of subject, each
// with the time of its first word. The speaker's words are kept; only a word said twice
// in a row, sounds and "um" are left out, and trade words are spelled as the list in
// spelling.csv says. Greetings, names, telephone numbers and the description of another
// trailer are left out, and told of by their time.
func Notes(c captions.Track) ([]Note, []Omission) {
	var notes []Note
	words, out := edited(c)
	heading := openingHeading
	for _, run := range passages(words) {
		text := sentence(run)
		if text == "" {
			continue
		}
		n := len(notes)
		if h := subject(text); h != "" && n > 0 {
			heading = h
		}
		start, end := run[0].Start, run[len(run)-1].End
		if n > 0 && notes[n-1].Heading == heading && run[0].Gap <= captions.Pause && len(notes[n-1].Text) < 400 {
			notes[n-1].Text += " " + text
			notes[n-1].End = end
			continue
		}
		notes = append(notes, Note{heading, start, end, text})
	}
	return notes, out
}

// opener begins a new passage in speech that has no punctuation.
var opener = set("now then coming moving starting next underneath")

// clauseStarts begin a new sentence too, but only a change of subject makes a passage of it.
var clauseStarts = set("the your you've we've it's these this there's they're you we alright okay let's here's")

// connectors in front of an opener go with it.
var connectors = set("and but so")

// passages cuts speech at pauses, at full stops, and where a long run without either
// turns to another subject.
func passages(words []captions.Word) [][]captions.Word {
	var out [][]captions.Word
	from := 0
	cut := func(at int) {
		if at > from {
			out = append(out, words[from:at])
			from = at
		}
	}
	for i, w := range words {
		switch {
		case i > 0 && w.Gap > captions.Pause:
			cut(i)
		case i > 0 && strings.ContainsAny(lastRune(words[i-1].Text), ".!?"):
			cut(i)
		case i-from >= leastWords && clauseStarts[strings.ToLower(w.Text)]:
			now := subjectOf(words[i-lookBack : i])
			next := subjectOf(words[i:min(i+6, len(words))])
			if next >= 0 && now >= 0 && next != now {
				if at := i - 1; connectors[strings.ToLower(words[at].Text)] {
					cut(at)
				} else {
					cut(i)
				}
			}
		case i-from >= 12 && opener[strings.ToLower(w.Text)]:
			before := subjectOf(words[from:i])
			after := subjectOf(words[i:min(i+8, len(words))])
			if after >= 0 && after != before {
				if at := i - 1; connectors[strings.ToLower(words[at].Text)] {
					cut(at)
				} else {
					cut(i)
				}
			}
		}
	}
	cut(len(words))
	return out
}

// lookBack is how many words are looked at to tell what is being spoken of, and how
// many a passage has at least where nothing but a clause ends it.
const lookBack, leastWords = 14, 18

func lastRune(s string) string {
	_, n := utf8.DecodeLastRuneInString(s)
	return s[len(s)-n:]
}

// subjectWords tells the subject that a word belongs to.
var subjectWords = func() map[string]int {
	m := map[string]int{}
	for i, s := range subjects {
		for w := range s.words {
			m[w] = i
		}
	}
	return m
}()

// subjectOf is the subject, by its place in the list, that most of the words belong to; the
// first of equals; -1 if there is none.
func subjectOf(words []captions.Word) int {
	var counts [16]int
	for _, w := range words {
		if i, ok := subjectWords[strings.TrimSuffix(strings.ToLower(strings.Trim(w.Text, ",.;:!?…♪-><()[]\"")), "'s")]; ok {
			counts[i]++
		}
	}
	return most(counts[:])
}

func most(counts []int) int {
	best, at := 0, -1
	for i, n := range counts {
		if n > best {
			best, at = n, i
		}
	}
	return at
}

// subject is the heading that most words of the text belong to; the first of equals; or
// none.
func subject(text string) string {
	var counts [16]int
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' && r != '\''
	}) {
		if i, ok := subjectWords[strings.TrimSuffix(w, "'s")]; ok {
			counts[i]++
		}
	}
	if i := most(counts[:]); i >= 0 {
		return subjects[i].heading
	}
	return ""
}

// sentence is the passage as a sentence: repetitions out, trade words spelled, a capital in
// front and a full stop behind.
func sentence(run []captions.Word) string {
	var words []string
	sound := false
	for _, w := range run {
		t := w.Text
		// [music] and (laughs) may run over several words.
		if strings.HasPrefix(t, "[") {
			sound = true
		}
		if sound {
			if strings.ContainsRune(t, ']') {
				sound = false
			}
			continue
		}
		bare := strings.ToLower(strings.Trim(t, ",.;:!?…♪-><"))
		if bare == "um" || bare == "uh" || bare == "er" || bare == "" {
			continue
		}
		t = strings.Trim(t, "♪><")
		words = append(words, t)
		words = dropRepeat(words)
	}
	if len(words) == 0 {
		return ""
	}
	text := spell(words)
	c, n := utf8.DecodeRuneInString(text)
	text = string(unicode.ToUpper(c)) + text[n:]
	text = strings.TrimRight(text, " ,;:-")
	if text == "" {
		return ""
	}
	if c, _ := utf8.DecodeLastRuneInString(text); unicode.IsLetter(c) || unicode.IsDigit(c) || c == '"' || c == '\'' {
		text += "."
	}
	return text
}

// dropRepeat takes out the last one, two or three words if the same stand before them:
// "it's got it's got". Numbers are never dropped, "one ten ten ply" may mean it.
func dropRepeat(words []string) []string {
	for n := 1; n <= 3; n++ {
		if len(words) < 2*n {
			return words
		}
		a, b := words[len(words)-2*n:len(words)-n], words[len(words)-n:]
		same := true
		for i := range n {
			x, y := strings.ToLower(a[i]), strings.ToLower(b[i])
			same = same && x == y && !isNumberWord(x) && !strings.ContainsAny(x, ",.;!?0123456789")
		}
		// "that that" and "had had" are English.
		if same && !(n == 1 && (strings.EqualFold(b[0], "that") || strings.EqualFold(b[0], "had") || strings.EqualFold(b[0], "no") || strings.EqualFold(b[0], "very"))) {
			return words[:len(words)-n]
		}
	}
	return words
}

func isNumberWord(w string) bool {
	for part := range strings.SplitSeq(w, "-") {
		_, a := ones[part]
		_, b := teens[part]
		_, c := tens[part]
		_, d := plurals[part]
		_, e := denominators[part]
		if a || b || c || d || e || part == "hundred" || part == "thousand" || part == "k" || part == "oh" {
			return true
		}
	}
	return false
}

//go:embed spelling.csv
var spellingTable string

// spelling is the list by first word; longer phrases come first.
var spelling = func() map[string][][2][]string {
	rows, err := csv.NewReader(strings.NewReader(spellingTable)).ReadAll()
	if err != nil {
		panic("walkaround: spelling.csv: " + err.Error()) // embedded, read by a test
	}
	m := map[string][][2][]string{}
	for _, r := range rows[1:] {
		from, to := strings.Fields(r[0]), strings.Fields(r[1])
		m[from[0]] = append(m[from[0]], [2][]string{from, to})
	}
	return m
}()

// spell writes the words with the trade words corrected. Punctuation after a corrected word
// stays; a word in capitals or in the middle of other signs is left alone.
func spell(words []string) string {
	var out []string
	for i := 0; i < len(words); {
		n := 0
		var to []string
		tail := ""
		for _, r := range spelling[strings.ToLower(strings.TrimRight(words[i], ",.;:!?"))] {
			if len(r[0]) <= n || i+len(r[0]) > len(words) {
				continue
			}
			ok := true
			for k, w := range r[0] {
				said := strings.ToLower(words[i+k])
				end := strings.TrimRight(said, ",.;:!?")
				if end != w || end != said && k < len(r[0])-1 {
					ok = false
				}
			}
			if ok {
				last := words[i+len(r[0])-1]
				n, to, tail = len(r[0]), r[1], last[len(strings.TrimRight(last, ",.;:!?")):]
			}
		}
		if n == 0 {
			out = append(out, words[i])
			i++
			continue
		}
		out = append(out, to[:len(to)-1]...)
		out = append(out, to[len(to)-1]+tail)
		i += n
	}
	return strings.Join(out, " ")
}
