package walkaround

import (
	"slices"
	"strings"

	"tarepage/internal/captions"
	"tarepage/internal/kinds"
)

// A spokenWord is what people say for a value of a key that takes words. Near, if it is not
// empty, are words of which one must follow or go before within six words of the same
// clause: "electric" is of brakes only near brakes. A row without a value takes its phrase away
// from the rows that hold a part of it. A heavier row wins over a lighter one:
// a tilting deck-over is a tilt. The phrase with its near word is its own example, and a
// test hears it.
type spokenWord struct {
	role   Role
	value  Word
	phrase string
	near   string
	weight int
}

const (
	hitchKind  Role = "hitch.kind"
	kindKey    Role = "kind"
	brakeKind  Role = "brakes.kind"
	breakaway  Role = "brakes.breakaway"
	suspension Role = "axles.suspension"
	hubs       Role = "axles.hubs"
	tailKind   Role = "deck.tail-kind"
	rampKind   Role = "ramps.kind"
	floorKey   Role = "frame.floor"
	condition  Role = "condition"
	available  Role = "availability"
	color      Role = "color"
	tape       Role = "lights.conspicuity"
	stockKey   Role = "stock"
)

// wordTable is the list. Common practice, no source.
var wordTable = withNewKinds([]spokenWord{
	{hitchKind, "bumper-pull", "bumper pull", "", 1},
	{hitchKind, "bumper-pull", "bumper hitch", "", 1},
	{hitchKind, "bumper-pull", "bumper pole", "", 1}, // misheard
	{hitchKind, "bumper-pull", "tag along", "", 1},
	{hitchKind, "gooseneck", "gooseneck", "", 1},
	{hitchKind, "gooseneck", "goose neck", "", 1},
	{hitchKind, "gooseneck", "g n", "", 1},
	{hitchKind, "", "gooseneck ball", "", 1}, // of a truck
	{hitchKind, "", "fifth wheel camper", "", 1},
	{hitchKind, "fifth-wheel", "fifth wheel", "", 2},
	{hitchKind, "fifth-wheel", "king pin", "", 2},
	{hitchKind, "fifth-wheel", "kingpin", "", 2},
	{hitchKind, "pintle", "pintle", "", 2},
	{hitchKind, "pintle", "lunette", "", 2},

	{kindKey, "dump", "dump trailer", "", 6},
	{kindKey, "dump", "dump bed", "", 6},
	{kindKey, "dump", "dump body", "", 3},
	{kindKey, "dump", "dump", "", 5},
	{kindKey, "enclosed", "enclosed", "", 6},
	{kindKey, "enclosed", "cargo trailer", "", 6},
	{kindKey, "enclosed", "box trailer", "", 5},
	{kindKey, "livestock", "livestock", "", 6},
	{kindKey, "livestock", "stock trailer", "", 6},
	{kindKey, "livestock", "cattle trailer", "", 6},
	{kindKey, "livestock", "horse trailer", "", 6},
	{kindKey, "lowboy", "lowboy", "", 6},
	{kindKey, "lowboy", "low boy", "", 6},
	{kindKey, "lowboy", "lowbed trailer", "", 6},
	{kindKey, "landscape", "landscape trailer", "", 6},
	{kindKey, "landscape", "landscaping trailer", "", 6},
	{kindKey, "atv-snowmobile", "snowmobile trailer", "", 6},
	{kindKey, "atv-snowmobile", "atv trailer", "", 6},
	{kindKey, "motorcycle", "motorcycle trailer", "", 6},
	{kindKey, "concession", "concession trailer", "", 6},
	{kindKey, "concession", "food trailer", "", 6},
	{kindKey, "camper", "camper trailer", "", 6},
	{kindKey, "camper", "travel trailer", "", 6},
	{kindKey, "camper-chassis", "camper chassis", "", 6},
	{kindKey, "camper-chassis", "tiny house trailer", "", 6},
	{kindKey, "container-chassis", "container chassis", "", 6},
	{kindKey, "container-chassis", "container trailer", "", 6},
	{kindKey, "roll-off", "roll off", "", 6},
	{kindKey, "roll-off", "roll off trailer", "", 6},
	{kindKey, "roll-off", "hooklift trailer", "", 6},
	{kindKey, "hopper", "hopper bottom", "", 6},
	{kindKey, "hopper", "hopper trailer", "", 6},
	{kindKey, "hopper", "grain trailer", "", 6},
	{kindKey, "water-tank", "water trailer", "", 6},
	{kindKey, "water-tank", "water tank trailer", "", 6},
	{kindKey, "water-tank", "water wagon", "", 6},
	{kindKey, "water-tank", "tank trailer", "", 4},
	{kindKey, "water-tank", "gallon water", "", 4},
	{kindKey, "water-tank", "water tank", "", 2},
	{kindKey, "fuel-tank", "fuel trailer", "", 6},
	{kindKey, "fuel-tank", "fuel tank trailer", "", 6},
	{kindKey, "fuel-tank", "diesel trailer", "", 6},
	{kindKey, "boat", "boat trailer", "", 6},
	{kindKey, "watercraft", "watercraft trailer", "", 6},
	{kindKey, "tow-dolly", "tow dolly", "", 4},
	{kindKey, "pipe", "pole trailer", "", 6},
	{kindKey, "pipe", "pipe trailer", "", 6},
	{kindKey, "log", "log trailer", "", 6},
	{kindKey, "log", "logging trailer", "", 6},
	{kindKey, "header", "header trailer", "", 6},
	{kindKey, "tilt", "the tilt", "", 3},
	{kindKey, "tilt", "gravity tilt", "", 6},
	{kindKey, "tilt", "tilt deck", "", 5},
	{kindKey, "tilt", "tilt trailer", "", 6},
	{kindKey, "tilt", "tilt bed", "", 5},
	{kindKey, "tilt", "full tilt", "", 6},
	{kindKey, "tilt", "power tilt", "", 5},
	{kindKey, "tilt", "gravity tilt", "", 6},
	{kindKey, "tilt", "tilt equipment", "", 6},
	{kindKey, "tilt", "tilt", "trailer", 4},
	{kindKey, "deck-over", "deck over", "", 4},
	{kindKey, "deck-over", "deckover", "", 4},
	{kindKey, "car-hauler", "car hauler", "", 4},
	{kindKey, "car-hauler", "car trailer", "", 4},
	{kindKey, "equipment", "equipment trailer", "", 4},
	{kindKey, "equipment", "equipment hauler", "", 4},
	{kindKey, "equipment", "skid steer trailer", "", 4},
	{kindKey, "utility", "utility trailer", "", 4},
	{kindKey, "utility", "utility", "", 2},
	{kindKey, "flatbed", "flatbed", "", 2},
	{kindKey, "flatbed", "flat bed", "", 2},
	{kindKey, "flatbed", "hot shot trailer", "", 2},

	{brakeKind, "electric-over-hydraulic", "electric over hydraulic", "", 5},
	{brakeKind, "electric-over-hydraulic", "electric over disc", "", 5},
	{brakeKind, "", "wired for electric over hydraulic", "", 5},
	{brakeKind, "electric", "electric brake", "", 3},
	{brakeKind, "electric", "electric", "brake", 2},
	{brakeKind, "electric", "plain electric", "", 6},
	{brakeKind, "surge", "surge brake", "", 4},
	{brakeKind, "surge", "surge coupler", "", 4},
	{brakeKind, "surge", "surge", "brake", 4},
	{brakeKind, "air", "air brake", "", 4},
	{brakeKind, "surge", "surge actuator", "", 4},
	{brakeKind, "surge", "surge", "disc drum", 3},
	{brakeKind, "electric", "electrics", "axle", 2},
	{brakeKind, "electric", "brakes electric", "", 2},
	{brakeKind, "none", "no brake", "", 3},
	{brakeKind, "none", "no brakes at all", "", 5},
	{breakaway, "yes", "breakaway", "", 1},
	{breakaway, "yes", "break away", "", 1},

	{suspension, "leaf spring", "leaf spring", "", 2},
	{suspension, "leaf spring", "slipper spring", "", 2},
	{suspension, "leaf spring", "double eye spring", "", 2},
	{suspension, "leaf spring", "leaf sprung", "", 2},
	{suspension, "leaf spring", "equalizer", "spring bushing", 1},
	{suspension, "leaf spring", "spring axle", "", 2},
	{suspension, "leaf spring", "axles spring", "", 2},
	{suspension, "leaf spring", "spring", "axle brake", 1},
	{suspension, "leaf spring", "spring suspension", "", 2},
	{suspension, "torsion", "torsion", "", 2},
	{suspension, "air ride", "air ride", "", 3},
	{suspension, "air ride", "air suspension", "", 3},
	{hubs, "oil bath", "oil bath", "", 2},
	{hubs, "oil bath", "oil hub", "", 2},
	{hubs, "oil bath", "oil filled hub", "", 2},
	{hubs, "grease", "grease hub", "", 2},
	{hubs, "grease", "grease", "hub bearing axle zerk", 1},
	{hubs, "grease", "greasable", "", 1},
	{hubs, "grease", "easy lube", "", 2},
	{hubs, "grease", "lube hub", "", 2},
	{hubs, "sealed", "sealed hub", "", 2},
	{hubs, "sealed", "sealed bearing", "", 2},

	{tailKind, "hydraulic dovetail", "hydraulic dovetail", "", 4},
	{tailKind, "hydraulic dovetail", "hydraulic tail", "", 4},
	{tailKind, "hydraulic dovetail", "hydraulic beavertail", "", 4},
	{tailKind, "hydraulic dovetail", "hydraulic dove", "", 4},
	{tailKind, "fixed dovetail", "fixed dovetail", "", 3},

	{tailKind, "tilt", "foot tilt", "", 3},
	{tailKind, "tilt", "feet tilt", "", 3},
	{tailKind, "tilt", "tilting section", "", 3},
	{tailKind, "tilt", "tilting deck", "", 3},
	{tailKind, "tilt", "tilt section", "", 3},
	{tailKind, "tilt", "deck tilt", "", 3},
	{tailKind, "tilt", "that tilt", "", 2},

	{rampKind, "stand-up", "stand up ramp", "", 3},
	{rampKind, "stand-up", "stand up", "spring ramps", 2},
	{rampKind, "stand-up", "ramps stand up", "", 3},
	{rampKind, "slide-in", "pull out ramp", "", 2},
	{rampKind, "slide-in", "rear slide", "ramp", 2},
	{rampKind, "slide-in", "ramps store", "under underneath back rear", 2},
	{rampKind, "fold-over", "fold flat", "ramp", 2},
	{rampKind, "fold-over", "fold up ramp", "", 2},
	{rampKind, "gate", "gate", "folds fold-down", 1},
	{rampKind, "gate", "mesh gate", "", 1},
	{rampKind, "gate", "gate", "spring flat lay", 1},
	{rampKind, "slide-in", "they slide in", "", 2},
	{rampKind, "slide-in", "slide in under", "", 2},
	{rampKind, "slide-in", "slide out from under", "", 2},
	{rampKind, "slide-in", "slide in at", "", 2},
	{rampKind, "fold-over", "flip over type", "", 2},
	{rampKind, "fold-over", "flip over style", "", 2},
	{rampKind, "fold-over", "fold over type", "", 2},
	{rampKind, "stand-up", "stand up", "ramp", 2},
	{rampKind, "stand-up", "stand ups", "", 2},
	{rampKind, "slide-in", "slide in ramp", "", 3},
	{rampKind, "slide-in", "slide in", "ramp", 2},
	{rampKind, "slide-in", "slide ins", "", 2},
	{rampKind, "slide-in", "slide out ramp", "", 2},
	{rampKind, "fold-over", "fold over", "ramp", 2},
	{rampKind, "fold-over", "flip over ramp", "", 3},
	{rampKind, "fold-over", "flip over", "ramp", 2},
	{rampKind, "slide-in", "ramps slide", "under underneath back rear", 2},
	{rampKind, "slide-in", "ramps slid", "up under underneath", 2},
	{rampKind, "gate", "ramp gate", "", 2},
	{rampKind, "gate", "fold down gate", "", 2},
	{rampKind, "gate", "gate folds", "", 2},
	{rampKind, "gate", "bi fold gate", "", 2},
	{rampKind, "gate", "back gate", "spring lift help assist", 2},
	{rampKind, "gate", "rear gate", "spring lift help assist ramp", 2},
	{rampKind, "gate", "landscape gate", "", 2},
	{rampKind, "gate", "spring assist gate", "", 2},
	{rampKind, "ramp door", "ramp door", "", 3},

	{floorKey, "treated pine", "treated pine", "", 2},
	{floorKey, "treated wood", "treated wood", "", 1},
	{floorKey, "treated wood", "treated floor", "", 1},
	{floorKey, "white oak", "white oak", "", 3},
	{floorKey, "oak", "oak", "floor deck board plank", 2},
	{floorKey, "rough oak", "rough oak", "", 3},
	{floorKey, "diamond plate", "diamond plate", "floor deck", 2},
	{floorKey, "tread plate", "tread plate", "floor deck", 2},
	{floorKey, "plywood", "plywood", "floor", 2},
	{floorKey, "steel", "steel floor", "", 2},
	{floorKey, "steel", "steel deck", "", 2},
	{floorKey, "aluminum", "aluminum floor", "", 2},

	{condition, "new", "brand new", "", 3},
	{condition, "new", "never been titled", "", 3},
	{condition, "new", "new not titled", "", 3},
	{condition, "new", "not been titled", "", 3},
	{condition, "new", "condition new", "", 3},
	{condition, "new", "condition is new", "", 3},
	{condition, "new", "fresh off the truck", "", 2},
	{condition, "new", "off the truck this morning", "", 2},
	{condition, "new", "just built", "", 2},
	{condition, "new", "from the factory", "", 1},
	{condition, "new", "new inventory", "", 2},
	{condition, "new", "full warranty", "", 1},
	{condition, "used", "gently used", "", 3},
	{condition, "used", "lightly used", "", 3},
	{condition, "used", "second owner", "", 3},
	{condition, "used", "traded in", "", 3},
	{condition, "used", "traded it", "", 2},
	{condition, "used", "took in on", "trade", 2},
	{condition, "used", "trade in", "", 2},
	{condition, "used", "the last owner", "", 2},
	{condition, "used", "i've had it", "", 1},
	{condition, "used", "not new", "", 2},
	{condition, "used", "condition used", "", 3},
	{condition, "used", "condition is used", "", 3},
	{condition, "used", "in on trade", "", 3},
	{condition, "used", "took it on trade", "", 3},
	{condition, "used", "took it in trade", "", 3},
	{condition, "new", "never titled", "", 3},
	{condition, "new", "new trailer", "", 2},
	{condition, "new", "new unit", "", 2},
	{condition, "new", "it's new", "", 2},
	{condition, "new", "a new", "trailer dump gooseneck flatbed hauler", 1},
	{condition, "used", "it's used", "", 3},
	{condition, "used", "this one's used", "", 3},
	{condition, "new", "this one's new", "", 3},
	{condition, "new", "titled new", "", 2},
	{condition, "new", "she's new", "", 2},
	{condition, "used", "she's used", "", 3},
	{condition, "used", "used trailer", "", 3},
	{condition, "used", "used unit", "", 3},
	{condition, "used", "a used", "", 2},
	{condition, "used", "pre owned", "", 3},
	{condition, "used", "second hand", "", 3},
	{condition, "used", "previous owner", "", 2},
	{condition, "used", "one owner", "", 2},
	{condition, "used", "came in on trade", "", 2},
	{condition, "used", "it's a trade in", "", 2},

	{available, "on the yard", "on the yard", "", 1},
	{available, "on the yard", "on the lot", "", 1},
	{available, "on the yard", "in stock", "", 1},
	{available, "on the yard", "here now", "", 1},
	{available, "on the yard", "ready today", "", 1},
	{available, "on the yard", "take it today", "", 1},
	{available, "on the yard", "take it home today", "", 1},
	{available, "on the yard", "sitting on the yard", "", 1},
	{available, "on the yard", "available now", "", 1},
	{available, "on the yard", "ready to pull", "", 1},
	{available, "on order", "on the way", "", 2},
	{available, "on order", "order it in", "", 2},
	{available, "spoken for", "on hold", "", 2},
	{available, "on the yard", "ready to go", "", 1},
	{available, "on the yard", "ready to roll", "", 1},
	{available, "on the yard", "fell through", "", 4}, // a hold or a sale
	{available, "on order", "on order", "", 3},
	{available, "spoken for", "spoken for", "", 3},
	{available, "spoken for", "deposit on it", "", 3},
	{available, "spoken for", "sale pending", "", 3},
	{available, "sold", "it's sold", "", 3},
	{available, "sold", "already sold", "", 3},
	{available, "sold", "this one's sold", "", 3},

	{color, "black", "black", "paint color powder finish", 1},
	{color, "white", "white", "paint color powder finish", 1},
	{color, "red", "red", "paint color powder finish", 1},
	{color, "blue", "blue", "paint color powder finish", 1},
	{color, "gray", "gray", "paint color powder finish", 1},
	{color, "gray", "grey", "paint color powder finish", 1},
	{color, "charcoal", "charcoal", "", 2},
	{color, "green", "green", "paint color powder finish", 1},
	{color, "yellow", "yellow", "paint color powder finish", 1},
	{color, "orange", "orange", "paint color powder finish", 1},
	{color, "silver", "silver", "paint color powder finish", 1},
	{color, "tan", "tan", "paint color powder finish", 1},

	{tape, "yes", "reflective tape", "", 1},
	{tape, "yes", "conspicuity tape", "", 1},
	{tape, "yes", "d o t tape", "", 1},
	{tape, "yes", "dot tape", "", 1},
	{tape, "yes", "red and white tape", "", 1},
})

