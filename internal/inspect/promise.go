package inspect

import (
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/measure"
)

// A promise is a load that words say the trailer takes, or a weight that they name without
// saying of what.
type promise struct {
	says string // the words, in small letters
	load measure.Pounds
	// plain reports that the words call it the payload or a capacity.
	plain bool
	// bare reports that nothing says what the weight is of.
	bare bool
}

const (
	// maxBetween is how many words may be between "payload" or "carries" and the weight.
	maxBetween = 8
	// maxRefused is how many words may be between a refusal and the weight that it is about.
	maxRefused = 7
	// maxSubject is how far back the part is looked for that a weight may belong to.
	maxSubject = 12
	// maxPromises is how many of one text are judged: the first must be corrected anyway.
	maxPromises = 50
)

var (
	// carries are the words that say what a trailer does with a load.
	carries = set(`carry carries carried carrying haul hauls hauled hauling hold holds take takes handle handles transport transports tote totes move moves good
		put puts putting load loads loading stack lleva llevan llevar aguanta aguantan soporta carga cargan cargar cargarle cargue echar echarle eche
		échele echele cabe caben ponerle`)
	payloadWords = set("payload payloads")
	capacities   = set("capacity capacities capacidad")
	// otherParts are what a weight near such a word may belong to in place of the trailer.
	otherParts = set(`ramp ramps gate gates tailgate jack jacks winch winches coupler ball hitch axle axles tire tires wheel wheels rim rims hoist cylinder spring springs
		suspension chain chains strap straps ring rings hook hooks pocket pockets tie binder binders rack racks box toolbox tongue kingpin pintle landing leg legs
		plank planks crossmember crossmembers lift fork forks bucket crane beam truck pickup tow pull pulls behind brakes brake scale tank compressor
		rampa rampas gato eje ejes llanta llantas malacate enganche cadena cadenas`)
	// trailers are the words that bring a sentence back to the trailer.
	trailers = set("trailer trailers it she unit rig remolque traila")
	// otherLimits are the words after a weight that say that it is not a load.
	otherLimits  = set("gvwr gvw gcwr gross axle axles coupler tongue empty springs jack winch tires torsion ball hitch ramps chain chains")
	otherWeights = set("gvwr gvw")
	// weighs are the verbs that say what something weighs, and materials and volumes what a load is of.
	weighs    = set("weigh weighs weighed is are was were makes")
	fillers   = set("about around roughly nearly almost over in at")
	materials = set(`dirt soil topsoil clay mud sand gravel rock rocks stone stones millings asphalt concrete rubble mulch bark hay straw
		manure grain corn water snow brush logs wood shingles brick bricks sod scrap excavator skid loader backhoe tractor dozer`)
	volumes = set("yard yards bale bales pallet pallets gallon gallons bushel bushels")
	// larger are the words for another trailer: the next size up.
	larger   = set("next bigger larger sister another")
	trips    = set("trip trips way time times day haul load week run ride")
	refusals = set("not never don't doesn't cannot can't won't no nor isn't without less minus if when instead")
	// praises are the words after a refusal with which it makes the promise stronger: not only, no
	// problem, no less than, won't hesitate.
	praises = set(`only just merely simply alone less fewer under below problem problems trouble doubt worry worries matter question issue issues
		sweat strain effort hesitate mind fail fails failed care wrong joke kidding lie fear blink surprise wonder excuse limit stranger match equal`)
	// clauses are the words that begin another clause, which the refusal is not about.
	clauses     = set("it she he they this but because since so yet though although while then and who")
	numberWords = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
		"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
		"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
		"dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "siete": 7, "ocho": 8, "nueve": 9, "diez": 10, "once": 11, "doce": 12, "trece": 13,
		"catorce": 14, "quince": 15, "dieciseis": 16, "diecisiete": 17, "dieciocho": 18, "diecinueve": 19, "veinte": 20, "treinta": 30, "cuarenta": 40,
		"cincuenta": 50, "sesenta": 60, "setenta": 70, "ochenta": 80, "noventa": 90}
	multiples = map[string]float64{"hundred": 100, "thousand": 1000, "k": 1000, "grand": 1000, "million": 1e6, "dozen": 12, "mil": 1000, "cien": 100}
	// weightWords are pounds in one of what the word means: a ton is the short ton, a tonne the
	// metric one, a hundredweight 100 lb (NIST Handbook 44, Appendix C). A tonelada is metric.
	weightWords = map[string]float64{"lb": 1, "lbs": 1, "pound": 1, "pounds": 1, "pounder": 1, "#": 1, "libra": 1, "libras": 1, "ton": 2000, "tons": 2000, "tonner": 2000,
		"tonne": 2204.62, "tonnes": 2204.62, "tonelada": 2204.62, "toneladas": 2204.62, "t": 2204.62, "cwt": 100, "hundredweight": 100, "hundredweights": 100, "quintal": 220.462, "quintales": 220.462,
		"kg": 2.20462, "kgs": 2.20462, "kilo": 2.20462, "kilos": 2.20462, "kilogram": 2.20462, "kilograms": 2.20462, "kilogramo": 2.20462, "kilogramos": 2.20462}
	// bareEnds are the words that may follow a number of which nothing says what it counts.
	bareEnds = set("it she on and or all easy easily no without plus at with every any worth of capacity payload")

	// counted are what thousands are said of, other than pounds.
	counted = set("miles mi btu btus watt watts w dollars bucks cash obo firm psi hours hrs lumen lumens rpm for")

	thousandsPoint = regexp.MustCompile(`^[0-9]{1,3}\.[0-9]{3}$`)
)

