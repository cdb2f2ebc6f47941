package elevation

import (
	"fmt"
	"strings"

	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// Words says what the drawing shows, for people who cannot see it or would rather read: what
// is measured, what has a usual shape, what is a guess. If there is no drawing, it says what
// to measure.
func Words(w *compute.Work) string {
	f, ok := factsOf(w)
	switch {
	case w == nil || w.Unit == nil:
		return ""
	case !ok && w.Space.Length.Given():
		return fmt.Sprintf("No drawing: a length of %s cannot be drawn. Measure the %s again.", w.Space.Length.Value.InInches(), w.Space.Name)
	case !ok:
		return fmt.Sprintf("No drawing: the length is not known. Measure the %s.", w.Space.Name)
	}
	return f.words()
}

// title is the title of the drawing in one line.
func (f *facts) title() string {
	if f.length.guess {
		return fmt.Sprintf("Side view to scale: %s, length of the %s not measured", f.kind.Noun, f.space)
	}
	return fmt.Sprintf("Side view to scale: %s, %s %s", f.kind.Noun, f.length.text(), f.space)
}

func (f *facts) words() string {
	var said []string
	say := func(format string, args ...any) { said = append(said, fmt.Sprintf(format, args...)) }

	say("Side view to scale, hitch at the left.")
	f.sayDeck(say)
	f.sayDetails(say)
	f.sayWheels(say)
	if f.ramps != "" {
		what := capital(f.ramps) + " ramps are"
		if f.ramps == "gate" {
			what = "The gate is"
		}
		say("%s drawn as stowed.", what)
	}
	f.sayGuesses(say)
	part := "Tongue, coupler"
	switch {
	case f.overTruck():
		part = "Neck, coupler"
	case f.hitch == "pintle":
		part = "Tongue, eye"
	}
	fenders := ""
	if f.fenders {
		fenders = ", fenders"
	}
	say("%s, jack%s and frame are drawn in a usual shape, not measured.", part, fenders)
	return strings.Join(said, " ")
}

func (f *facts) sayDeck(say func(string, ...any)) {
	f.sayHitch(say)
	if !f.length.guess {
		f.saySpace(say)
	}
}

func (f *facts) sayHitch(say func(string, ...any)) {
	hitch := map[string]string{"gooseneck": "Gooseneck", "fifth-wheel": "Fifth-wheel", "pintle": "Pintle hitch", "bumper-pull": "Bumper pull"}[f.hitch]
	point := f.point()
	if !f.hitchGuess && !f.front.guess && !f.length.guess {
		all := length{Inches: f.front.Inches + f.length.Inches, about: f.front.about || f.length.about}
		begins := "begins"
		if f.space == "bunks" {
			begins = "begin"
		}
		say("%s, %s from the %s's center to the rear edge; the %s %s %s behind the %s.", hitch, all.text(), point, f.space, begins, f.front.text(), point)
	} else if !f.hitchGuess {
		say("%s.", hitch)
	}
}

func (f *facts) saySpace(say func(string, ...any)) {
	inside := ""
	if f.space == "bed" || f.space == "box" {
		inside = " inside"
	}
	deck := capital(f.space) + " " + f.length.text() + inside
	if f.tailKind != "" && !f.tail.guess {
		deck += fmt.Sprintf(", the last %s of it %s", f.tail.text(), map[string]string{
			"hydraulic dovetail": "a hydraulic dovetail", "fixed dovetail": "a fixed dovetail", "tilt": "tilting"}[f.tailKind])
		if f.tailKind == "fixed dovetail" && !f.tailEnd.guess {
			deck += " down to " + f.tailEnd.inches()
		}
	}
	if !f.floor.guess {
		deck += ", " + f.floor.inches() + " above the ground"
	}
	if f.space != "deck" && f.sides.Inches > 0 && !f.sides.guess {
		before, after := highWords(f.space)
		deck += before + f.sides.inches() + after
	}
	say("%s.", deck)
	switch {
	case f.tailKind == "hydraulic dovetail":
		if _, ok := measure.Run(f.floor.Inches, f.tail.Inches); ok {
			say("The lowered tail is shown in broken lines.")
		}
	case f.tailKind == "tilt":
		if _, ok := measure.Run(f.floor.Inches, f.rear()-f.pivot()); ok {
			if f.pivotGiven() {
				say("The tilted position is shown in broken lines, about a pivot %s ahead of the rear edge.", f.pivotBack.Value)
			} else {
				say("The tilted position is shown in broken lines, with a guessed pivot.")
			}
		}
	}
}

// highWords are the words before and after the height of what is on the frame.
func highWords(space string) (before, after string) {
	switch space {
	case "bed":
		return ", sides ", " high"
	case "bunks":
		return ", stakes ", " high"
	case "box":
		return ", ", " high inside"
	}
	return ", ", " high"
}

func (f *facts) sayWheels(say func(string, ...any)) {
	if !f.axlesGuess {
		axles := measure.Count(f.axles) + " axles"
		if f.axles == 1 {
			axles = "1 axle"
		}
		if f.axles > 1 && !f.spacing.guess {
			axles += " " + f.spacing.inches() + " apart"
		}
		if !f.center.guess {
			if f.axles > 1 {
				axles += ", the middle of the group"
			} else {
				axles += ","
			}
			axles += " " + f.center.text() + " behind the " + f.point()
		}
		say("%s.", axles)
	}
	if f.tireText != "" {
		about := ""
		if f.tire.about {
			about = "about "
		}
		tires := fmt.Sprintf("Tires %s, %s%s across", f.tireText, about, f.tire.InInches())
		if f.dual {
			tires += ", two on each side of an axle (duals)"
		}
		say("%s.", tires)
	}
}

// sayGuesses names every dimension that a usual one replaces.
func (f *facts) sayGuesses(say func(string, ...any)) {
	missing := func(l length, what string) {
		switch {
		case !l.guess:
		case l.odd != "":
			say("%s cannot be %s; drawn as a guess, dashed.", what, l.odd)
		default:
			say("%s not measured, drawn as a guess, dashed.", what)
		}
	}
	if f.hitchGuess {
		say("Kind of hitch not stated, drawn as a guess, dashed.")
	}
	missing(f.length, "Length of the "+f.space)
	missing(f.front, "Front of the "+f.space)
	missing(f.floor, "Height of the "+f.space)
	if f.sides.Inches != 0 {
		what := "Height of the sides"
		switch f.space {
		case "hull":
			what = "Height of the hull"
		case "bin", "tank":
			what = "Height of the " + f.space
		case "bunks":
			what = "Height of the stakes"
		}
		missing(f.sides, what)
	}
	f.sayBearers(say, missing)
	if f.tailKind == "fixed dovetail" {
		missing(f.tailEnd, "Height of the tail's end")
	}
	if f.tailUnknown {
		say("Length of the tail not measured, so it is drawn flat.")
	}
	if f.tailKind == "tilt" {
		missing(f.tail, "Length of the tilting part")
	}
	if f.axlesGuess {
		say("Number of axles not known, drawn as a guess, dashed.")
	}
	missing(f.center, "Wheel position")
	if f.axles > 1 && !f.center.guess {
		missing(f.spacing, "Axle spacing")
	}
	if f.tire.odd != "" {
		say("Tire size %q cannot be read; drawn as a guess, dashed.", f.tire.odd)
	} else if f.tire.guess {
		say("Tire size not stated, drawn as a guess, dashed.")
	}
	if f.ramps != "" {
		missing(f.ramp, "Length of the ramps")
	}
}

// sayBearers names the guesses among what carries a hull or logs.
func (f *facts) sayBearers(say func(string, ...any), missing func(length, string)) {
	switch n := f.unit.Bunks.Count; {
	case f.space == "hull":
		what := "bunks"
		if f.unit.Hull.Support.Value == "rollers" {
			what = "rollers"
		}
		missing(f.bunk(), "Length of the "+what)
		if !f.unit.Hull.Stand.Given() {
			say("Winch stand not stated, drawn as a guess, dashed.")
		}
	case f.space == "bunks" && (n.Value < 2 || n.Value > 12):
		say("Number of bunks not stated, 2 drawn as a guess, dashed.")
	}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
