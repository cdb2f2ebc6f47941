package intake

import (
	"os"
	"strings"
	"testing"
)

// TestMixedTalk: a recording in English and Spanish becomes values, each with the speaker's own
// words.
func TestMixedTalk(t *testing.T) {
	data, err := os.ReadFile("../spanishtalk/testdata/mixed/1.vtt")
	if err != nil {
		t.Fatal(err)
	}
	talk, err := Listen("1.vtt", data)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, v := range talk.Taken {
		got[v.Path] = v.Value
		if strings.Contains(v.Quote, "pounds axle") || v.Quote == "" {
			t.Errorf("%s quotes %q", v.Path, v.Quote)
		}
		if v.Path == "weights.gvwr" && !strings.Contains(v.Quote, "veinticinco mil novecientas libras on the tag") {
			t.Errorf("GVWR quotes %q", v.Quote)
		}
	}
	for path, want := range map[string]string{"weights.gvwr": "25,900 lb (said 0:15)", "axles.rating": "10,000 lb (said 0:06)", "jack.count": "2 (said 0:36)",
		"frame.crossmember-spacing": "16 in (said 0:32)"} {
		if got[path] != want {
			t.Errorf("%s is %q, want %q", path, got[path], want)
		}
	}
	if len(talk.Notes) == 0 || !strings.Contains(talk.Notes[0].Text, "dos mil veintiséis") {
		t.Errorf("the notes are not in the speaker's words: %v", talk.Notes)
	}
}

// TestPrivateTalkInSpanish: what a bilingual yard worker says besides is not in the notes, and dual
// tires are four on an axle.
func TestPrivateTalkInSpanish(t *testing.T) {
	const talk = "WEBVTT\n\n00:02.000 --> 00:06.000\nOk este es un gooseneck, deck over de treinta y dos pies.\n\n" +
		"00:07.000 --> 00:11.000\nDos ejes de diez mil, doble rodado, electric brakes.\n\n" +
		"00:12.000 --> 00:16.000\nEra de don Pat, vive en el rancho de abajo. Llámenos al cinco cinco cinco cero uno cuarenta y dos.\n\n" +
		"00:17.000 --> 00:21.000\nAncho total ciento dos pulgadas.\n"
	heard, err := Listen("1.vtt", []byte(talk))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, v := range heard.Taken {
		got[v.Path] = v.Value
	}
	if got["tires.per-axle"] != "4 (said 0:10)" || got["overall-width"] != "102 in (said 0:18)" {
		t.Errorf("%v", got)
	}
	for _, n := range heard.Notes {
		for _, w := range []string{"Pat", "rancho", "Llámenos", "cinco"} {
			if strings.Contains(n.Text, w) {
				t.Errorf("the notes say %q", n.Text)
			}
		}
	}
}
