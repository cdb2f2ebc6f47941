package unit

import (
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
)

// TestSlips holds each row of slips by its example: YAML does not read the line, the row is
// the first that explains it, and YAML reads the line as it is written again.
func TestSlips(t *testing.T) {
	for _, s := range slips {
		front := []string{"stock: EX-1", s.example, "kind: dump"}
		var node yaml.Node
		if err := yaml.Load([]byte(strings.Join(front, "\n")), &node); err == nil && node.Content[0].Kind == yaml.MappingNode && len(node.Content[0].Content) == 6 && !strings.Contains(s.example, "\u00a0") {
			t.Errorf("%q reads as YAML", s.example)
		}
		r := &reader{file: "a.md"}
		if !r.slipsIn(front, 2) || len(r.problems) != 1 {
			t.Errorf("%q gives %v", s.example, r.problems)
			continue
		}
		p := r.problems[0]
		want := s.instead
		if want == "" {
			want = "write the line like this: " + s.fixed
		}
		if p.At.Line != 3 || !strings.HasPrefix(p.Message, s.cause) || p.Remedy != want {
			t.Errorf("%q gives %d: %s; %s", s.example, p.At.Line, p.Message, p.Remedy)
		}
		if strings.TrimSpace(s.fixed) != s.fixed {
			continue // it belongs below another key
		}
		if err := yaml.Load([]byte(s.fixed), &node); err != nil {
			t.Errorf("%q does not read: %v", s.fixed, err)
		}
	}
}

// TestSoundLines holds that sound lines are not taken for slips.
func TestSoundLines(t *testing.T) {
	for _, line := range []string{
		"stock: EX-1", "title: Dump trailer, 14 ft", `title: "Dump: 14 ft"`, `title: '83" x 14'' dump #1 seller'`, "weights:", "  gvwr: 7,000 lb (tag)",
		"standard:", "- spare tire", "  - file: media/side.jpg", "# a comment: with a colon", "address: https://quillfern.example/trailers/", "recording.at: 10:30", `title: "Big" # comment`, "- 'single'", "  and more of it", "year: '26'", "---",
	} {
		r := &reader{file: "a.md"}
		if r.slipsIn([]string{line}, 2) {
			t.Errorf("%q is taken for a slip: %s", line, r.problems[0].Message)
		}
	}
}

// TestNumberSign gives a value with a # in it, from one that belongs to it to one that begins a comment.
func TestNumberSign(t *testing.T) {
	for line, cut := range map[string]bool{
		`title: 83" x 14' dump #1 seller`:    true,
		"title: black, with #7 decals":       true,
		"title: dump #seller of the year":    true,
		"title: dump # 1 seller":             false, // a comment
		"title: dump#1 seller":               false, // no blank in front
		`title: '83" x 14'' dump #1 seller'`: false,
	} {
		u, problems := ReadUnit("a.md", []byte("---\nstock: EX-1\n"+line+"\n---\n"))
		if got := len(problems) > 0 && strings.Contains(problems[0].Message, "begins a comment"); got != cut {
			t.Errorf("%s: cut %v, title %q, %v", line, got, u.Title.Value, problems)
		}
	}
	_, problems := ReadUnit("a.md", []byte("---\ntitle: 83\" x 14' dump #1 seller\n---\n"))
	if want := `title: '83" x 14'' dump #1 seller'`; len(problems) == 0 || !strings.Contains(problems[0].Remedy, want) {
		t.Errorf("the remedy does not show %s: %v", want, problems)
	}
}

// TestEveryday reads what people write for a choice, a day and a VIN.
func TestEveryday(t *testing.T) {
	for line, want := range map[string]string{
		"availability: In Stock":                        "on the yard",
		"availability: sale pending":                    "spoken for",
		"availability: sale pending (since 2026-11-02)": "spoken for",
		"condition: brand new":                          "write condition: new",
		"arrived: 11/5/2026":                            "2026-11-05",
		"arrived: 31/12/2026":                           "2026-11-02", // not guessed at
	} {
		_, problems := ReadUnit("a.md", []byte("---\nstock: EX-1\n"+line+"\n---\n"))
		if len(problems) == 0 || !strings.Contains(problems[0].Message+problems[0].Remedy, want) {
			t.Errorf("%s: %v, want %s", line, problems, want)
		}
	}
	for serial, want := range map[string]string{
		"0j9rp1a35t1644345": "0J9RP1A35T1644345",
		"ms-12345":          "ms-12345", // a number of another form stays
	} {
		u, _ := ReadUnit("a.md", []byte("---\nserial: "+serial+"\n---\n"))
		if u.Serial.Value != want {
			t.Errorf("serial %s reads as %s", serial, u.Serial.Value)
		}
	}
	choices := map[string][]string{}
	for _, k := range Keys() {
		choices[k.Path] = k.Choices
	}
	for path, words := range choiceWords {
		for word, choice := range words {
			if !slices.Contains(choices[path], choice) || slices.Contains(choices[path], word) {
				t.Errorf("%s: %q is for %q", path, word, choice)
			}
		}
	}
}
