package walkaround

import (
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/measure"
)

// A phrase is a way to say something on a walk-around, from testdata/phrases/walk.txt.
type phraseGroup struct {
	name, space string
	phrases     []string
}

func readPhrases(tb testing.TB) []phraseGroup {
	data, err := os.ReadFile("testdata/phrases/walk.txt")
	if err != nil {
		tb.Fatal(err)
	}
	var out []phraseGroup
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '@':
			name, space, _ := strings.Cut(line[1:], " ")
			out = append(out, phraseGroup{name: name, space: space})
		default:
			g := &out[len(out)-1]
			g.phrases = append(g.phrases, line)
		}
	}
	return out
}

// A maker makes talk with labels out of phrases. It has a random source with a fixed seed,
// so that training is the same everywhere.
type maker struct {
	rng    *rand.Rand
	groups map[string]phraseGroup
	facts  map[string]float64
	words  map[string]string // facts that are words, and the noun
	space  string
	digits bool // this recognizer writes digits
	dots   bool // and punctuation
	text   strings.Builder
	labels []label
	mute   bool // what is said now is of another trailer
}

func (m *maker) pick(list ...float64) float64 { return list[m.rng.IntN(len(list))] }
func (m *maker) pickWord(list string) string {
	f := strings.Split(list, "|")
	return f[m.rng.IntN(len(f))]
}
func (m *maker) chance(p float64) bool         { return m.rng.Float64() < p }
func (m *maker) between(a, b float64) float64  { return a + float64(m.rng.IntN(int(b-a)+1)) }
func (m *maker) round(v, step float64) float64 { return float64(int(v/step)) * step }

