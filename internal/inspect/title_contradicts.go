package inspect

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var titleContradicts = &Rule{
	Name: "title-contradicts", Severity: Stop,
	Title:  "the title agrees with the file about hitch, axles, brakes, tires, year and condition",
	Why:    "The title is what a customer reads first, and the feeds and link cards repeat it. Then somebody drives out for a gooseneck and finds a bumper-pull.",
	Source: Practice,
	Remedy: "correct the title, or the value that it contradicts",
	check: func(c *Case, f *Findings) {
		if !c.Title.Given() {
			return
		}
		for _, t := range titleClaims {
			says, is, at := t.against(c)
			if says == "" {
				continue
			}
			f.add(c.Title.Pos, "the title says %s; %s is %s", says, t.what, is).figures(says, is).also(at, "it is given here")
		}
	},
}

// A titleClaim is one thing that titles say. Against returns what the title says, what the
// file says and where, or nothing where the two agree or one is silent.
type titleClaim struct {
	what    string
	against func(*Case) (says, is string, at unit.Pos)
}

// A tradeWord is a word of the trade with the value of the unit file that it means.
type tradeWord struct {
	form *regexp.Regexp
	is   string
}

func words(form, is string) tradeWord {
	return tradeWord{regexp.MustCompile(`(?i)\b(?:` + form + `)\b`), is}
}

// oneOf compares the values that the title names with the one in the file. A title that
// names several and the right one among them ("gooseneck or bumper-pull") says nothing wrong.
func oneOf(field func(*Case) unit.Text, list ...tradeWord) func(*Case) (string, string, unit.Pos) {
	return func(c *Case) (says, is string, at unit.Pos) {
		t := field(c)
		if !t.Given() {
			return "", "", at
		}
		for _, n := range list {
			m := n.form.FindString(c.Title.Value)
			if m == "" {
				continue
			}
			if slices.Contains(strings.Split(n.is, "|"), t.Value) {
				return "", "", at
			}
			if says == "" {
				says = m
			}
		}
		return says, t.Value, t.Pos
	}
}

var titleClaims = []titleClaim{
	{"the hitch", func(c *Case) (says, is string, at unit.Pos) {
		if c.Kind.Value == "lowboy" || c.Kind.Value == "container-chassis" {
			return titleHitch("gooseneck|fifth-wheel")(c) // a gooseneck there is the shape of its frame
		}
		return titleHitch("gooseneck")(c)
	}},
	{"the condition", oneOf(func(c *Case) unit.Text { return c.Condition },
		words(`used|pre-?owned`, "used"), words(`brand[\s-]new`, "new"))},
	{"the brakes' kind", oneOf(func(c *Case) unit.Text { return c.Brakes.Kind },
		words(`electric[\s-]over[\s-]hydraulic(?:\s+(?:disc|drum))?(?:\s+brakes?)?|EOH`, "electric-over-hydraulic"),
		words(`surge(?:\s+(?:disc|drum))?\s+brakes?`, "surge"), words(`air\s+(?:disc\s+|drum\s+)?brakes?`, "air"),
		words(`hydraulic\s+(?:disc\s+|drum\s+)?brakes?`, "electric-over-hydraulic|surge"),
		words(`electric\s+(?:drum\s+|disc\s+)?brakes?`, "electric|electric-over-hydraulic"), words(`no\s+brakes|without\s+brakes`, "none"))},
	{"the suspension", oneOf(func(c *Case) unit.Text { return c.Axles.Suspension },
		words(`torsion`, "torsion"), words(`leaf[\s-]springs?|spring\s+axles?`, "leaf spring"), words(`air[\s-]ride`, "air ride"))},
	{"the load range", titleLoadRange},
	{"the number of axles", titleAxles},
	{"the axles' rating", titleAxleRating},
	{"the load range", titlePly},
	{"the number of tires on an axle", titleDuals},
	{"the tail's length", titlePart(`(?:fixed\s+|hydraulic\s+|self[\s-]cleaning\s+)?(?:dove\s?tail|beaver\s?tail|tail)`, func(c *Case) unit.Length { return c.Deck.Tail })},
	{"the height of the sides", titlePart(`(?:solid\s+|steel\s+)?(?:sides?|sided)`, func(c *Case) unit.Length { return c.Bed.Height })},
	{"the ball", titleBall},
	{"the model year", titleYear},
	{"the payload", titlePayload},
}

