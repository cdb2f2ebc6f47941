package walkaround

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"
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

// Notes are what was said as paragraphs under the parts of the trailer, in the order in which
// the parts are first spoken of, each paragraph with the time of its first word. The speaker's
// words are kept; only a word said twice in a row, sounds and "um" are left out, and trade words
// are spelled as the list in spelling.csv says. Greetings, names, telephone numbers and the
// description of another trailer are left out, and told of by their time. Heard are the figures
// and words of the talk as Hear and Words give them: they tell what a clause is of.
func Notes(c captions.Track, heard []Candidate) ([]Note, []Omission) {
	words, places, out := edited(c)
	said := rolesOf(c, heard)
	roles := make([][]string, len(places))
	for i, p := range places {
		roles[i] = said[p]
	}
	clauses := shippedSorter().cut(words)
	shippedSorter().sort(clauses, roles)
	var notes []Note
	first := map[int]int{asides_: len(clauses)} // clause in which a part is first spoken of
	var order []int
	for i := 0; i < len(clauses); {
		part, from := clauses[i].part, i
		for i++; i < len(clauses) && clauses[i].part == part; i++ {
		}
		if _, ok := first[part]; !ok {
			first[part] = from
		}
		for _, n := range paragraphs(clauses[from:i]) {
			n.Heading = headings[part]
			notes, order = append(notes, n), append(order, first[part])
		}
	}
	return byFirst(notes, order), out
}

// byFirst brings the notes of one part together.
func byFirst(notes []Note, order []int) []Note {
	at := make([]int, len(notes))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(a, b int) int { return order[a] - order[b] })
	out := make([]Note, len(notes))
	for i, k := range at {
		out[i] = notes[k]
	}
	return out
}

// paragraphs are the sentences of some clauses. A pause and 400 letters begin a new paragraph.
func paragraphs(list []clause) []Note {
	var out []Note
	for i := 0; i < len(list); {
		var run []captions.Word
		from := i
		for i++; i < len(list) && !list[i].full; i++ {
		}
		for _, c := range list[from:i] {
			run = append(run, c.words...)
		}
		text := sentence(run)
		if text == "" {
			continue
		}
		end := run[len(run)-1].End
		if n := len(out); n > 0 && run[0].Gap <= captions.Pause && len(out[n-1].Text) < 400 {
			out[n-1].Text += " " + text
			out[n-1].End = end
			continue
		}
		out = append(out, Note{Start: run[0].Start, End: end, Text: text})
	}
	return out
}

func lastRune(s string) string {
	_, n := utf8.DecodeLastRuneInString(s)
	return s[len(s)-n:]
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

// numberWords are all words that a number is said in.
var numberWords = func() map[string]bool {
	m := set("hundred thousand k oh")
	for _, list := range []map[string]float64{ones, teens, tens, plurals, denominators} {
		for w := range list {
			m[w] = true
		}
	}
	return m
}()

// isNumberWord reports a word of a number, also one with hyphens: "thirty-five".
func isNumberWord(w string) bool {
	if numberWords[w] {
		return true
	}
	for {
		part, rest, more := strings.Cut(w, "-")
		switch {
		case !more:
			return numberWords[part]
		case numberWords[part]:
			return true
		}
		w = rest
	}
}

//go:embed spelling.csv
var spellingTable string

// spelling is the list by first word; longer phrases come first.
var spelling = sync.OnceValue(func() map[string][][2][]string {
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
})

// spell writes the words with the trade words corrected. Punctuation after a corrected word
// stays; a word in capitals or in the middle of other signs is left alone.
func spell(words []string) string {
	var out []string
	for i := 0; i < len(words); {
		n := 0
		var to []string
		tail := ""
		for _, r := range spelling()[strings.ToLower(strings.TrimRight(words[i], ",.;:!?"))] {
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