// trailer makes up one trailer whose figures fit each other.
func (m *maker) trailer() {
	f := map[string]float64{}
	w := map[string]string{}
	m.facts, m.words = f, w
	f["axles.rating"] = m.pick(3500, 5200, 6000, 7000, 7000, 8000, 10000)
	f["axles.count"] = m.pick(1, 2, 2, 2, 2, 3)
	f["brakes.axles"] = 2
	f["weights.gvwr"] = f["axles.rating"] * f["axles.count"]
	switch g := f["weights.gvwr"]; {
	case g == 10400:
		f["weights.gvwr"] = 9990
	case g == 3500:
		f["weights.gvwr"] = 2990
	case m.chance(0.2):
		f["weights.gvwr"] = g + m.pick(1000, 1900, 1400)
	}
	f["weights.empty"] = m.round(f["weights.gvwr"]*(0.2+0.2*m.rng.Float64()), 10)
	if m.chance(0.5) {
		f["weights.empty"] = m.round(f["weights.empty"], 50)
	}
	f["claimed.payload"] = f["weights.gvwr"] - f["weights.empty"]
	f["weights.tongue-empty"] = m.round(f["weights.empty"]*0.12, 10)
	f["year"] = m.between(2008, 2027)
	m.space = m.pickWord("deck|deck|deck|bed|box")
	f[m.space+".length"] = m.pick(10, 12, 14, 16, 18, 20, 22, 24, 25, 30, 32) * 12
	f[m.space+".width"] = m.pick(60, 72, 77, 80, 82, 83, 84, 102)
	switch m.space {
	case "deck":
		w["noun"] = m.pickWord("equipment trailer|utility trailer|car hauler|deck over|gooseneck|flatbed|tilt|tilt trailer|landscape trailer|boat trailer|deckover gooseneck|tag along")
		f["deck.between-fenders"] = m.pick(81.5, 82, 83, 83)
		f["overall-width"] = m.pick(102, 101.5, 96, 100)
		f["deck.height"] = m.pick(20, 24, 26, 29.5, 32, 34, 35)
		f["deck.tail"] = m.pick(2, 3, 4, 5) * 12
		f["deck.flat"] = f["deck.length"] - f["deck.tail"]
		f["tilt.flat"] = m.pick(4, 4, 5, 6) * 12
		f["tilt.tail"] = f["deck.length"] - f["tilt.flat"]
	case "bed":
		w["noun"] = m.pickWord("dump trailer|dump|low pro dump|gooseneck dump")
		f["bed.height"] = m.pick(18, 24, 24, 36, 48)
	default:
		w["noun"] = m.pickWord("enclosed trailer|enclosed|cargo trailer|stock trailer|livestock trailer|horse trailer")
		f["box.height"] = m.pick(72, 75, 78, 84, 90)
	}
	f["ramps.length"] = m.pick(48, 60, 60, 72, 80, 96)
	f["ramps.width"] = m.pick(14, 16, 18, 20, 24, 30)
	f["ramps.rating"] = m.pick(3500, 4000, 5000, 7000, 8000)
	f["tires.ply"] = m.pick(6, 8, 10, 14, 16)
	w["tires.load-range"] = map[float64]string{6: "C", 8: "D", 10: "E", 14: "G", 16: "H"}[f["tires.ply"]]
	w["tires.size"] = m.pickWord("205/75R15|225/75R15|235/80R16|235/85R16|215/75R17.5|175/80R13")
	f["tires.pressure"] = m.pick(50, 65, 80, 95, 110)
	f["tires.sidewall.single"] = m.pick(1820, 2540, 2830, 3520, 3750, 4400)
	f["tires.sidewall.pressure"] = f["tires.pressure"]
	f["tires.per-axle"] = 4
	f["hitch.ball"] = m.pick(2, 2.3125, 2.3125)
	f["hitch.rating"] = m.pick(5000, 7000, 12500, 14000, 15000, 20000, 21000, 25000, 30000)
	f["hitch.chains.count"] = 2
	f["hitch.chains.breaking"] = m.pick(12600, 18000, 26400)
	f["jack.rating"] = m.pick(2000, 5000, 7000, 8000, 10000, 12000)
	f["jack.count"] = m.pick(1, 2, 2)
	f["frame.beam"] = m.pick(4, 5, 6, 8, 10, 12)
	f["frame.crossmember"] = m.pick(3, 3, 4)
	w["frame.tube"] = m.pickWord("2x2|3x2|3x3|2x4|2x6|4x3|2x8|3x2x3/16|4x2x3/16|6x2x1/4|6x2x3/16|2x8x1/4")
	w["frame.angle"] = m.pickWord("2x2|3x2|2x3|3x3|3x2x3/16|2x2x1/8")
	w["tires.made"] = "week " + plainNumber(m.between(1, 52)) + " " + plainNumber(m.between(2015, 2026))
	f["frame.crossmember-spacing"] = m.pick(12, 16, 16, 24)
	f["axles.spacing"] = m.pick(33, 34, 35, 48)
	f["tie-downs.d-rings"] = m.pick(4, 4, 6, 8, 10)
	f["tie-downs.d-rings.rating"] = m.pick(3000, 5000, 6000, 8000)
	f["tie-downs.stake-pockets"] = m.pick(8, 10, 12, 14, 22)
	f["price"] = m.round(m.between(1800, 26000), 5)
	if m.chance(0.6) {
		f["price"] = m.round(f["price"], 100) + m.pick(0, 95, 50, 0)
	}
}

var hole = regexp.MustCompile(`\{([a-z.-]*)(?::([a-z$0-9]*))?(?: (\d+) (\d+))?\}`)
var either = regexp.MustCompile(`\(([^()]*)\)`)

