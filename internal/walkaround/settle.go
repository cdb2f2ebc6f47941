package walkaround

import (
	"slices"
	"strings"

	"tarepage/internal/measure"
)

// A repair is a phrase with which people take back the figure before it. Reach is how many
// words may pass from it to the figure that is right. The examples are said by a test.
type repair struct {
	phrase  string
	reach   int
	example string // of which the second weight is the empty weight
}

var repairs = []repair{
	{"sorry", 20, "it weighs 4,200 lb empty, sorry, 4,100 lb"},
	{"i mean", 12, "it weighs 4,200 lb empty, i mean 4,100 lb"},
	{"make that", 6, "it weighs 4,200 lb empty, make that 4,100 lb"},
	{"scratch that", 14, "it weighs 4,200 lb empty, scratch that, 4,100 lb"},
	{"strike that", 14, "it weighs 4,200 lb empty, strike that, 4,100 lb"},
	{"correction", 8, "it weighs 4,200 lb empty, correction, 4,100 lb"},
	{"stand corrected", 20, "it weighs 4,200 lb empty, i stand corrected, 4,100 lb"},
	{"take that back", 20, "it weighs 4,200 lb empty, i take that back, 4,100 lb"},
	{"my mistake", 14, "it weighs 4,200 lb empty, my mistake, 4,100 lb"},
	{"excuse me", 8, "it weighs 4,200 lb empty, excuse me, 4,100 lb"},
	{"i lied", 14, "it weighs 4,200 lb empty, i lied, 4,100 lb"},
	{"that's wrong", 14, "it weighs 4,200 lb empty, that's wrong, 4,100 lb"},
	{"that's not right", 20, "it weighs 4,200 lb empty, that's not right, 4,100 lb"},
	{"wait", 14, "it weighs 4,200 lb empty, wait, 4,100 lb"},
	{"hold on", 20, "it weighs 4,200 lb empty, hold on, let me look, 4,100 lb"},
	{"let me look", 20, "it weighs 4,200 lb empty, let me look, 4,100 lb"},
	{"hang on", 34, "it weighs 4,200 lb empty, hang on, let me look, 4,100 lb"},
	{"that ain't right", 20, "it weighs 4,200 lb empty, that ain't right, 4,100 lb"},
	{"that can't be right", 20, "it weighs 4,200 lb empty, that can't be right, 4,100 lb"},
	{"let me see", 14, "it weighs 4,200 lb empty, let me see, 4,100 lb"},
	{"what's it say", 14, "it weighs 4,200 lb empty, what's it say, 4,100 lb"},
	{"what's the sheet say", 14, "it weighs 4,200 lb empty, what's the sheet say, 4,100 lb"},
	{"no no", 14, "it weighs 4,200 lb empty, no no, 4,100 lb"},
	{"nope", 14, "it weighs 4,200 lb empty, nope, 4,100 lb"},
	{"perdon", 14, "it weighs 4,200 lb empty, perdon, 4,100 lb"},
	{"let me back up", 20, "it weighs 4,200 lb empty, let me back up, 4,100 lb"},
	{"i misspoke", 20, "it weighs 4,200 lb empty, i misspoke, 4,100 lb"},
	{"i said that wrong", 20, "it weighs 4,200 lb empty, i said that wrong, 4,100 lb"},
	{"let me put a tape", 34, "the deck is 83 inches wide, let me put a tape on it, 82 inches"},
	{"let me measure", 20, "the deck is 83 inches wide, let me measure, 82 inches"},
	{"let me read it", 20, "it weighs 4,200 lb empty, let me read it, 4,100 lb"},
	{"let me wipe", 20, "it weighs 4,200 lb empty, let me wipe it, 4,100 lb"},
	{"let me count", 14, "it weighs 4,200 lb empty, let me count, 4,100 lb"},
	{"let me verify", 14, "it weighs 4,200 lb empty, let me verify, 4,100 lb"},
	{"tape again", 20, "the deck is 83 inches wide, tape again, 82 inches"},
	{"let me check", 20, "it weighs 4,200 lb empty, let me check, 4,100 lb"},
	{"oops", 8, "it weighs 4,200 lb empty, oops, 4,100 lb"},
	{"actually", 4, "it weighs 4,200 lb empty, actually 4,100 lb"},
	{"rather", 3, "it weighs 4,200 lb empty, or rather 4,100 lb"},
	{"no it isn't", 16, "it weighs 4,200 lb empty, no it isn't, they changed that, it's 4,100 lb"},
	{"no it ain't", 16, "it weighs 4,200 lb empty, no it ain't, they changed that, it's 4,100 lb"},
	{"that's not", 10, "it weighs 4,200 lb empty, that's not 4,200 lb, it's 4,100 lb"},
	{"let me be right", 8, "it weighs 4,200 lb empty, let me be right, 4,100 lb"},
	{"no", 8, "it weighs 4,200 lb empty, no, 4,100 lb"},
}

