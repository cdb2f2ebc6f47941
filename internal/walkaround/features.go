package walkaround

import "strings"

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
	return h ^ h>>13
}

func hashText(s string) uint32 {
	h := uint32(2166136261)
	for i := range len(s) {
		h = (h ^ uint32(s[i])) * 16777619
	}
	return h
}

// An item is a word or a figure of the talk, as the features see it.
type item struct {
	name uint32 // hash of the word, of "#lb" and the like for a figure
	edge uint8  // what is in front of it: 0 nothing, 1 a comma, 2 a stop or a pause
	fig  bool
	noun uint8 // of nouns, or 0
	attr uint8 // of attributes, or 0
	from int   // first token
}

// A scene is a talk made ready for features: its items and where each candidate is.
type scene struct {
	items []item
	place []int // of each candidate: the index of its item
	cands []candidate
	kind  uint32 // of the trailer, as far as it was said
	// lastNoun[i] is the last noun before item i, or 0.
	lastNoun []uint8
	away     []bool // of each token: it is of something else than the trailer
	other    []bool // of each token: it is in the description of another trailer
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

// setScene makes the items of a talk and marks its candidates.
func setScene(t []token, cands []candidate) *scene {
	s := &scene{cands: cands, items: make([]item, 0, len(t)), place: make([]int, len(cands))}
	s.away, s.other = asides(t), others(t)
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
			it := item{name: hashText("#" + c.shape), edge: edge, fig: true, from: i}
			if strings.HasPrefix(c.shape, "=") {
				it.name, it.fig = hashText(c.shape[1:]), false
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
			it := item{name: hashText(w), edge: edge, noun: nouns[w], attr: attributes[w], from: i}
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

// features appends the features of candidate k, without those of its history.
func (s *scene) features(out []feature, k int) []feature {
	f := view{scene: s, out: out, p: s.place[k], c: &s.cands[k]}
	f.shape = hashText(f.c.shape)
	f.itself()
	f.wordsByPlace()
	f.wordsNearby()
	f.partsNearby()
	f.figuresNearby()
	return f.out
}

// A view is what one candidate sees around it. Its methods append features.
type view struct {
	*scene
	out   []feature
	p     int // the candidate's place among the items
	c     *candidate
	shape uint32
}

func (f *view) add(template uint32, parts ...uint32) { f.out = append(f.out, hash(template, parts...)) }

// name is the name of the item d places after the candidate; 1 where there is none.
func (f *view) name(d int) uint32 {
	if i := f.p + d; i >= 0 && i < len(f.items) {
		return f.items[i].name
	}
	return 1
}

func (f *view) itself() {
	f.add(1)
	f.add(2, f.shape)
	f.add(3, f.kind)
	f.add(4, f.kind, f.shape)
	f.add(5, uint32(len(f.c.options)))
	if f.away[f.c.from] {
		f.add(6)
		f.add(7, f.shape)
	}
	if f.other[f.c.from] {
		f.add(8)
		f.add(9, f.shape)
	}
}

func (f *view) wordsByPlace() {
	crossed := uint32(0)
	// Words by their place, those beyond a stop apart from the others.
	for d := 1; d <= 5; d++ {
		if i := f.p - d + 1; i >= 0 && i < len(f.items) && f.items[i].edge == 2 {
			crossed = 1
		}
		f.add(10+uint32(d), f.name(-d), crossed)
	}
	crossed = 0
	for d := 1; d <= 5; d++ {
		if i := f.p + d; i >= 0 && i < len(f.items) && f.items[i].edge == 2 {
			crossed = 1
		}
		f.add(20+uint32(d), f.name(d), crossed)
	}
	f.add(30, f.name(-2), f.name(-1))
	f.add(31, f.name(1), f.name(2))
	f.add(32, f.name(-1), f.name(1))
	f.add(33, f.name(-3), f.name(-2), f.name(-1))
	f.add(34, f.name(1), f.name(2), f.name(3))
	f.add(35, f.name(-1), f.name(1), f.name(2))
	f.add(36, f.name(-2), f.name(-1), f.name(1))
	f.add(37, f.name(-1), f.shape)
	f.add(38, f.name(1), f.shape)
	f.add(39, f.name(2), f.name(3))
	f.add(40, f.name(-3), f.name(-2))
}

// wordsNearby takes words wherever they are.
func (f *view) wordsNearby() {
	for d, left := 1, true; d <= 14; d++ {
		i := f.p - d
		if i < 0 {
			break
		}
		if f.items[i+1].edge == 2 {
			left = false
		}
		switch {
		case left && d <= 7:
			f.add(50, f.items[i].name)
		case left:
			f.add(51, f.items[i].name)
		case d <= 10:
			f.add(52, f.items[i].name)
		}
	}
	for d, right := 1, true; d <= 10; d++ {
		i := f.p + d
		if i >= len(f.items) {
			break
		}
		if f.items[i].edge == 2 {
			right = false
		}
		switch {
		case right && d <= 7:
			f.add(53, f.items[i].name)
		case right:
			f.add(54, f.items[i].name)
		case d <= 5:
			f.add(55, f.items[i].name)
		}
	}
}

// partsNearby takes the nearest parts and attributes.
func (f *view) partsNearby() {
	ln, la, commas := f.partsBefore()
	rn, ra := f.partsAfter()
	f.add(80, ln, rn)
	f.add(81, la, ra)
	f.add(82, ln, la, ra)
	f.add(83, ln, ra, f.shape)
	f.add(84, rn, la)
	f.add(85, ln, f.shape)
	f.add(86, rn, f.shape)
	f.add(87, ra, f.shape)
	if f.p < len(f.lastNoun) {
		f.add(88, uint32(f.lastNoun[f.p]))
	}
	f.add(89, commas)
}

// partsBefore returns the nearest part and attribute before the candidate, and how many commas are
// right before it.
func (f *view) partsBefore() (ln, la, commas uint32) {
	figs, found := uint32(0), uint32(0)
	for d := 1; d <= 16 && f.p-d >= 0; d++ {
		it := &f.items[f.p-d]
		if d <= 2 {
			commas += uint32(f.items[f.p-d+1].edge)
		}
		if it.fig {
			figs++
		}
		if it.noun != 0 && found < 2 {
			if found++; found == 1 {
				ln = uint32(it.noun)
				f.add(60, ln, bucket(d), min(figs, 2))
				f.add(61, ln, min(figs, 2))
				f.add(62, ln)
			} else {
				f.add(63, uint32(it.noun), ln)
				f.add(64, uint32(it.noun))
			}
		}
		if it.attr != 0 && la == 0 && d <= 8 {
			la = uint32(it.attr)
			f.add(65, la, bucket(d), min(figs, 1))
			f.add(66, la, min(figs, 1))
		}
	}
	return ln, la, commas
}

func (f *view) partsAfter() (rn, ra uint32) {
	figs, found := uint32(0), uint32(0)
	for d := 1; d <= 12 && f.p+d < len(f.items); d++ {
		it := &f.items[f.p+d]
		if it.fig {
			figs++
		}
		if it.noun != 0 && found < 2 {
			if found++; found == 1 {
				rn = uint32(it.noun)
				f.add(70, rn, bucket(d), min(figs, 2))
				f.add(71, rn, min(figs, 2))
			} else {
				f.add(73, uint32(it.noun), rn)
			}
		}
		if it.attr != 0 && ra == 0 && d <= 6 {
			ra = uint32(it.attr)
			f.add(75, ra, bucket(d), min(figs, 1))
			f.add(76, ra, min(figs, 1))
		}
	}
	return rn, ra
}

// figuresNearby takes the figures next to the candidate and the words between.
func (f *view) figuresNearby() {
	between := func(template uint32, from, to int, other uint32) {
		gap := to - from - 1
		f.add(template, other, bucket(gap))
		if gap >= 0 && gap <= 3 {
			h := []uint32{other}
			for i := from + 1; i < to; i++ {
				h = append(h, f.items[i].name)
			}
			f.add(template+1, h...)
			f.add(template+2, append(h, f.shape)...)
		}
	}
	for i := f.p - 1; i >= max(0, f.p-14); i-- {
		if f.items[i].fig {
			between(90, i, f.p, f.items[i].name)
			break
		}
	}
	for i := f.p + 1; i < min(len(f.items), f.p+10); i++ {
		if f.items[i].fig {
			between(95, f.p, i, f.items[i].name)
			break
		}
	}
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
func valueFeatures(out []feature, o option) []feature {
	out = append(out, hash(110, hashText(o.value.String())))
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