// say appends a phrase with its holes filled.
func (m *maker) say(phrase string) {
	for either.MatchString(phrase) {
		phrase = either.ReplaceAllStringFunc(phrase, func(s string) string { return m.pickWord(s[1 : len(s)-1]) })
	}
	phrase = strings.ReplaceAll(phrase, "{article}", "a")
	phrase = strings.ReplaceAll(phrase, "{noun}", m.words["noun"])
	phrase = strings.ReplaceAll(phrase, "{size}", m.pickWord("{"+m.space+".width:n} by {"+m.space+".length:n}|{"+m.space+".length}|{"+m.space+".width} by {"+m.space+".length}|{"+m.space+".length:footer}"))
	phrase = strings.Join(strings.Fields(phrase), " ")
	if !m.dots {
		phrase = strings.NewReplacer(". ", " ", ", ", " ", "? ", " ").Replace(phrase)
	}
	for {
		at := hole.FindStringSubmatchIndex(phrase)
		if at == nil {
			break
		}
		group := func(n int) string {
			if at[2*n] < 0 {
				return ""
			}
			return phrase[at[2*n]:at[2*n+1]]
		}
		m.text.WriteString(phrase[:at[0]])
		if m.dots && at[0] > 4 && phrase[at[0]-1] == ' ' && m.chance(0.06) {
			m.put(m.pickWord(", |. |, |... "))
		}
		m.fill(group(1), group(2), group(3), group(4))
		phrase = phrase[at[1]:]
		if m.dots && strings.HasPrefix(phrase, " ") && m.chance(0.06) {
			m.put(m.pickWord(",|,|."))
		}
	}
	m.text.WriteString(phrase)
}

// put writes punctuation in the place of the space before it.
func (m *maker) put(s string) {
	text := strings.TrimSuffix(m.text.String(), " ")
	m.text.Reset()
	m.text.WriteString(text + s)
}

// fill says one figure and labels it.
func (m *maker) fill(role, form, low, high string) {
	if role == "" {
		a, _ := strconv.ParseFloat(low, 64)
		b, _ := strconv.ParseFloat(high, 64)
		m.text.WriteString(m.stray(form, a, b))
		return
	}
	from := m.text.Len()
	value := ""
	switch form {
	case "both": // labelled at the word before: "both axles"
		from -= len("both axles")
		value = "2"
	case "bothw":
		m.text.WriteString("both")
		value = "2"
	case "dualw":
		m.text.WriteString(m.pickWord("dual|duals|dually"))
		value = "4"
	case "wheels": // "all four wheels" have brakes: two axles
		m.text.WriteString(m.number(4))
		value = "2"
	default:
		value = m.spoken(role, form)
	}
	if !m.mute {
		if name, ok := otherName[role]; ok {
			role = name
		}
		m.labels = append(m.labels, label{role: role, compare: "=", value: value, from: from, to: m.text.Len()})
	}
}

// otherName are the keys of facts that have a name of their own here.
var otherName = map[string]string{"axles.group": "axles.count", "frame.tube": "frame.beam", "frame.angle": "frame.crossmember", "tilt.flat": "deck.flat", "tilt.tail": "deck.tail"}

// stray says a figure that is of nothing.
func (m *maker) stray(form string, a, b float64) string {
	v := m.between(a, max(a, b))
	switch form {
	case "lb":
		return m.weight(m.round(v, m.pick(50, 100, 500)), "lb")
	case "k":
		return m.thousands(v)
	case "$", "$dollars":
		if v > 100 {
			v = m.round(v, m.pick(5, 25, 50))
		}
		return m.money(v, form)
	case "ft":
		return m.number(v) + m.pickWord(" foot| feet| ft")
	case "in":
		return m.number(v) + m.pickWord(" inch| inches")
	case "ball":
		return m.pickWord("two and five sixteenths|2-5/16|two inch")
	case "letter":
		return m.pickWord("c|d|e|f|g")
	case "phone":
		return m.pickWord("five five five oh one ") + m.pickWord("four two|one eight|seven seven|three nine|nine zero")
	case "digits4", "digits3":
		var w []string
		for range int(form[6] - '0') {
			w = append(w, m.pickWord("one|two|three|four|five|six|seven|eight|nine|zero"))
		}
		return strings.Join(w, " ")
	}
	return m.number(v)
}

