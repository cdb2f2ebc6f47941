package unit

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"
)

// A privateWord is what people call something that is the yard's own affair: what it paid, what
// it would take, and who is involved. There is no key for it, and a customer must not read it.
// How yards call these is common practice, no source. A test reads each row's example.
type privateWord struct {
	// words are separated by |, as plainWord writes them.
	words string
	// within reports that the word may be a part of the key, as in "our cost".
	within bool
	// example is a line as people write it.
	example string
}

var privateWords = []privateWord{
	{"cost|dealer net|net|landed|all in|we have in it|in it for", true, "cost: 3100"},
	{"paid|purchase|purchased|bought", true, "we paid: $3,100"},
	{"invoice|invoiced", true, "invoice no: 4711"},
	{"lowest|floor price|bottom|bottom dollar|minimum price|min price|reserve price|reserve|will take|take", true, "lowest price: 3,300"},
	{"margin|profit|markup|mark up|commission|spiff|pack|holdback", true, "margin: 18%"},
	{"wholesale|dealer price|trade in|trade value|appraisal|book value", true, "wholesale: $2,900"},
	{"floor plan|floorplan|lender|lien holder|lienholder|payoff|bank", true, "floorplan: GreenBank 3100"},
	{"consignor|consigner|consigned by|consignment|consigned", true, "consignor: Ray Poole"},
	{"owner|previous owner|last owner|former owner|owner name|owned by", false, "owner: Bob Hill"},
	{"customer|buyer|sold to|bought by|deposit from|held for|hold for", true, "customer: Ann Lee"},
	{"vendor|seller|supplier|bought from|came from|wholesaler", true, "vendor: Ray Poole"},
	{"deposit|deposit taken|deposit paid|deposit received|balance due|owed|trade|traded|traded from|trade allowance|source|acquired|acquired from|sold price|repo", false, "deposit: $500"},
	{"memo|todo|to do|reminder|internal|internal note|private|secret", false, "memo: ring Ann on Friday"},
	{"key|gate code|gatecode|lock code|lockcode|code|alarm|password|combination", false, "gate code: 4471"},
	{"salesman|salesperson|sales rep|sold by", true, "salesman: Bob"},
	{"phone|phone number|cell|cell phone|telephone|mobile|email|e mail|mail|address|contact|call", false, "phone: 555-0161"},
}

// isPrivate reports whether a key names something that is the yard's own affair.
func isPrivate(name string) bool {
	word := plainWord(name)
	for _, row := range privateWords {
		for one := range strings.SplitSeq(row.words, "|") {
			if word == one || row.within && strings.Contains(" "+word+" ", " "+one+" ") {
				return true
			}
		}
	}
	return false
}

// ownMark is what people put in front of a key that is for themselves: x-cost, _cost.
var ownMark = regexp.MustCompile(`(?i)^(?:x-|_)`)

// proofRemedy says how a photo of a proof is written: it is not a key of its own.
const proofRemedy = "a photo of where a value was read goes below proof:, as in - file: media/label.jpg, with shows: label and proves: weights.gvwr below it"

// notForCustomers says what to do with what is the yard's own affair.
func notForCustomers(word string) string {
	return "customers would read it, and this is not for them: delete the line, or put # in front of it, as in # " +
		shorten(word) + ": ..., which stays in the file; your own sheet is a place for it too"
}

// Telephone numbers of the North American Numbering Plan, with and without the area code, and
// mail addresses.
var (
	phoneIn = regexp.MustCompile(`(^|[^0-9-])(\+?1[-. ]?)?(\(?[0-9]{3}\)?[-. ]?)?[0-9]{3}[-. ][0-9]{4}($|[^0-9-])|(^|[^0-9])[2-9][0-9]{9}($|[^0-9])`)
	mailIn  = regexp.MustCompile(`[A-Za-z0-9.+_-]+@[A-Za-z0-9-]+\.[A-Za-z]`)
)

// reachesSomebody reports whether a value holds a telephone number or a mail address.
func reachesSomebody(value *yaml.Node) bool {
	return value != nil && value.Kind == yaml.ScalarNode && (phoneIn.MatchString(value.Value) || mailIn.MatchString(value.Value))
}

// staysPrivate reports whether a line without a key is the yard's own affair. The row of the
// everyday words for the key comes first, if there is one.
func staysPrivate(word string, value *yaml.Node, e everyday, known bool) bool {
	if !known && value.Kind != yaml.MappingNode && isPrivate(word) {
		return true
	}
	return e.path == "" && reachesSomebody(value)
}

var (
	moneyIn     = regexp.MustCompile(`(?i)\$ ?[0-9]|[0-9] ?(dollars|bucks|usd)\b`)
	plainNumber = regexp.MustCompile(`^[0-9][0-9,.]*k?$`)
	// namesSomebody is two to four words with capitals, and nothing else.
	namesSomebody = regexp.MustCompile(`^[A-Z][a-z]+\.?(?: [A-Z][A-Za-z]*\.?){1,3}$`)
)

// mostCounted is the largest number that is taken for a count of things and not for money.
// Common practice, no source.
const mostCounted = 99

// maybeMoney reports whether a value is an amount, or a number that may be one.
func maybeMoney(text string) bool {
	if moneyIn.MatchString(text) {
		return true
	}
	if !plainNumber.MatchString(text) {
		return false
	}
	n, err := strconv.Atoi(text)
	return err != nil || n > mostCounted
}

// listIt says how something without a key is listed under standard. An amount of money and a name
// are not equipment, so it does not offer to publish them.
func listIt(item, word string, value *yaml.Node) string {
	line := "list it under standard: as '" + itemFor(item, word, value) + "'"
	if value == nil || value.Kind != yaml.ScalarNode || slices.Contains([]string{"", "yes"}, value.Value) {
		return line
	}
	text := strings.TrimSpace(value.Value)
	switch {
	case maybeMoney(text):
		return "is this number for customers? if it is, write in words below the second line of --- what it is; if not, put # in front of the line, as in # " + shorten(word) + ": ..."
	case namesSomebody.MatchString(text):
		return "if it is equipment, " + line + "; if it is somebody's name, put # in front of the line, and customers do not read it"
	}
	return line
}