var repairWords = func() [][]string {
	var out [][]string
	for _, r := range repairs {
		out = append(out, strings.Fields(r.phrase))
	}
	return out
}()

// repairsBegin are the first words of the repairs.
var repairsBegin = func() map[string]bool {
	out := map[string]bool{}
	for _, w := range repairWords {
		out[w[0]] = true
	}
	return out
}()

// exact are the words that make the figure next to them the one that counts.
var exact = set("exact exactly actual tape measured precise")

// Scores that settle adds or asks for, in units of scale.
const (
	faint  = -2 * scale // below this a reading is not taken up, whatever speaks for it
	agrees = 1 * scale  // what figures gain that add up
)

// settle chooses over the whole talk: what adds up gains, what was taken back is dropped,
// and in a recording each key has one value.
func settle(ds []decided, s *scene, t []token, recording bool, kind Word) {
	pool(ds)
	sums(ds)
	least := bar
	if !recording {
		least = noteBar
	}
	(&hearing{t: t}).formerPrices(ds)
	holds(ds, spaceOf[kind])
	h := &hearing{t: t}
	h.overall(ds)
	noPrices(ds)
	for k := range ds {
		d := &ds[k]
		if len(d.choices) == 0 {
			continue
		}
		slices.SortStableFunc(d.choices, func(a, b choice) int { return int(b.score) - int(a.score) })
		switch best := d.choices[0].score; {
		case best >= least && s.other[d.from]:
			d.doubt = "another unit"
		case best >= least && s.away[d.from] && (best < least+2*scale || strings.HasPrefix(d.shape, "=")):
			d.doubt = "another unit, or one that might be"
		case best >= least:
			d.pick = 0
		}
	}
	h.denials(ds)
	h.onlyHad(ds)
	h.former(ds)
	h.corrections(ds)
	if recording {
		h.oneValue(ds)
		fill(ds, s)
		sameWidth(ds)
		outsized(ds)
	}
}

// A limit says that one figure of a trailer is at most a part of another one. Common
// practice, no source. In the example the first figure is too much for the second, and the
// one of the two that is less sure is not taken.
type limit struct {
	part, whole Role
	most        float64
	example     string
}

var limits = []limit{
	{Empty, GVWR, 0.8, "gvwr is fourteen thousand, it weighs 13,500 lb empty"},
	{Payload, GVWR, 0.95, "gvwr is fourteen thousand, payload is 14,000 lb"},
	{TongueEmpty, GVWR, 0.25, "gvwr is fourteen thousand, tongue weight is 4,500 pounds"},
	{TongueEmpty, Empty, 0.4, "it weighs 4,100 lb empty, tongue weight is 2,450 pounds"},
	{DeckFlat, DeckLength, 0.99, "the deck is 20 ft long, twenty four foot of flat deck"},
	{DeckTail, DeckLength, 0.9, "the deck is 20 ft long, a twenty four foot dovetail"},
	{DeckBetween, OverallWidth, 1, "96 inches overall, 102 inches between the fenders"},
	{RampWidth, OverallWidth, 1, "96 inches overall, the ramps are 100 inches wide"},
}

