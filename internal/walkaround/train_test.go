package walkaround

import (
	"bufio"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"flag"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
)

// A label is what a person says a text holds.
type label struct {
	role, compare, value string
	at                   float64
	from, to             int // where it stands in the text, or 0
}

func (l label) key() string { return l.role + " " + l.value }

// A text is a labelled line or walk-around.
type text struct {
	set, name string
	said      string
	tokens    []token
	labels    []label
	walk      bool
}

var talkDir = "testdata"

var comparisons = map[string]bool{"~": true, "<": true, ">": true, "<=": true, ">=": true}

func readLabel(s string) (label, error) {
	f := strings.Fields(s)
	if len(f) < 2 {
		return label{}, fmt.Errorf("label %q does not read", s)
	}
	out := label{role: f[0], compare: "="}
	f = f[1:]
	if comparisons[f[0]] {
		out.compare, f = f[0], f[1:]
	}
	v := strings.Join(f, " ")
	if low, high, ok := strings.Cut(v, ".."); ok {
		out.compare = "range"
		if _, unit, ok := strings.Cut(high, " "); ok && !strings.Contains(low, " ") {
			low += " " + unit
		}
		a, err1 := canonical(out.role, low)
		b, err2 := canonical(out.role, high)
		out.value = a + ".." + b
		if err1 != nil {
			return out, err1
		}
		return out, err2
	}
	var err error
	out.value, err = canonical(out.role, v)
	return out, err
}

// namedAs are names of a value that labels write in another way than a unit file.
var namedAs = map[string]string{"kind car hauler": "car-hauler", "kind stock": "livestock", "kind tank": "water-tank", "kind water": "water-tank", "kind dolly": "tow-dolly", "kind enclosed cargo": "enclosed", "kind fuel tank": "fuel-tank", "kind atv": "atv-snowmobile", "kind container chassis": "container-chassis",
	"brakes.kind electric over hydraulic": "electric-over-hydraulic", "brakes.kind electric-hydraulic": "electric-over-hydraulic",
	"kind snowmobile": "atv-snowmobile", "kind horse": "livestock", "brakes.kind hydraulic": "surge", "axles.suspension slipper spring": "leaf spring"}

func canonical(role, v string) (string, error) {
	if name, ok := namedAs[role+" "+v]; ok {
		return name, nil
	}
	switch {
	case role == "frame.beam" || role == "frame.crossmember":
		return v, nil
	case strings.HasSuffix(v, " lb"):
		w, err := measure.ParseWeight(v)
		return w.Value.String(), err
	case strings.HasSuffix(v, " ft"), strings.HasSuffix(v, " in"):
		w, err := measure.ParseLength(v)
		return w.Value.InInches(), err
	case strings.HasSuffix(v, " psi"):
		w, err := measure.ParsePressure(v)
		return w.Value.String(), err
	case strings.HasPrefix(v, "$"):
		w, err := measure.ParseMoney(v)
		return w.Value.String(), err
	}
	return v, nil
}

func printed(v, high Value) string {
	one := func(v Value) string {
		if in, ok := v.(measure.Inches); ok {
			return in.InInches()
		}
		return v.String()
	}
	if high != nil {
		return one(v) + ".." + one(high)
	}
	return one(v)
}

var clockForm = regexp.MustCompile(`^(?:(\d+):)?(\d\d):(\d\d) `)

func readWant(data string) ([]label, error) {
	var out []label
	for line := range strings.Lines(data) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		m := clockForm.FindStringSubmatch(line)
		if m == nil {
			return nil, fmt.Errorf("%q has no time", line)
		}
		l, err := readLabel(line[len(m[0]):])
		if err != nil {
			return nil, err
		}
		l.at = clockSeconds(m)
		out = append(out, l)
	}
	return out, nil
}

func clockSeconds(clock []string) float64 {
	hour, _ := strconv.Atoi(clock[1])
	minute, _ := strconv.Atoi(clock[2])
	second, _ := strconv.Atoi(clock[3])
	return float64(hour*3600 + minute*60 + second)
}

