package unit_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"
	"golang.org/x/tools/txtar"
	"pgregory.net/rapid"

	"tarepage/internal/kinds"
	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// The editor files are held against the reader with a validator by somebody else,
// github.com/santhosh-tekuri/jsonschema/v6, which is held against the JSON Schema Test
// Suite by its author.

func editorSchemas(t testing.TB) map[string]*jsonschema.Schema {
	t.Helper()
	out := map[string]*jsonschema.Schema{}
	for _, f := range unit.EditorFiles() {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(f.Data))
		if err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		c := jsonschema.NewCompiler()
		c.AssertFormat() // an editor asserts "date"; so does the test
		if err := c.AddResource(f.Name, doc); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		// Compiling also checks the file against the metaschema of draft 7.
		if out[f.Name], err = c.Compile(f.Name); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
	}
	return out
}

// jsonOf is what an editor makes of front matter: YAML 1.2 with its core schema, where a
// date is a text.
func jsonOf(t testing.TB, src string) any {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(src), &n); err != nil {
		t.Fatalf("%v in\n%s", err, src)
	}
	var value func(*yaml.Node) any
	value = func(n *yaml.Node) any {
		switch n.Kind {
		case yaml.DocumentNode:
			return value(n.Content[0])
		case yaml.MappingNode:
			m := map[string]any{}
			for i := 0; i < len(n.Content); i += 2 {
				m[n.Content[i].Value] = value(n.Content[i+1])
			}
			return m
		case yaml.SequenceNode:
			list := []any{}
			for _, c := range n.Content {
				list = append(list, value(c))
			}
			return list
		}
		switch n.Tag {
		case "!!null":
			return nil
		case "!!bool":
			return strings.EqualFold(n.Value, "true")
		case "!!int", "!!float":
			if _, err := strconv.ParseFloat(n.Value, 64); err == nil && !strings.HasPrefix(n.Value, "+") {
				return json.Number(strings.TrimLeft(n.Value[:len(n.Value)-1], "0") + n.Value[len(n.Value)-1:])
			}
		}
		return n.Value
	}
	return value(&n)
}

// formatProblems are what the reader finds in a file's front matter.
func formatProblems(schema, front string) []unit.Problem {
	src := []byte("---\n" + front + "---\n")
	if schema == "yard.schema.json" {
		_, problems := unit.ReadYard("content/yard.md", src)
		return problems
	}
	_, problems := unit.ReadUnit("content/units/a.md", src)
	return problems
}

// TestEditorFilesTakeWhatIsThere: every unit, model and yard file of the demo passes its
// schema, and so does every example that the format gives.
func TestEditorFilesTakeWhatIsThere(t *testing.T) {
	schemas := editorSchemas(t)
	n := 0
	for glob, name := range map[string]string{"units/*.md": "unit.schema.json", "models/*.md": "model.schema.json", "yard.md": "yard.schema.json"} {
		files, err := filepath.Glob("../../content/" + glob)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: %v", glob, err)
		}
		first, err := filepath.Glob("../starter/content/" + glob)
		if err != nil || len(first) != 1 {
			t.Fatalf("%s: %v, %v", glob, first, err)
		}
		files = append(files, first...)
		for _, file := range files {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			front, _, _ := strings.Cut(strings.TrimPrefix(string(src), "---\n"), "\n---\n")
			if err := schemas[name].Validate(jsonOf(t, front+"\n")); err != nil {
				t.Errorf("%s: %v", file, err)
			}
			n++
		}
	}
	if n < 15 {
		t.Errorf("only %d files", n)
	}
	for name, keys := range map[string][]unit.KeyDoc{"unit.schema.json": unit.Keys(), "yard.schema.json": unit.YardKeys()} {
		for _, k := range keys {
			if k.Example == "" {
				continue
			}
			front := frontOf(k, plainOrQuoted(k.Example))
			if err := schemas[name].Validate(jsonOf(t, front)); err != nil {
				t.Errorf("the example of %s: %v\n%s", k.Path, err, front)
			}
		}
	}
}

