package pagedata

import (
	"fmt"
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/phrases"
	"tarepage/internal/unit"
)

// given is a trailer of a few lines of front matter, whatever else it lacks.
func given(t *testing.T, front string) *Trailer {
	t.Helper()
	u, problems := unit.ReadUnit("content/units/ex-1.md", []byte("---\nstock: EX-1\n"+front+"---\n"))
	for _, p := range problems {
		if p.Rule == "unknown-key" || p.Rule == "value-unreadable" {
			t.Fatalf("%s: %s in\n%s", p.At, p.Message, front)
		}
	}
	return &Trailer{Lang: phrases.English, Unit: u, Work: compute.Unit(u, compute.SettingsOf(&unit.Yard{}))}
}

// TestRows: each row of a comparison says what the file says, joins what there is, and is empty
// where nothing was said.
func TestRows(t *testing.T) {
	rows := map[string]func(*Trailer) string{}
	nothing := given(t, "")
	for _, row := range comparison {
		rows[row.name] = row.of
		if got := row.of(nothing); got != "" && row.name != "kind" && row.name != "axles" && row.name != "hitch" {
			t.Errorf("%s of nothing: %q", row.name, got)
		}
	}
	for _, c := range []struct{ row, front, want string }{
		{"kind", "kind: dump\n", "Dump"},
		{"hitch", "hitch:\n  kind: gooseneck\n", "gooseneck"},
		{"hitch", "hitch:\n  kind: gooseneck\n  ball: 2-5/16 in\n", "gooseneck, 2-5/16 in ball"},
		{"width", "kind: utility\ndeck:\n  length: 14 ft\n  width: 77 in\n", "77 in"},
		{"width", "kind: utility\ndeck:\n  length: 14 ft\n  between-fenders: 77 in\n", "77 in between fenders (overall width not measured)"},
		{"width", "kind: utility\noverall-width: 101 in\ndeck:\n  length: 14 ft\n  between-fenders: 77 in\n", "77 in between fenders"},
		{"overall-width", "overall-width: 101 in\n", "101 in"},
		{"overall-length", "overall-length: 22 ft\n", "22 ft"},
		{"overall-height", "overall-height: 90 in\n", "90 in"},
		{"max-load", "weights:\n  max-load: 5,000 lb (plate)\n", "5,000 lb"},
		{"loaded", "weights:\n  loaded: 9,000 lb (scale ticket 2026-11-03)\n  loaded-with: gravel\n", "9,000 lb, gravel"},
		{"concentrated", "deck:\n  concentrated: 20,000 lb\n", "20,000 lb"},
		{"concentrated", "deck:\n  concentrated: 20,000 lb\n  concentrated-length: 10 ft\n", "20,000 lb on 10 ft"},
		{"holds", "tank:\n  volume: 500 gal\n  liquid: diesel\n", "500 gal, diesel"},
		{"holds", "bed:\n  volume: 320 bu\n  traps: 2\n", "320 bu, 2 traps"},
		{"holds", "bed:\n  traps: 1\n", ""},
		{"holds", "bin:\n  largest: 14 cu yd\n", "14 cu yd"},
		{"axles", "axles:\n  count: 1\n  rating: 3,500 lb\n", "3,500 lb"},
		{"axles", "axles:\n  count: 2\n  rating: 3,500 lb\n", "2 x 3,500 lb"},
		{"tires", "tires:\n  size: ST205/75R15\n", "ST205/75R15"},
		{"tires", "tires:\n  size: ST205/75R15\n  load-range: C\n", "ST205/75R15 load range C"},
		{"brakes", "brakes:\n  kind: air\n  abs: yes\n", "air, ABS"},
		{"brakes", "brakes:\n  kind: air\n  abs: no\n", "air, no ABS"},
		{"brakes", "brakes:\n  kind: electric\n", "electric"},
		{"suspension", "axles:\n  suspension: torsion\n", "torsion"},
		{"tail", "deck:\n  tail-kind: fixed dovetail\n", "fixed dovetail"},
		{"ramps", "ramps:\n  length: 5 ft\n", ""},
		{"ramps", "ramps:\n  kind: slide-in\n", "slide-in"},
		{"ramps", "ramps:\n  kind: slide-in\n  length: 5 ft\n", "slide-in, 5 ft"},
		{"plug", "hitch:\n  plug: 7-blade\n", "7-blade"},
		{"rear-opening", "box:\n  door-width: 90 in\n  door-height: 80 in\n", "90 in x 80 in"},
		{"rear-opening", "box:\n  door-width: 90 in\n", ""},
		{"side-door", "box:\n  side-door: right\n  side-door-width: 32 in\n", "right, 32 in"},
		{"nose", "box:\n  nose: V-nose\n  nose-length: 2 ft\n", "V-nose, 2 ft"},
		{"gate", "gate:\n  kind: spreader\n", "spreader"},
		{"sides", "sides:\n  kind: solid\n  height: 24 in\n", "solid, 24 in"},
		{"frame", "frame:\n  material: steel\n  finish: paint\n", "steel, paint"},
		{"frame", "frame:\n  finish: paint\n", "paint"},
		{"fenders", "frame:\n  fenders: drive-over\n", "drive-over"},
		{"winch", "winch:\n  count: 2\n  kind: hand\n  rating: 2,000 lb\n", "2 winches, hand, 2,000 lb"},
		{"winch", "winch:\n  count: 1\n  kind: hand\n", "hand"},
		{"hoist", "hoist:\n  kind: scissor\n  rating: 12,000 lb\n", "scissor, 12,000 lb"},
		{"tarp", "equipment:\n  tarp: roll tarp\n", "roll tarp"},
		{"spare", "tires:\n  spare-size: ST205/75R15\n  spare-place: mounted\n", "ST205/75R15, mounted"},
		{"warranty", "warranty: one year\n", "one year"},
		{"inspected", "wear:\n  inspected: 2026-03-18\n", "March 18, 2026"},
		{"paper", "ownership:\n  paper: title\n  state: in hand\n", "title, in hand"},
		{"tread", "wear:\n  tread: 9/32 in\n", "9/32 in"},
		{"with-the-price", "price: $5,200\noffer:\n  cash: $5,000\n", "$5,000 cash"},
	} {
		if got := rows[c.row](given(t, c.front)); got != c.want {
			t.Errorf("%s of\n%s%q, want %q", c.row, c.front, got, c.want)
		}
	}
}

