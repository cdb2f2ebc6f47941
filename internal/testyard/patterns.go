package testyard

// A pattern is one sound trailer. Its measures vary from unit to unit, and stay sound.
type pattern struct {
	kind     string
	model    string // the model's name, where the units name one
	used     bool
	price    int
	variants []variant
	rest     string // what every variant shares; MADE is the tires' week
}

// A variant is one length of a pattern.
type variant struct {
	title               string
	gvwr, empty, tongue int
	text                string
}

type model struct{ name, text string }

const hitch7 = "hitch:\n  kind: bumper-pull\n  ball: 2 in\n  rating: 7,000 lb (coupler plate)\n  ball-rating: 7,500 lb (stamp)\n  tongue-limit: 1,050 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 7,800 lb (maker's sheet)\n"

const hitch14 = "hitch:\n  kind: bumper-pull\n  ball: 2-5/16 in\n  rating: 20,000 lb (coupler plate)\n  tongue-limit: 2,500 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 18,800 lb (maker's sheet)\n"

const lights = "lights:\n  clearance: 4\n  identification: 3\n  side-markers: 4\n"

const tandemBrakes = "brakes:\n  kind: electric\n  axles: 2\n  breakaway: yes\n"

const sidewallE = "tires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  sidewall:\n    single: 3,520 lb (sidewall)\n    pressure: 80 psi (sidewall)\n  made: MADE\n"

