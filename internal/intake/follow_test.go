package intake

import "testing"

func listened(t *testing.T, said string) *Talk {
	t.Helper()
	talk, err := Listen("walk.vtt", []byte("WEBVTT\n\n00:01.000 --> 00:09.000\n"+said+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	return talk
}

// TestConclusions hears the example of each row: the value is marked as said and in its place, and
// it is not concluded where words of the talk speak against it.
func TestConclusions(t *testing.T) {
	against := map[string]string{"hitch.kind": ", the pintle hitch is at the shop", "tires.per-axle": ", it has duals"}
	for _, c := range conclusions {
		v := listened(t, c.example).took(c.key)
		if v == nil || v.Value != c.value+" (said 0:01)" || v.Remarks[0] != c.why || v.Quote == "" {
			t.Errorf("%q: %s is %+v", c.example, c.key, v)
		}
		if c.unless == nil {
			continue
		}
		if v := listened(t, c.example+against[c.key]).took(c.key); v != nil && unsaid(v.Value) == c.value {
			t.Errorf("%q: %s is %+v in spite of %q", c.example, c.key, v, against[c.key])
		}
	}
}

// TestNothingFollows has talk from which nothing follows.
func TestNothingFollows(t *testing.T) {
	for _, c := range []struct{ said, key string }{
		{"it takes a two and five sixteenths ball", "hitch.kind"}, // a gooseneck's may be that size
		{"sixty percent of the load goes in front, or the tongue is too light", "hitch.kind"},
		{"I put new tires on it", "tires.per-axle"},
		{"the hitch is in good condition, new tires", "condition"},
		{"tandem axle, it has four tires a side", "tires.per-axle"},
		{"single axle, and all four tires are new", "tires.per-axle"}, // they may be duals
	} {
		if v := listened(t, c.said).took(c.key); v != nil {
			t.Errorf("%q: %s is %+v", c.said, c.key, v)
		}
	}
	if v := listened(t, "it's a gooseneck, and it takes a two inch ball").took("hitch.kind"); v == nil || v.Value != "gooseneck" {
		t.Errorf("hitch.kind is %+v; what was said counts", v)
	}
}
