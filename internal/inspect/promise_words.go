package inspect

import (
	"html"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

var (
	glyphs = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3", "⅛", " 1/8")
	// fractions are 4 1/2 and 4-1/2; apart are the groups of 9 000, 9'000 and 9_000; rounds are
	// letters O that somebody typed for zeros; emphasis are Markdown's marks among digits, as in
	// **4,**000, which the page shows (CommonMark 0.31.2, 6.2) and a reader reads over.
	fractions = regexp.MustCompile(`\b([0-9]+)[ -]+([1-7])[/⁄]([2-8])\b`)
	apart     = regexp.MustCompile(`(^|[^0-9,.'’_])([0-9]{1,3})[ '’_·]([0-9]{3})([^0-9]|$)`)
	emphasis  = regexp.MustCompile(`([0-9][,.]?)[*_~\x60]+([,.]?[0-9])`)
	rounds    = regexp.MustCompile(`[0-9][,.]?o+\b`)
)

// A promising is a text cut into small words, numbers and ends of sentences.
type promising struct {
	text string
	at   [][2]int
	word []string // the words, without blanks; a point where a line ends
}

// promisingIn cuts a text into words. One without a number has none.
func promisingIn(text string) *promising {
	if !mayCount(text) {
		return &promising{}
	}
	w := &promising{text: plainLetters(text)}
	w.at = tokensOf(w.text)
	w.word = make([]string, len(w.at))
	for i, at := range w.at {
		w.word[i] = strings.TrimSpace(w.text[at[0]:at[1]])
		if w.word[i] == "" {
			w.word[i] = "."
		}
	}
	return w
}

// mayCount reports whether a text may have a number, in digits or in words. It is quick, and
// looks no closer where a text has signs that plainLetters rewrites.
func mayCount(text string) bool {
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || c == '&' || isDigit(c) {
			return true
		}
	}
	text = strings.ToLower(text)
	for i := 0; i < len(text); {
		to := i
		for to < len(text) && isLetter(text[to]) {
			to++
		}
		if word := text[i:to]; numberWords[word] > 0 || strings.HasPrefix(word, "ton") && !strings.HasPrefix(word, "tongue") {
			return true
		}
		i = to + 1
	}
	return false
}

func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
func isLetter(c byte) bool { return c >= 'a' && c <= 'z' }

// tokensOf finds the words of a text, the numbers, the signs # and the ends of sentences: a mark
// with a space after it.
func tokensOf(text string) (out [][2]int) {
	for i := 0; i < len(text); {
		to := i
		switch c := text[i]; {
		case isDigit(c), c == '$' && i+1 < len(text) && isDigit(text[i+1]):
			to = endOfNumber(text, i+1)
		case c == '#':
			to = i + 1
		case strings.IndexByte(".;!?\n", c) >= 0:
			if i+1 == len(text) {
				to = i + 1
			} else if strings.IndexByte(" \t\n\f\r", text[i+1]) >= 0 {
				to = i + 2
			}
		default:
			to = endOfWord(text, i)
		}
		if to > i {
			out = append(out, [2]int{i, to})
		} else {
			_, size := utf8.DecodeRuneInString(text[i:])
			to = i + size
		}
		i = to
	}
	return out
}

// endOfNumber is where a number ends whose first sign is before i: 1,234.5.
func endOfNumber(text string, i int) int {
	for i < len(text) && (isDigit(text[i]) || text[i] == ',') {
		i++
	}
	if i+1 < len(text) && text[i] == '.' && isDigit(text[i+1]) {
		for i++; i < len(text) && isDigit(text[i]); i++ {
		}
	}
	return i
}

// endOfWord is where the letters at i end, with an apostrophe and what follows it; i if none is there.
func endOfWord(text string, i int) int {
	to := endOfLetters(text, i)
	if to == i || to == len(text) {
		return to
	}
	if c, size := utf8.DecodeRuneInString(text[to:]); c == '\'' || c == '’' {
		if end := endOfLetters(text, to+size); end > to+size {
			return end
		}
	}
	return to
}

func endOfLetters(text string, i int) int {
	for i < len(text) {
		c, size := rune(text[i]), 1
		if c >= utf8.RuneSelf {
			c, size = utf8.DecodeRuneInString(text[i:])
		}
		if !unicode.IsLetter(c) {
			break
		}
		i += size
	}
	return i
}

