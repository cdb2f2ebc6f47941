package stockfile

import (
	"bytes"
	"encoding/json"
	"fmt"

	"tarepage/internal/unit"
)

// node is a part of a JSON Schema.
type node = ordered[any]

func pair(key string, value any) entry[any] { return entry[any]{key, value} }

func words(what string) node { return node{pair("type", "string"), pair("description", what)} }

func day(what string) node {
	return node{pair("type", "string"), pair("format", "date"), pair("description", what)}
}

func yes(what string) node {
	return node{pair("const", true), pair("description", what)}
}

// object is an object with these properties and no others.
func object(what string, required []string, properties node) node {
	out := node{pair("type", "object"), pair("description", what)}
	if len(required) > 0 {
		out = append(out, pair("required", required))
	}
	return append(out, pair("properties", properties), pair("additionalProperties", false))
}

func list(what string, of node) node {
	return node{pair("type", "array"), pair("description", what), pair("items", of)}
}

const about = "true where the number is approximate; absent otherwise"

// Schema writes stock.schema.json, the JSON Schema (draft 2020-12) of stock.json. It is
// made from the declarations that the trailers' files are read by.
func Schema() ([]byte, error) {
	flat, err := json.Marshal(node{
		pair("$schema", "https://json-schema.org/draft/2020-12/schema"),
		pair("title", version),
		pair("description", "A trailer yard's stock. "+governs+" What is missing is not known: it is never zero."),
		pair("type", "object"),
		pair("required", []string{"form", "schema", "as-of", "governs", "yard", "figures", "units"}),
		pair("properties", node{
			pair("form", node{pair("const", version)}),
			pair("schema", node{pair("const", "stock.schema.json")}),
			pair("as-of", day("the day on which the stock was last walked; prices and availability are as of it")),
			pair("price-excludes", words("what the prices leave out")),
			pair("governs", words("what to hand on with any number")),
			pair("yard", yardSchema()),
			pair("figures", list("what each figure is", object("one figure", []string{"name", "label", "unit", "what", "source"}, node{
				pair("name", words("its name below units")), pair("label", words("what pages call it")), pair("unit", words("its unit")),
				pair("what", words("what it is")), pair("source", words("the clause or the practice it follows")),
			}))),
			pair("units", list("the trailers", trailerSchema())),
		}),
		pair("additionalProperties", false),
		pair("$defs", defs()),
	})
	if err != nil {
		return nil, fmt.Errorf("stock.schema.json: %w", err)
	}
	var b bytes.Buffer
	if err := json.Indent(&b, flat, "", " "); err != nil {
		return nil, fmt.Errorf("stock.schema.json: %w", err)
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

func yardSchema() node {
	optional := func(what string) node { return words(what + "; absent where it is not given") }
	return object("who sells", []string{"name"}, node{
		pair("name", words("the yard's name")), pair("address", optional("the site's address")), pair("phone", optional("the phone number")),
		pair("email", optional("the mail address")), pair("street", optional("street and number")), pair("town", optional("town and state")),
	})
}

// trailerSchema is what stock.json has for one trailer.
func trailerSchema() node {
	return object("one trailer", []string{"stock", "page", "title", "kind", "condition", "availability", "stated", "figures"}, node{
		pair("stock", words("the yard's own number")),
		pair("page", words("its page's path in the site")),
		pair("url", node{pair("type", "string"), pair("format", "uri"), pair("description", "its page's whole address")}),
		pair("title", words("what it is")),
		pair("kind", choiceSchema("kind", "the kind of trailer")),
		pair("make", words("who built it")),
		pair("year", node{pair("type", "integer"), pair("minimum", 1900), pair("description", "model year")}),
		pair("serial", words("the VIN or another number")),
		pair("condition", choiceSchema("condition", "new or used")),
		pair("color", words("its color")),
		pair("availability", choiceSchema("availability", "whether it can be bought, as of the list's day")),
		pair("availability-since", day("the day on which that changed")),
		pair("arrived", day("the day it came into the yard, or is expected")),
		pair("changed", day("the last day on which it arrived or its price or availability changed")),
		pair("price", object("the asking price as of the list's day; absent where there is none to tell", []string{"amount", "currency"}, node{
			pair("amount", node{pair("type", "number"), pair("exclusiveMinimum", 0)}),
			pair("currency", node{pair("const", "USD")}),
			pair("since", day("the day on which it last changed")),
			pair("about", yes(about)),
		})),
		pair("stated", valuesSchema()),
		pair("figures", figuresSchema()),
		pair("cautions", list("what its page warns of", node{pair("type", "string")})),
	})
}

// choiceSchema is one of the words that a key takes.
func choiceSchema(path, what string) node {
	for _, k := range unit.Keys() {
		if k.Path == path {
			return node{pair("enum", k.Choices), pair("description", what)}
		}
	}
	return words(what)
}

// valuesSchema is what a trailer's file states.
func valuesSchema() node {
	var keys node
	for _, k := range unit.Keys() {
		if k.Kind != "section" && k.Kind != "list" && shown(k.Path) {
			keys = append(keys, pair(k.Path, statedSchema(k)))
		}
	}
	return node{
		pair("type", "object"),
		pair("description", "what the trailer's file states, by its keys; a key that is missing was not stated"),
		pair("properties", keys), pair("patternProperties", node{pair(`^tie-downs\.`, ref("#/$defs/count-or-weight", "how many, or the rating of each"))}), pair("additionalProperties", false),
	}
}

// figuresSchema is what was worked out for a trailer.
func figuresSchema() node {
	var worked node
	for _, d := range definitions() {
		worked = append(worked, pair(d.Name, node{
			pair("$ref", "#/$defs/figure"), pair("description", d.What), pair("properties", node{pair("unit", node{pair("const", d.Unit)})}),
		}))
	}
	return object("what was worked out, rounded as the page prints it: limits down, loads up; a figure that is missing could not be worked out", nil, worked)
}

func ref(to, what string) node { return node{pair("$ref", to), pair("description", what)} }

// defs are the kinds of value that trailers state and figures have.
func defs() node {
	more := node{pair("text", words("as it is written")), pair("from", words("where it comes from; absent where no note was written")), pair("about", yes(about)),
		pair("proof", words("what the photo shows that proves the value, and whether it is public; absent where there is none"))}
	number := func(least, in string) node {
		value := pair("value", node{pair("type", "number"), pair(least, 0)})
		if in == "" {
			return object("a count", []string{"value"}, append(node{value}, more...))
		}
		return object("a number in "+in, []string{"value", "unit"}, append(node{value, pair("unit", node{pair("const", in)})}, more...))
	}
	of := func(what string, value node) node {
		return object(what, []string{"value"}, append(node{pair("value", value)}, more...))
	}
	return node{
		pair("weight", number("minimum", "lb")),
		pair("weight-above-zero", number("exclusiveMinimum", "lb")),
		pair("length", number("minimum", "in")),
		pair("pressure", number("minimum", "psi")),
		pair("volume", number("minimum", "gal")),
		pair("money", number("minimum", "USD")),
		pair("count", number("minimum", "")),
		pair("count-above-zero", number("exclusiveMinimum", "")),
		pair("count-or-weight", node{pair("oneOf", []any{ref("#/$defs/count", "how many"), ref("#/$defs/weight", "the rating of each")})}),
		pair("yes-or-no", of("yes or no", node{pair("type", "boolean")})),
		pair("words", of("words", node{pair("type", "string")})),
		pair("figure", node{
			pair("type", "object"), pair("required", []string{"value", "unit", "from", "working"}),
			pair("properties", node{
				pair("value", node{pair("type", "number")}), pair("unit", node{pair("type", "string")}),
				pair("from", node{pair("const", workedOut)}), pair("working", words("the formula with its numbers")), pair("about", yes(about)),
			}),
			pair("additionalProperties", false),
		}),
	}
}

// positive are keys that cannot be zero on any trailer.
var positive = map[string]bool{"weights.gvwr": true, "weights.empty": true, "axles.count": true, "axles.rating": true}

// statedSchema is the schema of one key's value.
func statedSchema(k unit.KeyDoc) node {
	kind := map[string]string{"weight": "weight", "length": "length", "pressure": "pressure", "volume": "volume", "money": "money", "count": "count", "yes or no": "yes-or-no"}[k.Kind]
	if kind == "" {
		kind = "words"
	}
	if positive[k.Path] {
		kind += "-above-zero"
	}
	out := ref("#/$defs/"+kind, k.Doc)
	if k.Kind == "choice" {
		out = append(out, pair("properties", node{pair("value", node{pair("enum", k.Choices)})}))
	}
	return out
}
