package media

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// TestWordsInASetup: words behind the numbers of a decoder's setup are found, and numbers are not
// words. The setups are of common encoders, as their files have them.
func TestWordsInASetup(t *testing.T) {
	avc := "\x01\x64\x00\x1f\xff\xe1\x00\x1a\x67\x64\x00\x1f\xac\xd9\x40\x50\x05\xbb\x01\x10\x00\x00\x03\x00\x10\x00\x00\x03\x03\xc0\xf1\x83\x19\x60\x01\x00\x06\x68\xeb\xe3\xcb\x22\xc0"
	for setup, want := range map[string]string{
		avc: "", "": "", strings.Repeat("U", 99): "", strings.Repeat("UZ", 99): "", "short text": "short text", "Hank Ames": "",
		avc + "47.61N 122.33W, by Ramon": "47.61N 122.33W, by Ramon", "\x00Oak Street 14\x00" + avc: "Oak Street 14",
	} {
		if got := wordsIn([]byte(setup)); got != want {
			t.Errorf("%.20q: %q, want %q", setup, got, want)
		}
	}
}

// TestOpusSetupIsCut: what follows the setup of Opus is left out.
func TestOpusSetupIsCut(t *testing.T) {
	plain := "\x00\x02\x01\x38\x00\x00\xbb\x80\x00\x00\x00"
	mapped := "\x00\x03\x01\x38\x00\x00\xbb\x80\x00\x00\x01\x02\x01\x00\x01\x02"
	for _, setup := range []string{plain, mapped} {
		data := setup + "filmed at home"
		f := &file{r: strings.NewReader(data), size: int64(len(data))}
		got, err := bareOpus(f, &box{kind: "dOps", end: int64(len(data))})
		if err != nil || string(got) != setup {
			t.Errorf("%q became %q, %v", data, got, err)
		}
	}
	for _, short := range []string{"", plain[:10], mapped[:12]} {
		f := &file{r: strings.NewReader(short), size: int64(len(short))}
		if got, err := bareOpus(f, &box{kind: "dOps", end: int64(len(short))}); err == nil {
			t.Errorf("%q became %q", short, got)
		}
	}
}

// TestWordsInSound: words in a piece of sound are refused, whatever the codec; noise and the same
// few letters again and again are not.
func TestWordsInSound(t *testing.T) {
	noise := make([]byte, 1<<20)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	for what, c := range map[string]struct {
		sound string
		fails bool
	}{
		"noise": {string(noise), false}, "filling": {strings.Repeat("UUUU", 99), false}, "short": {"\x00Hank was here\x00", false},
		"words": {string(noise[:99]) + "47.61N 122.33W, filmed by Ramon at home", true},
	} {
		if err := heard([]byte(c.sound)); (err != nil) != c.fails {
			t.Errorf("%s: %v", what, err)
		}
	}
}