// plainLetters writes a text in small letters of our own alphabet, without accents and signs
// that cannot be seen, and numbers in one way: 9 000 and 9'000 as 9,000, 4 1/2 as 4.5.
func plainLetters(text string) string {
	text = html.UnescapeString(text)
	if ascii(text) {
		text = strings.ToLower(text)
	} else {
		text = ownLetters(text)
	}
	// Looking for one letter costs little, and most texts have nothing to rewrite.
	if strings.ContainsAny(text, "*_~`") {
		text = emphasis.ReplaceAllString(text, "$1$2")
	}
	if strings.Count(text, "ton") > strings.Count(text, "tongue") { // each row has a ton
		for _, row := range tonWords {
			text = row.form.ReplaceAllString(text, row.as)
		}
	}
	if strings.ContainsAny(text, "/⁄") {
		text = fractions.ReplaceAllStringFunc(text, func(s string) string {
			m := fractions.FindStringSubmatch(s)
			whole, _ := strconv.Atoi(m[1])
			over, under := float64(m[2][0]-'0'), float64(m[3][0]-'0')
			return strconv.FormatFloat(float64(whole)+float64(over/under), 'f', 2, 64) + " "
		})
	}
	if roundAfterDigit(text) {
		text = rounds.ReplaceAllStringFunc(text, func(s string) string { return strings.ReplaceAll(s, "o", "0") })
	}
	if groupsApart(text) {
		text = apart.ReplaceAllString(text, "$1$2,$3$4")
	}
	return text
}

// mayHold reports whether a text may hold one of the words, which are in small letters. It is a quick
// look before an expression that asks for one of them; a text with other letters than ours may hold
// anything.
func mayHold(text string, words ...string) bool {
	if !ascii(text) {
		return true
	}
	text = strings.ToLower(text)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, w) })
}

func ascii(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// ownLetters writes a text in small letters of our own alphabet.
func ownLetters(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Mn, r) {
			return -1
		}
		if own, is := lookAlikes[r]; is {
			return own
		}
		return r
	}, strings.ToLower(norm.NFKD.String(glyphs.Replace(text))))
}

// groupsApart reports whether a text has two digits with a sign between them that may part the
// groups of one number.
func groupsApart(text string) bool {
	for i := 1; i+1 < len(text); i++ {
		if !isDigit(text[i-1]) {
			continue
		}
		switch c := text[i]; {
		case c == ' ', c == '\'', c == '_':
			if isDigit(text[i+1]) {
				return true
			}
		case c >= utf8.RuneSelf:
			return true
		}
	}
	return false
}

// roundAfterDigit reports whether a text has a digit and then an o, maybe with a mark between them.
func roundAfterDigit(text string) bool {
	digit := func(i int) bool { return i >= 0 && isDigit(text[i]) }
	for i := range len(text) {
		if text[i] == 'o' && (digit(i-1) || i > 0 && (text[i-1] == ',' || text[i-1] == '.') && digit(i-2)) {
			return true
		}
	}
	return false
}

// tonWords write tons in words that have no number in front, or a half after them, in numbers. Each
// row has an example. "A ton of space" is not a weight. The words are common practice, no source.
var tonWords = []struct {
	form   *regexp.Regexp
	as, eg string
}{
	{regexp.MustCompile(`\b(?:an?|one)[\s-]+(?:(?:good|full|whole|solid|metric)\s+)?(tons?|tonnes?)[\s-]+and[\s-]+a[\s-]+half\b`), "1.5 $1", "a ton and a half"},
	{regexp.MustCompile(`\b([0-9]+|[a-z]+)[\s-]+(tons|tonnes)[\s-]+and[\s-]+a[\s-]+half\b`), "$1 and a half $2", "two tons and a half"},
	{regexp.MustCompile(`\ba\s+(?:ton|tonne)[\s-]+and[\s-]+(?:a\s+quarter|some)\b`), "1.25 tons", "a ton and a quarter"},
	{regexp.MustCompile(`\ba\s+couple\s+(?:of\s+)?(tons|tonnes)\b`), "2 $1", "a couple of tons"},
	{regexp.MustCompile(`\b(una)\s+tonelada\s+y\s+media\b`), "1.5 toneladas", "una tonelada y media"},
	{regexp.MustCompile(`\b(dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez)\s+toneladas\s+y\s+media\b`), "$1 and a half toneladas", "dos toneladas y media"},
	{regexp.MustCompile(`\b((?:carr(?:y|ies)|hauls?|takes?|holds?|payload(?:\s+is|\s+of)?)\s+(?:(?:about|over|up\s+to|more\s+than)\s+)?)an?\s+(?:(?:good|full|whole|metric)\s+)?ton\b`), "${1}1 ton", "hauls a full ton"},
	{regexp.MustCompile(`\b((?:lleva|carga|aguanta)\s+(?:hasta\s+)?)una\s+tonelada\b`), "${1}1 tonelada", "lleva una tonelada"},
}

// lookAlikes are letters of other alphabets that look like one of ours: Cyrillic, Greek and
// Armenian, and ours without a dot. By looking at them; no source.
var lookAlikes = func() map[rune]rune {
	out := map[rune]rune{}
	other, own := []rune("авеікмнорстухјѕԁһӏԛԝгαβεικνορτυχωγησօոսհզցյıɡɑ"), []rune("abeikmhopctyxjsdhlqwrabeiknoptuxwynoonuhqgjiga")
	for i, r := range other {
		out[r] = own[i]
	}
	return out
}()
