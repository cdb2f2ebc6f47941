package compute

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/tables"
	"tarepage/internal/unit"
)

var tireAge = &Definition{
	Name: "tire-age", Label: "Age of the tires",
	What:    "How old the tires were when the stock was last walked, by the week molded on them. Advice to replace runs from 3 to 10 years, whatever the tread.",
	Formula: "the day the stock was walked - the Monday of the production week",
	Unit:    "years", Source: "49 CFR 574.5 (date code)",
	work: func(p *calc) {
		made, day := p.Unit.Tires.Made, p.Settings.AsOf
		if !made.Given() || !day.Known() {
			p.skip()
			return
		}
		days := day.Days() - made.Value.Days()
		if days < 0 {
			p.skip()
			return
		}
		p.use("tires.made", made.Value, made.About, made.From, made.Pos)
		v := measure.YearsOf(days)
		p.enter(float64(v), v.Near(), 0.1, say("%s less %s: %s days", day, made.Value, count(days)))
	},
}

// A Service is the service description molded after a tire's size: 124/120M.
type Service struct {
	Single, Dual int    // load indexes; Dual is 0 if none is molded
	Symbol       string // the speed symbol; empty if it was not written down
}

// serviceForm takes one service description. Some truck tires have a second one for a lower
// speed after it (143/141J 144/144F), which does not hold on American highways.
var serviceForm = regexp.MustCompile(`^([0-9]{1,3})(?:/([0-9]{1,3}))?\s*([A-Z]?)(?:\s+[0-9]{1,3}(?:/[0-9]{1,3})?\s*[A-Z])?$`)

// ParseService reads 124/120M, 117N or 124/120. The error says what one looks like.
func ParseService(s string) (Service, error) {
	m := serviceForm.FindStringSubmatch(strings.ToUpper(strings.TrimSpace(s)))
	if m == nil {
		return Service{}, fmt.Errorf("service description %q does not read; write it as on the sidewall, 124/120M", s)
	}
	var v Service
	// The form admits only digits, so these cannot fail.
	v.Single, _ = strconv.Atoi(m[1])
	v.Dual, _ = strconv.Atoi(m[2])
	v.Symbol = m[3]
	return v, nil
}

var tireSpeed = &Definition{
	Name: "tire-speed", Label: "Speed the tires are good for",
	What:    "The speed that the symbol after the tire's size means. The road's limit and the load decide; this is not advice to drive it.",
	Formula: "the symbol's km/h in miles an hour, down",
	Unit:    "mph", Source: "UN R30 and R54 (speed symbols)",
	work: func(p *calc) {
		f := p.Unit.Tires.Service
		if !f.Given() {
			p.skip()
			return
		}
		s, err := ParseService(f.Value)
		if err != nil {
			p.needs = append(p.needs, Need{Key: "tires.service", Advice: err.Error()})
			return
		}
		if s.Symbol == "" {
			p.needs = append(p.needs, Need{Key: "tires.service", Advice: "read the speed symbol off the sidewall: the letter after the load index"})
			return
		}
		row, err := tables.Speed(s.Symbol)
		if err != nil {
			p.needs = append(p.needs, Need{Key: "tires.service", Advice: err.Error()})
			return
		}
		p.use("tires.service", verbatim(f.Value), f.About, f.From, f.Pos)
		if li, err := tables.LoadIndex(s.Single); err == nil {
			p.note("load index %d is %s for a single tire; the lower of it and the sidewall's pounds counts", s.Single, limit(li.Pounds))
		}
		if li, err := tables.LoadIndex(s.Dual); err == nil && s.Dual > 0 {
			p.note("load index %d is %s for each tire of a pair", s.Dual, limit(li.Pounds))
		}
		v := measure.FromKilometersPerHour(row.KMH)
		p.enter(float64(v), v.Limit(), 1, say("symbol %s: %d km/h", s.Symbol, row.KMH))
		p.TireSpeed = Result[measure.MilesPerHour]{v, true}
	},
}

var (
	wheelSizes = regexp.MustCompile(`\b([0-9]{1,2}(?:\.5)?)(?:, | or | in\b|x)`)
	studForm   = regexp.MustCompile(`^(?:[0-9]/[0-9]{1,2}(?:-[0-9]{2})?|M22x1\.5)`)
)

// torqueFor finds the row for a stud, the seat of its nut, the rim and the tires on an
// axle. The same stud takes another torque with another seat, so where the seat decides
// and is not stated there is no row.
func torqueFor(stud string, rim measure.Inches, dual bool) (tables.TorqueRow, error) {
	stud = strings.Join(strings.Fields(stud), " ")
	size := studForm.FindString(stud)
	if size == "" {
		return tables.TorqueRow{}, fmt.Errorf("stud %q does not read; write its size and the nut's seat, 9/16-18 cone", stud)
	}
	seat := strings.ToLower(strings.TrimSpace(stud[len(size):]))
	var found []tables.TorqueRow
	for _, row := range tables.WheelTorques() {
		rowSize := studForm.FindString(row.Stud)
		rowSeat := strings.TrimSpace(row.Stud[len(rowSize):])
		if rowSize != size || strings.Contains(row.Wheel, "aluminum") || strings.Contains(row.Wheel, "clamp") {
			continue
		}
		if seat != "" && rowSeat != "" && seat != rowSeat {
			continue
		}
		if !strings.Contains(row.Wheel, "hub-piloted") && !rimFits(row.Wheel, rim, dual) {
			continue
		}
		found = append(found, row)
	}
	switch len(found) {
	case 0:
		return tables.TorqueRow{}, fmt.Errorf("no torque is listed for stud %q on a %s rim; the maker's manual has it", stud, rim.InInches())
	case 1:
		return found[0], nil
	}
	return tables.TorqueRow{}, fmt.Errorf("stud %q takes one torque with a cone nut and another with a flange nut; say which, as in %s cone", stud, size)
}

