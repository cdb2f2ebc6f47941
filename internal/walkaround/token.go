package walkaround

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

type kind uint8

const (
	word   kind = iota
	number      // digits
	comma       // , : ( ) and a single line end: a soft edge
	stop        // . ! ? ; a pause, a paragraph's end: no figure crosses it
)

// A token is a piece of what was said, in lower case, with where it stands.
type token struct {
	kind       kind
	text       string
	value      float64 // of a number
	decimal    bool    // the number has a decimal point
	glued      bool    // no space before it
	possessive bool    // the word carried 's: "jack's" is "jack is"
	from, to   int     // bytes in the text
	start, end float64
}

// lower lowers A to Z and nothing else: strings.ToLower changes the length of some letters
// and of bytes that are not UTF-8, and every offset rests on the length.
func lower(s string) string {
	if strings.IndexFunc(s, func(c rune) bool { return c >= 'A' && c <= 'Z' }) < 0 {
		return s
	}
	b := []byte(s)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

// numberForm: digits with thousands commas, or plain, with decimals.
var numberForm = regexp.MustCompile(`^(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?`)

// pairForm is what automatic captions make of "fourteen nine": 14,9.
var pairForm = regexp.MustCompile(`^(\d{1,3}),(\d{1,2})$`)

// lettersForm is an abbreviation spelled out: G-V-W-R, P-S-I, L-B.
var lettersForm = regexp.MustCompile(`^(?:[a-z]-)+[a-z]\b`)

// sizeForm is a tire size as written in one word.
var sizeForm = regexp.MustCompile(`^(?i:(st|lt|p)?\s?(\d{3})/(\d{2})(?:[-/]?z?r|[-/])(\d{2}(?:\.5)?))`)

// lex cuts one word between spaces into tokens. Offsets are in the whole text.
func lex(out []token, w string, at int, start, end float64) []token {
	c := cutter{out: out, low: lower(w), size: len(w), at: at, from: at, start: start, end: end}
	if m := lettersForm.FindString(c.low); m != "" {
		c.add(token{kind: word, text: strings.ReplaceAll(m, "-", "")}, len(m))
	}
	if strings.IndexByte(c.low, '/') >= 0 {
		if m := sizeForm.FindString(c.low); m != "" {
			c.add(token{kind: word, text: "size:" + m}, len(m))
		}
	}
	c.pair()
	for len(c.low) > 0 {
		switch r, n := utf8.DecodeRuneInString(c.low); {
		case r >= '0' && r <= '9':
			c.number()
		case isLetter(r):
			c.letters()
		default:
			c.sign(r, n)
		}
	}
	return c.out
}

// A cutter takes one token after the other off the front of a word.
type cutter struct {
	out        []token
	low        string // what is left of the word, in lower case
	size       int    // of the whole word
	at, from   int    // where the word begins, and what is left of it
	start, end float64
}

// add makes the next n bytes a token.
func (c *cutter) add(t token, n int) {
	t.from, t.to, t.start, t.end = c.from, c.from+n, c.start, c.end
	t.glued = c.from > c.at
	c.out = append(c.out, t)
	c.skip(n)
}

// skip leaves out the next n bytes.
func (c *cutter) skip(n int) {
	c.from += n
	c.low = c.low[n:]
}

// afterNumber reports whether the token before is a number.
func (c *cutter) afterNumber() bool {
	return len(c.out) > 0 && c.out[len(c.out)-1].kind == number
}

// pair takes the two numbers of "$14,9", if that is what is left.
func (c *cutter) pair() {
	if strings.IndexByte(c.low, ',') <= 0 {
		return
	}
	m := pairForm.FindStringSubmatch(strings.Trim(c.low, "$.,"))
	if m == nil {
		return
	}
	if lead := len(c.low) - len(strings.TrimLeft(c.low, "$")); lead > 0 {
		c.add(token{kind: word, text: "$"}, lead)
	}
	a, _ := strconv.Atoi(m[1])
	b, _ := strconv.Atoi(m[2])
	c.add(token{kind: number, text: m[1], value: float64(a)}, len(m[1])+1)
	c.add(token{kind: number, text: m[2], value: float64(b)}, len(m[2]))
	if strings.HasPrefix(c.low, ".") {
		c.add(token{kind: stop, text: "."}, 1)
	}
}

func (c *cutter) number() {
	m := numberForm.FindString(c.low)
	v, err := strconv.ParseFloat(strings.ReplaceAll(m, ",", ""), 64)
	if err != nil || v > 1e9 {
		c.add(token{kind: word, text: "#"}, len(m))
		return
	}
	c.add(token{kind: number, text: m, value: v, decimal: strings.Contains(m, ".")}, len(m))
}

// letters takes the word that is next, with its apostrophes and the dots of an abbreviation.
func (c *cutter) letters() {
	n := lettersLong(c.low)
	t := strings.ReplaceAll(c.low[:n], "’", "'")
	if m, ok := contractions[t]; ok {
		t = m
	}
	tok := token{kind: word, text: t}
	if s, ok := strings.CutSuffix(t, "'s"); ok {
		tok.text, tok.possessive = s, true
	}
	if s, ok := strings.CutSuffix(t, "'ll"); ok && len(s) > 5 {
		tok.text = s // "the tires'll hold": no pronoun is that long
	}
	if m, ok := misheard[tok.text]; ok {
		tok.text = m
	}
	if tok.text == "wait" && len(c.out) > 0 && weighed[c.out[len(c.out)-1].text] {
		tok.text = "weight"
	}
	switch dot := n < len(c.low) && c.low[n] == '.'; {
	case dot && n == 1 && letterAt(c.low[n+1:]): // o.c.
		letters, k := dotted(c.low, t)
		tok.text = letters
		c.add(tok, k)
	case dot && leading[tok.text]: // the dot of "approx." is nothing
		c.add(tok, n+1)
	case dot && trailing[tok.text]: // that of "lb." may end a sentence too
		c.add(tok, n)
		c.add(token{kind: comma, text: "."}, 1)
	default:
		c.add(tok, n)
	}
}

// lettersLong is how many bytes the word at the beginning of a text has.
func lettersLong(low string) int {
	n := 0
	for n < len(low) {
		c, k := utf8.DecodeRuneInString(low[n:])
		if !isLetter(c) && ((c != '\'' && c != '’') || n == 0 || !letterAt(low[n+k:])) {
			break
		}
		n += k
	}
	return n
}

// dotted are the letters of an abbreviation that keeps its dots, o.c., and how many bytes it has.
// It begins with the letters that are given.
func dotted(low, letters string) (string, int) {
	k := 1
	for k+1 < len(low) && low[k] == '.' && letterAt(low[k+1:]) {
		_, size := utf8.DecodeRuneInString(low[k+1:])
		letters += low[k+1 : k+1+size]
		k += 1 + size
	}
	if k < len(low) && low[k] == '.' {
		k++
	}
	return letters, k
}

// signs mean the same wherever they are.
var signs = func() map[rune]token {
	out := map[rune]token{'$': {kind: word, text: "$"}, '/': {kind: word, text: "/"}, '%': {kind: word, text: "percent"}, '°': {kind: word, text: "degrees"},
		'@': {kind: word, text: "at"}, '&': {kind: word, text: "and"}, '+': {kind: word, text: "plus"}, '×': {kind: word, text: "x"}, '~': {kind: word, text: "about"}}
	for _, c := range ".!?…" {
		out[c] = token{kind: stop, text: "."}
	}
	for _, c := range ",;:()[]—–" {
		out[c] = token{kind: comma, text: string(c)}
	}
	for c, v := range map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75} {
		out[c] = token{kind: number, text: string(c), value: v, decimal: true}
	}
	return out
}()