// withNewKinds adds what people say for the kinds that the list has no word for: a kind that is
// new in internal/kinds is heard without a row here.
func withNewKinds(list []spokenWord) []spokenWord {
	listed := map[string]bool{}
	for _, w := range list {
		if w.role == kindKey {
			listed[string(w.value)] = true
		}
	}
	for _, k := range kinds.All() {
		if listed[k.Name] {
			continue
		}
		for _, phrase := range k.Said {
			list = append(list, spokenWord{kindKey, Word(k.Name), phrase, "", 6})
		}
	}
	return list
}

// wordRow is a row cut into words.
type wordRow struct {
	*spokenWord
	words, near []string
}

// wordsByFirst are the rows by the first word of their phrase.
var wordsByFirst = func() map[string][]wordRow {
	m := map[string][]wordRow{}
	for i := range wordTable {
		r := wordRow{&wordTable[i], strings.Fields(wordTable[i].phrase), strings.Fields(wordTable[i].near)}
		first := r.words[0]
		if !strings.Contains(first, "'") {
			first = stem(first)
		}
		m[first] = append(m[first], r)
	}
	return m
}()

// Words finds the words, not figures, that a unit file asks for: the kind of hitch, of
// brakes, of suspension. What is said of something else or denied is not among them. Of
// each key the surest value comes first.
func Words(c captions.Track) []Candidate {
	text, t := transcript(c)
	return wordsIn(text, t)
}

