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
	{"let me check", 20, "it weighs 4,200 lb empty, let me check, 4,100 lb"},
	{"oops", 8, "it weighs 4,200 lb empty, oops, 4,100 lb"},
	{"actually", 4, "it weighs 4,200 lb empty, actually 4,100 lb"},
	{"rather", 3, "it weighs 4,200 lb empty, or rather 4,100 lb"},
	{"no", 8, "it weighs 4,200 lb empty, no, 4,100 lb"},
}

var repairWords = func() [][]string {
	var out [][]string
	for _, r := range repairs {
		out = append(out, strings.Fields(r.phrase))
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
	h := &hearing{t: t}
	h.denials(ds)
	h.corrections(ds)
	if recording {
		h.oneValue(ds)
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
		row := a.choices[a.pick].row
		for n := k + 1; n < len(ds) && ds[n].head <= at+reach; n++ {
			b := &ds[n]
			if b.head < at {
				break // another figure is what is taken back
			}
			if c := slices.IndexFunc(b.choices, func(c choice) bool { return c.row == row }); c >= 0 && !same(a.choices[a.pick].value, b.choices[c].value, false) {
				if b.pick >= 0 && b.choices[b.pick].row != row && b.choices[b.pick].score > b.choices[c].score+6*scale {
					break
				}
				b.pick = c
				b.choices[c].score = max(b.choices[c].score, a.choices[a.pick].score, 2*bar)
				a.pick, a.doubt = -1, "corrected at once"
				break
			}
			if b.pick >= 0 {
				break
			}
		}
		if a.pick >= 0 && a.choices[a.pick].score < bar {
			a.pick = -1
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
		if h.is(k, "no") && noRepair[h.word(k+1)] {
			continue
		}
		for n, w := range repairWords {
			if h.startsWith(k, w) {
				return k + len(w), repairs[n].reach
			}
		}
	}
	return -1, 0
}

// oneValue keeps one value for each key: of several the one that the most and the surest
// mentions are for, and later ones count more. What loses a key may still have another.
func (h *hearing) oneValue(ds []decided) {
	for row := range roleTable {
		for {
			best, loser := h.contest(ds, row)
			if loser < 0 {
				break
			}
			d := &ds[loser]
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

// given reports that another value has the key.
func given(ds []decided, row int, v Value) bool {
	return slices.ContainsFunc(ds, func(d decided) bool {
		return d.pick >= 0 && d.choices[d.pick].row == row && !same(d.choices[d.pick].value, v, d.compare != Equal)
	})
}

// contest finds the mention that stands for a key and one that says something else, or -1.
func (h *hearing) contest(ds []decided, row int) (best, loser int) {
	var group []int
	for k := range ds {
		if d := &ds[k]; d.pick >= 0 && d.choices[d.pick].row == row {
			group = append(group, k)
		}
	}
	agree := func(a, b int) bool {
		x, y := &ds[a].choices[ds[a].pick], &ds[b].choices[ds[b].pick]
		return same(x.value, y.value, ds[a].compare != Equal || ds[b].compare != Equal || x.high != nil || y.high != nil)
	}
	var most int32
	best = -1
	for _, a := range group {
		total := ds[a].choices[ds[a].pick].score
		for _, b := range group {
			if a != b && agree(a, b) {
				total += scale
			}
		}
		if ds[a].compare != Equal {
			total -= scale
		}
		if h.saysExactly(&ds[a]) {
			total += 2 * scale
		}
		if best < 0 || total > most {
			best, most = a, total
		}
	}
	for _, a := range group {
		if a != best && !agree(a, best) {
			return best, a
		}
	}
	return best, -1
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