// TestEditorFilesDescribeEveryKey: what each key means, and how it is written.
func TestEditorFilesDescribeEveryKey(t *testing.T) {
	for _, f := range unit.EditorFiles() {
		var doc map[string]any
		if err := json.Unmarshal(f.Data, &doc); err != nil {
			t.Fatal(err)
		}
		n := 0
		var walk func(path string, v map[string]any)
		walk = func(path string, v map[string]any) {
			for _, below := range []any{v, v["items"]} {
				m, _ := below.(map[string]any)
				properties, _ := m["properties"].(map[string]any)
				for name, p := range properties {
					p := p.(map[string]any)
					if p["description"] == nil || p["description"] == "" {
						t.Errorf("%s: %s%s has no description", f.Name, path, name)
					}
					if p["examples"] == nil && p["properties"] == nil && p["items"] == nil && p["anyOf"] == nil {
						t.Errorf("%s: %s%s has no example", f.Name, path, name)
					}
					n++
					walk(path+name+".", p)
				}
			}
		}
		walk("", doc)
		keys := len(unit.Keys())
		switch f.Name {
		case "yard.schema.json":
			keys = len(unit.YardKeys())
		case "model.schema.json":
			// Without the keys that belong to one unit only.
			for _, k := range unit.Keys() {
				top, _, _ := strings.Cut(k.Path, ".")
				if slices.Contains([]string{"stock", "serial", "model", "withhold", "photos", "recording", "relabeled", "waive", "proof", "standard-not", "example"}, top) {
					keys--
				}
			}
		}
		if n != keys {
			t.Errorf("%s describes %d keys, the format has %d", f.Name, n, keys)
		}
	}
}

// frontOf writes front matter that gives one key, and what its schema asks for with it.
func frontOf(k unit.KeyDoc, value string) string {
	front := ""
	if k.Path != "stock" {
		front = "stock: A-1\n"
	}
	if k.Path == "kind" {
		front += "model: a\n" // which may fill in what the kind needs
	}
	for _, y := range unit.YardKeys() {
		if y.Path == k.Path && y.Doc == k.Doc {
			front = ""
			if k.Path != "name" {
				front += "name: A\n"
			}
			if k.Path != "as-of" {
				front += "as-of: 2026-11-20\n"
			}
		}
	}
	if k.Kind == "list" {
		if k.Path == "tie-downs" {
			if name, v, ok := strings.Cut(strings.Trim(value, "'"), ": "); ok {
				return front + "tie-downs:\n  - " + name + ": " + plainOrQuoted(strings.ReplaceAll(v, "''", "'")) + "\n"
			}
			return front + "tie-downs:\n  - rings: " + value + "\n"
		}
		return front + k.Path + ":\n  - " + value + "\n"
	}
	parts := strings.Split(k.Path, ".")
	for i, p := range parts {
		dash := ""
		if i > 0 && (parts[i-1] == "photos" || parts[i-1] == "waive" || parts[i-1] == "proof") {
			dash = "- "
		}
		front += strings.Repeat("  ", i) + dash + p + ":"
		if i < len(parts)-1 {
			front += "\n"
		}
	}
	return front + " " + value + "\n"
}

var plainNumber = regexp.MustCompile(`^[0-9]+$`)

// plainOrQuoted writes a value as an owner would: numbers and dates plain, texts in quotes
// so that no mark of YAML's changes them.
func plainOrQuoted(s string) string {
	if plainNumber.MatchString(s) || s == "true" || s == "false" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", "''") + "'"
}

