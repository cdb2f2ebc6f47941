package compute

import (
	"tarepage/internal/measure"
	"tarepage/internal/parallel"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

// Settings are the yard's own settings for the figures.
type Settings struct {
	// Allowance is the share that the yard holds back from the payload.
	Allowance measure.Share
	// Bands are the tongue bands by the way of coupling.
	Bands map[string]Band
	// AsOf is the day to which ages are counted; the zero Day if nobody states one.
	AsOf unit.Day
	// State is the state where the yard sells, in two letters, or empty.
	State string
	// LookAgain is the number of days after which a listing that nobody changed is a remark.
	LookAgain int
}

// A Band says how much of the loaded trailer should be on the truck.
type Band struct {
	// Least and Most are the advice: the narrowest band of those published, or the yard's.
	Least, Most measure.Share
	Source      string
	// Widest is the widest band published: what lies outside of it nobody advises.
	Widest [2]measure.Share
	// Differ says how the sources differ, or is empty where they agree.
	Differ string
	// At is where the yard's own band is written; unknown for the table's.
	At unit.Pos
}

// HeavySemitrailer is the gross weight above which a fifth-wheel trailer goes behind a
// tractor: SAE J2638 covers fifth wheels and gooseneck balls in pickups up to 30,000 lb.
const HeavySemitrailer measure.Pounds = 30000

// Semitrailer reports whether the trailer goes behind a tractor, not a pickup: a fifth-wheel
// that is heavy, or a lowboy, whose axles are to the rear of its well.
func (w *Work) Semitrailer() bool {
	u, s := w.Unit, w.Space
	if u.Hitch.Kind.Value != "fifth-wheel" {
		return false
	}
	if g := u.Weights.GVWR; g.Given() && g.Value > HeavySemitrailer {
		return true
	}
	a := u.Axles.Center
	return a.Given() && w.spaceKnown() && a.Value > s.Front.Value+s.Length.Value
}

// Band is the tongue band of the unit's way of coupling. A pickup's band does not apply to
// a semitrailer behind a tractor.
func (w *Work) Band() (Band, bool) {
	kind := w.Unit.Hitch.Kind.Value
	if w.Semitrailer() {
		kind = "semitrailer"
	}
	b, ok := w.Settings.Bands[kind]
	return b, ok
}

// DefaultAllowance is held back where the yard says nothing: five percent, common
// practice, no source.
const DefaultAllowance measure.Share = 0.05

// DefaultLookAgain applies if the yard's file does not say: half a year, common practice, no
// source.
const DefaultLookAgain = 180

// SettingsOf takes the settings from the yard's file. What the file leaves out comes from
// the tables.
func SettingsOf(y *unit.Yard) Settings {
	s := Settings{Allowance: DefaultAllowance, Bands: map[string]Band{}, AsOf: y.AsOf.Value, State: y.State.Value, LookAgain: DefaultLookAgain}
	if y.LookAgain.Given() {
		s.LookAgain = int(y.LookAgain.Value)
	}
	if y.Allowance.Given() && y.Allowance.Value < 1 {
		s.Allowance = y.Allowance.Value
	}
	own := map[string]unit.Band{
		"bumper-pull": y.Bands.BumperPull, "gooseneck": y.Bands.Gooseneck,
		"fifth-wheel": y.Bands.FifthWheel, "pintle": y.Bands.Pintle,
	}
	for _, hitch := range []string{"bumper-pull", "gooseneck", "fifth-wheel", "pintle", "semitrailer"} {
		row, ok := tables.TongueBand(hitch)
		if !ok {
			continue
		}
		b := Band{Least: row.Low, Most: row.High, Source: row.Source, Widest: [2]measure.Share{row.Least, row.Most}, Differ: row.Note}
		if o := own[hitch]; o.Least.Given() && o.Most.Given() && o.Least.Value < o.Most.Value && o.Most.Value < 1 {
			b.Least, b.Most, b.Source, b.At = o.Least.Value, o.Most.Value, "the yard's own band", o.Least.Pos
		}
		s.Bands[hitch] = b
	}
	return s
}

// Stock works every unit of the yard out, several at a time; the result has the
// stock's order. A file that could not be read has no work: nil.
func Stock(s *unit.Stock) []*Work {
	settings := SettingsOf(s.Yard)
	out := make([]*Work, len(s.Units))
	parallel.Each(len(s.Units), func(i int) {
		if u := s.Units[i]; !u.Broken {
			out[i] = Unit(u, settings)
		}
	})
	return out
}
