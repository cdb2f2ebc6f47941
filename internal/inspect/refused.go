package inspect

import "tarepage/internal/unit"

// Held lists the units that stops keep from being published.
type Held struct {
	// Yard reports a stop that concerns no single unit: nothing can be published.
	Yard bool
	// Units are the files of the units with stops.
	Units map[string]bool
	// Names are their stock numbers, or file names where there is none, in order.
	Names []string
}

// Refused sorts the stops by what they keep from being published.
func Refused(s *unit.Stock, list []Finding) Held {
	h := Held{Units: map[string]bool{}}
	known := map[string]bool{}
	for _, u := range s.Units {
		known[u.File] = true
	}
	for _, f := range list {
		if f.Severity != Stop {
			continue
		}
		if known[f.Unit] {
			h.Units[f.Unit] = true
			continue
		}
		// Any unit may use a model that does not read, and every unit uses the yard's own
		// file.
		h.Yard = true
	}
	for _, u := range s.Units {
		if h.Units[u.File] {
			name := u.Stock.Value
			if name == "" {
				name = u.File
			}
			h.Names = append(h.Names, name)
		}
	}
	return h
}
