package unit

import "testing"

// Each guess makes of its example what it says, the example does not read, and the guess does.
func TestGuesses(t *testing.T) {
	of := map[string]string{"9,900 lb (tag": "weights.gvwr", "1O,5l0 lb": "weights.gvwr", "9 900 lb": "weights.gvwr", "$3 995": "price", "3 995": "price", "1O,500": "price", "3,900": "price", "$6480 OBO": "price", "6.5k": "price", "9.9k (tag)": "weights.gvwr",
		"11/2/2026": "arrived", "17-11-2026": "arrived", "11/17/26": "arrived", "sold 11/20/26": "availability", "Sold to a neighbor": "availability", "Nov 2, 2026": "arrived", "2026/11/2": "arrived", "2026-17-11": "arrived",
		"7.040 lb (tag)": "weights.gvwr", "7,000 lb tag": "weights.gvwr", "2 x 3,500 lb (tag)": "axles.rating", "7k x 2 (tag)": "axles.rating", "2300k (tag)": "weights.gvwr", "2300k": "price", "18'6": "deck.length", "DOT A1B2 C3D4 1826": "tires.made", "equipment trailer": "kind", "4 tires": "tires.per-axle"}
	for _, g := range guesses {
		k := keyNamed(of[g.example])
		if k == nil {
			t.Fatalf("no key is named for %q", g.example)
		}
		l := new(Unit).leafAt(k.path)
		if err := l.read(g.example, k); err == nil {
			t.Errorf("%s: %q reads as it is", k.path, g.example)
		}
		if got := meantValue(l, k, g.example); got != g.meant {
			t.Errorf("%s: %q is taken for %q, want %q", k.path, g.example, got, g.meant)
		}
	}
	// What can be read two ways, or is another kind of thing, is not guessed at.
	for value, path := range map[string]string{"$6.480": "price", "5,200 or 4,900": "price", "call": "price", "11/12": "arrived", "13/13/2026": "arrived",
		"used, like new": "condition", "two": "tires.per-axle"} {
		k := keyNamed(path)
		if got := meantValue(new(Unit).leafAt(path), k, value); got != "" {
			t.Errorf("%s: %q is taken for %q", path, value, got)
		}
	}
}

// TestWhatNobodyKnows: what people write where they do not know a value is answered with what to
// do, and not with an example that invites to invent a number.
func TestWhatNobodyKnows(t *testing.T) {
	for _, c := range []struct{ path, value, message, remedy string }{
		{"weights.gvwr", "unknown", `weights.gvwr: "unknown" does not say why nobody knows it`, "go and look; if nobody can find out, write the reason after it, as in gvwr: unknown (the label is painted over)"},
		{"tires.load-range", "???", `tires.load-range: "???" does not say why nobody knows it`, "go and look; if nobody can find out, write the reason after it, as in load-range: unknown (the label is painted over)"},
		{"arrived", "n/a", `arrived: "n/a" is not a value`, "leave the line out until somebody knows it; or write arrived: 2026-11-02"},
		{"price", "$1O,500", `price: "$1O,500" has a letter where a digit belongs: the letter O or o is not a zero, and l or I is not a one`, "write price: $10,500"},
		{"weights.gvwr", "l4,000 lb (tag)", `weights.gvwr: "l4,000 lb (tag)" has a letter where a digit belongs: the letter O or o is not a zero, and l or I is not a one`, "write gvwr: 14,000 lb (tag)"},
		{"year", "2026 model", `year: "2026 model" is not a count; write a whole number such as 2026`, "write year: 2026"},
		{"weights.gvwr", "7K", `weights.gvwr: "7K" has no unit`, "write gvwr: 7,000 lb"},
		{"weights.gvwr", "7000 (tag)", `weights.gvwr: weight "7000 (tag)" has no unit; write 7000 lb or 7000 kg`, "write gvwr: 7,000 lb (tag), if that is its unit"},
		{"hitch.ball", "2 5/16", `hitch.ball: length "2 5/16" has no unit; write 2 5/16 ft, 2 5/16 in, 2 5/16 mm, 2 5/16 cm or 2 5/16 m`, "write ball: 2-5/16 in, if that is its unit"},
		{"axles.rating", "2 x 7,000 lb", `axles.rating: "2 x 7,000 lb" is several weights; the rating of one is written here`, "write rating: 7,000 lb, and how many there are in a line of its own, count: 2"},
		{"brakes.breakaway", "with battery", `brakes.breakaway: "with battery" is neither yes nor no`, "write breakaway: yes or breakaway: no; write other words under standard"},
		{"arrived", "2026-11-31", `arrived: date "2026-11-31" is not in the calendar: November 2026 has 30 days`, "write it like arrived: 2026-11-02"},
		{"arrived", "2026-13-02", `arrived: date "2026-13-02" is not in the calendar: there are 12 months`, "write arrived: 2026-02-13"},
		{"arrived", "2O26-11-02", `arrived: "2O26-11-02" has a letter where a digit belongs: the letter O or o is not a zero, and l or I is not a one`, "write arrived: 2026-11-02"},
	} {
		k, l := keyNamed(c.path), new(Unit).leafAt(c.path)
		err := l.read(c.value, k)
		if err == nil {
			continue // a text takes anything
		}
		if message, remedy := unreadable(l, k, c.value, err); message != c.message || remedy != c.remedy {
			t.Errorf("%s: %s\n%s; %s\nwant\n%s; %s", c.path, c.value, message, remedy, c.message, c.remedy)
		}
	}
}

// TestKeysOfItemsAtTheTop: a key that belongs to an item of a list is written at the top. The
// answer names the list, and none of them ends the program.
func TestKeysOfItemsAtTheTop(t *testing.T) {
	for list, of := range listKeys {
		for _, k := range of().order {
			for _, value := range []string{"A", "yes", "3:10", "media/side.jpg", "weights.gvwr", "2026-11-02"} {
				_, problems := ReadUnit("content/units/a.md", []byte("---\n"+k.name+": "+value+"\n---\n"))
				if len(problems) == 0 && keyNamed(k.name) == nil {
					t.Errorf("%s.%s at the top, %q, is read without a word", list, k.name, value)
				}
			}
		}
	}
	_, problems := ReadUnit("content/units/a.md", []byte("---\nalt: The left side\n---\n"))
	const want = "it belongs to one of the items of photos: write it as alt: The left side below the line that begins with a dash"
	if len(problems) == 0 || problems[0].Remedy != want {
		t.Errorf("alt at the top: %+v, want %q", problems, want)
	}
}
