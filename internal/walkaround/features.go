package walkaround

import (
	"strings"

	"tarepage/internal/measure"
)

// A feature is something seen around a figure, hashed: a word at a distance, a pair of
// words, the nearest part of the trailer, the role of the figure before. The model has
// weights for features; no part of this file says what a feature means.
type feature = uint32

// hash mixes a template and what it holds (FNV-1a over 32-bit words).
func hash(template uint32, parts ...uint32) feature {
	h := uint32(2166136261)
	h = (h ^ template) * 16777619
	for _, p := range parts {
		h ^= p & 0xffff
		h *= 16777619
		h ^= p >> 16
		h *= 16777619
	}
	h ^= h >> 15
	h *= 0x2c1b3c6d
	return (h ^ h>>13) & hashMask
}

// hashMask keeps the bits of a feature that the model stores. Two features in a hundred thousand then
// share their weights, which costs less than the room for longer ones.
const hashMask = 1<<24 - 1

func hashText(s string) uint32 {
	h := uint32(2166136261)
	for i := range len(s) {
		h = (h ^ uint32(s[i])) * 16777619
	}
	return h
}

// An item is a word or a figure of the talk, as the features see it.
type item struct {
	name  uint32 // hash of the word, of "#lb" and the like for a figure
	edge  uint8  // what is in front of it: 0 nothing, 1 a comma, 2 a stop or a pause
	fig   bool
	noun  uint8  // of nouns, or 0
	attr  uint8  // of attributes, or 0
	from  int    // first token
	class uint32 // the word where it is a small one, else its noun, attribute or unit
}

// A scene is a talk made ready for features: its items and where each candidate is.
type scene struct {
	items []item
	place []int // of each candidate: the index of its item
	cands []candidate
	kind  uint32 // of the trailer, as far as it was said
	// lastNoun[i] is the last noun before item i, or 0.
	lastNoun      []uint8
	away          []bool   // of each token: it is of something else than the trailer
	other         []bool   // of each token: it is in the description of another trailer
	reckoned      []uint32 // of each candidate: what it is in arithmetic that was said
	front, behind []uint8  // of each candidate: what is stated before and after it
	repaired      []uint8  // of each candidate: whether something is taken back near it
	sums          []map[measure.Pounds]uint32
	settings      []setting // of each clause
	clause        []int     // of each token: the number of its clause
	again         []uint32  // of each candidate: how many others have one of its values
}

// nouns are the parts and ratings that talk turns on, by their words without a plural s.
var nouns = numbered(`axle gawr spindle|coupler hitch|ball|jack leg|deck decking|ramp|gate tailgate|tail dovetail beavertail dove beaver|
	frame beam channel ibeam|crossmember member|tire rubber|wheel rim lug|spare|chain|ring|pocket stake|bed dump hoist|box inside enclosed interior|
	side|fender|floor plank board plywood|tongue pin|gvwr gross|tag plate sticker label placard|payload cargo haul carry load|price asking cash|
	weigh weight empty scale dry|brake|spring torsion suspension|truck pickup|ply range sidewall|pressure air psi cold|winch|light|battery|
	gooseneck neck|pintle|door|hub bearing|tractor skid excavator machine mower|horse cow bale|warranty month year|code date week dot|bolt|trailer unit`)

// attributes are directions and ways of measuring.
var attributes = numbered(`wide width across|long length|tall high height deep|ground|apart spacing spread|center oc|between|rated rating good|each per|thick|
	overall total whole|up over|off|inside|flat straight main|by x|plus|minus|model|ask want take get`)

func numbered(groups string) map[string]uint8 {
	m := map[string]uint8{}
	for i, g := range strings.Split(groups, "|") {
		for w := range strings.FieldsSeq(g) {
			m[w] = uint8(i + 1)
		}
	}
	return m
}

// stem drops a plural's s.
func stem(w string) string {
	if n := len(w); n > 3 && w[n-1] == 's' && w[n-2] != 's' && w[n-2] != 'u' {
		return w[:n-1]
	}
	return w
}

// sounds are what fills a pause and says nothing.
var sounds = set("um uh er ah hmm uhm")

// kindWords tell what the load goes into.
var kindWords = map[string]uint32{"dump": 1, "enclosed": 2, "cargo": 2, "livestock": 3, "stock": 3, "cattle": 3, "horse": 3}

