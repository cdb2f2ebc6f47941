package unit_test

import (
	"fmt"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

func problemLines(ps []unit.Problem) string {
	var b strings.Builder
	for _, p := range ps {
		fmt.Fprintf(&b, "%d:%d %s [%s]", p.At.Line, p.At.Column, p.Message, p.Rule)
		if p.Remedy != "" {
			fmt.Fprintf(&b, " fix: %s", p.Remedy)
		}
		for _, r := range p.Related {
			fmt.Fprintf(&b, " | %d:%d %s", r.At.Line, r.At.Column, r.What)
		}
		b.WriteByte('\n')
	}
	return strings.TrimSuffix(b.String(), "\n")
}

const (
	yamlFix  = " [file-unreadable] fix: look at this line and the one above it: each has a key, a colon, a blank and a value; keys of a section begin with two blanks; a value with a colon or a # in it is in quotation marks; what opens with a bracket or a quotation mark closes too"
	yamlSays = " the front matter does not read as YAML: "
	anchors  = ` begins with & or *, which is a mark of YAML's and not read here [value-unreadable] fix: put the value in quotation marks if the mark belongs to it; otherwise write the value out`
	tieFix   = " [value-unreadable] fix: write it like d-rings: 8 at 5,000 lb"
)

// Every way in which a file or a value fails to read: the place, the message, the rule,
// the remedy. Messages of the YAML reader itself are only held to their place.
func TestProblems(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"empty", "", "1:1 the file is empty [file-unreadable] fix: write the front matter between two lines of ---, or delete the file"},
		{"blank", " \n\t\n", "1:1 the file is empty [file-unreadable] fix: write the front matter between two lines of ---, or delete the file"},
		{"empty but for a BOM", "\ufeff", "1:1 the file is empty [file-unreadable] fix: write the front matter between two lines of ---, or delete the file"},
		{"blank behind a BOM", "\ufeff\r\n \r\n", "1:1 the file is empty [file-unreadable] fix: write the front matter between two lines of ---, or delete the file"},
		{"huge", strings.Repeat("x", unit.MostBytes+1), "1:1 the file has 1048577 bytes; a unit file stays below 1048576 [file-unreadable] fix: keep photos, captions and videos in media/ and name them here"},
		{"UTF-16 little end first", "\xff\xfe-\x00", "1:1 the file is in UTF-16 [file-unreadable] fix: save it as UTF-8: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"UTF-16 big end first", "\xfe\xff\x00-", "1:1 the file is in UTF-16 [file-unreadable] fix: save it as UTF-8: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"a word processor's file", "PK\x03\x04\x14\x00\x06\x00", "1:6 there is a zero byte here; this is not a text file [file-unreadable] fix: it is likely the file of a word processor; open it there, save it as plain text (.txt, UTF-8), and name that file .md"},
		{"zero byte", "---\ntitle: é\x00b\n---\n", "2:9 there is a zero byte here; this is not a text file [file-unreadable] fix: save it as UTF-8 text"},
		{"invalid byte", "---\ntitle: né caf\xe9\n---\n", "2:14 byte 0xe9 here is not UTF-8 [file-unreadable] fix: save the file as UTF-8; it was probably saved as Windows-1252: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"invalid byte, CRLF", "---\r\ntitle: x\r\ncolor: \xe9\r\n---\r\n", "3:8 byte 0xe9 here is not UTF-8 [file-unreadable] fix: save the file as UTF-8; it was probably saved as Windows-1252: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"invalid byte, lone CR", "---\rtitle: x\rcolor: \xe9\r---\r", "3:8 byte 0xe9 here is not UTF-8 [file-unreadable] fix: save the file as UTF-8; it was probably saved as Windows-1252: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"invalid byte in the body", "---\ntitle: x\n---\n\nté\xff", "5:3 byte 0xff here is not UTF-8 [file-unreadable] fix: save the file as UTF-8; it was probably saved as Windows-1252: in the editor choose Save As, and there UTF-8 as the encoding"},
		{"control", "---\ntitle: é\x01b\n---\n", "2:9 there is an invisible character (U+0001) here [file-unreadable] fix: delete the character; it came with a paste"},
		{"next line", "---\ntitle: a\u0085color: red\n---\n", "2:9 there is an invisible character (U+0085) here [file-unreadable] fix: delete the character; it came with a paste"},
		{"line separator", "---\ntitle: a\u2028b\n---\n", "2:9 there is an invisible character (U+2028) here [file-unreadable] fix: delete the character; it came with a paste"},
		{"second BOM", "\ufeff---\ntitle: \ufeffa\n---\n", "2:8 there is an invisible character (U+FEFF) here [file-unreadable] fix: delete the character; it came with a paste"},
		// UAX 9 names the marks that turn the direction of a text.
		{"turned text", "---\ntitle: a\u202eb\n---\n", "2:9 there is an invisible character (U+202E) here [file-unreadable] fix: delete the character; it came with a paste"},
		{"turned text by its number", "---\ntitle: a\n---\n\nIt is &#x202e;069,21 lb", "5:7 &#x202e; is an invisible character (U+202E) [file-unreadable] fix: delete it; it shows nothing to a reader and may turn a number round"},
		{"turned text, escaped", "---\ntitle: \"a\\u202eb\"\n---\n", "2:8 title holds an invisible character (U+202E) [value-unreadable] fix: write the value without it"},
		{"terminal escape, escaped", "---\ntitle: \"a\\e[31mb\"\n---\n", "2:8 title holds an invisible character (U+001B) [value-unreadable] fix: write the value without it"},
		{"words without end", "---\ntitle: a\n---\n" + strings.Repeat("*a_ ", 20000), "4:1 the words have 80000 bytes; they stay below 65536 [file-unreadable] fix: cut them to what a customer reads on a phone"},
		{"table without end", "---\ntitle: a\n---\n\n" + strings.Repeat("|", 31) + "\n", "5:1 there are 31 bars | on this line; a table has at most 30 [file-unreadable] fix: make a narrower table; nobody reads this one on a phone"},
		{"point for a comma", "---\nweights:\n  empty: 7.040 lb (scale ticket 2026-11-03)\n---\n", `3:10 weights.empty: weight "7.040 lb (scale ticket 2026-11-03)" can be read two ways; write 7,040 with a comma, or no more than two digits after the point [value-unreadable] fix: write empty: 7,040 lb (scale ticket 2026-11-03)`},
		{"no front matter", "\n# Title\n", `2:1 the file begins with "# Title" and has no front matter [file-unreadable] fix: begin the file with a line of ---, the keys, and a second line of ---`},
		{"long first line", strings.Repeat("é", 60), `1:1 the file begins with "` + strings.Repeat("é", 40) + `..." and has no front matter [file-unreadable] fix: begin the file with a line of ---, the keys, and a second line of ---`},
		{"never closed", "\n---\ntitle: a\n", "2:1 the front matter opens here and never closes [file-unreadable] fix: put a line of --- after the last key"},
		{"indented ---", "---\ntitle: |\n  a\n  ---\n  b\n---\n", "4:1 a line of --- that is indented closes the front matter here [file-unreadable] fix: take the indented --- out of the value; the closing line begins at the left edge"},
		{"no keys", "---\n---\nbody\n", "1:1 the front matter is empty [file-unreadable] fix: write the keys between the two lines of ---"},
		{"comments only", "\n---\n# nothing yet\n\n---\n", "2:1 the front matter is empty [file-unreadable] fix: write the keys between the two lines of ---"},
		{"list", "---\n- a\n---\n", "2:1 the front matter is not a list of keys [file-unreadable] fix: write each key on its own line: key: value"},
		{"words", "---\njust words\n---\n", "2:1 the front matter is not a list of keys [file-unreadable] fix: write each key on its own line: key: value"},

		{"tab indent", "---\ntitle: a\n\tkind: b\n---\n", `3:1 there is a tab in front of the line: kind: b [file-unreadable] fix: write the line like this:   kind: b`},
		{"second colon", "---\ntitle: a\nmake: b: c\n---\n", `3:7 there is a second colon with a blank after it: make: b: c [file-unreadable] fix: write the line like this: make: "b: c"`},
		{"open quote", "---\ntitle: \"a\nkind: dump\n---\n", `2:9 a quotation mark opens here and never closes: title: "a [file-unreadable] fix: write the line like this: title: "a"`},
		{"open brace", "---\ntitle: a\nhitch: {kind: x\n---\n", "4:1" + yamlSays + "*" + yamlFix},
		{"half dedent", "---\nhitch:\n    kind: x\n  ball: 2 in\n---\n", "3:1 the line does not begin where the others of its section do: kind: x [file-unreadable] fix: write the line like this, with 2 blanks in front:   kind: x"},
		{"two lines too far in", "---\nhitch:\n    kind: x\n    rating: 1 lb\n  ball: 2 in\n---\n", "5:1 the line does not begin where the others of its section do: ball: 2 in [file-unreadable] fix: write the line like this, with 4 blanks in front:     ball: 2 in"},
		{"a number sign alone", "---\nstock: #1043\n---\n", "2:7 stock has no value: a # with a blank in front of it begins a comment [value-unreadable] fix: write stock: 1043, without the #; a comment has a blank after its #"},
		{"percent", "---\ntitle: %a\n---\n", `2:8 a value cannot begin with this mark unless the value is in quotation marks: title: %a [file-unreadable] fix: write the line like this: title: "%a"`},
		{"at sign", "\n\n---\ntitle: @a\n---\n", `4:8 a value cannot begin with this mark unless the value is in quotation marks: title: @a [file-unreadable] fix: write the line like this: title: "@a"`},
		{"backtick", "---\ntitle: a\nmake: `a`\n---\n", "3:7 a value cannot begin with this mark unless the value is in quotation marks: make: `a` [file-unreadable] fix: write the line like this: make: \"`a`\""},
		{"unknown alias", "---\ntitle: a\nmake: *b\n---\n", `3:7 a value cannot begin with this mark unless the value is in quotation marks: make: *b [file-unreadable] fix: write the line like this: make: "*b"`},
		{"too deep", "---\n" + strings.Repeat("[", 20000) + "\n---\n", "2:10001" + yamlSays + "*" + yamlFix},

		{"alias", "---\ntitle: &a X\nmake: *a\n---\n", "2:8 title" + anchors + "\n3:7 make" + anchors},
		{"alias of a section", "---\nhitch: &h\n  kind: pintle\ndeck: *h\n---\n", "2:8 hitch" + anchors + "\n4:7 deck" + anchors},
		{"alias in a list", "---\nstandard:\n  - &a X\n  - *a\n---\n", "3:5 standard" + anchors + "\n4:5 standard" + anchors},
		{"merge key", "---\nhitch:\n  <<: {kind: pintle}\n---\n", `3:3 unknown key "<<" under hitch [unknown-key] fix: write the name of a key, as in title: 18 ft equipment trailer`},
		{"twice", "---\ntitle: a\nkind: dump\ntitle: b\n---\n", `4:1 key "title" is given twice [key-twice] fix: keep one of the two | 2:1 the other one is here`},
		{"twice in a section", "---\nhitch:\n  kind: pintle\n  ball: 2 in\n  kind: pintle\n---\n", `5:3 key "kind" is given twice [key-twice] fix: keep one of the two | 3:3 the other one is here`},
		{"unknown, near", "---\ntitel: a\n---\n", `2:1 unknown key "titel" at the top [unknown-key] fix: did you mean "title"?`},
		{"unknown, capital", "---\nTitle: a\n---\n", `2:1 unknown key "Title" at the top [unknown-key] fix: did you mean "title"?`},
		{"unknown, under", "---\nhitch:\n  raiting: 5 lb\n---\n", `3:3 unknown key "raiting" under hitch [unknown-key] fix: did you mean "rating"?`},
		{"unknown, elsewhere", "---\ngvwr: 5 lb\n---\n", `2:1 unknown key "gvwr" at the top [unknown-key] fix: write it below weights: as gvwr: 5 lb, with a note after it such as (tag)`},
		{"unknown, written with its section", "---\nweights.gvwr: 5 lb\n---\n", `2:1 unknown key "weights.gvwr" at the top [unknown-key] fix: write weights: on a line of its own, and gvwr: indented below it`},
		{"unknown, nowhere", "---\nweights:\n  zzzzzz: 1\n---\n", `3:3 unknown key "zzzzzz" under weights [unknown-key] fix: there is no key for a zzzzzz; list it under standard: as '- zzzzzz, 1'`},
		{"key of keys", "---\n{a: b}: c\n---\n", "2:1 a key here is not a plain word [unknown-key] fix: write key: value"},
		{"photo key", "---\nphotos:\n - file: a.jpg\n   atl: x\n---\n", `4:4 unknown key "atl" under photos [unknown-key] fix: did you mean "alt"?`},

		{"commas in { }", "---\nweights: {gvwr: 20,000 lb, empty: 7,040 lb}\n---\n",
			`2:20 inside { } the comma in "20,000 lb" ends the value [comma-splits-value] fix: write it in quotes, "20,000 lb", or put each key on its own line | 2:17 the value begins here` + "\n" +
				`2:37 inside { } the comma in "7,040 lb" ends the value [comma-splits-value] fix: write it in quotes, "7,040 lb", or put each key on its own line | 2:35 the value begins here`},
		{"two commas of one value", "---\nweights: {gvwr: 1,020,000 lb}\n---\n",
			`2:23 inside { } the comma in "1,020,000 lb" ends the value [comma-splits-value] fix: write it in quotes, "1,020,000 lb", or put each key on its own line | 2:17 the value begins here`},
		{"comma in a price", "---\n{title: a, price: $18,450, color: red}\n---\n",
			`2:23 inside { } the comma in "$18,450" ends the value [comma-splits-value] fix: write it in quotes, "$18,450", or put each key on its own line | 2:19 the value begins here`},
		{"comma in { } quoted", "---\nweights: {gvwr: \"20,000 lb\"}\n---\n", ""},

		{"section as text", "---\nhitch: gooseneck\n---\n", `2:8 hitch takes keys below it, not "gooseneck" [value-unreadable] fix: write below it kind: gooseneck`},
		{"section as list", "---\nhitch: [a]\n---\n", "2:8 hitch takes keys below it, not a list [value-unreadable] fix: write its keys indented below, such as kind: gooseneck"},
		{"value as keys", "---\nyear: {a: b}\n---\n", "2:7 year takes one value, not keys or a list [value-unreadable] fix: write it on one line, year: 2026"},
		{"value as list", "---\nyear: [a]\n---\n", "2:7 year takes one value, not keys or a list [value-unreadable] fix: write it on one line, year: 2026"},
		{"list as text", "---\nstandard: spare\n---\n", `2:11 standard takes a list, not "spare" [value-unreadable] fix: write it on a line of its own below standard:, with a dash and a blank in front: - spare`},
		{"list as keys", "---\nstandard: {a: b}\n---\n", "2:11 standard takes a list, not keys [value-unreadable] fix: write each item on a line of its own, with a dash and a blank in front"},
		{"list in a list", "---\nstandard:\n - [a]\n---\n", "3:4 standard takes one value, not keys or a list [value-unreadable] fix: write it on one line, standard: spare tire and wheel"},
		{"photo as text", "---\nphotos:\n - a.jpg\n---\n", `3:4 a photo takes keys, not "a.jpg" [value-unreadable] fix: write - file: media/a.jpg, and below file: a line alt: with what the photo shows`},
		{"tie-down as text", "---\ntie-downs:\n - rings\n---\n", "3:4 a tie-down takes its name and a count" + tieFix},
		{"two tie-downs in one", "---\ntie-downs:\n - a: 2\n   b: 3\n---\n", "3:4 a tie-down takes its name and a count" + tieFix},
		{"tie-down in words", "---\ntie-downs:\n - d-rings: some\n---\n", `3:13 tie-downs: "some" is not a count` + tieFix},
		{"tie-down rating bare", "---\ntie-downs:\n - d-rings: 8 at 5,000\n---\n", `3:13 tie-downs: weight "5,000" has no unit; write 5,000 lb or 5,000 kg` + tieFix},
		{"too many tie-downs", "---\ntie-downs:\n - d-rings: 1,000,000\n---\n", `3:13 tie-downs: "1,000,000" is not a count; write a whole number such as 8` + tieFix},

		{"count in words", "---\nyear: new\n---\n", `2:7 year: "new" is not a count; write a whole number such as 2026 [value-unreadable] fix: write it like year: 2026`},
		{"count with a slip of the comma", "---\nlights:\n  clearance: 8,8\n---\n", `3:14 lights.clearance: "8,8" is not a count; write a whole number such as 4 [value-unreadable] fix: write it like clearance: 4`},
		{"tie-downs with a point", "---\ntie-downs:\n - d-rings: 8 at 5.000 lb\n---\n", `3:13 tie-downs: weight "5.000 lb" can be read two ways; write 5,000 with a comma, or no more than two digits after the point [value-unreadable] fix: write it with a comma, d-rings: 8 at 5,000 lb`},
		{"price on call", "---\nprice: call\n---\n", `2:8 price: price "call" cannot be read: "call" is not a number; write $18,450 [value-unreadable] fix: leave the key out, and the page asks to call; or write price: $18,450 (since 2026-11-10)`},
		{"count below zero", "---\nyear: -1\n---\n", `2:7 year: "-1" is not a count; write a whole number such as 2026 [value-unreadable] fix: write it like year: 2026`},
		{"half an axle", "---\naxles:\n  count: 2.5\n---\n", `3:10 axles.count: "2.5" is not a count; write a whole number such as 2 [value-unreadable] fix: write it like count: 2`},
		{"hex", "---\nyear: 0x7E9\n---\n", `2:7 year: "0x7E9" is not a count; write a whole number such as 2026 [value-unreadable] fix: write it like year: 2026`},
		{"maybe", "---\nbrakes:\n  breakaway: maybe\n---\n", `3:14 brakes.breakaway: "maybe" is neither yes nor no [value-unreadable] fix: write breakaway: yes or breakaway: no; write other words under standard`},
		{"choice, near", "---\nkind: deckover\n---\n", `2:7 kind: "deckover" is not one of its values; did you mean "deck-over"? [value-unreadable] fix: write kind: deck-over`},
		{"choice, none near", "---\ncondition: rusty\n---\n", `2:12 condition: "rusty" is not one of its values; write new, used [value-unreadable] fix: write condition: and one of these words`},
		{"day, other order", "---\narrived: 11/2/2026\n---\n", `2:10 arrived: date "11/2/2026" is not written year-month-day; write 2026-11-02 [value-unreadable] fix: write arrived: 2026-11-02`},
		{"no such day", "---\narrived: 2026-02-30\n---\n", `2:10 arrived: date "2026-02-30" is not in the calendar: February 2026 has 28 days [value-unreadable] fix: write it like arrived: 2026-11-02`},
		{"no such week", "---\ntires:\n  made: week 54 2026\n---\n", `3:9 tires.made: date code "week 54 2026" does not read; write week 31 2026, or the four digits 3126 [value-unreadable] fix: write it like made: week 31 2026`},
		{"time in seconds", "---\nrecording:\n  length: 372\n---\n", `3:11 recording.length: time "372" cannot be read; write minutes and seconds, 6:12, or hours too, 1:02:03 [value-unreadable] fix: write it like length: 6:12`},
		{"bare weight", "---\nweights:\n  gvwr: 20000\n---\n", `3:9 weights.gvwr: weight "20000" has no unit; write 20000 lb or 20000 kg [value-unreadable] fix: write gvwr: 20,000 lb, if that is its unit`},
		{"several at once", "---\ntitel: a\nyear: new\nhitch:\n  kind: none\n---\n",
			`2:1 unknown key "titel" at the top [unknown-key] fix: did you mean "title"?` + "\n" +
				`3:7 year: "new" is not a count; write a whole number such as 2026 [value-unreadable] fix: write it like year: 2026` + "\n" +
				`5:9 hitch.kind: "none" is not one of its values; write bumper-pull, gooseneck, fifth-wheel, pintle [value-unreadable] fix: write kind: and one of these words`},
	} {
		u, ps := unit.ReadUnit("content/units/a.md", []byte(c.src))
		got, want := problemLines(ps), c.want
		if before, after, own := strings.Cut(want, "*"+yamlFix); own && after == "" {
			if !strings.HasPrefix(got, before) || !strings.HasSuffix(got, yamlFix) || strings.Contains(got, "\n") {
				t.Errorf("%s:\n%s\nwant\n%s", c.name, got, want)
			}
		} else if got != want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, want)
		}
		if broken := strings.Contains(want, "[file-unreadable]"); u.Broken != broken {
			t.Errorf("%s: broken is %v", c.name, u.Broken)
		}
		for _, p := range ps {
			if p.At.File != "content/units/a.md" {
				t.Errorf("%s: the place is in %q", c.name, p.At.File)
			}
		}
	}
}