// outsized drops the less sure of two figures that cannot be of one trailer.
func outsized(ds []decided) {
	for _, l := range limits {
		part, whole := best(ds, l.part), best(ds, l.whole)
		if part < 0 || whole < 0 {
			continue
		}
		a, b := &ds[part].choices[ds[part].pick], &ds[whole].choices[ds[whole].pick]
		v, _ := amount(a.value)
		w, _ := amount(b.value)
		if v <= l.most*w {
			continue
		}
		row, value := a.row, a.value
		if a.score > b.score {
			row, value = b.row, b.value
		}
		for k := range ds {
			if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row && d.choices[d.pick].value == value {
				d.pick, d.doubt = -1, "too much or too little for the other figures"
			}
		}
	}
}

// best is the surest figure that was given a role, or -1.
func best(ds []decided, role Role) int {
	row, at := roleIndex[role], -1
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row && (at < 0 || d.choices[d.pick].score > ds[at].choices[ds[at].pick].score) {
			at = k
		}
	}
	return at
}

// pooled is the part of the score of one mention that the others of the same figure gain.
const pooled = 60

// pool lets mentions of one figure speak for each other: "she's 940 pounds, and 2,990 take
// away 940 is 2,050".
func pool(ds []decided) {
	type reading struct {
		row   int
		value Value
	}
	best := map[reading][2]int32{} // the best and the next score
	for k := range ds {
		for _, c := range ds[k].choices {
			b, known := best[reading{c.row, c.value}]
			switch {
			case !known:
				b = [2]int32{c.score, faint * 100}
			case c.score > b[0]:
				b = [2]int32{c.score, b[0]}
			case c.score > b[1]:
				b[1] = c.score
			}
			best[reading{c.row, c.value}] = b
		}
	}
	for k := range ds {
		for i := range ds[k].choices {
			c := &ds[k].choices[i]
			b := best[reading{c.row, c.value}]
			other := b[0]
			if c.score == b[0] {
				other = b[1]
			}
			if other > 0 && roleTable[c.row].dim != count && roleTable[c.row].dim != letter {
				c.score += min(other, 4*scale) * pooled / 100
			}
		}
	}
}

// former are the words in front of a price that another one takes the place of.
var former = set("was base list sticker msrp retail regular standard")

// formerPrices makes prices less likely that are named only to be undercut: "list is nine
// four, we're at eight".
func (h *hearing) formerPrices(ds []decided) {
	for k := range ds {
		for c := range ds[k].choices {
			ch := &ds[k].choices[c]
			for i := ds[k].head - 1; ch.row == roleIndex[Price] && i >= max(0, ds[k].head-4) && h.t[i].kind != stop; i-- {
				if former[h.word(i)] {
					ch.score -= 2 * scale
					break
				}
			}
		}
	}
}

// spaces are the parts that a load goes on or into, by the first part of their keys.
var spaces = []string{"deck", "bed", "box"}

// spaceOf is where the kinds that people name carry their load. All others have a deck, or
// figures of their own.
var spaceOf = map[Word]string{
	"dump": "bed", "enclosed": "box", "livestock": "box", "concession": "box",
	"equipment": "deck", "utility": "deck", "car-hauler": "deck", "deck-over": "deck", "flatbed": "deck", "tilt": "deck", "landscape": "deck",
}

