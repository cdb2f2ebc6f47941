package compute

import (
	"cmp"
	"slices"
	"strings"

	"tarepage/internal/measure"
)

// A Rung is one limit of the payload. The lowest governs.
type Rung struct {
	Name    string
	Label   string
	Value   measure.Pounds // not below zero
	Source  string
	Governs bool
	// About reports that an input was approximate.
	About bool
	// Estimated reports that the tongue was not weighed; see Figure.Estimated.
	Estimated bool

	working words
}

// Text is the rung's height, rounded down.
func (r *Rung) Text() string { return about(r.About, r.Value.Limit()) }

// Working is the formula with the numbers in it.
func (r *Rung) Working() string { return worked(r.working, r.Estimated) }

// lowestOf shows the rungs of a ladder.
type lowestOf []Rung

func (l lowestOf) String() string {
	var out []string
	for i := range l {
		out = append(out, l[i].Text()+" ("+l[i].Label+")")
	}
	if len(out) == 1 {
		return out[0]
	}
	return "the lowest of " + strings.Join(out, ", ")
}

var payload = &Definition{
	Name: "payload", Label: "Payload",
	What:    "The most that may be loaded: the lowest of every limit that is known, and never more than the tag allows.",
	Formula: "the lowest rung: the tag; the even load by axles, tires, wheels, or where that cannot be worked the axles with the least tongue weight; coupler rating - E; ball rating - E; the even load at which the tongue reaches its limit",
	Unit:    "lb", Source: "49 CFR 567.4(g)(3); 571.110 S4.2.2, 571.120 S5.1.2; 393.75(f); statics",
	work: func(p *pencil) {
		p.Ladder = p.ladder()
		tag := rest(p, p.TagPayload, "tag-payload")
		if !p.ready() {
			return
		}
		lowest := tag
		for _, r := range p.Ladder {
			lowest = min(lowest, r.Value)
		}
		governing := ""
		for i := range p.Ladder {
			r := &p.Ladder[i]
			if r.Value == lowest && governing == "" {
				r.Governs, governing = true, r.Label
			}
			p.about = p.about || r.About
			p.estimated = p.estimated || r.Estimated
		}
		p.note("%s %s", governing, governs(governing))
		p.uncounted()
		p.Payload = p.limit(lowest, say("%s", lowestOf(p.Ladder)))
	},
}

// uncounted notes the limits that could not be counted. A ball is counted where one is
// sold with the trailer; the customer's own is not ours to know.
func (p *pencil) uncounted() {
	u, has := p.Unit, map[string]bool{}
	for _, r := range p.Ladder {
		has[r.Name] = true
	}
	if !p.evenKnown() {
		p.note("not counted, for want of a measure: the even load on axles, tires and tongue")
	}
	var ratings []string
	for _, r := range []struct {
		lacks bool
		name  string
	}{
		{!p.Tire.Known, "the tires"},
		{!p.WheelCapacity.Known, "the wheels"},
		{!has["hitch"], "the coupler"},
		{!(u.Hitch.TongueLimit.Given() && u.Hitch.TongueLimit.Value > 0), "the tongue limit"},
	} {
		if r.lacks {
			ratings = append(ratings, r.name)
		}
	}
	if len(ratings) > 0 {
		p.note("not counted, for want of a rating: %s; the lowest-rated part governs", strings.Join(ratings, ", "))
	}
}

// evenKnown reports that everything is known to place an even load between ball and axles.
func (p *pencil) evenKnown() bool {
	q := &pencil{Work: p.Work, def: p.def}
	q.center()
	need(q, p.Unit.Axles.Center, "axles.center")
	return q.ready() && p.EmptyAxleLoad.Known
}

// governs agrees with the rung's label in number.
func governs(label string) string {
	if strings.HasPrefix(label, "the axles") || strings.HasPrefix(label, "the tires") || strings.HasPrefix(label, "the wheels") {
		return "govern"
	}
	return "governs"
}

