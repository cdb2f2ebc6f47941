package walkaround

import (
	"slices"
	"strings"

	"tarepage/internal/captions"
)

// An Operation is what a claim says was done with its terms.
type Operation uint8

const (
	// Less: the first term less the others.
	Less Operation = iota
	// Plus: the sum of the terms.
	Plus
	// Times: the product of the terms.
	Times
	// Leaves: what is left of one of the terms after another one, without saying which.
	Leaves
	// Volume: what three lengths in feet hold. The fourth term is the unit of the result in cubic feet.
	Volume
	// OverBy: how far one of the terms is over the payload.
	OverBy
	// Share: a part of a term. The first term is the part, as 0.2.
	Share
	// Holds: what the trailer carries, without saying why.
	Holds
	// Rule: a rule of thumb or a promise that no figure of the trailer can check.
	Rule
)

// A Claim is arithmetic that was said aloud, or a promise of what the trailer carries. It is
// kept as it was said; package crosscheck works it out.
type Claim struct {
	Operation Operation
	// Terms hold the readings of each term, the likeliest first: "forty-one" of a weight may be
	// 4,100. Result holds those of what was said to come out, in the same unit.
	Terms   [][]float64
	Result  []float64
	Compare Comparison
	// Load reports that the result is what may be loaded.
	Load bool
	// Spare reports that the result is what is left of the payload after a load.
	Spare bool
	// Of is the liquid of which the only term counts the gallons, if no weight of a gallon was said.
	Of string
	// Tare holds the readings of the weight of the bin that the load lies in.
	Tare []float64
	// Retracted reports that the speaker took it back and said nothing in its place.
	Retracted bool
	Quote     string
	Start     float64 // seconds
	// Offset and Answer are where the claim and its result begin in the text.
	Offset, Answer int
}

// Claims finds the claims in the captions, in order. Those of another trailer are not among
// them. Their Offset counts in Transcript.
func Claims(c captions.Track) []Claim {
	text, t := transcript(c)
	return claimsIn(text, t)
}

// Claims finds the same in written notes.
func (p Prose) Claims() []Claim { return claimsIn(p.text, p.t) }

// A link is what lies between two figures of a claim.
type link uint8

const (
	nothing link = iota
	minus
	fromLink // "thirty six hundred from fourteen thousand"
	plus
	times
	share
	result
)

// linkWords are the phrases that link figures, the longest one counts. Common practice, no
// source.
var linkWords = phraseMap(map[link]string{
	minus:    "minus|less|take away|takeaway|take a way|subtract|take off|back out|knock off",
	fromLink: "from|out of|off of|off the",
	plus:     "plus|add|and another|and say|and the other|added to",
	times:    "times|multiplied by",
	share:    "percent of|percent",
	result: `is|it's|equals|leaves|leave|gives|gives you|makes|makes it|makes your|comes to|comes out to|that's|that'd be|that is|that be|so that's|you got|you've got|you get|
		you can put|you can haul|you can carry|you can load|gets you|puts you at|you're at|you have|i get|we get|would be|works out to|end up with|wind up with|be|for a total of|so you're at|you're looking at|to haul|get to`,
})

// loadWords make a result one of what may be loaded.
var loadWords = phraseMap(map[link]string{result: `leaves|leave|gives you|you can put|you can haul|you can carry|you can load|to haul|payload|to play with|of cargo|of payload|capacity|
	to load|to put on|on there|on it|of whatever|for your|of car|to work with`})

