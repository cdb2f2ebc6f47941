package walkaround

import (
	"strings"

	"tarepage/internal/measure"
)

// A cue is a phrase that says what a figure near it is of. A figure of a dimension for
// which a cue names no role looks past it, unless the cue is of another part: then the
// figure is that part's, which has no key in the unit file.
type cue struct {
	weight, length, money, pressure Role
	attr                            attribute
	part                            part
	other                           bool // another part, or no part of a trailer at all
	otherLength                     bool // a part whose lengths have no key, though its weights may
	weak                            float64
	// verb: it speaks of what follows ("the trailer weighs ..."), seldom of what it ends.
	verb bool
	// scale: it names a weight only where somebody weighs.
	scale bool
	// bare: it names a weight only where the trailer is said to be empty.
	bare bool
	// plate: it names the GVWR only where no part is near that has a plate of its own.
	plate bool
}

// rated reports a part that has a rating of its own, on its own plate.
func (c cue) rated() bool {
	switch c.weight {
	case HitchRating, JackRating, AxleRating, DRingRating:
		return c.part != noPart
	}
	return false
}

// An attribute is a direction of measuring; with a part it makes a role.
type attribute uint8

const (
	none attribute = iota
	wide
	long
	tall
	apart // axles from each other
	every // crossmembers from each other
)

type part uint8

const (
	noPart part = iota
	deckPart
	tailPart
	rampPart
	bedPart
	boxPart
	axlePart
	crossPart
	framePart
	otherPart
)

// cues are the phrases. Common practice, no source: how people in yards speak.
var cues = buildCues()