// TestOffer: what goes with a price, in the order in which people say it; nothing goes with a
// trailer that is sold.
func TestOffer(t *testing.T) {
	const all = "price: $5,200 (since 2026-11-20)\noffer:\n  best-offer: yes\n  cash: $5,000\n  was: $5,900 (since 2026-09-01)\n  plus: freight\n  tax-included: no\n  financing: none\n"
	for front, want := range map[string]string{
		all:                               "or best offer; $5,000 cash; was $5,900 since September 1, 2026; plus freight; tax not included; none",
		"availability: sold\n" + all:      "",
		"offer:\n  tax-included: yes\n":   "tax included",
		"offer:\n  plus: setup\n":         "plus setup",
		"offer:\n  best-offer: no\n":      "",
		"price: $5,200\n":                 "",
		"offer:\n  financing: on terms\n": "on terms",
	} {
		if got := Offer(phrases.English, given(t, front).Unit); got != want {
			t.Errorf("%s: %q, want %q", front, got, want)
		}
	}
}

// TestSizesAtTheSteps: a chip for every value while there are few, and steps of 1,000, 2,500 and
// 5,000 lb for the ratings of many axles.
func TestSizesAtTheSteps(t *testing.T) {
	var files []string
	for i := range 40 {
		files = append(files, trailer("EX-1", fmt.Sprintf("EX-%d", i), "3,500 lb (tag)", fmt.Sprintf("%d lb (tag)", 2000+i*517)))
	}
	list := read(t, files...)
	f := axles(phrases.English, list)
	for _, c := range f.Chips {
		from, to, ok := strings.Cut(c.Label, " to ")
		if !ok || from == "" || !strings.HasSuffix(to, " lb") {
			t.Errorf("the chip %+v", c)
		}
	}
	if len(f.Chips) < 2 || len(f.Chips) > 12 {
		t.Errorf("%d chips: %s", len(f.Chips), chipsOf(f))
	}
	for i, at := range f.of {
		v := 2000 + float64(i)*517
		var start float64
		if _, err := fmt.Sscan(f.Chips[at].Value, &start); err != nil || v < start || at+1 < len(f.Chips) && v >= nextStart(t, f, at) {
			t.Errorf("%v lb is in the chip %+v", v, f.Chips[at])
		}
	}
}

func nextStart(t *testing.T, f Facet, at int) (v float64) {
	t.Helper()
	if _, err := fmt.Sscan(f.Chips[at+1].Value, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// TestTerms divides words as a search does, and counts them as a script does (ECMA-262, 6.1.4:
// a text is made of 16-bit units, so a character above U+FFFF has two).
func TestTerms(t *testing.T) {
	if got := strings.Join(terms("Deck-over\r\n20 ft; \"new\"\u00a0tires\u2028x"), "|"); got != "deck|over|20|ft|new|tires|x" {
		t.Errorf("%s", got)
	}
	for text, want := range map[string]int{"": 0, "ab": 2, "zwölf": 5, "\uffff": 1, "\U00010000": 2, "🚜x": 3} {
		if got := utf16Len(text); got != want {
			t.Errorf("%q has %d", text, got)
		}
	}
}
