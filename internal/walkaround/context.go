package walkaround

import "strings"

// What makes a number no figure of the unit at hand: it is another trailer's, it is
// supposed, denied, corrected, a difference, a telephone number, an hour.

// elsewhere begins talk of another unit or of what might be. Each runs from its
// clause's start to the sentence's end, or to a phrase of back.
var elsewhere = phrases("that one over", "that one", "for comparison", "by comparison", "compared to", "compare that to", "version", "version of it", "one over", "over there", "over yonder", "biggest one", "smallest one", "longest one", "largest one", "cheapest one", "the other one", "other unit", "other model",
	"other trailer", "one next to", "one behind", "one beside", "bigger one", "next size", "size up", "step up to", "just like it",
	"same thing", "same trailer", "little ones", "another one", "new ones", "would be", "would weigh", "you can order", "can order",
	"we also have", "we do have", "also comes", "optional", "wanting a", "want it in", "on some", "can also get", "could also get", "can get this", "also get it", "also get this", "i'd want", "i'd like to get", "is there a", "is there an", "do you have", "do y'all have", "want to see", "wants the", "wanted the", "looking for the", "everybody keeps", "right behind it", "parked behind it", "sitting behind it", "you'd want", "federal", "used to", "sister",
	"if you", "if i", "if your", "if it", "if it's", "if they", "say a", "a load of", "the painted one", "the steel one", "the last one", "one we sold", "my truck", "your truck", "truck of", "truck rated", "trucks rated", "truck that", "any truck", "pickup of", "pickup rated",
	"footer too", "footers too", "footer in stock", "footer on order", "one in stock", "rental fleet", "pickup may", "pickup might", "truck may", "truck might", "suv may", "suv might",
	"could get", "can get it", "could have", "suppose", "next to it", "the other ones", "smaller one", "longer one", "heavier one", "couplers all the time",
	"the old one", "the old axles", "the old axle", "the old tires", "the old deck", "the old ramps", "the old jack", "the old coupler", "the old floor", "the old trailer", "the old tag", "the original axles", "the original tires", "the original coupler", "the previous one", "moved to", "yonder", "behind me", "we have those", "we've got those", "have those too", "i'll have", "we'll have", "will have", "by then", "behind us", "down the road", "adjacent unit", "adjacent", "next door", "in town", "in the city", "they ask", "they're asking", "mine", "big one", "big un", "next one up", "one just like", "we had one", "had one", "my own",
	"he had", "he has", "he bought", "he wanted", "they had", "they bought", "they wanted", "customer", "customers", "a guy", "one guy", "guy who", "a fella", "a feller", "neighbor", "neighbor's", "buddy",
	"my cousin", "my brother", "my dad", "my daddy", "my uncle", "my boy", "my wife", "my grandpa", "granddad", "can i", "could i", "will it", "would it", "can it", "should i",
	"the cheap ones", "cheaper ones", "most of them", "most trailers", "other guys", "other brands", "competitor", "competitors", "will tell you", "i told him", "i told her",
	"was wanting", "wants a", "wanted a", "looking for a", "available with", "available in", "comes in a", "also available", "on order", "coming in next", "coming in this", "coming in on", "coming in later", "got coming", "parts room", "they make a", "they make them", "we make a", "we sell a", "we do a", "we do an", "we do them", "we build a", "we build them", "we carry", "we stock", "we offer", "they do a", "also do", "they start", "starts at", "i sold", "we sold", "sold a", "sold one", "sold for", "traded", "i wish", "don't confuse", "the one beside", "steps up to", "upgrade to", "upgrade", "don't need", "need to buy", "goosenecks", "trailers", "flatbeds", "haulers", "deckovers", "low at", "one tire", "left rear", "right rear", "left front", "right front", "came off", "i can load", "we can load", "i can put", "i can haul", "we can haul", "as wide as", "as long as", "as tall as", "as high as", "on trade", "trade it", "trade for", "would take a", "before me", "scale only", "scale goes", "to buy", "a loaded", "loaded one", "loaded ones",
	"they have a", "they had a", "they got a", "they've got a", "they run a", "they sell", "they charge", "compare that with", "compare it", "compared with", "compare this", "versus", "vs", "whereas",
	"permit", "the permit", "guys over", "those guys", "them boys", "the neighbors",
	"anywhere else", "everywhere else", "somewhere else", "other place", "other places", "other lot", "other lots", "other yard", "other yards", "other dealer", "other dealers", "the competition", "theirs",
	"the legal", "legal width", "legal limit", "legal weight", "legal length", "legal height", "the law", "by law", "state says", "state law", "state limit", "c d l", "cdl", "the internet",
	"reckon it'd", "reckon it would", "you reckon", "my first", "my last", "my old", "your old", "his old",
	"ordered one", "order one", "if we", "if he", "if she", "if somebody", "if someone", "unless you", "imagine", "let's say", "for example", "i always tell", "we always tell", "rule of thumb", "you could add", "could add", "can add", "we can put", "we could put", "we can add", "we could add", "we put a", "we put the")

// past begins talk of what was, unless it is when this trailer was weighed.
var past = phrases("back when", "back then", "when i", "when we", "i remember", "one time", "years ago", "months ago", "weeks ago", "last year", "last week",
	"last month", "last spring", "last summer", "last fall", "last winter", "last night", "the other day")

// notIf are the ifs that suppose nothing: "if you look at the tag".
var notIf = set(`look come notice see can count remember recall ask asked did do walk go follow zoom wonder wondering read check measured are were
	know care`)

// back ends talk of another unit.
var back = phrases("but", "this one", "this is", "this takes", "this here", "what's on it", "what on it", "ours", "this guy", "these are", "now this", "alright", "all right", "anyway", "moving on", "now the", "now on", "so the", "so this", "price is", "price on", "price out", "our price", "your price", "the right one", "so you can", "so you're", "so it", "this trailer", "on here", "so we've", "how high", "how wide", "how tall", "we've got it", "we have it at", "i'm looking for", "i'm asking", "we're asking", "okay so", "now your", "now you've")

// talkOfHours makes a whole clause one of opening hours and dates.
var talkOfHours = set(`open opens closed closes close monday tuesday wednesday thursday friday saturday sunday mondays saturdays
	sundays weekdays weekends noon o'clock hours lunch january february march april may june july august september october november
	december`)

// talkOfCalls makes the rest of a sentence a telephone number, an address or a code.
var talkOfCalls = phrases("call us", "call me", "call or", "call at", "give us a call", "a call", "text us", "phone", "telephone", "stock number",
	"number fourteen", "or call", "call 555", "call five", "see us", "serial number", "item number", "vin", "route", "highway", "video number", "see you", "call the", "just call", "call ahead")

