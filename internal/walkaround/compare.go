package walkaround

import "strings"

// A hedge is a phrase next to a figure that says how the figure is meant. The examples are
// said by a test.
type hedge struct {
	phrase  string
	means   Comparison
	example string
}

// before stand in front of their figure, after follow it. The longest phrase that fits
// counts. Common practice, no source.
var (
	before = []hedge{
		{"about", About, "it weighs about 4,100 lb empty"},
		{"around", About, "it weighs around 4,100 lb empty"},
		{"right around", About, "it weighs right around 4,100 lb empty"},
		{"right at", About, "it weighs right at 4,100 lb empty"},
		{"right about", About, "it weighs right about 4,100 lb empty"},
		{"roughly", About, "it weighs roughly 4,100 lb empty"},
		{"approximately", About, "it weighs approximately 4,100 lb empty"},
		{"approx", About, "it weighs approx. 4,100 lb empty"},
		{"maybe", About, "it weighs maybe 4,100 lb empty"},
		{"probably", About, "it weighs probably 4,100 lb empty"},
		{"pushing", About, "it weighs pushing 4,100 lb empty"},
		{"nearly", About, "it weighs nearly 4,100 lb empty"},
		{"almost", About, "it weighs almost 4,100 lb empty"},
		{"circa", About, "it weighs circa 4,100 lb empty"},
		{"close to", About, "it weighs close to 4,100 lb empty"},
		{"call it", About, "it weighs, call it 4,100 lb empty"},
		{"somewhere around", About, "it weighs somewhere around 4,100 lb empty"},
		{"what about", About, "it weighs, what, about 4,100 lb empty"},
		{"neighborhood of", About, "it weighs in the neighborhood of 4,100 lb empty"},
		{"under", Under, "it weighs under 4,100 lb empty"},
		{"below", Under, "it weighs below 4,100 lb empty"},
		{"just under", Under, "it weighs just under 4,100 lb empty"},
		{"shy of", Under, "it weighs just shy of 4,100 lb empty"},
		{"less than", Under, "it weighs less than 4,100 lb empty"},
		{"lighter than", Under, "it is lighter than 4,100 lb empty"},
		{"lower than", Under, "the deck is lower than 34 inches off the ground"},
		{"shorter than", Under, "the deck is shorter than 20 ft long"},
		{"over", Over, "it weighs over 4,100 lb empty"},
		{"north of", Over, "it weighs north of 4,100 lb empty"},
		{"more than", Over, "it weighs more than 4,100 lb empty"},
		{"better than", Over, "it weighs a little better than 4,100 lb empty"},
		{"heavier than", Over, "it is heavier than 4,100 lb empty"},
		{"higher than", Over, "the deck is higher than 34 inches off the ground"},
		{"longer than", Over, "the deck is longer than 20 ft"},
		{"wider than", Over, "the deck is wider than 96 inches"},
		{"at least", AtLeast, "it weighs at least 4,100 lb empty"},
		{"minimum", AtLeast, "it weighs, minimum, 4,100 lb empty"},
		{"no less than", AtLeast, "it weighs no less than 4,100 lb empty"},
		{"not less than", AtLeast, "it weighs not less than 4,100 lb empty"},
		{"not under", AtLeast, "it weighs not under 4,100 lb empty"},
		{"at most", UpTo, "it weighs at most 4,100 lb empty"},
		{"up to", UpTo, "payload up to 9,800 lb"},
		{"max", UpTo, "payload max 9,800 lb"},
		{"maximum", UpTo, "payload maximum 9,800 lb"},
		{"exceed", UpTo, "payload not to exceed 9,800 lb"},
		{"no more than", UpTo, "it weighs no more than 4,100 lb empty"},
		{"not more than", UpTo, "it weighs not more than 4,100 lb empty"},
		{"nothing over", UpTo, "run the tires at nothing over 80 psi"},
		{"not over", UpTo, "run the tires at not over 80 psi"},
		{"aired up to", Equal, "tires aired up to 80 psi"},
		{"air them up to", Equal, "air them up to 80 psi on the tires"},
		{"all over", Equal, ""},
		{"went over", Equal, ""},
	}
	after = []hedge{
		{"or so", About, "it weighs 4,100 lb or so empty"},
		{"ish", About, "it weighs 4,100 ish empty"},
		{"or thereabouts", About, "it weighs 4,100 lb or thereabouts empty"},
		{"thereabouts", About, "it weighs 4,100 lb thereabouts empty"},
		{"give or take", About, "it weighs 4,100 lb give or take, empty"},
		{"more or less", About, "it weighs 4,100 lb more or less, empty"},
		{"and change", About, "it weighs 4,100 and change empty"},
		{"and some change", About, "it weighs 4,100 and some change empty"},
		{"maybe", About, "it weighs 4,100 lb maybe, empty"},
		{"roughly", About, "it weighs 4,100 lb roughly, empty"},
		{"no more than that", UpTo, "run the tires at 80 psi no more than that"},
		{"max", UpTo, "run the tires at 80 psi max"},
		{"tops", UpTo, "it weighs 4,100 lb tops, empty"},
		{"at least", AtLeast, "it weighs 4,100 lb at least, empty"},
		{"at the most", UpTo, "it weighs 4,100 lb at the most, empty"},
	}
)

