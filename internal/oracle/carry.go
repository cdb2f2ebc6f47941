package oracle

import (
	"slices"
	"strconv"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
	"tarepage/internal/phrases"
)

// A Trailer is a trailer as the page of its unit knows it. Whole reports that the rig lacks
// nothing, with a tongue that may be estimated; Deck is the length of its deck.
type Trailer struct {
	compute.Rig
	compute.Towed
	Whole bool
	Deck  compute.Result[measure.Inches]
}

// A Carried verdict says whether a trailer carries machines, and where.
type Carried struct {
	Verdict
	Spots []compute.Spot
	Sets  []compute.Set
	Best  compute.Stand
	// Put is Sets, or where no place is known to be good, the machines in the middle of the
	// deck. All is what they weigh, 0 where the verdict knows no machines.
	Put []compute.Set
	All measure.Pounds
}

// Carry answers whether the trailer carries the machines, close together from front to
// rear; head is what people call the leading end of the first. Where the tongue was not
// weighed the answer is never YES, and NO comes only from what does not rest on it. The best
// place keeps what is known of the truck too, where there is such a place; truck may be nil.
func Carry(t Trailer, list []compute.Machine, head string, truck *Truck, in measure.System) Carried {
	var v Carried
	for _, m := range list {
		if !(m.Weight >= 1 && m.Length > 0 && measure.Sensible(m.Weight) && measure.Sensible(m.Length)) {
			list = nil
			break
		}
	}
	if len(list) == 0 {
		v.need("machine")
		v.settle("")
		return v
	}
	if t.NoMachines {
		v.clash = phrases.English.Say("clash space")
		v.settle("")
		return v
	}
	all := together(list)
	v.All = all.Weight
	pounds := heavy(in)
	if p := t.Payload; p.Known {
		v.check("payload", phrases.English.Say("limit payload"), float64(p.Value), float64(all.Weight), pounds)
	}
	if t.Deck.Known {
		v.check("deck", phrases.English.Say("limit deck"), float64(t.Deck.Value), float64(all.Length), lengths(in))
	}
	v.held(t, list, pounds)
	v.wide(t, list, in)
	v.high(t.Floor, list, in)
	v.entry(t, list, in)
	if !t.Payload.Known {
		v.need("payload")
	}
	if !t.TongueEmpty.Known {
		v.need("tongue")
	}
	yes := ""
	if t.Whole {
		yes = v.place(t, all, list, head, truck, in)
	} else {
		v.need("trailer")
	}
	if drags := slices.ContainsFunc(list, func(m compute.Machine) bool { return m.Drags }); drags && v.clash == "" {
		v.clash = phrases.English.Say("clash drags")
	}
	v.settle(yes)
	return v
}

// held checks the machines, close together, against the ratings of the way up and of a short part
// of the deck. What one of them alone breaks is a no. What only all of them together break can
// still be kept with space between them.
func (v *Carried) held(t Trailer, list []compute.Machine, pounds func(float64, bool) string) {
	row := inRow(list, 0)
	for i, m := range t.Held(row) {
		if m.By == compute.PartHold && !t.Part.Known {
			if m.Over {
				v.need("part")
			}
			continue
		}
		var alone measure.Pounds
		for k := range row {
			alone = max(alone, t.Held(row[k : k+1])[i].Used)
		}
		v.check(byKey(m.By), m.By.String(), float64(m.Limit), float64(alone), pounds)
		if m.Over && measure.NotOver(alone, m.Limit) {
			v.need("order")
		}
	}
}

// wide checks how wide each machine is. A class of machines that may be narrower or wider than the
// trailer takes is neither a yes nor a no.
func (v *Carried) wide(t Trailer, list []compute.Machine, in measure.System) {
	if !t.Room.Known {
		v.need("room")
		return
	}
	room, most := t.Room.Value, measure.Inches(0)
	for _, m := range list {
		if m.Wide > 0 && (measure.NotOver(m.Wide, room) || !measure.NotOver(m.Narrow, room)) {
			most = max(most, m.Narrow)
			if measure.NotOver(m.Wide, room) {
				most = max(most, m.Wide)
			}
			continue
		}
		v.need("width")
	}
	if most > 0 {
		v.check("width", phrases.English.Say("limit width"), float64(room), float64(most), lengths(in))
	}
	if slices.Contains(v.Needs, "width") {
		v.Notes = append(v.Notes, phrases.English.Say("note width", in.AtMost(room)))
	}
}

// highest is what many states allow a load to be above the ground, 13 ft 6 in; others allow up to
// 14 ft 6 in, and no federal rule sets it (Federal Highway Administration, Federal Size Regulations
// for Commercial Motor Vehicles).
const highest = measure.Inches(162)

// high says how high the machines are on the floor. A load above what many states allow is not a
// yes.
func (v *Carried) high(floor inches, list []compute.Machine, in measure.System) {
	tall := measure.Inches(0)
	for _, m := range list {
		tall = max(tall, m.Tall)
	}
	if !(tall > 0) || !floor.Known || !(floor.Value > 0) {
		return
	}
	if !measure.NotOver(floor.Value+tall, highest) {
		v.need("top")
	}
	v.Notes = append(v.Notes, phrases.English.Say("note top", in.AtLeast(floor.Value+tall)))
}