// smallWords are the words that say how a figure is meant, not what it is of.
var smallWords = set(`a an the of on in at by to for with from and but or so that's it's is are was has have got get gives there's they're we you your i he she it
	that this these those one each both all about around right maybe call no not what how which if can will than then into under per up down just only
	put makes make leaves minus plus equals total more extra`)

// classOf is what kind of word a word is, for what is said in words that the model has not
// met.
func classOf(w string) uint32 {
	switch {
	case nouns[w] != 0:
		return 1000 + uint32(nouns[w])
	case attributes[w] != 0:
		return 2000 + uint32(attributes[w])
	case smallWords[w]:
		return hashText(w)
	}
	return 2
}

// setScene makes the items of a talk and marks its candidates.
func setScene(t []token, cands []candidate) *scene {
	s := &scene{cands: cands, items: make([]item, 0, len(t)), place: make([]int, len(cands))}
	s.away, s.other = asides(t), others(t)
	h := &hearing{t: t}
	s.reckoned, s.sums = h.reckoned(cands), figuresOf(cands)
	s.front, s.behind = h.stated(cands)
	s.repaired = h.repaired(cands)
	s.settings, s.clause = h.settings()
	s.again = saidAgain(cands)
	at := 0
	edge := uint8(0)
	noun := uint8(0)
	for i := 0; i < len(t); {
		for at < len(cands) && cands[at].from < i {
			s.place[at] = max(0, len(s.items)-1) // inside a figure before it
			at++
		}
		if at < len(cands) && cands[at].from == i {
			c := &cands[at]
			s.place[at] = len(s.items)
			it := item{name: hashText("#" + c.shape), edge: edge, fig: true, from: i, class: 10 + uint32(c.unit)}
			if strings.HasPrefix(c.shape, "=") {
				it.name, it.fig, it.class = hashText(c.shape[1:]), false, hashText(c.shape[1:])
			}
			s.items, s.lastNoun = append(s.items, it), append(s.lastNoun, noun)
			edge = 0
			i = max(c.to, i+1)
			at++
			continue
		}
		switch k := t[i].kind; {
		case k == stop:
			edge = 2
		case k == comma:
			edge = max(edge, 1)
		case k == word && sounds[t[i].text]:
		default:
			w := stem(t[i].text)
			if k == number {
				w = "#"
			}
			it := item{name: hashText(w), edge: edge, noun: nouns[w], attr: attributes[w], from: i, class: classOf(w)}
			s.items, s.lastNoun = append(s.items, it), append(s.lastNoun, noun)
			if it.noun != 0 {
				noun = it.noun
			}
			edge = 0
			if kind := kindWords[w]; kind != 0 && s.kind == 0 && (kind != 3 || i+1 < len(t) && t[i+1].text == "trailer") {
				s.kind = kind
			}
		}
		i++
	}
	for ; at < len(cands); at++ {
		s.place[at] = max(0, len(s.items)-1)
	}
	return s
}

const none = 0 // the class of no role

// A history is what was decided of the figures before.
type history struct {
	last  uint32 // class of the candidate before
	given uint32 // class of the last one that has a role
	since int    // candidates since then
	ago   int    // items since the candidate before
}

// bucket is a distance by its size.
func bucket(n int) uint32 {
	switch {
	case n <= 3:
		return uint32(n)
	case n <= 5:
		return 4
	case n <= 8:
		return 5
	case n <= 14:
		return 6
	}
	return 7
}

// A view is what is seen around one candidate: its features are gathered in out.
type view struct {
	*scene
	out   []feature
	k, at int // the candidate and its item
	shape uint32
}

func (v *view) add(template uint32, parts ...uint32) { v.out = append(v.out, hash(template, parts...)) }

// name is the word at a distance from the figure, class what kind of word it is.
func (v *view) name(d int) uint32 {
	if i := v.at + d; i >= 0 && i < len(v.items) {
		return v.items[i].name
	}
	return 1
}

func (v *view) class(d int) uint32 {
	if i := v.at + d; i >= 0 && i < len(v.items) {
		return v.items[i].class
	}
	return 1
}

// features appends the features of candidate k, without those of its history.
func (s *scene) features(out []feature, k int) []feature {
	v := &view{scene: s, out: out, k: k, at: s.place[k], shape: hashText(s.cands[k].shape)}
	v.said()
	v.wordsAt()
	v.classesAt()
	v.wordsNear()
	v.partsNear()
	v.figuresNear()
	v.clausesNear()
	return v.out
}

