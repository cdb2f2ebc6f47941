package unit_test

import (
	"bytes"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// stated is one given field as the tests compare it.
type stated struct {
	Value any
	About bool
	From  string
	Pos   unit.Pos
	Raw   string
}

// given lists every given field of a unit, a yard or a part of one by its path. List
// items are numbered from 0; a tie-down's rating is written in the same value as its
// count and is not listed.
func given(v reflect.Value, path string, out map[string]stated) {
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			given(v.Index(i), fmt.Sprintf("%s.%d", path, i), out)
		}
	case reflect.Struct:
		if at := v.FieldByName("Pos"); at.IsValid() && v.FieldByName("Raw").IsValid() {
			if pos := at.Interface().(unit.Pos); pos.Known() {
				from := v.FieldByName("From").Interface().(measure.Provenance)
				out[path] = stated{v.FieldByName("Value").Interface(), v.FieldByName("About").Bool(), from.String(), pos, v.FieldByName("Raw").String()}
			}
			return
		}
		if tie, ok := v.Interface().(unit.TieDown); ok {
			given(reflect.ValueOf(tie.Count), path+"."+tie.Kind.Value, out)
			return
		}
		for i := range v.NumField() {
			if name, ok := v.Type().Field(i).Tag.Lookup("key"); ok {
				given(v.Field(i), strings.TrimPrefix(path+"."+name, "."), out)
			}
		}
	}
}

func givenOf(u *unit.Unit) map[string]stated { return givenIn(u) }

func givenIn(file any) map[string]stated {
	out := map[string]stated{}
	given(reflect.ValueOf(file).Elem(), "", out)
	return out
}

// place is where a value stands by a search of the text alone: lines split by hand,
// indentation for the nesting, runes counted. It knows block style only, and shares
// nothing with the reader.
type place struct {
	line, column int
	raw          string
}

func search(src string) map[string]place {
	src = strings.TrimPrefix(src, "\ufeff")
	src = strings.ReplaceAll(strings.ReplaceAll(src, "\r\n", "\n"), "\r", "\n")
	out := map[string]place{}
	type open struct {
		indent int
		name   string
		items  int
	}
	var stack []open
	fences := 0
	for i, line := range strings.Split(src, "\n") {
		text := strings.TrimLeft(line, " ")
		indent := len(line) - len(text)
		if strings.TrimSpace(line) == "---" {
			fences++
			continue
		}
		if fences != 1 || strings.TrimSpace(text) == "" {
			continue
		}
		for len(stack) > 0 && (stack[len(stack)-1].indent >= indent) {
			stack = stack[:len(stack)-1]
		}
		if rest, dashed := strings.CutPrefix(text, "- "); dashed {
			list := &stack[len(stack)-1]
			stack = append(stack, open{indent, fmt.Sprint(list.items), 0})
			list.items++
			text, indent = rest, indent+2
		}
		key, value, keyed := strings.Cut(text, ":")
		if strings.ContainsAny(key, " ") && !strings.HasPrefix(key, "stake pockets") {
			keyed = false // a list item in words
		}
		var path []string
		for _, o := range stack {
			path = append(path, o.name)
		}
		if !keyed {
			out[strings.Join(path, ".")] = place{i + 1, utf8.RuneCountInString(line[:indent]) + 1, strings.TrimRight(text, " ")}
			continue
		}
		path = append(path, key)
		stack = append(stack, open{indent, key, 0})
		value, _, _ = strings.Cut(value, " #")
		if raw := strings.TrimSpace(value); raw != "" {
			before := line[:indent+len(key)+1+strings.Index(value, raw[:1])]
			out[strings.Join(path, ".")] = place{i + 1, utf8.RuneCountInString(before) + 1, raw}
		}
	}
	return out
}

