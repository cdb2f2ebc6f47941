package hitch

import (
	"slices"
	"testing"
)

func TestHeld(t *testing.T) {
	if Held(99, 100) || Held(100, 100) || !Held(101, 100) {
		t.Error("not held")
	}
	if Open(99, 100) || !Open(101, 100) {
		t.Error("not open")
	}
}

func TestRest(t *testing.T) {
	if n := Steps(3); n != 3 {
		t.Errorf("%d steps", n)
	}
	if got := Rungs(3, 1); !slices.Equal(got, []int{1, 3}) {
		t.Errorf("rungs %v", got)
	}
	if got := Rungs(2, 2); !slices.Equal(got, []int{2}) {
		t.Errorf("rungs %v", got)
	}
	if v, ok := Share(9.0, true); v != 4.5 || !ok {
		t.Errorf("share %v %v", v, ok)
	}
	if got := Weight(1).Text(); got != "b" {
		t.Errorf("text %q", got)
	}
}
