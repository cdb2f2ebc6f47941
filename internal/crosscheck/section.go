package crosscheck

import (
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/walkaround"
)

// designation is a rolled section as it is ordered: W10x22, MC12x10.6, C3x4.1. The letters are
// followed by the nominal depth in inches, and the x by the weight in pounds per foot (AISC
// Manual of Steel Construction, designations; from memory). A tube of 6x2 is not one of these:
// its second number is a width.
var designation = regexp.MustCompile(`^(W|S|M|C|MC|HP)([0-9]+(?:\.[0-9]+)?)X([0-9]+(?:\.[0-9]+)?)$`)

// spokenSection is what intake writes if nobody said the letters.
var spokenSection = regexp.MustCompile(`^(?:([0-9]+(?:\.[0-9]+)?) IN)? ?(?:([0-9]+(?:\.[0-9]+)?) LB/FT)?$`)

// section compares a section with the file's, as far as it was named. Other texts, such as a
// bent channel or a tube, are not compared.
func section(said walkaround.Section, stated string) (same, ok bool) {
	stated = strings.ToUpper(strings.TrimSpace(stated))
	var letters, depth, per string
	if m := designation.FindStringSubmatch(strings.ReplaceAll(stated, " ", "")); m != nil {
		letters, depth, per = m[1], m[2], m[3]
	} else if m := spokenSection.FindStringSubmatch(stated); m != nil {
		depth, per = m[1], m[2]
	}
	if depth == "" && per == "" {
		return false, false
	}
	is := func(said float64, text string) bool {
		if said == 0 || text == "" {
			return true // not named on one side
		}
		v, err := strconv.ParseFloat(text, 64)
		return err == nil && v == said
	}
	return (said.Shape == "" || letters == "" || said.Shape == letters) &&
		is(float64(said.Depth), depth) && is(float64(said.PerFoot), per), true
}