// spoken writes the trailer's own figure in one of the ways it is said, and returns the
// value as a label has it.
func (m *maker) spoken(role, form string) string {
	put := func(s string) { m.text.WriteString(s) }
	if w, ok := m.words[role]; ok {
		put(m.wordFor(role, w))
		return w
	}
	if role == "axles.group" {
		n := m.facts["axles.count"]
		put(map[float64]string{1: "single", 2: "tandem", 3: "triple"}[n])
		return plainNumber(n)
	}
	v := m.facts[role]
	if name, ok := otherName[role]; ok {
		role = name
	}
	row := roleTable[roleIndex[Role(role)]]
	switch row.dim {
	case weight:
		put(m.weight(v, form))
		return measure.Pounds(v).String()
	case length, section:
		put(m.length(role, v, form))
		return measure.Inches(v).InInches()
	case pressure:
		put(m.number(v) + m.pickWord(" psi| pounds| psi|"))
		return measure.PSI(v).String()
	case money:
		put(m.money(v, form))
		return measure.Dollars(v).String()
	case year:
		if m.digits {
			put(plainNumber(v))
		} else if v < 2010 {
			put("two thousand " + m.number(v-2000))
		} else {
			put("twenty " + underHundred(int(v)-2000))
		}
	default:
		put(m.number(v))
	}
	return plainNumber(v)
}

func (m *maker) wordFor(role, w string) string {
	if role == "tires.load-range" {
		return strings.ToLower(w)
	}
	if week, ok := strings.CutPrefix(w, "week "); ok {
		return m.weekFor(week)
	}
	if strings.Contains(w, "x") {
		return m.tubeFor(w)
	}
	a, b, _ := strings.Cut(strings.Replace(w, "R", " ", 1), "/")
	b, c, _ := strings.Cut(b, " ")
	if m.digits {
		return m.pickWord(w + "|" + a + " " + b + " " + c + "|" + a + "/" + b + "r" + c + "|" + a + " " + b + " r" + c + "|" + a + "/" + b + " " + c + "s")
	}
	n, _ := strconv.Atoi(a)
	say := underHundred(n/100) + " " + underHundred(n%100)
	if n%100 < 10 {
		say = underHundred(n/100) + " oh " + underHundred(n%100)
	}
	rim := strings.Replace(c, ".5", " point five", 1)
	rim = strings.Replace(rim, "17", "seventeen", 1)
	for d, s := range map[string]string{"13": "thirteen", "15": "fifteen", "16": "sixteen"} {
		rim = strings.ReplaceAll(rim, d, s)
	}
	if !strings.Contains(rim, " ") {
		rim += m.pickWord("|s|")
	}
	k, _ := strconv.Atoi(b)
	return say + " " + underHundred(k) + m.pickWord(" | r | ") + rim
}

// weekFor says the week and the year that a tire was made.
func (m *maker) weekFor(s string) string {
	a, b, _ := strings.Cut(s, " ")
	week, _ := strconv.Atoi(a)
	year, _ := strconv.Atoi(b)
	if m.digits {
		return m.pickWord(plainNumber(float64(100 + week))[1:] + plainNumber(float64(year))[2:] + "|week " + a + " of " + b)
	}
	return "week " + underHundred(week) + m.pickWord(" of | ") + "twenty " + underHundred(year-2000)
}

// tubeFor says the sides of a tube and the thickness of its wall.
func (m *maker) tubeFor(w string) string {
	var out []string
	for side := range strings.SplitSeq(w, "x") {
		switch n, err := strconv.Atoi(side); {
		case err == nil:
			out = append(out, m.number(float64(n)))
		case m.digits:
			out = append(out, side)
		default:
			out = append(out, map[string]string{"3/16": "three sixteenths", "1/4": "a quarter", "1/8": "one eighth"}[side])
		}
	}
	return strings.Join(out, " by ")
}

var unitWords = numberNames
var tenWords = tenNames

func underHundred(n int) string {
	if n < 20 {
		return unitWords[n]
	}
	if n%10 == 0 {
		return tenWords[n/10]
	}
	return tenWords[n/10] + " " + unitWords[n%10]
}