func buildCues() map[string][]phrase {
	table := map[string][]phrase{}
	add := func(c cue, phrases ...string) {
		for _, p := range phrases {
			w := strings.Fields(p)
			table[w[0]] = append(table[w[0]], phrase{w, c})
		}
	}
	each := func(c cue, nouns string) {
		for _, n := range strings.Fields(nouns) {
			n = strings.ReplaceAll(n, "_", " ")
			add(c, n, n+"s")
		}
	}
	add(cue{weight: GVWR}, "gvwr", "g v w r", "gvw", "g v w", "gross", "gross weight", "gross weight rating",
		"gross vehicle weight", "gross vehicle weight rating", "gross rating", "gross on", "tag says", "tag reads", "tag on it says", "tag is", "tagged", "tagged at", "plated for", "plated at")
	add(cue{weight: GVWR, weak: 1}, "tag", "permitted weight", "total permitted weight", "permissible weight", "maximum weight", "label says", "label states", "sticker says")
	add(cue{weight: Empty, verb: true}, "weighs", "weigh", "weighed", "weighing", "weighs in", "scaled", "scales")
	add(cue{weight: Empty, weak: 1.5, scale: true}, "came in at", "comes in at", "came out at", "came out to", "was right at", "coming in at")
	add(cue{weight: GVWR, weak: 1.5, plate: true}, "on the plate", "on the sticker", "on the tag", "on the label", "plate says", "plate reads")
	add(cue{weight: HitchRating, part: otherPart, otherLength: true}, "max gross weight of trailer", "max gross trailer weight", "maximum gross trailer weight", "gross trailer weight", "max trailer weight")
	add(cue{weight: Empty}, "with nothing on it", "with nothing in it", "nothing on it", "nothing in it", "gross weight empty", "empty", "empty weight", "empties at", "empties out at", "dry", "dry weight",
		"scale", "wt", "curb weight", "unladen", "tare", "tares", "tares at", "tare weight", "weight empty", "trailer weight", "weight of the trailer")
	add(cue{weight: Empty, weak: 1}, "weight :", "weight is", "weight on it", "weight on this", "weight on this one", "weight on this thing", "weight on her", "weight of this", "weight of this one")
	add(cue{weight: TongueEmpty}, "tongue weight", "tongue weight empty", "tongue wt", "tongue wt empty", "on the tongue",
		"tongue weighs", "tongue weighed", "tongue scale", "tongue scale says", "pin weight", "on the pin", "on the ball", "tongue load")
	add(cue{weight: TongueEmpty, bare: true}, "on the truck", "on your truck")
	add(cue{weight: TongueEmpty, part: otherPart, otherLength: true, bare: true}, "tongue")
	add(cue{weight: Payload, verb: true}, "hauls", "tote", "totes", "carry", "carries", "carrying", "haul", "hauling", "leaves you", "leaves", "can put", "put", "hold", "holds", "max load", "legally load", "can load")
	add(cue{weight: Payload}, "payload", "carrying capacity", "capacity",
		"to play with", "of cargo", "cargo", "put on it", "load capacity", "weight capacity", "of payload", "for your load", "for the load", "left for", "left to", "remains", "for a load", "for load", "of load", "the load is", "load not to exceed", "cargo not to exceed", "load limit")
	add(cue{weight: Payload, part: deckPart}, "on the deck")
	add(cue{money: Price}, "price", "priced", "pricing", "asking", "asking price", "sale price", "out the door", "for it",
		"i'd take", "we're at", "i'm at", "sticker", "list price", "costs", "selling for", "cost you", "it'll cost", "we want", "sell it for", "yours for", "sell this one for", "this one for", "let it go for", "price tag", "price tag says", "price tag on it says", "for the trailer", "for this trailer", "for the unit", "for this unit", "yours today for", "home for", "cash price", "going for", "get it for", "got it for", "have it for", "let it go at", "take it for", "marked at", "lists for", "listed at", "listed for", "takes it home", "takes it", "takes her", "takes her home", "drives it home", "will buy it", "buys it", "marked down to", "sticker price",
		"out of her", "out of it", "out of this one", "gotta get", "got to get", "tonight only", "plus tax", "plus tax and tag", "do it for", "for her", "in the window says", "need at least", "she'll run you", "that'll run you", "trailer runs you", "to bring", "looking for", "hoping for", "hoping to get", "have to have", "got to have", "gotta have",
		"seller wants", "owner wants", "consignor wants", "seller is asking", "have it at", "got her at", "have her at")
	add(cue{money: Price, weak: 0.5}, "got it at")
	add(cue{money: Price, weak: 3}, "today")
	add(cue{weight: AxleRating, part: axlePart}, "axle", "axles", "gawr", "per axle", "g a w r", "an axle", "axle tag", "axle label", "axle rating")
	add(cue{weight: AxleRating, part: axlePart, otherLength: true}, "axle tubes", "axle tube")
	add(cue{length: Ball}, "ball")
	add(cue{length: Ball, weight: HitchRating, part: otherPart}, "coupler", "hitch", "ball coupler", "coupler plate", "ball hitch")
	each(cue{part: otherPart, otherLength: true}, "floor wall roof tube board plank")
	add(cue{weight: HitchRating, part: otherPart, otherLength: true}, "pintle", "pintle ring", "pintle hitch", "pintle eye")
	add(cue{part: otherPart, otherLength: true}, "tubing", "angle", "fenders", "fender", "stake pockets", "stake pocket")
	add(cue{weight: JackRating, part: otherPart, otherLength: true}, "jack", "jacks", "drop leg", "drop legs", "landing gear", "landing leg", "landing legs")
	add(cue{weight: DRingRating, otherLength: true, part: otherPart}, "d ring", "d rings", "rings", "each ring", "per ring")
	add(cue{part: deckPart, length: DeckLength}, "deck", "decking")
	add(cue{length: DeckLength, weak: 0.5}, "trailer", "gooseneck", "bumper pull", "footer", "flatbed", "car hauler", "deck over", "tilt", "tilt deck", "total")
	add(cue{length: DeckLength, weak: 3}, "this is", "this one", "utility")
	add(cue{length: DeckFlat}, "flat", "straight", "of flat", "on the flat", "flat deck", "straight deck", "main deck")
	add(cue{part: tailPart, length: DeckTail}, "tail", "dovetail", "dove tail", "beavertail", "beaver tail", "dove tale", "dovetale", "dove", "of tail", "on the tail", "hydraulic tail", "hydraulic dovetail")
	add(cue{part: rampPart, length: RampLength}, "ramp", "ramps", "gate", "ramp gate", "stand ups", "slide ins", "slide in ramps", "spring assist gate", "tailgate")
	add(cue{part: bedPart, length: BedLength}, "bed", "dump", "dump bed", "dump body", "body")
	add(cue{part: bedPart, length: BedHeight}, "sides", "side height")
	add(cue{part: boxPart, length: BoxLength}, "box", "enclosed", "cargo trailer", "stock trailer", "livestock trailer", "cattle trailer")
	add(cue{pressure: Pressure}, "tires", "tire", "air", "inflate", "inflated", "filled", "psi cold", "set at", "set to", "set them at", "set them to", "set em at", "set them all to", "in em", "in them", "in those", "in these", "in all of em", "in all of them", "em get", "them get", "cold", "pounds cold", "run at", "run em", "run em at", "run them", "run them at", "want them tires", "want those tires", "want the tires", "run those", "run those at", "pressure", "aired", "pump them", "pump em", "air them", "keep em at", "keep them at", "keep those at", "got them at", "have them at", "them at", "em at")
	add(cue{attr: wide}, "wall to wall", "wide", "across", "width", "between the fenders", "between fenders", "inside the fenders", "b / t fenders", "in width",
		"between the fender", "between the two fenders", "between the two fender", "between offenders", "between defenders", "between the vendors", "between vendors", "between the wheel wells", "fender to fender", "between them fenders", "between those fenders", "between these fenders", "in between", "between the wheels", "between", "width of the deck", "deck width", "deck is wide")
	add(cue{attr: long}, "long", "length", "in length", "total length", "of deck", "length of the deck", "deck length")
	add(cue{attr: tall}, "off the ground", "off the floor", "off the concrete", "off the pavement", "off the gravel", "off the asphalt", "to the top of the deck", "top of the deck", "to the top of the wood", "top of the wood", "to the top of the floor", "to the top of the boards", "ground to the deck", "ground to deck", "deck height", "floor height", "height of the floor", "deck ht", "height of the deck", "loading height", "inside height", "interior height", "tall inside", "high inside", "headroom", "tall", "high", "height", "higher than", "from the ground", "from the floor", "high of the deck")
	add(cue{attr: apart}, "spread", "spacing", "apart", "axle spacing", "axle spread", "between the axles", "between the two axles", "from axle center to axle center", "center to center", "between axles", "axle center to center", "spacing between axles", "axle to axle", "from one axle to", "from axle to axle", "apart on center", "spaced", "spaced at")
	add(cue{attr: every}, "on center", "centers", "oc", "o c", "on centers", "every", "between the crossmembers", "between crossmembers", "between the cross members", "between cross members")
	add(cue{part: crossPart}, "crossmember", "crossmembers", "cross members", "cross member", "crosspieces")
	add(cue{part: framePart}, "frame", "beam", "main frame", "main rails", "main beam", "beams", "rails", "mainframe", "main beams")
	add(cue{}, "on the nose", "on the money") // exactly, and no nose
	// Other parts and other things. A figure of theirs is nobody's here.
	other := cue{other: true, part: otherPart}
	each(other, `winch spare wheel rim lug spring spindle drum magnet battery bolt chain toolbox tool_box hinge pin 
		pump cylinder hub bearing brake cable hose stage limit mile month fee door flap tarp tank rack stacker light stud tab step plug
		cord strap loop pipe gusset brace bracket latch cam_bar window vent shelf cabinet battery_box charger remote rotor caliper
		tongue_box mud_flap receiver safety_chain hook rail rub_rail headache_rack bulkhead ladder lever pocket_cover
		tread gate_hinge bumper toe_rail channel_lock u_bolt shackle equalizer center_bolt shank mount`)
	add(other, "plate over", "deck board", "deck boards", "warranty", "wiring", "freight", "down", "doc", "tag and title", "tag title", "deposit", "nose", "v nose", "ramp door",
		"pine", "oak", "plywood", "lumber", "two by", "torque", "overall", "overall width", "overall length", "clearance", "telescope",
		"fenders weigh", "title", "tax", "shipping", "delivery", "delivered", "wheel rating", "ball stamped", "bumper height",
		"cable length", "hitch height", "gooseneck height", "coupler height", "ball height", "neck", "brakes", "break", "breaks", "batteries",
		"rubber", "bolt pattern", "interest", "financing", "trade in value", "horsepower", "tongue length", "length of the tongue",
		"working load", "break strength", "breaking strength", "payment", "payments")
	// What stands on a trailer or pulls it.
	each(other, `skid_steer excavator tractor truck pickup mower car backhoe bucket boom generator forklift machine loader dozer roller
		scissor_lift man_lift telehandler mini_ex mini_excavator golf_cart zero_turn side_by_side buggy boat bale cow steer horse pallet vehicle crane
		compressor engine camper container attachment auger grapple`)
	add(other, "key tag", "name tag", "price tag on the", "license tag", "tag number", "tag and title", "registration", "center gate", "divider gate", "divide gate", "side gate", "side door", "escape door", "escape gate", "butt gate", "slide gate", "slider", "man door", "walk door", "rear door", "back door", "access door", "headboard",
		"tack room", "saddle rack", "manger", "feed box", "partition", "step up", "running board", "dolly", "chock", "chocks", "binder", "binders")
	add(other, "machine that", "load of", "sand", "gravel", "dirt", "hay", "mulch", "yards", "feed", "lumber", "cattle", "hogs", "suv")
	return table
}