// rimFits reports whether a row's words name the rim: "14, 15, 16 in wheel", "16 in dual
// and 17.5 in, cone nut". A 16 in wheel of a row for duals is one of a pair.
func rimFits(words string, rim measure.Inches, dual bool) bool {
	for _, m := range wheelSizes.FindAllStringSubmatch(words, -1) {
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil || measure.Inches(v) != rim {
			continue
		}
		return !strings.Contains(words, m[1]+" in dual") || dual
	}
	return false
}

// retorque is after how many miles the nuts are tightened again: axle maker's owner
// manual, p. 16, agreeing with three others.
const retorque = "10, 25 and 50 miles"

// Rechecks are the same miles one by one, to be ticked off.
var Rechecks = []string{"10", "25", "50"}

var wheelTorque = &Definition{
	Name: "wheel-torque", Label: "Wheel nuts",
	What:    "How tight the wheel nuts go, in stages and crosswise, cold and dry, and when they are tightened again. The maker's manual governs.",
	Formula: "the row of the stud, the nut's seat and the wheel",
	Unit:    "lb-ft", Source: "the table of wheel torques",
	work: func(p *calc) {
		t := p.Unit.Tires
		if !t.Stud.Given() {
			p.skip()
			return
		}
		per := needCount(p, t.PerAxle, "tires.per-axle")
		size, err := p.tireSize()
		if err != nil {
			p.lack("tires.size")
		}
		if !p.ready() {
			return
		}
		row, err := torqueFor(t.Stud.Value, size.Rim, per >= 4)
		if err != nil {
			p.needs = append(p.needs, Need{Key: "tires.stud", Advice: err.Error()})
			return
		}
		p.use("tires.stud", verbatim(t.Stud.Value), t.Stud.About, t.Stud.From, t.Stud.Pos)
		p.use("tires.size", verbatim(t.Size.Value), t.Size.About, t.Size.From, t.Size.Pos)
		p.source = row.Source
		stage := func(s tables.Span[tables.FootPounds]) string {
			return measure.Number(float64(s.Low), 0) + " to " + measure.Number(float64(s.High), 0)
		}
		var stages, metric []string
		add := func(when string, s tables.Span[tables.FootPounds]) {
			if s.Stated() {
				stages = append(stages, when+stage(s))
				metric = append(metric, when+measure.Torques(float64(s.Low), float64(s.High)))
			}
		}
		add("first ", row.Stage1)
		add("then ", row.Stage2)
		add("last ", row.Final)
		p.TorqueStages, p.TorqueMetric = stages, metric
		p.note("tighten again after %s of a first trip or a changed wheel", retorque)
		if row.Note != "" {
			p.note("%s", row.Note)
		}
		p.enter(float64(row.Final.Low), stage(row.Final)+" lb-ft", 1, say("%s, stud %s: %s", row.Wheel, row.Stud, strings.Join(stages, ", ")))
	},
}

// stated is the stopping distance that the axle maker states.
func (p *calc) stated() unit.Stopping {
	f := p.Unit.Brakes.Stopping
	if !f.Given() {
		p.skip()
		return f
	}
	p.use("brakes.stopping", f.Value, f.About, f.From, f.Pos)
	p.note("a comparison only: it was stated for one trailer, one load and a dry road, with the brakes adjusted and the driver's own time left out; what yours does depends on truck, load, tires, road and brakes")
	return f
}

var meanDeceleration = &Definition{
	Name: "mean-deceleration", Label: "Mean deceleration, as stated",
	What:    "How hard the stated stop brakes on the average. For comparing kinds of brakes and nothing else.",
	Formula: "v x v / (2 d)",
	Unit:    "ft/s2", Source: "kinematics; the distance is the axle maker's",
	work: func(p *calc) {
		f := p.stated()
		if !p.ready() {
			return
		}
		a := measure.MeanDeceleration(f.Value.From, f.Value.Distance)
		p.note("that is %s of gravity", near{a.Gravities()})
		p.enter(float64(a), a.Near(), 0.1, say("(%s) x (%s) / (2 x %s)", f.Value.From, f.Value.From, f.Value.Distance))
	},
}

func stoppingAt(name string, v measure.MilesPerHour) *Definition {
	return &Definition{
		Name: name, Label: fmt.Sprintf("Stopping from %s, by the same deceleration", v),
		What:    "The stated distance brought to another speed. A comparison only: never a following distance.",
		Formula: fmt.Sprintf("d x (%s / stated speed) squared", v),
		Unit:    "ft", Source: "kinematics; the distance is the axle maker's",
		work: func(p *calc) {
			f := p.stated()
			if !p.ready() {
				return
			}
			d := measure.StoppingFrom(v, f.Value.From, f.Value.Distance)
			up := measure.Up(d.Feet(), 1)
			p.enter(float64(d.Feet()), up.Near(), 1, say("%s x (%s / %s) squared", f.Value.Distance, v, f.Value.From))
		},
	}
}

var (
	stoppingAt45 = stoppingAt("stopping-at-45", 45)
	stoppingAt70 = stoppingAt("stopping-at-70", 70)
)