func set(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// A weighed is a weight among the words of a text.
type weighed struct {
	from, to int // its words
	pounds   float64
	unit     bool // whether a unit follows the number
	kilo     bool // whether it is written in thousands: 9K
}

// is the word at i; a point where there is none, or where a line ends.
func (w *promising) is(i int) string {
	if i >= 0 && i < len(w.word) {
		return w.word[i]
	}
	return "."
}

// ends reports whether a sentence ends at i.
func (w *promising) ends(i int) bool { return strings.ContainsAny(w.is(i)[:1], ".;!?") }

// promises finds the loads that a text promises, and the weights of which it does not say what
// they are of.
func promises(text string) []promise { return promisingIn(text).promises() }

// promises finds the loads that a text promises, in numbers or in words, and the weights of
// which it does not say what they are of.
func (w *promising) promises() []promise {
	about := false
	for _, word := range w.word {
		about = about || payloadWords[word] || capacities[word] || carries[word] && !taking[word]
	}
	var found []promise
	for i := 0; i < len(w.at) && len(found) < maxPromises; {
		q, ok := w.weight(i)
		if !ok {
			i++
			continue
		}
		says := func(from, to int) string { return strings.TrimSpace(w.text[w.at[from][0]:w.at[to-1][1]]) }
		if from, to, plain, ok := w.promised(q); ok {
			found = append(found, promise{says(from, to), measure.Pounds(q.pounds), plain, false})
		} else if w.loose(q, about) {
			found = append(found, promise{says(q.from, q.to), measure.Pounds(q.pounds), false, true})
		}
		i = q.to
	}
	return found
}

// taking are words for a load that people also use of money and time.
var taking = set("take takes good hold holds move moves put puts")

// loose reports whether nothing says what a weight is of. A number without a unit counts in a
// text about loads where no word for another thing follows.
func (w *promising) loose(q weighed, about bool) bool {
	if w.refused(q.from) || w.other(q.from) || w.shared(q.to) || w.hauled(q.from) {
		return false
	}
	for i := q.from - 1; i > q.from-maxSubject && !w.ends(i); i-- {
		if larger[w.is(i)] {
			return false
		}
	}
	for i := q.to; i < q.to+4 && !w.ends(i); i++ {
		if otherParts[w.is(i)] {
			return false
		}
	}
	next := w.is(q.to)
	if q.unit || q.kilo && !counted[next] {
		return true
	}
	year := q.pounds >= 1900 && q.pounds <= 2100
	return about && q.pounds >= 1000 && !year && (w.ends(q.to) || bareEnds[next])
}

// hauled reports whether the words say that a load weighs so much, and not that the trailer takes it:
// "seven yards of wet dirt weigh 21,000 lb", "wet dirt is 21,000 lb". A load and a verb of weighing
// are in front of the weight, in one clause, and nothing in it is about the trailer.
func (w *promising) hauled(at int) bool {
	i := at - 1
	for fillers[w.is(i)] {
		i--
	}
	if !weighs[w.is(i)] {
		return false
	}
	load := false
	for i--; i > at-1-maxSubject && !w.ends(i) && !w.parted(i); i-- {
		switch s := w.is(i); {
		case trailers[s], carries[s] && s != "load" && s != "loads", payloadWords[s], capacities[s]:
			return false
		case materials[s], volumes[s]:
			load = true
		}
	}
	return load
}

// weight reads a number and its unit: 9,000 lb, 50 tons, 99k, twelve thousand pounds.
func (w *promising) weight(i int) (q weighed, ok bool) {
	v, at := w.number(i)
	if at == i || w.inCode(i) {
		return q, false
	}
	q = weighed{from: i, to: at, pounds: v, kilo: w.is(at-1) == "k" && v >= 1000}
	kind := w.is(at)
	if kind == "metric" || kind == "short" || kind == "long" {
		at++
	} else {
		kind = ""
	}
	if each, is := weightWords[w.is(at)]; is && !w.hyphened(at) {
		if kind == "metric" && each == 2000 {
			each = 2204.62
		} else if kind == "long" && each == 2000 {
			each = 2240
		}
		q.pounds, q.to, q.unit = float64(q.pounds*each), at+1, true
	}
	return q, q.pounds > 0
}

// inCode reports whether the number at i is in a serial number or another code: letters touch
// it in front, or digits touch the word that follows it.
func (w *promising) inCode(i int) bool {
	from, to := w.at[i][0], w.at[i][1]
	if i+1 < len(w.at) && w.at[i+1][0] == to && !w.ends(i+1) {
		to = w.at[i+1][1]
	}
	return from > 0 && isDigit(w.text[from]) && isLetter(w.text[from-1]) ||
		to < len(w.text) && isDigit(w.text[to]) && !isDigit(w.text[to-1])
}

// hyphened reports whether the word at i is the t of a T-post.
func (w *promising) hyphened(i int) bool {
	return w.is(i) == "t" && strings.HasPrefix(w.text[w.at[i][1]:], "-")
}

// number reads a number in digits or in words, and returns where it ends.
func (w *promising) number(i int) (v float64, at int) {
	sum, part := 0.0, 0.0
	if n, is := digitsIn(w.is(i)); is {
		part, at = n, i+1
	} else if numberWords[w.is(i)] > 0 {
		at = i
	} else {
		return 0, i
	}
	for ; ; at++ {
		s := w.is(at)
		if n := numberWords[s]; n > 0 {
			part += n
		} else if m := multiples[s]; m == 100 || m == 12 {
			part = float64(part * m)
		} else if m > 0 {
			sum, part = sum+float64(part*m), 0
		} else if s != "and" {
			return sum + part, at
		} else if w.is(at+1) == "a" && w.is(at+2) == "half" {
			part += 0.5
			at += 2
		} else if numberWords[w.is(at+1)] == 0 {
			return sum + part, at
		}
	}
}

// digitsIn reads the digits of a number. A point in front of three digits is taken for a comma.
func digitsIn(s string) (v float64, ok bool) {
	if !isDigit(s[0]) {
		return 0, false
	}
	if strings.Contains(s, ".") && thousandsPoint.MatchString(s) {
		s = strings.Replace(s, ".", "", 1)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, ",", ""), 64)
	return v, err == nil
}