var corrections = phrases("sorry", "no sorry", "no", "i mean", "actually", "scratch that", "no wait", "wait", "hold on", "correction",
	"make that", "rather", "no actually", "no i mean", "or rather", "excuse me", "let me correct that", "no it's", "no make that", "strike that", "no hold on", "oops", "my mistake", "i'm sorry", "well actually",
	"no ma'am", "no sir", "you're right", "i take that back", "take that back", "no i take that back", "no that's wrong", "that's wrong", "that's not right", "i lied", "let me look", "let me fix that", "pardon me")

// owned is a trailer or a truck that is somebody's: "my first trailer", "his dually".
var owned = struct{ whose, which, what map[string]bool }{
	set("my his her their your our dad's brother's cousin's boss's neighbor's buddy's uncle's customer's"),
	set("first last old other previous current own little big new next personal daily service shop work farm half three quarter one ton"),
	set("trailer trailers truck trucks pickup pickups gooseneck flatbed rig dually suv van semi hauler combine"),
}

// ownedAt is the length of "my first trailer" at token i, or 0. "Our trailer" and "your
// trailer" are the one at hand.
func (h *hearing) ownedAt(i int) int {
	if !owned.whose[h.word(i)] && !(h.t[i].possessive && owned.whose[h.word(i)+"'s"]) {
		return 0
	}
	k := i + 1
	for k < i+5 && owned.which[h.word(k)] {
		k++
	}
	if !owned.what[h.word(k)] || k == i+1 && h.is(i, "our", "your") && !h.is(k, "truck", "trucks", "pickup", "pickups", "suv", "van", "rig", "dually") {
		return 0
	}
	if h.is(i, "our", "your") && h.is(i+1, "new", "little", "big", "three", "half", "one", "own") && h.is(k, "trailer", "trailers", "gooseneck", "flatbed", "hauler") {
		return 0
	}
	return k + 1 - i
}

// generic is the length of the beginning of a clause that speaks of a sort of thing, not of
// this trailer: "a skid steer with a bucket is", "most pickups", or 0.
func (h *hearing) generic(i int) int {
	if h.is(i, "the") && h.numberWord(i+1) && !h.is(i-1, "is", "this", "was") {
		for k := i + 2; k < i+6; k++ {
			if h.is(k, "footer", "footers") {
				return k + 1 - i // "with the twenty-two footer at ..."
			}
		}
	}
	if h.is(i, "that", "those", "the", "this", "his", "her") && things[h.word(i+1)] && !h.is(i+2, "hauler", "haulers", "trailer", "ramp", "ramps") {
		for k := i + 2; k < i+6; k++ {
			if h.is(k, "weighs", "is", "has", "had", "pulls", "takes", "rated", "goes", "went", "was", "runs", "only") || h.t[min(i+1, len(h.t)-1)].possessive {
				return 2 // "that truck parked there weighs"
			}
		}
		if h.is(i+2, "i", "we", "he", "you", "that", "who") && h.is(i+3, "pull", "pulls", "pulled", "hauled", "came", "drug", "drag", "brought", "use", "used", "run", "runs", "tow", "tows", "had", "have", "hauls", "drive", "drives") {
			return 2 // "the truck I pull with has"
		}
	}
	if h.is(i, "that", "those", "the", "his", "her", "a") && h.is(i+1, "mini", "zero", "skid", "big", "little", "old", "compact") && (things[h.word(i+2)] || h.is(i+2, "turn")) {
		for k := i + 3; k < i+10 && h.t[min(k, len(h.t)-1)].kind != comma; k++ {
			if h.is(k, "weighs", "pulls") {
				return k + 1 - i // "the mini excavator we send out with it weighs"
			}
		}
	}
	if n := h.otherOne(i); n > 0 {
		return n
	}
	if h.is(i, "somebody", "someone") && h.is(i+1, "has", "had", "got", "bought", "sold", "gave", "paid", "put", "hauls", "hauled") {
		return 1
	}
	if persons[h.word(i)] && h.is(i-1, "the", "a", "that", "this", "some", "those", "them", "one", "two", "another", "old", "young") {
		for k := i + 1; k < i+7 && !h.is(k, "said", "says", "told", "asked", "asks", "it", "she", "swears", "and") && !h.is(i-2, "had", "have"); k++ {
			if h.is(k, "have", "has", "had", "got", "runs", "pulls", "hauls", "hauled", "hauling", "sells", "sold", "gave", "give", "paid", "pays", "bought", "put", "set", "uses", "drove", "owns", "came") {
				return 1
			}
		}
	}
	if i > 0 && h.t[i-1].kind != comma && !h.is(i-1, "and", "but", "because", "that", "so", "know", "like") {
		return 0
	}
	switch {
	case h.is(i, "most", "every", "any", "some") && (things[h.word(i+1)] || things[h.word(i+2)]):
		return 2
	case h.is(i, "a", "an") && h.genericNoun(i+1):
		return 2
	case h.is(i, "a", "an", "your", "the", "that", "those") && (things[h.word(i+1)] || things[h.word(i+2)] && !h.numberWord(i+1)) && !h.is(i, "the", "that", "those", "your") || h.is(i, "your") && things[h.word(i+1)]:
		return 2
	}
	return 0
}

// genericNoun reports that what begins at i and is soon followed by a verb is nothing that a
// trailer has: "a pellworth is seventy five inches wide".
func (h *hearing) genericNoun(i int) bool {
	for k := i; k < i+4; k++ {
		w := h.word(k)
		if w == "" || h.numberWord(k) || cues[w] != nil || sorts[w] || described[w] || adjectives[w] || selves[w] {
			return false
		}
		if k > i && (h.is(k, "is", "weighs", "runs", "costs", "takes", "was", "goes", "measures") || h.is(k, "has") && !h.is(k+1, "been")) {
			return true
		}
		if h.t[k].possessive {
			return true
		}
		if k > i && standing[w] {
			return false
		}
	}
	return false
}

// forIt reports "I'd want sixty-two hundred for it", which asks a price.
func (h *hearing) forIt(i int) bool {
	if !h.is(i, "i'd") {
		return false
	}
	for k := i + 2; k < i+12; k++ {
		if h.is(k, "for") && h.is(k+1, "it", "her", "this") {
			return true
		}
	}
	return false
}

// weighedAbout reports talk of weighing around token i.
func (h *hearing) weighedAbout(i int) bool {
	for k := max(0, i-12); k < min(len(h.t), i+12); k++ {
		if h.is(k, "weighed", "weigh", "weighs", "scale", "scales", "scaled", "weight", "ticket", "measured", "tongue", "pin") {
			return true
		}
	}
	return false
}

func (h *hearing) numberWord(i int) bool { _, ok := h.numeralAt(i); return ok }

