package inspect

import (
	"fmt"

	"tarepage/internal/compute"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// brakesFrom is the gross weight above which a trailer needs brakes, unless its state allows
// more.
const brakesFrom = compute.UnbrakedMost

const federalBrakes = "49 CFR 393.42(a), (b)(3) (2015), for commercial motor vehicles"

var brakesMissing = &Rule{
	Name: "brakes-missing", Severity: Stop,
	Title:  "a trailer over 3,000 lb has brakes, unless the yard's state allows it without",
	Why:    "The truck's brakes alone do not stop it. Many states ask for brakes below this weight too.",
	Source: federalBrakes + "; for others the states' laws, in the table of state brakes",
	Remedy: "fit brakes, or correct brakes.kind",
	check: func(c *Case, f *Findings) {
		gvwr, kind := c.Weights.GVWR, c.Brakes.Kind
		if !gvwr.Given() || kind.Spoiled || kind.Given() && kind.Value != "none" {
			return
		}
		row, known := c.stateBrakes()
		if gvwr.Value <= brakesFrom {
			if known && row.Asks(gvwr.Value) {
				f.add(c.brakesAt(), "no brakes, and gvwr is %s; %s", gvwr.Value, stateWords(row)).
					figures(gvwr.Value.String(), row.Weight.String()).
					also(gvwr.Pos, "gvwr is here").
					by(stateSource(row)).
					only(Caution).
					fix("ask your state, and tell the customer what it says")
			}
			return
		}
		if known && row.Allows(gvwr.Value) {
			f.add(c.brakesAt(), "no brakes, and gvwr is %s; %s, so here it may be towed without; other states and commercial use ask for brakes above 3,000 lb",
				gvwr.Value, stateWords(row)).
				figures(gvwr.Value.String(), row.Weight.String()).
				also(gvwr.Pos, "gvwr is here").
				by(stateSource(row)).
				only(Caution).
				fix("tell the customer, or fit brakes")
			return
		}
		none, fix := "no brakes", "fit brakes, or correct brakes.kind"
		if !kind.Given() {
			none, fix = "no brakes are given", "see what brakes it has, and write brakes.kind: electric, electric-over-hydraulic, surge, air or none"
		}
		fd := f.add(c.brakesAt(), "%s, and gvwr is %s; brakes are due above 3,000 lb", none, gvwr.Value).
			fix("%s", fix).
			figures(gvwr.Value.String(), "3,000 lb").
			also(gvwr.Pos, "gvwr is here")
		switch {
		case known:
			fd.Message += "; " + stateWords(row)
			fd.by(federalBrakes + "; " + stateSource(row))
		case c.Work.Settings.State == "":
			fd.fix("%s; if your state allows this weight without brakes, write state: in content/yard.md", fix)
		}
	},
}

// mayGoUnbraked reports whether the trailer's weight is known and no law that was looked at
// asks it for brakes.
func (c *Case) mayGoUnbraked() bool {
	gvwr := c.Weights.GVWR
	row, known := c.stateBrakes()
	return gvwr.Given() && (gvwr.Value <= brakesFrom || known && row.Allows(gvwr.Value))
}

// stateBrakes is the row of the yard's state, as it holds for a trailer of this kind.
func (c *Case) stateBrakes() (tables.StateBrakesRow, bool) {
	row, known := tables.StateBrakes(c.Work.Settings.State)
	if c.camper() {
		row = row.ForCamper()
	}
	return row, known
}

// camper reports whether it is a camper: by its kind, or by what only a camper's label gives.
func (c *Case) camper() bool {
	return c.Kind.Value == "camper" || c.Weights.Water.Given() || c.Weights.TongueLeast.Given() && c.Kind.Value != "boat"
}

// brakesAt is where the unit says what brakes it has, or else its weight.
func (c *Case) brakesAt() unit.Pos {
	switch {
	case c.Brakes.Kind.Given():
		return c.Brakes.Kind.Pos
	case c.Brakes.At.Known():
		return c.Brakes.At
	}
	return c.Weights.GVWR.Pos
}

// stateWords says from which weight on a state asks for brakes.
func stateWords(row tables.StateBrakesRow) string {
	words := "above"
	if row.From {
		words = "from"
	}
	what := ""
	if row.Camper == row.Weight {
		what = " on a camper"
	}
	out := fmt.Sprintf("%s asks for brakes%s %s %s gross", row.State, what, words, row.Weight)
	if row.Condition != "" {
		out += " (" + row.Condition + ")"
	}
	return out
}

// stateSource is where a row comes from, with its grade.
func stateSource(row tables.StateBrakesRow) string {
	return fmt.Sprintf("%s: %s; %s, grade %s, looked at on %s", row.State, row.Cite, row.Source, row.Grade, row.Checked)
}
