package unit

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/kinds"
)

const ownersFile = "../../docs/owners.md"

// The lines between which the guide has the table of kinds.
const (
	kindsBegin = "<!-- This table is made from internal/kinds. -->\n"
	kindsEnd   = "<!-- End of the table of kinds. -->\n"
)

// TestOwnersKinds holds the guide's table of kinds to the kinds and to what each must have.
func TestOwnersKinds(t *testing.T) {
	src, err := os.ReadFile(ownersFile)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(src), kindsBegin)
	_, after, ended := strings.Cut(rest, kindsEnd)
	if !ok || !ended {
		t.Fatalf("%s lacks the lines around the table of kinds", ownersFile)
	}
	want := before + kindsBegin + kindsTable() + kindsEnd + after
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile(ownersFile, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if want != string(src) {
		t.Errorf("%s does not have the kinds as they are; run\n\tgo test ./internal/unit -run OwnersKinds -update", ownersFile)
	}
}

// kindsTable is the table: each kind, what people call it, and the keys that it must have.
func kindsTable() string {
	var b strings.Builder
	b.WriteString("\n| `kind` | people also say | it must have, besides what every trailer must have |\n| --- | --- | --- |\n")
	keys := map[string]KeyDoc{}
	var all []string
	for _, k := range Keys() {
		keys[k.Path] = k
		if k.Needed && !strings.HasPrefix(k.Path, "photos.") && !strings.HasPrefix(k.Path, "proof.") && !strings.HasPrefix(k.Path, "waive.") {
			all = append(all, "`"+k.Path+"`")
		}
	}
	for _, k := range kinds.All() {
		var said []string
		for words, kind := range choiceWords["kind"] {
			if kind == k.Name && words != "jet ski" { // it is a maker's name
				said = append(said, words)
			}
		}
		slices.Sort(said)
		var needs []string
		for _, path := range k.Needs {
			key := keys[path]
			how := "as in " + key.Example
			if len(key.Choices) > 0 {
				how = strings.Join(key.Choices, " or ")
			}
			need := fmt.Sprintf("`%s`, %s", path, how)
			if instead := k.Instead[path]; instead != "" {
				need += ", or `" + instead + "`"
			}
			needs = append(needs, need)
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", k.Name, strings.Join(said, ", "), strings.Join(needs, "; "))
	}
	b.WriteString("\nEvery trailer must have " + strings.Join(all, ", ") + ".\n")
	return b.String()
}
