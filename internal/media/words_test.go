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

// TestHiddenWords: words in pictures or sound are refused, wherever they are, also with 16 bits for
// each letter; noise and the same few letters again and again are not.
func TestHiddenWords(t *testing.T) {
	const said = "47.61N 122.33W, filmed by Ramon at home"
	noise := make([]byte, 1<<20)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	wide := strings.Join(strings.Split(said, ""), "\x00")
	fails := func(data string) bool {
		c := &Copy{from: strings.NewReader(data)}
		c.take(0, int64(len(data)))
		return c.hidden() != nil
	}
	for what, data := range map[string]string{
		"nothing": "", "noise": string(noise), "filling": strings.Repeat("UUUU", 99), "seven letters": strings.Repeat("UV3xyz.", 99), "short": "\x00Hank was here\x00",
		"counts": strings.Repeat("\x00\x00\x41\x42", 99), "wide counts": strings.Repeat("\x00\x41\x00\x42", 99),
	} {
		if fails(data) {
			t.Errorf("%s is refused", what)
		}
	}
	for _, words := range []string{said, wide} {
		for _, at := range []int{0, 1, 99, 1<<18 - 20, 1 << 18, 1<<18 + 50, 1<<19 + 7, len(noise)} {
			if !fails(string(noise[:at]) + words + string(noise[at:])) {
				t.Errorf("%q at %d is not found", words, at)
			}
		}
	}
}

// TestOpusFilling: what fills a packet of Opus is made zero (RFC 6716, 3.2.5), and nothing else is
// changed.
func TestOpusFilling(t *testing.T) {
	for packet, want := range map[string]string{
		"\xfc": "\xfc", "\xfc filmed by Ann": "\xfc filmed by Ann", "\xff\x02 two pieces": "\xff\x02 two pieces", "": "",
		"\xff\x41\x05soundwords":                              "\xff\x41\x05sound\x00\x00\x00\x00\x00",
		"\xff\x41\xff\x02ab" + strings.Repeat("by Ann. ", 32): "\xff\x41\xff\x02ab" + strings.Repeat("\x00", 256),
		"\xff\x41\xff\xff\x00ab" + strings.Repeat("x", 508):   "\xff\x41\xff\xff\x00ab" + strings.Repeat("\x00", 508),
		"\xff\x41\x09too much":                                "\xff\x41\x09too much", "\xff\x41\xff": "\xff\x41\xff", "\xff\x41\x00abc": "\xff\x41\x00abc",
	} {
		f := &file{r: strings.NewReader(packet), size: int64(len(packet))}
		to := &Copy{from: f.r}
		opusPacket(f, 0, f.size, to)
		got := make([]byte, to.size)
		if _, err := to.ReadAt(got, 0); err != nil || string(got) != want {
			t.Errorf("%q became %q, %v", packet, got, err)
		}
	}
}