// kindOf is the kind of trailer that the talk is about, or nothing.
func (h *hearing) kindOf(text string, away []bool) Word {
	for _, c := range surest(h.valuesIn(text, away, nil)) {
		if c.Role == kindKey {
			return c.Value.(Word)
		}
	}
	return ""
}

// wordAt is the row whose phrase at token i is the longest, and its number of words.
func (h *hearing) wordAt(i int) (best wordRow, n int) {
	rows := wordsByFirst[stem(h.word(i))]
	if h.t[i].possessive {
		rows = append(slices.Clip(rows), wordsByFirst[h.spoken(i)]...)
	}
	for _, r := range rows {
		if len(r.words) > n && h.says(i, r.words) && (len(r.near) == 0 || h.nearTo(i, i+len(r.words), r.near)) {
			best, n = r, len(r.words)
		}
	}
	return best, n
}

func wordsIn(text string, t []token) []Candidate {
	h := &hearing{t: t}
	away := asides(t)
	out := h.withStock(text, h.withFloor(text, surest(h.valuesIn(text, away, h.goneWords(away))), away))
	slices.SortStableFunc(out, func(a, b Candidate) int { return a.Offset - b.Offset })
	return out
}

// valuesIn are all values that are said of the trailer at hand. Gone tells of each token whether it begins a
// part that is not there; it may be nil where only the kind is asked for.
func (h *hearing) valuesIn(text string, away, gone []bool) []foundWord {
	t := h.t
	var all []foundWord
	unsaid := map[Role][]Word{}
	for i := 0; i < len(t); i++ {
		best, n := h.wordAt(i)
		if n == 0 {
			best, n = h.conditionAt(i)
		}
		if n == 0 {
			continue
		}
		if best.value == "" {
			i += n - 1
			continue
		}
		if h.withoutMeaning(best, i, n) {
			i += n - 1
			continue
		}
		if h.takenBack(i+n, best) {
			unsaid[best.role] = append(unsaid[best.role], best.value)
		}
		if slices.Contains(unsaid[best.role], best.value) {
			all = slices.DeleteFunc(all, func(f foundWord) bool { return f.Role == best.role && f.Value == Value(best.value) })
			i += n - 1
			continue
		}
		if !away[i] && !(gone != nil && gone[i] && statable[best.role]) && !(best.value != "none" && h.denied(i)) {
			at := slices.IndexFunc(all, func(f foundWord) bool { return f.Role == best.role && f.Value == Value(best.value) })
			if at < 0 {
				at = len(all)
				all = append(all, foundWord{Candidate{Role: best.role, Value: best.value, Compare: Equal, Quote: text[t[i].from:t[i+n-1].to],
					Start: t[i].start, End: t[i+n-1].end, Offset: t[i].from, Confidence: 0.9}, 0, 0, len(all)})
			}
			all[at].weight = max(all[at].weight, best.weight)
			all[at].times++
		}
		i += n - 1
	}
	return all
}