func loadSets(tb testing.TB) []text {
	tb.Helper()
	var out []text
	files, _ := filepath.Glob(filepath.Join(talkDir, "*", "lines", "*.txt"))
	for _, name := range files {
		set := filepath.Base(filepath.Dir(filepath.Dir(name)))
		f, err := os.Open(name)
		if err != nil {
			tb.Fatal(err)
		}
		defer f.Close()
		var cur *text
		in := bufio.NewScanner(f)
		for in.Scan() {
			line := in.Text()
			if l, ok := strings.CutPrefix(line, "\t"); ok {
				if l != "-" {
					lab, err := readLabel(l)
					if err != nil {
						tb.Fatal(name, err)
					}
					cur.labels = append(cur.labels, lab)
				}
				continue
			}
			out = append(out, text{set: set, name: name, said: line, tokens: tokens(line)})
			cur = &out[len(out)-1]
		}
	}
	files, _ = filepath.Glob(filepath.Join(talkDir, "*", "walks", "*.want"))
	more, _ := filepath.Glob(filepath.Join(talkDir, "stranger-*", "*.want")) // each was looked at once
	last, _ := filepath.Glob(filepath.Join(talkDir, "made-*", "*.want"))
	more = append(more, last...)
	for _, name := range append(files, more...) {
		out = append(out, loadWalk(tb, name)...)
	}
	return out
}

func loadWalk(tb testing.TB, name string) []text {
	var out []text
	data, err := os.ReadFile(name)
	if err != nil {
		tb.Fatal(err)
	}
	labels, err := readWant(string(data))
	if err != nil {
		tb.Fatal(name, err)
	}
	for _, ext := range []string{".vtt", ".srt"} {
		file := strings.TrimSuffix(name, ".want") + ext
		data, err := os.ReadFile(file)
		if err != nil {
			continue
		}
		c, _, err := captions.Read(file, data)
		if err != nil {
			tb.Fatal(err)
		}
		said, t := transcript(c)
		set := filepath.Base(filepath.Dir(name))
		if set == "walks" {
			set = filepath.Base(filepath.Dir(filepath.Dir(name)))
		}
		out = append(out, text{set: set, name: file, said: said, tokens: t, labels: labels, walk: true})
	}
	return out
}

// An example is one candidate of training.
type example struct {
	static  []feature
	options [][]feature
	rows    []int
	gold    int // index into rows, or -1
}

// gold aligns labels with candidates: of each candidate the index of its option, or -1.
// score, if it is not nil, tells how well an option fits.
func gold(x *text, cands []candidate, score func(k, o int) int32) []int {
	out := make([]int, len(cands))
	for i := range out {
		out[i] = -1
	}
	for _, l := range x.labels {
		row, ok := roleIndex[Role(l.role)]
		if !ok {
			continue
		}
		best, bestCost, bestOpt := -1, math.Inf(1), 0
		for k, c := range cands {
			for o, opt := range c.options {
				if opt.row != row || printed(opt.value, opt.high) != l.value || out[k] >= 0 {
					continue
				}
				cost := float64(k) * 1e-3
				if at := x.tokens[c.from].from; l.to > 0 && (at >= l.to || x.tokens[c.to-1].to <= l.from) {
					continue
				}
				if l.at > 0 {
					cost += math.Abs(x.tokens[c.from].start-l.at) / 4
				}
				if score != nil {
					cost -= float64(score(k, o)) / scale
				}
				if cost < bestCost {
					best, bestCost, bestOpt = k, cost, o
				}
			}
		}
		if best >= 0 {
			out[best] = bestOpt
		}
	}
	return out
}

func examples(x *text, m *model) []example {
	cands := find(x.tokens)
	s := setScene(x.tokens, cands)
	var fit func(k, o int) int32
	if m != nil {
		ds := m.decide(s)
		fit = func(k, o int) int32 {
			for _, c := range ds[k].choices {
				if c.row == cands[k].options[o].row && c.value == cands[k].options[o].value {
					return c.score
				}
			}
			return 0
		}
	}
	want := gold(x, cands, fit)
	var guess []decided
	if m != nil {
		guess = m.decide(s)
	}
	// A word such as "tandem" or a figure said again is not an error: the same value in the
	// same role is a wanted one too where the model thinks so.
	var out []example
	var h history
	seen := make([]Value, len(roleTable))
	last := -1
	for k := range cands {
		c := &cands[k]
		if len(c.options) == 0 {
			continue
		}
		h.ago = 99
		if last >= 0 {
			h.ago = s.place[k] - s.place[last]
		}
		e := example{static: s.after(s.features(nil, k), k, h), gold: want[k]}
		for _, o := range c.options {
			e.rows = append(e.rows, o.row)
			e.options = append(e.options, append(s.valueFeatures(nil, k, o), seenFeature(seen[o.row], o.value)))
		}
		// A repetition of a labelled value may be labelled or not; leave it out of training.
		again := false
		if want[k] < 0 {
			for _, o := range c.options {
				for _, l := range x.labels {
					again = again || string(roleTable[o.row].role) == l.role && printed(o.value, o.high) == l.value
				}
			}
		}
		if !again {
			out = append(out, e)
		}
		class := uint32(none)
		if *ownHist && m != nil {
			// What is decided later has to live with errors made before.
			if g := guess[k].choices[0]; g.score > 0 {
				class = uint32(1 + g.row)
				seen[g.row] = g.value
			}
		} else if want[k] >= 0 {
			o := c.options[want[k]]
			class = uint32(1 + o.row)
			seen[o.row] = o.value
		}
		h.next(class)
		last = k
	}
	return out
}

