package oracle

import (
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

func lb(v measure.Pounds) pounds { return pounds{Value: v, Known: true} }
func in(v measure.Inches) inches { return inches{Value: v, Known: true} }

// fitting is a truck that pulls the trailer exactly, by hand: full, the trailer weighs 3,000 +
// 7,000 = 10,000 lb and puts 400 + 7,000 x (200 - 180) / 200 = 1,100 lb on the hitch. With
// 500 lb of people and gear, the truck's 1,600 lb sticker is used up.
func fitting() (compute.Towed, Truck) {
	return compute.Towed{Empty: lb(3000), GVWR: lb(10000), TongueEmpty: lb(400), Payload: lb(7000), Axles: in(200), Center: in(180),
			Kind: "bumper-pull", Ball: 2.3125, Most: 0.15},
		Truck{Kind: "receiver", GVWR: lb(7000), Sticker: lb(1600), People: lb(500), Tow: lb(10000), GCWR: lb(15900), HitchRating: lb(10000), HitchTongue: lb(1100),
			BallRating: lb(10000), BallSize: in(2.3125)}
}

// TestPullAtTheLimits: at every limit the answer is yes, a pound below it no, and without
// the number it cannot be said (ratings are inclusive; SAE J684, 49 CFR 571.110 for the
// sticker: GVWR less what the truck weighs).
func TestPullAtTheLimits(t *testing.T) {
	towed, truck := fitting()
	v := Pull(towed, truck, nil)
	if v.Is != "yes" || !strings.HasPrefix(v.Text, "YES: full, with 7,000 lb on it. The closest is the ") || !strings.Contains(strings.Join(v.Notes, " "), "weigh it with the trailer loaded") {
		t.Fatalf("%s: %q %q", v.Is, v.Text, v.Notes)
	}
	for _, c := range []struct {
		key   string
		of    func(*Truck) *pounds
		needs string // what is missing without it; empty where another number does
	}{
		{"sticker", func(k *Truck) *pounds { return &k.Sticker }, "sticker"},
		{"tow", func(k *Truck) *pounds { return &k.Tow }, ""},
		{"gcwr", func(k *Truck) *pounds { return &k.GCWR }, ""},
		{"hitch", func(k *Truck) *pounds { return &k.HitchRating }, "hitch"},
		{"tongue", func(k *Truck) *pounds { return &k.HitchTongue }, "tongue-rating"},
		{"ball", func(k *Truck) *pounds { return &k.BallRating }, "ball"},
	} {
		_, k := fitting()
		c.of(&k).Value--
		if v := Pull(towed, k, nil); v.Is != "no" || !slices.ContainsFunc(v.Limits, func(l Checked) bool { return l.Key == c.key && l.Over && l.Text == "1 lb over" }) {
			t.Errorf("%s a pound less: %s %q", c.key, v.Is, v.Text)
		}
		_, k = fitting()
		c.of(&k).Value++
		if v := Pull(towed, k, nil); v.Is != "yes" {
			t.Errorf("%s a pound more: %s %q", c.key, v.Is, v.Text)
		}
		_, k = fitting()
		*c.of(&k) = pounds{}
		v := Pull(towed, k, nil)
		if c.needs == "" && v.Is != "yes" && c.key != "gcwr" || c.needs != "" && (v.Is != "unknown" || !slices.Contains(v.Needs, c.needs)) {
			t.Errorf("without %s: %s %q", c.key, v.Is, v.Text)
		}
	}
}

// TestPullOtherAnswers: what is not a limit, each with its first words.
func TestPullOtherAnswers(t *testing.T) {
	for _, c := range []struct {
		name string
		to   func(*compute.Towed, *Truck)
		on   *On
		want string
	}{
		{"one number", func(_ *compute.Towed, k *Truck) { *k = Truck{GCWR: lb(15900)} }, nil, "CANNOT SAY YET: it needs what the truck weighs"},
		{"nothing", func(_ *compute.Towed, k *Truck) { *k = Truck{} }, nil, "CANNOT SAY YET: it needs the truck's tow rating or its GCWR"},
		{"tow rating alone is broken", func(_ *compute.Towed, k *Truck) { *k = Truck{Tow: lb(2900)} }, nil, "NO: the truck's tow rating, 7,100 lb over."},
		{"a receiver and a gooseneck", func(o *compute.Towed, _ *Truck) { o.Kind = "gooseneck" }, nil, "NO: a receiver pulls no gooseneck trailer."},
		{"a ball that nobody measured", func(_ *compute.Towed, k *Truck) { k.BallSize = inches{} }, nil, "CANNOT SAY YET: it needs the diameter of your ball. Nothing is over so far."},
		{"a head count", func(_ *compute.Towed, k *Truck) { k.People = lb(2) }, nil, "CANNOT SAY YET: the weight of people and gear, driver included, cannot be 2 lb."},
		{"a small ball", func(_ *compute.Towed, k *Truck) { k.BallSize = in(2) }, nil, "NO: the coupler takes a 2-5/16 in ball, and this one is 2 in."},
		{"not full", func(_ *compute.Towed, k *Truck) { k.Tow, k.GCWR = lb(8000), pounds{} }, nil,
			"NO: the truck's tow rating, 2,000 lb over. Not full: up to 5,000 lb of load, evenly spread."},
		// 15% of 10,000 lb is 1,500 lb: 400 lb more than the truck takes.
		{"tongue not weighed", func(o *compute.Towed, _ *Truck) { o.TongueEmpty = pounds{} }, nil, "NO: the hitch's tongue rating, 400 lb over."},
		// 12% of 10,000 lb is 1,200 lb, where an even load puts 1,100 lb: 100 lb more than the hitch
		// takes. Less of it: (3,000 + p) x 12% = 1,100 at p = 6,166.7.
		{"too little on the tongue", func(o *compute.Towed, _ *Truck) { o.Least = 0.12 }, nil,
			"NO: the hitch's tongue rating, 100 lb over. Not full: up to 6,166 lb of load, evenly spread."},
		{"just enough on the tongue", func(o *compute.Towed, _ *Truck) { o.Least = 0.11 }, nil, "YES: full"},
		{"a machine", func(_ *compute.Towed, _ *Truck) {}, &On{Load: 5000, Tongue: lb(900)}, "YES: with 5,000 lb on it. The closest is the "},
		{"scale in place of the sticker", func(_ *compute.Towed, k *Truck) { k.Sticker, k.People, k.Weight = pounds{}, pounds{}, lb(5900) }, nil, "YES: full"},
		{"a heavy truck without a sticker", func(_ *compute.Towed, k *Truck) { k.GVWR, k.Sticker = lb(10001), pounds{} }, nil, "CANNOT SAY YET: it needs the truck's weight on a scale"},
		{"only with weight distribution", func(_ *compute.Towed, k *Truck) {
			k.HitchRating, k.HitchTongue, k.HitchWD, k.TongueWD = lb(5000), lb(500), lb(10000), lb(1100)
		}, nil, "CANNOT SAY YET: it needs whether you tow with a weight-distributing hitch. Nothing is over"},
		{"with weight distribution", func(_ *compute.Towed, k *Truck) {
			k.HitchRating, k.HitchTongue, k.HitchWD, k.TongueWD, k.Distributes = lb(5000), lb(500), lb(10000), lb(1100), "yes"
		}, nil, "YES: full"},
		{"without weight distribution", func(_ *compute.Towed, k *Truck) {
			k.HitchRating, k.HitchTongue, k.HitchWD, k.TongueWD, k.Distributes = lb(5000), lb(500), lb(10000), lb(1100), "no"
		}, nil, "NO: the hitch's tongue rating, 600 lb over."},
		// Rear axle, by hand: 2,900 + 1,100 x (150 + 50) / 150 = 4,366.7 lb.
		{"rear axle over", func(_ *compute.Towed, k *Truck) {
			k.RearRating, k.RearWeight, k.Wheelbase, k.BallBehind = lb(4366), lb(2900), in(150), in(50)
		}, nil, "NO: the truck's rear axle rating, 1 lb over."},
		{"rear axle within", func(_ *compute.Towed, k *Truck) {
			k.RearRating, k.RearWeight, k.Wheelbase, k.BallBehind = lb(4367), lb(2900), in(150), in(50)
		}, nil, "YES: full"},
		{"rear tires over", func(_ *compute.Towed, k *Truck) {
			k.RearTires, k.RearWeight, k.Wheelbase, k.BallBehind = lb(4366), lb(2900), in(150), in(50)
		}, nil, "NO: what the truck's rear tires carry, 1 lb over."},
		{"no brakes", func(o *compute.Towed, k *Truck) { o.Unbraked, k.Unbraked = true, lb(9999) }, nil, "NO: the truck maker's limit for a trailer without brakes, 1 lb over."},
		{"swapped", func(_ *compute.Towed, k *Truck) { k.HitchTongue, k.HitchRating = lb(10000), lb(1100) }, nil, "CANNOT SAY YET: the hitch's tongue rating cannot be 10,000 lb"},
	} {
		towed, truck := fitting()
		c.to(&towed, &truck)
		if v := Pull(towed, truck, c.on); !strings.HasPrefix(v.Text, c.want) {
			t.Errorf("%s: %q, want %q", c.name, v.Text, c.want)
		}
	}
}

// TestCenterOffTheMiddle: the center of gravity is not the middle, and nobody knows it to
// the inch. Here every 10 in of it are 7,000 x 10 / 200 = 350 lb on the tongue, 3.5% of
// 10,000 lb: more than half of the band. The spot keeps the band whichever way the center
// is off, in whole inches.
func TestCenterOffTheMiddle(t *testing.T) {
	r := compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 10000, Hold: 12000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
	m := compute.Machine{Load: compute.Load{Weight: 7000, Length: 120}, Center: 72, Margin: 8, Narrow: 70, Wide: 70}
	// T = 300 + 7,000 (160 - b) / 200 with b the center behind the deck's front: 10% of 10,000 is
	// at b = 140, 15% at 160 - 1,200 / 35 = 125.714. Less the margin: 133.714 to 132: no room.
	s := r.Spots(m, nil)[0]
	if s.Fit != compute.Close || s.By != [2]compute.Constraint{compute.BandMost, compute.BandLeast} {
		t.Errorf("%+v", s)
	}
	// With 3 in of margin: 128.714 to 137 for the center, 56.714 to 65 for the end.
	m.Margin = 3
	if s = r.Spots(m, nil)[0]; s.Fit != compute.Fits || s.First != 57 || s.Last != 65 || s.Best() != 61 {
		t.Errorf("%+v", s)
	}
	trailer := Trailer{Rig: r, Whole: true, Deck: in(240), Towed: compute.Towed{TongueEmpty: lb(300), Room: in(1000), Payload: lb(7000)}}
	want := "YES: front of the bucket 4 ft 9 in to 5 ft 5 in behind the front of the deck, then weigh the tongue. The closest is the trailer's payload, 0 lb left."
	if v := Carry(trailer, []compute.Machine{m}, "front of the bucket", nil, measure.American); v.Text != want {
		t.Errorf("%q", v.Text)
	}
	trailer.TongueEmpty = pounds{}
	want = "CANNOT SAY YET: it needs the weight of the trailer's tongue. Nothing is over so far."
	if v := Carry(trailer, []compute.Machine{m}, "front", nil, measure.American); v.Text != want {
		t.Errorf("%q", v.Text)
	}
	m.Weight = 7001
	if v := Carry(trailer, []compute.Machine{m}, "front", nil, measure.American); v.Text != "NO: the trailer's payload, 1 lb over." {
		t.Errorf("%q", v.Text)
	}
}

// TestPullPlaced: a truck gets no yes for a load that breaks a limit of the trailer where it is.
// By hand: T = 300 + 7,000 (160 - b) / 200 with b the center behind the deck's front, and 10% of
// 10,000 lb is T at b = 140. An inch farther back takes 35 lb off the tongue.
func TestPullPlaced(t *testing.T) {
	r := compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 10000, Hold: 12000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
	m := compute.Machine{Load: compute.Load{Weight: 7000, Length: 120}, Center: 60, Narrow: 70, Wide: 70}
	for _, c := range []struct {
		name    string
		center  measure.Inches
		weighed bool
		to      func(*compute.Rig, *Truck)
		want    string
		note    string
	}{
		{"at the least of the tongue", 140, true, nil, "YES: with 7,000 lb on it.", ""},
		{"an inch behind it", 141, true, nil, "NO: too little weight on the tongue, 35 lb short.", "Move it forward first."},
		{"nobody weighed the tongue", 141, false, nil, "CANNOT SAY YET: it needs the weight of the trailer's tongue.", ""},
		// T = 300 + 7,000 x 35 / 200 = 1,525 lb, and 15% is 1,500 lb.
		{"too far forward", 125, true, nil, "NO: the most that should be on the tongue, 25 lb over.", "Move it back first."},
		{"the axles", 140, true, func(r *compute.Rig, _ *Truck) { r.Hold = 8999 }, "NO: the axles, 1 lb over.", "Move it forward first."},
		{"the coupler, wherever it is", 140, true, func(r *compute.Rig, _ *Truck) { r.Coupler = 9999 }, "NO: the coupler, 1 lb over.", ""},
		{"the coupler, and nobody weighed", 140, false, func(r *compute.Rig, _ *Truck) { r.Coupler = 9999 }, "NO: the coupler, 1 lb over.", ""},
		{"the truck is worse", 141, true, func(_ *compute.Rig, k *Truck) { k.Tow = lb(5000) }, "NO: the truck's tow rating, 5,000 lb over.", "Move it forward first."},
		{"over the rear end", 181, true, nil, "NO: the machine is longer than the deck or over an end of it.", ""},
		{"one of two over the rear end", 181, true, nil, "NO: the machines overlap, or one is over an end of the deck.", ""},
		{"a trailer that cannot be", 140, true, func(r *compute.Rig, _ *Truck) { r.GVWR = 0 }, "CANNOT SAY YET: it needs more measurements of the trailer.", ""},
	} {
		rig := r
		towed, truck := fitting()
		towed.TongueEmpty = lb(300)
		truck.HitchTongue, truck.Sticker = lb(1600), lb(2100)
		if c.to != nil {
			c.to(&rig, &truck)
		}
		stand, apart := rig.Bear([]compute.Set{{Machine: m, At: c.center - m.Center}})
		on := &On{Load: 7000, Placed: &Placed{Stand: stand, Apart: apart, Alone: !strings.HasPrefix(c.name, "one of two")}}
		if on.Tongue = lb(stand.Tongue); !c.weighed {
			on.Tongue = pounds{}
		}
		v := Pull(towed, truck, on)
		if notes := strings.Join(v.Notes, " "); !strings.HasPrefix(v.Text, c.want) || !strings.Contains(notes, c.note) || c.note == "" && strings.Contains(notes, "Move it") {
			t.Errorf("%s: %q %q, want %q", c.name, v.Text, v.Notes, c.want)
		}
	}
}

// TestPullCarried: what the trailer does not carry is the truck's no too, and what it needs is a need.
// By hand: 7,000 lb with its center at 132 in put 300 + 7,000 x 28 / 200 = 1,280 lb on the tongue,
// and an inch forward 35 lb more. At 1,200 lb the center is 134-2/7 in from the front, the end at
// 74.3: to 80 in, where 10% of 10,000 lb are on the tongue, the middle is at 77-1/2.
func TestPullCarried(t *testing.T) {
	r := compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 10000, Hold: 12000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
	m := compute.Machine{Load: compute.Load{Weight: 7000, Length: 120}, Center: 60, Narrow: 70, Wide: 70}
	for _, c := range []struct {
		name      string
		to        func(*Trailer, *Truck)
		at        measure.Inches
		want      string
		noteOfIt  string
		mustCarry string
	}{
		{"the middle, where the truck takes all", func(_ *Trailer, k *Truck) { k.HitchTongue = lb(1600) }, 73, "YES: with 7,000 lb on it.", "", "yes"},
		{"the truck's part of it", func(_ *Trailer, k *Truck) { k.HitchTongue = lb(1200) }, 78, "YES: with 7,000 lb on it.", "This place also keeps", "yes"},
		{"no part of it", func(_ *Trailer, k *Truck) { k.HitchTongue = lb(999) }, 73, "NO: the hitch's tongue rating", "No place on the deck", "yes"},
		{"ramps", func(o *Trailer, _ *Truck) { o.WayHolds, o.WayBy = lb(6999), compute.RampsHold }, 73, "NO: the rating of the ramps, 1 lb over.", "", "no"},
		{"a part of unknown length", func(o *Trailer, _ *Truck) { o.PartHolds = lb(6999) }, 73, "CANNOT SAY YET: it needs how long a part of the deck", "", "unknown"},
		{"no tongue weight", func(o *Trailer, _ *Truck) { o.TongueEmpty = pounds{} }, 73, "CANNOT SAY YET: it needs the weight of the trailer's tongue", "", "unknown"},
		{"nothing is over, and there is no room", func(o *Trailer, _ *Truck) { o.Whole = false; o.Deck = in(119) }, 73, "NO: the trailer does not carry the machine (the length of its deck, 1 in over).", "", "no"},
	} {
		towed, truck := fitting()
		towed.TongueEmpty, towed.Room = lb(300), in(1000)
		truck.HitchTongue, truck.Sticker = lb(1600), lb(2100)
		trailer := Trailer{Rig: r, Towed: towed, Whole: true, Deck: in(240)}
		c.to(&trailer, &truck)
		carried, pulled := Answer(trailer, []compute.Machine{m}, []string{"front"}, "", &truck, measure.American)
		if carried.Is != c.mustCarry || !strings.HasPrefix(pulled.Text, c.want) || !strings.Contains(strings.Join(carried.Notes, " "), c.noteOfIt) ||
			len(carried.Put) > 0 && carried.Put[0].At != c.at {
			t.Errorf("%s: %q %q %+v, %q", c.name, carried.Text, carried.Notes, carried.Put, pulled.Text)
		}
	}
}

// TestPlaceOfUnsureCenter: the best place of a machine whose center is not known well enough keeps what
// the truck may take, and is on the deck. By hand, as above: the center at 125-5/7 to 140 in keeps the
// band, and from 134-2/7 in on a truck of 1,200 lb. A center 138 in behind the machine's front is there
// with the front at -12-2/7 to 2 in.
func TestPlaceOfUnsureCenter(t *testing.T) {
	r := compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 10000, Hold: 12000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
	for _, c := range []struct {
		name                   string
		length, center, margin measure.Inches
		tongue                 measure.Pounds
		at                     measure.Inches
		want                   string
	}{
		{"the middle, where the truck takes all", 120, 60, 10, 1600, 73, "CANNOT SAY YET: it needs the place of the machine's center of gravity"},
		{"the truck's part of it", 120, 60, 10, 1200, 78, "CANNOT SAY YET: it needs the place of the machine's center of gravity"},
		{"no part of it", 120, 60, 10, 999, 73, "NO: the hitch's tongue rating"},
		{"at the front of the deck", 160, 138, 5, 1600, 0, "CANNOT SAY YET: it needs the place of the machine's center of gravity"},
	} {
		towed, truck := fitting()
		towed.TongueEmpty, towed.Room = lb(300), in(1000)
		truck.HitchTongue, truck.Sticker = lb(c.tongue), lb(2100)
		trailer := Trailer{Rig: r, Towed: towed, Whole: true, Deck: in(240)}
		m := compute.Machine{Load: compute.Load{Weight: 7000, Length: c.length}, Center: c.center, Margin: c.margin, Narrow: 70, Wide: 70}
		carried, pulled := Answer(trailer, []compute.Machine{m}, []string{"front"}, "", &truck, measure.American)
		if carried.Is != "unknown" || carried.Put[0].At != c.at || !strings.HasPrefix(pulled.Text, c.want) {
			t.Errorf("%s: %q %+v, %q", c.name, carried.Text, carried.Put, pulled.Text)
		}
	}
}

// TestCarryHeld: a machine that the ramps, or a short part of the deck, are not rated for is a no
// that names the rating, whatever else is known. A machine on 10 ft, or on twice that.
func TestCarryHeld(t *testing.T) {
	r := compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 20000, Hold: 22000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}
	machine := func(w measure.Pounds, long measure.Inches) compute.Machine {
		return compute.Machine{Load: compute.Load{Weight: w, Length: long}, Center: long.Half(), Narrow: 70, Wide: 70}
	}
	ramps := func(o *compute.Towed) { o.WayHolds, o.WayBy = lb(4000), compute.RampsHold }
	part := func(o *compute.Towed) { o.PartHolds, o.Part = lb(4000), in(120) }
	for _, c := range []struct {
		name    string
		to      func(*compute.Towed)
		list    []compute.Machine
		is, say string
	}{
		{"unrated", func(*compute.Towed) {}, []compute.Machine{machine(4001, 120)}, "yes", ""},
		{"ramps, below", ramps, []compute.Machine{machine(3999, 120)}, "yes", "The closest is the rating of the ramps, 1 lb left."},
		{"ramps, at", ramps, []compute.Machine{machine(4000, 120)}, "yes", "The closest is the rating of the ramps, 0 lb left."},
		{"ramps, above", ramps, []compute.Machine{machine(4001, 120)}, "no", "NO: the rating of the ramps, 1 lb over."},
		{"one of two above", ramps, []compute.Machine{machine(1000, 60), machine(4001, 120)}, "no", "NO: the rating of the ramps, 1 lb over."},
		{"two together above", ramps, []compute.Machine{machine(3000, 60), machine(3000, 60)}, "yes", "the rating of the ramps, 1,000 lb left."},
		{"tongue not weighed", func(o *compute.Towed) { ramps(o); o.TongueEmpty = pounds{} }, []compute.Machine{machine(4001, 120)}, "no", "NO: the rating of the ramps, 1 lb over."},
		{"payload not known", func(o *compute.Towed) { ramps(o); o.Payload = pounds{} }, []compute.Machine{machine(4001, 120)}, "no", "NO: the rating of the ramps, 1 lb over."},
		{"part, below", part, []compute.Machine{machine(3999, 120)}, "yes", "The closest is the rating of a short part of the deck, 1 lb left."},
		{"part, at", part, []compute.Machine{machine(4000, 120)}, "yes", "The closest is the rating of a short part of the deck, 0 lb left."},
		{"part, above", part, []compute.Machine{machine(4001, 120)}, "no", "NO: the rating of a short part of the deck, 1 lb over."},
		{"part, longer and at", part, []compute.Machine{machine(6000, 180)}, "yes", "The closest is the rating of a short part of the deck, 0 lb left."},
		{"part, longer and above", part, []compute.Machine{machine(6003, 180)}, "no", "NO: the rating of a short part of the deck, 2 lb over."},
		{"part, two close together", part, []compute.Machine{machine(3000, 60), machine(3000, 60)}, "unknown", "CANNOT SAY YET: it needs another order, or space between the machines. Nothing is over so far."},
		{"part of unknown length, at", func(o *compute.Towed) { o.PartHolds = lb(4000) }, []compute.Machine{machine(4000, 180)}, "yes", ""},
		{"part of unknown length, above", func(o *compute.Towed) { o.PartHolds = lb(4000) }, []compute.Machine{machine(4001, 180)}, "unknown", "CANNOT SAY YET: it needs how long a part of the deck its rating for a short part counts for. Nothing is over so far."},
	} {
		trailer := Trailer{Rig: r, Whole: true, Deck: in(240), Towed: compute.Towed{TongueEmpty: lb(300), Room: in(1000), Payload: lb(17000)}}
		c.to(&trailer.Towed)
		if v := Carry(trailer, c.list, "front", nil, measure.American); v.Is != c.is || !strings.Contains(v.Text, c.say) {
			t.Errorf("%s: %q", c.name, v.Text)
		}
	}
}
