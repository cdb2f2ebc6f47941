package unit

// This file is the format of the unit file: every key, its values and its meaning. The
// reader, the reference page (docs/unit-file.md) and the spelling help are made from these
// structs. The tags:
//
//	key   the key as it is written
//	doc   what the key is for
//	eg    an example, which a test reads
//	one   the only values it takes, separated by |, or the name of a table in valueTables
//	need  "yes" if every unit needs it to be published; the table of internal/kinds has the
//	      keys that only some kinds need
//	note  "yes" if a text may carry a provenance in parentheses

// A Section is a group of keys. At is the place of its own key.
type Section struct{ At Pos }

// A Unit is one trailer as its author states it. Every value has its place, and nothing is
// checked yet.
type Unit struct {
	// File is the unit's file below the content root: content/units/sb-1043.md.
	File string
	// Top is where the front matter begins.
	Top Pos
	// Broken reports whether the front matter could not be read at all.
	Broken bool
	// Sum is the SHA-256 digest of the file's bytes.
	Sum  [32]byte
	Body Body
	// ModelIsMakers reports that the model is the maker's name for it, and not a file's.
	ModelIsMakers bool

	Title         Text   `key:"title" doc:"what a customer reads first" eg:"102 in x 28 ft gooseneck deck-over, hydraulic tail" need:"yes"`
	Stock         Text   `key:"stock" doc:"the yard's own number for this unit; letters, digits and dashes" eg:"SB-1043" need:"yes"`
	Kind          Text   `key:"kind" doc:"the kind of trailer" eg:"deck-over" one:"a kind of trailer" need:"yes"`
	Make          Text   `key:"make" doc:"who built it" eg:"Oxbow Steelworks"`
	Model         Text   `key:"model" doc:"the file in content/models/ that fills in what this unit leaves out; without such a file, the maker's own name for the model" eg:"oxbow-20k"`
	Year          Count  `key:"year" doc:"model year" eg:"2026"`
	Built         Built  `key:"built" doc:"month and year of manufacture on the label; the model year may be another one" eg:"10/2025 (tag)"`
	Serial        Text   `key:"serial" doc:"the VIN; mark another form of number (not a VIN), (state-assigned), (home-built) or (maker's number)" eg:"0J9RP1A35T1644345" note:"yes"`
	Condition     Text   `key:"condition" doc:"new or used" eg:"new" one:"new|used" need:"yes"`
	Availability  Text   `key:"availability" doc:"whether it can be bought today" eg:"on the yard" one:"on the yard|on order|spoken for|sold" need:"yes"`
	Price         Money  `key:"price" doc:"the asking price, and since when if it changed" eg:"$18,450 (since 2026-11-10)"`
	Arrived       Date   `key:"arrived" doc:"the day it came into the yard, or the day it is due if it is on order; feeds list it under this day" eg:"2026-11-02"`
	Color         Text   `key:"color" doc:"its color" eg:"charcoal"`
	OverallWidth  Length `key:"overall-width" doc:"across the widest part, fenders included, lamps and mirrors left out" eg:"102 in (tape)"`
	OverallHeight Length `key:"overall-height" doc:"from the ground to the highest part, empty, antennas left out" eg:"8 ft 9 in (tape)"`
	OverallLength Length `key:"overall-length" doc:"from the foremost part of the coupler to the rearmost part, tail or gate up; where you leave it out, it is worked out" eg:"35 ft 6 in (tape)"`
	Warranty      Text   `key:"warranty" doc:"what is left of the maker's or the yard's warranty" eg:"frame to March 2029, axles to March 2031"`
	Withhold      Text   `key:"withhold" doc:"keeps the unit off the site, whatever you write here; say why" eg:"waiting for the title"`

	Example     Flag      `key:"example" doc:"yes for an invented trailer to learn from: if it is the only unit, its pages say EXAMPLE; next to others it is left out" eg:"yes"`
	Offer       Offer     `key:"offer" doc:"what goes with the asking price"`
	Ownership   Ownership `key:"ownership" doc:"the paper that proves who owns it"`
	Hitch       Hitch     `key:"hitch" doc:"what couples it to the truck"`
	Deck        Deck      `key:"deck" doc:"the deck; lengths run along the trailer"`
	Bed         Bed       `key:"bed" doc:"the bed of a dump trailer, inside measures"`
	Box         Box       `key:"box" doc:"the box of an enclosed trailer, inside measures"`
	Tank        Tank      `key:"tank" doc:"the tank of a water or fuel trailer"`
	Hull        Hull      `key:"hull" doc:"what a boat or watercraft trailer holds its boat with"`
	Bin         Bin       `key:"bin" doc:"the bins that a roll-off trailer picks up"`
	Dolly       Dolly     `key:"dolly" doc:"what a tow dolly carries: one axle of a vehicle"`
	Bunks       Bunks     `key:"bunks" doc:"what holds logs, pipe or poles"`
	Chassis     Chassis   `key:"chassis" doc:"the bare frame of a container or camper chassis"`
	Axles       Axles     `key:"axles" doc:"the axle group"`
	Tires       Tires     `key:"tires" doc:"the tires on the axles"`
	Brakes      Brakes    `key:"brakes" doc:"the brakes"`
	Weights     Weights   `key:"weights" doc:"the weights that all figures start from"`
	Ramps       Ramps     `key:"ramps" doc:"ramps or a ramp gate"`
	Sides       Sides     `key:"sides" doc:"the sides of an open trailer"`
	Gate        Gate      `key:"gate" doc:"the gates"`
	Winch       Winch     `key:"winch" doc:"the winch"`
	Hoist       Hoist     `key:"hoist" doc:"what lifts a dump bed or a bin"`
	Equipment   Equipment `key:"equipment" doc:"what is fitted besides"`
	Frame       Frame     `key:"frame" doc:"how it is built"`
	Lights      Lights    `key:"lights" doc:"lamps and tape, both sides counted together"`
	Jack        Jack      `key:"jack" doc:"the jack or jacks"`
	Wear        Wear      `key:"wear" doc:"how worn it is"`
	Claimed     Claimed   `key:"claimed" doc:"figures that the maker prints, to compare with ours"`
	Recording   Recording `key:"recording" doc:"the walk-around"`
	NotesES     Text      `key:"notes-es" doc:"the notes a second time, in Spanish, for the pages in Spanish: notes-es: | and the text below it, indented by two spaces, written like the notes, with the same times and checked figures" eg:"El piso es de madera tratada."`
	Spare       Text      `key:"spare" doc:"the spare, in words" eg:"wheel and tire, mounted on the neck"`
	DealerAdded Weight    `key:"dealer-added" doc:"weight the yard fitted before the first sale; if its day is later than the scale ticket of the empty weight, it is added to that weight and comes off the payload" eg:"85 lb (scale ticket 2026-11-03)"`
	Relabeled   Date      `key:"relabeled" doc:"the day on which the label was corrected for added weight" eg:"2026-11-05"`
	TieDowns    []TieDown `key:"tie-downs" doc:"the places to tie to: a count, or a count with the rating of each" eg:"d-rings: 8 at 5,000 lb"`
	Standard    []Text    `key:"standard" doc:"what comes with it; what is standard on its model is added" eg:"spare tire and wheel"`
	StandardNot []Text    `key:"standard-not" doc:"what is standard on its model and does not come with this one, written as the model has it" eg:"spare tire and wheel"`
	Options     []Text    `key:"options" doc:"what can be ordered and is not on this one" eg:"hydraulic disc brakes"`
	Waive       []Waiver  `key:"waive" doc:"rules whose stop is published as a caution instead, each with a reason and a last day"`
	Photos      []Photo   `key:"photos" doc:"the photos, in the order in which they are shown"`
	Proof       []Proof   `key:"proof" doc:"photos of where values were read: the label, a scale ticket, a sidewall"`
}