// pieces are what values are put together from, right and wrong, by what a key takes.
var pieces = map[string][]string{
	"quantity": {"about ", "About ", "approx. ", "ca. ", "~", "24,000", "24000", "24k", "24K", "2,40", "1,234,567", "10", "7.040", "7.04", "0.5", ".5", "5", "12", "11", "0", "2-5/16", "5/16",
		"9/8", "1 3/4", "1½", "½", "1234.567", " lb", "lb", " lbs", " LB", " lb.", "#", " pounds", " kg", " ft", "'", "’", " feet", " in", "\"", "''", " inches", " mm", " cm", " m", " psi", " kPa", " bar", " gal", " bu", " L", " cu yd", " cubic feet",
		"%", " percent", " ", "-", " + ", "+", " (tag)", " (scale ticket 2026-11-03)", " ()", " (a (b)", ")", " tons", " ton", "$", " USD", " at ", " from ", "60 mph", "97 km/h", "60", "\u00a0", "call", "x"},
	"count":             {"2", "4", "10", "1,000", "about ", "-1", " (tape)", "2.5", "two", " ", "100000", "(", ")", "0"},
	"yes or no":         {"yes", "no", "Yes", "NO", "true", "false", "about ", " (tag)", "y", "on", "maybe", " "},
	"date":              {"2026-11-02", "2026-02-29", "2028-02-29", "2026-13-01", "1949-01-01", "2099-12-31", "2026-11-31", "2026", "-11", "-02", "11/02/2026", " ", "1"},
	"production week":   {"week ", "Week ", "wk ", "31", " 2026", " of 2026", ", 2026", "53", "54", "0", "3126", "5426", "1", "DOT ", " 1989", "2100", " 2101", "about ", " (sidewall)", " "},
	"month":             {"10", "2025", "/", "-", "25", "1", "0", "13", "70", "about ", " (tag)", "October ", " ", "1899"},
	"days":              {"90", " days", "1", " day", "Weeks", "12", " ", "0", "d", "-", "12345"},
	"clock":             {"6:12", "1:02:03", "6:60", ":05", "6", "1234:00", "0:00", ":", "00", " ", "-"},
	"text":              {"a word", "ST235/80R16", " (tag)", ": ", "#", "@", "-", "2026", " ", "about "},
	"tie-downs":         {"8", "22", "1,000", " at ", " x ", " @ ", "5,000 lb", "5.000 lb", "5 lb", "2,270 kg", " (said 1:13)", " at 5,000 lb", "8 at 5,000 lb", "eight", " ", "-1"},
	"stopping distance": {"200 ft", "61 m", " at ", " from ", "60 mph", "97 km/h", "60", "0 ft", " mph", "about ", " (maker's sheet)", " "},
}

func valueOf(t *rapid.T, k unit.KeyDoc) string {
	kind := k.Kind
	switch kind {
	case "weight", "length", "pressure", "volume", "money", "share":
		kind = "quantity"
	case "time in the recording":
		kind = "clock"
	case "list":
		kind = "text"
		if k.Path == "tie-downs" {
			kind = "tie-downs"
		}
	}
	pool := pieces[kind]
	if k.Kind == "choice" {
		pool = append([]string{"about ", " (tag)", " (since 2026-11-10)", " ", "x", "("}, k.Choices...)
		for _, c := range k.Choices {
			pool = append(pool, strings.ToUpper(c))
		}
	}
	if k.Path == "words-es" {
		pool = append([]string{"camioneta", "Acoplador", " = ", "=", "la ", "el ", "troca", "cople", "libra", "-", "9"}, pool...)
	}
	if k.Kind == "stopping distance" || rapid.IntRange(0, 9).Draw(t, "example") > 0 {
		var b strings.Builder
		for range rapid.IntRange(1, 5).Draw(t, "pieces") {
			b.WriteString(rapid.SampledFrom(pool).Draw(t, "piece"))
		}
		return b.String()
	}
	// The example with one letter changed.
	s := []rune(k.Example + " ")
	if k.Path == "tie-downs" {
		s = []rune("8 at 5,000 lb ")
	}
	i := rapid.IntRange(0, len(s)-1).Draw(t, "at")
	if rapid.Bool().Draw(t, "dropped") {
		return string(append(slices.Clone(s[:i]), s[i+1:]...))
	}
	s[i] = rapid.SampledFrom([]rune(`0123456789,.-/+'"( )kxlbfti%$`)).Draw(t, "instead")
	return string(s)
}

// Where the two may differ, and why.

