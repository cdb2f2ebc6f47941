package unit

import (
	"slices"
	"strings"
	"testing"

	"tarepage/internal/thorough"
)

// TestEverydayWords checks the table: each word once in a section, each path a key, no word a
// key where it is looked up.
func TestEverydayWords(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range everydays {
		for _, path := range e.paths() {
			if e.path != "" && keyNamed(path) == nil {
				t.Errorf("%s: there is no key %s", e.words, path)
			}
		}
		for _, w := range strings.Split(e.words, "|") {
			if plainWord(w) != w {
				t.Errorf("%q is looked up as %q", w, plainWord(w))
			}
			if seen[e.under+" "+w] {
				t.Errorf("%q is twice under %q", w, e.under)
			}
			seen[e.under+" "+w] = true
		}
	}
	for path, words := range choiceWords {
		k := keyNamed(path)
		if k == nil || k.choices == nil {
			t.Errorf("%s is not a key with choices", path)
			continue
		}
		for w, is := range words {
			if !slices.Contains(k.choices, is) || plainWord(w) != w || slices.ContainsFunc(k.choices, func(c string) bool { return sameWords(c, w) }) {
				t.Errorf("%s: %q is written %q", path, w, is)
			}
		}
	}
}

// TestAdvice reads keys that do not exist, as people write them.
func TestAdvice(t *testing.T) {
	for _, c := range []struct{ src, want string }{
		{"material: aluminum", "write it below frame: as material: aluminum"},
		{"tarp: yes", "write it below equipment: as tarp: roll tarp with a hand crank"},
		{"toolbox: 1", "write it below equipment: as tool-boxes: one in the tongue, lockable"},
		{"was: $9,000", "write it below offer: as was: $9,000, with a note after it such as (since 2026-08-01)"},
		{"vin: 1AB", "write it as serial: 1AB"},
		{"date-of-manufacture: 10/25", "write it as built: 10/25, with a note after it such as (tag)"},
		{"due: 2026-12-15", "write it as arrived: 2026-12-15"},
		{"max-load: 8,000 lb", "write it below weights: as max-load: 8,000 lb, with a note after it such as (plate)"},
		{"kingpin-setting: 36 in", "write it below hitch: as ahead: 36 in, with a note after it such as (tape)"},
		{"tongue-length: 5 ft", "write it below deck: as front: 5 ft"},
		{"axle-spread: 49 in", "write it below axles: as spacing: 49 in"},
		{"wheelbase: 20 ft", "write it below axles: as center: 20 ft"},
		{"gooseneck-ball: 2-5/16 in", "write it below hitch: as ball: 2-5/16 in"},
		{"inspection: 2026-06-12", "write it below wear: as inspected: 2026-06-12"},
		{"abs: yes", "write it below brakes: as abs: yes"},
		{"sold: yes", "write it as availability: sold; if it is for sale, delete the line"},
		{"spoken: yes", "write it as availability: spoken for; if it is for sale, delete the line"},
		{"layaway: Ann", "write it as availability: spoken for; if it is for sale, delete the line"},
		{"deposit taken: yes", "customers would read it, and this is not for them: delete the line, or put # in front of it, as in # deposit taken: ..., which stays in the file; your own sheet is a place for it too"},
		{"gatecode: 4471", "customers would read it, and this is not for them: delete the line, or put # in front of it, as in # gatecode: ..., which stays in the file; your own sheet is a place for it too"},
		{"status: zzz", "write it as availability: and one of these: on the yard, on order, spoken for, sold"},
		{"vin: 123", "write it as serial: 123"},
		{"lien: zzz", "write it below ownership: as state: and one of these: in hand, with the lender, applied for, lost"},
		{"mileage: 3,000", "write it in words below the second line of ---"},
		{"hitch:\n  wiring: 7-way", "write it as plug: 7-blade"},
		{"hitch:\n  color: red", "write it at the left edge as color: red"},
		{"deck:\n  material: oak", "write it below frame: as floor: oak"},
		{"outside-width: 102 in", "write it as overall-width: 102 in, with a note after it such as (tape)"},
		{"deck:\n  lenght: 18 ft", `did you mean "length"?`},
		{"wieghts:\n  gvwr: 7,000 lb", `did you mean "weights"?`},
		{"winches: 2", `did you mean "winch"?`},
		{"kayak-rack: fits two", "there is no key for a kayak rack; list it under standard: as '- kayak rack, fits two'"},
		{"bidet: yes", "there is no key for a bidet; list it under standard: as '- bidet'"},
		{"awnings: yes", "write it below equipment: as awning: 5 ft serving window"},
		{"rating: 7,000 lb", "say of what, for example hitch.rating, axles.rating, ramps.rating, winch.rating; write the section on a line of its own and rating: indented below it"},
		{"weights.gvwr: 7,000 lb", "write weights: on a line of its own, and gvwr: indented below it"},
		{"deck-size: 83 x 20", "write length: and width: below deck:, bed:, box: or what else carries the load"},
		{"ramp length: 5 ft", "write it below ramps: as length: 5 ft"},
		{"jack capacity: 12k", "write it below jack: as rating: 12,000 lb"},
		{"suspension type: slipper", "write it below axles: as suspension: and one of these: leaf spring, torsion, air ride, rubber block, none"},
		{"axle type: drop", "write it below axles: as shape: drop"},
		{"axle type: spring", "write it below axles: as suspension: leaf spring"},
		{"dovetail: 4 ft", "write it below deck: as tail: 4 ft"},
		{"dovetail: fixed", "write it below deck: as tail-kind: fixed dovetail"},
		{"side height: 24 in", "write it below sides: as height: 24 in"},
		{"rollers: 12", "write it below hull: as rollers: 12"},
		{"roof: one piece", "there is no key for a roof; list it under standard: as '- roof, one piece'"},
		{"primer: yes", "write it below frame: as finish: and one of these: paint, powder coat, galvanized, bare aluminum, undercoated, none"},
		{"neck: fixed", "write it below deck: as neck: fixed"},
		{"mso: yes", "write it below ownership: as paper: MSO"},
		{"hours: 10", "write it in words below the second line of ---"},
		{"row: 4", "write it for yourself on a line that begins with #, as in # row 4"},
		{"air conditioning: yes", "there is no key for air conditioning; list it under standard: as '- air conditioning'"},
		{"cash discount: $200", "write the price for cash, not the difference, below offer: as cash: $17,900"},
		{"weight:\n  gvwr: 7,000 lb", `did you mean "weights"?`},
		{"weight: 3,000 lb", "write it below weights: as empty: 3,000 lb, with a note after it such as (scale ticket 2026-11-03)"},
		{"d-rings: 8", "this goes under tie-downs, each on a line of its own after a dash"},
	} {
		_, problems := ReadUnit("content/units/a.md", []byte("---\n"+c.src+"\n---\n"))
		if len(problems) != 1 || problems[0].Rule != UnknownKey || problems[0].Remedy != c.want {
			t.Errorf("%q gives %+v, want %q", c.src, problems, c.want)
		}
	}
	for _, c := range []struct{ src, want string }{
		{"tail-kind: dovetail", "write it below deck: as tail-kind: fixed dovetail"},
		{"size: ST205/75R15", "write it below tires: as size: ST205/75R15"},
		{"width: 83 in (tape)", "write it below deck:, bed: or box: as width:; or at the left edge as overall-width: if it is that of the whole trailer"},
		{"tires:\n  sidewall: 3,520 lb", `write two lines, "  sidewall:" and "    single: 3,520 lb"`},
		{"tires:\n  sidewall.single: 3,520 lb", "write sidewall: on a line of its own, and single: indented below it"},
		{"price: 2300k", "write price: $2,300"},
		{"weights:\n  gvwr: 2300k (tag)", "write gvwr: 2,300 lb (tag)"},
		{"axles:\n  rating: 7k x 2", "write rating: 7,000 lb, and how many there are in a line of its own, count: 2"},
		{"axles:\n  rating: 2 x 7k (tag)", "write rating: 7,000 lb (tag), and how many there are in a line of its own, count: 2"},
		{"title: “76 in x 12 ft utility trailer”", "write title: 76 in x 12 ft utility trailer"},
		{"title: “Dump: 14 ft”", `write the line like this: title: "Dump: 14 ft"`},
		{"winch: electric, 12,000 lb", "write below it kind: electric and rating: 12,000 lb"},
		{"jack: 12k drop leg", "write its keys indented below, such as count: 2"},
		{"gate: combo", "write below it kind: barn doors and spreader"},
		{"lights: LED", "write below it led: yes"},
		{"dolly:\n  straps: 2", "write straps: yes; how many there are can be told under standard"},
		{"kind: cargo", "write kind: enclosed"},
		{"hitch:\n  kind: receiver", "write kind: bumper-pull"},
		{"hitch:\n  plug: 7-way", "write plug: 7-blade"},
		{"kind: spaceship", "write kind: and one of these words"},
	} {
		_, problems := ReadUnit("content/units/a.md", []byte("---\n"+c.src+"\n---\n"))
		if len(problems) != 1 || problems[0].Remedy != c.want {
			t.Errorf("%q gives %+v, want %q", c.src, problems, c.want)
		}
	}
	for _, src := range []string{"hitch:\n  kind: Bumper Pull", "frame:\n  finish: powder-coat", "hitch:\n  plug: 7 blade", "kind: car hauler"} {
		if _, problems := ReadUnit("content/units/a.md", []byte("---\n"+src+"\n---\n")); len(problems) > 0 {
			t.Errorf("%q gives %+v", src, problems)
		}
	}
}

