package walkaround

import "tarepage/internal/measure"

// A saidOfLoad is a phrase that says that a load goes on, with an example that a test reads. The
// payload of the example is 5,000 lb, and the load in it is more than that.
type saidOfLoad struct{ phrase, example string }

// takesIt are the phrases. They come after the weight of the load. Common practice, no source.
var takesIt = []saidOfLoad{
	{"carry that", "the mini goes about seven two with the bucket and she'll carry that"},
	{"haul that", "the mini goes about seven two and it'll haul that"},
	{"handle that", "the mini weighs seven two and it'll handle that"},
	{"take that", "the mini weighs seven two and it'll take that"},
	{"take it", "a loader is sixty eight hundred and ours would take it"},
	{"carry it", "a loader is sixty eight hundred and it'll carry it"},
	{"haul it", "a loader is sixty eight hundred and it will haul it"},
	{"handle it", "a loader weighs sixty eight hundred and this will handle it"},
	{"take both", "those are sixty eight hundred so you can take both"},
	{"carry both", "those are sixty eight hundred so you can carry both"},
	{"haul both", "those are sixty eight hundred so you can haul both"},
	{"carry them", "those weigh sixty eight hundred and it'll carry them"},
	{"haul them", "those weigh sixty eight hundred and it'll haul them"},
	{"that's fine", "the track loader is 9,100, that's fine"},
	{"fine too", "the track loader is 9,100 and my guy says that's fine too"},
	{"no problem", "the feed comes to 5,200 no problem there"},
	{"you're good", "that's fifty four hundred so you're good"},
	{"you're okay", "a full tank is about eight thousand so you're okay"},
	{"you're fine", "a full tank is about eight thousand so you're fine"},
}

var (
	takesWords = func() map[string][]linkPhrase {
		m := map[link]string{}
		for _, s := range takesIt {
			m[result] += s.phrase + "|"
		}
		m[result] = m[result][:len(m[result])-1]
		return phraseMap(m)
	}()
	// weighsWords are in front of the weight of a load.
	weighsWords = phraseMap(map[link]string{result: "goes|go|weighs|weigh|runs|run|is|are|that's|comes to|it's|makes"})
	// otherThings have figures that are not the weight of a load.
	otherThings = set(`axle axles coupler gvwr gross rated rating rate ratings hitch jack tire tires empty payload price priced asking dollars bucks winch tongue
		ball chains chain truck trucks trailer capacity pintle springs strap straps ring rings ramp ramps gate limit scale sticker label tag plate
		financing month cash title taxes curb`)
	// doubts between a weight and what is said of it leave nothing to check.
	doubts = set("not never no don't won't can't cannot wouldn't isn't ain't if unless over too less minus nobody until but or stop")
)

// beforeWeight is how far before a weight its subject is looked for.
const beforeWeight = 10

// judgedLoad reads a weight that somebody says goes on: "the mini goes about eleven two and she'll carry
// that", "the track loader is 9,100, that's fine".
func (h *hearing) judgedLoad(qs []quantity, i int) (c Claim, ok bool) {
	q := &qs[i]
	if q.unit != pounds && q.unit != bare || !q.weighty() || q.single() && !q.scaled && q.amount < 300 || h.ofSomething(q) || !h.taken(qs, i) {
		return c, false
	}
	weighs := false
	for k := q.from - 1; k >= max(0, q.from-beforeWeight) && h.t[k].kind != stop; k-- {
		if otherThings[h.word(k)] || denyWords[h.word(k)] {
			return c, false
		}
		if _, n := h.linkAt(weighsWords, k); n > 0 && q.from-k <= 4 || h.t[k].possessive && q.from-k <= 3 {
			weighs = true
		}
	}
	if !weighs {
		return c, false
	}
	c.Operation, c.Result, c.Compare, c.Load = Holds, readingsOfNumber(q), q.compare, true
	return c, true
}

// taken reports that what follows figure i says that it goes on, with no other figure in between except
// one that it is under.
func (h *hearing) taken(qs []quantity, i int) bool {
	next := len(h.t)
	for k := i + 1; k < len(qs); k++ {
		if !h.is(qs[k].from-1, "under") {
			next = qs[k].from
			break
		}
	}
	for k := qs[i].to; k < min(next, qs[i].to+judged, len(h.t)); k++ {
		if _, n := h.linkAt(takesWords, k); n > 0 {
			return true
		}
		if w := h.word(k); doubts[w] || otherThings[w] {
			return false
		}
	}
	return false
}

