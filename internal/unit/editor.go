package unit

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"tarepage/internal/glossary"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/orderedjson"
)

// An EditorFile is a JSON Schema for an editor. With it, the editor completes keys, explains
// them, and underlines what the reader would refuse.
type EditorFile struct {
	Name string
	Data []byte
}

// EditorMark is in every editor file. It tells our files from others with the same name.
const EditorMark = "made by Tarepage from the declarations that read the file; editor-help writes it again"

// EditorFiles returns the JSON Schemas (draft 7, which editors support best) of the front
// matter of a unit file, a model file and the yard file, made from the structs of format.go.
//
// They check what the reader checks, and a few mistakes that the reader accepts: a unit and
// the yard must have the keys that a model cannot fill in, a stock number must be able to name
// a page, and a model may not have a key that units do not take from it. A pattern cannot
// check everything, such as a number that is too large; inspect does that.
func EditorFiles() []EditorFile {
	ofModel := func(k *key) bool { return !notFilled[k.path] }
	return []EditorFile{
		{"unit.schema.json", editorFile("The front matter of a unit file: one trailer", unitKeys(), []string{"stock"}, nil)},
		{"model.schema.json", editorFile("The front matter of a model file: what units of one model share", unitKeys(), nil, ofModel)},
		{"yard.schema.json", editorFile("The front matter of content/yard.md: who sells, and the settings", yardKeys(), []string{"name", "as-of"}, nil)},
	}
}

// members is a JSON object that keeps the order of its members.
type members []member

type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order.
func (m members) MarshalJSON() ([]byte, error) {
	return orderedjson.Object(func(yield func(string, any) bool) {
		for _, one := range m {
			if !yield(one.name, one.value) {
				return
			}
		}
	})
}

func editorFile(title string, ks *keys, required []string, takes func(*key) bool) []byte {
	top := members{
		{"$schema", "http://json-schema.org/draft-07/schema#"},
		{"$comment", EditorMark},
		{"title", title},
		{"type", "object"},
		{"additionalProperties", false},
	}
	if required != nil {
		top = append(top, member{"required", required})
	}
	used := map[string]bool{}
	top = append(top, member{"properties", editorKeys(ks, takes, used)})
	if needs := editorNeeds(ks, required); needs != nil {
		top = append(top, member{"allOf", needs})
	}
	var kinds members
	for _, k := range editorKinds() {
		if used[k.name] {
			kinds = append(kinds, k)
		}
	}
	top = append(top, member{"definitions", kinds})
	src, err := orderedjson.Marshal(top)
	if err != nil {
		panic(fmt.Sprintf("unit: an editor file cannot be written: %v", err)) // it has only strings, numbers and lists
	}
	var b bytes.Buffer
	if err := json.Indent(&b, src, "", "  "); err != nil {
		panic(fmt.Sprintf("unit: an editor file is not JSON: %v", err))
	}
	b.WriteByte('\n')
	return b.Bytes()
}

// editorNeeds has the keys that each kind of trailer needs. They are required only in a unit
// file without a model, because a model can fill them in.
func editorNeeds(ks *keys, required []string) []members {
	kind := ks.byName["kind"]
	if kind == nil || required == nil {
		return nil
	}
	var out []members
	for _, k := range kinds.All() {
		if len(k.Needs) == 0 {
			continue
		}
		is := members{{"type", "string"}, {"pattern", peeled(anyCase(k.Name))}}
		out = append(out, members{
			{"if", members{{"required", []string{"kind"}}, {"properties", members{{"kind", is}}}, {"not", members{{"required", []string{"model"}}}}}},
			{"then", members{{"allOf", editorRequired(k)}}},
		})
	}
	return out
}

// editorRequired requires each key that a kind needs, or the one that will do instead.
func editorRequired(kind kinds.Kind) []members {
	var out []members
	for _, path := range kind.Needs {
		one := editorRequires(path)
		if instead := kind.Instead[path]; instead != "" {
			one = members{{"anyOf", []members{one, editorRequires(instead)}}}
		}
		out = append(out, one)
	}
	return out
}

// editorRequires requires a key. For bed.length, it requires a bed with a length.
func editorRequires(path string) members {
	var below members
	names := strings.Split(path, ".")
	for i := len(names) - 1; i >= 0; i-- {
		one := members{{"required", []string{names[i]}}}
		if below != nil {
			one = append(one, member{"properties", members{{names[i], below}}})
		}
		below = one
	}
	return below
}

func editorKeys(ks *keys, takes func(*key) bool, used map[string]bool) members {
	var out members
	for _, k := range ks.order {
		if takes == nil || takes(k) {
			out = append(out, member{k.name, editorKey(k, takes, used)})
		}
	}
	return out
}

