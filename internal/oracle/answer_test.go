package oracle

import (
	"math"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// roomy is a trailer by hand: T = 300 + 7,000 (160 - b) / 200 with b the center of 7,000 lb behind
// the deck's front.
func roomy() Trailer {
	towed, _ := fitting()
	towed.TongueEmpty, towed.Room = lb(300), in(1000)
	return Trailer{Towed: towed, Whole: true, Deck: in(240),
		Rig: compute.Rig{Empty: 3000, Tongue: 300, Axles: 200, Front: 40, Length: 240, GVWR: 10000, Hold: 12000, HoldBy: compute.AxleHold, Least: 0.10, Most: 0.15}}
}

// strong is a truck that takes whatever roomy puts on it.
func strong() Truck {
	_, k := fitting()
	k.HitchTongue, k.Sticker = lb(1600), lb(2100)
	return k
}

func oblong(w measure.Pounds, long measure.Inches) compute.Machine {
	return compute.Machine{Load: compute.Load{Weight: w, Length: long}, Center: long.Half(), Narrow: 70, Wide: 70}
}

// TestAnswer: which of the two verdicts there are, and what a doubt does to them.
func TestAnswer(t *testing.T) {
	truck := strong()
	if c, p := Answer(roomy(), nil, nil, "", nil, measure.American); c != nil || p != nil {
		t.Errorf("nothing brought: %v, %v", c, p)
	}
	if c, p := Answer(roomy(), nil, nil, "", &truck, measure.American); c != nil || p == nil || !strings.HasPrefix(p.Text, "YES: full, with 7,000 lb on it.") {
		t.Errorf("a truck alone: %v, %v", c, p)
	}
	list := []compute.Machine{oblong(7000, 120)}
	if c, p := Answer(roomy(), list, []string{"front"}, "", nil, measure.American); p != nil || c == nil || c.Is != "yes" {
		t.Errorf("a machine alone: %v, %v", c, p)
	}
	c, p := Answer(roomy(), list, []string{"front"}, "is it really 7,000 lb", &truck, measure.American)
	for _, text := range []string{c.Text, p.Text} {
		if text != "CANNOT SAY YET: is it really 7,000 lb." {
			t.Errorf("a doubtful machine: %q", text)
		}
	}
	weak := strong()
	weak.Tow = lb(5000)
	if _, p = Answer(roomy(), list, []string{"front"}, "is it really 7,000 lb", &weak, measure.American); p.Is != "no" {
		t.Errorf("a doubtful machine and a broken limit: %q", p.Text)
	}
	// A machine without a weight leaves the truck's own answer for the full trailer.
	if _, p = Answer(roomy(), []compute.Machine{oblong(0, 120)}, []string{"front"}, "", &truck, measure.American); !strings.HasPrefix(p.Text, "YES: full") {
		t.Errorf("a machine without a weight: %q", p.Text)
	}
}

// TestAnswerTurned: two machines that fill the deck, with their centers 60 and 180 in from its front end,
// so that a pound of the first puts 100/200 lb on the tongue and one of the second takes 20/200 lb off.
// By hand: 3,000 lb in front of 4,500 lb leave 300 + 1,500 - 450 = 1,350 lb of 10,500 lb, which is in the
// band of 10 to 15%. 4,500 lb in front of 3,000 lb leave 300 + 2,250 - 300 = 2,250 lb, which is not.
// 1,000 and 6,000 lb leave 200 lb, or 3,200 lb. Three of 80 in have their centers 40, 120 and 200 in from
// the front end and put 120/200, 40/200 and -40/200 of their weight on the tongue: with 4,000, 2,500 and
// 1,000 lb on board the first order that fits is 2,500, 1,000, 4,000, which leaves
// 300 + 1,500 + 200 - 800 = 1,200 lb of 10,500; the three before it leave 3,000, 2,400 and 2,400 lb.
func TestAnswerTurned(t *testing.T) {
	trailer := roomy()
	trailer.Towed.GVWR, trailer.Rig.GVWR, trailer.Payload, trailer.Hold = lb(11000), 11000, lb(8000), 13000
	heads := []string{"bucket", "blade", "hook"}
	for _, c := range []struct {
		name string
		list []compute.Machine
		is   string
		head string
	}{
		{"as they are", []compute.Machine{oblong(3000, 120), oblong(4500, 120)}, "yes", "bucket"},
		{"only turned around", []compute.Machine{oblong(4500, 120), oblong(3000, 120)}, "yes", "blade"},
		{"three, in the fourth order", []compute.Machine{oblong(4000, 80), oblong(2500, 80), oblong(1000, 80)}, "yes", "blade"},
		{"neither way", []compute.Machine{oblong(1000, 120), oblong(6000, 120)}, "unknown", ""},
	} {
		list := slices.Clone(c.list)
		v, _ := Answer(trailer, list, heads, "", nil, measure.American)
		if v.Is != c.is || !strings.Contains(v.Text, c.head) || !slices.Equal(list, c.list) || heads[0] != "bucket" {
			t.Errorf("%s: %q", c.name, v.Text)
		}
	}
}

// TestSpotText: what a spot says, or why there is none, in whole inches.
func TestSpotText(t *testing.T) {
	for _, c := range []struct {
		name string
		spot compute.Spot
		want string
	}{
		{"a stretch", compute.Spot{Fit: compute.Fits, From: 12, To: 30}, "1 ft to 2 ft 6 in"},
		{"too long", compute.Spot{Fit: compute.NoSpot, By: [2]compute.Constraint{compute.LoadAhead, compute.LoadBehind}}, "20 ft"},
		{"two limits", compute.Spot{Fit: compute.NoSpot, By: [2]compute.Constraint{compute.BandLeast, compute.AxleHold}, Loose: [2]measure.Inches{36, 24}}, "3 ft"},
	} {
		if got := SpotText(c.spot, 240, "bucket", "deck", measure.American); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q", c.name, got)
		}
	}
	long := SpotText(compute.Spot{Fit: compute.NoSpot, By: [2]compute.Constraint{compute.LoadAhead, compute.AxleHold}, Loose: [2]measure.Inches{36, 24}}, 240, "bucket", "deck", measure.American)
	if strings.Contains(long, "20 ft") || !strings.Contains(long, "bucket") {
		t.Errorf("an end of the deck and a limit: %q", long)
	}
}