// sign takes a character that is not a letter or a digit, and has n bytes.
func (c *cutter) sign(r rune, n int) {
	if t, ok := signs[r]; ok {
		c.add(t, n)
		return
	}
	switch r {
	case '"', '″', '”', '“':
		if c.afterNumber() {
			c.add(token{kind: word, text: "inch"}, n)
			return
		}
	case '\'', '′', '’':
		if c.afterNumber() && c.from > c.at {
			c.add(token{kind: word, text: "foot"}, n)
			return
		}
	case '-':
		// Between digits a hyphen means something (2-5/16, 555-0142); between words it is
		// a space, alone it is a dash.
		if c.size == 1 {
			c.add(token{kind: comma, text: "-"}, n)
			return
		}
		if c.from > c.at && c.afterNumber() && len(c.low) > 1 && c.low[1] >= '0' && c.low[1] <= '9' {
			c.add(token{kind: word, text: "-"}, n)
			return
		}
	case '#':
		if c.from > c.at && c.afterNumber() {
			c.add(token{kind: word, text: "pound"}, n)
		} else {
			c.add(token{kind: word, text: "number"}, n)
		}
		return
	}
	c.skip(n) // notes, dashes, dingbats: nothing is said
}

// contractions are those that automatic captions write without an apostrophe, and that are
// no other word.
var contractions = map[string]string{"aint": "ain't", "isnt": "isn't", "arent": "aren't", "doesnt": "doesn't", "dont": "don't", "didnt": "didn't",
	"wasnt": "wasn't", "wouldnt": "wouldn't", "couldnt": "couldn't", "cant": "can't", "wont": "won't", "havent": "haven't", "hasnt": "hasn't",
	"thats": "that's", "theres": "there's", "heres": "here's", "whats": "what's", "shes": "she's", "hes": "he's",
	"youre": "you're", "theyre": "they're", "youve": "you've", "weve": "we've", "ive": "i've", "im": "i'm", "theyve": "they've", "youll": "you'll", "itll": "it'll"}

// misheard are single words that captions spell wrong and that mean nothing else here.
var misheard = map[string]string{"axel": "axle", "bout": "about", "axels": "axles", "steak": "stake", "pindle": "pintle", "dovetailed": "dovetail",
	"tong": "tongue", "tung": "tongue", "gbwr": "gvwr", "gvw": "gvwr", "gvwar": "gvwr", "gdwr": "gvwr", "jvwr": "gvwr", "cupler": "coupler", "couplar": "coupler",
	"axil": "axle", "axils": "axles", "goosneck": "gooseneck", "dovetale": "dovetail", "pentle": "pintle", "slash": "/", "haulin": "hauling", "askin": "asking", "weighin": "weighing", "sittin": "sitting", "carryin": "carrying", "pullin": "pulling", "lookin": "looking", "gettin": "getting", "keepin": "keeping", "runnin": "running", "torshion": "torsion", "spear": "spare", "romps": "ramps"}

// weighed are the words after which "wait" is a weight misheard.
var weighed = set("gross vehicle tongue pin empty dry curb trailer")

// leading are abbreviations that stand in front of their figure, trailing those behind.
var (
	leading  = set("approx wt ht lg spec no max min")
	trailing = set("lb lbs ft in yr hr")
)

func isLetter(c rune) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c > 0x7F && c != utf8.RuneError && strings.ContainsRune("áéíóúñüäöàèçß", c)
}

func letterAt(s string) bool {
	c, _ := utf8.DecodeRuneInString(s)
	return isLetter(c)
}
