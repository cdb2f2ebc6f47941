package render_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/piprate/json-gold/ld"
	"golang.org/x/net/html"

	"tarepage/internal/photo"
)

// words are a page's text as a person reads it, and data what it states for programs.
func words(t *testing.T, page string) (text, data string) {
	t.Helper()
	root, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for n := range root.Descendants() {
		switch {
		case n.Type == html.ElementNode && n.Data == "script":
			for _, a := range n.Attr {
				if a.Key == "type" && a.Val == "application/ld+json" {
					if data != "" {
						t.Error("a page states twice")
					}
					data = n.FirstChild.Data
				}
			}
		case n.Type == html.TextNode && n.Parent.Data != "script" && n.Parent.Data != "style":
			b.WriteString(n.Data + " ")
		}
	}
	return strings.Join(strings.Fields(b.String()), " "), data
}

// vocabulary is the part of schema.org in testdata.
type vocabulary struct {
	extends map[string][]string
	holds   map[string]map[string][]string // type, property: what it may hold
	values  map[string][]string
}

func schemaOrg(t *testing.T) *vocabulary {
	t.Helper()
	text, err := os.ReadFile("testdata/schema-dts-2.1.0.txt")
	if err != nil {
		t.Fatal(err)
	}
	v := &vocabulary{map[string][]string{}, map[string]map[string][]string{}, map[string][]string{}}
	last := ""
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(line)
		switch {
		case f[0] == "type":
			last = f[1]
			v.holds[last] = map[string][]string{}
			if len(f) > 2 {
				v.extends[last] = f[3:]
			}
		case f[0] == "values":
			v.values[strings.TrimSuffix(f[1], ":")] = f[2:]
		case strings.HasPrefix(line, "  "):
			v.holds[last][strings.TrimSuffix(f[0], ":")] = f[1:]
		}
	}
	return v
}

// is reports whether one type is another or extends it.
func (v *vocabulary) is(name, other string) bool {
	return name == other || slices.ContainsFunc(v.extends[name], func(s string) bool { return v.is(s, other) })
}

// range_ is what a property of a type may hold, or nil if the type has no such property.
func (v *vocabulary) range_(name, property string) []string {
	if r := v.holds[name][property]; r != nil {
		return r
	}
	for _, s := range v.extends[name] {
		if r := v.range_(s, property); r != nil {
			return r
		}
	}
	return nil
}

// check holds one node against the vocabulary.
func (v *vocabulary) check(t *testing.T, where string, node map[string]any) {
	types, ok := node["@type"].([]any)
	if !ok {
		types = []any{node["@type"]}
	}
	for _, name := range types {
		if v.holds[fmt.Sprint(name)] == nil {
			t.Errorf("%s: there is no type %v", where, name)
		}
	}
	for property, value := range node {
		if strings.HasPrefix(property, "@") {
			continue
		}
		var may []string
		for _, name := range types {
			may = append(may, v.range_(fmt.Sprint(name), property)...)
		}
		if may == nil {
			t.Errorf("%s: %v has no %s", where, types, property)
			continue
		}
		list, ok := value.([]any)
		if !ok {
			list = []any{value}
		}
		for _, one := range list {
			if !v.may(one, may) {
				t.Errorf("%s: %s of %v holds %v, it may hold %v", where, property, types, one, may)
			}
			if inner, ok := one.(map[string]any); ok {
				v.check(t, where+" "+property, inner)
			}
		}
	}
}

var (
	durationForm = regexp.MustCompile(`^PT[0-9]+S$`) // ISO 8601, 5.5.2.2
	addressForm  = regexp.MustCompile(`^https://[a-z0-9.-]+/[A-Za-z0-9/._~%?=#-]*$`)
)