// An empty key gives nothing and is not a problem; a needed one is missing at its place.
func TestEmptyKeys(t *testing.T) {
	u, ps := unit.ReadUnit("a.md", []byte("---\ntitle:\nhitch:\nstandard:\nphotos:\ncondition: \"\"\nyear: ~\nmake: null\nweights:\n  gvwr:\n  empty: 7 stone\n---\n"))
	if got, want := problemLines(ps), `11:10 weights.empty: weight "7 stone" is in "stone", which is not a unit of weight; write 24,000 lb or 10,886 kg [value-unreadable] fix: write it like empty: 7,040 lb (scale ticket 2026-11-03)`; got != want {
		t.Errorf("problems:\n%s\nwant\n%s", got, want)
	}
	if got := givenOf(u); len(got) != 0 {
		t.Errorf("given: %v", got)
	}
	var got []string
	for _, m := range u.Missing() {
		got = append(got, fmt.Sprintf("%s %d:%d %v", m.Path, m.At.Line, m.At.Column, m.Empty))
	}
	// weights.empty is there and does not read: its problem is told once, above.
	want := "title 2:1 true, stock 1:1 false, kind 1:1 false, condition 6:12 true, availability 1:1 false, hitch.kind 3:1 false, " +
		"axles.count 1:1 false, axles.rating 1:1 false, tires.size 1:1 false, tires.per-axle 1:1 false, weights.gvwr 10:3 true"
	if s := strings.Join(got, ", "); s != want {
		t.Errorf("missing:\n%s\nwant\n%s", s, want)
	}
}

