package compute

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