// may reports whether a value is one of the kinds that a property may hold.
func (v *vocabulary) may(value any, kinds []string) bool {
	for _, kind := range kinds {
		switch value := value.(type) {
		case map[string]any:
			if v.is(fmt.Sprint(value["@type"]), kind) {
				return true
			}
		case json.Number:
			if kind == "Number" || kind == "Integer" {
				return true
			}
		case string:
			word, known := strings.CutPrefix(value, "https://schema.org/")
			switch {
			case value == "":
			case kind == "Text", kind == "URL" && addressForm.MatchString(value), kind == "Duration" && durationForm.MatchString(value),
				known && slices.Contains(v.values[kind], word), v.holds[kind] != nil && addressForm.MatchString(value),
				kind == "Time" && regexp.MustCompile(`^([01][0-9]|2[0-3]):[0-5][0-9]$`).MatchString(value),
				kind == "Date" && regexp.MustCompile(`^[0-9]{4}(-[0-9]{2}-[0-9]{2})?$`).MatchString(value):
				return true
			}
		}
	}
	return false
}

// context is the vocabulary as a JSON-LD context without a way out for unknown words: a
// processor drops what it does not define.
func (v *vocabulary) context() map[string]any {
	terms := map[string]any{}
	for name, properties := range v.holds {
		terms[name] = "https://schema.org/" + name
		for p := range properties {
			terms[p] = "https://schema.org/" + p
		}
	}
	return map[string]any{"@context": terms}
}

// leaves counts the words and numbers below a value; of an expanded document those of
// values, addresses and types.
func leaves(value any) (n int) {
	switch value := value.(type) {
	case map[string]any:
		for key, inner := range value {
			if key != "@context" {
				n += leaves(inner)
			}
		}
	case []any:
		for _, inner := range value {
			n += leaves(inner)
		}
	default:
		n = 1
	}
	return n
}

// local answers for the one context that pages name, from the vocabulary in testdata.
type local struct{ document map[string]any }

func (l local) LoadDocument(u string) (*ld.RemoteDocument, error) {
	if u != "https://schema.org" {
		return nil, fmt.Errorf("asked for %s", u)
	}
	return &ld.RemoteDocument{DocumentURL: u, Document: l.document}, nil
}

func expanded(v *vocabulary, data string) (any, error) {
	var doc any
	if err := json.Unmarshal([]byte(data), &doc); err != nil {
		return nil, err
	}
	options := ld.NewJsonLdOptions("https://yard.example/page.html")
	options.DocumentLoader = local{v.context()}
	return ld.NewJsonLdProcessor().Expand(doc, options)
}

// TestWhatPagesState checks every statement of every page against the vocabulary (types,
// properties, what each may hold; schema-dts 2.1.0), against an independent JSON-LD
// processor (github.com/piprate/json-gold) that expands it without loss, and against the
// page's own text, which has each number.
func TestWhatPagesState(t *testing.T) {
	v := schemaOrg(t)
	seen := map[string]int{}
	for name, files := range yards(t) {
		for path, page := range files {
			if !strings.HasSuffix(path, ".html") {
				continue
			}
			where := name + ": " + path
			text, data := words(t, page)
			if data == "" {
				t.Errorf("%s states nothing", where)
				continue
			}
			if strings.ContainsAny(data, "<>\n") {
				t.Errorf("%s: a mark of HTML or a line end is in %s", where, data)
			}
			var doc map[string]any
			d := json.NewDecoder(strings.NewReader(data))
			d.UseNumber()
			if err := d.Decode(&doc); err != nil {
				t.Fatalf("%s: %v", where, err)
			}
			for _, n := range doc["@graph"].([]any) {
				node := n.(map[string]any)
				v.check(t, where, node)
				numbers(t, where, text, node)
				kinds(seen, node)
				days(t, where, text, node)
				if node["sku"] != nil {
					weighs(t, where, node)
					offers(t, where, text, node)
				}
			}
			out, err := expanded(v, data)
			if err != nil {
				t.Fatalf("%s: %v", where, err)
			}
			if got, want := leaves(out), leaves(any(doc)); got != want {
				t.Errorf("%s: %d of %d words and numbers are left when expanded", where, got, want)
			}
			if name == "without an address" && strings.Contains(strings.ReplaceAll(data, "https://schema.org", ""), "https://yard") {
				t.Errorf("%s states an address that nobody gave: %s", where, data)
			}
		}
	}
	for _, kind := range []string{"[Product Vehicle]", "QuantitativeValue", "PropertyValue", "Brand", "Offer", "VideoObject", "Clip",
		"BreadcrumbList", "ListItem", "LocalBusiness", "PostalAddress", "OpeningHoursSpecification", "ItemList", "WebPage"} {
		if seen[kind] == 0 {
			t.Errorf("no page states a %s", kind)
		}
	}
	// The checks find what they are for.
	if out, err := expanded(v, `{"@context":"https://schema.org","@type":"Product","nmae":"x"}`); err != nil || leaves(out) != 1 {
		t.Errorf("a misspelled word is not lost: %v, %v", out, err)
	}
	if v.range_("Vehicle", "deckHeight") != nil || v.range_("Vehicle", "weightTotal") == nil || !v.is("LocalBusiness", "Place") {
		t.Error("the vocabulary is not read as it is")
	}
}