// bareTalk is a text as automatic captions would write it: no punctuation.
func bareTalk(list []text, rng int) []text {
	var out []text
	for i := 0; i < len(list); {
		n := 1 + (i*7+rng*3)%6
		j := i
		var x text
		x.set = list[i].set
		for ; j < len(list) && j < i+n && list[j].set == list[i].set && list[j].name == list[i].name; j++ {
			for _, t := range list[j].tokens {
				if t.kind == comma || t.kind == stop {
					continue
				}
				x.tokens = append(x.tokens, t)
			}
			x.labels = append(x.labels, list[j].labels...)
		}
		i = max(j, i+1)
		out = append(out, x)
	}
	return out
}

type trainer struct {
	ids     map[feature]int
	entries [][]uint8 // of each feature: its classes
	first   []int32   // of each feature: its first parameter; the others follow
	ex      []trainExample
	l2      float64
	seed    uint64
	weights []float32
}

type trainExample struct {
	static  []int32
	options [][]int32
	rows    []int
	gold    int
	weight  float64
}

// leastSeen is how often a feature is seen to be kept, mostBytes how large the packed model may be.
const leastSeen, mostBytes = 2, 400 << 10

// learn finds the weights of examples, with random numbers of its own seed.
func learn(exs []example, l2 float64, iterations int, seed uint64) *trainer {
	count := map[feature]int{}
	for _, e := range exs {
		for _, f := range e.static {
			count[f]++
		}
		for _, fs := range e.options {
			for _, f := range fs {
				count[f]++
			}
		}
	}
	t := &trainer{ids: map[feature]int{}, l2: l2, seed: seed}
	id := func(f feature) (int32, bool) {
		if count[f] < leastSeen {
			return 0, false
		}
		n, ok := t.ids[f]
		if !ok {
			n = len(t.entries)
			t.ids[f] = n
			t.entries = append(t.entries, nil)
		}
		return int32(n), true
	}
	open := func(f int32, class int) {
		if !slices.Contains(t.entries[f], uint8(class)) {
			t.entries[f] = append(t.entries[f], uint8(class))
		}
	}
	for _, e := range exs {
		te := trainExample{rows: e.rows, gold: e.gold, weight: 1}
		for _, f := range e.static {
			if n, ok := id(f); ok {
				te.static = append(te.static, n)
				if e.gold < 0 {
					open(n, none)
				} else {
					r := e.rows[e.gold]
					open(n, 1+r)
					open(n, partClass[r])
					open(n, attrClass[r])
				}
			}
		}
		for i, fs := range e.options {
			var list []int32
			for _, f := range fs {
				if n, ok := id(f); ok {
					list = append(list, n)
					r := e.rows[i]
					open(n, 1+r)
					if i == e.gold {
						open(n, partClass[r])
						open(n, attrClass[r])
					}
				}
			}
			te.options = append(te.options, list)
		}
		t.ex = append(t.ex, te)
	}
	t.weights = t.descend(iterations)
	t.ex = nil
	return t
}

// together is the model whose weights are the means of those of some trainers. Each errs in its own
// way, which a mean evens out (bagging: Breiman, 1996); as scores are sums, one model does for all.
func together(ts []*trainer) *model {
	sums := map[feature]map[uint8]float64{}
	for _, t := range ts {
		for f, id := range t.ids {
			for i, class := range t.entries[id] {
				if sums[f] == nil {
					sums[f] = map[uint8]float64{}
				}
				sums[f][class] += float64(t.weights[int(t.first[id])+i]) / float64(len(ts))
			}
		}
	}
	fs := slices.Sorted(maps.Keys(sums))
	m := &model{}
	for step := 2; ; step++ { // coarser weights pack better, and the smallest go first
		m.weights, m.at = nil, map[feature]uint32{}
		for _, f := range fs {
			first := len(m.weights)
			for _, class := range slices.Sorted(maps.Keys(sums[f])) {
				if w := step * int(math.Round(sums[f][class]*scale/float64(step))); w != 0 {
					m.weights = append(m.weights, weighted{class, int8(max(-127, min(127, w)))})
				}
			}
			if n := len(m.weights) - first; n > 0 {
				m.at[f] = uint32(first)<<8 | uint32(min(n, 255))
			}
		}
		if len(m.pack()) <= mostBytes {
			return m
		}
	}
}

