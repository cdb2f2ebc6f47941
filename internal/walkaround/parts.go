package walkaround

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
	"sync"

	"tarepage/internal/captions"
)

// headings are the parts of a trailer that talk is sorted into, and what is said between them.
// The label of a part in the labelled talk is its heading in small letters.
var headings = [...]string{"Overview", "Hitch and tongue", "Frame", "Axles and tires", "Brakes and lights", "Deck", "Sides and gates", "Ramps and tail", "Box",
	"Hoist", "Weights", "Price", "Also said"}

const (
	overview = 0
	asides_  = len(headings) - 1
)

// sectionsTable is trained by TestTrain: of a word how much it speaks for a part, and of the
// words before and after a place how much they speak for the end of a sentence there.
//
//go:embed sections.csv
var sectionsTable string

// A sorter knows the words of the parts and of the ends of sentences, in units of scale.
type sorter struct {
	parts map[string]*[len(headings)]int32
	ends  map[string]int32
	stay  int32 // what it costs to turn to another part
	bias  int32 // of the end of a sentence
}

var shippedSorter = sync.OnceValue(func() *sorter {
	rows, err := csv.NewReader(strings.NewReader(sectionsTable)).ReadAll()
	if err != nil {
		panic("walkaround: sections.csv: " + err.Error()) // embedded, written by a test
	}
	s := &sorter{parts: map[string]*[len(headings)]int32{}, ends: map[string]int32{}}
	for _, r := range rows {
		list := strings.Fields(r[2])
		row := new([len(headings)]int32)
		for p := range min(len(list), len(row)) {
			w, err := strconv.ParseInt(list[p], 10, 32)
			if err != nil {
				panic("walkaround: sections.csv: " + err.Error())
			}
			row[p] = int32(w)
		}
		switch r[0] {
		case "end":
			s.ends[r[1]] = row[0]
		case "turn":
			s.stay = row[0]
		case "bias":
			s.bias = row[0]
		case "part":
			s.parts[r[1]] = row
		}
	}
	return s
})

// plainWord is a word as the sorter knows it: small, without punctuation and plural s; a
// number is "#".
func plainWord(w string) string {
	w = strings.ToLower(strings.Trim(w, ",.;:!?…♪-><()[]\"'"))
	w = strings.ReplaceAll(w, "’", "'")
	if w == "" {
		return ""
	}
	if isNumberWord(w) || strings.ContainsAny(w[:1], "0123456789$") {
		return "#"
	}
	return stem(w)
}

// endFeatures are what tells whether a sentence ends in front of word i.
func endFeatures(w []string, i int) [9]string {
	at := func(k int) string {
		if k < 0 || k >= len(w) {
			return "-"
		}
		return w[k]
	}
	a, b, c := wordClass(at(i-1)), wordClass(at(i)), wordClass(at(i+1))
	return [9]string{"~" + a + " | " + b, "~" + at(i-1) + " | " + b, "~" + a + " | " + b + " " + c, at(i-1) + " |", "| " + at(i), at(i-1) + " | " + at(i), "| " + at(i) + " " + at(i+1), at(i-2) + " " + at(i-1) + " |", at(i-1) + " | " + at(i) + " " + at(i+1)}
}

// wordClass is a word's kind, for words that are seldom said.
func wordClass(w string) string {
	switch {
	case w == "#" || w == "-":
		return w
	case holders[w]:
		return "holder"
	case openers[w]:
		return "opener"
	case nouns[w] != 0:
		return "noun"
	case attributes[w] != 0:
		return "attr"
	case strings.HasSuffix(w, "ed"), strings.HasSuffix(w, "ing"):
		return "verb"
	}
	return "word"
}

// end scores the end of a sentence in front of word i: above zero there is one.
func (s *sorter) end(w []string, i int) int32 {
	sum := s.bias
	for _, f := range endFeatures(w, i) {
		sum += s.ends[f]
	}
	return sum
}

// A clause is a run of words with the part that it is of.
type clause struct {
	words []captions.Word
	from  int // the place of its first word in the talk that was cut
	part  int
	full  bool // a sentence ends in front of it
}

// leastClause is the number of words that a clause has at least where nothing but words end it.
const leastClause = 4

// longSentence is the number of words after which a sentence ends with its clause.
const longSentence = 16

// cut cuts talk into clauses: at pauses, at punctuation, and where the words say so.
func (s *sorter) cut(words []captions.Word) []clause {
	plain := make([]string, len(words))
	stops := 0
	for i, w := range words {
		plain[i] = plainWord(w.Text)
		if strings.ContainsAny(lastRune(w.Text), ".!?") {
			stops++
		}
	}
	written := stops*25 > len(words) // these captions have full stops
	var out []clause
	from, begin := 0, 0 // of the clause and of the sentence
	full := true
	for i := 1; i <= len(words); i++ {
		cut, ends := i == len(words), false
		if !cut && !insideFigure(plain, i) {
			last := lastRune(words[i-1].Text)
			score := s.end(plain, i)
			switch {
			case words[i].Gap > captions.Pause || strings.ContainsAny(last, ".!?"):
				cut, ends = true, true
			case written:
				cut = i-from >= leastClause && score > -scale && strings.ContainsAny(last, ",;:…")
			case i-from >= leastClause && !holders[plain[i-1]]:
				cut = score > -scale*3/2 || openers[plain[i]] && score > -3*scale
				ends = score > 0 || cut && i-begin >= longSentence
			}
		}
		if cut {
			out = append(out, clause{words: words[from:i], from: from, full: full})
			from, full = i, ends
			if ends {
				begin = i
			}
		}
	}
	return out
}

