package compute

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
)

// RigOf takes a worked unit as a rig, or says what has to be weighed or measured first.
// Tires and wheels, coupler and ball count where they are known.
func RigOf(w *Work) (Rig, []Need) { return w.rig, w.rigNeeds }

// rig gathers the rig, and with it everything the figure rests on.
func (p *calc) rig() Rig {
	u := p.Unit
	r := Rig{
		GVWR:   need(p, u.Weights.GVWR, "weights.gvwr"),
		Empty:  p.empty(),
		Tongue: p.emptyTongue(),
		Axles:  need(p, u.Axles.Center, "axles.center"),
		Front:  need(p, p.Space.Front, p.Space.key("front")),
		Length: need(p, p.Space.Length, p.Space.key("length")),
		Hold:   rest(p, p.AxleCapacity, "axle-capacity"),
		HoldBy: AxleHold,
	}
	r.Holds[0] = r.Hold
	lower := func(each measure.Pounds, by Constraint) {
		all := each.Times(u.Axles.Count.Value)
		r.Holds[by-AxleHold] = all
		if all < r.Hold {
			r.Hold, r.HoldBy = all, by
		}
	}
	if p.Tire.Known {
		p.inheritTire()
		lower(p.Tire.Axle, TireHold)
	} else {
		p.note("not counted, for want of a rating: the tires")
	}
	if p.WheelCapacity.Known {
		lower(rest(p, p.WheelCapacity, "wheel-capacity"), WheelHold)
	}
	if h := u.Hitch; h.TongueLimit.Given() {
		r.TongueMost = need(p, h.TongueLimit, "hitch.tongue-limit")
	}
	if u.Hitch.Rating.Given() {
		r.Coupler = need(p, u.Hitch.Rating, "hitch.rating")
	}
	if u.Hitch.BallRating.Given() {
		r.Ball = need(p, u.Hitch.BallRating, "hitch.ball-rating")
	}
	if band, ok := p.Band(); ok {
		r.Least, r.Most = band.Least, band.Most
	} else {
		p.lack("hitch.kind")
	}
	return r
}

var loadWindow = &Definition{
	Name: "load-window", Label: "Where a working load, half the deck long, can be put",
	What:    "For a load of the working payload that takes up half the deck: how far behind the deck's front edge the middle of its weight may be, so that tongue, axles, tires and deck all carry it. Another load has another window. The tongue band is guidance: weigh the tongue loaded.",
	Formula: "A (T0 + w - T) / w for the most and the least that T may be by the tongue band and the tongue limit; A (hold - E + T0) / w for the axle group; the deck's ends; all less the deck's front",
	Unit:    "ft", Source: staticsSource + "; the tongue band: general guidance in towing manuals",
	work: func(p *calc) {
		weight := rest(p, p.WorkingPayload, "working-payload")
		r := p.rig()
		if !p.ready() {
			return
		}
		w := r.Window(Load{weight, r.Length.Half()})
		if !w.Room {
			p.needs = append(p.needs, Need{Key: p.def.Name, Advice: p.inSpace(w.Text())})
			return
		}
		p.shared()
		p.note("from the ball: %s; its front end is set by %s, its rear end by %s", fromTo{w.First.FromBall, w.Last.FromBall}, p.inSpace(w.First.By.String()), p.inSpace(w.Last.By.String()))
		p.LoadWindow = w
		p.enter(float64(w.First.Behind.Feet()), p.inSpace(w.Text()), windowStep, say("%s", &windowWorking{r, w}))
	},
}

// inSpace names the space of this unit: a deck, a bed or a box.
func (p *calc) inSpace(text string) string {
	return strings.ReplaceAll(text, "deck's", p.Space.Name+"'s")
}

// windowStep is the quarter inch that a window is rounded to, in feet.
const windowStep = 0.25 / measure.InchesPerFoot

// windowWorking shows the working of the two ends of a rig's window.
type windowWorking struct {
	rig    Rig
	window Window
}

func (s *windowWorking) String() string {
	r, w := s.rig, s.window
	return fmt.Sprintf("%s on %s: front end %s; rear end %s", w.Load.Weight, w.Load.Length, r.endWorking(w.First, w), r.endWorking(w.Last, w))
}

func (r Rig) endWorking(e End, w Window) string {
	weight := w.Load.Weight
	total := r.Empty + weight
	tongue := func(t string) string {
		return fmt.Sprintf("%s x (%s + %s - %s) / %s - %s", r.Axles, r.Tongue, weight, t, weight, r.Front)
	}
	switch e.By {
	case DeckFront:
		return fmt.Sprintf("%s / 2", w.Load.Length)
	case DeckRear:
		return fmt.Sprintf("%s - %s / 2", r.Length, w.Load.Length)
	case BandMost:
		return tongue(fmt.Sprintf("%s of %s", r.Most, total.Near()))
	case BandLeast:
		return tongue(fmt.Sprintf("%s of %s", r.Least, total.Near()))
	case TongueMost:
		return tongue(r.TongueMost.String())
	}
	return fmt.Sprintf("%s x (%s - %s + %s) / %s - %s", r.Axles, r.Hold.Near(), r.Empty, r.Tongue, weight, r.Front)
}

// Text says where the load may be, or why there is no place for it.
func (w Window) Text() string { return w.In(measure.American) }

// In is Text in the reader's units.
func (w Window) In(s measure.System) string {
	if w.Room {
		return s.Stretch(w.First.Behind, w.Last.Behind) + " behind the deck's front"
	}
	first, last := w.Against[0], w.Against[1]
	switch {
	case first == TheTrailer:
		return "nowhere: weigh and measure the trailer again, its figures cannot all be right"
	case first == TheOthers:
		return "nowhere: the loads already placed cannot be right"
	case first == TheLoad && last == TheLoad:
		return fmt.Sprintf("nowhere: a load of %s on %s is not a load", s.Weight(w.Load.Weight), s.Length(w.Load.Length))
	case first == TheLoad:
		return fmt.Sprintf("nowhere: %s is more than the %s that %s leaves for a load", s.Weight(w.Load.Weight), s.Limit(w.Leaves), last)
	}
	if first.ofPlace() && last.ofPlace() {
		return fmt.Sprintf("nowhere: %s is longer than the room between %s and %s", s.Length(w.Load.Length), first, last)
	}
	return fmt.Sprintf("nowhere: %s allows its center no farther forward than %s behind the deck's front, %s no farther back than %s",
		first, s.AtLeast(w.First.Behind), last, s.AtMost(w.Last.Behind))
}

// ofPlace reports whether the constraint is an end of the free deck.
func (c Constraint) ofPlace() bool { return c >= DeckFront && c <= LoadBehind }