// readerAlone reports refusals of the reader that no pattern of sensible length can make: a
// number's size and its arithmetic.
func readerAlone(message string) bool {
	if value, _, ok := strings.Cut(message, " is not a count"); ok {
		digits := regexp.MustCompile(`[0-9]+`).FindString(strings.ReplaceAll(value, ",", ""))
		n, err := strconv.Atoi(digits)
		return err != nil || n > 100000
	}
	return sizes.MatchString(message) || words.MatchString(message)
}

// What the sentences around a word of the Spanish pages ask of the word that takes its place.
var words = regexp.MustCompile(`needs its article|does not agree with|has the other gender|is another thing`)

// In 4 ft2 in the reader sees square feet.
var sizes = regexp.MustCompile(`is in "(?:ft|m)2"|larger than anything|is too large|smaller than anything|less than a cent|not a proper fraction|not a fraction from|a speed or a length of zero`)

// schemaAlone reports what reads and is refused by the schema on purpose.
func schemaAlone(k unit.KeyDoc, value string) string {
	switch {
	case strings.TrimSpace(value) == "":
		return "blanks in quotes: an empty key is left empty"
	case k.Path == "stock":
		return "a number that cannot name a page is a stop of the inspection, stock-form"
	case k.Kind == "date" && strings.TrimSpace(value) != value:
		return "blanks in quotes around a date"
	case k.Kind == "stopping distance" && strings.Count(strings.ToLower(value), "about") > 1:
		return "about said twice"
	case k.Kind == "production week" && plainNumber.MatchString(value):
		return "" // handled by the caller: YAML drops a number's leading zeros
	case strings.Contains(value, "(a (b)") || strings.Count(value, "(") > 1:
		return "a parenthesis within a parenthesis"
	}
	return ""
}

// TestEditorFilesAgreeWithTheReader: on generated values of every key, what the schema
// accepts the reader reads without a finding, and what the reader reads the schema accepts.
func TestEditorFilesAgreeWithTheReader(t *testing.T) {
	thorough.Only(t)
	schemas := editorSchemas(t)
	agreed, tried := map[bool]int{}, map[string]int{}
	for _, name := range []string{"unit.schema.json", "yard.schema.json"} {
		keys := unit.Keys()
		if name == "yard.schema.json" {
			keys = unit.YardKeys()
		}
		for _, k := range keys {
			if k.Kind == "section" || k.Path == "photos" || k.Path == "waive" || k.Path == "proof" {
				continue
			}
			// Keys of one kind share a definition; the long tests try every one.
			if tried[k.Kind]++; tried[k.Kind] > 3 && k.Kind != "choice" && os.Getenv("TAREPAGE_LONG") == "" {
				continue
			}
			t.Run(k.Path, func(t *testing.T) {
				rapid.Check(t, func(t *rapid.T) {
					value := valueOf(t, k)
					front := frontOf(k, plainOrQuoted(value))
					verr := schemas[name].Validate(jsonOf(&testing.T{}, front))
					problems := formatProblems(name, front)
					switch {
					case (verr == nil) == (len(problems) == 0):
						agreed[verr == nil]++
					case verr == nil && readerAlone(problems[0].Message):
					case verr == nil && k.Kind == "production week" && plainNumber.MatchString(value):
					case verr != nil && schemaAlone(k, value) != "":
					case verr == nil:
						t.Fatalf("%s: the schema accepts %q, the reader says: %s", k.Path, value, problems[0].Message)
					default:
						t.Fatalf("%s: the reader reads %q, the schema says: %v", k.Path, value, verr)
					}
				})
			})
		}
	}
	// Neither side says yes or no to everything; rapid draws a fifth with -short.
	least := 500
	if testing.Short() {
		least = 100
	}
	if agreed[true] < least || agreed[false] < least {
		t.Errorf("agreed on %d that read and %d that do not", agreed[true], agreed[false])
	}
	t.Logf("agreed on %d that read and %d that do not", agreed[true], agreed[false])
}