// holds moves the length, width and height of a deck, a bed or a box to the part that the
// kind of trailer has: "fourteen foot in the box" of a dump trailer is its bed.
func holds(ds []decided, space string) {
	if space == "" {
		return
	}
	for k := range ds {
		for c := range ds[k].choices {
			ch := &ds[k].choices[c]
			part, what, _ := strings.Cut(string(roleTable[ch.row].role), ".")
			if part == space || !slices.Contains(spaces, part) || what != "length" && what != "width" && what != "height" {
				continue
			}
			row := roleIndex[Role(space+"."+what)]
			at := slices.IndexFunc(ds[k].choices, func(o choice) bool { return o.row == row && o.value == ch.value })
			if at < 0 || part == "deck" && what == "height" || space == "deck" && what == "height" {
				continue
			}
			if o := &ds[k].choices[at]; ch.score > o.score {
				o.score, ch.score = ch.score, o.score
			}
		}
	}
}

// overall gives a width that is called overall to the whole trailer: "eighty two between the fenders, a
// hundred and one overall".
func (h *hearing) overall(ds []decided) {
	row := roleIndex[OverallWidth]
	for k := range ds {
		d := &ds[k]
		at := slices.IndexFunc(d.choices, func(c choice) bool { return c.row == row })
		if at < 0 || !h.saysOverall(d) {
			continue
		}
		most := int32(bar)
		for _, c := range d.choices {
			most = max(most, c.score)
		}
		d.choices[at].score = most + 2*scale
	}
}

// saysOverall reports that a figure is called the overall width, or over the fenders.
func (h *hearing) saysOverall(d *decided) bool {
	for k := d.to; k < min(len(h.t), d.to+3) && h.t[k].kind == word; k++ {
		if h.is(k, "overall") && !h.is(k+1, "length", "long", "height") || h.is(k, "over", "across") && h.is(k+1, "the") && h.is(k+2, "fenders") {
			return true
		}
	}
	for k := d.from - 1; k >= max(0, d.from-6) && h.t[k].kind == word; k-- {
		if h.is(k, "overall") && h.is(k+1, "width") {
			return true
		}
	}
	return false
}

// noPrices makes prices less likely that are a model year: "two thousand twenty six, brand new".
func noPrices(ds []decided) {
	for k := range ds {
		d := &ds[k]
		if !slices.ContainsFunc(d.choices, func(c choice) bool { return c.row == roleIndex[ModelYear] }) {
			continue
		}
		for c := range d.choices {
			if ch := &d.choices[c]; ch.row == roleIndex[Price] && ch.inferred {
				ch.score -= 3 * scale
			}
		}
	}
}

// onlyHad drops what can only be had: "two jacks is optional".
func (h *hearing) onlyHad(ds []decided) {
	for k := range ds {
		d := &ds[k]
		for i := d.to; d.pick >= 0 && i < min(len(h.t), d.to+3) && h.t[i].kind == word; i++ {
			if s, n := h.statementAt(i); n > 0 && s.side == itemFirst && s.means == optional || h.is(i, "is", "are") && h.is(i+1, "optional") {
				d.pick, d.doubt = -1, "only an option"
			}
		}
	}
}

// former drops what was so once, or is so of others: "twelve inches, that was the old one".
func (h *hearing) former(ds []decided) {
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row != roleIndex[ModelYear] && h.credit(d) <= notThis {
			d.pick, d.doubt = -1, "of another one, or not any more"
		}
	}
}

// sameWidth drops a deck's width that is the width between the fenders: "an 83 by 20" is
// named by what fits between them.
func sameWidth(ds []decided) {
	between := roleIndex[DeckBetween]
	for k := range ds {
		d := &ds[k]
		if d.pick >= 0 && d.choices[d.pick].row == roleIndex[DeckWidth] && given(ds, between, nil) && !given(ds, between, d.choices[d.pick].value) {
			d.pick, d.doubt = -1, "the width between the fenders"
		}
	}
}

// A reading is one choice of one figure.
type reading struct{ k, c int }

