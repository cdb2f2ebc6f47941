package walkaround

import (
	"slices"
	"testing"

	"tarepage/internal/captions"
)

// Where one clause ends and the next begins in talk without stops: common practice, no
// source.
func TestSayings(t *testing.T) {
	track, _, err := captions.Read("a.srt", []byte("1\n00:00:01,000 --> 00:00:06,000\n"+
		"it comes standard with led lights and you can get hydraulic disc brakes now the jack is rated\n\n"+
		"2\n00:00:06,100 --> 00:00:09,000\ntwelve thousand\n\n"+
		"3\n00:00:20,000 --> 00:00:24,000\nthe one next to it comes with disc brakes. The spare on this one is standard\n"))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	var another []bool
	for _, s := range Sayings(track) {
		got, another = append(got, s.Text), append(another, s.Another)
	}
	want := []string{"it comes standard with led lights", "and you can get hydraulic disc brakes", "now", "the jack is rated twelve thousand",
		"the one next to it comes with disc brakes", "The spare on this one is standard"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if !slices.Equal(another, []bool{false, false, false, false, true, false}) {
		t.Errorf("of another unit: %v", another)
	}
	if !OfAnother("The one next to it comes standard with disc brakes.") || OfAnother("This one comes standard with disc brakes.") {
		t.Error("another unit is not told from this one")
	}
}