// ladder works every rung that can be worked and sorts them, lowest first. Rungs of
// equal height keep the order of the design.
func (p *pencil) ladder() []Rung {
	out := make([]Rung, 0, 8)
	inputs := make([]*Input, 0, 24)
	q := new(pencil)
	// rung works one limit on its own sheet and keeps what it rests on.
	rung := func(name, label, source string, work func(q *pencil) (measure.Pounds, words)) {
		*q = pencil{Work: p.Work, def: p.def, inputs: inputs[:0]}
		v, working := work(q)
		if !q.ready() || !measure.Finite(v) {
			return
		}
		p.bring(q.inputs)
		out = append(out, Rung{Name: name, Label: label, Value: max(v, 0), working: working, Source: source, About: q.about, Estimated: q.estimated})
	}
	u := p.Unit
	rung("tag", "the tag", "49 CFR 567.4(g)(3)", func(q *pencil) (measure.Pounds, words) {
		v := rest(q, q.TagPayload, "tag-payload")
		return v, q.working("tag-payload")
	})
	even := func(hold measure.Pounds, q *pencil) (measure.Pounds, words) {
		onAxles := rest(q, q.EmptyAxleLoad, "empty-axle-load")
		a := need(q, u.Axles.Center, "axles.center")
		xc := q.center()
		if !q.ready() {
			return 0, words{}
		}
		return evenLoad(hold, onAxles, a, xc),
			say("(%s x %s - %s x %s) / %s", a, near{hold}, a, near{onAxles}, near{xc})
	}
	rung("axles", "the axles, even load", staticsSource+"; 49 CFR 571.3(b) (GAWR)", func(q *pencil) (measure.Pounds, words) {
		return even(rest(q, q.AxleCapacity, "axle-capacity"), q)
	})
	// Where nobody weighed the tongue or measured the deck, the axles still set a limit:
	// with the least on the tongue that the band asks for, they carry all the rest.
	rung("axles-least", "the axles, with the least tongue weight", staticsSource+"; 49 CFR 571.3(b) (GAWR); the tongue band's least", func(q *pencil) (measure.Pounds, words) {
		if q.evenKnown() {
			q.skip()
		}
		band, ok := q.Settings.Bands[u.Hitch.Kind.Value]
		if !ok {
			q.lack("hitch.kind")
		}
		hold := rest(q, q.AxleCapacity, "axle-capacity")
		empty := need(q, u.Weights.Empty, "weights.empty")
		if !q.ready() {
			return 0, words{}
		}
		if q.TireCapacity.Known {
			hold = min(hold, rest(q, q.TireCapacity, "tire-capacity").Times(u.Axles.Count.Value))
		}
		return measure.WholeOf(hold, 1-band.Least) - empty, say("%s / (100%% - %s) - %s", near{hold}, band.Least, empty)
	})
	rung("tires", "the tires, even load", staticsSource+"; 49 CFR 393.75(f)", func(q *pencil) (measure.Pounds, words) {
		n := needCount(q, u.Axles.Count, "axles.count")
		if !q.Tire.Known {
			q.lack("tires.sidewall")
			return 0, words{}
		}
		q.inheritTire()
		return even(q.Tire.Axle.Times(n), q)
	})
	rung("wheels", "the wheels, even load", staticsSource+"; the rating stamped on the wheel", func(q *pencil) (measure.Pounds, words) {
		n := needCount(q, u.Axles.Count, "axles.count")
		return even(rest(q, q.WheelCapacity, "wheel-capacity").Times(n), q)
	})
	less := func(q *pencil, rating measure.Pounds) (measure.Pounds, words) {
		empty := need(q, u.Weights.Empty, "weights.empty")
		return rating - empty, say("%s - %s", rating, empty)
	}
	rung("hitch", "the coupler", "the rating on the coupler plate; SAE J684", func(q *pencil) (measure.Pounds, words) {
		return less(q, need(q, u.Hitch.Rating, "hitch.rating"))
	})
	rung("ball", "the ball", "the rating stamped on the ball; SAE J684", func(q *pencil) (measure.Pounds, words) {
		return less(q, need(q, u.Hitch.BallRating, "hitch.ball-rating"))
	})
	rung("tongue", "the tongue limit, even load", staticsSource+"; the limit on the coupler plate", func(q *pencil) (measure.Pounds, words) {
		limit := need(q, u.Hitch.TongueLimit, "hitch.tongue-limit")
		tongue := q.emptyTongue()
		a := need(q, u.Axles.Center, "axles.center")
		xc := q.center()
		if q.ready() && xc >= a {
			// A load centered at or behind the axles never adds to the tongue.
			q.skip()
		}
		if !q.ready() {
			return 0, words{}
		}
		return measure.WeightAt(measure.Moment(limit-tongue, a), a-xc),
			say("(%s - %s) x %s / (%s - %s)", limit, tongue, a, a, near{xc})
	})
	slices.SortStableFunc(out, func(a, b Rung) int {
		return cmp.Compare(a.Value, b.Value)
	})
	return out
}

// working is the working of an earlier figure.
func (w *Work) working(name string) words {
	if f := w.Figure(name); f != nil {
		return f.working
	}
	return words{}
}

var workingPayload = &Definition{
	Name: "working-payload", Label: "Working payload",
	What:    "The payload less what the yard holds back for mud, chains, fuel and a scale that is off; plan with this one.",
	Formula: "payload less the yard's allowance, down to the hundred",
	Unit:    "lb", Source: "the yard's allowance; common practice, no source", Practice: true,
	work: func(p *pencil) {
		full := rest(p, p.Payload, "payload")
		if !p.ready() {
			return
		}
		back := p.Settings.Allowance
		v := measure.Down(full-back.Of(full), 100)
		p.bound = atMost
		p.enter(float64(v), v.Limit(), 100, say("%s - %s, down to the hundred", near{full}, back))
		p.WorkingPayload = Result[measure.Pounds]{Value: v, Known: true}
	},
}