// readingsOf are the readings of a role that are not faint, the best first.
func readingsOf(ds []decided, role Role) []reading {
	row := roleIndex[role]
	var out []reading
	for k := range ds {
		for c := range ds[k].choices {
			if ch := &ds[k].choices[c]; ch.row == row && ch.score > faint && ch.high == nil {
				out = append(out, reading{k, c})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b reading) int { return int(ds[b.k].choices[b.c].score) - int(ds[a.k].choices[a.c].score) })
	return out[:min(len(out), 10)]
}

// totals are the sums that the figures of one trailer keep: the first is the sum of the
// other two.
var totals = [][3]Role{{GVWR, Empty, Payload}, {DeckLength, DeckFlat, DeckTail}}

// sums lets figures gain that add up: gross less empty is the payload, flat and tail are
// the deck. It is evidence, not a rule: two figures may add up to a third by chance.
func sums(ds []decided) {
	gain := map[reading]bool{}
	for _, roles := range totals {
		a, b, c := readingsOf(ds, roles[0]), readingsOf(ds, roles[1]), readingsOf(ds, roles[2])
		value := func(r reading) float64 { v, _ := amount(ds[r.k].choices[r.c].value); return v }
		for _, x := range a {
			for _, y := range b {
				for _, z := range c {
					if x.k == y.k || y.k == z.k || x.k == z.k {
						continue
					}
					if off := value(y) + value(z) - value(x); off*500 < value(x) && -off*500 < value(x) {
						gain[x], gain[y], gain[z] = true, true, true
					}
				}
			}
		}
	}
	for r := range gain {
		ds[r.k].choices[r.c].score += agrees
	}
}

// denials drops what is named only to say that it is not so: "not the two and five
// sixteenths".
func (h *hearing) denials(ds []decided) {
	for k := range ds {
		d := &ds[k]
		i := d.head - 1
		for h.is(i, "the", "a", "an") {
			i--
		}
		if d.pick >= 0 && h.is(i, "not", "isn't", "ain't", "aren't") && d.compare == Equal && i >= d.head-3 {
			d.pick, d.doubt = -1, "denied"
		}
	}
}

// corrections drops a figure that is taken back at once, and gives its role to the figure
// that follows.
func (h *hearing) corrections(ds []decided) {
	for k := range ds {
		a := &ds[k]
		if len(a.choices) == 0 || a.choices[0].score < 0 || a.doubt != "" {
			continue
		}
		at, reach := h.repairAfter(a.of)
		if at < 0 {
			continue
		}
		a.pick = max(a.pick, 0) // what is taken back was meant, however little says so
		putRight(ds, k, at, reach)
		if a.pick >= 0 && a.choices[a.pick].score < bar {
			a.pick = -1
		}
	}
}

// putRight gives the role of figure k, which is taken back, to the figure within reach of token at that is
// right.
func putRight(ds []decided, k, at, reach int) {
	a := &ds[k]
	row := a.choices[a.pick].row
	for n := k + 1; n < len(ds) && ds[n].head <= at+reach; n++ {
		b := &ds[n]
		if b.head < at {
			break // another figure is what is taken back
		}
		if b.pick >= 0 && b.choices[b.pick].row == row && b.choices[b.pick].value == a.choices[a.pick].value {
			continue // "that's not twenty four, it's twenty"
		}
		if c := slices.IndexFunc(b.choices, func(c choice) bool { return c.row == row }); c >= 0 && !same(a.choices[a.pick].value, b.choices[c].value, false) {
			if b.pick >= 0 && b.choices[b.pick].row != row && b.choices[b.pick].score > b.choices[c].score+6*scale {
				break
			}
			b.pick = c
			b.choices[c].score = max(b.choices[c].score, a.choices[a.pick].score, 2*bar)
			dropEarlier(ds[:n], row, a.choices[a.pick].value)
			break
		}
		if b.pick >= 0 && (roleTable[b.choices[b.pick].row].dim != count || roleTable[row].dim == count) {
			break
		}
	}
}

// dropEarlier takes a value back wherever it was said: "five inch channel, five inch, no that's six".
func dropEarlier(ds []decided, row int, value Value) {
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row && d.choices[d.pick].value == value {
			d.pick, d.doubt = -1, "corrected at once"
		}
	}
}