// descend is stochastic gradient descent with a step of its own for each weight (AdaGrad:
// Duchi, Hazan, Singer, 2011), in a fixed order.
func (t *trainer) descend(epochs int) []float32 {
	params := int32(0)
	for _, list := range t.entries {
		t.first = append(t.first, params)
		params += int32(len(list))
	}
	x := make([]float32, params)
	g2 := make([]float32, params)
	for i := range g2 {
		g2[i] = 1e-2
	}
	sums := make([]float32, classes)
	coef := make([]float32, classes)
	var ps []float32
	var kept []int32
	rng := rand.New(rand.NewPCG(16, t.seed))
	n := len(t.ex)
	l2 := float32(t.l2 / float64(n))
	step := func(p int32, g float32) {
		g += l2 * 20 * x[p]
		g2[p] += g * g
		x[p] -= 0.12 * g / float32(math.Sqrt(float64(g2[p])))
	}
	stride := 7919
	mean := make([]float32, params) // of the weights after the epochs of the last half
	half := epochs - epochs/2
	for epoch := range epochs + 1 {
		if epoch > epochs-half {
			for p, w := range x {
				mean[p] += w / float32(half)
			}
		}
		if epoch == epochs {
			break
		}
		at := epoch * 13 % n
		for range n {
			at = (at + stride) % n
			e := &t.ex[at]
			clear(sums)
			static := e.static
			if *dropout > 0 {
				kept = kept[:0]
				for _, f := range e.static {
					if rng.Float64() >= *dropout {
						kept = append(kept, f)
					}
				}
				static = kept
			}
			for _, f := range static {
				own := x[t.first[f]:]
				for i, class := range t.entries[f] {
					sums[class] += own[i]
				}
			}
			ps = ps[:0]
			most := sums[none]
			for k, r := range e.rows {
				s := sums[1+r] + sums[partClass[r]] + sums[attrClass[r]]
				for _, f := range e.options[k] {
					for i, class := range t.entries[f] {
						if c := int(class); c == 1+r || c == partClass[r] || c == attrClass[r] {
							s += x[int(t.first[f])+i]
						}
					}
				}
				ps = append(ps, s)
				most = max(most, s)
			}
			exp := func(v float32) float32 { return float32(math.Exp(float64(v))) }
			z := exp(sums[none] - most)
			pn := z
			for k := range ps {
				ps[k] = exp(ps[k] - most)
				z += ps[k]
			}
			pn /= z
			clear(coef)
			coef[none] = pn
			if e.gold < 0 {
				coef[none]--
			}
			for k, r := range e.rows {
				p := ps[k] / z
				if k == e.gold {
					p--
				}
				if p < 1e-3 && p > -1e-3 {
					continue
				}
				coef[1+r] += p
				coef[partClass[r]] += p
				coef[attrClass[r]] += p
				for _, f := range e.options[k] {
					for i, class := range t.entries[f] {
						if c := int(class); c == 1+r || c == partClass[r] || c == attrClass[r] {
							step(t.first[f]+int32(i), p)
						}
					}
				}
			}
			for _, f := range static {
				for i, class := range t.entries[f] {
					if c := coef[class]; c > 2e-3 || c < -2e-3 {
						step(t.first[f]+int32(i), c)
					}
				}
			}
		}
	}
	return mean
}

var (
	doTrain = flag.Bool("train", false, "train the model and write it")
	doAgain = flag.Bool("again", false, "train the model again and compare what it decides with the shipped one")
	doLOO   = flag.String("loo", "", "sets to hold out, one after the other, separated by commas; sets joined by + are held out together")
	ownHist = flag.Bool("ownhist", true, "train with the history that the model itself decides")
	dropout = flag.Float64("drop", 0.5, "the part of the features that is left out of each step of training")
	l2Flag  = flag.Float64("l2", 1.0, "the weight of the square of the weights")
	iters   = flag.Int("iters", 6, "iterations")
	// madeTalks is how many walk-arounds are made of phrases for training.
	madeTalks = flag.Int("made", 150, "walk-arounds made of phrases for each model")
	show      = flag.Bool("show", false, "show errors")
)

