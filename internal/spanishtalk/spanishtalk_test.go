package spanishtalk

import (
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/captions"
	"tarepage/internal/walkaround"
)

// said is a text as one caption.
func said(text string) captions.Track {
	return captions.Track{Cues: []captions.Cue{{Start: 0, End: float64(len(text)), Text: text}}}
}

// heard is a text in English, Spanish or not.
func heard(text string) string {
	var out []string
	for _, t := range translated(numbered(cut(said(text).Words()))) {
		out = append(out, t.out+t.trail)
	}
	return strings.Join(out, " ")
}

// TestWords: each line of the table has an example, and the example is heard as the table says.
func TestWords(t *testing.T) {
	lines, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, l := range lines[1:] {
		if seen[l[0]] {
			t.Errorf("%q is in the table twice", l[0])
		}
		seen[l[0]] = true
		if got := heard(l[2]); got != l[3] {
			t.Errorf("%q: %q is heard as %q, want %q", l[0], l[2], got, l[3])
		}
		if !strings.Contains(l[3], strings.TrimSpace(strings.NewReplacer("{n}", "", "{q}", "").Replace(l[1]))) && !strings.Contains(l[1], "{") {
			t.Errorf("%q: the example %q does not use %q", l[0], l[2], l[1])
		}
	}
}

// TestNumerals: whole numbers, fractions and numbers said one after the other. The rules are those of the
// Real Academia Española, Ortografía (2010), 8.1 to 8.3, from memory.
func TestNumerals(t *testing.T) {
	for text, want := range map[string]string{
		"siete mil":                   "seven thousand",
		"tres mil cien":               "three thousand one hundred",
		"veinticinco mil novecientas": "twenty five thousand nine hundred",
		"ciento dos":                  "one hundred two",
		"mil ciento ochenta":          "one thousand one hundred eighty",
		"treinta y un":                "thirty one",
		"doscientos mil":              "two hundred thousand",
		"dos y cinco dieciseisavos":   "two and five sixteenths",
		"dos cinco dieciseisavos":     "two and five sixteenths",
		"ocho y medio":                "eight and a half",
		"diecisiete punto cinco":      "seventeen point five",
		"dos treinta y cinco ochenta": "two thirty five eighty",
		"dieciséis, veinte":           "sixteen, twenty",
		"once mil":                    "eleven thousand",
		"once upon":                   "once upon",
		"un gato":                     "a jack",
		"chains are dos two":          "chains are two",
		"un pie":                      "one foot",
	} {
		if got := heard(text); got != want {
			t.Errorf("%q is heard as %q, want %q", text, got, want)
		}
	}
	for v := range 1_000_000 {
		if v%37 == 0 && (inEnglish(v) == "" || strings.Contains(inEnglish(v), "  ")) {
			t.Errorf("%d is %q", v, inEnglish(v))
		}
	}
}

// TestEnglishStays: talk in English comes back as it is. Where its speaker says something in Spanish,
// at most one figure is lost that was heard without this package.
func TestEnglishStays(t *testing.T) {
	names, err := filepath.Glob("../walkaround/testdata/*/*.vtt")
	if err != nil || len(names) < 100 {
		t.Fatal(len(names), err)
	}
	const mostLost = 1
	mixed, lost := 0, 0
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := captions.Read(name, data)
		if err != nil {
			continue
		}
		english, spanish := English(c)
		if !spanish || strings.HasSuffix(filepath.ToSlash(name), "kept-aside/talk-03.vtt") { // its speaker uses both
			continue
		}
		mixed++
		after := map[string]bool{}
		for _, x := range walkaround.Hear(english) {
			after[string(x.Role)+" "+x.Written(false)] = true
		}
		for _, x := range walkaround.Hear(c) {
			if was := string(x.Role) + " " + x.Written(false); x.Role != "" && !after[was] {
				lost++
				t.Logf("%s: %s is no longer heard", name, was)
			}
		}
	}
	if lost > mostLost {
		t.Errorf("%d figures are no longer heard; at most %d may be lost", lost, mostLost)
	}
	if mixed > 10 {
		t.Errorf("%d talks in English are taken for Spanish in part", mixed)
	}
}

var without = flag.Bool("without", false, "hear without the words of this package")
var show = flag.Bool("show", false, "print what is wrong and missed")

// score is how many labels of a folder's talks are heard, missed, and how many figures are wrong.
func score(t *testing.T, folder string) (right, wrong, missed int) {
	t.Helper()
	names, err := filepath.Glob("testdata/" + folder + "/*.want")
	if err != nil || len(names) != 6 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, err := os.ReadFile(strings.TrimSuffix(name, ".want") + ".vtt")
		if err != nil {
			t.Fatal(err)
		}
		c, _, err := captions.Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		labels, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		want := strings.Split(strings.TrimSpace(string(labels)), "\n")
		english := c
		if !*without {
			english, _ = English(c)
		}
		got := map[string]bool{}
		for _, x := range slices.Concat(walkaround.Hear(english), walkaround.Words(english)) {
			if x.Role != "" && x.Compare != walkaround.Under {
				got[string(x.Role)+" "+x.Written(false)] = true
			}
		}
		for _, w := range want {
			switch {
			case got[w]:
				right++
			default:
				missed++
				if *show {
					fmt.Println(name, "missed", w)
				}
			}
		}
		var of []string
		for _, w := range want {
			key, _, _ := strings.Cut(w, " ")
			of = append(of, key)
		}
		for g := range got {
			key, _, _ := strings.Cut(g, " ")
			if slices.Contains(of, key) && !slices.Contains(want, g) {
				wrong++
				if *show {
					fmt.Println(name, "wrong", g)
				}
			}
		}
		if *show {
			fmt.Println(walkaround.Transcript(english))
		}
	}
	return right, wrong, missed
}

// TestTalk: two sets of six talks that were written before the table was: one in Spanish, one in
// which people change the language within a sentence. The same person wrote talks and table, so this
// says less than talk by strangers would.
func TestTalk(t *testing.T) {
	for folder, least := range map[string]float64{"lot": 0.80, "mixed": 0.75} {
		right, wrong, missed := score(t, folder)
		t.Logf("%s: %d right, %d wrong, %d missed", folder, right, wrong, missed)
		if got := float64(right) / float64(right+missed); got < least {
			t.Errorf("%s: %.2f of the values are heard, at least %.2f were", folder, got, least)
		}
	}
}