// noRepair are the words after which "no" takes nothing back: "so that's no good".
var noRepair = set("good go problem more less charge need use brakes spare")

// repairAfter finds a repair that begins within nine words after token i: where it ends,
// or -1, and how far it reaches.
func (h *hearing) repairAfter(i int) (at, reach int) {
	if k := i + 1; h.is(i, "uh", "um", "er") || i < len(h.t) && h.t[i].kind == comma && h.is(k, "uh", "um", "er") {
		return i + 1, 2 // "crossmembers are two foot, uh, sixteen inch centers"
	}
	for k := i; k < min(i+10, len(h.t)); k++ {
		if n, r := h.repairAt(k); n > 0 {
			at, reach = k+n, r
			for k = at; k < at+4; k++ { // "oh no, scratch that"
				if n, r := h.repairAt(k); n > 0 {
					at, reach = k+n, max(reach, r)
				}
			}
			return at, reach
		}
	}
	return -1, 0
}

// repairAt is how many tokens at i are a repair, and how far it reaches.
func (h *hearing) repairAt(i int) (n, reach int) {
	if h.is(i, "no") && noRepair[h.word(i+1)] {
		return 0, 0
	}
	return h.repairing(i)
}

// repairing is the same, whatever follows a no.
func (h *hearing) repairing(i int) (n, reach int) {
	if !repairsBegin[h.word(i)] && !repairsBegin[h.spoken(i)] {
		return 0, 0
	}
	for k, w := range repairWords {
		if h.startsWith(i, w) {
			return len(w), repairs[k].reach
		}
	}
	return 0, 0
}

// oneValue keeps one value for each key: of several the one that the most and the surest
// mentions are for, and later ones count more. What loses a key may still have another.
func (h *hearing) oneValue(ds []decided) {
	for row := range roleTable {
		due := map[Value]int32{}
		if row == roleIndex[Payload] {
			due = leftBy(ds)
		}
		p := h.poll(ds, row, due)
		for {
			best, loser := p.contest()
			if loser < 0 {
				exactly(ds, row, best)
				break
			}
			d := &ds[p.mentions[loser]]
			p.leave(loser)
			d.lost = &d.choices[d.pick]
			d.pick, d.doubt = -1, "said otherwise elsewhere"
			won := ds[best].choices[ds[best].pick].value
			for c := range d.choices {
				if ch := &d.choices[c]; ch.row != row && ch.score >= max(bar, d.lost.score-3*scale) && !given(ds, ch.row, ch.value) && !same(ch.value, won, false) {
					d.pick, d.lost = c, nil
					break
				}
			}
			if d.pick >= 0 && d.choices[d.pick].row < row {
				break // its own contest is over; given made sure that nothing else has the key
			}
		}
	}
}

// exactly drops what only says the same as the best mention roughly: "right at five thousand" of 5,020.
func exactly(ds []decided, row, best int) {
	if best < 0 {
		return
	}
	value := ds[best].choices[ds[best].pick].value
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row && !same(d.choices[d.pick].value, value, false) {
			d.pick, d.doubt = -1, "said more exactly elsewhere"
		}
	}
}

// leftBy is the payload that the gross and the empty weight leave, with what it gains by that.
func leftBy(ds []decided) map[Value]int32 {
	gross, empty := best(ds, GVWR), best(ds, Empty)
	if gross < 0 || empty < 0 {
		return nil
	}
	a, aOK := ds[gross].choices[ds[gross].pick].value.(measure.Pounds)
	b, bOK := ds[empty].choices[ds[empty].pick].value.(measure.Pounds)
	if !aOK || !bOK || b >= a {
		return nil
	}
	return map[Value]int32{a - b: 4 * scale}
}