// bags is how many models are trained, each on four fifths of the talk and on made talk of its own.
const bags = 5

func trainOn(tb testing.TB, list []text) *model {
	debug.SetGCPercent(200)
	var lines []text
	var all []text
	for _, x := range list {
		if !x.walk {
			lines = append(lines, x)
		}
		if !x.walk || strings.HasSuffix(x.name, ".vtt") {
			all = append(all, x)
		}
	}
	all = append(all, bareTalk(lines, 1)...)
	all = append(all, bareTalk(lines, 2)...)
	learned := func(m *model, all []text, iterations int, seed uint64) *trainer {
		var exs []example
		for i := range all {
			exs = append(exs, examples(&all[i], m)...)
		}
		return learn(exs, *l2Flag, iterations, seed)
	}
	// The first round aligns labels with figures.
	first := together([]*trainer{learned(nil, slices.Concat(all, makeTalk(tb, *madeTalks/4, 1)), 2, 1)})
	ts := make([]*trainer, bags)
	made := make([][]text, bags)
	for b := range bags {
		made[b] = makeTalk(tb, *madeTalks, uint64(b+1))
	}
	var wait sync.WaitGroup
	for b := range bags {
		wait.Go(func() {
			var part []text
			for i, x := range all {
				if i%bags != b {
					part = append(part, x)
				}
			}
			ts[b] = learned(first, slices.Concat(part, made[b]), *iters, uint64(b+1))
		})
	}
	wait.Wait()
	return together(ts)
}

// namesWords reports that the labels of a set name words too.
func namesWords(set string) bool {
	return strings.HasPrefix(set, "stranger") || strings.HasPrefix(set, "made")
}

// unlabelled are the keys that nobody who labels is asked for.
var unlabelled = map[Role]bool{color: true, tape: true}

type tallySheet struct{ right, wrong, missed, fromNothing, texts int }

func (s tallySheet) String() string {
	return fmt.Sprintf("%d texts: %d right, %d wrong, %d missed: %.1f / %.1f; %d from nothing", s.texts, s.right, s.wrong, s.missed,
		100*float64(s.right)/float64(max(1, s.right+s.wrong)), 100*float64(s.right)/float64(max(1, s.right+s.missed)), s.fromNothing)
}

func (s *tallySheet) count(x *text, got []Candidate, report func(string, ...any)) {
	s.texts++
	have := map[string]Candidate{}
	for _, c := range got {
		if c.Role != "" && !unlabelled[c.Role] {
			k := string(c.Role) + " " + printed(c.Value, c.High)
			for _, l := range x.labels {
				if l.role == string(c.Role) && strings.HasPrefix(l.role, "frame.") && strings.Contains(" "+printed(c.Value, c.High)+" ", " "+l.value+" ") {
					k = l.key() // heard with more than the label has, as the weight of a beam
				}
			}
			if _, ok := have[k]; !ok {
				have[k] = c
			}
		}
	}
	if len(x.labels) == 0 {
		s.fromNothing += len(have)
	}
	want := map[string]bool{}
	for _, l := range x.labels {
		if want[l.key()] {
			continue
		}
		want[l.key()] = true
		if _, ok := have[l.key()]; ok {
			s.right++
		} else {
			s.missed++
			report("missed %s in %s", l.key(), x.snip(l))
		}
	}
	for k, c := range have {
		if !want[k] {
			s.wrong++
			report("WRONG %s (%.2f) %q in %s", k, c.Confidence, c.Quote, x.around(c.Offset))
		}
	}
}

func (x *text) around(at int) string {
	if !x.walk {
		return x.said
	}
	return x.said[max(0, at-90):min(len(x.said), at+70)]
}

func (x *text) snip(l label) string {
	if !x.walk {
		return x.said
	}
	at := 0
	for _, t := range x.tokens {
		if t.start <= l.at {
			at = t.from
		}
	}
	return x.around(at)
}