// TestNoWallOfKeys: whatever the word, a message names eight keys at most.
func TestNoWallOfKeys(t *testing.T) {
	thorough.Only(t)
	words := []string{"zzzzzz", "foo", "extra thing", "x", "<<", "ladder", "special-features"}
	for _, e := range everydays {
		words = append(words, strings.Split(e.words, "|")...)
	}
	sections := []string{""}
	for _, k := range unitKeys().order {
		if k.kids != nil {
			sections = append(sections, k.name)
		}
	}
	for _, section := range sections {
		for _, w := range words {
			src := "---\n" + w + ": 1\n---\n"
			if section != "" {
				src = "---\n" + section + ":\n  " + w + ": 1\n---\n"
			}
			_, problems := ReadUnit("content/units/a.md", []byte(src))
			for _, p := range problems {
				if strings.Count(p.Remedy, ",") > mostNamed || len(p.Remedy) > 220 || strings.Contains(p.Remedy, "%!") {
					t.Errorf("%s under %q: %q", w, section, p.Remedy)
				}
			}
		}
	}
}

// TestSynonyms: an everyday word that can only mean one choice is read as that choice. One that
// leaves a doubt is asked about.
func TestSynonyms(t *testing.T) {
	for _, c := range []struct{ src, path, want string }{
		{"axles:\n  suspension: slipper springs", "axles.suspension", "leaf spring"},
		{"axles:\n  suspension: Torsion Axle (tag)", "axles.suspension", "torsion"},
		{"tank:\n  material: poly", "tank.material", "polyethylene"},
		{"hitch:\n  plug: 7-way RV", "hitch.plug", "7-blade"},
		{"hitch:\n  kind: 5th wheel", "hitch.kind", "fifth-wheel"},
		{"ramps:\n  kind: slide out", "ramps.kind", "slide-in"},
		{"frame:\n  finish: powder coated", "frame.finish", "powder coat"},
		{"box:\n  side-door: curb-side", "box.side-door", "right"},
		{"hitch:\n  plug: 7-way", "hitch.plug", ""},
		{"hoist:\n  power: hydraulic", "hoist.power", ""},
		{"kind: cargo trailer", "kind", ""},
		{"availability: pending", "availability", ""},
		{"ramps:\n  kind: ramp", "ramps.kind", ""},
	} {
		u, problems := ReadUnit("content/units/a.md", []byte("---\n"+c.src+"\n---\n"))
		text := u.fieldAt(c.path).Interface().(Text)
		if text.Value != c.want || text.Given() != (c.want != "") || len(problems) == 0 != (c.want != "") {
			t.Errorf("%q is %q: %+v", c.src, text.Value, problems)
		}
	}
	for path, words := range unsure {
		for _, w := range words {
			if w != "*" && choiceWords[path][w] == "" {
				t.Errorf("%s does not know %q", path, w)
			}
		}
	}
}

// TestUnknownKeyIsOneStop: what an everyday word means does not also count as missing.
func TestUnknownKeyIsOneStop(t *testing.T) {
	u, problems := ReadUnit("content/units/a.md", []byte("---\ngvw: 7,000 lb\ntrailer type: dump\nweight: 2,000 lb\naxle capacity: 3,500 lb\n---\n"))
	if len(problems) != 4 {
		t.Errorf("%+v", problems)
	}
	for _, m := range u.Missing() {
		if slices.Contains([]string{"weights.gvwr", "kind", "weights.empty", "axles.rating"}, m.Path) {
			t.Errorf("%s is missing too", m.Path)
		}
	}
	if u.Weights.GVWR.Given() || u.Kind.Given() {
		t.Error("an unknown key gave a value")
	}
}
