package render

import (
	"testing"

	"tarepage/internal/inspect"
)

// TestARemarkIsNotACaution counts only what wears the tape: not what is said about licenses.
func TestARemarkIsNotACaution(t *testing.T) {
	license, old := &inspect.Rule{Name: "license-class"}, &inspect.Rule{Name: "tire-old"}
	e := &entry{cautions: []inspect.Finding{{Rule: license}, {Rule: old}, {Rule: license, First: true}}}
	if got := dangers(e); got != 2 {
		t.Errorf("%d of three wear the tape, want 2", got)
	}
}