// ofFigures are the words that go with a number, after it or before it.
var ofFigures = set("pound lb inch foot feet ft in psi dollar hundred thousand and uh um k by x point")

// insideFigure reports that a cut in front of word i would part a figure.
func insideFigure(w []string, i int) bool {
	if i > 1 && (w[i-1] == "uh" || w[i-1] == "um" || w[i-1] == "and" || w[i-1] == "point") && w[i-2] == "#" && w[i] == "#" {
		return true
	}
	return w[i-1] == "#" && (w[i] == "#" || ofFigures[w[i]] && w[i] != "and" && w[i] != "in" || w[i] == "and" && i+1 < len(w) && w[i+1] == "#")
}

// sort gives each clause its part: the parts that the words speak for, where turning to another
// part costs something (Viterbi).
func (s *sorter) sort(list []clause, roles [][]string) {
	const parts = len(headings)
	if len(list) == 0 {
		return
	}
	best := make([][parts]int32, len(list))
	from := make([][parts]int8, len(list))
	features := clauseFeatures(list, roles)
	for k, c := range list {
		var own [parts]int32
		for _, f := range features[k] {
			if row := s.parts[f]; row != nil {
				for p := range own {
					own[p] += row[p]
				}
			}
		}
		for p := range parts {
			if k == 0 {
				best[0][p] = own[p]
				if p == overview {
					best[0][p] += s.stay
				}
				continue
			}
			at := 0
			for q := range parts {
				if best[k-1][q] > best[k-1][at] {
					at = q
				}
			}
			turn := best[k-1][at] - s.turning(c)
			if best[k-1][p] >= turn {
				best[k][p], from[k][p] = best[k-1][p]+own[p], int8(p)
			} else {
				best[k][p], from[k][p] = turn+own[p], int8(at)
			}
		}
	}
	at := 0
	last := len(list) - 1
	for p := range parts {
		if best[last][p] > best[last][at] {
			at = p
		}
	}
	for k := last; k >= 0; k-- {
		list[k].part = at
		at = int(from[k][at])
	}
}

// turning is what it costs to turn to another part in front of a clause.
func (s *sorter) turning(c clause) int32 {
	if c.full {
		return s.stay
	}
	return 2 * s.stay
}

// clauseFeatures are what tells the part of each clause: its words, its pairs of words, the roles of its
// figures, and what kind of thing the clauses next to it speak of.
func clauseFeatures(list []clause, roles [][]string) [][]string {
	out := make([][]string, len(list))
	kinds := make([][]string, len(list))
	for k, c := range list {
		out[k], kinds[k] = partFeatures(c.words, roles[c.from:c.from+len(c.words)])
	}
	for k := range list {
		out[k] = append(out[k], kinds[k]...)
		for d, mark := range []string{"<", "<<"} {
			if k > d {
				out[k] = append(out[k], marked(mark, kinds[k-d-1])...)
			}
		}
		if k+1 < len(list) {
			out[k] = append(out[k], marked(">", kinds[k+1])...)
		}
	}
	return out
}

func marked(mark string, list []string) []string {
	out := make([]string, len(list))
	for i, f := range list {
		out[i] = mark + f
	}
	return out
}

// partFeatures are the words of a clause and its pairs of words, and apart from them the kinds of
// things that it names: nouns of one part of the trailer, and roles of its figures.
func partFeatures(words []captions.Word, roles [][]string) (out, kinds []string) {
	last := ""
	for _, w := range words {
		p := plainWord(w.Text)
		if p == "" || p == "#" {
			continue
		}
		out = append(out, p)
		if last != "" {
			out = append(out, last+" "+p)
		}
		if n := nouns[p]; n != 0 {
			kinds = append(kinds, "="+strconv.Itoa(int(n)))
		}
		last = p
	}
	for _, r := range roles {
		kinds = append(kinds, r...)
	}
	return out, kinds
}

// rolesOf are the roles of what was heard in a talk, of each word of it.
func rolesOf(c captions.Track, heard []Candidate) [][]string {
	said := c.Words()
	out := make([][]string, len(said))
	ends := make([]int, len(said)) // in the transcript
	at := 0
	for i, w := range said {
		at += len(w.Text)
		ends[i] = at
		at++
	}
	k := 0
	found := slices.Clone(heard)
	slices.SortStableFunc(found, func(a, b Candidate) int { return a.Offset - b.Offset })
	for _, f := range found {
		for k < len(ends) && ends[k] <= f.Offset {
			k++
		}
		if k < len(ends) && f.Role != "" {
			out[k] = append(out[k], "@"+string(f.Role))
		}
	}
	return out
}
