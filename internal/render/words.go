package render

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// The words of the stock: which units hold a word, in three fields that weigh unlike
// much. The page hands it to the search library (MiniSearch) as an index that is made
// already, so that a phone reads no prose and builds nothing. It comes in parts by first
// letters, because of a large yard a customer needs the letters that he types and no
// more.

// partSize is about how large a part may get before the next letter begins another.
const partSize = 60_000

// A wordPart is one file: the words that begin with From or a later letter.
type wordPart struct {
	From string
	text []byte
}

// wordParts are the words of the units, in the order of the alphabet.
func wordParts(units []*entry) ([]wordPart, error) {
	index := map[string]*[3][]int{}
	for i, e := range units {
		for field, text := range wordsOf(e) {
			for _, w := range terms(text) {
				at := index[w]
				if at == nil {
					at = &[3][]int{}
					index[w] = at
				}
				if list := at[field]; len(list) == 0 || list[len(list)-1] != i {
					at[field] = append(list, i)
				}
			}
		}
	}
	var all []string
	for w := range index {
		all = append(all, w)
	}
	slices.Sort(all)
	var out []wordPart
	var names, posts strings.Builder
	var from, before string
	flush := func() error {
		// The part's own number stands in it: it tells the page which part has come.
		text, err := json.Marshal([]any{len(out), names.String(), posts.String()})
		if err != nil {
			return err
		}
		out = append(out, wordPart{from, []byte("WORDS(" + strings.Trim(string(text), "[]") + ");\n")})
		names.Reset()
		posts.Reset()
		return nil
	}
	for _, w := range all {
		first := firstOf(w)
		if names.Len()+posts.Len() > partSize && first != firstOf(before) {
			if err := flush(); err != nil {
				return nil, err
			}
			from, before = first, ""
		}
		same := 0
		for same < min(len(w), len(before), 35) && w[same] == before[same] {
			same++
		}
		// A cut within a letter would leave half of it on either side.
		for same > 0 && same < len(w) && w[same]&0xc0 == 0x80 {
			same--
		}
		if before != "" || names.Len() > 0 {
			names.WriteByte(' ')
		}
		names.WriteByte("0123456789abcdefghijklmnopqrstuvwxyz"[utf16Len(w[:same])])
		names.WriteString(w[same:])
		before = w
		for _, list := range index[w] {
			steps(&posts, list)
		}
	}
	if err := flush(); err != nil {
		return nil, err
	}
	return out, nil
}

// firstOf is a word's first letter.
func firstOf(w string) string {
	for _, r := range w {
		return string(r)
	}
	return ""
}

// utf16Len is a text's length as a script counts it.
func utf16Len(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xffff {
			n++
		}
	}
	return n
}

// steps writes how many numbers there are and how far each is above the one before.
func steps(b *strings.Builder, list []int) {
	digits(b, len(list))
	last := 0
	for _, n := range list {
		digits(b, n-last)
		last = n
	}
}

// digits writes a number in letters worth five bits each, the lowest first; a letter of
// the second half of the alphabet says that another follows.
func digits(b *strings.Builder, n int) {
	const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	for ; n > 31; n >>= 5 {
		b.WriteByte(alphabet[32|n&31])
	}
	b.WriteByte(alphabet[n])
}

// wordsOf are what can be found in a unit: what it is, what is on it, what is written
// about it.
func wordsOf(e *entry) [3]string {
	list := func(texts []unit.Text) string { return strings.Join(values(texts), " ") }
	var ties []string
	for _, t := range e.TieDowns {
		ties = append(ties, t.Kind.Value)
	}
	return [3]string{
		strings.Join([]string{e.Title.Value, e.Stock.Value, e.Make.Value, e.Model.Value, kinds.Of(e.Kind.Value).Label, e.Hitch.Kind.Value,
			e.Condition.Value, e.Color.Value, e.Availability.Value, e.Year.Words()}, " "),
		strings.Join([]string{list(e.Standard), list(e.Options), strings.Join(ties, " "), e.Spare.Value, e.Deck.TailKind.Value, e.Ramps.Kind.Value,
			e.Brakes.Kind.Value, e.Axles.Suspension.Value, e.Axles.Hubs.Value, e.Frame.Beam.Value, e.Frame.Floor.Value, e.Tires.Size.Value, e.Box.Door.Value}, " "),
		prose(&e.Body),
	}
}

// prose is the text of a body without its marks.
func prose(body *unit.Body) string {
	body = body.Whole()
	if body.Root == nil {
		return ""
	}
	var b strings.Builder
	_ = ast.Walk(body.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, ok := n.(*ast.Text); ok && entering {
			b.Write(t.Segment.Value(body.Source))
			if t.SoftLineBreak() || t.HardLineBreak() {
				b.WriteByte(' ')
			}
		} else if n.Type() == ast.TypeBlock {
			b.WriteByte(' ')
		}
		return ast.WalkContinue, nil
	})
	return b.String()
}

// terms parts a text as MiniSearch does (SPACE_OR_PUNCTUATION in its source: line ends,
// separators and punctuation), in lower case.
func terms(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return r == '\n' || r == '\r' || unicode.Is(unicode.Z, r) || unicode.Is(unicode.P, r)
	})
}
