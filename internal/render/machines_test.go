package render_test

import (
	"strings"
	"testing"
)

// TestMachinesNeedADeck: a machine is shown where it can be driven in, and not on the bunks of
// a boat trailer, however light it is.
func TestMachinesNeedADeck(t *testing.T) {
	pages := demo(t)
	for unit, title := range map[string]string{"sb-1043": "Set it on the deck", "sb-0962": "From the side"} {
		page := pages["u/"+unit+".html"]
		if hides := strings.Contains(page, `id="mine" hidden`); hides == (unit == "sb-1043") {
			t.Errorf("%s: the question about a machine is hidden: %v", unit, hides)
		}
		if shows := strings.Contains(page, "Common machines on it"); shows != (unit == "sb-1043") || !strings.Contains(page, title) {
			t.Errorf("%s: common machines are shown: %v; the drawing is called %q: %v", unit, shows, title, strings.Contains(page, title))
		}
	}
}
