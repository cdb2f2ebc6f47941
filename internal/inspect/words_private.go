package inspect

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

var wordsPrivate = &Rule{
	Name: "words-private", Severity: Stop,
	Title: "no text that customers read says what the yard paid, what it would take, or who a customer is",
	Why: "Everybody reads the page, and copies of it stay on other people's phones. What the yard paid is its own affair, " +
		"and a customer did not agree to be named.",
	Source: Practice,
	Remedy: "take the words out; a note to yourself is a line that begins with # and a blank, above the second line of ---",
	check: func(c *Case, f *Findings) {
		for _, t := range c.published() {
			for _, p := range c.private(t.text) {
				found := f.add(t.place(p.at), "customers would read %q, and this is %s", p.says, p.what)
				if said := sentence(t.text, p.at, len(p.says)); said != p.says {
					found.fix("take out all that belongs to it, the words before and after too: %q; a note to yourself is a line that begins with # and a blank, above the second line of ---", said)
				}
				if t.at.File != c.File && strings.HasPrefix(t.at.File, "content/media/") {
					found.fix("delete these words in the captions, whose other lines may stay; what is said in the video itself stays in it: cut that too, or take the video out")
				} else if p.what == somebodysPhone {
					found.fix("take the number out: the pages print the yard's own, from phone: and text: in content/yard.md")
				}
			}
		}
	},
	checkYard: func(y *Yard, f *Findings) {
		none := &Case{Unit: &unit.Unit{}}
		for _, t := range y.writing() {
			for _, p := range none.private(t.text) {
				if p.what != somebodysPhone {
					f.add(t.place(p.at), "customers would read %q, and this is %s", p.says, p.what)
				}
			}
		}
	},
}

// published lists the texts of the unit that customers read, with its title, the names of its
// tie-downs and the captions of its video.
func (c *Case) published() []writing {
	out := slices.DeleteFunc(c.writing(), func(w writing) bool { return w.code || w.at == c.Serial.Pos || w.at == c.Withhold.Pos })
	if c.Title.Given() {
		out = append(out, writing{text: c.Title.Value, at: c.Title.Pos})
	}
	for _, t := range c.TieDowns {
		out = append(out, writing{text: t.Kind.Value, at: t.Kind.Pos})
	}
	for _, m := range c.Media {
		if m.Path != "recording.captions" || m.Fault != "" || !c.Recording.Video.Given() {
			continue
		}
		track, _, err := captions.Read(m.Name, m.Data)
		if err != nil {
			continue // captions-unreadable says so
		}
		for _, cue := range track.Cues {
			at := unit.Pos{File: "content/" + m.Name, Line: int32(line(track, cue.Start)), Column: 1}
			out = append(out, writing{text: cue.Text, at: at})
		}
	}
	return out
}

// What the words are, as a message says it.
const (
	yardsPaid      = "what the yard paid"
	yardsTakes     = "what the yard would take or earn"
	yardsLender    = "whom the yard owes"
	somebody       = "about a person"
	wayIn          = "how to get in"
	keptQuiet      = "what somebody asks to keep quiet"
	somebodysPhone = "a telephone number or an address of somebody's"
)

// An affair is a way in which people write what is the yard's own affair or somebody's. The words
// are common practice, no source. A test reads each row's examples.
type affair struct {
	words string // one of these is in the text, in small letters
	form  *regexp.Regexp
	what  string
	money bool // what the form ends with is an amount, which may be a public one
	eg    string
	not   string // what looks like it and is not
}

// Parts of forms: where a clause begins, what may stand between a word and its amount, and an amount.
const (
	clause     = `(?:^|[.;:,!?()–—-]\s*)`
	linked     = `(?:\s+(?:was|is|for|at|of|price|about|only|just))*\s*[:=]?\s*`
	dollar     = `(?:\$\s?[0-9][0-9,.]*\s?(?:k\b)?|\b[0-9][0-9,.]*\s?k?\s*(?:dollars|bucks|usd|dólares)\b)`
	spelledSum = `(?:(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|grand)(?:[\s-]+|\b))+`
	sum        = `(?:` + dollar + `|\b[0-9]{1,3},[0-9]{3}\b|\b[0-9]{3,6}\b|\b[0-9.]+\s?k\b)`
)

