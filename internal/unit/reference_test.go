package unit_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"tarepage/internal/unit"
)

var update = flag.Bool("update", false, "write docs/unit-file.md from the format")

const referenceFile = "../../docs/unit-file.md"

// TestReference holds the reference page of the format to the format itself.
func TestReference(t *testing.T) {
	want := reference()
	if *update {
		if err := os.MkdirAll("../../docs", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(referenceFile, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(referenceFile)
	if err != nil || string(got) != want {
		t.Errorf("docs/unit-file.md is not what the format says (%v); run\n\tgo test ./internal/unit -run Reference -update", err)
	}
}

const introduction = `# The unit file

One trailer is one Markdown file in ` + "`content/units/`" + `: first the facts, between two lines
of ` + "`---`" + `, then the words. The facts are YAML: a key, a colon, a value, and sections
indented by two spaces. The words are CommonMark.

This page is made from the code that reads the file; a test fails when the two differ.

## How values are written

**With their unit, as people write them.** A bare number is not accepted; the message
names the units that it could have.

| takes | written |
| --- | --- |
| weight | ` + "`24,000 lb`, `24000 lbs`, `24k lb`, `10,886 kg`" + ` |
| length | ` + "`28 ft`, `83 in`, `8 ft 6 in`, `8'6\"`, `2-5/16 in`, `812 mm`, `9.75 m`, `20 ft + 8 ft`" + ` |
| pressure | ` + "`80 psi`, `550 kPa`, `5.5 bar`" + ` |
| volume | ` + "`1,000 gal`, `3,785 L`, `450 bu`, `20 cu yd`" + ` |
| money | ` + "`$18,450`" + ` |
| share | ` + "`5%`" + ` |
| count | a whole number: ` + "`2`" + ` |
| date | year-month-day: ` + "`2026-11-02`" + ` |
| production week | ` + "`week 31 2026`" + `, or the date code's last four digits, ` + "`3126`" + ` |
| month | ` + "`10/2025`, `10/25`, `2025-10`" + ` |
| time in the recording | ` + "`6:12`, `1:02:03`" + ` |
| days | ` + "`90 days`, `12 weeks`" + ` |
| yes or no | ` + "`yes`, `no`" + ` |
| choice | one of the words listed |
| text | any words; put them in quotes if they hold a colon followed by a space, or begin with a mark such as @, %, & or * |

**` + "`about`" + ` in front** keeps the number and marks it, and every figure worked from it, as
approximate.

**Where it comes from follows in parentheses:** ` + "`20,000 lb (tag)`" + `. The program knows tag,
coupler plate, axle tag, sidewall, stamp, scale ticket with its date, tape, maker's sheet,
said with its time in the recording, and estimate. Any other words are kept and shown. What
was only said is not trusted for a rating until somebody has read the rating itself.

**A figure that nobody knows** is written with the reason: ` + "`gvwr: unknown (the label is\npainted over)`" + `, or in quotes ` + "`gvwr: \"unknown: the label is painted over\"`" + `. Figures that need it
then say why they are not known, and a model does not fill it in. A used trailer can be listed
without its ratings that way; a new one cannot. Yes or no and a count take it too: ` + "`breakaway: unknown\n(nobody has looked)`" + `. The page says "not known" with your reason. A breakaway device or a sidewall that
nobody has looked at is then a caution on a used trailer and on one that has not come yet, and a
stop on a new one in the yard, where somebody can look. What is unknown never helps a trailer. An
axle with an unknown number of tires counts as having the fewest, two. Where the number of axles or their
rating is unknown, or a MAX LOAD plate is there and cannot be read, the page shows no payload. It names
every other limit that nobody knows.

**What a model fills in** is shown as from the model. Somebody read the model's label or
measured its deck, not this trailer's.

**Since when** goes in the same place, after a price and an availability:
` + "`price: $18,450 (since 2026-11-10)`" + `, ` + "`availability: sold (since 2026-11-18)`" + `. Write the day
again whenever you change the price: the site keeps no clock and no memory, so this day is how
the feeds tell their readers that something changed.

**Inside { } a comma ends the value.** Quote a number with a thousands comma there, or put
each key on its own line.

**Write each key once.** A key that is not listed here stops the unit; the message names
the nearest one that is.

**A model fills in what the unit leaves out,** key by key: ` + "`model: oxbow-20k`" + ` takes from
` + "`content/models/oxbow-20k.md`" + `, which is written like a unit. A name without such a
file is the maker's own (` + "`RG-35`" + `), and fills in nothing. Stock number, serial, photos,
proofs and recording never come from a model. Neither does what is molded on a tire, if the unit states a
size, a load range or a sidewall of its own.

**A photo proves a value** where ` + "`proof`" + ` names both: ` + "`file: media/sb-1043-label.jpg`" + `, ` + "`shows: label`" + `,
` + "`proves: weights.gvwr, axles.rating`" + `. A key is written with its section in front and a period between the two. If the value's parentheses say where it comes from, the photo must show the same.

**In the words,** a paragraph or list item that begins with a time (` + "`1:12`" + `) is a timed note.
A link whose address is ` + "`worked:`" + ` and a figure's name is a checked figure:
` + "`[12,960 lb](worked:tag-payload)`" + ` must agree with what is worked out, to the precision written
(` + "`about`" + ` allows 2.5%), and ` + "`[?](worked:tag-payload)`" + ` is filled in. Raw HTML is left out.

**A line that begins with # in the facts** is a note to yourself. If your editor completes keys in
YAML files, ` + "`editor-help`" + ` writes the JSON Schemas that it needs and prints the line that
points to them.

`

// reference is docs/unit-file.md.
func reference() string {
	var b strings.Builder
	b.WriteString(introduction)
	b.WriteString("## The keys of a unit\n\nKeys marked \"yes\" under needed must be there before a unit is published; some only for the kinds\nof trailer named there.\n\n")
	tables(&b, unit.Keys())
	b.WriteString("## The keys of the yard\n\n`content/yard.md` says who sells, and holds the settings that the figures use. It is\nwritten the same way.\n\n")
	tables(&b, unit.YardKeys())
	return strings.TrimRight(b.String(), "\n") + "\n"
}

// tables writes a table for the keys at the top and one for each section, in the
// format's own order.
func tables(b *strings.Builder, keys []unit.KeyDoc) {
	section := func(path string) string {
		if i := strings.LastIndexByte(path, '.'); i >= 0 {
			return path[:i]
		}
		return ""
	}
	docs := map[string]string{}
	order := []string{""}
	rows := map[string][]unit.KeyDoc{}
	for _, k := range keys {
		rows[section(k.Path)] = append(rows[section(k.Path)], k)
		if k.Kind == "section" || k.Path == "photos" || k.Path == "proof" || k.Path == "waive" {
			docs[k.Path] = k.Doc
			order = append(order, k.Path)
		}
	}
	for _, path := range order {
		if len(rows[path]) == 0 {
			continue
		}
		if path != "" {
			fmt.Fprintf(b, "### %s\n\n%s.\n\n", path, strings.ToUpper(docs[path][:1])+docs[path][1:])
		}
		b.WriteString("| key | takes | what | example | needed |\n| --- | --- | --- | --- | --- |\n")
		for _, k := range rows[path] {
			takes, example, needed := k.Kind, "", ""
			if len(k.Choices) > 0 {
				takes = "one of: " + strings.Join(k.Choices, ", ")
			}
			if k.Example != "" {
				example = "`" + k.Example + "`"
			}
			if k.Needed {
				needed = "yes"
			} else if len(k.NeededBy) > 0 {
				needed = "for " + strings.Join(k.NeededBy, ", ")
			}
			fmt.Fprintf(b, "| %s | %s | %s | %s | %s |\n", strings.TrimPrefix(k.Path, path+"."), takes, k.Doc, example, needed)
		}
		b.WriteByte('\n')
	}
}