// number says a number below 100,000.
func (m *maker) number(v float64) string {
	if m.digits || v != float64(int(v)) {
		return plainNumber(v)
	}
	n := int(v)
	switch {
	case n < 100:
		return underHundred(n)
	case n < 200 && m.chance(0.5):
		if n == 100 {
			return "a hundred"
		}
		return m.pickWord("a hundred and |one hundred ") + underHundred(n%100)
	case n < 1000:
		s := underHundred(n/100) + " hundred"
		if n%100 > 0 {
			s += m.pickWord(" and | ") + underHundred(n%100)
		}
		return s
	}
	s := m.number(float64(n/1000)) + " thousand"
	if n/1000 > 99 {
		s = "a hundred thousand"
	}
	if n%1000 > 0 {
		s += " " + m.number(float64(n%1000))
	}
	return s
}

// thousands says 14,000 as "14k" or "fourteen k".
func (m *maker) thousands(v float64) string {
	if v >= 1000 {
		v /= 1000
	}
	if m.digits {
		return plainNumber(v) + "k"
	}
	return m.number(v) + " k"
}

// weight says pounds.
func (m *maker) weight(v float64, form string) string {
	n := int(v)
	if form == "k" && n%1000 == 0 {
		return m.thousands(v)
	}
	unit := m.pickWord(" pounds| pound| lb||||")
	if m.digits {
		if n >= 1000 && m.chance(0.6) {
			return strconv.Itoa(n/1000) + "," + strconv.Itoa(n%1000 + 1000)[1:] + unit
		}
		return strconv.Itoa(n) + m.pickWord(" pounds| lb| lbs")
	}
	return m.short(n) + unit
}

// short says 4,150 as "forty one fifty", 3,600 as "thirty six hundred".
func (m *maker) short(n int) string {
	switch {
	case n < 1000 || n%1000 == 0 && n > 1000 || m.chance(0.25):
		return m.number(float64(n))
	case n%100 == 0 && n < 10000:
		return underHundred(n/100) + " hundred"
	case n%1000 > 0 && n%100 == 0 && n < 100000 && m.chance(0.6):
		return underHundred(n/1000) + " " + unitWords[n%1000/100]
	case n >= 1000 && n < 10000 && n%100 >= 10:
		return underHundred(n/100) + " " + underHundred(n%100)
	}
	return m.number(float64(n))
}

// money says dollars.
func (m *maker) money(v float64, form string) string {
	n := int(v)
	if m.digits {
		s := strconv.Itoa(n)
		if n >= 1000 {
			s = strconv.Itoa(n/1000) + "," + strconv.Itoa(n%1000 + 1000)[1:]
		}
		return m.pickWord("$"+s+"|$"+s+"|"+s) + m.pickWord("||")
	}
	if form == "$dollars" || n < 100 {
		return m.number(v) + " dollars"
	}
	if n < 1000 {
		if n%100 == 0 {
			return m.number(v) + m.pickWord(" dollars| bucks|")
		}
		if n%100 >= 10 && m.chance(0.7) {
			return unitWords[n/100] + " " + underHundred(n%100)
		}
		return m.number(v) + m.pickWord(" dollars|")
	}
	return m.short(n) + m.pickWord(" dollars|||")
}