// otherOne is the length of "the new one", "our last one", "that big blue one" at token i: one
// is told from this one by what it is like. "This one" and "it's the long one" are this.
func (h *hearing) otherOne(i int) int {
	if !h.is(i, "the", "that", "those", "them", "our", "his", "their", "her", "my", "your", "a", "an", "another", "any", "some") || h.is(i-1, "is", "are", "this", "was") || i > 0 && h.t[i-1].possessive {
		return 0
	}
	if h.is(i, "the") && h.is(i+1, "one", "ones") && h.is(i+2, "to", "on", "at", "by", "beside", "behind", "next", "in", "over", "across", "from", "we", "they", "he", "before", "after") {
		return 3 // "the one to the left of it"
	}
	for k := i + 1; k < i+5 && h.word(k) != ""; k++ {
		switch {
		case h.is(k, "one", "ones"):
			if k == i+1 || h.is(k-1, "only", "same", "right", "actual", "very", "first", "good", "nice", "this") {
				return 0
			}
			return k + 1 - i
		case h.numberWord(k), standing[h.word(k)] && !sortsOfPart[h.word(k)] && !h.is(k, "last", "next", "real"), cues[h.word(k)] != nil && !h.is(k, "utility", "enclosed", "dump", "tilt", "gooseneck", "flat", "wide", "long", "tall"):
			return 0
		}
	}
	return 0
}

// untold reports that the clause q stands in tells what was, might be or is not, by its verb:
// "the first one we had was", "I'd consider a", "never trust a". What was weighed and measured
// is told in the past too, and what one would ask, put or carry is a way to say what is.
func (h *hearing) untold(q *quantity) string {
	for k := q.head - 1; k >= max(0, q.head-9); k-- {
		if h.t[k].kind != word && h.t[k].kind != number || h.clause(k+1) && k+1 < q.head && !h.is(k, "that", "if") {
			return ""
		}
		switch {
		case h.is(k, "was", "were", "wasn't", "had") && k >= q.head-4 && !h.weighedAbout(k) && !h.is(k-1, "price", "code") && !h.is(k+1, "built", "made", "set", "tagged", "rated", "stamped", "welded", "put"):
			for j := k + 1; j < q.head; j++ {
				if !fillers[h.word(j)] && !standing[h.word(j)] {
					return ""
				}
			}
			return before
		case h.is(k, "consider", "prefer", "imagine", "wish", "rather", "trust", "remember"):
			return supposed
		case h.is(k, "never") && !h.is(k+1, "been"):
			return supposed
		case h.is(k, "could", "may") && h.is(k+1, "be"), h.is(k, "might", "would've", "should've", "could've"), h.is(k, "would", "could", "should") && h.is(k+1, "have") && h.is(k+2, "been", "had", "to"):
			return supposed
		}
	}
	return ""
}

// supposed is why what is only thought of is set aside.
const supposed = "supposed or denied, not told"

// persons are those who have trailers and trucks of their own.
var persons = set(`man men guy guys boy boys fella fellas feller fellers lady woman couple dealer dealers neighbor buyer buyers farmer
	rancher contractor driver drivers customer customers company outfit store shop factory dealership church school county family kid kids
	gentleman friend landscaper roofer plumber renter hauler`)

// things are what is loaded or what pulls, of which there are many.
var things = set(`skid steer excavator tractor truck trucks pickup pickups mower car cars backhoe forklift loader dozer roller telehandler
	machine machines pallet pallets boat horse horses cow cows bull bulls bale bales suv suvs van vans combine baler sedan dually
	people folks person guys fellas dealers yards yard states state everybody crew`)

func phrases(list ...string) map[string][][]string {
	m := map[string][][]string{}
	for _, p := range list {
		w := strings.Fields(p)
		m[w[0]] = append(m[w[0]], w)
	}
	return m
}

// match gives the length of the longest phrase at token i, or 0.
func (h *hearing) match(m map[string][][]string, i int) int {
	best := 0
	for _, p := range m[h.spoken(i)] {
		ok := true
		for k := 1; k < len(p) && ok; k++ {
			ok = h.spoken(i+k) == p[k]
		}
		if ok {
			best = max(best, len(p))
		}
	}
	return best
}

// spoken is the token's word as the phrase tables spell it.
func (h *hearing) spoken(i int) string {
	if i < 0 || i >= len(h.t) {
		return ""
	}
	return h.t[i].text
}

// clause reports that a new clause begins at token i, as far as one hears it without
// commas: what stands behind it is not said of what stands in front.
func (h *hearing) clause(i int) bool {
	switch {
	case h.is(i, "it", "this", "that", "her", "she") && !h.t[i].possessive && h.is(i-1, "of", "to", "behind", "beside", "under", "by", "next"):
		return false // "the one to the left of it is a ..."
	case h.is(i, "it") && h.is(i-1, "to") && h.is(i-2, "next"), h.is(i, "there") && h.is(i-1, "over", "out", "up", "back", "down", "sitting"):
		return false // "the galvanized one next to it's forty-one hundred"
	case h.is(i, "now", "alright", "let's", "anyway", "moving"):
		return true
	case h.is(i, "you've", "we've", "i've", "they've", "you", "we", "they", "i") && h.is(i+1, "got", "have", "can", "do", "could", "put", "also", "can't", "don't", "didn't", "told"):
		return true
	case h.is(i, "it", "there", "here", "this", "that", "she") && h.t[i].possessive, h.is(i, "it") && h.is(i+1, "has", "is", "comes", "sits", "will", "also"):
		return true
	case h.is(i, "this", "these", "those", "there", "here", "that") && h.is(i+1, "is", "are", "one"):
		return true
	case h.is(i, "it", "she") && h.is(i+1, "weighs", "weighed", "leaves", "gives", "takes", "uses", "carries", "hauls", "measures", "goes", "went"):
		return true
	case h.is(i, "that") && h.is(i+1, "leaves", "gives", "makes"), h.is(i, "we", "i") && h.is(i+1, "scaled", "weighed", "ran", "measured"):
		return true
	case h.is(i, "the", "your") && (h.is(i+2, "is", "are", "says", "was") || h.is(i+3, "is", "are", "says")) && !h.is(i-1, "of", "on", "in", "to", "for", "between", "with", "at", "from", "and", "is", "under", "off", "by", "than", "like"):
		return true
	case h.is(i, "they're", "it'll", "you're", "we're", "these", "i'm"):
		return true
	case i < len(h.t) && h.t[i].possessive && len(cues[h.t[i].text]) > 0 && !h.is(i-1, "the", "your", "a", "this", "that", "my", "our", "of", "and"):
		return true // "... deck's a hundred and two wide"
	}
	return false
}

// asideReach is how many words in front of a phrase of elsewhere are of it, where no comma
// and no new clause tells.
const asideReach = 9