func private(form string) *regexp.Regexp { return regexp.MustCompile(`(?i)` + form) }

var affairs = []affair{
	{"cost|net|landed|all in|all-in|invoice|invoiced|paid|purchase|purchased|bought",
		private(clause + `(?:cost|cost price|net|landed|all[- ]in|invoiced?|paid|purchased?|purchase price|bought)` + linked + sum + `|` + clause + `(?:cost|paid)` + linked + `[0-9]{2}\b`),
		yardsPaid, true, "Cost: $4,100", "delivery cost: $200"},
	{"cost|costs|net|price|invoice",
		private(`\b(?:our|my|dealer|dealer['’]s|yard|landed|true|actual|total)\s+(?:costs?|cost price|net|price|invoice)` + linked + sum),
		yardsPaid, true, "our cost was 4,100", "our delivery costs $200"},
	{"paid|gave|bought|pagamos|pagué",
		private(`\b(?:we|i|yard|boss|they|he|she)\s+(?:(?:only|just|have|had)\s+)*(?:paid|gave|bought)\s+(?:(?:it|him|her|them|this one|for|at|only|just|about)\s+)*` + sum),
		yardsPaid, true, "we only paid $3,100 for it", "we paid for new tires"},
	{"cost|costs|cost's|cost’s", private(`\b(?:my|our)\s+cost(?:['’]s)?\s+(?:is\s+)?(?:in|on|about|around|like|right)\b`), yardsPaid, false, "my cost's in the book", "our cost to you is nothing"},
	{"gave", private(`\bgave\s+(?:him|her|them|the\s+\pL+)?\s*(?:(?:like|about|only)\s+)*(?:` + sum + `|` + spelledSum + `)`), yardsPaid, false, "Gave him twelve on trade", "it gave no trouble"},
	{"take|go|do|let", private(`(?:` + clause + `|\b(?:we|i|he|boss|they)(?:\s+|['’]))(?:(?:might|may|would|could|can|will|d|ll)\s+)(?:\pL+\s+)?(?:take|go|do|let\s+(?:it|her)\s+go)\s+(?:(?:for|to|down|as|low)\s+)*(?:` + sum + `|` + spelledSum + `)`),
		yardsTakes, true, "Might take fifteen five", "it can take sixteen foot boards"},
	{"still", private(`\bstill\s+(?:be\s+(?:alright|all\s+right|okay|ok|alive|fine)|make\s+(?:money|something|a\s+little))\b`), yardsTakes, false, "we can still be alright", "the paint is still alright"},
	{"code|password|combination|key|keys", private(`\b(?:gate|lock|door|lockbox|alarm|security)\s+code\b|\bcode\s+(?:to|for)\s+(?:the\s+)?(?:gate|lock|door|box|yard|shop|office)\b|\b(?:password|combination)\s+(?:is|to|for)\b|\bkeys?\s+(?:is|are)\s+(?:under|behind|on\s+top)\b`),
		wayIn, false, "code to the gate's 4471", "date code is 3126"},
	{"say|tell|mention|post|publish|put|quiet|yourself|between|record|online|internet", private(`\b(?:do\s+not|don['’]?t|never)\s+(?:you\s+)?(?:(?:say|tell|mention|post|publish)\b|put\s+(?:that|this|it)\s+(?:online|up|in\s+the\s+ad|on\s+the\s+(?:site|web|internet|page)))|\bbetween\s+(?:you\s+and\s+me|us)\b|\boff\s+the\s+record\b|\bkeep\s+(?:that|this|it)\s+(?:quiet|to\s+yourself|between)\b`),
		keptQuiet, false, "so don't say nothing about that online", "don't put more on the ramps"},
	{"consignment|selling|sell", private(`\bon\s+consignment\b|\bsell(?:ing)?\b[.\s]+(?:(?:it|this|that|one)[.\s]+)*for\s+(?:him|her|them|a\s+(?:customer|friend|guy|lady|fella|neighbor))\b`),
		somebody, false, "we're just selling. It for her", "selling it for less"},
	{"fella|fellow|guy|lady|gentleman|widow", private(`\b(?:from|off|to|for)\s+(?:an?|this|some|that|the)\s+(?:(?:old|older|nice|young)\s+)?(?:fella|fellow|guy|lady|gentleman|widow)\b`),
		somebody, false, "From a fella out of Tulsa", "a guy wire"},
	{"calls|called|call", private(`\b(?:he|she)\s+(?:calls?|called|comes|came)\s+back\b`), somebody, false, "if he calls back about it", "call back any time"},
	{"paid|cost|costs|costó", private(`\b(?:cost|costs)\s+(?:us|me|the yard)\b|\bnos\s+costó\b|\bwhat\s+(?:we|i)\s+paid\b`), yardsPaid, false, "it cost us plenty", "it costs you nothing"},
	{"in", private(`\b(?:have|has|got|are|am|is|['’]ve|['’]re|['’]m)\s+(?:about\s+|only\s+)?` + sum + `\s+(?:in|into|tied up in)\s+(?:it|this|her|the trailer)\b`),
		yardsPaid, false, "we have $4,100 in it", "it has 3 lamps in it"},
	{"take|takes|do|accept|go|drop|tomar|dejamos",
		private(`\b(?:would|will|we['’]d|we['’]ll|i['’]d|i['’]ll|could|can)\s+(?:(?:still|also|probably|always|even|maybe)\s+)?(?:take|do|accept|go|drop|come down)\s+(?:(?:it|as|low|down|for|to)\s+)*` + dollar),
		yardsTakes, true, "would take $5,900", "it will take 6,000 lb"},
	{"lowest|bottom|floor|reserve|minimum|least",
		private(`\b(?:lowest(?:\s+price)?|bottom(?:\s+(?:dollar|line|price))?|(?:floor|reserve|minimum|least)\s+price|reserve|the least)` + linked + sum),
		yardsTakes, true, "lowest price: 3,300", "lowest deck in the yard"},
	{"margin|profit|markup|mark-up|commission|spiff|holdback",
		private(`\b(?:margin|profit|mark-?up|commission|spiff|holdback)` + linked + `(?:` + sum + `|[0-9.]+\s?%)`),
		yardsTakes, false, "margin 18%", "no commission for you to pay"},
	{"wholesale|dealer|trade|trade-in|appraised|appraisal|acv",
		private(`\b(?:wholesale|dealer\s+net|trade[- ]in(?:\s+value)?|trade\s+value|apprais(?:ed|al)|acv)` + linked + sum),
		yardsTakes, true, "wholesale $2,900", "we take trades and pay wholesale"},
	{"floor|floorplan|lien|lienholder|payoff",
		private(`\bfloor[- ]?plan(?:ned|ning)?\s*(?:[:=]|by\b|with\b|at\b|\)|$)|\bfloor[- ]?planned\b|\blien\s?holder\s*[:=]?\s*\S|\bpay-?off` + linked + sum),
		yardsLender, false, "floor plan: GreenBank", "the floor plan shows where the sink is"},
	{"customer|buyer|sold|held|hold|deposit|consignor|consigner|consigned|consignment|owner|vendor|supplier|seller|salesman|salesperson|rep|bought|purchased|came|lender|cliente|comprador|dueño",
		private(clause + `(?:customer|buyer|sold\s+to|(?:held|hold|holding)\s+for|deposit\s+(?:from|by)|consign(?:or|er|ed|ment)(?:\s+(?:by|for|from))?|(?:(?:previous|last|former)\s+)?owner|vendor|supplier|seller|salesman|salesperson|sales\s+rep|(?:bought|purchased)\s+(?:from|off)|came\s+from|lender|cliente|comprador|dueño(?:\s+anterior)?)(?:\s+name)?\s*[:=]\s*\S[^.;,!?\n]*`),
		somebody, false, "customer: Ann Lee", "The customer can see it today"},
	{"customer|buyer|sold|held|hold|holding|deposit|consigned|consignment|owner|owned|belonged|belongs|bought|purchased|got|traded|vendido|apartado",
		regexp.MustCompile(`\b((?i:customer|buyer|sold\s+to|(?:held|hold|holding)\s+for|deposit\s+(?:from|by)|consign(?:ed|ment)\s+(?:by|for|from)|owner|owned\s+by|belong(?:ed|s)\s+to|(?:bought|purchased|got)\s+(?:(?:it|this|her|new|used)\s+)*(?:from|off)|traded\s+(?:in\s+)?by|vendido\s+a|apartado\s+para))(?:\s+(?i:is|was|named|mr\.?|mrs\.?|ms\.?|our|name))*\s+(\p{Lu}\p{Ll}+)(?:\s+\p{Lu}\p{Ll}+)?`),
		somebody, false, "sold to Ann for cash", "Buyer Pays Freight"},
	{"mr|mrs|mr.|mrs.", private(`\b(?:mr|mrs)\b\.?\s+\p{L}{2,}`), somebody, false, "Mrs. Lee had it", "a mirror"},
}