// kinds counts the types of a node and of everything in it.
func kinds(seen map[string]int, value any) {
	switch value := value.(type) {
	case map[string]any:
		seen[fmt.Sprint(value["@type"])]++
		for _, inner := range value {
			kinds(seen, inner)
		}
	case []any:
		for _, inner := range value {
			kinds(seen, inner)
		}
	}
}

// days looks for each day of a node in the page's text, in the words in which pages write days.
func days(t *testing.T, where, text string, value any) {
	switch value := value.(type) {
	case map[string]any:
		for key, inner := range value {
			if s, ok := inner.(string); ok && slices.Contains([]string{"validFrom", "availabilityStarts", "uploadDate", "priceValidUntil"}, key) {
				d, err := time.Parse(time.DateOnly, s)
				if err != nil || !strings.Contains(text, d.Format("January 2, 2006")) {
					t.Errorf("%s: %s %s stands nowhere in the page's text (%v)", where, key, s, err)
				}
			}
			days(t, where, text, inner)
		}
	case []any:
		for _, inner := range value {
			days(t, where, text, inner)
		}
	}
}

// numbers looks for each number of a node in the page's text.
func numbers(t *testing.T, where, text string, value any) {
	switch value := value.(type) {
	case map[string]any:
		for key, inner := range value {
			n, ok := inner.(json.Number)
			if !ok {
				if s, ok := inner.(string); ok && key == "duration" {
					n, key = json.Number(strings.TrimSuffix(strings.TrimPrefix(s, "PT"), "S")), "startOffset"
				} else {
					numbers(t, where, text, inner)
					continue
				}
			}
			written := grouped(n.String())
			switch key {
			case "position":
				continue // the place in a list, which shows by itself
			case "startOffset", "endOffset":
				s, _ := n.Int64()
				written = fmt.Sprintf("%d:%02d", s/60, s%60)
			}
			if !regexp.MustCompile(`(^|[^0-9,.])` + regexp.QuoteMeta(written) + `($|[^0-9,]|,[^0-9])`).MatchString(text) {
				t.Errorf("%s: %s %s stands nowhere in the page's text", where, key, written)
			}
		}
	case []any:
		for _, inner := range value {
			numbers(t, where, text, inner)
		}
	}
}

// grouped puts commas into a number as pages write it.
func grouped(s string) string {
	whole, rest, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if rest != "" {
		whole += "." + rest
	}
	return whole
}