// Hitch is the coupler, the ball it takes and the chains.
type Hitch struct {
	Section
	Kind        Text   `key:"kind" doc:"how it couples" eg:"gooseneck" one:"bumper-pull|gooseneck|fifth-wheel|pintle" need:"yes"`
	Ball        Length `key:"ball" doc:"the ball it takes" eg:"2-5/16 in"`
	Rating      Weight `key:"rating" doc:"the gross trailer weight the coupler is rated for" eg:"30,000 lb (coupler plate)"`
	BallRating  Weight `key:"ball-rating" doc:"the rating of a ball sold with it" eg:"30,000 lb (stamp)"`
	Ahead       Length `key:"ahead" doc:"how far the coupler reaches ahead of the ball's center, or the trailer ahead of its kingpin's (the kingpin setting); if nobody measured it, 4 in is assumed, 6 in for a gooseneck, 36 in for a fifth-wheel" eg:"5 in (tape)"`
	TongueLimit Weight `key:"tongue-limit" doc:"the most the coupler may put on the truck" eg:"7,500 lb (coupler plate)"`
	Lunette     Length `key:"lunette" doc:"inside diameter of a pintle hitch's eye" eg:"3 in"`
	Kingpin     Length `key:"kingpin" doc:"diameter of the kingpin of a fifth-wheel: 2 in, or 3-1/2 in on the heaviest" eg:"2 in (tape)"`
	Receiver    Length `key:"receiver" doc:"the receiver that it needs on the truck, if it goes into one" eg:"2 in"`
	Plug        Text   `key:"plug" doc:"the plug of the lights" eg:"7-blade" one:"4-flat|5-flat|6-round|7-blade|7-round|none"`
	Adjustable  Flag   `key:"adjustable" doc:"whether the coupler's height can be changed" eg:"yes"`
	Chains      Chains `key:"chains" doc:"the safety chains"`
}

// Chains are the safety chains.
type Chains struct {
	Section
	Count    Count  `key:"count" doc:"how many" eg:"2"`
	Breaking Weight `key:"breaking" doc:"minimum breaking force of each chain" eg:"26,500 lb"`
}