// withoutMeaning reports that the words of a row at token i say nothing of the trailer: a new tire is not
// a new trailer, and a breakaway device that is dead is not there.
func (h *hearing) withoutMeaning(r wordRow, i, n int) bool {
	return r.role == condition && h.ofPart(i, i+n) || r.role == breakaway && r.value == "yes" && h.outOfOrder(i+n)
}

// A foundWord is a value with how much speaks for it.
type foundWord struct {
	Candidate
	weight, times, order int
}

// surest is the value of each key that the most speaks for.
func surest(all []foundWord) []Candidate {
	// The first kind that is named is what the talk is about; a heavier one may overrule it.
	slices.SortStableFunc(all, func(a, b foundWord) int {
		if a.Role != b.Role {
			return a.order - b.order
		}
		return (2*b.weight + min(b.times, 3) - b.order/4) - (2*a.weight + min(a.times, 3) - a.order/4)
	})
	var out []Candidate
	taken := map[Role]bool{}
	for _, f := range all {
		if !taken[f.Role] {
			taken[f.Role] = true
			out = append(out, f.Candidate)
		}
	}
	return out
}

// unsayings are the words with which people take back the word in front of them. The examples are said by a
// test: what is taken back is not heard.
var unsayings = []struct{ phrase, example string }{
	{"no sir", "the axles are torsion, no sir, it's leaf spring"},
	{"well no", "it has a steel deck, well, no, it's treated pine"},
	{"no it's", "it has a steel deck. no, it's treated pine"},
	{"no wait", "the axles are torsion, no wait, leaf spring"},
	{"no they're", "the ramps are slide in ramps, no, they're stand up ramps"},
	{"i take that back", "the axles are torsion, i take that back, leaf spring"},
	{"i mean", "it has electric brakes, i mean surge brakes"},
	{"i'm sorry", "it has electric brakes, i'm sorry, surge brakes"},
	{"scratch that", "it has electric brakes, scratch that, surge brakes"},
	{"my mistake", "it has electric brakes, my mistake, surge brakes"},
	{"i was gonna say", "the axles are torsion i was gonna say but they are leaf spring"},
	{"no these are", "the axles are torsion no these are leaf spring"},
	{"no those are", "two axles torsion axles no those are leaf spring"},
	{"no that's", "it has a steel deck, no, that's treated pine"},
}