// weighs asks of a trailer what schema.org says of payload: the total is the sum of the
// weight and the payload. Kilograms by NIST Handbook 44, Appendix C.
func weighs(t *testing.T, where string, node map[string]any) {
	pounds := func(key string) (float64, bool) {
		q, ok := node[key].(map[string]any)
		if !ok {
			return 0, false
		}
		n, err := q["value"].(json.Number).Float64()
		if err != nil || n <= 0 {
			t.Errorf("%s: %s is %v", where, key, q)
		}
		if q["unitCode"] == "KGM" {
			n /= 0.45359237
		} else if q["unitCode"] != "LBR" {
			t.Errorf("%s: %s is in %v", where, key, q["unitCode"])
		}
		return n, true
	}
	weight, w := pounds("weight")
	payload, p := pounds("payload")
	total, all := pounds("weightTotal")
	// The label of sb-0974 is painted over.
	if unknown := strings.HasSuffix(where, "sb-0974.html"); !w || p == unknown {
		t.Errorf("%s: weight %v, payload %v", where, w, p)
	}
	if all && (weight+payload-total > 1 || total-weight-payload > 1) {
		t.Errorf("%s: %v + %v is not %v", where, weight, payload, total)
	}
	// A ball governs ex-4; nobody weighed the tongue of sb-1058 or measured where the axle of
	// sb-0966 is, so their axles govern; sb-1066 carries one axle of a car.
	if weak := regexp.MustCompile(`(ex-4|sb-1058|sb-0966|sb-0974|sb-1066)\.html$`).MatchString(where); weak == all {
		t.Errorf("%s: where something else governs, the label's rating is not the sum", where)
	}
}

// offers asks what search engines ask: a price above zero, or no offer; and that what is
// offered, as of when and without what, is in the page's line of the price.
func offers(t *testing.T, where, text string, node map[string]any) {
	o, ok := node["offers"].(map[string]any)
	asks := strings.Contains(text, "Call for price") && !strings.Contains(text, "Nearest to it") || strings.HasSuffix(where, "ex-3.html")
	gone := regexp.MustCompile(`(ex-2|sb-1008|sb-1070)\.html$`).MatchString(where)
	if ok == (asks || gone) {
		t.Errorf("%s: offer %v", where, o)
	}
	available, terms := o["availability"], o["description"]
	if ok {
		if n, err := o["price"].(json.Number).Float64(); err != nil || n <= 0 || o["priceCurrency"] != "USD" {
			t.Errorf("%s: offer %v", where, o)
		}
	} else {
		for _, p := range node["additionalProperty"].([]any) {
			if p := p.(map[string]any); p["name"] == "Availability" {
				available, terms = p["valueReference"], p["description"]
			}
		}
	}
	// Of schema.org's ItemAvailability, and the word in the page.
	word := map[any]string{"https://schema.org/InStock": "on the yard", "https://schema.org/BackOrder": "on order",
		"https://schema.org/Reserved": "spoken for", "https://schema.org/SoldOut": "sold"}[available]
	line := regexp.MustCompile(` (?:(?:\$[0-9,]+|Call for price|about \$[0-9,]+) (on the yard|on order|spoken for)|Sold) ((?:[^$]|was \$)*?as of November 20, 2026(, excludes tax, title and registration)?)`).FindStringSubmatch(text)
	if line != nil && line[1] == "" {
		line[1] = "sold"
	}
	if line == nil || line[1] != word || line[2] != terms || gone != (word == "sold") {
		t.Errorf("%s: %v, %v is stated; the page's line is %q", where, available, terms, line)
	}
	if d := o["availabilityStarts"]; (d == "2026-12-15") != strings.HasSuffix(where, "ex-7.html") {
		t.Errorf("%s: expected on %v", where, d)
	}
	if d := o["validFrom"]; ok && (d != nil) != strings.Contains(line[2], "this price since") {
		t.Errorf("%s: valid from %v, the page says %q", where, d, line[2])
	}
}

