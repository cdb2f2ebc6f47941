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
	from := at
	add := func(t token, n int) {
		t.from, t.to, t.start, t.end = from, from+n, start, end
		t.glued = from > at
		out = append(out, t)
		from += n
	}
	low := lower(w)
	if m := lettersForm.FindString(low); m != "" {
		add(token{kind: word, text: strings.ReplaceAll(m, "-", "")}, len(m))
		low = low[len(m):]
	}
	if strings.IndexByte(low, '/') >= 0 {
		if m := sizeForm.FindString(low); m != "" {
			add(token{kind: word, text: "size:" + m}, len(m))
			low = low[len(m):]
		}
	}
	var m []string
	if strings.IndexByte(low, ',') > 0 {
		m = pairForm.FindStringSubmatch(strings.Trim(low, "$.,"))
	}
	if m != nil {
		lead := len(low) - len(strings.TrimLeft(low, "$"))
		if lead > 0 {
			add(token{kind: word, text: "$"}, lead)
		}
		a, _ := strconv.Atoi(m[1])
		b, _ := strconv.Atoi(m[2])
		add(token{kind: number, text: m[1], value: float64(a)}, len(m[1])+1)
		add(token{kind: number, text: m[2], value: float64(b)}, len(m[2]))
		low = low[from-at:]
		if strings.HasPrefix(low, ".") {
			add(token{kind: stop, text: "."}, 1)
			low = low[1:]
		}
	}
	for len(low) > 0 {
		c, n := utf8.DecodeRuneInString(low)
		if c >= '0' && c <= '9' {
			m := numberForm.FindString(low)
			v, err := strconv.ParseFloat(strings.ReplaceAll(m, ",", ""), 64)
			if err != nil || v > 1e9 {
				add(token{kind: word, text: "#"}, len(m))
			} else {
				add(token{kind: number, text: m, value: v, decimal: strings.Contains(m, ".")}, len(m))
			}
			low = low[len(m):]
			continue
		}
		switch {
		case isLetter(c):
			n = 0
			for n < len(low) {
				c, k := utf8.DecodeRuneInString(low[n:])
				if isLetter(c) || (c == '\'' || c == '’') && n > 0 && letterAt(low[n+k:]) {
					n += k
					continue
				}
				break
			}
			t := strings.ReplaceAll(low[:n], "’", "'")
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
			if tok.text == "wait" && len(out) > 0 && weighed[out[len(out)-1].text] {
				tok.text = "weight"
			}
			// An abbreviation keeps its dots: approx., o.c., lb., wt.
			if n < len(low) && low[n] == '.' && n+1 < len(low) && letterAt(low[n+1:]) && n == 1 {
				k := n
				letters := t
				for k+1 < len(low) && low[k] == '.' && letterAt(low[k+1:]) {
					_, size := utf8.DecodeRuneInString(low[k+1:])
					letters += low[k+1 : k+1+size]
					k += 1 + size
				}
				if k < len(low) && low[k] == '.' {
					k++
				}
				tok.text = letters
				n = k
			} else if n < len(low) && low[n] == '.' {
				// The dot of "approx." is nothing; that of "lb." may end a sentence too.
				if leading[tok.text] {
					n++
				} else if trailing[tok.text] {
					add(tok, n)
					add(token{kind: comma, text: "."}, 1)
					low = low[n+1:]
					continue
				}
			}
			add(tok, n)
		case c == '$':
			add(token{kind: word, text: "$"}, n)
		case c == '"' || c == '″' || c == '”' || c == '“':
			if len(out) > 0 && out[len(out)-1].kind == number {
				add(token{kind: word, text: "inch"}, n)
			} else {
				from += n
			}
		case c == '\'' || c == '′' || c == '’':
			if len(out) > 0 && out[len(out)-1].kind == number && from > at {
				add(token{kind: word, text: "foot"}, n)
			} else {
				from += n
			}
		case c == '.' || c == '!' || c == '?' || c == '…':
			add(token{kind: stop, text: "."}, n)
		case c == ',' || c == ';' || c == ':' || c == '(' || c == ')' || c == '[' || c == ']' || c == '—' || c == '–':
			add(token{kind: comma, text: string(c)}, n)
		case c == '/':
			add(token{kind: word, text: "/"}, n)
		case c == '-':
			// Between digits a hyphen means something (2-5/16, 555-0142); between words it is
			// a space, alone it is a dash.
			switch {
			case len(w) == 1:
				add(token{kind: comma, text: "-"}, n)
			case from > at && len(out) > 0 && out[len(out)-1].kind == number && len(low) > 1 && low[1] >= '0' && low[1] <= '9':
				add(token{kind: word, text: "-"}, n)
			default:
				from += n
			}
		case c == '%':
			add(token{kind: word, text: "percent"}, n)
		case c == '°':
			add(token{kind: word, text: "degrees"}, n)
		case c == '@':
			add(token{kind: word, text: "at"}, n)
		case c == '&':
			add(token{kind: word, text: "and"}, n)
		case c == '+':
			add(token{kind: word, text: "plus"}, n)
		case c == '×':
			add(token{kind: word, text: "x"}, n)
		case c == '#' && from > at && len(out) > 0 && out[len(out)-1].kind == number:
			add(token{kind: word, text: "pound"}, n)
		case c == '#':
			add(token{kind: word, text: "number"}, n)
		case c == '~':
			add(token{kind: word, text: "about"}, n)
		case c == '½' || c == '¼' || c == '¾':
			v := map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75}[c]
			add(token{kind: number, text: string(c), value: v, decimal: true}, n)
		default:
			from += n // notes, dashes, dingbats: nothing is said
		}
		low = low[n:]
	}
	return out
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
	"axil": "axle", "axils": "axles", "goosneck": "gooseneck", "dovetale": "dovetail", "pentle": "pintle", "slash": "/", "haulin": "hauling", "askin": "asking", "weighin": "weighing", "sittin": "sitting", "carryin": "carrying", "pullin": "pulling", "lookin": "looking", "gettin": "getting", "keepin": "keeping", "runnin": "running", "torshion": "torsion"}

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
