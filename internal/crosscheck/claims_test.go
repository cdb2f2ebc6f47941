package crosscheck_test

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"tarepage/internal/captions"
	"tarepage/internal/crosscheck"
	"tarepage/internal/measure"
	"tarepage/internal/walkaround"
)

// TestClaims: every wrong claim is caught, no right one is accused. A person decided each.
func TestClaims(t *testing.T) {
	data, err := os.ReadFile("testdata/claims.txt")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		n++
		f := strings.SplitN(line, " ", 3)
		payload, err := strconv.Atoi(f[1])
		if err != nil {
			t.Fatal(line)
		}
		got := "none"
		var said []string
		for _, c := range walkaround.ReadProse(f[2]).Claims() {
			w := crosscheck.Work(c, measure.Pounds(payload))
			said = append(said, c.Quote+" ["+strconv.Itoa(int(w.Verdict))+" "+strconv.FormatFloat(w.Said, 'f', -1, 64)+" for "+strconv.FormatFloat(w.Right, 'f', -1, 64)+"]")
			switch {
			case w.Verdict == crosscheck.Differs:
				got = "wrong"
			case w.Verdict == crosscheck.Agrees && got == "none":
				got = "right"
			}
		}
		if got != f[0] {
			t.Errorf("%s, want %s: %s\n\t%s", got, f[0], f[2], strings.Join(said, "; "))
		}
	}
	if n < 40 {
		t.Errorf("%d claims, at least 40 were promised", n)
	}
}

// TestClaimsOfStrangers counts accusations in talk by people who had not seen the code. Four
// claims in it are wrong: a sum of prices, what fourteen thousand less forty-one hundred leaves, a
// load of as much as the coupler's rating, and what 3,500 less 780 leaves.
func TestClaimsOfStrangers(t *testing.T) {
	names, err := filepath.Glob("../walkaround/testdata/stranger-[123]/*.vtt")
	if err != nil || len(names) != 36 {
		t.Fatalf("%d talks: %v", len(names), err)
	}
	want := map[string]bool{"stranger-2/10.vtt 10900": true, "stranger-2/11.vtt 11185": true, "stranger-1/a11.vtt 20000": true, "stranger-3/05.vtt 2820": true}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := captions.Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		short := filepath.Base(filepath.Dir(name)) + "/" + filepath.Base(name)
		payload := labelled(t, name)
		for _, said := range walkaround.Claims(c) {
			w := crosscheck.Work(said, payload)
			t.Logf("%s %d: %s", short, w.Verdict, said.Quote)
			if w.Verdict != crosscheck.Differs {
				continue
			}
			key := short + " " + strconv.FormatFloat(w.Said, 'f', -1, 64)
			if !want[key] {
				t.Errorf("%s: accused %q: %v for %v", short, said.Quote, w.Said, w.Right)
			}
			delete(want, key)
		}
	}
	for k := range want {
		t.Errorf("not caught: %s", k)
	}
}

// labelled is the gross weight less the empty weight by the labels of a talk, or 0.
func labelled(t *testing.T, name string) measure.Pounds {
	data, err := os.ReadFile(strings.TrimSuffix(name, ".vtt") + ".want")
	if err != nil {
		t.Fatal(err)
	}
	weights := map[string]measure.Pounds{}
	for line := range strings.Lines(string(data)) {
		for _, key := range []string{"weights.gvwr ", "weights.empty "} {
			if _, rest, ok := strings.Cut(line, key); ok && weights[key] == 0 {
				if w, err := measure.ParseWeight(strings.TrimSpace(strings.TrimLeft(rest, "~<>= "))); err == nil {
					weights[key] = w.Value
				}
			}
		}
	}
	if weights["weights.gvwr "] == 0 || weights["weights.empty "] == 0 {
		return 0
	}
	return weights["weights.gvwr "] - weights["weights.empty "]
}