// notNames are words that begin with a capital in a headline after a word for a person.
var notNames = set(`trailer trailers truck unit operator operated maintained kept title sale sales price cash pays pay must will is may beware responsible assumes manual manuals satisfaction service services financed financing protection pickup
	inspection welcome this it its us the a an our your and or only can gets has have needs says does should wants new used one name named information info
	ready approved verified care support parts discount appreciation delivery deposit required holds since until january february march april may june july
	august september october november december monday tuesday wednesday thursday friday saturday sunday`)

var (
	// notTheirs are the words after an amount by which it is not what this yard paid for the trailer.
	notTheirs = regexp.MustCompile(`(?i)^\s*(?:new\b|elsewhere|extra|more|less|each|per\b|/|a\s+(?:month|day|week|year|mile)|(?:for|to|in)\s+(?:the\s+|a\s+|new\s+|its\s+)*(?:tires?|brakes?|deliver\w*|ship\w*|paint\w*|replace\w*|repair\w*|parts?|labor|freight|title|registration))`)
	// measures are the units after a number by which it is not an amount.
	measures = regexp.MustCompile(`(?i)^\s*(?:-?\s*(?:lbs?|pounds?|#|kg|kilos?|ft|feet|foot|inch(?:es)?|psi|gal\w*|miles?|mi|hours?|hrs?|days?|weeks?|months?|years?|tons?|bolts?|watts?|amps?|volts?|axles?|tires?|foot|boards?|bales?|mph|cars?|x|by)\b|in(?:$|[^\s\pL])|['"%])`)
	plain    = regexp.MustCompile(`[0-9][0-9,]*(?:\.[0-9]+)?`)
	// phones are telephone numbers of the North American Numbering Plan, and mails mail addresses.
	phones = regexp.MustCompile(`(?:\+?1[-. ])?(?:\([0-9]{3}\)\s?|\b[0-9]{3}[-. ])?\b[0-9]{3}[-.][0-9]{4}\b|\([0-9]{3}\)\s?[0-9]{3}\s[0-9]{4}\b`)
	mails  = regexp.MustCompile(`[A-Za-z0-9.+_-]+@[A-Za-z0-9-]+\.[A-Za-z]+`)
	// partNumbers are the words in front of a number that has the form of a telephone number.
	partNumbers = regexp.MustCompile(`(?i)(?:part|parts|p/n|pn|kit|model|hub|seal|bearing|stock|unit|serial|order|form|no\.?|number|#|[0-9-])\s*(?:no\.?|number|#)?\s*:?\s*$`)
)

