package walkaround

import (
	"strings"
	"testing"
)

// TestUnhear: what captions wrote, and the words that the ear goes on with. The sentences are
// invented; what is misheard in them is what automatic captions do.
func TestUnhear(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"its a seven buy sixteen in closed with the v knows", "by | enclosed | nose"},
		{"electric with the brake a way kit and a seven weigh plug", "breakaway | way"},
		{"couple her is a ten thousand", "coupler"},
		{"goose neck cup ler", "gooseneck coupler"},
		{"dove tale and electric breaks", "dovetail | brakes"},
		{"load low drange e", "load range"},
		{"alum in um skin one peace roof", "aluminum | piece"},
		// These stay: they are words of their own.
		{"the steel coupler is a good one", ""},
		{"there are vendors and offenders in this county", ""},
		{"load range e tires", ""},
		{"water will eat a board and a crossmember too", ""},
		{"the toolbox on the tongue", ""},
		{"we buy trailers", ""},
		{"diamond plate take a look", ""},
		{"ten k coupler twelve inch plate", ""},
	} {
		var raw []token
		for at, w := range strings.Fields(c.said) {
			raw = lex(raw, w, 100*at, 0, 0)
		}
		if got := strings.Join(changed(raw, unhear(raw)), " | "); got != c.want {
			t.Errorf("%q: got %q, want %q", c.said, got, c.want)
		}
	}
}

// changed are the words of b that are not those of a, joined where they follow each other.
func changed(a, b []token) []string {
	was := map[int]string{}
	for _, x := range a {
		was[x.from] = x.text
	}
	var out []string
	joined := false
	for i := range b {
		x := &b[i]
		same := was[x.from] == x.text && (i+1 == len(b) || b[i+1].from <= x.to || was[b[i+1].from] != "")
		if same {
			joined = false
			continue
		}
		if joined {
			out[len(out)-1] += " " + x.text
		} else {
			out = append(out, x.text)
		}
		joined = true
	}
	return out
}