// volumeUnit is the unit of a volume in cubic feet, or 0. "Two feet" is a length.
func (h *hearing) volumeUnit(q *quantity) float64 {
	const yard = 27
	switch {
	case h.is(q.to-1, "yard", "yards"), h.is(q.to, "cubic") && h.is(q.to+1, "yard", "yards"):
		return yard
	case h.is(q.to, "cubic") && h.is(q.to+1, "foot", "feet", "ft"):
		return 1
	}
	return 0
}

// sides are three lengths in feet that begin with figure i: "twelve by seven by two".
func (h *hearing) sides(qs []quantity, i int) [][]float64 {
	const longest = 60
	var out [][]float64
	for k := i; k < i+3; k++ {
		q := &qs[k]
		v := q.amount
		if q.unit == inches {
			v /= measure.InchesPerFoot
		}
		if q.unit != bare && q.unit != feet && q.unit != inches || !q.single() || v <= 0 || v > longest ||
			k > i && (q.from-qs[k-1].to != 1 || !h.is(q.from-1, "by", "x", "times")) {
			return nil
		}
		out = append(out, []float64{v})
	}
	return out
}

// volume reads "twelve by seven by two, that is eight yards": three lengths and what they hold. A heaped
// load is not one of these.
func (h *hearing) volume(qs []quantity, i int) (c Claim, last int, ok bool) {
	if i+3 >= len(qs) {
		return c, 0, false
	}
	if c.Terms = h.sides(qs, i); c.Terms == nil {
		return c, 0, false
	}
	q := &qs[i+3]
	per := h.volumeUnit(q)
	if per == 0 || !q.single() || h.between(qs[i+2].to, q.from) != result || h.heaped(qs[i].from, q.to) {
		return c, 0, false
	}
	c.Operation, c.Terms, c.Result, c.Compare = Volume, append(c.Terms, []float64{per}), []float64{q.amount}, About
	return c, i + 3, true
}

// heaped reports talk of a heap near these tokens that is not denied.
func (h *hearing) heaped(from, to int) bool {
	for k := max(0, from-6); k < min(len(h.t), to+8); k++ {
		if h.is(k, "heaped", "heaping", "heap", "rounded", "mounded") && !h.is(k-1, "no", "not") {
			return true
		}
	}
	return false
}

// otherLiquids are the liquids that are not water. Where one is near, only a weight of a gallon that was said counts.
var otherLiquids = set("fuel diesel gas gasoline fertilizer milk brine oil syrup molasses liquid chemical acid propane honey beer slurry manure")

// How far back the weight of a gallon may be, and how far the name of the liquid.
const gallonSaid, liquidSaid = 30, 12

// gallons reads "a hundred gallons, that's only five hundred pounds of water": a weight by the gallon that
// was said, or water.
func (h *hearing) gallons(qs []quantity, i int) (c Claim, last int, ok bool) {
	q := &qs[i]
	if i+1 >= len(qs) || !h.is(q.to-1, "gallon", "gallons") && !h.is(q.to, "gallon", "gallons") {
		return c, 0, false
	}
	w := &qs[i+1]
	if w.unit != pounds && w.unit != bare || !w.weighty() || h.between(q.to, w.from) != result || h.stopIn(q.to, w.from) || h.ofSomething(w) || h.is(w.to, "gallon", "gallons") {
		return c, 0, false
	}
	c.Operation, c.Terms, c.Result, c.Compare = Times, [][]float64{readingsOfNumber(q)}, readingsOfNumber(w), About
	c.Load = h.taken(qs, i+1)
	for k := i - 1; k >= 0 && q.from-qs[k].to <= gallonSaid; k-- {
		if p := &qs[k]; p.unit == pounds && p.amount >= 5 && p.amount <= 15 && p.single() {
			c.Terms = append(c.Terms, []float64{p.amount})
			return c, i + 1, true
		}
	}
	water := false
	for k := max(0, q.from-liquidSaid); k < min(len(h.t), w.to+4); k++ {
		if otherLiquids[h.word(k)] {
			return c, 0, false
		}
		water = water || h.is(k, "water")
	}
	c.Of = "water"
	return c, i + 1, water
}

// overWords say by how much a load is too heavy.
var overWords = phraseMap(map[link]string{result: "over by|over it by|overloaded by|too heavy by"})

// overBy reads "a thousand gallons is eleven thousand and you're over by thirty one fifty".
func (h *hearing) overBy(qs []quantity, i int) (c Claim, ok bool) {
	q := &qs[i]
	if q.unit != pounds && q.unit != bare || !q.weighty() || !h.anyIn(overWords, q.from-5, q.from) || h.stopIn(max(0, q.from-5), q.from) {
		return c, false
	}
	for k := i - 1; k >= 0 && q.from-qs[k].to <= furthestThing; k-- {
		if p := &qs[k]; (p.unit == pounds || p.unit == bare) && p.weighty() {
			c.Terms = append(c.Terms, readingsOfNumber(p))
		}
	}
	c.Operation, c.Result, c.Compare = OverBy, readingsOfNumber(q), q.compare
	return c, len(c.Terms) > 0
}