// holdWords are in front of what the trailer is said to carry, heldWords come after it.
var (
	holdWords = phraseMap(map[link]string{result: `can haul|can carry|can put|can load|can throw|will haul|will carry|it'll haul|it'll carry|she'll haul|she'll carry|you'll haul|could haul|
		could carry|able to haul|able to carry|legally haul|legally carry|payload is|payload of|payload's|payload about|payload around|capacity is|capacity of|good to haul|to haul|carrying|hauls|carries|
		payload comes out to|payload works out to|net load|load it with|load her with`})
	heldWords = phraseMap(map[link]string{result: `of payload|payload|of cargo|to play with|to work with|of carrying capacity|of capacity|of car|for cargo|for your load|worth of cargo`})
	// tongueWords count the part that the truck carries on top.
	tongueWords = phraseMap(map[link]string{result: "count the tongue in|count the tongue|with the tongue|tongue included|add the tongue|figure the tongue in|counting the tongue"})
	ruleWords   = phraseMap(map[link]string{result: `rule of thumb|for every foot|a foot of trailer|per foot of trailer|for every hundred|stops in|stop in|stopping distance|stop you in|
		always say|always figure`})
	denyWords = set("not never nobody don't can't won't cannot ain't isn't if wouldn't he they his")
	// withdrawn are the phrases that take a claim back with nothing in its place.
	withdrawn = phraseMap(map[link]string{result: `scratch that|strike that|take that back|i lied|that's wrong|that's not right|that isn't right|that ain't right|my mistake|forget that|
		forget i said|disregard that|don't quote me|that can't be right`})
)

// A linkPhrase is a phrase and what it links.
type linkPhrase struct {
	link
	words []string
}

func phraseMap(list map[link]string) map[string][]linkPhrase {
	m := map[string][]linkPhrase{}
	for l, phrases := range list {
		for _, p := range splitPhrases(phrases) {
			m[p[0]] = append(m[p[0]], linkPhrase{l, p})
		}
	}
	return m
}

// splitPhrases cuts a list of phrases with bars between them into words.
func splitPhrases(list string) [][]string {
	var out [][]string
	for p := range strings.SplitSeq(list, "|") {
		out = append(out, strings.Fields(p))
	}
	return out
}

// linkAt is the longest phrase of the list at token i.
func (h *hearing) linkAt(list map[string][]linkPhrase, i int) (l link, n int) {
	for _, first := range []string{h.word(i), h.spoken(i)} {
		for _, p := range list[first] {
			if len(p.words) > n && h.startsWith(i, p.words) {
				l, n = p.link, len(p.words)
			}
		}
	}
	return l, n
}

func (h *hearing) anyIn(list map[string][]linkPhrase, from, to int) bool {
	for i := max(0, from); i < min(to, len(h.t)); i++ {
		if _, n := h.linkAt(list, i); n > 0 {
			return true
		}
	}
	return false
}

// How many words may lie between two figures of a claim: in one sentence, and over the end of one.
const claimGap, claimGapOver = 10, 8

// between is the link between two tokens: an operation counts more than the "is" after it.
func (h *hearing) between(from, to int) link {
	found := nothing
	if to-from > claimGap || to-from > claimGapOver && h.stopIn(from, to) {
		return nothing
	}
	for i := from; i < to; {
		l, n := h.linkAt(linkWords, i)
		if n == 0 {
			i++
			continue
		}
		if found == nothing || found == result && l != fromLink {
			found = l
		}
		if l == fromLink && h.is(i-1, "come", "comes", "came", "where") || l == minus && h.is(i-1, "or") {
			found = nothing // "where I come from", "more or less"
		}
		i += n
	}
	if (found == fromLink || found == share) && h.stopIn(from, to) {
		return nothing
	}
	return found
}

// A claimReader reads a claim that begins with figure i, or whose result that is. It returns the first and
// the last figure of the claim.
type claimReader func(h *hearing, qs []quantity, i int) (c Claim, first, last int, ok bool)

// claimReaders are tried in this order on figures that are not the result of a chain.
var claimReaders = []claimReader{onward((*hearing).severals), onward((*hearing).volume), onward((*hearing).gallons), alone((*hearing).overBy),
	func(h *hearing, qs []quantity, i int) (Claim, int, int, bool) {
		c, ok := h.leftOver(qs, i)
		return c, max(0, i-1), i, ok
	},
	alone((*hearing).holding), alone((*hearing).judgedLoad), alone((*hearing).thumb)}