type phrase struct {
	words []string
	cue   cue
}

// A window is what a figure of a role can sensibly be; a figure outside it is never
// given the role. Bounds of judgement, after the reference notes' own list; common
// practice, no source.
type window struct{ low, high float64 }

var windows = map[Role]window{
	GVWR: {1000, 80000}, Empty: {200, 30000}, Payload: {300, 60000}, TongueEmpty: {20, 12000},
	AxleRating: {2000, 25000}, HitchRating: {1500, 60000}, JackRating: {800, 25000}, DRingRating: {500, 30000},
	DeckLength: {4 * 12, 53 * 12}, DeckFlat: {4 * 12, 53 * 12}, DeckTail: {12, 15 * 12}, DeckWidth: {48, 102},
	DeckHeight: {8, 60}, BedLength: {6 * 12, 40 * 12}, BedWidth: {48, 102}, BedHeight: {6, 72},
	BoxLength: {6 * 12, 53 * 12}, BoxWidth: {48, 102}, BoxHeight: {48, 120}, RampLength: {24, 14 * 12}, RampWidth: {8, 60},
	AxleSpacing: {28, 130}, CrossSpacing: {8, 48}, Pressure: {20, 130}, Price: {300, 250000},
	AxleCount: {1, 4}, JackCount: {2, 4}, DRings: {1, 60}, StakePockets: {1, 80}, Ply: {4, 20}, ModelYear: {1975, 2040},
}

// balls are the ball sizes that are made; anything else near a ball is something else.
var balls = []measure.Inches{1.875, 2, 2.3125, 3}

func inWindow(r Role, v float64) bool {
	if r == Ball {
		for _, b := range balls {
			if float64(b) == v {
				return true
			}
		}
		return false
	}
	w, ok := windows[r]
	return ok && v >= w.low && v <= w.high
}

// fillers carry no meaning between a figure and its part: crossing them costs nothing.
var fillers = set(`is are was be being been reads read says say said shows sits sit at of about right around rated rating for to
	up a an the it this that these those they them's they're gonna going works out comes come um uh like well okay so yeah i
	think just maybe roughly approximately approx near rating you you've you're got have has had we we've we're there there's its
	works takes good on her under over than more only itself any will your our my his their exactly even stamped all
	what called one now folks boys measures measured measure i've it's that's works little bit by in does do here weight unloaded loaded capacity`)

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}