// Deck is the deck of an open trailer.
type Deck struct {
	Section
	Length   Length `key:"length" doc:"the whole deck, flat and tail together" eg:"28 ft"`
	Flat     Length `key:"flat" doc:"the flat part" eg:"20 ft"`
	Tail     Length `key:"tail" doc:"the tail" eg:"8 ft"`
	TailKind Text   `key:"tail-kind" doc:"what the tail does" eg:"hydraulic dovetail" one:"hydraulic dovetail|fixed dovetail|tilt"`
	Pivot    Length `key:"pivot" doc:"on a tilting deck, from its pivot back to the deck's rear edge" eg:"9 ft"`
	TailEnd  Length `key:"tail-end" doc:"height of the deck's rear edge above the ground, if a fixed dovetail lowers it" eg:"24 in"`
	Width    Length `key:"width" doc:"width of the deck" eg:"102 in"`
	Between  Length `key:"between-fenders" doc:"clear width between the fenders" eg:"83 in"`
	Over     Length `key:"over-fenders" doc:"width over the fenders, where they can be driven over" eg:"102 in"`
	Well     Length `key:"well" doc:"of a lowboy: the low part, which is its deck between neck and axles" eg:"26 ft"`
	WellUp   Length `key:"well-height" doc:"of a lowboy: height of the low part above the ground, empty" eg:"18 in"`
	Neck     Text   `key:"neck" doc:"of a lowboy or gooseneck: whether the neck comes off" eg:"detachable" one:"fixed|detachable|folding"`
	Height   Length `key:"height" doc:"height of the deck above the ground, empty" eg:"35 in"`
	Loaded   Length `key:"height-loaded" doc:"height of the deck above the ground, loaded; on a lowboy of its low part" eg:"18 in (maker's sheet)"`
	Front    Length `key:"front" doc:"from the ball's center back to the deck's front edge" eg:"7 ft 6 in"`
	Short    Weight `key:"concentrated" doc:"the heaviest load for a short part of the deck, if its maker rates that" eg:"35,000 lb (maker's sheet)"`
	ShortOn  Length `key:"concentrated-length" doc:"how long that part of the deck is" eg:"10 ft (maker's sheet)"`
}

// Bed is the bed of a dump trailer.
type Bed struct {
	Section
	Length Length `key:"length" doc:"inside length" eg:"14 ft"`
	Width  Length `key:"width" doc:"inside width" eg:"83 in"`
	Height Length `key:"height" doc:"height of the sides" eg:"24 in"`
	Floor  Length `key:"floor" doc:"height of the bed's floor above the ground, empty" eg:"32 in"`
	Front  Length `key:"front" doc:"from the ball's center back to the bed's front" eg:"4 ft 8 in"`
	Heap   Flag   `key:"heap" doc:"whether it may be heaped above the sides" eg:"yes"`
	Volume Volume `key:"volume" doc:"what it holds level full, if its floor is not flat, as in a hopper" eg:"450 bu (maker's sheet)"`
	Traps  Count  `key:"traps" doc:"of a hopper: how many traps it empties through" eg:"2"`
}

// Box is the box of an enclosed trailer.
type Box struct {
	Section
	Length     Length `key:"length" doc:"inside length on the floor" eg:"16 ft"`
	Width      Length `key:"width" doc:"inside width" eg:"82 in"`
	Height     Length `key:"height" doc:"inside height" eg:"84 in"`
	Door       Text   `key:"door" doc:"the rear door" eg:"ramp door, 4,000 lb"`
	DoorWidth  Length `key:"door-width" doc:"clear width of the rear door's opening" eg:"78 in (tape)"`
	DoorHeight Length `key:"door-height" doc:"clear height of the rear door's opening" eg:"80 in (tape)"`
	Side       Text   `key:"side-door" doc:"which side has a side door, seen from behind" eg:"right" one:"right|left|both|none"`
	SideWidth  Length `key:"side-door-width" doc:"clear width of the side door" eg:"32 in"`
	SideHeight Length `key:"side-door-height" doc:"clear height of the side door" eg:"72 in"`
	SideAt     Length `key:"side-door-front" doc:"from the box's front back to the side door's front edge, a V-nose left out" eg:"2 ft"`
	Nose       Text   `key:"nose" doc:"the shape of its front" eg:"V-nose" one:"flat|V-nose|rounded|slanted"`
	NoseLength Length `key:"nose-length" doc:"how far a V-nose reaches ahead of the box's length" eg:"2 ft"`
	Vents      Count  `key:"roof-vents" doc:"how many roof vents" eg:"1"`
	Floor      Length `key:"floor" doc:"height of the floor above the ground, empty" eg:"20 in"`
	Front      Length `key:"front" doc:"from the ball's center back to the box's front" eg:"4 ft 2 in"`
}

// Tank is the tank of a trailer for water or fuel.
type Tank struct {
	Section
	Length  Length `key:"length" doc:"length of the tank" eg:"9 ft"`
	Width   Length `key:"width" doc:"width of the tank" eg:"60 in"`
	Height  Length `key:"height" doc:"height of the tank from its bottom to its top" eg:"54 in"`
	Floor   Length `key:"floor" doc:"height of the tank's bottom above the ground, empty" eg:"28 in"`
	Front   Length `key:"front" doc:"from the ball's center back to the tank's front" eg:"5 ft"`
	Volume  Volume `key:"volume" doc:"what it holds when it is full" eg:"1,000 gal (maker's plate)"`
	Liquid  Text   `key:"liquid" doc:"what it is made for" eg:"water" one:"water|diesel|gasoline|liquid fertilizer|milk"`
	Baffles Count  `key:"baffles" doc:"how many walls with holes it has inside to stop surge; 0 if none" eg:"2"`
	Made    Text   `key:"material" doc:"what the tank is made of" eg:"polyethylene" one:"polyethylene|steel|aluminum|stainless steel|fiberglass"`
	Spec    Text   `key:"spec" doc:"the specification on its plate, such as DOT 406, or none" eg:"DOT 406 (plate)" note:"yes"`
	Tested  Built  `key:"tested" doc:"of a tank with a DOT specification: the month of its last inspection or test, as it is marked on the tank (49 CFR 180.415)" eg:"10/2025 (plate)"`
	Tests   Text   `key:"tests" doc:"which ones, in the letters of that mark: V external visual, I internal visual, K leakage, P pressure, T thickness, L lining" eg:"V K" note:"yes"`
	Pump    Text   `key:"pump" doc:"pump, hose and reel" eg:"2 in gasoline pump, 30 ft hose"`
}