// onward is a reader of claims that go on to a later figure.
func onward(read func(*hearing, []quantity, int) (Claim, int, bool)) claimReader {
	return func(h *hearing, qs []quantity, i int) (Claim, int, int, bool) {
		c, last, ok := read(h, qs, i)
		return c, i, last, ok
	}
}

// alone is a reader of claims of one figure.
func alone(read func(*hearing, []quantity, int) (Claim, bool)) claimReader {
	return func(h *hearing, qs []quantity, i int) (Claim, int, int, bool) {
		c, ok := read(h, qs, i)
		return c, i, i, ok
	}
}

func claimsIn(text string, t []token) []Claim {
	h := &hearing{t: t}
	qs := h.figures()
	away := others(t)
	var out []Claim
	done := map[int]bool{} // figures that are a result
	for i := 0; i < len(qs); i++ {
		c, last, ok := h.chain(qs, i)
		if !ok {
			continue
		}
		out = h.claim(out, text, qs, i, last, c, away)
		done[last] = true
		i = last - 1
	}
	for i := range qs {
		if done[i] {
			continue
		}
		for _, read := range claimReaders {
			if c, first, last, ok := read(h, qs, i); ok {
				out = h.claim(out, text, qs, first, last, c, away)
				break
			}
		}
	}
	out = h.tonClaims(out, text, away)
	slices.SortStableFunc(out, func(a, b Claim) int { return a.Offset - b.Offset })
	return out
}

// figures are the quantities that can be terms, each with its comparison.
func (h *hearing) figures() []quantity {
	var out []quantity
	for _, q := range h.quantities() {
		if q.unit == psi || q.unit == degrees || q.plural && q.amount < 100 || q.amount == 0 && h.is(q.to, "turn", "turns") {
			continue // "two big zero turns" are mowers
		}
		if q.unit == foreign && h.is(q.to-1, "times", "percent") {
			q.to-- // the word links
		}
		h.compare(&q)
		out = append(out, q)
	}
	return out
}

// claim adds a claim unless it is of another trailer, with the figure that took the place of
// its result, if one did.
func (h *hearing) claim(out []Claim, text string, qs []quantity, first, last int, c Claim, away []bool) []Claim {
	q := &qs[last]
	if away[q.from] {
		return out
	}
	if at, reach := h.repairAfter(q.to); at >= 0 && last+1 < len(qs) {
		if n := &qs[last+1]; n.from >= at-1 && n.from <= at+min(reach, 4) {
			q = n
			c.Result, c.Compare = readingsOfNumber(q), q.compare
		}
	}
	c.Retracted = h.anyIn(withdrawn, q.to, q.to+5)
	from, to := qs[first].head, q.to
	c.Offset, c.Answer = h.t[from].from, h.t[q.from].from
	c.Quote = text[c.Offset:h.t[to-1].to]
	c.Start = h.t[from].start
	return append(out, c)
}

// chain reads a claim that begins with figure i: figures with operations between them and a
// result. It returns the index of the result.
func (h *hearing) chain(qs []quantity, i int) (c Claim, last int, ok bool) {
	op := nothing
	c.Terms = [][]float64{readingsOfNumber(&qs[i])}
	for k := i + 1; k < len(qs); k++ {
		l := h.linkOf(&qs[k-1], &qs[k], op)
		if l == share && len(c.Terms) == 1 && qs[i].amount <= 100 {
			op = share
			c.Terms[0] = []float64{qs[i].amount / 100}
			c.Terms = append(c.Terms, readingsOfNumber(&qs[k]))
			continue
		}
		switch {
		case l == result && op != nothing:
			c.Operation = map[link]Operation{minus: Less, fromLink: Less, plus: Plus, times: Times, share: Share}[op]
			if op == fromLink {
				c.Terms[0], c.Terms[1] = c.Terms[1], c.Terms[0]
			}
			c.Result, c.Compare = readingsOfNumber(&qs[k]), qs[k].compare
			c.Load = h.isLoad(qs, k, op)
			return c, k, true
		case l == nothing || l == result || l == share || op != nothing && (l != op || op == fromLink), l == fromLink && !qs[i].weighty():
			return c, 0, false
		}
		op = l
		c.Terms = append(c.Terms, readingsOfNumber(&qs[k]))
	}
	return c, 0, false
}