// setAside marks the tokens that are not about this unit, each with why.
func (h *hearing) setAside() []string {
	why := make([]string, len(h.t))
	for i := 0; i < len(h.t); i++ {
		if h.match(talkOfCalls, i) > 0 && !(h.is(i, "phone", "telephone") && (h.is(i-1, "the", "my") && h.is(i-2, "on", "over") || h.is(i-1, "by", "this"))) {
			for k := i; k < len(h.t); k++ {
				why[k] = "a telephone number, an address or a stock number"
			}
			break
		}
		n := h.match(elsewhere, i)
		if h.is(i, "buddy") && h.is(i-1, "good", "hey", "howdy") {
			n = 0 // who listens
		}
		switch {
		case h.is(i, "customer", "customers", "people", "folks") && h.is(i-1, "tell", "told"),
			h.is(i, "he", "they") && h.is(i+1, "had", "has", "have") && h.is(i+2, "them", "em", "it") && h.is(i+3, "at", "set", "aired"):
			n = 0 // "we tell customers no more than", "he had them at eighty pounds"
		}
		if h.is(i, "little") && h.is(i-1, "the") && h.is(i-2, "are", "is") {
			n = 0 // "the tires are the little ones"
		}
		if n == 0 {
			n = max(h.ownedAt(i), h.generic(i))
			if p := h.match(past, i); p > 0 && !h.weighedAbout(i) {
				n = p
			}
		}
		if n > 0 && !(h.is(i, "if") && notIf[h.word(i+2)]) && !(h.is(i-1, "is") && h.is(i-2, "this", "so")) && !h.forIt(i) {
			from, least := i, max(0, i-asideReach)
			if h.subjectHere(i, n) || h.is(i, "the") && h.otherOne(i) > 0 && h.is(i-1, "it", "her", "sold", "one") || h.ownSubject(i) {
				least = i
			} else if k := h.nounBegins(i); k > 0 {
				least = k
			} else if h.personActs(i) {
				least = i - 1
			}
			for from > least && !(h.is(from, "i", "he", "we", "they", "you", "you'd", "i'd", "he'd", "we'd", "they'd", "i'm", "i've", "we've", "they've") && from < i) && h.t[from-1].kind != comma && !(h.clause(from) && from < i) && !h.is(from-1, "and") && h.match(back, from) == 0 && h.match(back, from-1) == 0 && why[from-1] == "" && !h.is(from-1, "so", "where", "than", "like") && !h.is(from, "not") {
				from--
			}
			if h.is(i+n-1, "those") || h.is(i+n-2, "those") {
				// "five by ten with a gate, we have those too": all that led up to it.
				for from > max(0, i-2*asideReach) && h.match(back, from-1) == 0 && why[from-1] == "" {
					from--
				}
			}
			to := h.asideEnd(i, n)
			for k := from; k < to; k++ {
				why[k] = "another unit, or one that might be"
			}
			i = to - 1
		}
	}
	for i := range h.t {
		// "they got ten ply on them where ours has fourteen": what stands before is theirs.
		if h.is(i, "ours") && i > 1 && (h.is(i-1, "where", "but", "and", "while") || h.t[i-1].kind == comma) {
			for k := i - 2; k >= max(0, i-asideReach-5) && why[k] == "" && h.t[k].kind != comma && !h.is(k, "so", "now"); k-- {
				why[k] = "another unit, or one that might be"
			}
		}
	}
	for i := range h.t {
		if h.t[i].kind == word && talkOfHours[h.t[i].text] && !(h.is(i, "may", "march", "close", "open", "second") && !h.hourNear(i)) && !(h.is(i, "close") && h.is(i+1, "to")) {
			from, to := i, i
			for from > max(0, i-hourReach) && h.t[from-1].kind != comma && why[from-1] == "" && !(from < i && (h.clause(from) || h.is(from, "he") && h.t[from].possessive)) {
				from--
			}
			for to < min(len(h.t), i+hourReach) && h.t[to].kind != comma && !(to > i && h.clause(to)) {
				to++
			}
			for k := from; k < to; k++ {
				if why[k] == "" {
					why[k] = hours
				}
			}
		}
	}
	return why
}

// before is why a number that was, and is no more, is set aside.
const before = "what it was before"

// subjectHere reports that the n words at i are what the clause is about and begin it: "my
// brother sold one". What was said in front of it is another clause.
func (h *hearing) subjectHere(i, n int) bool {
	if !h.is(i, "my", "his", "her", "the", "a", "an", "that", "those", "most", "any", "some", "every", "their", "our", "they", "he", "we", "i") || h.is(i-1, "than", "like", "with", "to", "of", "on", "for", "as", "by", "under", "at", "put", "from", "get", "got", "have", "is", "not", "no") {
		return false
	}
	if h.is(i+n, "only", "just", "always", "already", "also", "still") {
		n++
	}
	return h.t[min(i+n, len(h.t))-1].possessive || h.is(i+n, "is", "was", "has", "had", "have", "sold", "wants", "want", "got", "gets", "weighs", "paid", "bought", "can", "will", "would", "runs", "pulls", "says", "said", "takes", "took", "gave", "came", "went", "did", "does", "put", "load", "hauls", "hauled")
}

// ownSubject reports that what is spoken of from token i on begins with its own subject, "we
// also have", "that skid steer over yonder", so that nothing in front of it is of it; but not
// where it tells which: "the sixteen-footer we sold".
func (h *hearing) ownSubject(i int) bool {
	switch {
	case h.is(i, "if") && h.is(i-1, "depends", "depending"):
		return true
	case i > 0 && h.is(i, "if") && (h.is(i+1, "you") && (h.is(i+2, "want", "need", "like") && h.is(i+3, "to") || h.is(i+2, "haul", "ever", "got", "get", "look")) || h.is(i+1, "your")):
		return true
	case i == 0 || h.is(i-1, "than", "like", "with", "to", "of", "on", "for", "as", "by", "under", "at", "from", "and", "that", "which", "what", "where", "because", "if", "is", "not", "no", "one", "ones", "footer", "footers", "trailer", "trailers"):
		return false
	case h.is(i, "we", "they", "he") && h.match(elsewhere, i) > 0:
		return true
	case h.is(i, "that", "those", "the") && things[h.word(i+1)] && h.generic(i) > 0:
		return true
	case h.is(i, "guy") && h.is(i+1, "who") && !h.is(i-1, "a", "the", "one", "same", "this"):
		return true
	case h.is(i, "that") && h.is(i+1, "one") && h.is(i+2, "sitting", "parked", "standing", "behind", "beside", "over", "out", "back", "next", "down", "by", "in"):
		return true
	case h.is(i, "left", "right") && h.is(i+1, "front", "rear"):
		return h.t[min(i+1, len(h.t)-1)].possessive || h.is(i+2, "is", "was", "tire")
	}
	return false
}