// elsewhere reports whether the words say that a weight is another limit, that of each of several
// parts, one that it does not take, or that of a load.
func (w *promising) elsewhere(q weighed) bool {
	return otherLimits[w.is(q.to)] || w.shared(q.to) || w.refused(q.from) || w.hauled(q.from)
}

// promised reports whether the words around a weight say that the trailer takes it as a load.
func (w *promising) promised(q weighed) (from, to int, plain, ok bool) {
	if w.elsewhere(q) {
		return 0, 0, false, false
	}
	capacity := (q.unit || q.kilo) && !w.other(q.from)
	if to = w.called(q.to, capacity); to > 0 {
		return q.from, to, true, true
	}
	for i := q.from - 1; i >= q.from-maxBetween && !w.ends(i); i-- {
		switch s := w.is(i); {
		case weightWords[s] > 0 && !w.hyphened(i), otherWeights[s]:
			return 0, 0, false, false // that word is about another weight
		case payloadWords[s]:
			return i, q.to, true, q.unit || q.pounds >= 1000
		case capacities[s] && capacity:
			return i, q.to, true, true
		case carries[s] && (s != "good" || w.is(i+1) == "for"):
			return i, q.to, false, capacity && (q.unit || !taking[s])
		}
	}
	return 0, 0, false, false
}