// TestClips: a recording's moments follow one another, and the address alone leads to
// each.
func TestClips(t *testing.T) {
	samples := yards(t)["samples"]
	for path, first := range map[string]string{
		"u/ex-5.html": "https://yard.example/a/b/media/ex-5.mp4#t=45",
		"u/ex-6.html": "https://video.example/walk-6?t=45",
	} {
		_, data := words(t, samples[path])
		var doc struct {
			Graph []struct {
				Video struct {
					Content  string `json:"contentUrl"`
					Duration string
					Picture  *string `json:"thumbnailUrl"`
					Clips    []struct {
						Name  string
						Start int `json:"startOffset"`
						End   int `json:"endOffset"`
						URL   string
					} `json:"hasPart"`
				} `json:"subjectOf"`
			} `json:"@graph"`
		}
		if err := json.Unmarshal([]byte(data), &doc); err != nil {
			t.Fatal(err)
		}
		v := doc.Graph[0].Video
		own := v.Content != ""
		if len(v.Clips) != 2 || own != (v.Duration == "PT180S") || v.Picture != nil {
			t.Fatalf("%s: %+v", path, v)
		}
		if c := v.Clips[0]; c.URL != first || c.Start != 45 || c.End != 70 || c.Name != "The coupler & its plate" {
			t.Errorf("%s: first moment %+v", path, c)
		}
		if c := v.Clips[1]; c.Start != 70 || own != (c.End == 180) || c.Name != "A tight item with 5,000 lb in it" {
			t.Errorf("%s: second moment %+v", path, c)
		}
	}
}

// TestStatedPictures: the pictures that a page states are those that it shows, at their whole
// addresses, the first photos first; a recording's is what is shown before it plays.
// Without the site's address none is stated.
func TestStatedPictures(t *testing.T) {
	keys, pictures := "recording:\n  length: 3:00\n  video: media/walk.mp4\nphotos:\n", map[string]*photo.Picture{}
	for i := range 6 {
		name := fmt.Sprintf("media/side %d.jpg", i)
		keys += fmt.Sprintf("  - file: %s\n    alt: Side %d\n", name, i)
		pictures[name] = madePicture(fmt.Sprintf("side-%d", i), 800)
	}
	for _, address := range []string{"address: https://yard.example/a\n", ""} {
		root := fstest.MapFS{"content/media/walk.mp4": {Data: []byte("x")},
			"content/yard.md":       {Data: []byte(strings.Replace(yard, "phone:", address+"phone:", 1))},
			"content/units/ex-1.md": {Data: []byte(strings.Replace(sound, "standard:", keys+"standard:", 1))}}
		for name := range pictures {
			root["content/"+name] = &fstest.MapFile{Data: smallPicture(t)}
		}
		page := siteWith(t, root, pictures)["u/ex-1.html"]
		_, stated := words(t, page)
		var doc struct {
			Graph []struct {
				Image []string
				Video *struct {
					Picture string `json:"thumbnailUrl"`
				} `json:"subjectOf"`
			} `json:"@graph"`
		}
		if err := json.Unmarshal([]byte(stated), &doc); err != nil {
			t.Fatal(err)
		}
		node := doc.Graph[0]
		if address == "" {
			if node.Image != nil || node.Video != nil {
				t.Errorf("without an address: %+v", node)
			}
			continue
		}
		if len(node.Image) != 4 || node.Video == nil || node.Video.Picture == "" {
			t.Fatalf("%+v", node)
		}
		for i, at := range append(node.Image, node.Video.Picture) {
			path, ok := strings.CutPrefix(at, "https://yard.example/a/photos/")
			if !ok || i < 4 && path != fmt.Sprintf("side-%d-800.jpg", i) || !strings.Contains(page, `"../photos/`+path+`"`) {
				t.Errorf("the page states %s and does not show it", at)
			}
		}
		if !strings.Contains(page, `poster="../photos/`+filepath.Base(node.Video.Picture)+`"`) {
			t.Errorf("%s is not what stands before the video", node.Video.Picture)
		}
	}
}