// linkOf is the link between two figures of a claim whose operation, so far, is op.
func (h *hearing) linkOf(a, b *quantity, op link) link {
	switch {
	case h.is(b.from-1, "point"):
		return nothing // a decimal of which the whole part was not heard
	case op == minus && a.to == b.from && b.weighty():
		return result // "less eleven eighty thirty nine twenty"
	}
	return h.between(a.to, b.from)
}

// isLoad reports that the result of a chain, figure k, is what may be loaded or what somebody says goes on.
func (h *hearing) isLoad(qs []quantity, k int, op link) bool {
	switch op {
	case plus, times:
		return h.taken(qs, k)
	case minus, fromLink:
		return h.anyIn(loadWords, qs[k-1].to, qs[k].from) || h.anyIn(loadWords, qs[k].to, qs[k].to+4)
	}
	return false
}

// furthestTerm is how many words back a term of "that leaves you" may lie.
const furthestTerm = 45

// leftWords say that a figure is what is left: the first are in front of it, the others after it.
var leftWords, sparedWords = phraseMap(map[link]string{result: "leaves|leave|leaving|left with"}), phraseMap(map[link]string{result: "to spare|left|left over|leftover"})

// leftOver reads "that leaves you seventy three hundred": what is left of figures that were
// said before.
func (h *hearing) leftOver(qs []quantity, i int) (c Claim, ok bool) {
	q := &qs[i]
	if at := h.saysLeft(q); at < 0 || i > 0 && at < qs[i-1].to || q.unit != pounds && q.unit != bare || !q.weighty() {
		return c, false
	}
	for k := i - 1; k >= 0 && q.from-qs[k].to <= furthestTerm; k-- {
		p := &qs[k]
		short := p.single() && p.amount >= 7 && p.amount <= 40 && h.is(p.to, "that", "k", "leaves", "so", "and")
		if (p.unit == pounds || p.unit == bare) && (p.weighty() || short) && !h.is(p.to, "gallon", "gallons") {
			c.Terms = append(c.Terms, readingsOfNumber(p))
		}
	}
	c.Operation, c.Result, c.Compare, c.Load = Leaves, readingsOfNumber(q), q.compare, true
	c.Spare = h.spared(q)
	return c, len(c.Terms) >= 2
}

// sidesOf follow a left that is a side.
var sidesOf = set("side hand front rear tire wheel hub and or fender ramp of")

// spared reports that a figure is what is left after a load: "six hundred to spare".
func (h *hearing) spared(q *quantity) bool {
	_, n := h.linkAt(sparedWords, q.to)
	return n > 0 && (h.is(q.to, "to") || !sidesOf[h.word(q.to+n)])
}

// saysLeft is the token of the words that make q what is left, or -1.
func (h *hearing) saysLeft(q *quantity) int {
	if h.spared(q) {
		return q.from
	}
	at := -1
	for k := q.from - 1; k >= max(0, q.from-6) && h.t[k].kind != stop; k-- {
		if _, n := h.linkAt(leftWords, k); n > 0 && !h.is(k+1, "yourself", "room") {
			at = k
		}
	}
	return at
}