// nounBegins is where the thing begins that is told by where it stands, "the bumper pull deck
// over next to it", or 0. The place begins at token i.
func (h *hearing) nounBegins(i int) int {
	if !h.is(i, "next", "behind", "beside", "right", "parked", "sitting") {
		return 0
	}
	for k := i - 1; k > max(0, i-7); k-- {
		if h.t[k].kind != word || h.numberWord(k) {
			return 0
		}
		if h.is(k, "the", "a", "an", "that") {
			return k
		}
	}
	return 0
}

// personActs reports "my neighbor ran": a person at token i who does something, which begins a
// clause of its own.
func (h *hearing) personActs(i int) bool {
	return persons[h.word(i)] && h.is(i-1, "my", "the", "a", "his", "her", "that", "one", "some") && i > 1 &&
		!h.is(i-2, "to", "for", "with", "of", "from", "than", "like", "by", "on", "is", "was") &&
		h.is(i+1, "ran", "runs", "has", "had", "got", "hauls", "hauled", "thought", "thinks", "said", "says", "told", "bought", "sold", "wants", "wanted", "put", "used", "uses", "pulls", "pulled", "asked", "came", "called")
}

// asideEnd is where talk of elsewhere that begins with the n words at i ends. What is
// supposed ends with its own clause, and an if with the next; another unit is spoken of
// until something turns back, or for a while.
func (h *hearing) asideEnd(i, n int) int {
	most, clauses := i+elsewhereReach, 1000
	switch {
	case h.is(i-1, "than"):
		return i + n // "five inches lower than my old one"
	case h.is(i, "if"):
		most, clauses = i+12, 2
	case h.is(i, "that", "the") && h.match(elsewhere, i) == 0, // a truck or another thing as the subject
		h.is(i, "don't", "to", "need", "low", "goosenecks", "trailers", "flatbeds", "haulers", "deckovers"),
		h.is(i, "my", "his", "her", "their", "our", "an", "most", "every", "some", "your", "used", "legal", "legally", "last", "can", "could", "optional", "would", "moved", "wants", "wanted", "will", "say", "upgrade", "available", "a", "any", "trucks", "truck", "pickup", "neighbor", "federal", "coming", "left", "right"),
		persons[h.word(i)], h.is(i, "he") && h.is(i+1, "had", "has", "bought", "wanted"),
		h.is(i, "sister", "sold", "traded", "everybody"), h.is(i, "we", "i") && h.is(i+1, "sold"),
		h.is(i, "that") && h.is(i+1, "one") && (h.is(i+2, "sold", "gone", "spoken") || h.is(i+2, "is") && h.is(i+3, "sold", "gone", "spoken")):
		most, clauses = i+14, 1
	case h.is(i-1, "on", "than", "like", "from", "of"), h.is(i-1, "the") && h.is(i-2, "on", "than", "like", "from", "of"):
		return i + n // "they did that on the old ones"
	}
	to := i + n
	old := h.is(i, "the") && h.is(i+1, "old", "previous", "original")
	if old {
		most, clauses = i+14, 1
	}
	for to < len(h.t) && to < most && !(old && h.t[to].kind == comma) && (h.match(back, to) == 0 || h.is(to-1, "of", "than", "from", "as", "like")) {
		if h.clause(to) {
			if clauses--; clauses <= 0 {
				break
			}
		}
		to++
	}
	return to
}

// elsewhereReach is how many words another unit is spoken of, where nothing turns back.
const elsewhereReach = 34

// hours is why a number among weekdays and months is set aside.
const hours = "hours or a date"

// measured reports that q has a unit and that the month or weekday stands apart from it:
// "since the second week of august is a twenty-two foot deck".
func (h *hearing) measured(q *quantity) bool {
	if q.unit != feet && q.unit != inches && q.unit != psi && q.unit != pounds {
		return false
	}
	for k := max(0, q.from-2); k < min(q.to+2, len(h.t)); k++ {
		if talkOfHours[h.word(k)] {
			return false
		}
	}
	return true
}

// hourReach is how many words around a weekday or a month are of hours and dates, where no
// comma tells.
const hourReach = 9

func (h *hearing) hourNear(i int) bool {
	for k := i + 1; k < min(i+5, len(h.t)); k++ {
		if _, ok := h.numeralAt(k); ok {
			return true
		}
	}
	return false
}

// standing are the words that may stand right behind a figure without being what it is of:
// in "fourteen thousand pounds on it" the figure stands by itself, in "a fourteen thousand
// pound elephant" it is the elephant's.
var standing = set(`a an the and or but so with without on in at to from for of by off over under per plus minus x is are was were
	be been it its that this these those there here which who what where when while as if than then too also just only even each
	apiece total totals all both either right left up down out back front behind across between into onto inside outside through
	because since until before after again about around maybe roughly give take now today though not no yes yeah sir ma'am folks
	guys man buddy y'all you i we they he she them em us me your our my their his her will would can could should might may must
	do does did have has had got get gonna going comes goes sits weighs gives leaves empty loaded dry full max maximum minimum
	cold flat ish thereabouts okay alright um uh like well see look say says said instead let's cash firm obo tops rated rating
	somebody someone anybody nobody depends load more w she'll it'll you'll he'll they'll we'll that'll they're we're you're i'm i've we've you've depending every everything thanks thank please anyway moving next real pretty or's exactly approximately certified actual net unladen`)

// sortsOfPart are what parts of trailers are said to be; they are no thing by themselves.
var sortsOfPart = set(`stand slide fold flip pull drive side post spare steel wood aluminum galvanized welded bolted adjustable demountable
	square round lift ea set back wind swivel crank topwind sidewind rated cast flat straight self cleaning oil bath rear front fixed knife edge expanded mesh
	black white gray grey red green yellow blue silver charcoal spray painted powder coated treated rough oak pine sealed greased ez radial
	bias wide long short tall high low big little small old whole good nice solid real stake d pinned hydraulically dampened`)

// ofWhat looks at the noun that q is an adjective of: "a nine thousand pound tractor", "six
// four wheelers". known reports that the noun is a part or another thing that cues name.
func (s *sentence) ofWhat(q *quantity) (noun, known bool) {
	if q.unit != bare && !s.is(q.to-1, "pound", "foot", "inch", "dollar", "k", "lb") {
		return false, false
	}
	if q.unit == bare && q.single() && !q.scaled {
		return false, false
	}
	for k := q.to; k < min(q.to+6, len(s.t)); k++ {
		switch {
		case s.quantityAt(k) >= 0 || s.t[k].kind != word && s.t[k].kind != number:
			return noun, false
		case s.is(k, "ones"):
			return false, false // "the eight thousand pound ones"
		case s.cueAt(k), groups[s.word(k)] > 0, sorts[s.word(k)], s.material(k) > 0:
			return true, true
		case standing[s.word(k)], fillers[s.word(k)], s.match(corrections, k) > 0, s.match(back, k) > 0:
			return noun, false
		}
		noun = noun || !adjectives[s.word(k)] && !described[s.word(k)] && !sortsOfPart[s.word(k)]
	}
	return noun, false
}

