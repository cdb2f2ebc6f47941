package walkaround

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tarepage/internal/captions"
)

// An about is what a person wrote down of a whole talk: NAME.about next to its labels.
type about struct {
	standard, options []string
	title             string
	claims            []wantedClaim
	parts             []wantedPart
}

// A wantedClaim is arithmetic that was said, and whether it is right.
type wantedClaim struct {
	at   float64
	said string // "right", "wrong", "retracted", "not-checkable"
	text string
}

type wantedPart struct {
	at   float64
	part string
}

func readAbout(tb testing.TB, name string) about {
	tb.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		tb.Fatal(err)
	}
	var a about
	section := ""
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if key, rest, ok := strings.Cut(line, ":"); ok && clockForm.FindString(line) == "" {
			section = key
			rest = strings.TrimSpace(rest)
			switch key {
			case "standard":
				a.standard = items(rest)
			case "options":
				a.options = items(rest)
			case "title":
				a.title = rest
			}
			continue
		}
		m := clockForm.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		at := clockSeconds(m)
		rest := line[len(m[0]):]
		switch section {
		case "claims":
			said, text, _ := strings.Cut(rest, " ")
			a.claims = append(a.claims, wantedClaim{at, said, text})
		case "parts":
			a.parts = append(a.parts, wantedPart{at, rest})
		}
	}
	return a
}

func items(s string) []string {
	var out []string
	for x := range strings.SplitSeq(s, ";") {
		if x = strings.TrimSpace(x); x != "" {
			out = append(out, x)
		}
	}
	return out
}

// remark is what a label says after an item: its price, or what is wrong with it.
var remark = regexp.MustCompile(`\([^)]*\)`)

// named are the items of equipment.csv, and the values of other keys, that a label names.
func named(label string) []string {
	label = remark.ReplaceAllString(label, "")
	t := tokens(label)
	h := &hearing{t: t}
	var out []string
	for i := 0; i < len(t); i++ {
		if p, n := h.pieceAt(i); n > 0 {
			out = append(out, p.item)
			i += n - 1
		}
	}
	for _, w := range wordsIn(label, t) {
		if w.Role != "" && w.Role != color {
			out = append(out, string(w.Role)+" "+w.Value.String())
		}
	}
	return out
}

// An equipmentScore counts labels that were found and items that were heard.
type equipmentScore struct{ found, labels, right, heard int }

func (s equipmentScore) String() string {
	return fmt.Sprintf("%d of %d found (%.0f%%), %d of %d right (%.0f%%)", s.found, s.labels, 100*float64(s.found)/float64(max(1, s.labels)),
		s.right, s.heard, 100*float64(s.right)/float64(max(1, s.heard)))
}

// count scores the items that were heard in one state against the labels of that state. An
// item that a unit file has a key for counts as found where the key was heard.
func (s *equipmentScore) count(state string, labels, heard, keys []string, report func(string, ...any)) {
	all := map[string]bool{}
	for _, l := range labels {
		names := named(l)
		for _, n := range names {
			all[n] = true
		}
		s.labels++
		if slices.ContainsFunc(names, func(n string) bool {
			return slices.Contains(heard, n) || slices.ContainsFunc(keys, func(k string) bool {
				return strings.HasPrefix(k, n) || keyOf()[n] != "" && strings.HasPrefix(k, keyOf()[n]+" ")
			})
		}) {
			s.found++
		} else {
			report("%s missed %q (%v)", state, l, names)
		}
	}
	for _, n := range heard {
		s.heard++
		if all[n] {
			s.right++
		} else {
			report("%s WRONG %q", state, n)
		}
	}
}

// TestEquipmentLook scores the equipment of a folder of talk, with -look DIR.
func TestEquipmentLook(t *testing.T) {
	if *lookAt == "" {
		t.Skip("no talk to score: give its folder with -look")
	}
	standard, optional := scoreEquipment(t, *lookAt, func(f string, a ...any) {
		if *show {
			fmt.Printf("   "+f+"\n", a...)
		}
	})
	fmt.Println("standard:", standard, "options:", optional)
}

func scoreEquipment(t *testing.T, dir string, report func(string, ...any)) (standard, optional equipmentScore) {
	names, err := filepath.Glob(filepath.Join(dir, "*.about"))
	if err != nil || len(names) == 0 {
		t.Fatalf("nothing in %s: %v", dir, err)
	}
	for _, name := range names {
		a := readAbout(t, name)
		c := walkOf(t, name)
		report("%s", filepath.Base(name))
		var has, can, keys []string
		for _, it := range Equipment(c) {
			if it.Optional {
				can = append(can, it.Name)
			} else {
				has = append(has, it.Name)
			}
		}
		for _, w := range slices.Concat(Words(c), Hear(c)) {
			if w.Role != "" {
				keys = append(keys, string(w.Role)+" "+w.Value.String())
			}
		}
		standard.count("standard", a.standard, has, keys, report)
		optional.count("option", a.options, can, nil, report)
	}
	return standard, optional
}

// walkOf reads the captions that a file of labels belongs to.
func walkOf(tb testing.TB, name string) captions.Track {
	tb.Helper()
	file := strings.TrimSuffix(name, filepath.Ext(name)) + ".vtt"
	data, err := os.ReadFile(file)
	if err != nil {
		tb.Fatal(err)
	}
	c, _, err := captions.Read(file, data)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

// TestEquipmentKept keeps what was won on talk whose errors were read: this measures nothing else.
func TestEquipmentKept(t *testing.T) {
	standard, optional := scoreEquipment(t, filepath.Join("testdata", "stranger-2"), func(string, ...any) {})
	if standard.found < 155 || standard.right*100 < 86*standard.heard {
		t.Errorf("standard equipment: %s", standard)
	}
	if optional.found < 19 || optional.right*100 < 80*optional.heard {
		t.Errorf("options: %s", optional)
	}
}