// editorKey is the schema of one key: its meaning and its values.
func editorKey(k *key, takes func(*key) bool, used map[string]bool) members {
	doc := k.doc
	if k.neededBy != nil {
		doc += ". Needed before a unit of kind " + strings.Join(k.neededBy, ", ") + " is published"
	}
	if k.needed {
		doc += ". Needed before the unit is published"
		if strings.IndexByte(k.path, '.') < 0 && (k.name == "name" || k.name == "as-of") {
			doc = k.doc + ". Needed"
		}
	}
	out := members{{"description", doc}}
	if k.example != "" {
		out = append(out, member{"examples", []any{editorExample(k)}})
	}
	switch {
	case k.kids != nil:
		return append(out, section(editorKeys(k.kids, takes, used), nil)...)
	case k.list:
		return append(out, member{"type", []string{"array", "null"}}, member{"items", editorItem(k, used)})
	case k.choices != nil:
		return append(out, choice(k)...)
	case k.path == "stock":
		return append(out,
			member{"type", []string{"string", "integer", "null"}},
			member{"minimum", 0},
			member{"maxLength", 40},
			member{"pattern", stockShape.String()})
	}
	name := strings.ReplaceAll(k.kind, " ", "-")
	used[name] = true
	// Draft 7 ignores everything next to $ref, so it goes into allOf.
	is := members{{"$ref", "#/definitions/" + name}}
	if k.mayBeUnknown() {
		used["unknown"] = true
		return append(out, member{"anyOf", []members{is, {{"$ref", "#/definitions/unknown"}}}})
	}
	return append(out, member{"allOf", []members{is}})
}

// editorExample is the example as YAML reads it.
func editorExample(k *key) any {
	if k.list && k.name == "tie-downs" {
		name, value, _ := strings.Cut(k.example, ": ")
		return []members{{{name, value}}}
	}
	if k.list {
		return []string{k.example}
	}
	if n, err := strconv.Atoi(k.example); err == nil && k.kind == "count" {
		return n
	}
	return k.example
}

// section is an object with these keys. It may be empty: a key with nothing below it.
func section(properties members, required []string) members {
	out := members{{"type", []string{"object", "null"}}, {"additionalProperties", false}}
	if required != nil {
		out = append(out, member{"required", required})
	}
	return append(out, member{"properties", properties})
}

// editorItem is the schema of one entry of a list.
func editorItem(k *key, used map[string]bool) members {
	entry := func(ks *keys) members {
		return members{{"type", "object"}, {"additionalProperties", false}, {"properties", editorKeys(ks, nil, used)}}
	}
	switch k.name {
	case "photos":
		return entry(photoKeys())
	case "proof":
		return entry(proofKeys())
	case "waive":
		return entry(waiverKeys())
	case "tie-downs":
		used["tie-down"] = true
		return members{{"type", "object"}, {"minProperties", 1}, {"maxProperties", 1},
			{"additionalProperties", members{{"$ref", "#/definitions/tie-down"}}}}
	case "words-es":
		return members{{"type", "string"}, {"pattern", wordForWord()}}
	}
	used["text"] = true
	return members{{"$ref", "#/definitions/text"}}
}

// wordForWord is a pattern for a word of the glossary, = and the yard's word. Which article the word
// has to have, and that it is not another thing's, is left to the reader.
func wordForWord() string {
	var words []string
	for _, w := range glossary.Changeable() {
		words = append(words, strings.ReplaceAll(anyCase(w), "[- ]", " "))
	}
	return `^\s*(?:` + strings.Join(words, "|") + `)\s*=\s*(?:(?:[Ll][Aa]|[Ee][Ll])\s+)?[A-Za-zÀ-ɏ][A-Za-zÀ-ɏ -]{1,39}\s*$`
}

// choice accepts one of the words. It lists them in their standard form, so that an editor
// offers them, and also accepts capitals, "about" and a note, as the reader does.
func choice(k *key) members {
	var folded []string
	for _, c := range k.choices {
		folded = append(folded, anyCase(c))
	}
	for _, word := range synonyms(k.path) {
		folded = append(folded, anyCase(word)+"[sS]?")
	}
	offered := make([]any, 0, len(k.choices)+1)
	for _, c := range k.choices {
		offered = append(offered, c)
	}
	return members{{"anyOf", []members{
		{{"enum", append(offered, nil)}},
		{{"type", "string"}, {"pattern", peeled(`(?:` + strings.Join(folded, "|") + `)`)}},
	}}}
}

// peeled is a form with the parts that peel removes: "about" and a note.
func peeled(form string) string {
	return `^ *(?:` + anyCase("about ") + ` *)?` + form + ` *(?:\([^(]*\))? *$`
}

// anyCase is a pattern for a word with or without capitals, with hyphens or blanks. Patterns
// have no flag for it.
func anyCase(word string) string {
	var b strings.Builder
	for _, r := range word {
		if r == '-' || r == ' ' {
			b.WriteString("[- ]")
		} else if low, high := unicode.ToLower(r), unicode.ToUpper(r); low != high {
			b.WriteString("[" + string(high) + string(low) + "]")
		} else {
			b.WriteString(regexp.QuoteMeta(string(r)))
		}
	}
	return b.String()
}

