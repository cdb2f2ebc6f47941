package oracle

import (
	"strconv"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

type (
	pounds = compute.Result[measure.Pounds]
	inches = compute.Result[measure.Inches]
)

// On is what is on the trailer. Tongue is what trailer and load put on the hitch together.
// Placed is what the trailer bears with the load where it is, nil where nobody placed it. Held is
// what the way up and a short part of the deck hold. Carried is the trailer's own verdict on the
// machines, nil where nobody asked for it: no truck gets a yes for what the trailer does not carry.
type On struct {
	Load    measure.Pounds
	Tongue  pounds
	Placed  *Placed
	Held    []compute.Margin
	Carried *Carried
}

// Placed is a Stand of compute's Bear, whether no two machines overlap and none is over an end of
// the deck, and whether there is one machine alone.
type Placed struct {
	compute.Stand
	Apart, Alone bool
}

// A Pulled verdict says whether a truck pulls a trailer.
type Pulled struct {
	Verdict
	// Most is the largest evenly spread load by every limit that is known.
	Most pounds
	// License is the federal class by weight.
	License         License
	LicenseKnown    bool
	MayBeCommercial bool
}

// puller gathers one verdict.
type puller struct {
	*Pulled
	trailer compute.Towed
	truck   Truck
	on      *On
	load    measure.Pounds
	// own is what the truck weighs, with people and gear.
	own pounds
	// On the hitch comes base, and rise of every pound of load. Where even is not nil, both an even
	// load and one at the least of the tongue's band bound the most that may be on the trailer:
	// tongue is the larger one at this load, other the smaller one, even one of the two.
	tongue
	known       bool
	other, even *tongue
	lines       []pullLine
}

// A tongue is what comes on the hitch with a load p: base + rise p.
type tongue struct {
	base measure.Pounds
	rise measure.Share
}

func (t tongue) at(p measure.Pounds) measure.Pounds { return t.base + t.rise.Of(p) }

// With a load p, base + rise p comes on a line. An unsaid line bounds only the most.
type pullLine struct {
	key    string
	rating measure.Pounds
	tongue
	unsaid bool
}

// Pull answers whether a truck pulls a trailer, full where on is nil. No as soon as one
// limit is broken; yes only if the truck's payload, its tow rating or GCWR, the kind and the
// ratings of its hitch and its ball are known. The most of the tongue's band counts where
// nobody weighed the tongue.
func Pull(t compute.Towed, truck Truck, on *On) Pulled {
	var v Pulled
	p := &puller{Pulled: &v, trailer: t, truck: truck, on: on}
	if wrong := p.contradiction(); wrong != "" {
		v.Is = "unknown"
		v.Text = phrases.English.Say("verdict", phrases.English.Say("word unknown"), wrong)
		return v
	}
	if on != nil && !(on.Load >= 0 && measure.Sensible(on.Load)) {
		v.need("machine")
		v.settle("")
		return v
	}
	p.begin()
	p.placed()
	p.towed()
	p.hitched()
	p.onAxles()
	p.settleAll()
	p.remarks()
	return v
}

func (p *puller) note(key string, blanks ...string) {
	p.Notes = append(p.Notes, phrases.English.Say("note "+key, blanks...))
}

func (p *puller) line(key string, rating, base measure.Pounds, rise measure.Share) {
	p.lines = append(p.lines, pullLine{key, rating, tongue{base, rise}, false})
}

// gross enters a limit on the whole trailer, hitch one on its tongue; more comes on top.
func (p *puller) gross(key string, rating, more measure.Pounds) {
	if p.trailer.Empty.Known {
		p.line(key, rating, p.trailer.Empty.Value+more, 1)
	}
}

func (p *puller) hitch(key string, rating, more measure.Pounds) {
	if !p.known {
		return
	}
	p.line(key, rating, p.base+more, p.rise)
	if o := p.other; o != nil {
		p.lines = append(p.lines, pullLine{key, rating, tongue{o.base + more, o.rise}, true})
	}
}

// axle enters a limit on a truck's axle that carries more, and so many times what is on the hitch.
func (p *puller) axle(key string, rating pounds, more measure.Pounds, times measure.Share) {
	if !rating.Known || !p.known {
		return
	}
	p.line(key, rating.Value, more+times.Of(p.base), p.rise.Times(times))
	if o := p.other; o != nil {
		p.lines = append(p.lines, pullLine{key, rating.Value, tongue{more + times.Of(o.base), o.rise.Times(times)}, true})
	}
}

// begin works out the load, what comes on the hitch and what the truck weighs.
func (p *puller) begin() {
	t, k := &p.trailer, &p.truck
	payload := t.Payload
	if p.on != nil {
		payload = pounds{Value: p.on.Load, Known: true}
	}
	if !payload.Known {
		p.need("payload")
	}
	if !t.Empty.Known {
		p.need("empty")
	}
	if payload.Known {
		p.load = payload.Value
	}
	switch {
	case p.on != nil && p.on.Tongue.Known:
		p.base, p.known = p.on.Tongue.Value, true
	case p.on == nil && t.TongueEmpty.Known && t.Axles.Known && t.Center.Known:
		p.base, p.known = t.TongueEmpty.Value, true
		p.rise = measure.ShareOfLength(t.Axles.Value-t.Center.Value, t.Axles.Value)
		p.atLeast()
	case t.Most > 0 && t.Empty.Known:
		p.base, p.rise, p.known = t.Most.Of(t.Empty.Value), t.Most, true
		p.note("tongue", t.Most.Near())
	default:
		p.need("tongue")
	}
	p.own = k.Weight
	if !p.own.Known && k.GVWR.Known && k.Sticker.Known && k.People.Known {
		p.own = pounds{Value: k.GVWR.Value - k.Sticker.Value + k.People.Value, Known: true}
	}
}

// atLeast counts the least of the tongue's band where a full even load puts less than that on the
// tongue: nobody may pull it like that, so more of the load goes to the front, and the truck must
// take it.
func (p *puller) atLeast() {
	t := &p.trailer
	if !(t.Least > 0) || !t.Empty.Known {
		return
	}
	even := p.tongue
	least := tongue{t.Least.Of(t.Empty.Value), t.Least}
	p.even, p.other = &even, &least
	if !measure.NotOver(least.at(p.load), even.at(p.load)) {
		p.tongue, p.other = least, &even
		p.note("least", t.Least.Near())
	}
}

// placed checks the trailer's own limits with the load where it is: a truck must not be told
// yes for a load that the trailer may not carry there. Where nobody weighed the tongue, the
// limits that rest on it decide nothing.
func (p *puller) placed() {
	if p.on == nil {
		return
	}
	p.carried()
	if p.on.Placed == nil || p.on.Placed.Keeps {
		return
	}
	s, broken, move := p.on.Placed, false, ""
	for _, m := range s.Margins {
		if !m.Over {
			continue
		}
		broken = true
		if rests := m.By <= compute.WheelHold; rests && !p.on.Tongue.Known {
			p.need("tongue")
			continue
		} else if rests && move == "" {
			move = "move back"
			if m.By != compute.BandMost && m.By != compute.TongueMost {
				move = "move forward"
			}
		}
		p.broken(m)
	}
	switch {
	case !s.Apart && s.Alone:
		p.clash = phrases.English.Say("clash end")
	case !s.Apart:
		p.clash = phrases.English.Say("clash apart")
	case !broken:
		p.need("trailer")
	case move != "":
		p.note(move)
	}
}

// carried checks what the way up and a short part of the deck hold, and takes over what the
// trailer's own verdict needs.
func (p *puller) carried() {
	for _, m := range p.on.Held {
		switch {
		case !m.Over:
		case m.By == compute.PartHold && !p.trailer.Part.Known:
			p.need("part")
		default:
			p.broken(m)
		}
	}
	if p.on.Carried == nil {
		return
	}
	for _, n := range p.on.Carried.Needs {
		p.need(n)
	}
}

// broken enters a broken limit of the trailer.
func (p *puller) broken(m compute.Margin) {
	c := Checked{Key: "by" + strconv.Itoa(int(m.By)), Label: m.By.String(), Rating: float64(m.Limit), Used: float64(m.Used), Over: true,
		Part: 1e9, Text: m.In(p.truck.In)}
	worst, least := c.Used, c.Rating
	if m.By == compute.BandLeast {
		c.Label = phrases.English.Say("limit light")
		worst, least = least, worst
	}
	if least > 0 {
		c.Part = worst / least
	}
	p.Limits = append(p.Limits, c)
}

// towed checks the trailer's own payload and what the truck's maker lets it tow.
func (p *puller) towed() {
	k := &p.truck
	if p.on != nil && p.trailer.Payload.Known {
		p.line("trailer", p.trailer.Payload.Value, 0, 1)
	}
	if k.Tow.Known {
		p.gross("tow", k.Tow.Value, 0)
	}
	if k.GCWR.Known {
		p.gross("gcwr", k.GCWR.Value, orZero(p.own))
	}
	whole := k.GCWR.Known && p.own.Known
	switch {
	case whole:
	case k.Tow.Known:
		p.note("tow")
	case k.GCWR.Known:
		p.need("weight")
	default:
		p.need("tow")
	}
}

func orZero(r pounds) measure.Pounds {
	if !r.Known {
		return 0
	}
	return r.Value
}

// hitched checks the hitch and the ball.
func (p *puller) hitched() {
	t, k := &p.trailer, &p.truck
	needs := t.Kind
	if needs == "bumper-pull" {
		needs = "receiver"
	}
	switch {
	case k.Kind == "":
		p.need("kind")
	case p.clash == "" && needs != "" && k.Kind != needs:
		p.clash = phrases.English.Say("clash kind", phrases.English.Say("kind "+k.Kind), phrases.English.Say("trailer "+t.Kind))
	}
	p.rated("hitch", "hitch", k.HitchRating, k.HitchWD, t.Empty.Known, t.Empty.Value, 1, p.gross)
	p.rated("tongue", "tongue-rating", k.HitchTongue, k.TongueWD, p.known, p.base, p.rise, p.hitch)
	if !t.NoBall {
		if k.BallRating.Known {
			p.gross("ball", k.BallRating.Value, 0)
		} else {
			p.need("ball")
		}
		if s := k.BallSize; !s.Known && t.Ball > 0 {
			p.need("size")
		} else if s.Known && t.Ball > 0 && p.clash == "" && max(s.Value-t.Ball, t.Ball-s.Value) > 0.02 {
			p.clash = phrases.English.Say("clash ball", t.Ball.String(), s.Value.String())
		}
	}
	p.unbraked()
	even := p.tongue
	if p.even != nil {
		even = *p.even
	}
	if p.known && (even.rise < 0 || even.base < 0) {
		p.line("lift", 0, -even.base, -even.rise)
	}
}

// unbraked checks a trailer without brakes. The federal rule is for commercial use; states have rules
// of their own, so that what it forbids is not a yes for anybody.
func (p *puller) unbraked() {
	t, k, in := &p.trailer, &p.truck, p.truck.In
	if !t.Unbraked {
		return
	}
	if k.Unbraked.Known {
		p.gross("unbraked", k.Unbraked.Value, 0)
	} else {
		p.need("unbraked")
	}
	switch tongue := p.at(p.load); {
	case t.GVWR.Known && t.GVWR.Value > compute.UnbrakedMost:
		p.need("state")
		p.note("unbraked")
	case p.known && t.Empty.Known && p.own.Known:
		axles, under := t.Empty.Value+p.load-tongue, p.own.Value+tongue
		if truck := compute.UnbrakedTruck(axles); !measure.NotOver(truck, under) {
			p.need("state")
			p.note("share", in.Load(axles), in.Limit(under), in.Load(truck))
		}
	}
}

// rated enters a rating of the hitch: the one without weight distribution, or where the
// truck tows with it, the other. Where only the other suffices and nobody said, that decides.
func (p *puller) rated(key, lacks string, plain, spread pounds, known bool, base measure.Pounds, rise measure.Share, enter func(key string, rating, more measure.Pounds)) {
	with, without := p.truck.distributes()
	over := plain.Known && known && !measure.NotOver(base+rise.Of(p.load), plain.Value)
	switch {
	case spread.Known && !without && (with || !plain.Known || over):
		if !with {
			p.need("wd")
		}
		enter(key+"WD", spread.Value, 0)
	case with && !spread.Known && over:
		p.need(key + "WD")
	case !plain.Known:
		p.need(lacks)
	default:
		enter(key, plain.Value, 0)
	}
}

// onAxles checks the truck's own payload and axles.
func (p *puller) onAxles() {
	k := &p.truck
	scaled := k.GVWR.Known && k.Weight.Known
	if scaled {
		p.hitch("gvwr", k.GVWR.Value, k.Weight.Value)
	}
	if k.Sticker.Known && (k.People.Known || !scaled) {
		p.hitch("sticker", k.Sticker.Value, orZero(k.People))
	}
	switch {
	case scaled, k.Sticker.Known && k.People.Known:
	case k.Sticker.Known:
		p.need("people")
	case k.Weight.Known:
		p.need("gvwr")
	case k.GVWR.Known && k.GVWR.Value > 10_000:
		p.need("scale") // 571.110 asks for the sticker up to 10,000 lb
	default:
		p.need("sticker")
	}
	p.rear()
}

// rear checks the truck's axles: a beam on two supports with the tongue behind the rear one.
func (p *puller) rear() {
	k := &p.truck
	levered := k.levered()
	lever := measure.Share(0)
	if levered {
		lever = measure.ShareOfLength(k.BallBehind.Value, k.Wheelbase.Value)
	}
	back, carried := k.rearShare()
	if carried {
		p.axle("rear", k.RearRating, k.RearWeight.Value, back)
		p.axle("tires", k.RearTires, k.RearWeight.Value, back)
	}
	switch {
	case !carried || !k.RearRating.Known:
		p.note("rear")
	case !levered:
		p.note("overhang")
	}
	if k.Weight.Known && k.RearWeight.Known && levered {
		p.axle("front", k.FrontRating, k.Weight.Value-k.RearWeight.Value, -lever)
	}
}

// settleAll judges the lines at the load and finds the most.
func (p *puller) settleAll() {
	in := p.truck.In
	for _, l := range p.lines {
		if !l.unsaid {
			p.check(l.key, phrases.English.Say("limit "+l.key), float64(l.rating), float64(l.at(p.load)), heavy(in))
		}
		most, free := measure.Pounds(0), false
		switch {
		case l.base > l.rating:
		case l.rise > 0:
			most = measure.Pounds(float64(l.rating-l.base) / float64(l.rise))
		default:
			free = true
		}
		if !free && (!p.Most.Known || most < p.Most.Value) {
			p.Most = pounds{Value: most, Known: true}
		}
	}
	if p.Most.Known && p.trailer.Payload.Known {
		p.Most.Value = min(p.Most.Value, p.trailer.Payload.Value)
	}
	p.uncarried()
	if p.clash != "" {
		p.Most = pounds{}
	}
	form := "pulls it full"
	if p.on != nil {
		form = "pulls it"
	}
	p.settle(phrases.English.Say(form, in.Limit(p.load)))
	if p.Is == "no" && p.on == nil && p.Most.Known && p.Most.Value >= 1 {
		form = "not full"
		if len(p.Needs) > 0 {
			form = "not full so far"
		}
		p.Text += " " + phrases.English.Say(form, in.Limit(p.Most.Value))
	}
}

// uncarried makes the trailer's no for the machines the truck's too.
func (p *puller) uncarried() {
	if p.on == nil || p.on.Carried == nil || p.on.Carried.Is != "no" || p.clash != "" || p.over() != nil {
		return
	}
	why := p.on.Carried.clash
	if why == "" {
		l := p.on.Carried.over()
		why = l.Label + ", " + l.Text
	}
	p.clash = phrases.English.Say("clash carried", why)
}

// remarks are what the buyer should know, and the license.
func (p *puller) remarks() {
	t, k, in := &p.trailer, &p.truck, p.truck.In
	if p.load > 0 {
		p.note(map[bool]string{true: "counts", false: "counts-full"}[p.on != nil], in.Limit(p.load))
	}
	if s := t.SurgeTruck; s.Known && k.GVWR.Known && k.GVWR.Value < s.Value {
		p.note("surge", in.Load(s.Value), in.Weight(k.GVWR.Value))
	}
	if k.Wheelbase.Known && k.BallBehind.Known && p.known {
		front, _ := AxleEffects(p.at(p.load), k.Wheelbase.Value, k.BallBehind.Value)
		switch {
		case front < 0:
			p.note("loses", in.Load(-front))
		case front > 0:
			p.note("gains", in.Load(front))
		}
		if k.Weight.Known && k.RearWeight.Known && k.Weight.Value-k.RearWeight.Value+front < 0 {
			p.note("lifts")
		}
	}
	p.license()
}

// license works out the federal class. The sums only grow with the values that are not
// known yet, so a Class A found is certain even where a rating is missing.
func (p *puller) license() {
	t, k := &p.trailer, &p.truck
	pulls := Vehicle{Rating: orZero(k.GVWR), Actual: orZero(p.own)}
	towed := Vehicle{Rating: orZero(t.GVWR)}
	if t.Empty.Known {
		towed.Actual = t.Empty.Value + p.load
	}
	var label measure.Pounds
	if k.GCWROnLabel {
		label = orZero(k.GCWR)
	}
	p.License = LicenseClass(pulls, label, towed)
	p.LicenseKnown = p.License == ClassA || k.GVWR.Known && t.GVWR.Known
	p.MayBeCommercial = MayBeCommercial(pulls, label, towed)
	switch {
	case p.LicenseKnown:
		all, behind := combined(pulls, label, []Vehicle{towed})
		p.note("license-"+strconv.Itoa(int(p.License)), k.In.Load(pulls.Counts()), k.In.Load(behind), k.In.Load(all))
	case !k.GVWR.Known:
		p.note("license-truck")
	default:
		p.note("license-trailer")
	}
}

// leastPeople is the least that a driver weighs who counts the people in pounds and not in heads.
// Common practice, no source.
const leastPeople = 75

// contradiction says which of the measures cannot be, alone or together, or "" if all can.
func (p *puller) contradiction() string {
	t, k, in := &p.trailer, &p.truck, p.truck.In
	for _, c := range []struct {
		key string
		pounds
		least measure.Pounds
	}{
		{"empty", t.Empty, 1}, {"trailer", t.GVWR, 1}, {"payload", t.Payload, 0}, {"surge", t.SurgeTruck, 0},
		{"gvwr", k.GVWR, 1}, {"sticker", k.Sticker, 1}, {"people", k.People, leastPeople}, {"tow", k.Tow, 1}, {"gcwr", k.GCWR, 1},
		{"hitch", k.HitchRating, 1}, {"tongue", k.HitchTongue, 1}, {"ball", k.BallRating, 1}, {"hitchWD", k.HitchWD, 1}, {"tongueWD", k.TongueWD, 1},
		{"rear", k.RearRating, 1}, {"weight", k.Weight, 1}, {"rearWeight", k.RearWeight, 0}, {"tires", k.RearTires, 1}, {"unbraked", k.Unbraked, 1},
		{"front", k.FrontRating, 1},
	} {
		if c.Known && !(c.Value >= c.least && measure.Sensible(c.Value)) {
			return phrases.English.Say("wrong value", phrases.English.Say("name "+c.key), in.Weight(c.Value))
		}
	}
	for _, c := range []struct {
		key string
		inches
		least measure.Inches
	}{{"axles", t.Axles, 1}, {"center", t.Center, 0}, {"base", k.Wheelbase, 1}} {
		if c.Known && !(c.Value >= c.least && measure.Sensible(c.Value)) {
			return phrases.English.Say("wrong value", phrases.English.Say("name "+c.key), in.Length(c.Value))
		}
	}
	return p.disagreement()
}

// disagreement says which of the measures contradict each other, or "" if none do.
func (p *puller) disagreement() string {
	t, k, in := &p.trailer, &p.truck, p.truck.In
	if w := t.TongueEmpty; w.Known && !measure.Sensible(w.Value) {
		return phrases.English.Say("wrong value", phrases.English.Say("name tongue-empty"), in.Weight(w.Value))
	} else if w.Known && t.Empty.Known && max(w.Value, -w.Value) > t.Empty.Value {
		return phrases.English.Say("wrong tongue", in.Weight(w.Value), in.Weight(t.Empty.Value))
	}
	for _, c := range []struct {
		key         string
		less, limit pounds
		same        bool // a part may be all of it
	}{
		{"rear", k.RearWeight, k.Weight, true}, {"sticker", k.Sticker, k.GVWR, false}, {"gcwr", k.GVWR, k.GCWR, true},
		{"hitch", k.HitchTongue, k.HitchRating, true}, {"hitch", k.TongueWD, k.HitchWD, true},
	} {
		if !c.less.Known || !c.limit.Known || c.less.Value < c.limit.Value || c.same && c.less.Value == c.limit.Value {
			continue
		}
		if c.key == "gcwr" {
			return phrases.English.Say("wrong gcwr", in.Weight(c.limit.Value), in.Weight(c.less.Value))
		}
		return phrases.English.Say("wrong "+c.key, in.Weight(c.less.Value), in.Weight(c.limit.Value))
	}
	switch b := k.BallBehind; {
	case b.Known && !measure.Sensible(b.Value):
		return phrases.English.Say("wrong value", phrases.English.Say("name behind"), in.Length(b.Value))
	case b.Known && k.Wheelbase.Known && k.Wheelbase.Value+b.Value <= 0:
		return phrases.English.Say("wrong behind", in.Length(-b.Value), in.Length(k.Wheelbase.Value))
	}
	return ""
}
