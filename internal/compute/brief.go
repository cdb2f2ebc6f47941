package compute

import (
	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// Brief is what pages show of a unit among many others: its space, its payload with the share
// of it on the truck, its deck's length, what a comparison adds to these, and the Rig. It has
// no other figures, and no workings and inputs: a yard of ten thousand units does not hold all
// of those at once. Who needs them has Unit work them again, which gives what it gave.
func (w *Work) Brief() *Work {
	b := &Work{Unit: w.Unit, Settings: w.Settings, Space: w.Space, Payload: w.Payload, SurgeTruck: w.SurgeTruck, TongueAtPayload: w.TongueAtPayload, LoadingAngle: w.LoadingAngle,
		rig: w.rig, rigNeeds: w.rigNeeds}
	for i := range w.Figures {
		f := &w.Figures[i]
		for _, name := range briefFigures {
			if f.Name == name {
				b.Figures = append(b.Figures, Figure{Definition: f.Definition, Value: f.Value, Text: f.Text, Source: f.Source,
					About: f.About, Estimated: f.Estimated, step: f.step, bound: f.bound})
			}
		}
	}
	return b
}

// briefFigures are the figures of a Brief.
var briefFigures = [...]string{"deck-length", "payload", "tongue-share-at-payload", "tongue-at-gvwr", "working-payload", "loading-angle"}

// KeptBrief is a brief without its unit and the yard's settings: what one run of the program
// keeps for the next (internal/packed).
type KeptBrief struct {
	Space               Space
	Payload, SurgeTruck Result[measure.Pounds]
	TongueAtPayload     Result[measure.Pounds]
	LoadingAngle        Result[measure.Degrees]
	Rig                 Rig
	RigNeeds            []Need
	Figures             []KeptFigure
}

// KeptFigure is a figure of a brief, by its name.
type KeptFigure struct {
	Name             string
	Value, Step      float64
	Text, Source     string
	About, Estimated bool
	Bound            int
}

// Keep returns what to keep of a brief.
func (w *Work) Keep() *KeptBrief {
	k := &KeptBrief{Space: w.Space, Payload: w.Payload, SurgeTruck: w.SurgeTruck, TongueAtPayload: w.TongueAtPayload, LoadingAngle: w.LoadingAngle,
		Rig: w.rig, RigNeeds: w.rigNeeds}
	for i := range w.Figures {
		f := &w.Figures[i]
		k.Figures = append(k.Figures, KeptFigure{f.Name, f.Value, f.step, f.Text, f.Source, f.About, f.Estimated, int(f.bound)})
	}
	return k
}

// Brief is the brief that was kept, for its unit and the settings of then. It is nil if a
// figure is not known.
func (k *KeptBrief) Brief(u *unit.Unit, s Settings) *Work {
	w := &Work{Unit: u, Settings: s, Space: k.Space, Payload: k.Payload, SurgeTruck: k.SurgeTruck, TongueAtPayload: k.TongueAtPayload, LoadingAngle: k.LoadingAngle,
		rig: k.Rig, rigNeeds: k.RigNeeds}
	for _, f := range k.Figures {
		d := definitionOf(f.Name)
		if d == nil {
			return nil
		}
		w.Figures = append(w.Figures, Figure{Definition: d, Value: f.Value, Text: f.Text, Source: f.Source,
			About: f.About, Estimated: f.Estimated, step: f.Step, bound: bound(f.Bound)})
	}
	return w
}

func definitionOf(name string) *Definition {
	for _, d := range All {
		if d.Name == name {
			return d
		}
	}
	return nil
}