// Every example of the format reads, with exactly the value's own key.
func TestExamplesOfTheFormat(t *testing.T) {
	for _, keys := range [][]unit.KeyDoc{unit.Keys(), unit.YardKeys()} {
		yard := keys[0].Path == "name"
		for _, k := range keys {
			if k.Doc == "" {
				t.Errorf("%s has no doc", k.Path)
			}
			if k.Kind == "section" || k.Path == "photos" || k.Path == "waive" || k.Path == "proof" {
				continue
			}
			examples := append([]string{k.Example}, k.Choices...)
			for _, eg := range examples {
				if eg == "" {
					t.Errorf("%s has no example", k.Path)
					continue
				}
				src := "---\n"
				parts := strings.Split(k.Path, ".")
				for i, p := range parts[:len(parts)-1] {
					src += strings.Repeat("  ", i) + p + ":\n"
				}
				last := parts[len(parts)-1]
				indent := strings.Repeat("  ", len(parts)-1)
				switch {
				case parts[0] == "photos" || parts[0] == "waive" || parts[0] == "proof":
					src += "  - " + last + ": " + eg + "\n"
				case k.Kind == "list":
					src += indent + last + ":\n" + indent + "  - " + eg + "\n"
				default:
					src += indent + last + ": " + eg + "\n"
				}
				src += "---\n"
				var ps []unit.Problem
				count := 0
				if yard {
					y, problems := unit.ReadYard("content/yard.md", []byte(src))
					ps, count = problems, len(givenIn(y))
				} else {
					u, problems := unit.ReadUnit("a.md", []byte(src))
					ps, count = problems, len(givenOf(u))
				}
				if len(ps) > 0 || count != 1 {
					t.Errorf("%s: %q gives %d values and\n%s", k.Path, eg, count, problemLines(ps))
				}
			}
		}
	}
}