// titleHitch compares the hitch in a title with the unit's. Gooseneck is what that word may mean.
func titleHitch(gooseneck string) func(*Case) (says, is string, at unit.Pos) {
	return oneOf(func(c *Case) unit.Text { return c.Hitch.Kind },
		words(`goose-?neck`, gooseneck), words(`bumper[\s-]?pull|tag-?along`, "bumper-pull"), words(`fifth[\s-]wheel|5th[\s-]wheel`, "fifth-wheel"), words(`pintle`, "pintle"))
}

var titleRange = regexp.MustCompile(`(?i)\b(?:load[\s-]range|LR)[\s-]*([A-N])\b`)

func titleLoadRange(c *Case) (says, is string, at unit.Pos) {
	t := c.Tires.LoadRange
	m := titleRange.FindStringSubmatch(c.Title.Value)
	if m == nil || !t.Given() || strings.EqualFold(m[1], t.Value) {
		return "", "", at
	}
	return m[0], t.Value, t.Pos
}

// axleWords are the words for how many axles there are. "Dual tandem" is two axles with dual
// wheels, and "single" alone is of wheels as often as of axles.
var axleWords = []struct {
	form *regexp.Regexp
	n    int
}{
	{regexp.MustCompile(`(?i)\b(?:single|one)[\s-]axle\b`), 1}, {regexp.MustCompile(`(?i)\b(?:tandem|two[\s-]axles?|dual[\s-]axle)\b`), 2},
	{regexp.MustCompile(`(?i)\b(?:triple|tri-?axle|three[\s-]axles?)\b`), 3},
}

func titleAxles(c *Case) (says, is string, at unit.Pos) {
	n := c.Axles.Count
	for _, a := range axleWords {
		if m := a.form.FindString(c.Title.Value); m != "" && n.Given() && n.Value != a.n {
			return m, strconv.Itoa(n.Value), n.Pos
		}
	}
	return "", "", at
}

var axlePounds = regexp.MustCompile(`(?i)\b([0-9][0-9,]*(?:\.[0-9])?\s?k?)\s*-?\s*(?:lbs?|pounds?|#)?\.?\s+(?:(?:torsion|drop|spring|electric|oil[\s-]bath|brake)\s+)*axles?\b`)

// titleAxleRating reads "8,000 lb axles" and "7K axles". Small numbers count axles.
func titleAxleRating(c *Case) (says, is string, at unit.Pos) {
	r := c.Axles.Rating
	m := axlePounds.FindStringSubmatch(c.Title.Value)
	if m == nil || !r.Given() {
		return "", "", at
	}
	w, err := measure.ParseWeight(strings.ReplaceAll(m[1], " ", "") + " lb")
	if err != nil || w.Value < 1000 || measure.NotOver(max(w.Value-r.Value, r.Value-w.Value), axleNames) {
		return "", "", at
	}
	return m[0], r.Value.String(), r.Pos
}

// axleNames is how far the name of an axle may be from its rating: a 3.5K is 3,500 or
// 3,520 lb, a 7K may be labeled 7,200. Common practice, no source.
const axleNames measure.Pounds = 250

var plyWords = regexp.MustCompile(`(?i)\b([0-9]{1,2})[\s-]?ply\b`)

func titlePly(c *Case) (says, is string, at unit.Pos) {
	t := c.Tires.LoadRange
	m := plyWords.FindStringSubmatch(c.Title.Value)
	if m == nil || !t.Given() {
		return "", "", at
	}
	row, err := tables.LoadRange(t.Value)
	if err != nil || strconv.Itoa(row.Ply) == m[1] {
		return "", "", at
	}
	return m[0], t.Value + ", " + strconv.Itoa(row.Ply) + " ply", t.Pos
}

var (
	dualWords   = regexp.MustCompile(`(?i)\bdual(?:s|\s+(?:wheels?|tires?|tandem))\b`)
	singleWords = regexp.MustCompile(`(?i)\b(?:singles|super\s+singles|single\s+(?:wheels?|tires?))\b`)
)

