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

// TestAskSays holds what the owner reads: what is asked for, each question once for each answer,
// and why an answer does not go into the file.
func TestAskSays(t *testing.T) {
	yard := []byte("---\nname: Your Trailer Yard\nphone: 555-0100\ntown: Your Town\n---\n")
	const asked, first, second, third = "three questions; press Enter to leave one for later\n", "What is your yard called? ", "Which phone number should customers call? ", "In which town is it? "
	for typed, want := range map[string]string{
		"Quillfern\n\nQuillfern\n": asked + first + second + third,
		"":                         asked + first + "\n",
		"Quillfern\n":              asked + first + second + "\n",
		"\x07\nQuillfern\n":        asked + first + "this does not go into the file: name: \"\\a\" cannot be written as a value\n" + first + second + "\n",
	} {
		var out bytes.Buffer
		Ask(strings.NewReader(typed), &out, yard)
		if out.String() != want {
			t.Errorf("typed %q:\n%q\nwant\n%q", typed, &out, want)
		}
	}
	// The reader's own reason, where the file would not read.
	var out bytes.Buffer
	long := strings.Repeat("x", 5000)
	got := Ask(strings.NewReader(long+"\n\n\n\n"), &out, []byte("---\nname: A\nlanguages: [klingon]\n---\n"))
	if string(got) != "---\nname: A\nlanguages: [klingon]\n---\n" || !strings.Contains(out.String(), "this does not go into the file: ") {
		t.Errorf("%s\nit said %s", got, &out)
	}
}