// A source is a phrase next to a figure that says how much to believe it where another one has
// the same key. After says that it follows the figure. In the example it is of the
// first figure.
type source struct {
	phrase  string
	after   bool
	credit  int32
	example string
}

// notThis is the credit of a figure that is not of this trailer, or not any more.
const notThis = -4 * scale

var sources = []source{
	{"brochure says", false, -3 * scale, "the brochure says it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"book says", false, -3 * scale, "the book says it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"catalog says", false, -3 * scale, "the catalog says it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"flyer says", false, -3 * scale, "the flyer says it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"it was a", false, notThis, "it was a 4,200 lb empty trailer. it weighs 4,100 lb empty"},
	{"certificate says", false, -2 * scale, "the certificate says it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"the book", true, -3 * scale, "it weighs 4,200 lb empty in the book. it weighs 4,100 lb empty"},
	{"the brochure", true, -3 * scale, "it weighs 4,200 lb empty by the brochure. it weighs 4,100 lb empty"},
	{"flyer says", true, -3 * scale, "it weighs 4,200 lb empty, that's what the flyer says. it weighs 4,100 lb empty"},
	{"base model", true, notThis, "it weighs 4,200 lb empty on the base model. it weighs 4,100 lb empty"},
	{"was the old", true, notThis, "it weighs 4,200 lb empty, that was the old one. it weighs 4,100 lb empty"},
	{"was the asking", true, notThis, "it weighs 4,200 lb empty, that was the asking. it weighs 4,100 lb empty"},
	{"i measured", false, 3 * scale, "i measured 4,200 lb empty. it weighs 4,100 lb empty"},
	{"i weighed", false, 3 * scale, "i weighed 4,200 lb empty. it weighs 4,100 lb empty"},
	{"tape says", false, 3 * scale, "the tape says 4,200 lb empty. it weighs 4,100 lb empty"},
	{"scale says", false, 3 * scale, "the scale says 4,200 lb empty. it weighs 4,100 lb empty"},
	{"standard", false, -3 * scale, "standard, it weighs 4,200 lb empty. it weighs 4,100 lb empty"},
	{"on this one", false, 3 * scale, "on this one it's 4,200 lb empty. it weighs 4,100 lb empty"},
	{"on this one", true, 3 * scale, "it weighs 4,200 lb empty on this one. it weighs 4,100 lb empty"},
	{"i'd put", false, 3 * scale, "i'd put it at 4,200 lb empty. it weighs 4,100 lb empty"},
	{"i could do", false, 3 * scale, "i could do 4,200 lb empty. it weighs 4,100 lb empty"},
	{"i can do", false, 3 * scale, "i can do 4,200 lb empty. it weighs 4,100 lb empty"},
	{"i'll do", false, 3 * scale, "i'll do 4,200 lb empty. it weighs 4,100 lb empty"},
	{"my price", false, 3 * scale, "my price 4,200 lb empty. it weighs 4,100 lb empty"},
	{"cash price", false, 3 * scale, "cash price 4,200 lb empty. it weighs 4,100 lb empty"},
	{"cash today", false, 3 * scale, "cash today 4,200 lb empty. it weighs 4,100 lb empty"},
}

// sourceReach is how many words may lie between a figure and its source.
const sourceReach = 5

var sourceWords = func() [][]string {
	var out [][]string
	for _, s := range sources {
		out = append(out, strings.Fields(s.phrase))
	}
	return out
}()

// credit is what the words next to a figure add to it.
func (h *hearing) credit(d *decided) int32 {
	sum := int32(0)
	for n, w := range sourceWords {
		from, to := d.head-sourceReach-len(w), d.head-len(w)
		if sources[n].after {
			from, to = d.of, d.of+sourceReach
		}
		for k := max(0, from); k <= to; k++ {
			if h.startsWith(k, w) {
				sum += sources[n].credit
				break
			}
		}
	}
	return sum
}

// lowBars are scores at which a figure is given a role that nothing else in the talk has, in units of
// scale. Where none is listed, bar counts. They were chosen on talk that the model was not trained on: of
// what lies between the two, nine in ten are right for these roles, two in three for the others.
var lowBars = map[Role]int32{ModelYear: -scale, TongueEmpty: -scale, GVWR: 0, Pressure: 0, Empty: scale, HitchRating: scale}

// fill gives roles that nothing has to the figures that are likely enough, and the payload to the figure
// that the gross and the empty weight leave.
func fill(ds []decided, s *scene) {
	for role, least := range lowBars {
		if at := likeliest(ds, s, role, nil); best(ds, role) < 0 && at.k >= 0 && ds[at.k].choices[at.c].score >= least {
			ds[at.k].pick = at.c
		}
	}
	for value := range leftBy(ds) {
		at := likeliest(ds, s, Payload, value)
		if at.k < 0 || ds[at.k].choices[at.c].score < 2*faint {
			continue
		}
		if has := best(ds, Payload); has >= 0 && !same(value, ds[has].choices[ds[has].pick].value, true) {
			continue // what was promised is something else, which is for the claims to judge
		}
		for k := range ds {
			if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == roleIndex[Payload] {
				d.pick, d.doubt = -1, "not what the gross and the empty weight leave"
			}
		}
		ds[at.k].pick, ds[at.k].doubt = at.c, ""
	}
}

// likeliest is the best reading of a role among the figures without one, of one value or of any.
func likeliest(ds []decided, s *scene, role Role, value Value) reading {
	out := reading{-1, -1}
	for k := range ds {
		d := &ds[k]
		// A figure that the others leave is of this trailer, whatever the talk around it.
		if d.pick >= 0 || s.other[d.from] || value == nil && (s.away[d.from] || d.doubt != "") {
			continue
		}
		for c := range d.choices {
			ch := &d.choices[c]
			if ch.row == roleIndex[role] && (value == nil || ch.value == value) && (out.k < 0 || ch.score > ds[out.k].choices[out.c].score) {
				out = reading{k, c}
			}
		}
	}
	return out
}

// given reports that another value has the key.
func given(ds []decided, row int, v Value) bool {
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row && !same(d.choices[d.pick].value, v, d.compare != Equal) {
			return true
		}
	}
	return false
}