// called is the end of the words after a weight that call it a payload or a capacity: 9,000 lb of
// payload, 9,000 lb load capacity. It is 0 where no words do.
func (w *promising) called(at int, capacity bool) int {
	for i := at; i < at+4 && !w.ends(i) && !otherParts[w.is(i)]; i++ {
		if s := w.is(i); payloadWords[s] || capacities[s] && capacity {
			return i + 1
		}
	}
	return 0
}

// other reports whether the weight at i is one of a part: a word of a part is close in front of
// it, and the sentence does not come back to the trailer. "The ramps are steel and the trailer
// carries" and "pulls straight, carries" come back to it.
func (w *promising) other(i int) bool {
	verb := false
	for from := i - maxSubject; i > from; {
		i--
		s := w.is(i)
		switch {
		case w.ends(i), trailers[s], verb && (w.parted(i) || s == "and" || s == "but"):
			return false
		case otherParts[s]:
			return true
		}
		verb = verb || carries[s]
	}
	return false
}

// shared reports whether the weight that ends in front of the word at i is one for each of
// several parts or for an area, and not for each trip.
func (w *promising) shared(i int) bool {
	switch w.is(i) {
	case "each", "per", "apiece":
		return !trips[w.is(i+1)]
	}
	for n := i; n < i+6 && !w.ends(n); n++ {
		if s := w.is(n); s == "square" || s == "sq" || s == "psf" {
			return true
		}
	}
	return false
}

// refused reports whether the words say that it is not so: a refusal in the same clause, close to
// the weight, that is not praise. "Do not haul 10,000 lb" is a refusal; "not only does it haul 50
// tons" and "no problem, it hauls 50 tons" are promises.
func (w *promising) refused(at int) bool {
	for i := at - 1; i >= at-1-maxRefused && !w.ends(i) && !w.parted(i); i-- {
		s := strings.ReplaceAll(w.is(i), "’", "'")
		next := w.is(i + 1)
		switch {
		case refusals[s]:
			praise := praises[next] || praises[w.is(i+2)] && i+2 < at || praises[w.is(i+3)] && i+3 < at
			return !praise && !(s == "less" && refusals[w.is(i-1)]) // "not less than 50 tons" is at least that

		case clauses[s] && !refusals[w.is(i-1)]: // "if it hauls" is one clause
			return false
		}
	}
	return false
}

// parted reports whether a comma, a colon, a dash or a parenthesis follows the word at i.
func (w *promising) parted(i int) bool {
	return i+1 < len(w.at) && strings.ContainsAny(w.text[w.at[i][1]:w.at[i+1][0]], ",:()–—")
}