var unsaidWords = func() [][]string {
	var out [][]string
	for _, u := range unsayings {
		out = append(out, strings.Fields(u.phrase))
	}
	return out
}()

// How many words may lie between a word and what takes it back, and from there to what is said instead.
const unsaidGap, insteadReach = 4, 10

// outOfOrderRows say that what was named just before does not work. The examples are said by a
// test. Common practice, no source.
var outOfOrderRows = []struct{ phrase, example string }{
	{"dead", "breakaway box is there but the battery's dead"},
	{"nothing in it", "the breakaway same deal the box is there there's nothing in it"},
	{"no battery", "there's a breakaway with no battery"},
	{"needs a battery", "the breakaway needs a battery"},
	{"doesn't work", "the breakaway doesn't work"},
	{"don't work", "the breakaway don't work"},
	{"not working", "the breakaway's not working"},
	{"is bad", "the breakaway switch is bad"},
	{"is gone", "the breakaway box is gone"},
	{"is missing", "the breakaway cable is missing"},
	{"is broken", "the breakaway pin is broken"},
	{"is shot", "the breakaway battery is shot"},
	{"unhooked", "the breakaway is unhooked"},
}

// outOfOrder reports that the words after token i, up to the next thing that is named or the end of the
// sentence, say that something does not work: nobody may take "yes" from that.
func (h *hearing) outOfOrder(i int) bool {
	for k := i; k < min(i+furthest, len(h.t)) && h.t[k].kind != stop; k++ {
		if k > i+1 {
			if r, n := h.wordAt(k); n > 0 && r.role != breakaway {
				return false
			}
		}
		for _, r := range outOfOrderRows {
			if h.startsWith(k, strings.Fields(r.phrase)) {
				return true
			}
		}
	}
	return false
}