// said adds what is known of the figure itself and of the talk it is in.
func (v *view) said() {
	c := &v.cands[v.k]
	v.add(1)
	v.add(2, v.shape)
	v.add(3, v.kind)
	v.add(4, v.kind, v.shape)
	v.add(5, uint32(len(c.options)))
	front, behind, repaired := uint32(v.front[v.k]), uint32(v.behind[v.k]), uint32(v.repaired[v.k])
	v.add(144, front, behind)
	v.add(145, front, v.shape)
	v.add(146, behind, v.shape)
	v.add(147, repaired)
	v.add(148, repaired, v.shape)
	if r := v.reckoned[v.k]; r != 0 {
		v.add(140, r)
		v.add(141, r, v.shape)
	}
	if v.away[c.from] {
		v.add(6)
		v.add(7, v.shape)
	}
	if v.other[c.from] {
		v.add(8)
		v.add(9, v.shape)
	}
}

// wordsAt adds the words by their place, those beyond a stop apart from the others.
func (v *view) wordsAt() {
	crossed := uint32(0)
	for d := 1; d <= 5; d++ {
		if i := v.at - d + 1; i >= 0 && i < len(v.items) && v.items[i].edge == 2 {
			crossed = 1
		}
		v.add(10+uint32(d), v.name(-d), crossed)
	}
	crossed = 0
	for d := 1; d <= 5; d++ {
		if i := v.at + d; i >= 0 && i < len(v.items) && v.items[i].edge == 2 {
			crossed = 1
		}
		v.add(20+uint32(d), v.name(d), crossed)
	}
	v.add(30, v.name(-2), v.name(-1))
	v.add(31, v.name(1), v.name(2))
	v.add(32, v.name(-1), v.name(1))
	v.add(33, v.name(-3), v.name(-2), v.name(-1))
	v.add(34, v.name(1), v.name(2), v.name(3))
	v.add(35, v.name(-1), v.name(1), v.name(2))
	v.add(36, v.name(-2), v.name(-1), v.name(1))
	v.add(37, v.name(-1), v.shape)
	v.add(38, v.name(1), v.shape)
	v.add(39, v.name(2), v.name(3))
	v.add(40, v.name(-3), v.name(-2))
}

// classesAt adds what kind of words are around: they tell something of words that no talk of
// the training had.
func (v *view) classesAt() {
	a, b, c := v.class(-3), v.class(-2), v.class(-1)
	d, e, f := v.class(1), v.class(2), v.class(3)
	v.add(120, b, c)
	v.add(121, d, e)
	v.add(122, c, d)
	v.add(123, a, b, c)
	v.add(124, d, e, f)
	v.add(125, b, c, d)
	v.add(126, c, d, e)
	v.add(127, b, c, d, e)
	v.add(128, c, v.shape)
	v.add(129, d, v.shape)
	v.add(130, b, c, v.shape)
	v.add(131, d, e, v.shape)
	v.add(132, a, b, c, d)
}

// wordsNear adds the words near by, wherever they stand.
func (v *view) wordsNear() {
	for d, left := 1, true; d <= 14; d++ {
		i := v.at - d
		if i < 0 {
			break
		}
		if v.items[i+1].edge == 2 {
			left = false
		}
		switch {
		case left && d <= 7:
			v.add(50, v.items[i].name)
		case left:
			v.add(51, v.items[i].name)
		case d <= 10:
			v.add(52, v.items[i].name)
		}
	}
	for d, right := 1, true; d <= 10; d++ {
		i := v.at + d
		if i >= len(v.items) {
			break
		}
		if v.items[i].edge == 2 {
			right = false
		}
		switch {
		case right && d <= 7:
			v.add(53, v.items[i].name)
		case right:
			v.add(54, v.items[i].name)
		case d <= 5:
			v.add(55, v.items[i].name)
		}
	}
}

// partsNear adds the nearest parts of the trailer and ways of measuring on either side.
func (v *view) partsNear() {
	ln, la := v.partsBefore()
	rn, ra := v.partsAfter()
	v.add(80, ln, rn)
	v.add(81, la, ra)
	v.add(82, ln, la, ra)
	v.add(83, ln, ra, v.shape)
	v.add(84, rn, la)
	v.add(85, ln, v.shape)
	v.add(86, rn, v.shape)
	v.add(87, ra, v.shape)
	if v.at < len(v.lastNoun) {
		v.add(88, uint32(v.lastNoun[v.at]))
	}
	commas := uint32(0)
	for d := 1; d <= 2 && v.at-d >= 0; d++ {
		commas += uint32(v.items[v.at-d+1].edge)
	}
	v.add(89, commas)
}