func readExample(t *testing.T) string {
	src, err := os.ReadFile("testdata/sb-1043.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

// The values of the example unit (docs/design.md), typed by hand: in base units, with the note.
var example = map[string]struct {
	value any
	from  string
}{
	"title":        {"102 in x 28 ft gooseneck deck-over, hydraulic tail", ""},
	"stock":        {"SB-1043", ""},
	"kind":         {"deck-over", ""},
	"make":         {"Oxbow Steelworks", ""},
	"model":        {"oxbow-20k", ""},
	"year":         {2026, ""},
	"serial":       {"0J9RP1A35T1644345", ""},
	"condition":    {"new", ""},
	"availability": {"on the yard", ""},
	"price":        {measure.Dollars(18450), ""},
	"arrived":      {unit.Day{Year: 2026, Month: 11, Day: 2}, ""},
	"color":        {"charcoal", ""},

	"hitch.kind":            {"gooseneck", ""},
	"hitch.ball":            {measure.Inches(2.3125), ""},
	"hitch.rating":          {measure.Pounds(30000), "coupler plate"},
	"hitch.ball-rating":     {measure.Pounds(30000), "stamp"},
	"hitch.tongue-limit":    {measure.Pounds(7500), "coupler plate"},
	"hitch.chains.count":    {2, ""},
	"hitch.chains.breaking": {measure.Pounds(26500), ""},

	"deck.length":    {measure.Inches(336), ""},
	"deck.flat":      {measure.Inches(240), ""},
	"deck.tail":      {measure.Inches(96), ""},
	"deck.tail-kind": {"hydraulic dovetail", ""},
	"deck.width":     {measure.Inches(102), ""},
	"deck.height":    {measure.Inches(35), ""},
	"deck.front":     {measure.Inches(90), ""},

	"axles.count":      {2, ""},
	"axles.rating":     {measure.Pounds(10000), "tag"},
	"axles.center":     {measure.Inches(306), ""},
	"axles.spacing":    {measure.Inches(50), ""},
	"axles.suspension": {"leaf spring", ""},
	"axles.hubs":       {"oil bath", ""},

	"tires.size":            {"ST235/80R16", ""},
	"tires.load-range":      {"E", ""},
	"tires.pressure":        {measure.PSI(80), ""},
	"tires.per-axle":        {4, ""},
	"tires.sidewall.single": {measure.Pounds(3520), ""},
	"tires.sidewall.dual":   {measure.Pounds(3080), ""},
	"tires.wheel":           {measure.Pounds(3750), ""},
	"tires.made":            {unit.Week{Week: 31, Year: 2026}, ""},

	"brakes.kind":      {"electric", ""},
	"brakes.axles":     {2, ""},
	"brakes.breakaway": {true, ""},

	"weights.gvwr":         {measure.Pounds(20000), "tag"},
	"weights.empty":        {measure.Pounds(7040), "scale ticket 2026-11-03"},
	"weights.tongue-empty": {measure.Pounds(1610), "scale ticket 2026-11-03"},

	"frame.beam":                {"W10x22", ""},
	"frame.crossmember":         {"C3x4.1", ""},
	"frame.crossmember-spacing": {measure.Inches(18), ""},
	"frame.floor":               {"treated pine 2x6", ""},

	"lights.clearance":            {4, ""},
	"lights.identification":       {3, ""},
	"lights.side-markers":         {10, ""},
	"lights.intermediate-markers": {2, ""},
	"lights.conspicuity":          {true, ""},

	"tie-downs.0.stake pockets": {22, ""},
	"tie-downs.1.d-rings":       {8, ""},
	"standard.0":                {"spare tire and wheel", ""},
	"options.0":                 {"hydraulic disc brakes", ""},
	"recording.length":          {unit.Clock(372), ""},
	"recording.captions":        {"media/sb-1043.vtt", ""},
	"recording.video":           {"media/sb-1043.mp4", ""},
	"photos.0.file":             {"media/sb-1043-side.jpg", ""},
	"photos.0.alt":              {"Left side from the front corner, tail raised", ""},
}

// The whole example unit reads without a problem. Each value is what the file says, at the place
// where a search of the text finds it, however the file is saved.
func TestExampleWithEveryPlace(t *testing.T) {
	text := readExample(t)
	for name, src := range map[string]string{
		"as it is":            text,
		"BOM":                 "\ufeff" + text,
		"CRLF":                strings.ReplaceAll(text, "\n", "\r\n"),
		"lone CR":             strings.ReplaceAll(text, "\n", "\r"),
		"blank lines first":   "\n  \n\t\n" + text,
		"BOM, blank and CRLF": "\ufeff\r\n\r\n" + strings.ReplaceAll(text, "\n", "\r\n"),
		"spaces after colons": strings.ReplaceAll(text, ": ", ":    "),
		"tabs after colons":   strings.ReplaceAll(text, "rating: ", "rating:\t"),
		"fence with spaces":   strings.Replace(text, "---\n", "---  \n", 1),
	} {
		t.Run(name, func(t *testing.T) {
			u, problems := unit.ReadUnit("content/units/sb-1043.md", []byte(src))
			if len(problems) > 0 || u.Broken {
				t.Fatalf("problems: %+v", problems)
			}
			got, places := givenOf(u), search(src)
			for path, want := range example {
				g, ok := got[path]
				if !ok {
					t.Errorf("%s is not given", path)
					continue
				}
				if g.Value != want.value || g.From != want.from || g.About {
					t.Errorf("%s is %#v (%s), about %v; want %#v (%s)", path, g.Value, g.From, g.About, want.value, want.from)
				}
				p, found := places[path]
				if !found {
					t.Fatalf("the search does not find %s", path)
				}
				if at := (unit.Pos{File: "content/units/sb-1043.md", Line: int32(p.line), Column: int32(p.column)}); g.Pos != at {
					t.Errorf("%s stands at %s, the search finds it at %s", path, g.Pos, at)
				}
				if raw := p.raw; !strings.HasPrefix(raw, g.Raw) && g.Raw != raw {
					t.Errorf("%s reads %q, the text has %q", path, g.Raw, raw)
				}
			}
			for path := range got {
				if _, ok := example[path]; !ok {
					t.Errorf("%s is given and not in the table", path)
				}
			}
			if len(places) != len(example) {
				t.Errorf("the search finds %d values, the table has %d", len(places), len(example))
			}
			if r := u.TieDowns[1].Rating; r.Value != 5000 || r.Pos != u.TieDowns[1].Count.Pos || u.TieDowns[0].Rating.Given() {
				t.Errorf("tie-downs: %+v", u.TieDowns)
			}
			if len(u.Missing()) > 0 {
				t.Errorf("missing: %+v", u.Missing())
			}

			flat := strings.ReplaceAll(strings.ReplaceAll(strings.TrimPrefix(src, "\ufeff"), "\r\n", "\n"), "\r", "\n")
			line := func(s string) int { return strings.Count(flat[:strings.Index(flat, s)], "\n") + 1 }
			if n := u.Body.Notes; len(n) != 1 || n[0].At != 45 || n[0].Pos != (unit.Pos{File: u.File, Line: int32(line("0:45")), Column: 1}) || n[0].Skip != 5 {
				t.Errorf("notes: %+v", n)
			}
			if f := u.Body.Figures; len(f) != 1 || f[0].Name != "tag-payload" || f[0].Text != "12,960 lb" ||
				f[0].Pos != (unit.Pos{File: u.File, Line: int32(line("Payload on")), Column: int32(len("Payload on this one is ") + 1)}) {
				t.Errorf("figures: %+v", f)
			}
		})
	}
}

// Characters of several bytes before a value count as one column each.
func TestColumnsCountCharacters(t *testing.T) {
	for _, c := range []struct{ name, src, value, path string }{
		{"flow", "---\nweights: {gvwr: \"20,000 lb (étiquette № 5 🚚)\", empty: \"7,040 lb\"}\n---\n", `"7,040 lb"`, "weights.empty"},
		{"tie-down", "---\ntie-downs:\n  - Öse né 🚚: 8 at 5,000 lb\n---\n", "8 at", "tie-downs.0.Öse né 🚚"},
		{"quoted", "---\ncolor: \"é\"\ntitle: 'ü'\n---\n", "'ü'", "title"},
		{"tab", "---\nhitch: {kind:\tgooseneck,\trating:\t\"9,000 lb\"}\n---\n", `"9,000 lb"`, "hitch.rating"},
	} {
		u, problems := unit.ReadUnit("a.md", []byte(c.src))
		if len(problems) > 0 {
			t.Errorf("%s: %+v", c.name, problems)
			continue
		}
		at := strings.Index(c.src, c.value)
		before := c.src[:at]
		from := strings.LastIndex(before, "\n") + 1
		want := unit.Pos{File: "a.md", Line: int32(strings.Count(before, "\n") + 1), Column: int32(utf8.RuneCountInString(before[from:]) + 1)}
		if got := givenOf(u)[c.path]; got.Pos != want {
			t.Errorf("%s: %s stands at %s, want %s", c.name, c.path, got.Pos, want)
		}
	}
}

// The same file read twice gives the same, to the last field.
func TestReadingTwice(t *testing.T) {
	src := []byte(readExample(t))
	before := bytes.Clone(src)
	a, _ := unit.ReadUnit("a.md", src)
	b, _ := unit.ReadUnit("a.md", src)
	if !reflect.DeepEqual(givenOf(a), givenOf(b)) {
		t.Error("two readings differ")
	}
	if !bytes.Equal(src, before) {
		t.Error("reading changed the source")
	}
}
