package starter

import (
	"bytes"
	"strings"
	"testing"
)

// The three answers go into the yard's file and nothing else changes; no answer keeps a line.
func TestAsk(t *testing.T) {
	var yard []byte
	for _, f := range Files() {
		if f.Name == yardFile {
			yard = f.Data
		}
	}
	for _, c := range []struct {
		typed string
		was   []string
	}{
		{"Quillfern: Trailers #1\n555-0117\n Quillfern \n", []string{"name: Your Trailer Yard", `name: "Quillfern: Trailers #1"`, "phone: 555-0100", "phone: 555-0117", "town: Your Town", "town: Quillfern"}},
		{"\n555-0117\n\n", []string{"phone: 555-0100", "phone: 555-0117"}},
		{"Quillfern", []string{"name: Your Trailer Yard", "name: Quillfern"}},
		{"\x07\nQuillfern\n", []string{"name: Your Trailer Yard", "name: Quillfern"}}, // asked again
		{"", nil},
	} {
		var out bytes.Buffer
		got := string(Ask(strings.NewReader(c.typed), &out, yard))
		if want := strings.NewReplacer(c.was...).Replace(string(yard)); got != want {
			t.Errorf("typed %q:\n%s\nwant\n%s\nit said %s", c.typed, got, want, &out)
		}
	}
}