// partsBefore adds the two nearest parts in front and the nearest way of measuring.
func (v *view) partsBefore() (noun, attr uint32) {
	figs, found := uint32(0), 0
	for d := 1; d <= 16 && v.at-d >= 0; d++ {
		it := &v.items[v.at-d]
		if it.fig {
			figs++
		}
		if it.noun != 0 && found < 2 {
			if found++; found == 1 {
				noun = uint32(it.noun)
				v.add(60, noun, bucket(d), min(figs, 2))
				v.add(61, noun, min(figs, 2))
				v.add(62, noun)
			} else {
				v.add(63, uint32(it.noun), noun)
				v.add(64, uint32(it.noun))
			}
		}
		if it.attr != 0 && attr == 0 && d <= 8 {
			attr = uint32(it.attr)
			v.add(65, attr, bucket(d), min(figs, 1))
			v.add(66, attr, min(figs, 1))
		}
	}
	return noun, attr
}

// partsAfter adds the two nearest parts that follow and the nearest way of measuring.
func (v *view) partsAfter() (noun, attr uint32) {
	figs, found := uint32(0), 0
	for d := 1; d <= 12 && v.at+d < len(v.items); d++ {
		it := &v.items[v.at+d]
		if it.fig {
			figs++
		}
		if it.noun != 0 && found < 2 {
			if found++; found == 1 {
				noun = uint32(it.noun)
				v.add(70, noun, bucket(d), min(figs, 2))
				v.add(71, noun, min(figs, 2))
			} else {
				v.add(73, uint32(it.noun), noun)
			}
		}
		if it.attr != 0 && attr == 0 && d <= 6 {
			attr = uint32(it.attr)
			v.add(75, attr, bucket(d), min(figs, 1))
			v.add(76, attr, min(figs, 1))
		}
	}
	return noun, attr
}

// figuresNear adds the figures next to it and the words between.
func (v *view) figuresNear() {
	for i := v.at - 1; i >= max(0, v.at-14); i-- {
		if v.items[i].fig {
			v.between(90, i, v.at, v.items[i].name)
			break
		}
	}
	for i := v.at + 1; i < min(len(v.items), v.at+10); i++ {
		if v.items[i].fig {
			v.between(95, v.at, i, v.items[i].name)
			break
		}
	}
}

// between adds another figure with the words between two items.
func (v *view) between(template uint32, from, to int, other uint32) {
	gap := to - from - 1
	v.add(template, other, bucket(gap))
	if gap < 0 || gap > 3 {
		return
	}
	h := []uint32{other}
	for i := from + 1; i < to; i++ {
		h = append(h, v.items[i].name)
	}
	v.add(template+1, h...)
	v.add(template+2, append(h, v.shape)...)
}

// after appends the features of what was decided before candidate k.
func (s *scene) after(out []feature, k int, h history) []feature {
	shape := hashText(s.cands[k].shape)
	near := bucket(h.ago)
	p := s.place[k]
	var left, right uint32
	if p > 0 {
		left = s.items[p-1].name
	}
	if p+1 < len(s.items) {
		right = s.items[p+1].name
	}
	return append(out, hash(100, h.last), hash(101, h.last, near), hash(102, h.given), hash(103, h.given, uint32(min(h.since, 3))),
		hash(104, h.last, shape), hash(105, h.given, shape, near), hash(106, h.last, left), hash(107, h.last, right), hash(108, h.given, right), hash(109, h.given, left))
}

// valueFeatures appends what a value in a role says by itself: its size, and the value
// where it is a common one.
func (s *scene) valueFeatures(out []feature, k int, o option) []feature {
	out = append(out, hash(110, hashText(o.value.String())))
	if v, ok := o.value.(measure.Pounds); ok {
		if bits, ok := s.sums[k][v]; ok {
			out = append(out, hash(142, bits), hash(143, bits&(isPart|isWhole), s.reckoned[k]))
		}
	}
	if v, ok := amount(o.value); ok {
		size := uint32(0)
		for x := v; x > 1; x /= 1.26 { // ten steps a decade
			size++
		}
		round := uint32(0)
		for _, n := range []float64{1000, 500, 100, 50, 10} {
			if v >= n && v/n == float64(int(v/n)) {
				break
			}
			round++
		}
		infer := uint32(0)
		if o.inferred {
			infer = 1
		}
		out = append(out, hash(111, size), hash(112, size/3, round), hash(113, infer), hash(114, round, infer))
	}
	return out
}