// Hull is what a boat or watercraft trailer holds its boat with.
type Hull struct {
	Section
	Length  Length `key:"length" doc:"length of the longest hull that it takes" eg:"21 ft"`
	Beam    Length `key:"beam" doc:"width of the widest hull that it takes" eg:"102 in"`
	Floor   Length `key:"floor" doc:"height of the bunks or rollers above the ground, empty" eg:"24 in"`
	Front   Length `key:"front" doc:"from the ball's center back to the bow stop on the winch stand" eg:"4 ft"`
	Support Text   `key:"support" doc:"what the hull rests on" eg:"bunks" one:"bunks|rollers|bunks and rollers"`
	Bunks   Count  `key:"bunks" doc:"how many bunks" eg:"4"`
	Bunk    Length `key:"bunk-length" doc:"length of the longest bunk" eg:"10 ft"`
	Rollers Count  `key:"rollers" doc:"how many rollers" eg:"16"`
	Stand   Text   `key:"winch-stand" doc:"the stand that holds the bow" eg:"adjustable" one:"fixed|adjustable|none"`
	Places  Count  `key:"places" doc:"how many boats or watercraft it takes" eg:"2"`
}

// Bin is what a roll-off trailer picks up.
type Bin struct {
	Section
	Length   Length `key:"length" doc:"length of the longest bin that it takes" eg:"14 ft"`
	Shortest Length `key:"shortest" doc:"length of the shortest bin that it takes" eg:"10 ft"`
	Width    Length `key:"width" doc:"width of the bins" eg:"84 in"`
	Floor    Length `key:"floor" doc:"height of the rails under the bin above the ground, empty" eg:"32 in"`
	Front    Length `key:"front" doc:"from the ball's center back to the bin's front" eg:"5 ft"`
	System   Text   `key:"system" doc:"how it picks up a bin" eg:"cable" one:"cable|hooklift"`
	Hook     Length `key:"hook-height" doc:"height of the bar that a hook takes, above the bin's bottom" eg:"36 in"`
	Largest  Volume `key:"largest" doc:"volume of the largest bin" eg:"20 cu yd"`
	Included Count  `key:"included" doc:"how many bins come with it" eg:"1"`
	Comes    Volume `key:"included-volume" doc:"volume of a bin that comes with it" eg:"15 cu yd (maker's sheet)"`
}

// Dolly is what a tow dolly carries: one axle of a vehicle.
type Dolly struct {
	Section
	Length   Length `key:"length" doc:"length of the pans that the wheels sit in, along the dolly" eg:"3 ft 10 in"`
	Floor    Length `key:"floor" doc:"height of the pans above the ground, empty" eg:"12 in"`
	Front    Length `key:"front" doc:"from the ball's center back to the front of the pans" eg:"5 ft 6 in"`
	Axle     Weight `key:"axle" doc:"the heaviest vehicle axle that it may carry" eg:"2,900 lb (tag)"`
	Vehicle  Weight `key:"vehicle" doc:"the heaviest vehicle that may be towed with it" eg:"4,750 lb (maker's sheet)"`
	Widest   Length `key:"widest" doc:"the widest vehicle that it takes, outside of its tires" eg:"76 in"`
	Narrow   Length `key:"narrowest" doc:"the narrowest vehicle that it takes, between its tires" eg:"42 in"`
	Steering Flag   `key:"steering" doc:"whether its wheels steer" eg:"no"`
	Straps   Flag   `key:"straps" doc:"whether wheel straps come with it" eg:"yes"`
}

// Bunks are what holds logs, pipe or poles.
type Bunks struct {
	Section
	Length Length `key:"length" doc:"from the first bunk to the last" eg:"24 ft"`
	Width  Length `key:"width" doc:"between the stakes" eg:"84 in"`
	Floor  Length `key:"floor" doc:"height of the bunks above the ground, empty" eg:"38 in"`
	Front  Length `key:"front" doc:"from the ball's center back to the first bunk" eg:"6 ft"`
	Count  Count  `key:"count" doc:"how many bunks" eg:"3"`
	Stakes Length `key:"stakes" doc:"height of the stakes above the bunks" eg:"48 in"`
}

// Chassis is a bare frame.
type Chassis struct {
	Section
	Length Length `key:"length" doc:"length of the frame behind the tongue, or of the longest container" eg:"40 ft"`
	Width  Length `key:"width" doc:"width of the frame" eg:"96 in"`
	Floor  Length `key:"floor" doc:"height of the frame's top above the ground, empty" eg:"30 in"`
	Front  Length `key:"front" doc:"from the ball's center back to the frame's front crossmember" eg:"4 ft"`
	Sizes  Text   `key:"containers" doc:"the containers that it takes" eg:"one 40 ft or two 20 ft"`
	Locks  Count  `key:"twist-locks" doc:"how many twist locks" eg:"4"`
	Slides Flag   `key:"extends" doc:"whether the frame or the axles slide" eg:"no"`
}