func TestLOO(t *testing.T) {
	if *doLOO == "" {
		t.Skip("no sets")
	}
	texts := loadSets(t)
	var total tallySheet
	for set := range strings.SplitSeq(*doLOO, ",") {
		var rest, held []text
		for _, x := range texts {
			if slices.Contains(strings.Split(set, "+"), x.set) {
				held = append(held, x)
			} else {
				rest = append(rest, x)
			}
		}
		start := time.Now()
		m := trainOn(t, rest)
		took := time.Since(start)
		var lines, walks tallySheet
		report := func(f string, a ...any) {
			if *show {
				fmt.Printf("   "+f+"\n", a...)
			}
		}
		for i := range held {
			x := &held[i]
			got := m.hear(x.said, x.tokens, x.walk)
			if namesWords(x.set) {
				got = append(got, wordsIn(x.said, x.tokens)...) // their labels name words too
			}
			if x.walk {
				walks.count(x, got, report)
			} else {
				lines.count(x, got, report)
			}
		}
		both := tallySheet{lines.right + walks.right, lines.wrong + walks.wrong, lines.missed + walks.missed, lines.fromNothing, lines.texts + walks.texts}
		total.right += both.right
		total.wrong += both.wrong
		total.missed += both.missed
		total.fromNothing += both.fromNothing
		if !*show {
			save := bar
			for _, b := range []int32{0, 24, 36, 48, 72, 96} {
				bar = b
				var s tallySheet
				for i := range held {
					s.count(&held[i], append(m.hear(held[i].said, held[i].tokens, held[i].walk), wordsIn(held[i].said, held[i].tokens)...), func(string, ...any) {})
				}
				fmt.Printf("   bar %d: %v\n", b, s)
			}
			bar = save
		}
		fmt.Printf("%s  all %v | lines %v | walks %v (%d features, %d weights, %.0fs)\n", set, both, lines, walks, len(m.at), len(m.weights), took.Seconds())
	}
	fmt.Println("total", total)
}

// sameDecisions fails where two models give a figure of the labelled talk another role.
func sameDecisions(t *testing.T, a, b *model) {
	for _, x := range loadSets(t) {
		was, now := b.hear(x.said, x.tokens, x.walk), a.hear(x.said, x.tokens, x.walk)
		for i := range was {
			if i >= len(now) || was[i].Role != now[i].Role || was[i].Value.String() != now[i].Value.String() {
				t.Errorf("%s: %q is decided in another way", x.name, was[i].Quote)
			}
		}
	}
}

// TestTrain trains on all labelled talk and writes the model, with -train. Without it, the
// test only says that the model is of the size that was promised.
func TestTrain(t *testing.T) {
	if *doAgain {
		sameDecisions(t, trainOn(t, loadSets(t)), shipped())
		return
	}
	if *doTrain {
		m := trainOn(t, loadSets(t))
		if err := os.WriteFile("model.bin", m.pack(), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := writeSections(trainSections(t)); err != nil {
			t.Fatal(err)
		}
		return // the model in this program is still the one before
	}
	info, err := os.Stat("model.bin")
	if err != nil {
		t.Fatal(err)
	}
	if info.Size() > 400<<10 {
		t.Errorf("the model is %d bytes, more than 400 KB", info.Size())
	}
	m := shipped()
	if len(m.at) < 10_000 {
		t.Errorf("the model knows only %d features", len(m.at))
	}
	if again := m.pack(); len(again) != int(info.Size()) {
		t.Errorf("packed again it has %d bytes, the file has %d", len(again), info.Size())
	}
}

// pack writes the model: the features in rising order, each as its distance from the one
// before, with its number of weights; then the classes; then the weights. All is deflated.
func (m *model) pack() []byte {
	fs := make([]feature, 0, len(m.at))
	for f := range m.at {
		fs = append(fs, f)
	}
	slices.Sort(fs)
	var head, class, weight []byte
	head = binary.AppendUvarint(head, uint64(classes))
	head = binary.AppendUvarint(head, uint64(len(fs)))
	last := feature(0)
	for _, f := range fs {
		e := m.at[f]
		head = binary.AppendUvarint(head, uint64(f-last))
		head = append(head, byte(e))
		last = f
		for _, w := range m.weights[e>>8 : e>>8+e&0xff] {
			class = append(class, w.class)
			weight = append(weight, byte(w.w))
		}
	}
	var out bytes.Buffer
	z, err := flate.NewWriter(&out, flate.BestCompression)
	if err != nil {
		panic(err)
	}
	for _, part := range [][]byte{head, class, weight} {
		_, _ = z.Write(part) // a buffer takes everything
	}
	_ = z.Close()
	return out.Bytes()
}