func (h *hearing) saysExactly(d *decided) bool {
	for k := max(0, d.head-4); k < min(len(h.t), d.of+4); k++ {
		if exact[h.word(k)] {
			return true
		}
	}
	return false
}

// same reports whether two values say the same; about allows 2.5%.
func same(a, b Value, about bool) bool {
	switch v := a.(type) {
	case measure.Pounds:
		return nearly(v, b, about)
	case measure.Inches:
		return nearly(v, b, about)
	case measure.PSI:
		return nearly(v, b, about)
	case measure.Dollars:
		return nearly(v, b, about)
	case Section:
		w, ok := b.(Section)
		return ok && (v.Depth == 0 || w.Depth == 0 || v.Depth == w.Depth) && (v.PerFoot == 0 || w.PerFoot == 0 || v.PerFoot == w.PerFoot)
	case Word:
		w, ok := b.(Word)
		return ok && sizeDigits(string(v)) == sizeDigits(string(w))
	}
	return a == b
}

func nearly[U measure.Unit](a U, other Value, about bool) bool {
	b, ok := other.(U)
	return ok && (a == b || about && measure.Agrees(a, b, 0, true))
}

// sizeDigits is a tire size without the letters in front.
func sizeDigits(s string) string {
	if strings.Contains(s, "/") {
		return strings.TrimLeft(s, "STLPC")
	}
	return s
}
