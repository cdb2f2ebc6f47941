package compute

import (
	"strings"

	"tarepage/internal/measure"
)

// Metric writes a figure in kilograms and meters, from its exact value and rounded the way
// its Text is: limits down, loads up. It is empty for a figure that has no such unit.
func (w *Work) Metric(f *Figure) string {
	text := f.metric()
	if f.Name == loadWindow.Name {
		p := pencil{Work: w}
		text = p.inSpace(w.LoadWindow.In(measure.Metric))
	}
	return about(f.About && text != "", text)
}

func (f *Figure) metric() string {
	switch f.Unit {
	case "lb":
		v := measure.Pounds(f.Value)
		switch {
		case f.Name == cargoPlacard.Name:
			// Its pounds are the nearest to its whole kilograms.
			return measure.Nearest(v.InKilograms(), 1).Near()
		case f.Limit():
			return measure.Metric.Limit(v)
		case f.Load() || f.step < 10 && f.Text == v.Load() && f.Text != v.Limit():
			return measure.Metric.Load(v)
		case f.step >= 10 && f.bound == neither:
			return measure.Nearest(v.InKilograms(), 5).Near()
		}
		return measure.Metric.Weight(v)
	case "ft":
		return measure.Metric.Dimension(measure.Feet(f.Value).Inches())
	case "mph", "sq ft", "cu yd", "ft/s2":
		return measure.InMetric(measure.Number(f.Value, 9)+" "+f.Unit, nil)
	}
	return ""
}

// Metric writes a rung in kilograms, down as every limit.
func (r *Rung) Metric() string {
	return about(r.About, measure.Metric.Limit(r.Value))
}

// MetricOf are the writings of a unit's figures that were rounded, each with what its exact
// value is in metric units: what measure.Quantities needs to turn a text about the unit.
func (w *Work) MetricOf() map[string]string {
	out := map[string]string{}
	add := func(text, metric string, exact float64, unit string) {
		text = strings.TrimPrefix(text, "about ")
		if metric != "" && text != measure.Number(exact, 12)+" "+unit {
			out[text] = metric
		}
	}
	for i := range w.Figures {
		f := &w.Figures[i]
		add(f.Text, f.metric(), f.Value, f.Unit)
	}
	for i := range w.Ladder {
		r := &w.Ladder[i]
		add(r.Text(), measure.Metric.Limit(r.Value), float64(r.Value), "lb")
	}
	return out
}