// entry checks how the machines get on, and under the roof.
func (v *Carried) entry(t Trailer, list []compute.Machine, in measure.System) {
	most := measure.Inches(0)
	for _, m := range list {
		if t.NoWay && !m.Lifted {
			v.need("way")
		}
		if t.Closed && !(m.Tall > 0) {
			v.need("tall")
		}
		most = max(most, m.Tall)
	}
	switch {
	case !t.Closed:
	case !t.Inside.Known || !(t.Inside.Value > 0):
		v.need("inside")
	case most > 0:
		v.check("inside", phrases.English.Say("limit inside"), float64(t.Inside.Value), float64(most), lengths(in))
	}
}

// inRow is the machines close together, the first with its leading end at x.
func inRow(list []compute.Machine, x measure.Inches) (out []compute.Set) {
	for _, m := range list {
		out = append(out, compute.Set{Machine: m, At: x})
		x += m.Length
	}
	return out
}

func byKey(c compute.Constraint) string { return "by" + strconv.Itoa(int(c)) }

// place finds the spot of the machines and checks the trailer with them there.
func (v *Carried) place(t Trailer, all compute.Machine, list []compute.Machine, head string, truck *Truck, in measure.System) string {
	v.Spots = t.Spots(all, nil)
	if truck != nil {
		v.behind(t, all, *truck, in)
	}
	s := v.Spots[0]
	v.Put = inRow(list, s.Best())
	if s.Fit == compute.NoSpot {
		v.Put = inRow(list, max(t.Length-all.Length, 0).Half())
	}
	deck := phrases.English.Say("space deck")
	switch s.Fit {
	case compute.Fits:
		v.Sets = v.Put
		v.Best, _ = t.Bear(v.Sets)
		for _, m := range v.Best.Margins {
			if m.By >= compute.TongueMost {
				v.check(byKey(m.By), m.By.String(), float64(m.Limit), float64(m.Used), heavy(in))
			}
		}
		return SpotText(s, all.Length, head, deck, in)
	case compute.Close:
		v.need("center")
		return ""
	}
	over := false
	for _, c := range v.Limits {
		over = over || c.Over
	}
	switch {
	case over || !t.TongueEmpty.Known:
	case len(list) > 1:
		v.need("order")
	default:
		v.clash = SpotText(s, all.Length, head, deck, in)
	}
	return ""
}

// behind narrows the spots to those that keep what may come on the truck's hitch, as surely as the
// trailer's own limits, or says that there are none.
func (v *Carried) behind(t Trailer, all compute.Machine, truck Truck, in measure.System) {
	p := &puller{trailer: t.Towed, truck: truck}
	most := truck.tongueMost()
	if v.Spots[0].Fit == compute.NoSpot || p.contradiction() != "" || !most.Known || t.TongueMost > 0 && t.TongueMost <= most.Value {
		return
	}
	if most.Value > 0 {
		r := t.Rig
		r.TongueMost = most.Value
		if s := r.Spots(all, nil); s[0].Fit == v.Spots[0].Fit {
			v.Spots = s
			if s[0].Fit == compute.Fits {
				v.Notes = append(v.Notes, phrases.English.Say("note truck place"))
			}
			return
		}
	}
	v.Notes = append(v.Notes, phrases.English.Say("note truck nowhere", in.Limit(max(most.Value, 0))))
}

// heavy writes a weight as a load or as a limit.
func heavy(in measure.System) func(float64, bool) string {
	return func(v float64, asLoad bool) string {
		if asLoad {
			return in.Load(measure.Pounds(v))
		}
		return in.Limit(measure.Pounds(v))
	}
}

// SpotText says where the leading end of a machine may be, or why there is no place for it.
func SpotText(s compute.Spot, length measure.Inches, head, space string, in measure.System) string {
	switch {
	case s.Fit == compute.Fits:
		return phrases.English.Say("spot", head, in.Whole(s.From, s.To), space)
	case s.Fit == compute.Close:
		return phrases.English.Say("spot close", head, in.Stretch(s.Loose[0], s.Loose[1]), space)
	case s.By[0] >= compute.NoLoad:
		return s.Window.In(in)
	case s.By[0] <= compute.LoadBehind && s.By[1] <= compute.LoadBehind:
		return phrases.English.Say("spot long", in.Length(length), s.By[0].String(), s.By[1].String())
	}
	return phrases.English.Say("spot none", s.By[0].String(), head, in.AtLeast(s.Loose[0]), s.By[1].String(), in.AtMost(s.Loose[1]), space)
}

// together is several machines in a row, front to rear and close together, as one.
func together(list []compute.Machine) compute.Machine {
	var all compute.Machine
	var about, off measure.PoundInches
	for _, m := range list {
		about += measure.Moment(m.Weight, all.Length+m.Center)
		off += measure.Moment(m.Weight, m.Margin)
		all.Weight += m.Weight
		all.Length += m.Length
	}
	all.Center, all.Margin = measure.ArmOf(about, all.Weight), measure.ArmOf(off, all.Weight)
	return all
}