const (
	dayPattern = `^(?:19[5-9][0-9]|20[0-9]{2})-[0-9]{2}-[0-9]{2}$`
	// The production week: week 1 to 53 of the years that ParseWeek takes, in words, or
	// the four digits of this century.
	weekNumber  = `(?:0?[1-9]|[1-4][0-9]|5[0-3])`
	weekPattern = `[Ww](?:[Ee][Ee][Kk]|[Kk]) +` + weekNumber + `(?: +[Oo][Ff]|,)? +(?:199[0-9]|20[0-9]{2}|2100)|(?:[Dd][Oo][Tt] +)?(?:0[1-9]|[1-4][0-9]|5[0-3])[0-9]{2}`
)

// editorKinds has each kind of value once. The keys refer to them by name.
func editorKinds() members {
	text := func(written string, more ...member) members {
		out := append(members{{"description", written}, {"type", []string{"string", "null"}}}, more...)
		return out
	}
	point := func(before string) member {
		return member{"not", members{{"type", "string"}, {"pattern", before + `(?:[^(]*[^0-9.,(])?` + pointForCommaNumber + `(?:[^0-9]|$)`}}}
	}
	weight := strings.TrimSuffix(strings.TrimPrefix(measure.WeightForm(), "^"), "$")
	const tieDownCount = `^ *` + tieDownNumber
	return members{
		{"text", members{{"description", "any words"}, {"type", []string{"string", "number", "boolean", "null"}}}},
		{"weight", text("with its unit: 24,000 lb or 10,886 kg; where it comes from in parentheses: 24,000 lb (tag)",
			member{"maxLength", 200}, member{"pattern", measure.WeightForm()}, point(`^`))},
		{"length", text("with its unit: 28 ft, 83 in, 8 ft 6 in, 812 mm or 9.75 m; where it comes from in parentheses: 83 in (tape)",
			member{"maxLength", 200}, member{"pattern", measure.LengthForm()})},
		{"pressure", text("with its unit: 80 psi, 550 kPa or 5.5 bar", member{"maxLength", 200}, member{"pattern", measure.PressureForm()})},
		{"volume", text("with its unit: 1,000 gal, 3,785 L, 450 bu or 20 cu yd", member{"maxLength", 200}, member{"pattern", measure.VolumeForm()})},
		{"money", text("$18,450; since when in parentheses: $18,450 (since 2026-11-10)", member{"maxLength", 200}, member{"pattern", measure.MoneyForm()})},
		{"share", text("5%", member{"maxLength", 200}, member{"pattern", measure.ShareForm()})},
		{"stopping-distance", text("a length and a speed: 200 ft at 60 mph", member{"maxLength", 200}, member{"pattern", measure.StoppingForm()})},
		{"count", members{{"description", "a whole number"}, {"type", []string{"integer", "string", "null"}}, {"minimum", 0}, {"maximum", mostCount},
			{"pattern", peeled(countNumber)}}},
		{"yes-or-no", members{{"description", "yes or no"}, {"anyOf", []members{
			{{"enum", []any{"yes", "no", true, false, nil}}},
			{{"type", "string"}, {"pattern", peeled(`(?:` + anyCase("yes") + `|` + anyCase("no") + `|` + anyCase("true") + `|` + anyCase("false") + `)`)}},
		}}}},
		{"date", text("year-month-day: 2026-11-02", member{"format", "date"}, member{"pattern", dayPattern})},
		{"days", text("a number of days or weeks: 90 days", member{"pattern", `^ *0*[1-9][0-9]{0,3} *(?:` + anyCase("day") + `|` + anyCase("week") + `)[Ss]? *$`})},
		{"production-week", members{{"description", "week 31 2026, or the date code's last four digits, 3126"}, {"type", []string{"string", "integer", "null"}},
			{"minimum", 100}, {"maximum", 5399}, {"pattern", peeled(`(?:` + weekPattern + `)`)}}},
		{"month", text("10/2025 or 2025-10", member{"pattern", peeled(`(?:` + isoMonth + `|` + slashMonth + `)`)})},
		{"unknown", members{{"description", "why nobody knows it, in quotes: \"unknown: the label is painted over\""}, {"anyOf", []members{
			{{"type", "string"}, {"pattern", `^ *` + anyCase("unknown") + ` *(?::.*[^ ].*|\( *[^() ][^()]*\)) *$`}},
			{{"type", "object"}, {"additionalProperties", false}, {"required", []string{"unknown"}}, {"properties", members{{"unknown", members{{"type", "string"}}}}}},
		}}}},
		{"time-in-the-recording", text("minutes and seconds, 6:12, or hours too, 1:02:03", member{"pattern", `^ *[0-9]{1,3}(?::[0-5][0-9]){1,2} *$`})},
		{"tie-down", members{{"description", "a count, or a count at a rating each: 8 at 5,000 lb"}, {"type", []string{"integer", "string"}}, {"minimum", 0}, {"maximum", mostCount},
			{"pattern", tieDownCount + `(?: +(?:at|x|@) +` + weight + `)? *$`}, point(tieDownCount + ` +(?:at|x|@) +`)}},
	}
}