// notOfTons are the things that are called by tons: "a ton and a half truck".
var notOfTons = set("truck trucks pickup pickups dually jack winch hoist axle axles unit")

// poundsPerTon is the short ton.
const poundsPerTon = 2000

// tons reads "you can haul a ton and a half on it". "A ton" alone is how people say much.
func (h *hearing) tons(i int) (v float64, to int) {
	_, n := h.linkAt(holdWords, i)
	if n == 0 {
		return 0, 0
	}
	k := i + n
	for h.is(k, "about", "like", "around", "maybe", "a", "good", "up", "to") {
		k++
	}
	count, said := 1.0, false
	if m, ok := h.numeralAt(k); ok && m.single() && !m.scaled {
		count, said, k = m.value(), true, m.to
	}
	if !h.is(k, "ton", "tons") {
		return 0, 0
	}
	k++
	if h.is(k, "and") && h.is(k+1, "a") && h.is(k+2, "half") {
		count, said, k = count+0.5, true, k+3
	}
	if !said || notOfTons[h.word(k)] || count > 30 {
		return 0, 0
	}
	for b := max(0, i-6); b < i; b++ {
		if denyWords[h.word(b)] {
			return 0, 0
		}
	}
	return count * poundsPerTon, k
}

// tonClaims are the loads that were said in tons.
func (h *hearing) tonClaims(out []Claim, text string, away []bool) []Claim {
	for i := range h.t {
		v, to := h.tons(i)
		if v == 0 || away[i] {
			continue
		}
		out = append(out, Claim{Operation: Holds, Result: []float64{v}, Load: true, Retracted: h.anyIn(withdrawn, to, to+5),
			Quote: text[h.t[i].from:h.t[to-1].to], Start: h.t[i].start, Offset: h.t[i].from, Answer: h.t[i].from})
	}
	return out
}

// bins are what a load lies in that is a load too.
var bins = set("bin can dumpster container crate tank")

// tare is the weight of the bin that the load of figure i lies in, as it was said before: "the bin is
// 2,300 ... you can throw 11,300 pounds in that bin".
func (h *hearing) tare(qs []quantity, i int) []float64 {
	name := ""
	for k := qs[i].to; k < min(len(h.t), qs[i].to+6) && h.t[k].kind != stop; k++ {
		if h.is(k, "in") && h.is(k+1, "that", "the", "this") && bins[h.word(k+2)] {
			name = h.word(k + 2)
		}
	}
	for k := i - 1; k >= 0 && name != ""; k-- {
		p := &qs[k]
		if (p.unit == bare || p.unit == pounds) && p.weighty() && (h.is(p.from-1, "is", "weighs") && h.is(p.from-2, name) || h.is(p.from-1, name) && h.t[p.from-1].possessive) {
			return readingsOfNumber(p)
		}
	}
	return nil
}

// What is done with a load, and what is in front of that where it is allowed. Common practice, no source.
var (
	carryVerbs = set("haul carry tote take handle move set put load throw stack hold")
	mayWords   = set("can could may will it'll she'll this'll you'll she'd it'd")
	letWords   = set("allowed able safe legal okay enough")
)

// carries reports that token k is the verb of what the trailer is said to carry, and q the load: "you can set
// eight thousand pounds on this deck". What a part or a truck holds is something else.
func (h *hearing) carries(k int, q *quantity) bool {
	on := h.is(q.to, "on", "in") && h.is(q.to+1, "it", "her", "this", "here", "there")
	if !carryVerbs[h.word(k)] || q.unit != pounds && !on {
		return false
	}
	if !mayWords[h.word(k-1)] && !(h.is(k-1, "to") && letWords[h.word(k-2)]) {
		return false
	}
	for b := k - 1; b >= max(0, k-beforeWeight) && h.t[b].kind != stop; b-- {
		if otherThings[h.word(b)] || heldBy[h.word(b)] || denyWords[h.word(b)] || h.is(b, "i", "we") {
			return false
		}
	}
	return true
}

// heldBy are the parts whose own limits people say.
var heldBy = set(`jack ramp ramps coupler hitch winch ball ring rings hook hooks strap straps tie axle axles tire tires wheel wheels gate tongue pintle
	gooseneck receiver rack chain chains hoist pickup truck spring springs rail rails step fender fenders`)
