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
		presumably likely roughly ballpark park reckon reckoned figure figured feels looks seems should ai chatbot memory remember remembered recall unsure unverified unconfirmed unknown
		estimado estimada tanteo creo memoria supuesto`)
	// absent are words by which what follows was not read.
	absent = wordSet(`no not none never without missing gone lost unreadable illegible faded cannot can't couldn't didn't isn't wasn't
		sin falta ilegible`)
	// others are words for another trailer, or another thing than a trailer, than this one.
	others = wordSet(`another other others similar sister different alike identical next neighbor's neighbor’s neighbors cousin's cousin’s
		friend's friend’s brother's brother’s buddy's buddy’s else's car car's internet online web website forum ad ads listing post
		otro otra vecino parecido`)
	// places are the words for the things on which a value is printed, and for the tools that
	// measure it. Whoever fitted a part had its packing in his hands.
	places = placeWords(map[Place]string{
		OnLabel:    `tag tags label labels plate plates placard sticker decal etiqueta placa calcomanía`,
		OnTire:     `sidewall sidewalls flanco tire`,
		OnStamp:    `stamp stamped stamping stamps molded embossed engraved etched cast sello grabado`,
		ByScale:    `ticket scale scales weighed báscula boleto`,
		ByTape:     `tape measured ruler cinta`,
		OnPaper:    `sheet sheets manual brochure catalog certificate registration title invoice mso mco spec specs specification specifications model maker maker's maker’s makers manufacturer manufacturer's manufacturer’s factory ficha`,
		WhenFitted: `replaced fitted installed bought`,
		OnHitch:    `coupler ball kingpin lunette ring tongue drawbar chain`,
		OnAxle:     `axle axles hub`,
		OnWheel:    `rim wheel`,
		OnFrame:    `frame`,
	})
	// beforeLabel are the words in front of a tag, label or plate that is the trailer's own. A
	// price tag, a license plate and the tag of a winch are labels of something else.
	beforeLabel = wordSet(`a an the its it's this that my own on off from at by per and or to in is read see with both one two of
		certification cert certificate federal compliance vin gvwr gvw gawr id identification serial data rating rated ratings capacity weight load loading info
		information maker maker's maker’s makers manufacturer manufacturer's manufacturer’s manufacturers factory builder builder's builder’s mfg mfr build
		trailer trailer's trailer’s unit frame frame's tongue neck gooseneck drawbar side rail body door wall nose
		silver metal metallic aluminum steel foil vinyl paper brass riveted glued stamped printed sealed black white yellow blue red green small big large little
		front rear left right inside outside main original legible readable clear clean painted
		la el una su del de en esta certificación remolque fabricante`)
	// belongs are the words that say whose label it is, articles are skipped after them, and
	// labeled are the things whose label is this trailer's. makes are words after "label" by which
	// it is a tool.
	belongs  = wordSet("of from off for on de del")
	articles = wordSet("the this its a our el la los este su")
	labeled  = wordSet(`trailer trailer's unit it frame tongue neck gooseneck drawbar side left right front rear rail body door wall nose maker
		manufacturer factory builder inside outside certification gvwr vin ratings coupler
		remolque fabricante frente lado bastidor`)
	// parts are those on which a label is the part's own.
	parts = wordSet("axle axles hub coupler ball winch jack tire tires wheel wheels rim rims spare spring springs eje ejes")
	makes = wordSet("maker printer gun machine")
	// vehicles pull the trailer, and their labels are theirs.
	vehicles = wordSet(`truck truck's truck’s trucks pickup pickup's pickup’s tractor tractor's vehicle vehicle's suv van camioneta troca`)
	// origins are the places of the known origins.
	origins = map[Origin]Place{Tag: OnLabel, CouplerPlate: OnHitch, AxleTag: OnAxle, Sidewall: OnTire, Stamp: OnStamp,
		ScaleTicket: ByScale, Tape: ByTape, MakersSheet: OnPaper, Model: OnPaper}
)

// A Place is where a value was read, or how it was measured. A note can name several.
type Place uint16

// The places.
const (
	OnLabel    Place = 1 << iota // a label, plate or tag
	OnTire                       // molded on the tire
	OnStamp                      // stamped into a part
	OnPaper                      // the maker's sheet, an invoice, a title
	OnHitch                      // the coupler or another part of the hitch
	OnAxle                       // the axle's own tag
	OnWheel                      // the wheel
	OnFrame                      // the frame
	ByScale                      // weighed
	ByTape                       // measured with a tape
	WhenFitted                   // known since the part was fitted
)

func placeWords(lists map[Place]string) map[string]Place {
	out := map[string]Place{}
	for place, list := range lists {
		for _, w := range strings.Fields(list) {
			out[w] |= place
		}
	}
	return out
}

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

// tells reports whether somebody who is not a label says it: "the web says".
func tells(words []string) bool {
	for i, w := range words {
		if (w == "says" || w == "claims" || w == "dice") && (i == 0 || places[words[i-1]] == 0) {
			return true
		}
	}
	return false
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
func (p Provenance) NamesPlace() bool { return p.Places() != 0 }

// Places are what a note says that the value was read on, or measured with: none where it names
// no such thing, says that it is not there, or speaks of another trailer.
func (p Provenance) Places() (out Place) {
	if p.Origin != Other {
		return origins[p.Origin]
	}
	words := noteWords(strings.ToLower(p.Text))
	if anyOf(words, absent) || anyOf(words, others) || strings.ContainsFunc(p.Text, foreign) {
		return 0
	}
	for i, w := range words {
		place := places[strings.Trim(w, "'’")]
		if i > 0 && makes[w] && places[words[i-1]]&OnLabel != 0 {
			continue
		}
		if place&OnLabel != 0 && !ownLabel(words, i) {
			place &^= OnLabel
		}
		out |= place
	}
	return out
}

// ownLabel reports whether the word at i, as in tag or plate, is this trailer's label: nothing is
// in front of it, or a word that fits, and what follows does not make it that of something else.
func ownLabel(words []string, i int) bool {
	if anyOf(words, vehicles) || i > 0 && !beforeLabel[words[i-1]] && places[words[i-1]]&OnLabel == 0 {
		return false
	}
	rest := words[i+1:]
	if len(rest) == 0 || !belongs[rest[0]] {
		return len(rest) == 0 || !makes[rest[0]]
	}
	for _, w := range rest[1:] {
		if !articles[w] {
			return labeled[w] || rest[0] == "on" && !parts[w]
		}
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