// TestTongueMost: each bound of what may come on the truck's hitch, by hand.
func TestTongueMost(t *testing.T) {
	for _, c := range []struct {
		name  string
		truck Truck
		want  pounds
	}{
		{"nothing known", Truck{}, pounds{}},
		{"the hitch", Truck{HitchTongue: lb(500)}, lb(500)},
		{"with weight distribution", Truck{HitchTongue: lb(500), TongueWD: lb(800), Distributes: "yes"}, lb(800)},
		{"nobody said", Truck{HitchTongue: lb(500), TongueWD: lb(800)}, lb(500)},
		{"nobody said, one rating", Truck{TongueWD: lb(800)}, lb(800)},
		{"without", Truck{TongueWD: lb(800), Distributes: "no"}, pounds{}},
		{"with, and no rating for that", Truck{HitchTongue: lb(500), Distributes: "yes"}, lb(500)},
		{"a gooseneck distributes nothing", Truck{HitchTongue: lb(500), TongueWD: lb(800), Distributes: "yes", Kind: "gooseneck"}, lb(500)},
		{"the scale", Truck{HitchTongue: lb(5000), GVWR: lb(10000), Weight: lb(7200)}, lb(2800)},
		{"the sticker", Truck{Sticker: lb(1500), People: lb(400)}, lb(1100)},
		{"the sticker alone", Truck{Sticker: lb(1500)}, lb(1500)},
		{"the scale, not a sticker without people", Truck{Sticker: lb(1500), GVWR: lb(10000), Weight: lb(7200)}, lb(2800)},
		// The ball is 50 in behind the axle: of every pound 200/150 come on it.
		{"the rear axle", Truck{RearRating: lb(6000), RearWeight: lb(4000), Wheelbase: in(150), BallBehind: in(50)}, lb(1500)},
		{"the rear tires", Truck{RearRating: lb(6000), RearTires: lb(5600), RearWeight: lb(4000), Wheelbase: in(150), BallBehind: in(50)}, lb(1200)},
		{"the rear axle, nobody measured", Truck{Kind: "receiver", RearRating: lb(6000), RearWeight: lb(4000)}, lb(2000)},
		{"the rear axle of a gooseneck, nobody measured", Truck{Kind: "gooseneck", RearRating: lb(6000), RearWeight: lb(4000)}, pounds{}},
		// The ball is 15 in ahead of the axle: of every pound 15/150 come on the front axle, which has 300 lb left.
		{"the front axle", Truck{Kind: "gooseneck", FrontRating: lb(4300), Weight: lb(7000), RearWeight: lb(3000), Wheelbase: in(150), BallBehind: in(-15)}, lb(3000)},
		{"the front axle, a ball over the rear one", Truck{Kind: "gooseneck", FrontRating: lb(4300), Weight: lb(7000), RearWeight: lb(3000), Wheelbase: in(150), BallBehind: in(0)}, pounds{}},
		{"the front axle, a ball behind the rear one", Truck{FrontRating: lb(4300), Weight: lb(7000), RearWeight: lb(3000), Wheelbase: in(150), BallBehind: in(50)}, pounds{}},
		{"the front axle without the rear weight", Truck{Kind: "gooseneck", FrontRating: lb(4300), Weight: lb(7000), Wheelbase: in(150), BallBehind: in(-15)}, pounds{}},
		{"the front axle without the whole weight", Truck{Kind: "gooseneck", FrontRating: lb(4300), RearWeight: lb(3000), Wheelbase: in(150), BallBehind: in(-15)}, pounds{}},
		{"the front axle without its rating", Truck{Kind: "gooseneck", Weight: lb(7000), RearWeight: lb(3000), Wheelbase: in(150), BallBehind: in(-15)}, pounds{}},
	} {
		if got := c.truck.tongueMost(); got.Known != c.want.Known || math.Abs(float64(got.Value-c.want.Value)) > 1e-6 {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestRatedWithWeightDistribution: which of the two ratings of a receiver counts, and what is asked
// for. The trailer weighs 10,000 lb full and puts 1,100 lb on the hitch.
func TestRatedWithWeightDistribution(t *testing.T) {
	for _, c := range []struct {
		name string
		to   func(*Truck)
		want string
	}{
		{"with, and a rating for that", func(k *Truck) {
			k.Distributes, k.HitchRating, k.HitchWD, k.TongueWD = "yes", lb(5000), lb(10000), lb(1100)
		}, "yes"},
		{"with, a pound less", func(k *Truck) { k.Distributes, k.HitchRating, k.HitchWD = "yes", lb(5000), lb(9999) }, "no"},
		{"nobody said, and only the other suffices", func(k *Truck) { k.HitchRating, k.HitchWD = lb(9999), lb(12000) }, "needs wd"},
		{"nobody said, and the plain one suffices", func(k *Truck) { k.HitchWD = lb(12000) }, "yes"},
		{"without, whatever the other is", func(k *Truck) { k.Distributes, k.HitchRating, k.HitchWD = "no", lb(9999), lb(12000) }, "no"},
		{"with, and no rating for that", func(k *Truck) { k.Distributes, k.HitchRating = "yes", lb(9999) }, "needs hitchWD"},
		{"the tongue, with, and no rating for that", func(k *Truck) { k.Distributes, k.HitchTongue = "yes", lb(1099) }, "needs tongueWD"},
		{"the tongue, and no plain rating", func(k *Truck) { k.HitchTongue, k.TongueWD = pounds{}, lb(1100) }, "needs wd"},
	} {
		towed, k := fitting()
		c.to(&k)
		v := Pull(towed, k, nil)
		needs, asks := strings.CutPrefix(c.want, "needs ")
		if asks && (v.Is != "unknown" || !slices.Equal(v.Needs, []string{needs})) || !asks && v.Is != c.want {
			t.Errorf("%s: %q %q", c.name, v.Text, v.Needs)
		}
	}
}

// TestPullLoads: a load that cannot be is asked for; no load has no sentence about what counts; and a
// limit that is used up by what does not grow with the load bounds no load.
func TestPullLoads(t *testing.T) {
	towed, k := fitting()
	for _, load := range []measure.Pounds{-1, measure.Pounds(math.NaN()), measure.Pounds(math.Inf(1))} {
		if v := Pull(towed, k, &On{Load: load}); v.Is != "unknown" || !slices.Equal(v.Needs, []string{"machine"}) {
			t.Errorf("%v on it: %q", load, v.Text)
		}
	}
	counts := func(on *On) string {
		for _, n := range Pull(towed, k, on).Notes {
			if strings.HasPrefix(n, "Counted ") {
				return n
			}
		}
		return ""
	}
	if empty, some, full := counts(&On{}), counts(&On{Load: 1}), counts(nil); empty != "" || some == "" || full == "" || some == full {
		t.Errorf("what counts: %q, %q, %q", empty, some, full)
	}
	if v := Pull(towed, k, &On{Load: 5000, Tongue: lb(1100)}); v.Most != lb(7000) || v.Is != "yes" {
		t.Errorf("the hitch is used up by a load that is in its place: %+v, %q", v.Most, v.Text)
	}
	towed.Payload = pounds{}
	k.Tow = lb(10500)
	k.GCWR, k.HitchRating, k.BallRating, k.HitchTongue, k.Sticker = lb(16400), lb(10500), lb(10500), lb(2000), lb(3000)
	if v := Pull(towed, k, &On{Load: 5000, Tongue: lb(1000)}); v.Most != lb(7500) {
		t.Errorf("the most without a payload: %+v, %q", v.Most, v.Text)
	}
}

// TestFitsNothing: a measure of zero is not a measure.
func TestFitsNothing(t *testing.T) {
	barn := Barn{Wide: in(102), High: in(120), Deep: in(288)}
	trailer := Size{Width: in(0), Height: in(110), Length: in(0), Worked: in(300)}
	want := "NO: the depth of your barn, 1 ft over."
	if v := Fits(trailer, barn, measure.American); v.Text != want || !slices.Equal(v.Needs, []string{"over-wide"}) {
		t.Errorf("%q, %q", v.Text, v.Needs)
	}
	barn.Wide = in(0)
	if v := Fits(trailer, barn, measure.American); !slices.Equal(v.Needs, []string{"wide"}) {
		t.Errorf("%q", v.Needs)
	}
}

// TestCarryHigh: a load above 13 ft 6 in is not a yes, at it it is. By hand: 162 in less a floor of 30
// are 132. The limit is the lowest of most states (FHWA, Federal Size Regulations for Commercial Motor
// Vehicles).
func TestCarryHigh(t *testing.T) {
	for _, c := range []struct {
		floor inches
		tall  []measure.Inches
		word  string
		note  string
	}{
		{in(30), []measure.Inches{60, 90, 0}, "YES", "10 ft"},
		{in(30), []measure.Inches{132}, "YES", "13 ft 6 in"},
		{in(30), []measure.Inches{132.5}, "CANNOT SAY YET", "13 ft 6-1/2 in"},
		{in(0), []measure.Inches{200}, "YES", ""},
		{inches{}, []measure.Inches{200}, "YES", ""},
		{in(30), []measure.Inches{0}, "YES", ""},
	} {
		var v Carried
		var list []compute.Machine
		for _, tall := range c.tall {
			list = append(list, compute.Machine{Tall: tall})
		}
		v.check("payload", "", 2, 1, heavy(measure.American))
		v.high(c.floor, list, measure.American)
		v.settle("")
		if !strings.HasPrefix(v.Text, c.word+": ") || c.note == "" && v.Notes != nil || c.note != "" && !strings.Contains(strings.Join(v.Notes, ""), " "+c.note+" above the ground") {
			t.Errorf("%v, %v: %q, %q", c.floor, c.tall, v.Text, v.Notes)
		}
	}
}

// TestCarryEntry: how a machine gets on, and under the roof. By hand: 84 in go under a door of 84 in,
// 85 do not.
func TestCarryEntry(t *testing.T) {
	box := Trailer{Towed: compute.Towed{Closed: true, Inside: in(84)}}
	for _, c := range []struct {
		name    string
		trailer Trailer
		machine compute.Machine
		want    string
	}{
		{"open, with ramps", Trailer{}, compute.Machine{}, "YES: "},
		{"open, without", Trailer{Towed: compute.Towed{NoWay: true}}, compute.Machine{}, "CANNOT SAY YET: it needs a way up for the machine"},
		{"freight is set on", Trailer{Towed: compute.Towed{NoWay: true}}, compute.Machine{Lifted: true}, "YES: "},
		{"as high as the door", box, compute.Machine{Tall: 84}, "YES: "},
		{"higher", box, compute.Machine{Tall: 85}, "NO: the height inside and of the door, 1 in over."},
		{"nobody knows how high", box, compute.Machine{}, "CANNOT SAY YET: it needs the machine's height. "},
		{"a roof that nobody measured", Trailer{Towed: compute.Towed{Closed: true}}, compute.Machine{Tall: 60}, "CANNOT SAY YET: it needs the height inside and of the door. "},
	} {
		var v Carried
		v.check("payload", "", 2, 1, heavy(measure.American))
		v.entry(c.trailer, []compute.Machine{c.machine}, measure.American)
		v.settle("")
		if !strings.HasPrefix(v.Text, c.want) {
			t.Errorf("%s: %q, want %q", c.name, v.Text, c.want)
		}
	}
	dragging := compute.Machine{Load: compute.Load{Weight: 1000, Length: 100}, Drags: true}
	if v := Carry(Trailer{}, []compute.Machine{dragging}, "front", nil, measure.American); v.Text != "NO: it drags on the way up to the deck." {
		t.Errorf("a machine that drags: %q", v.Text)
	}
}

// TestCarryWide: a machine that is wider than the trailer takes never gets a yes, and neither does one
// of which nobody knows how wide it is. Between fenders 82 in apart, as a sum of a tape.
func TestCarryWide(t *testing.T) {
	for _, c := range []struct {
		name         string
		room         inches
		narrow, wide measure.Inches
		want         string
	}{
		{"narrower", in(82), 66, 66, "YES: "},
		{"as wide", in(82), 82, 82, "The closest is the clear width of its deck, 0 in left."},
		{"an inch wider", in(82), 83, 83, "NO: the clear width of its deck, 1 in over."},
		{"a class below it", in(82), 64, 78, "YES: "},
		{"a class around it", in(82), 74, 86, "CANNOT SAY YET: it needs the machine's width, over its tracks or wheels. Nothing is over so far."},
		{"a class above it", in(82), 84, 96, "NO: the clear width of its deck, 2 in over."},
		{"of unknown width", in(82), 0, 0, "CANNOT SAY YET: it needs the machine's width, over its tracks or wheels. Nothing is over so far."},
		{"on a trailer of unknown width", inches{}, 66, 66, "CANNOT SAY YET: it needs the clear width of this trailer's deck. Nothing is over so far."},
	} {
		trailer, m := roomy(), oblong(6000, 120)
		trailer.Room, m.Narrow, m.Wide = c.room, c.narrow, c.wide
		truck := strong()
		v, p := Answer(trailer, []compute.Machine{m}, []string{"front"}, "", &truck, measure.American)
		if !strings.HasPrefix(v.Text, c.want) && !strings.HasSuffix(v.Text, c.want) || v.Is != "yes" && p.Is == "yes" {
			t.Errorf("%s: %q, want %q; the truck: %q", c.name, v.Text, c.want, p.Text)
		}
		if asks := strings.Contains(strings.Join(v.Notes, " "), "A machine may be up to 6 ft 10 in wide here."); asks != (c.room.Known && v.Is == "unknown") {
			t.Errorf("%s: notes %q", c.name, v.Notes)
		}
	}
}