var patterns = []pattern{
	{kind: "car-hauler", price: 4400, variants: []variant{
		{"82 in x 18 ft car hauler", 7000, 2120, 260, "deck:\n  length: 18 ft\n  flat: 16 ft\n  tail: 2 ft\n  tail-kind: fixed dovetail\n  tail-end: 16 in (tape)\n  width: 82 in\n  between-fenders: 82 in\n  height: 23 in (tape)\n  front: 4 ft 6 in (tape)\naxles:\n  count: 2\n  rating: 3,500 lb (tag)\n  center: 15 ft 3 in (tape)\n  spacing: 33 in\n  suspension: leaf spring\n  hubs: grease\n"},
		{"82 in x 20 ft car hauler", 7000, 2260, 275, "deck:\n  length: 20 ft\n  flat: 18 ft\n  tail: 2 ft\n  tail-kind: fixed dovetail\n  tail-end: 16 in (tape)\n  width: 82 in\n  between-fenders: 82 in\n  height: 23 in (tape)\n  front: 4 ft 6 in (tape)\naxles:\n  count: 2\n  rating: 3,500 lb (tag)\n  center: 16 ft 4 in (tape)\n  spacing: 33 in\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: hitch7 + "tires:\n  size: ST205/75R15\n  load-range: C\n  pressure: 50 psi (tag)\n  per-axle: 2\n  wheel: 1,870 lb (stamp)\n  made: MADE\n" + tandemBrakes + "ramps:\n  kind: slide-in\n  length: 5 ft\n  width: 14 in\n  rating: 5,000 lb (maker's sheet)\n" + lights + "tie-downs:\n  - d-rings: 4 at 5,000 lb\n  - stake pockets: 8\n"},
	{kind: "dump", price: 11800, variants: []variant{
		{"83 in x 14 ft dump", 14000, 4580, 690, "bed:\n  length: 14 ft\n  width: 83 in\n  height: 24 in\n  floor: 30 in (tape)\n  front: 4 ft 6 in (tape)\n  heap: no\naxles:\n  count: 2\n  rating: 7,000 lb (tag)\n  center: 13 ft 1 in (tape)\n  spacing: 35 in\n  suspension: leaf spring\n  hubs: grease\n"},
		{"83 in x 14 ft dump, tall sides", 14000, 4960, 710, "bed:\n  length: 14 ft\n  width: 83 in\n  height: 36 in\n  floor: 30 in (tape)\n  front: 4 ft 6 in (tape)\n  heap: no\naxles:\n  count: 2\n  rating: 7,000 lb (tag)\n  center: 13 ft 1 in (tape)\n  spacing: 35 in\n  suspension: leaf spring\n  hubs: oil bath\n"},
	}, rest: hitch14 + "tires:\n  size: ST235/80R16\n  load-range: G\n  pressure: 110 psi (tag)\n  per-axle: 2\n  made: MADE\n" + tandemBrakes + lights + "  conspicuity: yes\ntie-downs:\n  - d-rings: 4 at 5,000 lb\n"},
	{kind: "equipment", price: 8600, variants: []variant{
		{"82 in x 20 ft equipment trailer", 14000, 3640, 420, "deck:\n  length: 20 ft\n  flat: 18 ft\n  tail: 2 ft\n  tail-kind: fixed dovetail\n  tail-end: 22 in (tape)\n  width: 82 in\n  between-fenders: 82 in\n  height: 31 in (tape)\n  front: 4 ft 10 in (tape)\naxles:\n  count: 2\n  rating: 7,000 lb (axle tag)\n  center: 16 ft 10 in (tape)\n  spacing: 36 in (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: hitch14 + sidewallE + tandemBrakes + "ramps:\n  kind: stand-up\n  length: 5 ft\n  width: 20 in\n  rating: 14,000 lb (maker's sheet)\nframe:\n  beam: C8x11.5\n  crossmember: C3x4.1\n  crossmember-spacing: 16 in\n  floor: treated pine 2x8\n" + lights + "  conspicuity: yes\njack:\n  count: 1\n  rating: 12,000 lb (maker's sheet)\ntie-downs:\n  - stake pockets: 14\n  - d-rings: 6 at 5,000 lb\n"},
	{kind: "equipment", model: "stave-20", price: 8900, variants: []variant{
		{"82 in x 20 ft equipment trailer, Stave", 14000, 3640, 420, ""},
	}},
	{kind: "deck-over", model: "culvert-28", price: 17900, variants: []variant{
		{"102 in x 28 ft gooseneck deck-over", 20000, 7040, 1610, ""},
	}},
	{kind: "deck-over", price: 19200, variants: []variant{
		{"102 in x 25 ft deck-over, pintle", 22000, 7080, 860, "deck:\n  length: 25 ft\n  flat: 20 ft\n  tail: 5 ft\n  tail-kind: fixed dovetail\n  tail-end: 24 in (tape)\n  width: 102 in\n  height: 35 in (tape)\n  front: 5 ft 6 in (tape)\naxles:\n  count: 2\n  rating: 10,000 lb (tag)\n  center: 20 ft 3 in (tape)\n  spacing: 50 in\n  suspension: leaf spring\n  hubs: oil bath\n"},
	}, rest: "hitch:\n  kind: pintle\n  rating: 45,000 lb (lunette ring, stamp)\n  tongue-limit: 4,500 lb (maker's sheet)\n  chains:\n    count: 2\n    breaking: 35,000 lb (maker's sheet)\ntires:\n  size: 215/75R17.5\n  load-range: H\n  pressure: 125 psi (tag)\n  per-axle: 4\n  service: 135/133L\n  sidewall:\n    single: 4,805 lb (sidewall)\n    dual: 4,540 lb (sidewall)\n    pressure: 125 psi (sidewall)\n  wheel: 4,500 lb (stamp)\n  made: MADE\nbrakes:\n  kind: electric-over-hydraulic\n  axles: 2\n  breakaway: yes\nramps:\n  kind: fold-over\n  length: 5 ft\n  width: 30 in\nframe:\n  beam: W12x22\n  crossmember: C3x4.1\n  crossmember-spacing: 16 in\n  floor: oak 2x8\n" + lights + "  intermediate-markers: 2\n  conspicuity: yes\njack:\n  count: 1\n  rating: 12,000 lb (maker's sheet)\ntie-downs:\n  - stake pockets: 20\n  - d-rings: 10 at 8,000 lb\n"},
	{kind: "utility", price: 2200, variants: []variant{
		{"77 in x 12 ft utility, ramp gate", 2990, 1120, 150, "deck:\n  length: 12 ft\n  width: 77 in\n  between-fenders: 77 in\n  height: 20 in (tape)\n  front: 4 ft (tape)\naxles:\n  count: 1\n  rating: 3,500 lb (tag)\n  center: 11 ft 4 in (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
		{"77 in x 10 ft utility, ramp gate", 2990, 1010, 140, "deck:\n  length: 10 ft\n  width: 77 in\n  between-fenders: 77 in\n  height: 20 in (tape)\n  front: 4 ft (tape)\naxles:\n  count: 1\n  rating: 3,500 lb (tag)\n  center: 10 ft (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: "hitch:\n  kind: bumper-pull\n  ball: 2 in\n  rating: 5,000 lb (coupler plate)\n  tongue-limit: 500 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 5,000 lb (maker's sheet)\ntires:\n  size: ST205/75R15\n  load-range: C\n  pressure: 50 psi (tag)\n  per-axle: 2\n  made: MADE\nbrakes:\n  kind: none\nramps:\n  kind: gate\n  length: 5 ft\n  rating: 1,500 lb (maker's sheet)\n" + lights + "tie-downs:\n  - tie rail: 2\n"},
	{kind: "utility", used: true, price: 2600, variants: []variant{
		{"83 in x 16 ft utility, tandem", 7000, 1860, 210, "deck:\n  length: 16 ft\n  width: 83 in\n  between-fenders: 83 in\n  height: 22 in (tape)\n  front: 4 ft 3 in (tape)\naxles:\n  count: 2\n  rating: 3,500 lb (tag)\n  center: 13 ft 9 in (tape)\n  spacing: 33 in (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: "hitch:\n  kind: bumper-pull\n  ball: 2 in\n  rating: 7,000 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 7,800 lb (we replaced them)\ntires:\n  size: ST205/75R15\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  made: MADE\nbrakes:\n  kind: electric\n  axles: 1\n  breakaway: yes\nramps:\n  kind: gate\n  length: 4 ft\n" + lights},
	{kind: "enclosed", price: 13100, variants: []variant{
		{"8.5 ft x 20 ft enclosed, ramp door", 9990, 3480, 430, "box:\n  length: 20 ft\n  width: 97 in\n  height: 84 in\n  door: ramp door, 4,000 lb\n  floor: 21 in (tape)\n  front: 4 ft 4 in (tape)\naxles:\n  count: 2\n  rating: 5,200 lb (tag)\n  center: 16 ft 3 in (tape)\n  spacing: 34 in\n  suspension: torsion\n  hubs: grease\n"},
	}, rest: "hitch:\n  kind: bumper-pull\n  ball: 2-5/16 in\n  rating: 14,000 lb (coupler plate)\n  tongue-limit: 1,400 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 11,700 lb (maker's sheet)\ntires:\n  size: ST225/75R15\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  wheel: 2,830 lb (stamp)\n  made: MADE\n" + tandemBrakes + "ramps:\n  kind: ramp door\n  length: 6 ft 6 in\n  rating: 4,000 lb (maker's sheet)\n" + lights + "tie-downs:\n  - d-rings: 4 at 5,000 lb\n"},
	{kind: "tilt", price: 11500, variants: []variant{
		{"82 in x 22 ft tilt", 14000, 4380, 440, "deck:\n  length: 22 ft\n  flat: 6 ft\n  tail: 16 ft\n  tail-kind: tilt\n  pivot: 9 ft (tape)\n  width: 82 in\n  between-fenders: 82 in\n  height: 27 in (tape)\n  front: 4 ft 8 in (tape)\naxles:\n  count: 2\n  rating: 7,000 lb (tag)\n  center: 17 ft (tape)\n  spacing: 36 in\n  suspension: torsion\n  hubs: grease\n"},
	}, rest: hitch14 + sidewallE + tandemBrakes + lights + "  conspicuity: yes\ntie-downs:\n  - stake pockets: 12\n  - d-rings: 8 at 5,000 lb\n"},
	{kind: "livestock", price: 13600, variants: []variant{
		{"6 ft 8 in x 16 ft stock trailer", 9990, 3520, 440, "box:\n  length: 16 ft\n  width: 80 in\n  height: 78 in\n  door: full swing with a slide\n  floor: 17 in (tape)\n  front: 4 ft (tape)\naxles:\n  count: 2\n  rating: 5,200 lb (tag)\n  center: 13 ft 6 in (tape)\n  spacing: 34 in\n  suspension: torsion\n  hubs: grease\n"},
	}, rest: "hitch:\n  kind: bumper-pull\n  ball: 2-5/16 in\n  rating: 14,000 lb (coupler plate)\n  tongue-limit: 1,700 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 11,700 lb (maker's sheet)\ntires:\n  size: ST225/75R15\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  made: MADE\n" + tandemBrakes + lights},
	{kind: "flatbed", used: true, price: 5100, variants: []variant{
		{"106 in x 32 ft gooseneck hay trailer", 14000, 5240, 1260, "deck:\n  length: 32 ft\n  width: 106 in (tape)\n  height: 37 in (tape)\n  front: 6 ft 6 in (tape)\naxles:\n  count: 2\n  rating: 7,000 lb (axle tag)\n  center: 31 ft (tape)\n  spacing: 35 in (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: "hitch:\n  kind: gooseneck\n  ball: 2-5/16 in\n  rating: 20,000 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 18,800 lb (we replaced them)\n" + sidewallE + tandemBrakes + lights + "  intermediate-markers: 2\n  conspicuity: no\n"},
	{kind: "other", price: 3900, variants: []variant{
		{"5 ft x 8 ft wood chipper carrier", 4990, 1640, 230, "deck:\n  length: 8 ft\n  width: 60 in\n  between-fenders: 60 in\n  height: 26 in (tape)\n  front: 3 ft 10 in (tape)\naxles:\n  count: 1\n  rating: 5,200 lb (tag)\n  center: 9 ft (tape)\n  suspension: leaf spring\n  hubs: grease\n"},
	}, rest: hitch7 + "tires:\n  size: ST225/75R15\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  made: MADE\nbrakes:\n  kind: electric\n  axles: 1\n  breakaway: yes\nlights:\n  side-markers: 4\ntie-downs:\n  - d-rings: 4\n"},
}

var models = []model{
	{"culvert-28", "title: 102 in x 28 ft gooseneck deck-over\nkind: deck-over\nmake: Culvert Steel\nyear: 2026\ncondition: new\nhitch:\n  kind: gooseneck\n  ball: 2-5/16 in\n  rating: 30,000 lb (coupler plate)\n  tongue-limit: 7,500 lb (coupler plate)\n  chains:\n    count: 2\n    breaking: 26,500 lb (maker's sheet)\ndeck:\n  length: 28 ft\n  flat: 20 ft\n  tail: 8 ft\n  tail-kind: hydraulic dovetail\n  width: 102 in\n  height: 35 in (tape)\n  front: 7 ft 6 in (tape)\naxles:\n  count: 2\n  rating: 10,000 lb (tag)\n  center: 25 ft 6 in (tape)\n  spacing: 50 in (tape)\n  suspension: leaf spring\n  hubs: oil bath\ntires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 4\n  sidewall:\n    single: 3,520 lb\n    dual: 3,080 lb\n  wheel: 3,750 lb\n  made: week 31 2026\n" + tandemBrakes + "frame:\n  beam: W10x22\n  crossmember: C3x4.1\n  crossmember-spacing: 18 in\n  floor: treated pine 2x6\nlights:\n  clearance: 4\n  identification: 3\n  side-markers: 10\n  intermediate-markers: 2\n  conspicuity: yes\njack:\n  count: 2\n  rating: 12,000 lb (maker's sheet)\ntie-downs:\n  - stake pockets: 22\n  - d-rings: 8 at 5,000 lb\nstandard:\n  - spare tire and wheel\n  - lockable toolbox in the neck\noptions:\n  - hydraulic disc brakes\n"},
	{"stave-20", "title: 82 in x 20 ft equipment trailer\nkind: equipment\nmake: Stave & Hoop\nyear: 2026\ncondition: new\n" + hitch14 + "deck:\n  length: 20 ft\n  flat: 18 ft\n  tail: 2 ft\n  tail-kind: fixed dovetail\n  tail-end: 22 in (tape)\n  width: 82 in\n  between-fenders: 82 in\n  height: 31 in (tape)\n  front: 4 ft 10 in (tape)\naxles:\n  count: 2\n  rating: 7,000 lb (tag)\n  center: 16 ft 10 in (tape)\n  spacing: 36 in (tape)\n  suspension: leaf spring\n  hubs: grease\ntires:\n  size: ST235/80R16\n  load-range: E\n  pressure: 80 psi (tag)\n  per-axle: 2\n  sidewall:\n    single: 3,520 lb\n    pressure: 80 psi\n  made: week 22 2026\n" + tandemBrakes + "ramps:\n  kind: stand-up\n  length: 5 ft\n  width: 20 in\n  rating: 14,000 lb (maker's sheet)\nframe:\n  beam: C8x11.5\n  crossmember: C3x4.1\n  crossmember-spacing: 16 in\n  floor: treated pine 2x8\n" + lights + "  conspicuity: yes\ntie-downs:\n  - stake pockets: 14\n  - d-rings: 6 at 5,000 lb\nstandard:\n  - rub rail\n  - spring-assisted ramps\n"},
}
