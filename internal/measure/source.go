package measure

import (
	"strings"
	"unicode"
)

// The words of a note by which it is not a reading, or is one. English first, then Spanish. What
// people write there is common practice, no source.
var (
	// hearsay are words for what somebody told, and for who did.
	hearsay = wordSet(`said told tells heard hear spoken spoke mentioned claims claimed according hearsay reportedly allegedly
		verbal verbally driver owner seller customer buyer hauler guy salesman salesperson he she they somebody someone everybody
		friend boss mechanic neighbor
		dijo dice dicho oído según chofer dueño vendedor cliente`)
	guesses = wordSet(`guess guessed guessing guesses estimate estimated estimation est approx approximate approximately assume assumed
		assuming assumption probably maybe perhaps think thinks thought believe believed believes suppose supposed supposedly
		presumably likely roughly ballpark memory remember remembered recall unsure unverified unconfirmed unknown
		estimado estimada tanteo creo memoria supuesto`)
	// absent are words by which what follows was not read.
	absent = wordSet(`no not none never without missing gone lost unreadable illegible faded cannot can't couldn't didn't isn't wasn't
		sin falta ilegible`)
	// places are the things on which a value is printed, and the tools that measure it. Whoever
	// fitted a part had its packing in his hands.
	places = wordSet(`tag tags label labels plate plates placard sticker decal sidewall sidewalls stamp stamped stamping stamps molded embossed
		engraved etched cast ticket scale scales weighed tape measured ruler sheet sheets manual brochure catalog
		certificate registration title invoice mso mco spec specs specification specifications model
		maker maker's maker’s makers manufacturer manufacturer's manufacturer’s factory
		replaced fitted installed bought
		coupler ball kingpin lunette ring rim wheel tire hub axle tongue frame drawbar chain
		etiqueta placa calcomanía báscula boleto cinta sello grabado flanco ficha`)
)

func wordSet(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// noteWords cuts a note in small letters into words.
func noteWords(low string) []string {
	return strings.FieldsFunc(low, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '’' })
}

func anyOf(words []string, set map[string]bool) bool {
	for _, w := range words {
		if set[strings.Trim(w, "'’")] {
			return true
		}
	}
	return false
}

// NamesPlace reports whether a note names a thing that the value can be read on, or the tool
// that measured it: a known origin, or the author's own words with such a thing among them.
func (p Provenance) NamesPlace() bool {
	switch p.Origin {
	case Tag, CouplerPlate, AxleTag, Sidewall, Stamp, ScaleTicket, Tape, MakersSheet, Model:
		return true
	case Other:
		words := noteWords(strings.ToLower(p.Text))
		return anyOf(words, places) && !anyOf(words, absent) && !strings.ContainsFunc(p.Text, foreign)
	}
	return false
}

// foreign reports whether a character is a letter that an American or Spanish word does not
// have: one of another alphabet, many of which look like ours, or a mark that is put over one.
func foreign(r rune) bool {
	return unicode.IsMark(r) || unicode.IsLetter(r) && r != 'µ' && !(r < 0x250 && unicode.Is(unicode.Latin, r))
}

// LookAlike returns a word in which letters of two alphabets are mixed, as nobody writes: "sаid"
// with a Cyrillic а. It returns an empty text if there is none.
func LookAlike(text string) string {
	for _, w := range strings.Fields(text) {
		other := strings.IndexFunc(w, foreign)
		own := strings.IndexFunc(w, func(r rune) bool { return unicode.IsLetter(r) && !foreign(r) })
		if other >= 0 && own >= 0 {
			return w
		}
	}
	return ""
}