// Sides are the sides of an open trailer.
type Sides struct {
	Section
	Kind      Text   `key:"kind" doc:"what they are" eg:"expanded metal" one:"solid|expanded metal|wire mesh|rail|slats|stakes"`
	Height    Length `key:"height" doc:"how high they are above the deck" eg:"24 in"`
	Removable Flag   `key:"removable" doc:"whether they come off" eg:"no"`
}

// Gate is the rear gate, and the gates inside.
type Gate struct {
	Section
	Kind   Text   `key:"kind" doc:"the rear gate" eg:"barn doors" one:"tailgate|barn doors|spreader|barn doors and spreader|ramp gate|bi-fold gate|swing gate|sliding gate|roll-up|hopper gate"`
	Width  Length `key:"width" doc:"clear width of its opening" eg:"76 in"`
	Height Length `key:"height" doc:"clear height of its opening, or of the gate where nothing is above it" eg:"48 in"`
	Center Count  `key:"center" doc:"how many gates divide the inside" eg:"1"`
}

// Winch is the winch.
type Winch struct {
	Section
	Kind   Text   `key:"kind" doc:"what drives it" eg:"electric" one:"hand|electric|hydraulic"`
	Rating Weight `key:"rating" doc:"its rated line pull" eg:"12,000 lb (plate)"`
	Place  Text   `key:"place" doc:"where it sits" eg:"front of the deck, on a slide"`
	Count  Count  `key:"count" doc:"how many winches" eg:"2"`
}

// Hoist is what lifts a dump bed or a bin.
type Hoist struct {
	Section
	Kind   Text   `key:"kind" doc:"how it is built" eg:"scissor" one:"scissor|single cylinder|two cylinders|telescopic|hooklift|cable"`
	Rating Weight `key:"rating" doc:"what it is rated to lift" eg:"20,000 lb (maker's sheet)"`
	Power  Text   `key:"power" doc:"what drives its pump" eg:"battery" one:"battery|engine|truck|hand"`
}

// Equipment is what is fitted besides.
type Equipment struct {
	Section
	Tarp   Text   `key:"tarp" doc:"the tarp" eg:"roll tarp with a hand crank" note:"yes"`
	Boxes  Text   `key:"tool-boxes" doc:"the tool boxes" eg:"one in the tongue, lockable" note:"yes"`
	Tracks Text   `key:"tracks" doc:"tracks and rails to tie to" eg:"two rows of E-track on the floor" note:"yes"`
	Awning Text   `key:"awning" doc:"the awning or the serving window" eg:"5 ft serving window" note:"yes"`
	Fresh  Volume `key:"fresh-water" doc:"of a kitchen or a camper: what its tank for fresh water holds; water in it is cargo" eg:"30 gal (maker's sheet)"`
	Gray   Volume `key:"gray-water" doc:"what its tank for waste water holds" eg:"40 gal (maker's sheet)"`
	Power  Text   `key:"power" doc:"electric power, generator, solar panel" eg:"30 amp inlet, 6 outlets" note:"yes"`
}

// Wear is how worn a trailer is.
type Wear struct {
	Section
	Tread   Length `key:"tread" doc:"the tread of the most worn tire" eg:"7/32 in"`
	Brakes  Text   `key:"brakes" doc:"linings or pads" eg:"linings about half" note:"yes"`
	Floor   Text   `key:"floor" doc:"the floor" eg:"two boards replaced" note:"yes"`
	Rust    Text   `key:"rust" doc:"rust" eg:"surface rust on the tongue" note:"yes"`
	Checked Date   `key:"inspected" doc:"the day of its last yearly inspection (49 CFR 396.17)" eg:"2026-06-12"`
	Defects Text   `key:"defects" doc:"what is broken or does not work" eg:"left rear marker lamp is out" note:"yes"`
}

// Ownership is the paper that proves who owns a trailer.
type Ownership struct {
	Section
	Paper Text `key:"paper" doc:"the paper; an MSO is the maker's statement of origin of a new one" eg:"title" one:"title|MSO|bill of sale|none"`
	State Text `key:"state" doc:"where the paper is" eg:"in hand" one:"in hand|with the lender|applied for|lost"`
	Brand Text `key:"brand" doc:"what the state has printed on the title" eg:"clean" one:"clean|rebuilt|salvage|flood|junk"`
}

// Offer is what goes with the asking price.
type Offer struct {
	Section
	Cash      Money `key:"cash" doc:"the price for cash, where it is lower" eg:"$17,900"`
	Was       Money `key:"was" doc:"an earlier price at which it was really offered, and since when" eg:"$19,900 (since 2026-08-01)"`
	Plus      Text  `key:"plus" doc:"what comes on top of the price" eg:"$199 document fee, $450 freight"`
	BestOffer Flag  `key:"best-offer" doc:"whether you take offers" eg:"yes"`
	Tax       Flag  `key:"tax-included" doc:"whether sales tax is in the price" eg:"no"`
	Financing Text  `key:"financing" doc:"what you say about financing, in your own words" eg:"financing through two local banks"`
}

