package testyard

const yard = `---
name: Proving Ground Trailers
phone: 555-0177
email: yard@testyard.example
street: 12 Weighbridge Lane
town: Level Crossing
hours:
  - Monday to Friday, 8 to 5
as-of: ` + AsOf + `
price-excludes: tax, title and registration
allowance: 5%
---

Every trailer here was made up, and every number of it adds up.
`

var makes = []string{"Ropewalk Manufacturing", "Quernstone Fabricating", "Farthing & Pike", "Withy & Daughters", "Plumbline Body",
	"Drumlin Iron Works", "Teasel & Sons", "Tansy Gate Coachworks", "Stave & Hoop", "Culvert Steel"}

var colors = []string{"black", "gray", "red", "white", "charcoal", "yellow", "green", "silver", "blue", "red primer"}

var extras = []string{"wood deck", "one careful farm", "fresh off the truck", "with a spare", "new paint", "for the long road", "plain and straight",
	"LED lamps", "radius corners", "extra tie points", "sealed wiring", "low deck", "wide ramps", "the landscaper's choice", "farm kept"}

var standard = []string{"sealed wiring harness", "rub rail", "spare mount on the tongue", "LED lamps all round", "treated pine floor",
	"lockable toolbox", "safety chains with latches", "setback jack", "removable fender", "grease zerks on every hinge"}

var options = []string{"spare tire and wheel", "winch plate", "tall sides", "rear stabilizer legs", "hydraulic jack", "side step",
	"tarp and roller", "board brackets", "headache rack", "bulkhead"}

var headings = []string{"The frame", "The running gear", "What it is for", "What to look at", "Before you come", "On the road", "The deck", "The paperwork"}

var parts = []string{"main beams", "crossmembers", "floor boards", "fenders", "coupler", "breakaway battery", "ramps", "lamps", "wheel bearings", "decals"}

var states = []string{"straight", "as new", "touched up", "replaced by us", "a little rust", "greased", "checked twice", "shows wear"}

// Sentences of people who walk around a trailer. None of them states a measure, because
// measures belong in the front matter, where they are checked.
var sentences = []string{
	"The welds along the main beam are even from end to end and nobody ground them flat to hide anything.",
	"Pull the pin before you drop the jack, because the foot hangs on the plate if you forget it.",
	"We had the hubs open on the bench and packed them fresh before it went out on the line.",
	"The floor boards run the long way and every one of them is screwed, not nailed.",
	"Mind the wiring where it comes out of the tongue; it is tied up now, and it was not when it came.",
	"The ramps go up with one hand, and the springs do the rest of it for you.",
	"Somebody backed it into a post once, so the left rear corner has a scar that goes no deeper than the paint.",
	"Set the brake controller on an empty road before you load anything at all.",
	"The breakaway battery holds its charge, and the cable is long enough to reach the truck and not the ground.",
	"It tracks straight behind a half-ton truck and does not sway when you are passed by a semi.",
	"Stake pockets all the way down both sides, and a rub rail outside of them where the straps go.",
	"The tail comes down slowly by itself, which is how it should be, and it locks without a hammer.",
	"Look at the tongue with us before you buy, since that is where a hard life shows first.",
	"All four tires are the same brand and the same age, and the spare has never touched the road.",
	"The label is on the left side up front, and it reads clean; take a picture of it when you come.",
	"Lamps are sealed and every one of them works, which is more than most trailers on the road can say.",
	"We loaded a machine on it and drove it round the county block to hear whether anything rattles.",
	"Keep the heavy end of your load just ahead of the axles and the truck will thank you.",
	"The coupler latches with a clear sound, and the pin goes through without looking for the hole.",
	"There is a toolbox in the neck that locks, and both of the keys are still there.",
	"If you haul gravel, fill it to the line we painted and not to the top of the boards.",
	"The paint is powder over a blast, so it chips rather than peels, and a chip is easily touched up.",
	"A landscaper had it for two seasons, washed it every Friday and kept it under a roof.",
	"Ask your county about the plate, since what one asks for the next one has never heard of.",
	"The deck is low enough that you can set things over the side without a step.",
	"Both fenders are bolted on and not welded, so that you can take one off when it is bent.",
	"There is a winch plate up front with the holes drilled, and the winch is yours to choose.",
	"The crossmembers sit close together, and that is what you want under a machine with narrow tracks.",
	"On the scale it came out a little heavier than the sheet of the maker says, and we go by the scale.",
	"The gate folds flat, so the wind does not pull at it when you drive home empty.",
	"Grease the hinges twice a year and the ramps will outlive the floor.",
	"It came in on a trade against a larger one, and the man who had it sends his friends to us.",
	"Nothing on it is hidden: lie down and look, we have a board for that and a lamp.",
	"The wheels are balanced, which nobody does on a trailer, and you will notice it at speed.",
	"Straps and chains are not part of the deal, and neither is the advice, which is free.",
	"The jack is the kind that drops fast and then cranks, and it is rated for more than it will see.",
	"When the light is low you can see the tape on its sides from the far end of the yard.",
	"Tell us what you mean to haul and we will tell you honestly if this is too little or too much.",
	"Stand behind it and look down the sides: both run true to the end, as they ought to.",
	"The floor has a coat of oil on it and wants another one before the winter comes.",
}
