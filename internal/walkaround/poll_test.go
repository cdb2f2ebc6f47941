package walkaround

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"
	"time"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
)

// manyFigures are captions in which every cue gives another GVWR.
func manyFigures(t *testing.T, n int) captions.Track {
	t.Helper()
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for i := range n {
		from := i * 3
		fmt.Fprintf(&b, "\n%s --> %s\ngvwr is %d pounds\n", cueClock(from), cueClock(from+3), 7000+i)
	}
	track, _, err := captions.Read("many.vtt", []byte(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	return track
}

func cueClock(s int) string { return fmt.Sprintf("%02d:%02d:%02d.000", s/3600, s/60%60, s%60) }

// TestManyFigures hears 2,500 values of one key in a moment. When all were compared again for each value
// that lost, it took more than five minutes.
func TestManyFigures(t *testing.T) {
	track := manyFigures(t, 2500)
	began := time.Now()
	heard := Hear(track)
	if took := time.Since(began); took > 30*time.Second {
		t.Errorf("2,500 figures of one key took %v; want at most a moment", took)
	}
	if len(heard) != 2500 {
		t.Errorf("%d figures were heard, want 2,500", len(heard))
	}
	values := map[Value]bool{}
	for _, c := range heard {
		if c.Role == GVWR {
			values[c.Value] = true
		}
	}
	if len(values) != 1 {
		t.Errorf("the GVWR has %d values; a recording has one for each key", len(values))
	}
}

// TestPoll compares the poll with a plain count over all pairs, again for each mention that leaves.
func TestPoll(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	h := &hearing{}
	row := roleIndex[GVWR]
	for range 300 {
		ds := make([]decided, 1+rnd.Intn(12))
		for k := range ds {
			c := &candidate{}
			if rnd.Intn(3) == 0 {
				c.compare = About
			}
			o := option{row: row, value: measure.Pounds(7000 + 60*rnd.Intn(6))}
			if rnd.Intn(5) == 0 {
				o.high = measure.Pounds(8000)
			}
			ds[k] = decided{candidate: c, choices: []choice{{o, int32(rnd.Intn(4)) * scale}}}
			if rnd.Intn(6) == 0 {
				ds[k].pick = -1
			}
		}
		due := map[Value]int32{measure.Pounds(7120): scale}
		p := h.poll(ds, row, due)
		for {
			best, loser := p.contest()
			wantBest, wantLoser := plainContest(ds, due)
			if loser >= 0 {
				loser = p.mentions[loser]
			}
			if best != wantBest || loser != wantLoser {
				t.Fatalf("%d wins and %d loses, want %d and %d", best, loser, wantBest, wantLoser)
			}
			if loser < 0 {
				break
			}
			ds[loser].pick = -1
			for i, k := range p.mentions {
				if k == loser {
					p.leave(i)
					break
				}
			}
		}
	}
}

// plainContest is the winner and a loser among the figures that have a role.
func plainContest(ds []decided, due map[Value]int32) (best, loser int) {
	rough := func(d *decided) bool { return d.compare != Equal || d.choices[0].high != nil }
	agree := func(a, b *decided) bool {
		return same(a.choices[0].value, b.choices[0].value, rough(a) || rough(b))
	}
	best, loser = -1, -1
	var most int32
	for a := range ds {
		if ds[a].pick < 0 {
			continue
		}
		total := ds[a].choices[0].score + due[ds[a].choices[0].value]
		for b := range ds {
			if a != b && ds[b].pick >= 0 && agree(&ds[a], &ds[b]) {
				total += scale
			}
		}
		if ds[a].compare != Equal {
			total -= scale
		}
		if best < 0 || total > most {
			best, most = a, total
		}
	}
	for a := range ds {
		if best >= 0 && ds[a].pick >= 0 && a != best && !agree(&ds[a], &ds[best]) {
			return best, a
		}
	}
	return best, -1
}