// affairsBy are the rows by their words.
var affairsBy = func() map[string][]int {
	out := map[string][]int{}
	for i, a := range affairs {
		for w := range strings.SplitSeq(a.words, "|") {
			first, _, _ := strings.Cut(w, " ")
			out[first] = append(out[first], i)
		}
	}
	return out
}()

// A tell is words of a text that are not for customers.
type tell struct {
	says, what string
	at         int
}

// private finds the words of a text that are not for customers, the first of each kind.
func (c *Case) private(text string) (out []tell) {
	var rows []int
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" \t\n.,;:!?()[]{}*_\"“”=/–—", r) }) {
		rows = append(rows, affairsBy[w]...)
	}
	slices.Sort(rows)
	enter := func(from, to int, what string) bool {
		if slices.ContainsFunc(out, func(t tell) bool { return from < t.at+len(t.says) && t.at < to }) {
			return false
		}
		says := strings.TrimLeft(text[from:to], " .,;:!?()–—-")
		out = append(out, tell{strings.TrimRight(says, " .,;:!?(–—-"), what, to - len(says)})
		return true
	}
	for _, i := range slices.Compact(rows) {
		for _, m := range affairs[i].form.FindAllStringSubmatchIndex(text, -1) {
			if affairs[i].holds(c, text, m) && enter(m[0], m[1], affairs[i].what) {
				break
			}
		}
	}
	// Looking for single letters costs little, and most texts have none.
	if digitsOf(text) >= 7 {
		for _, m := range phones.FindAllStringIndex(text, -1) {
			if !partNumbers.MatchString(text[:m[0]]) {
				enter(m[0], m[1], somebodysPhone)
			}
		}
	}
	if strings.Contains(text, "@") {
		for _, m := range mails.FindAllStringIndex(text, -1) {
			enter(m[0], m[1], somebodysPhone)
		}
	}
	return out
}

