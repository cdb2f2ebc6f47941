package compute

import (
	"fmt"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/unit"
)

// metricForms writes a figure of each unit in metric. noMetric is for a unit that is the same
// in both systems. A figure whose unit is not here is a mistake in this package, which a test
// finds: nothing is shown in pounds to a reader of kilograms because a form was forgotten.
var metricForms = map[string]func(*Figure) string{
	"lb":    (*Figure).metricPounds,
	"ft":    func(f *Figure) string { return measure.Metric.Dimension(measure.Feet(f.Value).Inches()) },
	"mph":   converted,
	"sq ft": converted,
	"cu yd": converted,
	// How far a tank may be filled is a limit: down.
	"gal": func(f *Figure) string {
		return measure.Number(measure.Down(measure.Gallons(f.Value).Liters(), 1), 0) + " L"
	},
	"ft/s2":     converted,
	"lb/ft":     converted,
	"lb-ft":     noMetric, // the stages of the torque have their own: Work.TorqueMetric
	"%":         noMetric,
	"USD":       noMetric,
	"degrees":   noMetric,
	"lamps":     noMetric,
	"tie-downs": noMetric,
	"years":     noMetric,
}

func noMetric(*Figure) string { return "" }

// converted writes the exact value as measure writes any quantity of that unit.
func converted(f *Figure) string {
	return measure.InMetric(measure.Number(f.Value, 9)+" "+f.Unit, nil)
}

// Metric writes a figure in kilograms and meters, from its exact value and rounded the way
// its Text is: limits down, loads up. It is empty for a figure whose unit is the same in both
// systems.
func (w *Work) Metric(f *Figure) string {
	text := f.metric()
	if f.Name == loadWindow.Name {
		p := calc{Work: w}
		text = p.inSpace(w.LoadWindow.In(measure.Metric))
	}
	return about(f.About && text != "", text)
}

func (f *Figure) metric() string {
	form, ok := metricForms[f.Unit]
	if !ok {
		panic(fmt.Sprintf("compute: figure %s is in %q, which has no entry in metricForms", f.Name, f.Unit))
	}
	return form(f)
}

func (f *Figure) metricPounds() string {
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
}

// Metric writes a rung in kilograms, down as every limit.
func (r *Rung) Metric() string {
	return about(r.About, measure.Metric.Limit(r.Value))
}

// RatingsOf adds the writings of the ratings that a unit states, each in kilograms and
// rounded down: the kilograms are never more than the pounds on the label.
func (w *Work) RatingsOf(out map[string]string) {
	u := w.Unit
	all := []unit.Weight{u.Weights.GVWR, u.Hitch.Rating, u.Hitch.BallRating, u.Hitch.TongueLimit, u.Hitch.Chains.Breaking,
		u.Axles.Rating, u.Tires.Wheel, u.Tires.Sidewall.Single, u.Tires.Sidewall.Dual, u.Ramps.Rating, u.Jack.Rating,
		u.Claimed.Payload, u.Claimed.GVWR}
	for _, t := range u.TieDowns {
		all = append(all, t.Rating)
	}
	for _, r := range all {
		if r.Given() {
			out[strings.TrimPrefix(r.Words(), "about ")] = measure.Metric.Rating(r.Value)
		}
	}
}

// MetricOf maps the texts of a unit's figures and ratings to what the exact value
// is in metric units: what measure.Quantities needs to turn a text about the unit. A figure
// that is exact in pounds goes down as a limit and up as a load all the same; where one
// writing is both, it is a limit's.
func (w *Work) MetricOf() map[string]string {
	out := map[string]string{}
	for _, limit := range []bool{false, true} {
		for i := range w.Figures {
			if f := &w.Figures[i]; f.Unit == "lb" && (f.Limit() || f.Load()) && f.Limit() == limit {
				out[strings.TrimPrefix(f.Text, "about ")] = f.metric()
			}
		}
	}
	w.RatingsOf(out)
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