// What is said of a load that goes on, and of one that does not. Common practice, no source.
var (
	goodWords = phraseMap(map[link]string{result: `fits|got room|you're good|you're fine|you're okay|you're golden|you're legal|no problem|about the limit|easy|that's fine|you're done|you are done`})
	badWords  = phraseMap(map[link]string{result: `no go|no good|too much|too heavy|over|won't|can't|not`})
	eachWords = phraseMap(map[link]string{result: "apiece|a piece|each|a head"})
	themWords = phraseMap(map[link]string{result: "of them|of those|of these|of em"})
)

// How many things a trailer carries at most, how far "you're good" may be from a load, and how far back
// the weight of "four of them" may be.
const mostThings, judged, furthestThing = 200, 12, 30

// severals reads a load of several things of one weight: "three cars at twenty nine hundred is eighty
// seven", "so you could carry four of them". It returns the index of the last figure.
func (h *hearing) severals(qs []quantity, i int) (c Claim, last int, ok bool) {
	n, isCount := qs[i].whole()
	if !isCount || n < 2 || n > mostThings || qs[i].unit != bare || qs[i].plural {
		return c, 0, false
	}
	if _, them := h.linkAt(themWords, qs[i].to); them > 0 {
		return h.ofThem(qs, i, n)
	}
	if i+1 >= len(qs) || !h.apiece(&qs[i], &qs[i+1]) {
		return c, 0, false
	}
	return h.stacked(qs, i, i+1, n, readingsOfNumber(&qs[i+1]))
}

// apiece reports that w is the weight of each of the things that q counts.
func (h *hearing) apiece(q, w *quantity) bool {
	if w.from-q.to > 5 || w.from-q.to < 2 || w.unit != bare && w.unit != pounds {
		return false
	}
	for k := q.to; k < w.from; k++ {
		if h.t[k].kind == comma && k == q.to || h.is(k, "in", "up") {
			return false
		}
	}
	if h.stopIn(q.to, w.from) {
		return false
	}
	_, each := h.linkAt(eachWords, w.to)
	return h.is(w.from-1, "at") || each > 0 && h.is(w.from-1, "is", "are", "run", "weigh", "go")
}

// stopIn reports that a sentence ends between two tokens.
func (h *hearing) stopIn(from, to int) bool {
	return slices.ContainsFunc(h.t[from:max(from, to)], func(t token) bool { return t.kind == stop })
}

// stacked is the claim about n things of one weight, of which figure i is the first and figure w the
// last one that was said: their sum, if it follows, and whether they go on.
func (h *hearing) stacked(qs []quantity, i, w, n int, weight []float64) (c Claim, last int, ok bool) {
	c.Operation, c.Terms, last = Times, [][]float64{{float64(n)}, weight}, w
	if k := w + 1; k < len(qs) && h.between(qs[w].to, qs[k].from) == result && !h.stopIn(qs[w].to, qs[k].from) && (qs[k].unit == bare || qs[k].unit == pounds) && !h.ofSomething(&qs[k]) {
		c.Result, c.Compare, last = readingsOfNumber(&qs[k]), qs[k].compare, k
	}
	c.Load = h.goesOn(qs[last].to)
	if c.Result == nil {
		c.Operation, c.Terms = Holds, nil
		for _, v := range weight {
			c.Result = append(c.Result, float64(n)*v)
		}
		return c, last, c.Load && qs[w].weighty()
	}
	return c, last, true
}

// goesOn reports that what is said after token i is that a load goes on.
func (h *hearing) goesOn(i int) bool {
	for k := i; k < min(len(h.t), i+judged); k++ {
		if _, n := h.linkAt(goodWords, k); n > 0 {
			return true
		}
		if _, n := h.linkAt(badWords, k); n > 0 {
			return false
		}
	}
	return false
}

