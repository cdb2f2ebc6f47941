package oracle

import (
	"tarepage/internal/compute"
	"tarepage/internal/measure"
)

// A Vehicle is a truck or a trailer on the road: its ratings and its weight. Zero means
// that a value is not known.
type Vehicle struct {
	Rating measure.Pounds // GVWR
	Actual measure.Pounds // GVW, on the road
}

// Counts is the weight that counts for a license: the rating or the actual weight, whichever is
// greater (49 CFR 383.5).
func (v Vehicle) Counts() measure.Pounds { return max(v.Rating, v.Actual, 0) }

// A License is a federal class of commercial driver's license.
type License int

// The classes by weight. Class C goes by passengers and placards, which no scale shows.
const (
	NoClass License = iota
	ClassB
	ClassA
)

func (l License) String() string {
	return [...]string{"none by weight", "Class B", "Class A"}[l]
}

// Text says what a customer should do about it. It never says that no license is needed:
// states add classes of their own, and business use and placards have theirs.
func (l License) Text() string {
	if l == NoClass {
		return "below the federal weights of Class A and Class B; passengers, placards and states have rules of their own: ask your state"
	}
	return "a federal " + l.String() + " license may apply; ask your state"
}

// combined is the gross combination weight or rating, whichever is greater: the sum of
// ratings or weights in whatever mix is highest, or the truck maker's rating where that
// is on the certification label (49 CFR 383.5, "Gross combination weight rating").
func combined(truck Vehicle, labelGCWR measure.Pounds, towed []Vehicle) (all, behind measure.Pounds) {
	for _, v := range towed {
		behind += v.Counts()
	}
	all = truck.Counts() + behind
	if behind > 0 {
		// "The GCWR of the power unit will not be used ... when [it] is not towing".
		all = max(all, labelGCWR)
	}
	return all, behind
}

// LicenseClass is the federal class by weight: 49 CFR 383.5 and 383.91(a) (2015). Class A
// takes 26,001 lb combined with more than 10,000 lb towed, several towed units added up;
// Class B takes a truck of 26,001 lb by itself. labelGCWR is the combination rating
// printed on the truck's certification label, zero if there is none; one out of the
// owner's manual does not count.
func LicenseClass(truck Vehicle, labelGCWR measure.Pounds, towed ...Vehicle) License {
	all, behind := combined(truck, labelGCWR, towed)
	switch {
	case all >= compute.ClassAFrom && behind > compute.ClassATowed:
		return ClassA
	case truck.Counts() >= compute.ClassBFrom:
		return ClassB
	}
	return NoClass
}

// MayBeCommercial reports whether the combination reaches 10,001 lb, from where in
// interstate commerce the federal safety rules hold (49 CFR 390.5). Use that is no
// business is outside them.
func MayBeCommercial(truck Vehicle, labelGCWR measure.Pounds, towed ...Vehicle) bool {
	all, _ := combined(truck, labelGCWR, towed)
	return all >= compute.CommercialFrom
}