func titleDuals(c *Case) (says, is string, at unit.Pos) {
	n := c.Tires.PerAxle
	if !n.Given() {
		return "", "", at
	}
	for _, w := range []struct {
		form *regexp.Regexp
		n    int
	}{{dualWords, 4}, {singleWords, 2}} {
		if m := w.form.FindString(c.Title.Value); m != "" && n.Value != w.n {
			return m, strconv.Itoa(n.Value), n.Pos
		}
	}
	return "", "", at
}

// titlePart reads the measure of a part: "5 ft dovetail", "24 in sides". Half a foot is
// allowed, as for the trailer's own length.
func titlePart(word string, field func(*Case) unit.Length) func(*Case) (string, string, unit.Pos) {
	form := regexp.MustCompile(`(?i)\b([0-9]+(?:\.[0-9])?)\s*-?\s*(ft\b\.?|foot|feet|in\b\.?|inch|'|"|′|″|’|”)\s*-?\s*` + word + `\b`)
	return func(c *Case) (says, is string, at unit.Pos) {
		l := field(c)
		m := form.FindStringSubmatch(c.Title.Value)
		if m == nil || !l.Given() {
			return "", "", at
		}
		w, err := measure.ParseLength(m[1] + " " + strings.TrimSuffix(m[2], "."))
		if err != nil || measure.NotOver(max(w.Value-l.Value, l.Value-w.Value), 6) {
			return "", "", at
		}
		return m[0], l.Words(), l.Pos
	}
}

var ballWord = regexp.MustCompile(`(?i)\b([0-9](?:[\s-][0-9]{1,2}/[0-9]{1,2})?)\s*-?\s*(?:in\b\.?|inch|"|″|”)\s*(?:ball|coupler)`)

func titleBall(c *Case) (says, is string, at unit.Pos) {
	b := c.Hitch.Ball
	m := ballWord.FindStringSubmatch(c.Title.Value)
	if m == nil || !b.Given() {
		return "", "", at
	}
	if w, err := measure.ParseLength(strings.Replace(m[1], " ", "-", 1) + " in"); err != nil || measure.NotOver(max(w.Value-b.Value, b.Value-w.Value), 1.0/64) {
		return "", "", at
	}
	return m[0], b.Value.String(), b.Pos
}

// yearWord is a year and not a weight, a length or a part of a larger number.
var (
	yearWord  = regexp.MustCompile(`\b((?:19[89]|20[0-4])[0-9])\b`)
	yearUnits = regexp.MustCompile(`(?i)^\s*(?:[x,.×#'"″]\s*[0-9]|'|"|″|#|(?:lbs?|pounds?|kg|mm|in|ft|k|gal|psi|axles?)\b)`)
)

func titleYear(c *Case) (says, is string, at unit.Pos) {
	y := c.Year
	if !y.Given() {
		return "", "", at
	}
	for _, m := range yearWord.FindAllStringIndex(c.Title.Value, -1) {
		before, text, after := c.Title.Value[:m[0]], c.Title.Value[m[0]:m[1]], c.Title.Value[m[1]:]
		if strings.HasSuffix(before, ",") || strings.HasSuffix(before, "$") || yearUnits.MatchString(after) || text == strconv.Itoa(y.Value) {
			continue
		}
		return text, strconv.Itoa(y.Value), y.Pos
	}
	return "", "", at
}

// titlePayload finds a load in a title that is more than the trailer takes. A title may round the
// payload up to the next 50 lb. A weight of which the title does not say what it is of must be
// one that the file gives.
func titlePayload(c *Case) (says, is string, at unit.Pos) {
	own := c.Work.Payload
	for _, p := range promises(c.Title.Value) {
		if !own.Known || measure.NotOver(p.load, measure.Up(own.Value, 50)) {
			continue
		}
		if p.bare && (near(p.load, c.statedWeights()) || c.titleRates(p.load)) {
			continue
		}
		return p.says, own.Value.Limit(), c.Weights.GVWR.Pos
	}
	return "", "", at
}

// titleRates reports whether the title calls a weight the trailer's gross rating, which
// rating-over-label judges.
func (c *Case) titleRates(load measure.Pounds) bool {
	return slices.ContainsFunc(c.WrittenRatings(), func(w unit.WrittenRating) bool {
		return w.Where == "the title" && measure.NotOver(max(w.Weight-load, load-w.Weight), 1)
	})
}