// Axles is the axle group.
type Axles struct {
	Section
	Count      Count  `key:"count" doc:"how many axles" eg:"2" need:"yes"`
	Rating     Weight `key:"rating" doc:"rating of each axle (GAWR)" eg:"10,000 lb (tag)" need:"yes"`
	Center     Length `key:"center" doc:"from the ball's center back to the middle of the group" eg:"25 ft 6 in"`
	Spacing    Length `key:"spacing" doc:"from one axle to the next" eg:"50 in"`
	Suspension Text   `key:"suspension" doc:"what it rides on" eg:"leaf spring" one:"leaf spring|torsion|air ride|rubber block|none"`
	Hubs       Text   `key:"hubs" doc:"how the bearings are kept" eg:"oil bath" one:"oil bath|grease|sealed"`
	Shape      Text   `key:"shape" doc:"the axle tubes" eg:"drop" one:"straight|drop"`
}

// Tires are the tires on the axles and the wheels they sit on.
type Tires struct {
	Section
	Size       Text     `key:"size" doc:"the size molded on the tire" eg:"ST235/80R16" note:"yes" need:"yes"`
	LoadRange  Text     `key:"load-range" doc:"the load range letter; on a passenger tire SL, XL or LL" eg:"E" note:"yes"`
	Ply        Count    `key:"ply" doc:"the ply rating, if somebody stated it" eg:"10"`
	Service    Text     `key:"service" doc:"the load index and speed symbol molded after the size" eg:"124/120M" note:"yes"`
	Pressure   Pressure `key:"pressure" doc:"the cold pressure on the label" eg:"80 psi"`
	PerAxle    Count    `key:"per-axle" doc:"how many are on one axle: 2, or 4 for duals" eg:"4" need:"yes"`
	Sidewall   Sidewall `key:"sidewall" doc:"what is molded on it; it overrides any table"`
	Wheel      Weight   `key:"wheel" doc:"rating stamped on one wheel" eg:"3,750 lb"`
	Stud       Text     `key:"stud" doc:"the wheel stud with the seat of its nut: cone or flange" eg:"9/16-18 cone" note:"yes"`
	Bolts      Text     `key:"bolt-pattern" doc:"how many studs on what circle" eg:"8 on 6.5 in" note:"yes"`
	Rims       Text     `key:"rims" doc:"what the wheels are made of" eg:"aluminum" one:"steel|aluminum"`
	SpareSize  Text     `key:"spare-size" doc:"the size molded on the spare" eg:"ST235/80R16" note:"yes"`
	SpareRange Text     `key:"spare-load-range" doc:"the load range letter of the spare; on a passenger tire SL, XL or LL" eg:"E" note:"yes"`
	SparePlace Text     `key:"spare-place" doc:"how the spare comes" eg:"mounted" one:"mounted|loose|none"`
	Made       Made     `key:"made" doc:"the production week: the last four digits of the date code" eg:"week 31 2026"`
}

// Sidewall is what is molded on the tire.
type Sidewall struct {
	Section
	Single   Weight   `key:"single" doc:"maximum load of a single tire" eg:"3,520 lb"`
	Dual     Weight   `key:"dual" doc:"maximum load of each tire of a pair" eg:"3,080 lb"`
	Pressure Pressure `key:"pressure" doc:"the cold pressure molded next to the maximum load" eg:"80 psi"`
}

// Brakes are the trailer's brakes.
type Brakes struct {
	Section
	Kind      Text     `key:"kind" doc:"how they work" eg:"electric" one:"none|electric|electric-over-hydraulic|surge|air"`
	Axles     Count    `key:"axles" doc:"how many axles are braked" eg:"2"`
	Type      Text     `key:"type" doc:"drum or disc" eg:"drum" one:"drum|disc"`
	Size      Text     `key:"size" doc:"diameter and width of the drums, or the diameter of the discs" eg:"12-1/4 x 3-3/8 in" note:"yes"`
	ABS       Flag     `key:"abs" doc:"whether they have ABS, which keeps the wheels from locking" eg:"yes"`
	Breakaway Flag     `key:"breakaway" doc:"whether a breakaway device sets the brakes" eg:"yes"`
	Stopping  Stopping `key:"stopping" doc:"the stopping distance that the axle maker states" eg:"200 ft at 60 mph (maker's sheet)"`
}

// Weights are the rating and the scale's figures.
type Weights struct {
	Section
	GVWR        Weight `key:"gvwr" doc:"gross vehicle weight rating on the label" eg:"20,000 lb (tag)" need:"yes"`
	Empty       Weight `key:"empty" doc:"what it weighs empty, as it is sold" eg:"7,040 lb (scale ticket 2026-11-03)" need:"yes"`
	TongueEmpty Weight `key:"tongue-empty" doc:"what it puts on the truck empty" eg:"1,610 lb (scale ticket 2026-11-03)"`
	TongueLeast Weight `key:"tongue-least" doc:"of a camper: the least tongue weight that its maker recommends when it is loaded" eg:"780 lb (tag)"`
	MaxLoad     Weight `key:"max-load" doc:"the most load that a plate on the trailer allows, where it has such a plate; the payload is never more" eg:"8,000 lb (plate)"`
	Loaded      Weight `key:"loaded" doc:"what it weighed with a load on it" eg:"11,990 lb (scale ticket 2026-11-03)"`
	LoadedWith  Text   `key:"loaded-with" doc:"what was on it then" eg:"full of water"`
	Water       Weight `key:"water" doc:"of a camper: what its fresh water weighs with full tanks, 8.3 lb a gallon; it is cargo" eg:"332 lb"`
	Propane     Weight `key:"propane" doc:"of a camper: what its full propane bottles hold, if they were empty when it was weighed" eg:"40 lb"`
}