// ofThem reads "two of them that's twenty nine twenty" and "you could carry four of them", of the
// weight that was said last.
func (h *hearing) ofThem(qs []quantity, i, n int) (c Claim, last int, ok bool) {
	at := -1
	for k := i - 1; k >= 0 && qs[i].from-qs[k].to <= furthestThing && at < 0; k-- {
		if (qs[k].unit == pounds || qs[k].unit == bare) && qs[k].weighty() {
			at = k
		}
	}
	if at < 0 {
		return c, 0, false
	}
	weight := readingsOfNumber(&qs[at])
	c, last, ok = h.stacked(qs, i, i, n, weight)
	if !ok && h.anyIn(holdWords, qs[i].from-3, qs[i].from) {
		c.Load = true
		return c, i, true
	}
	return c, last, ok && c.Operation == Times && qs[last].weighty()
}

// weighty reports a figure that is said the way weights are.
func (q *quantity) weighty() bool {
	v, _, ok := q.weight()
	return ok && v >= 300
}

// holding reads "you can haul nineteen thousand on this one", "five thousand pounds of car".
func (h *hearing) holding(qs []quantity, i int) (c Claim, ok bool) {
	q := &qs[i]
	if q.unit != pounds && q.unit != bare || h.ofSomething(q) {
		return c, false
	}
	from := 0
	if i > 0 {
		from = qs[i-1].to
	}
	tongue := h.anyIn(tongueWords, max(from, q.from-12), q.from)
	if !q.weighty() && !tongue && !h.inThousands(q) {
		return c, false
	}
	said := tongue
	for k := q.from - 1; k >= max(from, q.from-6) && h.t[k].kind != stop; k-- {
		_, n := h.linkAt(holdWords, k)
		if denyWords[h.word(k)] || n > 0 && heldBy[h.word(k-1)] {
			return c, false
		}
		if n > 0 || h.carries(k, q) {
			said = true
		}
	}
	_, behind := h.linkAt(heldWords, q.to)
	if !said && behind == 0 {
		return c, false
	}
	c.Operation, c.Result, c.Compare, c.Load = Holds, readingsOfNumber(q), q.compare, true
	c.Tare = h.tare(qs, i)
	return c, true
}

// inThousands reports a load that people call by its thousands: "you can haul ten on this one".
func (h *hearing) inThousands(q *quantity) bool {
	if h.is(q.to, "on") && h.is(q.to+1, "it", "this", "here", "there", "her") {
		return true
	}
	n, ok := q.whole()
	ends := q.to >= len(h.t) || h.t[q.to].kind != word && h.t[q.to].kind != number || h.is(q.to, "and", "so", "but", "with")
	return ok && n >= 7 && n <= 48 && ends && (h.is(q.from-1, "haul", "carry"))
}

// ofSomething reports a figure that counts or measures something else than a load.
func (h *hearing) ofSomething(q *quantity) bool {
	return h.is(q.to, "axle", "axles", "gvwr", "jack", "coupler", "times", "trailer", "gross", "psi", "miles", "a") && !h.is(q.to+1, "load") || h.is(q.to, "winch") || h.is(q.to+1, "winch")
}

// thumb reads a rule of thumb or a promise of how it stops.
func (h *hearing) thumb(qs []quantity, i int) (c Claim, ok bool) {
	q := &qs[i]
	if !h.anyIn(ruleWords, q.from-6, q.from) {
		return c, false
	}
	c.Operation, c.Result, c.Compare = Rule, readingsOfNumber(q), q.compare
	return c, true
}

// readingsOfNumber are the numbers that a figure may mean, the likeliest first: in talk of
// weights "fourteen" is 14,000 and "forty-one" 4,100.
func readingsOfNumber(q *quantity) []float64 {
	v, ok := q.together()
	if !ok {
		v = q.amount
	}
	if !q.single() || q.scaled || q.unit != bare && q.unit != pounds || v < 2 || v >= 100 {
		if q.single() && len(q.parts) == 1 {
			v = q.amount
		}
		return []float64{v}
	}
	if v <= 40 {
		return []float64{v, v * 1000, v * 100}
	}
	return []float64{v, v * 100, v * 1000}
}