// takenBack reports that the word of a row, which ends in front of token i, is taken back and another
// one is said of the same part.
func (h *hearing) takenBack(i int, r wordRow) bool {
	if r.role == kindKey || r.role == condition || r.role == available {
		return false
	}
	for k, skipped := i, 0; k < len(h.t) && skipped <= unsaidGap; k++ {
		if h.t[k].kind == comma || h.t[k].kind == stop {
			continue
		}
		for _, w := range unsaidWords {
			if h.startsWithout(k, w) {
				return h.saidInstead(k, r)
			}
		}
		skipped++
	}
	return false
}

// unsaidAt reports that what ends in front of token i is taken back at once.
func (h *hearing) unsaidAt(i int) bool {
	for i < len(h.t) && h.t[i].kind != word && h.t[i].kind != number {
		i++
	}
	for _, w := range unsaidWords {
		if h.startsWithout(i, w) {
			return true
		}
	}
	return false
}

// startsWithout is startsWith over commas: "well, no".
func (h *hearing) startsWithout(i int, w []string) bool {
	for n := 0; n < len(w); i++ {
		switch {
		case i >= len(h.t):
			return false
		case n > 0 && h.t[i].kind == comma:
		case h.word(i) != w[n] && h.spoken(i) != w[n]:
			return false
		default:
			n++
		}
	}
	return true
}

