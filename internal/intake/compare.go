package intake

import (
	"tarepage/internal/crosscheck"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// A Comparison is the result of comparing a recording with a unit file.
type Comparison struct {
	// Agrees are the figures that the file states too.
	Agrees []Held
	// Differs are the figures that the file states otherwise.
	Differs []Held
	// Unstated are the values that were said and that the file does not give.
	Unstated []Taken
	// Missing are the keys that a listing needs, that the file lacks and that nobody said.
	Missing []unit.Missing
}

// Held is a spoken figure together with what the file states.
type Held struct {
	Said walkaround.Candidate
	File unit.Given
}

// Against compares the recording with a unit, including what its model fills in. A figure
// that was said twice in the same way is compared once.
func (t *Talk) Against(u *unit.Unit) Comparison {
	var out Comparison
	givens := u.Givens()
	stated := crosscheck.Of(givens)
	given := map[string]bool{}
	for _, g := range givens {
		given[g.Path] = true
	}
	held := map[string]bool{}
	for _, c := range t.heard {
		if c.Role == "stock" {
			continue // a stock number is written in another way than it is said
		}
		verdict, file := stated.Hold(c)
		if once := string(c.Role) + " " + c.Written(false); file.Path == "" || held[once] {
			continue
		} else {
			held[once] = true
		}
		switch verdict {
		case crosscheck.Agrees:
			out.Agrees = append(out.Agrees, Held{c, file})
		case crosscheck.Differs:
			out.Differs = append(out.Differs, Held{c, file})
		}
	}
	said := map[string]bool{}
	for _, v := range t.Taken {
		said[v.Path] = true
		if !given[v.Path] {
			out.Unstated = append(out.Unstated, v)
		}
	}
	for _, m := range u.Missing() {
		if !said[m.Path] {
			out.Missing = append(out.Missing, m)
		}
	}
	return out
}