func (s *sentence) cueAt(i int) bool {
	for _, c := range s.cues {
		if c.from == i {
			return true
		}
	}
	return false
}

// selves are the words for the trailer itself, and those that stand in front of a verb
// without being what it is said of.
var selves = set(`it she this that one thing unit trailer itself whole here there everything all total rig model which what who and
	but so then or now today morning yesterday just also really actually still only that'll it'll she'll you'll you i we they he'll they'll
	will can would could should to not n't never always usually probably guy baby girl time times both each together um uh like
	well yeah know empty loaded dry alone height width length weight says say said up down out in back end front inside outside most least much
	where because if when overall roughly about right around maybe nearly almost exactly folks sir ma'am y'all buddy man another piece fella
	plate label sticker placard tag decal ticket slip paperwork sheet load
	her him them em these those ours number measurement figure answer rating size beauty monster beast`)

// strange reports that what q is said of, right in front of its verb, is a thing that nobody
// here knows: "the pellworth is seventy five inches wide", "that counter sits thirty inches off
// the floor".
func (s *sentence) strange(q *quantity) bool {
	k := q.head - 1
	for k >= 0 && s.is(k, "about", "right", "at", "around", "just", "like", "only", "roughly", "probably", "maybe", "over", "under", "nearly", "almost", "in", "a", "up", "off") {
		k--
	}
	if k < 0 || s.t[k].kind != word {
		return false
	}
	noun := k
	switch {
	case s.t[k].possessive:
	case s.is(k, "is", "are", "was", "measures", "sits", "stands", "runs", "weighs", "comes", "goes"):
		noun = k - 1
	default:
		return false
	}
	for _, c := range s.cues {
		if c.to == noun+1 && c.cue.other && s.t[noun].possessive {
			return true // "the mower's a sixty inch deck"
		}
	}
	return s.unknown(noun)
}

// trade are words that stand in front of parts of this trailer.
var trade = set(`wood wooden treated diamond tread treadplate plate channel equipment brake idler lube torsion spring suspension combo combination
	scissor power gravity drop lock bolt pipe tube rub stake electric manual crank coupler trailer gooseneck bumper neck deckover landscape
	utility cargo dump tilt hydraulic hyd air bead fifth wheel pintle tandem triple load king queen st lt all complete entire overall full actual
	usable bottom lower upper middle center main real effective second third first other loading clear clean beaver dove work smooth
	airtight composite laminated apitong pine`)

// unknown reports a noun with its article at token i that is neither a part nor the trailer.
func (s *sentence) unknown(i int) bool {
	w := s.word(i)
	if w == "" || selves[w] || standing[w] && w != "front" || fillers[w] || adjectives[w] || described[w] || sorts[w] || sortsOfPart[w] || s.inCue(i) || s.quantityAt(i) >= 0 || s.material(i) > 0 || s.inCue(i-1) && !s.is(i-1, "the") {
		return false
	}
	for k := i - 1; k >= max(0, i-3); k-- {
		switch {
		case s.is(k, "the", "that", "a", "an", "your", "my", "his", "their", "each", "every", "those", "these"), s.is(k, "this") && k == i-1:
			// "the rating on the label is": where it stands, not what it is of
			return !s.is(k-1, "on", "in", "at", "of", "from", "by", "for", "with", "to", "under", "off")
		case s.t[k].kind != word || s.inCue(k) || standing[s.word(k)]:
			return false
		}
	}
	return false
}

var differences = set(`heavier lighter longer shorter wider narrower taller lower higher more less cheaper extra deeper bigger smaller off difference discount`)

// difference reports whether q is by how much two things differ.
func (h *hearing) difference(q *quantity) bool {
	for k := q.to; k < min(q.to+2, len(h.t)); k++ {
		if h.t[k].kind != word {
			break
		}
		if differences[h.t[k].text] {
			if h.is(k, "off") && h.is(k+1, "the", "center") {
				return false
			}
			if h.is(k, "more", "less") && (h.is(k-1, "or") || h.is(k+1, "or")) {
				return false
			}
			return true
		}
		if h.is(k, "or", "and", "of", "on", "in", "for", "at", "with") {
			break
		}
	}
	for k := q.from - 1; k >= max(0, q.from-3); k-- {
		if h.t[k].kind != word {
			break
		}
		if h.is(k, "knock", "add", "adds", "dropped", "save", "another", "extra") || h.is(k, "off") && h.is(k-1, "take", "knock") {
			return true
		}
		if !fillers[h.t[k].text] {
			break
		}
	}
	return false
}

// ownWeights are what a trailer's own pounds are of.
var ownWeights = set(`payload cargo capacity air pressure load tongue weight gross gvwr pin trailer it them em this that carrying hitch trailer's rating dry empty
	the what those these a an lift`)

// ofLoad reports "two thousand pounds of gravel": what is of a stuff is of what is hauled.
func (h *hearing) ofLoad(q *quantity) bool {
	return q.unit == pounds && h.is(q.to, "of") && h.word(q.to+1) != "" && !ownWeights[h.word(q.to+1)]
}

