package pagedata

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// The words of the stock: which trailers have a word, in three fields that differ much in
// weight. The page hands them to the search library (MiniSearch) as an index that is made
// already, so that a phone reads no prose and builds nothing. They come in parts by their
// first letters: in a large yard a customer needs the letters that they type and no more.

// partSize is about how large a part may get before the next letter begins another.
const partSize = 60_000

// A WordPart is one file: the words that begin with From or a later letter.
type WordPart struct {
	From string
	Text []byte
}

// fields are what can be found in a trailer: what it is, what is on it, what is written
// about it.
const fields = 3

// Words are the words of the trailers, in the order of the alphabet.
func Words(list []Trailer) ([]WordPart, error) {
	index := map[string]*[fields][]int{} // by word and field: the numbers of the trailers
	for i := range list {
		for field, text := range wordsOf(&list[i]) {
			for _, w := range terms(text) {
				if index[w] == nil {
					index[w] = new([fields][]int)
				}
				in := &index[w][field]
				if len(*in) == 0 || (*in)[len(*in)-1] != i {
					*in = append(*in, i)
				}
			}
		}
	}
	var all []string
	for w := range index {
		all = append(all, w)
	}
	slices.Sort(all)
	var parts wordParts
	for _, w := range all {
		if err := parts.add(w, index[w]); err != nil {
			return nil, err
		}
	}
	return parts.end()
}

// wordParts are the parts while they are written.
type wordParts struct {
	done         []WordPart
	from, before string // the first letter of the part, and the word before
	names, posts strings.Builder
}

// add writes a word as how many letters it shares with the one before it and the rest of
// it, and its trailers.
func (p *wordParts) add(w string, in *[fields][]int) error {
	if first := firstLetter(w); p.names.Len()+p.posts.Len() > partSize && first != firstLetter(p.before) {
		if err := p.flush(); err != nil {
			return err
		}
		p.from, p.before = first, ""
	}
	same := shared(w, p.before)
	if p.names.Len() > 0 {
		p.names.WriteByte(' ')
	}
	p.names.WriteByte("0123456789abcdefghijklmnopqrstuvwxyz"[utf16Len(w[:same])])
	p.names.WriteString(w[same:])
	p.before = w
	for _, list := range in {
		steps(&p.posts, list)
	}
	return nil
}

// flush completes a part. It begins with its own number, which tells the page which part
// has come.
func (p *wordParts) flush() error {
	text, err := json.Marshal([]any{len(p.done), p.names.String(), p.posts.String()})
	if err != nil {
		return err
	}
	p.done = append(p.done, WordPart{p.from, []byte("WORDS(" + strings.Trim(string(text), "[]") + ");\n")})
	p.names.Reset()
	p.posts.Reset()
	return nil
}

func (p *wordParts) end() ([]WordPart, error) {
	err := p.flush()
	return p.done, err
}

// mostShared is the most that one digit of base 36 can say.
const mostShared = 35

// shared is how many bytes two words have in common at their beginning.
func shared(w, before string) int {
	same := 0
	for same < min(len(w), len(before), mostShared) && w[same] == before[same] {
		same++
	}
	// A cut within a letter would leave half of it on either side.
	for same > 0 && same < len(w) && w[same]&0xc0 == 0x80 {
		same--
	}
	return same
}

func firstLetter(w string) string {
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

// wordsOf are the texts of a trailer's fields.
func wordsOf(t *Trailer) [fields]string {
	var ties []string
	for _, d := range t.TieDowns {
		ties = append(ties, d.Kind.Value)
	}
	return [fields]string{
		strings.Join([]string{t.Title.Value, t.Stock.Value, t.Make.Value, t.Model.Value, kinds.Of(t.Kind.Value).Label, t.Hitch.Kind.Value,
			t.Condition.Value, t.Color.Value, t.Availability.Value, t.Year.Words()}, " "),
		strings.Join([]string{joined(t.Standard), joined(t.Options), strings.Join(ties, " "), t.Spare.Value, t.Deck.TailKind.Value, t.Ramps.Kind.Value,
			t.Brakes.Kind.Value, t.Axles.Suspension.Value, t.Axles.Hubs.Value, t.Frame.Beam.Value, t.Frame.Floor.Value, t.Tires.Size.Value, t.Box.Door.Value}, " "),
		prose(&t.Body),
	}
}

func joined(texts []unit.Text) string {
	var out []string
	for _, t := range texts {
		out = append(out, t.Value)
	}
	return strings.Join(out, " ")
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

// terms divides a text as MiniSearch does (SPACE_OR_PUNCTUATION in its source: line ends,
// separators and punctuation), in lower case.
func terms(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return r == '\n' || r == '\r' || unicode.Is(unicode.Z, r) || unicode.Is(unicode.P, r)
	})
}
