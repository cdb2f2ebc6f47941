package hitch

import "testing"

func TestLimits(t *testing.T) {
	if Held(99, 100) || Held(100, 100) || !Held(101, 100) {
		t.Error("held")
	}
	if Open(99, 100) || !Open(101, 100) {
		t.Error("open")
	}
}

func TestRest(t *testing.T) {
	if n := Steps(3); n != 3 {
		t.Errorf("%d steps", n)
	}
	if v, ok := Half(9.0, true); v != 4.5 || !ok {
		t.Errorf("half %v %v", v, ok)
	}
	if Ratings["small"] != 2000 {
		t.Error("ratings")
	}
	if Shadowed(2) != 5 {
		t.Error("shadowed")
	}
}