// saidInstead reports that within a few words of token i another value of the row's key is said, or what the
// same part is made of.
func (h *hearing) saidInstead(i int, r wordRow) bool {
	for k := i; k < min(len(h.t), i+insteadReach); k++ {
		if r.role == floorKey && madeOfWords[h.word(k)] {
			return true
		}
		for _, o := range wordsByFirst[stem(h.word(k))] {
			if o.role == r.role && o.value != r.value && h.says(k, o.words) {
				return true
			}
		}
		if r.role == suspension && h.is(k, "springs", "spring") {
			return true
		}
	}
	return false
}

// stockWords lead to the yard's own number of a unit.
var stockWords = [][]string{{"stock", "number"}, {"unit", "number"}, {"stock", "no"}, {"stock", "#"}, {"stock", "id"}, {"stock"}}

// withStock adds the stock number, if one is said in three to six digits: "stock number forty four
// eighteen".
func (h *hearing) withStock(text string, out []Candidate) []Candidate {
	for i := range h.t {
		for _, w := range stockWords {
			if !h.startsWith(i, w) {
				continue
			}
			at := i + len(w)
			for at < i+8 && (h.is(at, "on", "the", "little", "big", "one", "is", "this", "of", "it's", "ends", "in") || at < len(h.t) && h.t[at].kind == comma) && !h.countingOne(at) {
				at++
			}
			digits, to := h.digitsAt(at)
			for k := to; k < min(len(h.t), to+3) && len(digits) >= 3; k++ { // "881. Eight eight seven. It's 887."
				if again, end := h.digitsAt(k); len(again) == len(digits) && again[0] == digits[0] && h.telephone(k) == 0 {
					digits, to, k = again, end, end-1
				}
			}
			if len(digits) >= 3 && len(digits) <= 6 {
				return append(out, Candidate{Role: stockKey, Value: Word(digits), Compare: Equal, Quote: text[h.t[i].from:h.t[to-1].to],
					Start: h.t[i].start, End: h.t[to-1].end, Offset: h.t[i].from, Confidence: 0.9})
			}
		}
	}
	return out
}

// digitsAt are the digits that are said one after another at token i, and where they end.
func (h *hearing) digitsAt(i int) (digits string, to int) {
	for to = i; to < len(h.t); {
		if _, isDigits := h.digits(to); isDigits {
			digits, to = digits+h.t[to].text, to+1
			continue
		}
		if h.is(to, "oh", "o") {
			digits, to = digits+"0", to+1
			continue
		}
		v, next, _, ok := h.small(to)
		if !ok {
			break
		}
		digits, to = digits+plainNumber(v), next
	}
	return digits, to
}

// statable are the keys whose words are parts that can be had or are not there, as equipment is.
var statable = map[Role]bool{hitchKind: true, brakeKind: true, breakaway: true, suspension: true, hubs: true, tailKind: true, rampKind: true, floorKey: true, tape: true}

// goneWords tells of each token whether it begins a part that can only be had, or that is not
// there: "a pintle ring is one forty, not on this".
func (h *hearing) goneWords(away []bool) []bool {
	all := h.namings(away)
	at := 0
	named := all[:0:0]
	for i := 0; i < len(h.t); i++ {
		for at < len(all) && all[at].from < i {
			named = append(named, all[at])
			at++
		}
		best, n := wordRow{}, 0
		for _, r := range wordsByFirst[stem(h.word(i))] {
			if statable[r.role] && len(r.words) > n && h.says(i, r.words) {
				best, n = r, len(r.words)
			}
		}
		if n > 0 && (at == len(all) || all[at].from != i) {
			named = append(named, naming{piece{item: string(best.role)}, span{i, i + n}, there})
		}
	}
	named = append(named, all[at:]...)
	h.state(named)
	out := make([]bool, len(h.t))
	for _, n := range named {
		out[n.from] = n.state == optional || n.state == absent
	}
	return out
}