// hedgeWords are the phrases cut into words.
func hedgeWords(list []hedge) [][]string {
	out := make([][]string, len(list))
	for i, h := range list {
		out[i] = strings.Fields(h.phrase)
	}
	return out
}

var beforeWords, afterWords = hedgeWords(before), hedgeWords(after)

// compare reads how the figure is meant and where its quote begins.
func (h *hearing) compare(q *quantity) {
	k := q.from - 1
	if k >= 0 && h.t[k].kind == comma {
		k--
	}
	for k >= 0 && h.is(k, "a", "an", "the", "$", "like", "just") {
		k--
	}
	best := 0
	for i, w := range beforeWords {
		if len(w) > best && h.endsWith(k, w) {
			best, q.compare, q.head = len(w), before[i].means, k-len(w)+1
		}
	}
	j := q.to
	if j < len(h.t) && h.t[j].kind == comma {
		j++
	}
	for i, w := range afterWords {
		if q.compare == Equal && h.startsWith(j, w) {
			q.compare = after[i].means
		}
	}
}

func (h *hearing) endsWith(k int, w []string) bool { return h.startsWith(k-len(w)+1, w) }

func (h *hearing) startsWith(i int, w []string) bool {
	for n, x := range w {
		if h.word(i+n) != x && h.spoken(i+n) != x {
			return false
		}
	}
	return true
}

// spoken is a word with its 's.
func (h *hearing) spoken(i int) string {
	if w := h.word(i); w == "" || !h.t[i].possessive {
		return w
	}
	return h.t[i].text + "'s"
}

// joinRanges joins "between ten and twelve thousand", "60 to 65" into one quantity with a
// high end.
func (h *hearing) joinRanges(qs []quantity) []quantity {
	out := qs[:0]
	for i := 0; i < len(qs); i++ {
		q := qs[i]
		if i+1 < len(qs) && h.spans(&q, &qs[i+1]) {
			i++
		} else if i+1 < len(qs) && q.unit == bare && qs[i+1].unit == foreign && h.is(q.to, "to") && qs[i+1].from == q.to+1 {
			q.unit = foreign // "ninety to a hundred twenty foot pounds"
		}
		out = append(out, q)
	}
	return out
}

// hundreds reports "eleven hundred twelve hundred" and "seventeen eighteen hundred", which is
// a guess between the two.
func (h *hearing) hundreds(q, r *quantity) bool {
	a := q.amount
	if a < 100 {
		a *= 100
	}
	return q.single() && r.single() && r.scaled && h.is(r.numeral.to-1, "hundred") && a >= 1000 && r.amount > a && r.amount-a <= 200 && (q.scaled || q.amount >= 10)
}

// spans makes q the range from q to r, if that is what was said.
func (h *hearing) spans(q, r *quantity) bool {
	between := h.is(q.from-1, "between") || h.is(q.from-2, "between") && h.is(q.from-1, "about", "like")
	gap := r.from - q.to
	switch {
	case !h.reaches(q, r) && !(between && gap == 1 && h.is(q.to, "and")):
		return false
	case q.unit != bare && r.unit != bare && q.unit != r.unit, q.compare == UpTo, q.unit == foreign, r.unit == foreign:
		return false
	}
	low, high := *q, *r
	if low.unit == bare {
		low.unit = high.unit
	}
	if high.unit == bare {
		high.unit = low.unit
	}
	low.scaleOf(&high)
	a, ok1 := low.together()
	b, ok2 := high.together()
	if !ok1 || !ok2 || a >= b || b > 3*a {
		return false
	}
	if between {
		low.head = q.from - 1
	}
	low.high, low.to = &high, high.to
	*q = low
	return true
}

// reaches reports that the words between two quantities make them a range.
func (h *hearing) reaches(q, r *quantity) bool {
	switch gap := r.from - q.to; {
	case gap == 0, gap == 1 && h.t[q.to].kind == comma:
		return h.hundreds(q, r)
	case gap == 1 && h.is(q.to, "maybe"):
		return q.amount < r.amount && q.amount*1.25 > r.amount
	case gap == 2:
		return h.is(q.to, "to", "or") && h.is(q.to+1, "about", "maybe")
	default:
		return gap == 1 && h.is(q.to, "to", "or")
	}
}

// scaleOf gives q the scale that was said once for both: ten to twelve thousand.
func (q *quantity) scaleOf(high *quantity) {
	if !q.single() || !high.single() || q.scaled || !high.scaled || q.amount >= 100 {
		return
	}
	for _, scale := range []float64{1000, 100} {
		if high.amount >= scale && q.amount*scale <= high.amount {
			q.amount *= scale
			break
		}
	}
	q.parts, q.scaled = []float64{q.amount}, true
}