// surroundings sets comparison, tolerance, correction and denial of each quantity.
func (h *hearing) surroundings(qs []quantity, aside []string) {
	for i := range qs {
		q := &qs[i]
		if aside[q.from] == hours && h.measured(q) {
			clear(aside[q.head:q.to])
		}
		if w := aside[q.from]; w != "" {
			q.rejected = w
		}
		if q.unit == foreign {
			q.rejected = "in a unit that no figure here has"
		}
		h.compare(q)
		if q.rejected == "" && h.denied(q) {
			q.rejected = "denied"
		}
		if q.rejected == "" && h.notRight(q.to) {
			q.rejected = "denied"
		}
		if q.rejected == "" && h.difference(q) {
			q.rejected = "a difference, not a value"
		}
		if q.rejected == "" && h.is(q.to-1, "footer", "footers") && h.is(q.from-1, "the") && !h.is(q.from-2, "is", "this") {
			q.rejected = "another unit, or one that might be" // "with the forty footer"
		}
		if q.rejected == "" {
			q.rejected = h.untold(q)
		}
		if q.rejected == "" && h.is(q.to, "per") && !h.is(q.to+1, "axle", "tire", "ring", "d", "jack", "foot") {
			q.rejected = "of something else" // "five thousand pounds per ramp"
		}
		if q.rejected == "" && h.tenFour(q) {
			q.rejected = "said on the radio, no figure"
		}
		if q.rejected == "" && h.is(q.head-1, "ran", "run", "hauled", "pulled", "drove", "grossed") && h.is(q.head-2, "i", "we", "he") && h.is(q.to, "gross", "across", "over") {
			q.rejected = "what somebody has hauled, not of the trailer"
		}
		if q.rejected == "" && h.ofLoad(q) {
			q.rejected = "of what is loaded, not of the trailer"
		}
		if i > 0 && qs[i-1].unit == foreign && q.unit == bare && q.from == qs[i-1].to+1 && h.is(q.from-1, "and") {
			q.rejected = "in a unit that no figure here has" // "six meters and ten"
		}
		if h.is(q.to, "point") && !q.broken {
			q.rejected = "of something else" // a three point hitch
		}
		if q.rejected == "" && (q.unit == bare || q.unit == dollars) && h.listed(q) {
			q.rejected = "a list price, not what is asked"
		}
		if h.is(q.from-1, "was", "regularly", "retail") || h.is(q.from-1, "price") && h.is(q.from-2, "regular", "old", "list", "retail") || h.is(q.from-1, "for") && h.is(q.from-2, "list", "lists", "listed", "retails") {
			for k := q.to; k < len(h.t); k++ {
				if h.is(k, "now", "down", "price", "asking", "today") {
					q.rejected = before
				}
			}
		}
	}
	for i := 0; i+1 < len(qs); i++ {
		q, r := &qs[i], &qs[i+1]
		if r.rejected != "" && r.rejected != "denied" {
			continue
		}
		if h.corrected(q.to, r.from) {
			q.rejected = "corrected at once"
			if r.unit == bare && q.unit != foreign {
				r.unit = q.unit
			}
			if r.rejected == "denied" {
				r.rejected = ""
			}
		}
	}
	for i := range qs {
		q := &qs[i]
		if h.is(q.from-1, "take") && h.is(q.from-2, "or") && h.is(q.from-3, "give") {
			q.used = true
			for _, k := range []int{i + 1, i - 1} {
				if k >= 0 && k < len(qs) && (k == i+1 || qs[k].to >= q.from-5) && qs[k].rejected == "" && !qs[k].used {
					qs[k].give, qs[k].compare = q.amount, About
					break
				}
			}
		}
	}
}

// listed reports "MSRP is eleven thousand", and "list is sixteen two" where another price
// comes after it.
func (h *hearing) listed(q *quantity) bool {
	k := q.head - 1
	for k >= 0 && (fillers[h.word(k)] || h.is(k, "price", "$") || h.t[k].kind == comma) && k > q.head-6 {
		k--
	}
	if h.spent(k) || h.is(k, "was") && h.is(k-1, "price") {
		return true
	}
	if h.is(q.head-1, "up", "down") && h.is(q.head-2, "goes", "went", "going", "gone", "go", "come", "came", "coming") || h.is(q.head-1, "a") && h.is(q.head-2, "up", "down") && h.is(q.head-3, "goes", "went", "going", "gone", "go", "come", "came") {
		return true
	}
	if h.is(k, "want", "wanted", "asking") && h.is(k-1, "they", "they're") && !h.is(q.to, "out") {
		return true
	}
	if h.is(k, "msrp", "retail", "retails", "normally", "usually", "regularly", "regular") || h.is(k, "list", "lists") && h.is(k-1, "normally", "usually") {
		return true
	}
	if h.is(k, "list", "lists", "listed", "sticker") && !h.is(q.to, "gross", "gvwr", "empty") && !(h.is(k-1, "the") && h.is(k-2, "on")) {
		for i := q.to; i < len(h.t); i++ {
			if h.numberWord(i) {
				return true
			}
		}
	}
	return false
}

// spent reports that money was given, not asked, around token k: "i give twenty-two five for
// it", "we paid him".
func (h *hearing) spent(k int) bool {
	for i := k; i >= max(0, k-2); i-- {
		switch {
		case h.is(i, "gave", "paid", "pay", "spent", "spend", "borrowed", "owe", "owed", "offered", "bid", "fetched", "brought", "saved", "save", "insured", "pays"):
			return true
		case h.is(i, "give") && h.is(i-1, "i", "we", "he", "they", "she"):
			return true
		case h.is(i, "bought") && h.is(i+1, "it", "this", "one", "mine", "at", "for", "them", "her"):
			return true
		}
		if h.t[max(i, 0)].kind == comma {
			return false
		}
	}
	return false
}

// corrected reports whether nothing but a correction, with at most a noun in front of it
// and articles behind it, stands between two numbers.
func (h *hearing) corrected(from, to int) bool {
	if h.misread(from, to) {
		return true
	}
	i := from
	for skipped := 0; i < to; {
		if h.t[i].kind == comma || h.is(i, "um", "uh", "like") {
			i++
			continue
		}
		if n := h.match(corrections, i); n > 0 {
			i += n
			for i < to {
				if n := h.match(corrections, i); n > 0 {
					i += n
				} else if h.t[i].kind == comma || h.is(i, "a", "an", "the", "it's", "it", "is", "that's", "they're", "they", "are", "um", "uh", "about", "$") {
					i++
				} else {
					return false
				}
			}
			return true
		}
		if skipped++; skipped > 2 {
			return false
		}
		i++
	}
	return false
}

// misread reports that a correction tells how it came about: "eighty-three, sorry, I'm reading the
// wrong side of the tape, eighty-two and a half".
func (h *hearing) misread(from, to int) bool {
	if to-from > 16 {
		return false
	}
	i := from
	for i < to && h.t[i].kind == comma {
		i++
	}
	if !h.is(i, "sorry", "no", "wait") || h.is(i+1, "about") {
		return false
	}
	for ; i < to; i++ {
		if h.is(i, "wrong", "misread", "backwards", "mistake") {
			return true
		}
	}
	return false
}

func (h *hearing) denied(q *quantity) bool {
	k := q.head - 1
	for k >= 0 && h.is(k, "a", "an", "the", "about") {
		k--
	}
	if h.is(k, "not", "ain't", "isn't", "never", "wasn't") {
		return true
	}
	if h.is(k, "have", "got") && h.is(k-1, "don't", "doesn't", "didn't") {
		return true
	}
	return h.is(k, "say") && h.is(k-1, "don't", "doesn't", "not")
}