// The fields that people write in several ways.
func TestFieldWritings(t *testing.T) {
	for _, c := range []struct {
		src  string
		path string
		want stated
	}{
		{"kind: Deck-Over", "kind", stated{Value: "deck-over", Raw: "Deck-Over"}},
		{"year: about 2,019 (said 1:02)", "year", stated{Value: 2019, About: true, From: "said 1:02", Raw: "about 2,019 (said 1:02)"}},
		{"serial: T-4471 (state-assigned)", "serial", stated{Value: "T-4471", From: "state-assigned", Raw: "T-4471 (state-assigned)"}},
		{"make: Works (of Alder Flats)", "make", stated{Value: "Works (of Alder Flats)", Raw: "Works (of Alder Flats)"}},
		{"title: |\n  two\n  lines", "title", stated{Value: "two lines", Raw: "two\nlines\n"}},
		{"tires: {made: DOT 3126}", "tires.made", stated{Value: unit.Week{Week: 31, Year: 2026}, Raw: "DOT 3126"}},
		{"tires: {made: \"3126\"}", "tires.made", stated{Value: unit.Week{Week: 31, Year: 2026}, Raw: "3126"}},
		{"tires: {made: about week 5 2019 (said 0:30)}", "tires.made", stated{Value: unit.Week{Week: 5, Year: 2019}, About: true, From: "said 0:30", Raw: "about week 5 2019 (said 0:30)"}},
		{"brakes: {breakaway: No}", "brakes.breakaway", stated{Value: false, Raw: "No"}},
		{"brakes: {breakaway: true}", "brakes.breakaway", stated{Value: true, Raw: "true"}},
		{"stock: 0123", "stock", stated{Value: "0123", Raw: "0123"}},
		{"stock: 1_000", "stock", stated{Value: "1_000", Raw: "1_000"}},
	} {
		u, ps := unit.ReadUnit("a.md", []byte("---\n"+c.src+"\n---\n"))
		got := givenOf(u)[c.path]
		got.Pos = unit.Pos{}
		if len(ps) > 0 || got != c.want {
			t.Errorf("%q gives %+v and\n%s\nwant %+v", c.src, got, problemLines(ps), c.want)
		}
	}
}