// A conditionRow says around which words "new" or "used" is of the whole trailer. The examples are
// said by a test.
type conditionRow struct {
	said          string
	before, after map[string]bool // one of these has to be there; nil asks for nothing
	example       string
}

// edge is the end of a clause, and digits a number, in the words around.
const edge, digits = ".", "#"

// conditionRows are common practice, no source.
var conditionRows = []conditionRow{
	{"new", set("it's its is still condition brand model but # ."), set(". # model never not on with in its it's as in the"), "condition, new, on the yard"},
	{"new", set("it's its still condition brand but"), nil, "twenty twenty four, a leftover but new"},
	{"used", set("it's its is condition yes so # . but"), set(". # but and by only in on the here once twice seasons"), "it's a 2019, used two seasons"},
	{"used", set("it's its condition so"), nil, "so its used all right"},
}

// conditionAt is the condition of the trailer that is said at token i in one word.
func (h *hearing) conditionAt(i int) (wordRow, int) {
	for n := range conditionRows {
		r := &conditionRows[n]
		if h.is(i, r.said) && r.before[h.around(i-1)] && (r.after == nil || r.after[h.around(i+1)]) && !newParts[stem(h.word(i+1))] && !h.is(i+1, "one", "ones") {
			return wordRow{spokenWord: &spokenWord{condition, Word(r.said), r.said, "", 2}}, 1
		}
	}
	return wordRow{}, 0
}

// around is the word at token i as conditionRows have it.
func (h *hearing) around(i int) string {
	switch {
	case i < 0 || i >= len(h.t) || h.t[i].kind == stop || h.t[i].kind == comma:
		return edge
	case h.t[i].kind == number || isNumberWord(h.word(i)):
		return digits
	case h.t[i].possessive:
		return h.spoken(i)
	}
	return h.word(i)
}

// newParts are what people call new of a trailer that is not: "new tires", "the jack is brand
// new". Common practice, no source.
var newParts = set("tire rubber wheel jack coupler paint board floor deck bearing seal battery light brake spare plug hub tarp mat wiring magnet spring winch ramp")

// ofPart reports that "new" or "used" from token i to end is said of a part.
func (h *hearing) ofPart(i, end int) bool {
	for k := i - 1; k >= max(0, i-10) && h.t[k].kind != stop; k-- {
		if newParts[stem(h.word(k))] || strings.HasPrefix(h.word(k), "size:") {
			return true
		}
	}
	return newParts[stem(h.word(end))] || h.is(end, "set") || h.t[max(0, i-1)].kind == comma && i > 1 && strings.HasPrefix(h.text(i-2), "size:")
}

// says reports that the words w are said at token i; a plural is as good.
func (h *hearing) says(i int, w []string) bool {
	for n, x := range w {
		if said := h.text(i + n); said != x && stem(said) != x && h.spoken(i+n) != x {
			return false
		}
	}
	return true
}

// text is a word or the digits of a number.
func (h *hearing) text(i int) string {
	if i >= 0 && i < len(h.t) && h.t[i].kind == number {
		return h.t[i].text
	}
	return h.word(i)
}

// nearTo reports that one of the words is said within six words, in the same clause.
func (h *hearing) nearTo(from, to int, words []string) bool {
	for k := from - 1; k >= max(0, from-6) && h.t[k].kind != stop; k-- {
		if slices.Contains(words, stem(h.word(k))) {
			return true
		}
	}
	for k := to; k < min(len(h.t), to+6) && h.t[k].kind != stop; k++ {
		if slices.Contains(words, stem(h.word(k))) {
			return true
		}
	}
	return false
}

// denied reports that what begins at token i is denied: "not a gooseneck", "no spare".
func (h *hearing) denied(i int) bool {
	for k := i - 1; k >= i-3; k-- {
		switch {
		case h.is(k, "no", "not", "without", "isn't", "ain't", "doesn't", "never", "don't"):
			return true
		case !h.is(k, "a", "an", "the", "any", "have", "got", "come", "with"):
			return false
		}
	}
	return false
}