// Ramps are the ramps or the ramp gate.
type Ramps struct {
	Section
	Kind   Text   `key:"kind" doc:"what kind" eg:"slide-in" one:"slide-in|stand-up|fold-over|gate|ramp door"`
	Length Length `key:"length" doc:"length along the ramp" eg:"5 ft"`
	Width  Length `key:"width" doc:"width of one ramp" eg:"16 in"`
	Rating Weight `key:"rating" doc:"what the pair is rated for" eg:"14,000 lb (maker's sheet)"`
	Assist Flag   `key:"spring-assisted" doc:"whether springs help to lift them" eg:"yes"`
	Stored Text   `key:"stored" doc:"where they ride" eg:"in pockets at the rear"`
}

// Frame describes how the trailer is built.
type Frame struct {
	Section
	Beam        Text   `key:"beam" doc:"the main beams" eg:"W10x22" note:"yes"`
	Crossmember Text   `key:"crossmember" doc:"the crossmembers" eg:"C3x4.1" note:"yes"`
	Spacing     Length `key:"crossmember-spacing" doc:"center to center" eg:"18 in"`
	Floor       Text   `key:"floor" doc:"what the floor is made of" eg:"treated pine 2x6" note:"yes"`
	Thickness   Length `key:"floor-thickness" doc:"how thick the floor is; 10 gauge steel is 0.135 in" eg:"3/16 in"`
	Material    Text   `key:"material" doc:"what the frame is made of" eg:"steel" one:"steel|aluminum"`
	Skin        Text   `key:"skin" doc:"what the outside is covered with" eg:"0.030 in aluminum, bonded" note:"yes"`
	Finish      Text   `key:"finish" doc:"how the frame is kept from rust" eg:"powder coat" one:"paint|powder coat|galvanized|bare aluminum|undercoated|none"`
	Fenders     Text   `key:"fenders" doc:"the fenders" eg:"drive-over" one:"fixed|removable|drive-over|none"`
}

// Lights are lamps and tape.
type Lights struct {
	Section
	Clearance      Count  `key:"clearance" doc:"clearance lamps" eg:"4"`
	Identification Count  `key:"identification" doc:"identification lamps" eg:"3"`
	SideMarkers    Count  `key:"side-markers" doc:"side marker lamps" eg:"10"`
	Intermediate   Count  `key:"intermediate-markers" doc:"intermediate side marker lamps" eg:"2"`
	Conspicuity    Flag   `key:"conspicuity" doc:"whether red and white tape is on it" eg:"yes"`
	Tape           Length `key:"tape" doc:"the tape along one side, its strips added up" eg:"18 ft (tape)"`
	LED            Flag   `key:"led" doc:"whether the lights are LEDs" eg:"yes"`
	Work           Count  `key:"work-lights" doc:"lights to work by, inside and out" eg:"2"`
}

// Jack is the jack or jacks.
type Jack struct {
	Section
	Count  Count  `key:"count" doc:"how many" eg:"2"`
	Rating Weight `key:"rating" doc:"rating of each" eg:"12,000 lb"`
	Kind   Text   `key:"kind" doc:"how it is built" eg:"A-frame" one:"A-frame|swivel|pipe mount|landing gear|scissor"`
	Drive  Text   `key:"drive" doc:"how it is raised" eg:"two-speed" one:"top wind|side wind|two-speed|hydraulic|electric"`
	Lift   Length `key:"lift" doc:"how far it lifts" eg:"15 in"`
	Drop   Flag   `key:"drop-leg" doc:"whether its foot drops down without cranking" eg:"yes"`
	Wheel  Flag   `key:"wheel" doc:"whether it has a wheel" eg:"no"`
}

// Claimed are figures printed by the maker.
type Claimed struct {
	Section
	Payload Weight `key:"payload" doc:"the payload the maker prints" eg:"12,900 lb (maker's sheet)"`
	GVWR    Weight `key:"gvwr" doc:"the gross rating the maker prints" eg:"20,000 lb (maker's sheet)"`
	Empty   Weight `key:"empty" doc:"the empty weight the maker prints" eg:"7,100 lb (maker's sheet)"`
}

// Recording is the walk-around's recording.
type Recording struct {
	Section
	Length   Moment `key:"length" doc:"how long it is" eg:"6:12"`
	Captions Text   `key:"captions" doc:"the captions file" eg:"media/sb-1043.vtt"`
	Video    Text   `key:"video" doc:"the video file" eg:"media/sb-1043.mp4"`
	Day      Date   `key:"day" doc:"the day it was recorded" eg:"2026-11-03"`
	Notes    Text   `key:"notes" doc:"whether somebody has read the notes that were made from the recording, before customers do: heard stops the unit, and read says that everybody may read them" eg:"read" one:"heard|read"`
	ID       Text   `key:"id" doc:"what another host calls the recording, for the yard's video-link" eg:"walk-sb-1043"`
}

// A Photo is one photo with a text for people who cannot see it.
type Photo struct {
	Section
	File    Text   `key:"file" doc:"the photo's file, JPEG, PNG or WebP, as it comes from the phone" eg:"media/sb-1043-side.jpg" need:"yes"`
	Alt     Text   `key:"alt" doc:"what it shows, for people who cannot see it; shown below the photo if there is no caption" eg:"Left side from the front corner, tail raised"`
	Caption Text   `key:"caption" doc:"the text below the photo" eg:"The tail comes down flat to the ground"`
	Moment  Moment `key:"at" doc:"the moment of the recording that shows the same" eg:"2:14"`
}