// compare reads "just under", "up to", "about" in front of q and "or so" behind it.
func (h *hearing) compare(q *quantity) {
	k := q.from - 1
	for k >= 0 && (h.is(k, "a", "an", "the", "$", "about", "right", "around") || h.is(k, "every") && h.is(k-1, "about", "around", "roughly")) {
		if h.is(k, "about", "around") || h.is(k, "right") && h.is(k+1, "around", "about") {
			q.compare, q.head = About, k
		}
		k--
	}
	set := func(c Comparison, n int) { q.compare, q.head = c, k-n+1 }
	switch {
	case h.is(k, "at") && h.is(k-1, "right"):
		set(About, 2)
	case h.is(k, "roughly", "approximately", "approx", "maybe", "probably", "pushing", "nearly", "almost", "circa"):
		set(About, 1)
	case h.is(k, "to") && h.is(k-1, "close"):
		set(About, 2)
	case h.is(k, "it") && h.is(k-1, "call"):
		set(About, 2)
	case h.is(k, "below", "under") && h.negated(k) > 0 && !h.is(k-1, "just", "right", "hair", "shade", "little", "bit"):
		set(AtLeast, 1)
	case h.is(k, "under", "below"):
		set(Under, 1)
	case h.is(k, "of") && h.is(k-1, "shy"):
		set(Under, 2)
	case h.is(k, "of") && h.is(k-1, "north"):
		set(Over, 2)
	case h.is(k, "than") && h.is(k-1, "less", "fewer", "lower", "shorter", "lighter"):
		set(Under, 2)
		if n := h.negated(k - 1); n > 0 {
			set(AtLeast, n)
		}
	case h.is(k, "than") && h.is(k-1, "more", "better", "higher", "taller", "heavier", "longer", "wider"):
		set(Over, 2)
		if n := h.negated(k - 1); n > 0 {
			set(UpTo, n)
		}
	case h.is(k, "over") && !h.is(k-1, "went", "carry", "all", "come", "came", "handed", "go", "goes", "run", "ran"):
		set(Over, 1)
		for j := k - 1; j >= max(0, k-5); j-- {
			if h.is(j, "no", "not", "wouldn't", "don't", "never", "won't", "shouldn't") {
				set(UpTo, 1)
			}
		}
	case h.is(k, "least") && h.is(k-1, "at"):
		set(AtLeast, 2)
	case h.is(k, "exceed"):
		set(UpTo, 1)
	case h.is(k, "most") && h.is(k-1, "at"):
		set(UpTo, 2)
	case h.is(k, "to") && h.is(k-1, "up"):
		// "aired up to 110" is a pressure to reach, no limit.
		if !(h.is(k-2, "air", "aired", "em", "them", "pump", "pumped", "fill", "filled", "crank")) {
			set(UpTo, 2)
		}
	case h.is(k, "maximum", "max"):
		set(UpTo, 1)
	case h.is(k, "what") && h.is(k-1, "about"):
		set(About, 2)
	case h.is(k, "minimum"):
		set(AtLeast, 1)
	}
	switch {
	case h.is(q.to, "and") && h.is(q.to+1, "change", "some"):
		q.compare = About
	case h.is(q.to, "or") && h.is(q.to+1, "so", "thereabouts"):
		q.compare, q.to = About, q.to+2
	case h.is(q.to, "ish", "thereabouts"), h.roughlyBehind(q.to):
		q.compare = About
	case q.compare == Equal && h.noMore(q.to):
		q.compare = UpTo
	case h.is(q.to, "maybe", "roughly") && q.compare == Equal:
		q.compare = About
	}
}

// roughlyBehind reports "give or take", "or thereabouts" within three words behind a figure:
// "twenty-eight hundred pounds empty, give or take".
func (h *hearing) roughlyBehind(i int) bool {
	for k := i; k < min(i+4, len(h.t)) && !h.numberWord(k); k++ {
		if h.is(k, "give") && h.is(k+1, "or") && h.is(k+2, "take") || h.is(k, "or") && h.is(k+1, "thereabouts") || h.is(k, "more") && h.is(k+1, "or") && h.is(k+2, "less") {
			return true
		}
	}
	return false
}

// noMore reports "no more than that" right behind a figure, which makes it a limit.
func (h *hearing) noMore(i int) bool {
	for k := i; k < min(i+4, len(h.t)) && !h.numberWord(k); k++ {
		if h.is(k, "no", "not") && h.is(k+1, "more", "over", "any") && (h.is(k+2, "than") && h.is(k+3, "that") || h.is(k+2, "that", "more")) {
			return true
		}
	}
	return false
}

// negated is how many words a comparison has, if "no" or "don't" turns it round: 3 of "no less
// than", 2 of "don't run less than", since there the verb is no word of the figure; else 0.
// The comparison's first word stands at token i.
func (h *hearing) negated(i int) int {
	for j := i - 1; j >= max(0, i-5); j-- {
		if h.t[j].kind == comma {
			break
		}
		if h.is(j, "no", "not", "wouldn't", "don't", "never", "won't", "shouldn't", "can't", "isn't", "ain't", "nothing") {
			if j == i-1 {
				return 3
			}
			return 2
		}
	}
	return 0
}

// notRight reports "and that's not right", "which is wrong" right behind a figure.
func (h *hearing) notRight(i int) bool {
	for k := i; k < min(i+2, len(h.t)) && (h.t[k].kind == comma || h.is(k, "and", "but")); k++ {
		i++
	}
	if h.is(i, "wait") && h.is(i+1, "that") {
		return h.t[i+1].possessive && h.is(i+2, "without", "with", "not", "wrong")
	}
	if h.is(i, "which", "that") && (h.t[i].possessive || h.is(i+1, "is")) {
		if !h.t[i].possessive {
			i++
		}
		return h.is(i+1, "wrong") || h.is(i+1, "not") && h.is(i+2, "right", "correct", "it")
	}
	return false
}

// tenFour reports the "ten-four" and "one nine" of talk on the radio, which nothing beside it
// makes a figure.
func (h *hearing) tenFour(q *quantity) bool {
	if len(q.parts) != 2 || q.unit != bare || q.compare != Equal {
		return false
	}
	switch {
	case q.parts[0] == 10 && q.parts[1] == 4:
		return !h.is(q.from-1, "gvwr", "gross", "weighs", "at", "is", "of", "for", "price", "asking", "tagged") && !h.is(q.to, "gross", "gvwr", "empty", "axle", "axles")
	case q.parts[0] == 1 && q.parts[1] == 9:
		return h.is(q.from-1, "breaker")
	}
	return false
}

// patternsOfDigits takes away what no figure is made of: telephone numbers, fractions of
// lumber, hours like 8-5.
func (s *sentence) patternsOfDigits() {
	for i := range s.qs {
		q := &s.qs[i]
		if i+1 < len(s.qs) {
			r := &s.qs[i+1]
			if r.from == q.to+1 && s.is(q.to, "-") && !r.broken {
				q.used, r.used = true, true
			}
		}
		if len(q.parts) >= 7 {
			q.used = true
		}
	}
}