// sentence is the sentence of a text that holds some of its words, with those next to it where they
// are short, because captions end sentences anywhere.
func sentence(text string, at, length int) string {
	from, to := around(text, at, length)
	if from > 0 {
		if before, _ := around(text, from-2, 1); from-before <= shortSentence {
			from = before
		}
	}
	if to < len(text) {
		if _, after := around(text, min(to+2, len(text)-1), 1); after-to <= shortSentence {
			to = after
		}
	}
	said := strings.Join(strings.Fields(text[from:to]), " ")
	if len(said) > mostQuoted {
		return text[at : at+length]
	}
	return said
}

const (
	// shortSentence is how long a sentence is that is quoted with its neighbor, and mostQuoted how much
	// is quoted at most, in bytes: our own choice.
	shortSentence = 60
	mostQuoted    = 240
)

// digitsOf counts the digits of a text.
func digitsOf(text string) (n int) {
	for i := range len(text) {
		if text[i] >= '0' && text[i] <= '9' {
			n++
		}
	}
	return n
}

// holds reports whether what matched is what the row is about.
func (a *affair) holds(c *Case, text string, m []int) bool {
	if len(m) > 4 && notNames[strings.ToLower(text[m[4]:m[5]])] {
		return false
	}
	after := text[m[1]:]
	if !a.money {
		return true
	}
	numbers := plain.FindAllString(text[m[0]:m[1]], -1)
	if len(numbers) == 0 {
		return true
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(numbers[len(numbers)-1], ",", ""), 64)
	return (err != nil || !c.asked(measure.Dollars(v))) && !notTheirs.MatchString(after) && !measures.MatchString(after)
}