// Days and weeks against the calendar: 1 January 2026 was a Thursday, and ISO 8601
// week 1 of 2026 began on Monday 29 December 2025.
func TestCalendar(t *testing.T) {
	if got := (unit.Week{Week: 1, Year: 2026}).Days() - (unit.Day{Year: 2025, Month: 12, Day: 29}).Days(); got != 0 {
		t.Errorf("week 1 of 2026 begins %d days from 29 December 2025", got)
	}
	// ISO 8601: 2021-W01 began on Monday 4 January 2021; 2020 had a week 53, from 28 December.
	if got := (unit.Week{Week: 1, Year: 2021}).Days() - (unit.Day{Year: 2021, Month: 1, Day: 4}).Days(); got != 0 {
		t.Errorf("week 1 of 2021 begins %d days from 4 January 2021", got)
	}
	if got := (unit.Week{Week: 53, Year: 2020}).Days() - (unit.Day{Year: 2020, Month: 12, Day: 28}).Days(); got != 0 {
		t.Errorf("week 53 of 2020 begins %d days from 28 December 2020", got)
	}
	// Rata die of 1970-01-01 is 719,163 counted from 1, so 719,162 from 0 (Reingold and
	// Dershowitz, Calendrical Calculations).
	if got := (unit.Day{Year: 1970, Month: 1, Day: 1}).Days(); got != 719162 {
		t.Errorf("1970-01-01 is day %d", got)
	}
	if got := (unit.Day{Year: 2026, Month: 11, Day: 2}).Long(); got != "November 2, 2026" {
		t.Error(got)
	}
}

