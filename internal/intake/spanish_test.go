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