// length says feet for what is long and inches for the rest.
func (m *maker) length(role string, v float64, form string) string {
	feet := float64(int(v)/12) == v/12 && (strings.HasSuffix(role, "length") || role == "deck.flat" || role == "deck.tail" || strings.HasSuffix(role, "height") && role != "deck.height" && m.chance(0.6) || role == "bed.width")
	switch {
	case form == "footer":
		return m.number(v/12) + m.pickWord(" foot| footer")
	case form == "n" && (feet || role == "box.width" && v == 84):
		return m.number(v / 12)
	case form == "n" && v == 102:
		return m.pickWord("eight and a half|8.5|a hundred and two")
	case form == "n":
		return m.number(v)
	case role == "hitch.ball":
		return map[float64]string{2: m.pickWord("two inch|2 inch|two|2"), 2.3125: m.pickWord("two and five sixteenths|two and five sixteenths inch|two five sixteenths|2 5/16|2-5/16|2 5 16|two in five sixteenths")}[v]
	case feet:
		return m.number(v/12) + m.pickWord(" foot| feet| foot| ft")
	case v != float64(int(v)) && v-float64(int(v)) == 0.5 && !m.digits:
		return m.number(float64(int(v))) + " and a half" + m.pickWord(" inches||")
	case strings.HasSuffix(role, "height") && v > 60 && m.chance(0.5):
		if int(v)%12 == 0 {
			return m.number(v/12) + m.pickWord(" foot| feet")
		}
		return m.number(float64(int(v)/12)) + " foot " + m.number(float64(int(v)%12)) + m.pickWord(" inches| inch")
	case form == "in":
		return m.number(v) + " inch"
	case role == "frame.crossmember-spacing":
		return m.number(v) + m.pickWord(" inch||")
	case role == "deck.between-fenders" || role == "overall-width":
		if v == 102 && !m.digits {
			return m.pickWord("hundred and two|a hundred and two|one oh two|one hundred and two inches")
		}
		return m.number(v) + m.pickWord(" inches||")
	}
	return m.number(v) + m.pickWord(" inches| inch| inches| in")
}

// makeTalk makes n walk-arounds out of phrases.
func makeTalk(tb testing.TB, n int, seed uint64) []text {
	groups := readPhrases(tb)
	m := &maker{rng: rand.New(rand.NewPCG(seed, 16)), groups: map[string]phraseGroup{}}
	var parts []phraseGroup
	own := "open|away|second|back|filler|price|option|machine|phone|dual"
	for _, g := range groups {
		m.groups[g.name] = g
		if !slices.Contains(strings.Split(own, "|"), g.name) {
			parts = append(parts, g)
		}
	}
	var out []text
	for range n {
		out = append(out, m.walk(parts))
	}
	return out
}

// order is the order of the parts in a talk: any, or as they are in the file from some part
// on, with a few that change places.
func (m *maker) order(n int) []int {
	if m.chance(0.4) {
		return m.rng.Perm(n)
	}
	from := m.rng.IntN(n)
	out := make([]int, n)
	for i := range out {
		out[i] = (from + i) % n
	}
	for range 3 {
		i := m.rng.IntN(n - 1)
		out[i], out[i+1] = out[i+1], out[i]
	}
	return out
}

func (m *maker) any(name string) {
	g := m.groups[name]
	m.say(g.phrases[m.rng.IntN(len(g.phrases))])
}

// walk makes one walk-around.
func (m *maker) walk(parts []phraseGroup) text {
	m.text.Reset()
	m.labels = nil
	m.trailer()
	m.digits = m.chance(0.4)
	m.dots = m.chance(0.4)
	stop := func() {
		if m.dots {
			m.text.WriteString(m.pickWord(". |. |, |. "))
		} else {
			m.text.WriteString(m.pickWord(" | | | and | so | now | uh | "))
		}
	}
	body := func(chance float64) {
		m.any("open")
		stop()
		order := m.order(len(parts))
		for _, i := range order {
			g := parts[i]
			if g.space == "tilt" {
				if !strings.Contains(m.words["noun"], "tilt") {
					continue
				}
			} else if g.name == "length" && strings.Contains(m.words["noun"], "tilt") || g.space != "" && g.space != m.space || !m.chance(chance) {
				continue
			}
			for n := 1; n == 1 || n < 4 && m.chance(0.35); n++ {
				m.say(g.phrases[m.rng.IntN(len(g.phrases))])
				stop()
			}
			for _, x := range []struct {
				name string
				p    float64
			}{{"machine", 0.12}, {"option", 0.12}, {"filler", 0.2}, {"phone", 0.08}} {
				if m.chance(x.p) {
					m.any(x.name)
					stop()
				}
			}
		}
		if m.chance(0.8) {
			m.any("price")
			stop()
		}
	}
	body(0.75)
	if m.chance(0.25) {
		keep, words, space := m.facts, m.words, m.space
		m.mute = true
		m.trailer()
		m.any("second")
		stop()
		body(0.4)
		m.mute = false
		m.facts, m.words, m.space = keep, words, space
		if m.chance(0.5) {
			m.any("back")
			stop()
			m.any("hitch")
			stop()
			m.any("price")
			stop()
		}
	}
	m.any("phone")
	x := text{set: "phrases", name: "walk.txt", said: m.text.String(), labels: m.labels}
	if m.chance(0.15) {
		m.misheard(&x)
	}
	x.tokens = tokens(x.said)
	return x
}