// A Waiver turns the stops of one rule into published cautions until a day.
type Waiver struct {
	Section
	Rule   Text `key:"rule" doc:"the rule's name" eg:"relabel-due" need:"yes"`
	Reason Text `key:"reason" doc:"why the unit is published anyway; customers read it" eg:"the corrected label is on its way" need:"yes"`
	Until  Date `key:"until" doc:"the last day on which the waiver holds" eg:"2026-12-15" need:"yes"`
}

// A TieDown is one kind of place to tie to.
type TieDown struct {
	// Kind is the item's own key: stake pockets, d-rings.
	Kind Text
	// Count is how many there are.
	Count Count
	// Rating is the working load limit of each, if the author stated it.
	Rating Weight
}

// A Yard is content/yard.md: who sells, and the settings for the figures.
type Yard struct {
	File string
	Top  Pos
	// Broken reports whether the front matter could not be read at all.
	Broken bool
	// Sum is the SHA-256 digest of the file's bytes.
	Sum  [32]byte
	Body Body
	// example reports that every unit of the yard is an example.
	example bool

	Name       Text    `key:"name" doc:"what the yard is called" eg:"Sawbuck Trailer Yard" need:"yes"`
	Phone      Text    `key:"phone" doc:"the phone number on every page" eg:"555-0142"`
	Texts      Text    `key:"text" doc:"the number that takes text messages; without it no page has a Text button" eg:"555-0143"`
	Email      Text    `key:"email" doc:"the mail address" eg:"yard@sawbuck.example"`
	Street     Text    `key:"street" doc:"street and number" eg:"4100 County Road 9"`
	Town       Text    `key:"town" doc:"town and state" eg:"Dunnock Gap"`
	Directions Text    `key:"directions" doc:"an https link that shows the way to you, as a map gives it; without it the Directions button copies the street" eg:"https://map.example/?to=4100+County+Road+9"`
	State      Text    `key:"state" doc:"the state in which you sell, in two letters; the rule on brakes looks up this state's law" eg:"TX" one:"AL|AK|AZ|AR|CA|CO|CT|DE|DC|FL|GA|HI|ID|IL|IN|IA|KS|KY|LA|ME|MD|MA|MI|MN|MS|MO|MT|NE|NV|NH|NJ|NM|NY|NC|ND|OH|OK|OR|PA|RI|SC|SD|TN|TX|UT|VT|VA|WA|WV|WI|WY"`
	Hours      []Text  `key:"hours" doc:"when somebody is there" eg:"Monday to Friday, 8 to 5"`
	AsOf       Date    `key:"as-of" doc:"the day the stock was last walked; ages are counted to it" eg:"2026-11-20" need:"yes"`
	Address    Text    `key:"address" doc:"where the site is published: the https address of the folder that holds index.html; without it, whatever needs whole addresses is left out (canonical address, sitemap, feeds, link pictures)" eg:"https://sawbuck.example/trailers/"`
	Excludes   Text    `key:"price-excludes" doc:"what the prices leave out" eg:"tax, title and registration"`
	Allowance  Percent `key:"allowance" doc:"what the yard holds back from the payload" eg:"5%"`
	LookAgain  Wait    `key:"look-again-after" doc:"how long a listing may go without a new price or availability before you are asked to look at it again; 180 days if you leave this out" eg:"90 days"`
	VideoLink  Text    `key:"video-link" doc:"where another host plays a recording from a moment on: an address with {id} for the recording and {s} for seconds, {ms} for milliseconds or {hms} as in 0h1m12s" eg:"https://video.example/{id}?t={s}"`
	LotCopy    Flag    `key:"save-for-the-lot" doc:"whether a customer may save the yard page and trailers of their choice on a phone, for places without a signal; a saved page says how old it is. It is on unless you write no; then the next build removes the copies" eg:"no"`
	Spanish    Flag    `key:"spanish" doc:"whether customers get the site in Spanish too, under es/, with a link between the two on every page. The notes, titles and names that you write stay as you wrote them. A phone that is set to Spanish gets the Spanish pages on its first visit. It is off unless you write yes. Have somebody who speaks it read your pages first: no second reader has checked our Spanish yet" eg:"yes"`
	WordsES    []Text  `key:"words-es" doc:"words of the Spanish pages that you say in another way, each with = between the two; the list in docs/spanish.md has the words. The new word has the same gender as the old one: give its article where the list does not have it" eg:"camioneta = la troca"`
	Bands      Bands   `key:"tongue-band" doc:"how much of the loaded trailer's weight should be on the truck"`
}

// Bands are the tongue bands by kind of hitch. An empty one keeps the table's band.
type Bands struct {
	Section
	BumperPull Band `key:"bumper-pull" doc:"for bumper-pull trailers"`
	Gooseneck  Band `key:"gooseneck" doc:"for goosenecks"`
	FifthWheel Band `key:"fifth-wheel" doc:"for fifth-wheels"`
	Pintle     Band `key:"pintle" doc:"for pintle hitches"`
}

// A Band is a range of shares.
type Band struct {
	Section
	Least Percent `key:"least" doc:"the least" eg:"10%"`
	Most  Percent `key:"most" doc:"the most" eg:"15%"`
}
