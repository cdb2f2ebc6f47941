package walkaround

import (
	"path/filepath"
	"strings"
	"testing"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/thorough"
)

func notesOf(said string) (string, []Omission) {
	c := captions.Track{Cues: []captions.Cue{{Start: 1, End: 9, Text: said}}}
	notes, out := Notes(c, heardOf(c))
	var text []string
	for _, n := range notes {
		text = append(text, n.Text)
	}
	return strings.Join(text, " "), out
}

// TestPrivateExamples: nothing of a private phrase is in the notes, and a line says why.
func TestPrivateExamples(t *testing.T) {
	for _, p := range privates {
		if text, out := notesOf(p.example); text != "" || len(out) != 1 || out[0].Reason != p.reason {
			t.Errorf("%q: the notes say %q, left out are %v", p.example, text, out)
		}
	}
}

func TestOmissions(t *testing.T) {
	for _, c := range []struct{ said, keeps, reason string }{
		{"Call us at 555-0100. The jack is new.", "The jack is new.", byPhone},
		{"the jack is new. five five five, oh one one eight.", "The jack is new.", byPhone},
		{"it's a ten foot trailer. walking over to the red one. it has a winch", "It's a ten foot trailer.", ofSecond},
		{"good morning. the jack is new.", "The jack is new.", byHello},
		{"the jack is new. pat's number is 555-0166 if he calls.", "The jack is new.", byPhone},
		{"the jack is new. it came from a fella out of town who hauled hay, pat, real nice guy.", "The jack is new.", byOwner},
		{"the jack is new. the gate code is four four one two.", "The jack is new.", byCode},
		{"the jack is new. we paid thirty eight hundred for it.", "The jack is new.", byPaid},
		{"the jack is new. write to pat at the yard dot example.", "The jack is new.", byMail},
		{"the jack is new. that's p a t.", "The jack is new.", byName},
		{"the g v w r is on the tag. l e d lights.", "The GVWR is on the tag. L e d lights.", ""},
		{"El gato es nuevo. Llámenos al cinco cinco cinco cero uno cuarenta y dos.", "El gato es nuevo.", byPhone},
		{"El gato es nuevo. Mi cel es 555-0142.", "El gato es nuevo.", byPhone},
		{"El piso es nuevo. Era de don pat, vive en el cerro.", "El piso es nuevo.", byOwner},
		{"El piso es nuevo. No me cite.", "El piso es nuevo.", unsure},
		{"El piso es nuevo. Pagamos tres mil por el.", "El piso es nuevo.", byPaid},
		{"El piso es nuevo. La clave del porton es cuatro cuatro uno dos.", "El piso es nuevo.", byCode},
		{"Dos ejes de siete mil, con dos gatos.", "Dos ejes de siete mil, con dos gatos.", ""},
		{"ask for the twelve k jack", "Ask for the twelve k jack.", ""},
		{"235/80R16 tires and 5,200 lb axles", "235/80R16 tires and 5,200 lb axles.", ""},
	} {
		text, out := notesOf(c.said)
		if text != c.keeps || (len(out) > 0) != (c.reason != "") || len(out) > 0 && out[0].Reason != c.reason {
			t.Errorf("%q: the notes say %q, left out are %v", c.said, text, out)
		}
	}
}

func TestPrivate(t *testing.T) {
	for said, want := range map[string]string{
		"my name is pat and this is a dump trailer":         "a name",
		"me llamo pat y le enseño este remolque":            "a name",
		"mi celular es cinco cinco cinco cero uno uno ocho": byPhone,
		"call us at five five five oh one four two":         byPhone,
		"the jack is new. ask for pat":                      "a name",
		"write to pat@yard.example.":                        "an email address",
		"write to pat at the yard dot example":              "an email address",
		"that's p a t with the yard":                        "a name",
		"run them at fifty p s i. l e d lights":             "",
		"two jacks @ 5,000 lb each.":                        "",
		"good morning folks. ask for the twelve k jack":     "",
		"it has 235/80R16 tires and five five inch d rings": "",
	} {
		got := ""
		for _, o := range Private(captions.Track{Cues: []captions.Cue{{Start: 1, End: 9, Text: said}}}) {
			got = o.Reason
		}
		if got != want {
			t.Errorf("%q: %q, want %q", said, got, want)
		}
	}
}

// TestNothingIsInvented: every word of a note was said within its time, except for the spelling of
// trade words.
func TestNothingIsInvented(t *testing.T) {
	spelled := map[string]bool{}
	for _, list := range spelling() {
		for _, r := range list {
			for _, w := range r[1] {
				spelled[strings.ToLower(w)] = true
			}
		}
	}
	bare := func(w string) string { return strings.ToLower(strings.Trim(w, ",.;:!?…♪-><\"'()[]")) }
	names, _ := filepath.Glob("testdata/stranger-*/*.want")
	if len(names) != 72 {
		t.Fatal(names)
	}
	for i, name := range names {
		if i%3 != 0 && !thorough.BeforePush() {
			continue
		}
		c := walkOf(t, name)
		notes, _ := Notes(c, heardOf(c))
		for _, n := range notes {
			said := map[string]bool{}
			for _, w := range c.Words() {
				if w.Start >= n.Start-0.01 && w.Start <= n.End+0.01 {
					said[bare(w.Text)] = true
				}
			}
			for w := range strings.FieldsSeq(n.Text) {
				if w = bare(w); w != "" && !said[w] && !spelled[w] {
					t.Errorf("%s %s: nobody said %q", name, measure.Clock(int(n.Start)), w)
				}
			}
		}
	}
}