// homonyms are what a recognizer writes for words of this talk.
var homonyms = map[string]string{"brakes": "breaks", "axle": "axel", "axles": "axels", "weight": "wait", "weighs": "ways", "way": "weigh", "two": "to", "four": "for",
	"eight": "ate", "one": "won", "no": "know", "which": "witch", "there's": "theirs", "your": "you're", "tail": "tale", "ceiling": "sealing", "wood": "would",
	"hole": "whole", "rear": "rare", "by": "buy", "inside": "in side", "gross": "grows", "plate": "plait", "towing": "toe in", "main": "mane", "steel": "steal"}

// misheard writes a talk as a poor recognizer would: numbers in digits word by word, and words
// that sound alike for others.
func (m *maker) misheard(x *text) {
	value := map[string]int{}
	for n := range 100 {
		value[underHundred(n)] = n
	}
	var out strings.Builder
	at := make([]int, len(x.said)+1) // where each byte of the old text went
	for i := 0; i < len(x.said); {
		end := i
		for end < len(x.said) && x.said[end] != ' ' {
			end++
		}
		word := x.said[i:end]
		if two := strings.IndexByte(x.said[min(end+1, len(x.said)):], ' '); two > 0 {
			if _, ok := value[x.said[i:end+1+two]]; ok {
				end += 1 + two
				word = x.said[i:end]
			}
		}
		for k := i; k < end; k++ {
			at[k] = out.Len()
		}
		switch n, number := value[word]; {
		case homonyms[word] != "" && m.chance(0.4):
			word = homonyms[word]
		case number && m.chance(0.7):
			word = strconv.Itoa(n)
		}
		out.WriteString(word)
		for i = end; i < len(x.said) && x.said[i] == ' '; i++ {
			at[i] = out.Len()
			out.WriteByte(' ')
		}
	}
	at[len(x.said)] = out.Len()
	for i := range x.labels {
		l := &x.labels[i]
		l.from, l.to = at[l.from], at[l.to]
	}
	x.said = out.String()
}

// TestPhrases says that the ear could find the labels of made talk: each is a value that
// some figure can have.
func TestPhrases(t *testing.T) {
	found, all := 0, 0
	missed := map[string]int{}
	for _, x := range makeTalk(t, 300, 5) {
		cands := find(x.tokens)
		got := gold(&x, cands, nil)
		n := 0
		for _, g := range got {
			if g >= 0 {
				n++
			}
		}
		found, all = found+n, all+len(x.labels)
		if *show {
			for _, l := range x.labels {
				hit := false
				for k, g := range got {
					hit = hit || g >= 0 && x.tokens[cands[k].from].from >= l.from-12 && x.tokens[cands[k].from].from < l.to
				}
				if !hit {
					missed[l.role+" "+l.value+" | "+x.said[max(0, l.from-8):min(len(x.said), l.to+8)]]++
				}
			}
		}
	}
	i := 0
	for k := range missed {
		if i++; i < 60 {
			t.Log(k)
		}
	}
	if float64(found) < 0.93*float64(all) {
		t.Errorf("%d of %d labels have a figure", found, all)
	}
}
