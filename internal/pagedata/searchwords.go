package pagedata

import (
	"cmp"
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
// already, so that a phone reads no prose and builds nothing. They come in parts in the order
// of the alphabet: in a large yard a customer needs the words that they type and no more. What
// the page knows already it finds without an index: stock numbers, titles and the facts of a
// comparison, with their quantities (yard.js).

// partSize is about how large a part gets: 3 KB packed.
const partSize = 9_000

// A WordPart is one file: the words from From on, up to the next part's.
type WordPart struct {
	From string
	Text []byte
}

// fields are what can be found in a trailer: what it is, what is on it, what is written
// about it.
const fields = 3

// Words are the words of the trailers, in the order of the alphabet. Of has the digest of what
// each trailer is made from; the Lexicon, which may be nil, has the words of those that it
// knows.
func Words(list []Trailer, of [][32]byte, known *Lexicon) ([]WordPart, error) {
	if known == nil {
		known = NewLexicon(KeptLexicon{})
	}
	known.mu.Lock()
	defer known.mu.Unlock()
	index := known.gather(list, of)
	var all []int
	for n := range index {
		if !index[n].empty() {
			all = append(all, n)
		}
	}
	slices.SortFunc(all, func(a, b int) int { return cmp.Compare(known.words[a], known.words[b]) })
	var parts wordParts
	for _, n := range all {
		if err := parts.add(known.words[n], &index[n]); err != nil {
			return nil, err
		}
	}
	return parts.end()
}

// wordParts are the parts while they are written.
type wordParts struct {
	done         []WordPart
	from, before string // the first word of the part, and the word before
	names, posts strings.Builder
}

// add writes a word as how many letters it shares with the one before it and the rest of
// it, and its trailers.
func (p *wordParts) add(w string, in *posts) error {
	if p.names.Len()+p.posts.Len() > partSize {
		if err := p.flush(); err != nil {
			return err
		}
		p.from, p.before = w, ""
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
func steps(b *strings.Builder, list []int32) {
	digits(b, len(list))
	last := int32(0)
	for _, n := range list {
		digits(b, int(n-last))
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
	return [fields]string{
		strings.Join([]string{t.Title.Value, translated(t), t.Stock.Value, t.Make.Value, t.Model.Value, kinds.Of(t.Kind.Value).Label, t.Hitch.Kind.Value,
			t.Condition.Value, t.Color.Value, t.Availability.Value, t.Year.Words()}, " "),
		strings.Join([]string{joined(t.Standard), joined(t.Options), keyWords(t.Unit)}, " "),
		prose(&t.Body),
	}
}

// translated are the words of a page in another language: what it is, its kind, its hitch.
func translated(t *Trailer) string {
	if !t.Lang.Foreign() {
		return ""
	}
	out := []string{t.Lang.Plain(t.Name)}
	for _, key := range []string{"kind/" + t.Kind.Value, "choice/hitch.kind/" + t.Hitch.Kind.Value, "choice/condition/" + t.Condition.Value} {
		if text, ok := t.Lang.Fact(key); ok {
			out = append(out, t.Lang.Plain(text))
		}
	}
	return strings.Join(out, " ")
}

// unsearched are the sections and keys whose words say nothing about the trailer, or are in
// the first field. A serial is looked up in a list of its own.
var unsearched = map[string]bool{
	"title": true, "stock": true, "make": true, "model": true, "kind": true, "year": true, "condition": true, "color": true, "availability": true,
	"withhold": true, "recording": true, "claimed": true, "hitch.kind": true, "serial": true,
}

// parts are the sections and keys that are searched by their own name: a customer types
// "winch", and the file says electric.
var parts = map[string]string{
	"ramps": "ramps", "sides": "sides", "gate": "gate", "winch": "winch", "hoist": "hoist", "jack": "jack", "tank": "tank", "hull": "boat",
	"bin": "bin", "bunks": "bunks", "chassis": "chassis", "equipment.tarp": "tarp", "equipment.tool-boxes": "tool box toolbox", "equipment.tracks": "tracks",
	"equipment.awning": "awning", "box.roof-vents": "roof vent", "box.side-door": "side door", "lights.work-lights": "work lights",
	"hitch.lunette": "lunette", "hitch.receiver": "receiver", "warranty": "warranty", "tires.spare-size": "spare", "spare": "spare",
	"hitch.kingpin": "kingpin", "brakes.abs": "abs antilock", "bed.traps": "traps", "wear.inspected": "inspected inspection", "weights.max-load": "max load plate",
	"deck.concentrated": "concentrated load", "built": "built",
	"tank.tested": "tank tested test inspected", "equipment.fresh-water": "fresh water", "equipment.gray-water": "gray water", "bin.included-volume": "bin included",
}

// keyWords are the words that a unit states under its keys, and the names of what it has.
func keyWords(u *unit.Unit) string {
	var out []string
	seen := map[string]bool{"": true}
	add := func(s string) {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	for _, g := range u.Givens() {
		section, rest, _ := strings.Cut(g.Path, ".")
		if unsearched[section] || unsearched[g.Path] {
			continue
		}
		if section == "tie-downs" {
			name, _, _ := strings.Cut(rest, ".")
			add(name)
			continue
		}
		switch v := g.Value.(type) {
		case string:
			if v == "none" {
				continue
			}
			add(v)
		case bool:
			if !v {
				continue
			}
			add(rest)
		case int:
			if v == 0 {
				continue
			}
		}
		add(parts[section])
		add(parts[g.Path])
	}
	return strings.Join(out, " ")
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