// TestEditorFilesAgreeOnWholeFiles: on front matter of several keys, right and wrong, some
// unknown, some in the wrong section, some with keys where a value belongs.
func TestEditorFilesAgreeOnWholeFiles(t *testing.T) {
	schemas := editorSchemas(t)
	keys := unit.Keys()
	rapid.Check(t, func(t *rapid.T) {
		lines := []string{"stock: A-1", "model: a"} // the model may fill in what a kind needs
		good := true
		for range rapid.IntRange(0, 6).Draw(t, "keys") {
			k := rapid.SampledFrom(keys).Draw(t, "key")
			top, rest, below := strings.Cut(k.Path, ".")
			if slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, top+":") }) || strings.Contains(rest, ".") || top == "photos" || top == "waive" || top == "proof" {
				continue
			}
			value := plainOrQuoted(k.Example)
			if k.Kind == "section" {
				value = rapid.SampledFrom([]string{"", "{}", "words", "[]"}).Draw(t, "section")
				good = good && (value == "" || value == "{}")
			} else if k.Kind == "list" {
				value = rapid.SampledFrom([]string{"", "[]", "words", "{a: b}", "[a: 1]", "[[a]]"}).Draw(t, "list")
			} else if rapid.IntRange(0, 5).Draw(t, "wrong") == 0 {
				value = rapid.SampledFrom([]string{"[a]", "{a: b}", ""}).Draw(t, "value")
			}
			if below {
				lines = append(lines, top+":", "  "+rest+": "+value)
			} else {
				lines = append(lines, top+": "+value)
			}
		}
		if rapid.IntRange(0, 4).Draw(t, "unknown") == 0 {
			lines = append(lines, rapid.SampledFrom([]string{"gwvr: 1 lb", "gvwr: 7,000 lb", "Title: a", "tires.size: x"}).Draw(t, "key"))
		}
		front := strings.Join(lines, "\n") + "\n"
		verr := schemas["unit.schema.json"].Validate(jsonOf(&testing.T{}, front))
		problems := formatProblems("unit.schema.json", front)
		if (verr == nil) != (len(problems) == 0) {
			t.Fatalf("reader: %v\nschema: %v\n%s", problems, verr, front)
		}
		if verr == nil && !good {
			t.Fatalf("accepted:\n%s", front)
		}
	})
}

// TestEditorFilesKnowTheRulesExamples: the front matter of every case of the rules' own
// archives, which somebody wrote to break something, is judged alike.
func TestEditorFilesKnowTheRulesExamples(t *testing.T) {
	schemas := editorSchemas(t)
	archives, err := filepath.Glob("../inspect/*.txtar")
	if err != nil || len(archives) == 0 {
		t.Fatal("no archives", err)
	}
	n := map[bool]int{}
	for _, name := range archives {
		a, err := txtar.ParseFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range a.Files {
			front, _, ok := strings.Cut(strings.TrimPrefix(string(f.Data), "---\n"), "\n---\n")
			if !ok || !strings.HasSuffix(f.Name, ".md") || strings.Contains(f.Name, "models/") || strings.HasSuffix(f.Name, "yard.md") || !strings.HasPrefix(string(f.Data), "---\n") {
				continue
			}
			front += "\n"
			problems := formatProblems("unit.schema.json", front)
			var node yaml.Node
			if yaml.Unmarshal([]byte(front), &node) != nil || len(problems) > 0 && slices.Contains([]string{unit.FileUnreadable, unit.KeyTwice}, problems[0].Rule) {
				continue // text that is not YAML has no values to judge
			}
			verr := schemas["unit.schema.json"].Validate(jsonOf(t, front))
			if verr == nil != (len(problems) == 0) {
				// The stock number's form and its being there are judged by rules of their own.
				if verr != nil && (strings.Contains(verr.Error(), "/stock") || strings.Contains(verr.Error(), "'stock'")) {
					continue
				}
				t.Errorf("%s: %s: reader: %v\nschema: %v", name, f.Name, problems, verr)
			}
			n[verr == nil]++
		}
	}
	if n[true] < 200 || n[false] < 5 {
		t.Errorf("accepted %d, refused %d", n[true], n[false])
	}
}

