package spreadsheet

import (
	"slices"
	"strings"

	"tarepage/internal/kinds"
	"tarepage/internal/unit"
)

// besides are words that people write in front of a kind and that have keys of their own, or
// none: common practice, no source.
var besides = []string{"gooseneck", "gn", "bumper", "pull", "bumperpull", "pintle", "hitch", "single", "tandem", "triple", "dual", "axle",
	"heavy", "duty", "hd", "low", "high", "profile", "hydraulic", "open", "new", "used"}

// kindIn is the kind of trailer that a cell names, with or without such words in front and
// "trailer" after it; empty if it is not clear.
func kindIn(cell string) string {
	words := strings.Fields(strings.ToLower(strings.NewReplacer("-", " ", "/", " ", ",", " ").Replace(cell)))
	for _, after := range []string{"trailers", "trailer"} {
		if n := len(words); n > 1 && words[n-1] == after && named(strings.Join(words, " ")) == "" {
			words = words[:n-1]
		}
	}
	for ; len(words) > 0; words = words[1:] {
		if kind := named(strings.Join(words, " ")); kind != "" {
			return kind
		}
		if !slices.Contains(besides, words[0]) {
			return ""
		}
	}
	return ""
}

// named is the kind with exactly this name or everyday name.
func named(words string) string {
	plain := strings.NewReplacer("-", "", " ", "")
	for _, k := range kinds.All() {
		if plain.Replace(k.Name) == plain.Replace(words) {
			return k.Name
		}
	}
	return unit.Everyday("kind", words)
}

// fit puts length and width where a trailer of this kind has them: a sheet has one column for
// all kinds. A trailer without a title gets one made of its values, unless its model has one.
func fit(values map[string]string, model *unit.Unit) {
	kind, titled := kinds.Of(values["kind"]), values["title"] != ""
	if model != nil {
		titled = titled || model.Title.Given()
		if values["kind"] == "" {
			kind = kinds.Of(model.Kind.Value)
		}
	}
	if kind.Name == "" {
		return
	}
	space := string(kind.Space)
	for _, side := range []string{"length", "width"} {
		from, to := "deck."+side, space+"."+side
		if value := values[from]; value != "" && from != to && space != "" && values[to] == "" && keyDocs()[to].Path != "" {
			values[to] = value
			delete(values, from)
		}
	}
	if !titled && values[space+".length"] != "" {
		values["title"] = title(kind, values)
	}
}

// title is what a customer reads first: "102 in x 28 ft gooseneck deck-over".
func title(kind kinds.Kind, values map[string]string) string {
	size := values[string(kind.Space)+".length"]
	if width := values[string(kind.Space)+".width"]; width != "" {
		size = width + " x " + size
	}
	if h := strings.ReplaceAll(values["hitch.kind"], " ", "-"); h != "" && h != "bumper-pull" {
		size += " " + h
	}
	return size + " " + kind.Noun
}