func TestNearest(t *testing.T) {
	names := []string{"gvwr", "empty", "tongue-empty", "rating", "ball-rating"}
	for word, want := range map[string]string{"gvw": "gvwr", "GVWR": "gvwr", "raiting": "rating", "emtpy": "empty", "tongue": "tongue-empty", "color": "", "": ""} {
		if got := unit.Nearest(word, names); got != want {
			t.Errorf("nearest to %q is %q, want %q", word, got, want)
		}
	}
}

// TestRenamedKeys: a key of an earlier version is a stop that names the new one.
func TestRenamedKeys(t *testing.T) {
	_, ps := unit.ReadYard("content/yard.md", []byte("---\nname: Yard\nas-of: 2026-11-20\nstale-after-days: 90\n---\n"))
	const remedy = "the key is called look-again-after now, and takes a unit: look-again-after: 90 days"
	if len(ps) != 1 || ps[0].Rule != unit.UnknownKey || ps[0].Remedy != remedy {
		t.Errorf("%+v", ps)
	}
}

func TestDays(t *testing.T) {
	for text, want := range map[string]unit.Days{"90 days": 90, "1 day": 1, "12 weeks": 84, "1 WEEK": 7, " 30days ": 30, "0 days": 0, "90": 0, "days": 0, "-1 days": 0, "1.5 days": 0, "12345 days": 0} {
		if got, err := unit.ParseDays(text); got != want || (err == nil) != (want > 0) {
			t.Errorf("%q is %d days, %v; want %d", text, got, err, want)
		}
	}
}