// What the schemas ask beyond the reader, so that nobody takes it for a slip.
func TestEditorFilesAskMore(t *testing.T) {
	schemas := editorSchemas(t)
	for _, c := range []struct{ schema, front, why string }{
		{"unit.schema.json", "title: A\n", "a unit needs its stock number, which no model gives"},
		{"unit.schema.json", "stock: SB 1043\n", "a stock number names a page (stock-form)"},
		{"yard.schema.json", "phone: 555-0142\n", "a yard needs its name and the day its stock was walked (yard-missing)"},
		{"model.schema.json", "serial: 0J9RP1A35T1644345\n", "no unit takes a serial number from its model"},
	} {
		if err := schemas[c.schema].Validate(jsonOf(t, c.front)); err == nil {
			t.Errorf("%s accepts %q: %s", c.schema, c.front, c.why)
		}
		if problems := formatProblems(c.schema, c.front); len(problems) > 0 && c.schema != "model.schema.json" {
			t.Errorf("%q: the reader refuses it too: %v", c.front, fmt.Sprint(problems))
		}
	}
}

// TestEditorFilesAskWhatAKindNeeds: a unit that names no model has the keys that its kind
// needs, if only empty ones, as the sheet of a recording has them.
func TestEditorFilesAskWhatAKindNeeds(t *testing.T) {
	schema := editorSchemas(t)["unit.schema.json"]
	docs := map[string]unit.KeyDoc{}
	for _, k := range unit.Keys() {
		docs[k.Path] = k
	}
	for _, kind := range kinds.All() {
		front := "stock: A-1\nkind: " + strings.ToUpper(kind.Name) + "\n"
		if err := schema.Validate(jsonOf(t, front)); (err == nil) != (len(kind.Needs) == 0) {
			t.Errorf("without %v: %v", kind.Needs, err)
		}
		if err := schema.Validate(jsonOf(t, front+"model: a\n")); err != nil {
			t.Errorf("a model may give what a %s needs: %v", kind.Noun, err)
		}
		full, empty := front, front
		for _, need := range kind.Needs {
			k, ok := docs[need]
			if !ok || k.Example == "" {
				t.Fatalf("a %s needs %s, which is not a key with an example", kind.Noun, need)
			}
			if !k.NeededFor(kind.Name) || k.NeededFor("hovercraft") != k.Needed {
				t.Errorf("%s is not known to be needed by a %s alone", need, kind.Noun)
			}
			section, name, _ := strings.Cut(need, ".")
			if !strings.Contains(full, "\n"+section+":\n") {
				full, empty = full+section+":\n", empty+section+":\n"
			}
			full += "  " + name + ": " + plainOrQuoted(k.Example) + "\n"
			empty += "  " + name + ":\n"
		}
		for _, front := range []string{full, empty} {
			if err := schema.Validate(jsonOf(t, front)); err != nil {
				t.Errorf("%s%v", front, err)
			}
		}
		u, problems := unit.ReadUnit("content/units/a.md", []byte("---\n"+full+"---\n"))
		if len(problems) > 0 || u.Kind.Value != kind.Name {
			t.Errorf("kind %q, problems %v in\n%s", u.Kind.Value, problems, full)
		}
		bare, _ := unit.ReadUnit("content/units/a.md", []byte("---\n"+front+"---\n"))
		if missing := len(bare.Missing()) - len(u.Missing()); missing != len(kind.Needs) {
			t.Errorf("%s: %d keys are missing for the kind, want %v", kind.Name, missing, kind.Needs)
		}
		for _, m := range bare.Missing() {
			if slices.Contains(kind.Needs, m.Path) && m.Noun != kind.Noun {
				t.Errorf("%s is needed by every %q, not %q", m.Path, kind.Noun, m.Noun)
			}
		}
	}
}

// Front matter may have a comment that names the schema: it is not read.
func TestEditorCommentIsNotRead(t *testing.T) {
	for _, comment := range []string{"# yaml-language-server: $schema=../../editor-help/unit.schema.json\n"} {
		if problems := formatProblems("unit.schema.json", comment+"stock: A-1\n"); len(problems) > 0 {
			t.Errorf("%v", problems)
		}
		if problems := formatProblems("yard.schema.json", comment+"name: A\n"); len(problems) > 0 {
			t.Errorf("%v", problems)
		}
	}
}
