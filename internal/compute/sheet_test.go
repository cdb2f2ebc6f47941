package compute_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

var update = flag.Bool("update", false, "write the sheets of testdata/sheets.txtar anew from what the units give")

// TestSheets works small units of every kind and compares everything that was worked out
// with the sheets next to them: numbers, words, workings, notes, what is asked for. The
// numbers are held against sources and solvers by the other tests, and by hand where the
// archive's own words say so; here stands what a reader sees of them. Read what -update
// changes as you read code.
func TestSheets(t *testing.T) {
	const name = "testdata/sheets.txtar"
	src, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	a := txtar.Parse(src)
	files := map[string]string{}
	for _, f := range a.Files {
		files[f.Name] = string(f.Data)
	}
	for i, f := range a.Files {
		which, ok := strings.CutSuffix(f.Name, "/want")
		if !ok {
			continue
		}
		u, problems := unit.ReadUnit("a.md", []byte(files[which+"/unit.md"]))
		if len(problems) > 0 {
			t.Fatalf("%s does not read: %+v", which, problems)
		}
		yard := files[which+"/yard.md"]
		if yard == "" {
			yard = "---\nas-of: 2026-11-25\n---\n"
		}
		y, problems := unit.ReadYard("yard.md", []byte(yard))
		if len(problems) > 0 {
			t.Fatalf("the yard of %s does not read: %+v", which, problems)
		}
		got := sheet(compute.Unit(u, compute.SettingsOf(y)))
		if *update {
			a.Files[i].Data = []byte(got)
			continue
		}
		g, w := strings.Split(got, "\n"), strings.Split(string(f.Data), "\n")
		for k := range max(len(g), len(w)) {
			if k >= len(g) || k >= len(w) || g[k] != w[k] {
				t.Errorf("%s, line %d, is\n%s\nwant\n%s", f.Name, k+1, g[min(k, len(g)-1)], w[min(k, len(w)-1)])
				break
			}
		}
	}
	if *update {
		if err := os.WriteFile(name, txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// sheet writes down everything that was worked out.
func sheet(w *compute.Work) string {
	var b strings.Builder
	mark := func(is bool, word string) string {
		if is {
			return " " + word
		}
		return ""
	}
	for i := range w.Figures {
		f := &w.Figures[i]
		fmt.Fprintf(&b, "%s: %s [%.9g %s, step %.6g%s%s%s%s%s]\n  %s\n  by %s\n", f.Name, f.Text, f.Value, f.Unit, f.Step(),
			mark(f.Limit(), "limit"), mark(f.Load(), "load"), mark(f.About, "about"), mark(f.Estimated, "estimated"), mark(f.Practice, "practice"),
			f.Working(), f.Source)
		var on []string
		for _, in := range f.Inputs {
			on = append(on, fmt.Sprintf("%s %s @%d", in.Key, in.Text(), in.At.Line))
		}
		if len(on) > 0 {
			fmt.Fprintf(&b, "  from %s\n", strings.Join(on, "; "))
		}
		for _, n := range f.Notes() {
			fmt.Fprintf(&b, "  - %s\n", n)
		}
	}
	for _, r := range w.Ladder {
		fmt.Fprintf(&b, "rung %s (%s): %s [%.9g%s%s] %s by %s\n", r.Name, r.Label, r.Text(), float64(r.Value),
			mark(r.Governs, "governs"), mark(r.About, "about"), r.Working(), r.Source)
	}
	for _, a := range w.Absent {
		fmt.Fprintf(&b, "no %s\n", a.Name)
		for _, n := range a.Needs {
			fmt.Fprintf(&b, "  %s: %s\n", n.Key, n.Advice)
		}
	}
	t := w.Tire
	fmt.Fprintf(&b, "tire known %v, dual %v, passenger %v: %v each, %v an axle, %v full; at %v, at most %v; grade %q; %s%s; sidewall @%d\n", t.Known, t.Dual, t.Passenger,
		t.Each, t.Axle, t.Full, t.MaxPressure, t.MostPressure, t.Grade, t.Source, t.Lack, t.RatingAt.Line)
	for _, p := range w.Parts {
		fmt.Fprintf(&b, "part %s: %.9g to %.9g at %.9g in (%s)\n", p.Name, float64(p.Low), float64(p.High), float64(p.At), p.Grade)
	}
	if w.EstimatedRange[1] > 0 {
		fmt.Fprintf(&b, "range %.9g to %.9g\n", float64(w.EstimatedRange[0]), float64(w.EstimatedRange[1]))
	}
	for _, h := range w.Heaps {
		fmt.Fprintf(&b, "heap %s: %.9g struck %v, %.9g heaped %v, %.9g cu yd fit\n", h.Material, float64(h.Struck), h.FitsStruck, float64(h.Heaped), h.FitsHeaped, float64(h.Fits))
	}
	if l := w.Lamps; l.Known {
		fmt.Fprintf(&b, "lamps %+v\n", l)
	}
	if e := w.Excise; e.Known {
		fmt.Fprintf(&b, "excise over %v at %v, passed %v, by label %v\n", e.Over, e.Rate, e.Passed, e.ByLabel)
		for _, r := range e.Ratings {
			fmt.Fprintf(&b, "  %v %s%s @%d\n", r.Weight, r.By, mark(r.About, "about"), r.At.Line)
		}
	}
	for _, r := range w.GroupRuns() {
		fmt.Fprintf(&b, "axles %d to %d spanning %v: %.9g of %v for %s (%s)\n", r.First, r.Last, r.Span, float64(r.Weight), r.Limit.Most, r.Limit.Rule, r.Limit.Source)
	}
	fmt.Fprintf(&b, "known: estimated-empty %v, center %v, tongue %v, relabel %v, tie-downs %v, points %v, speed %v, tag %v, axles %v, tires %v, reserve %v, share %v, wheels %v, empty-axle %v, tongue-at %v, tongue-share %v, axle-load %v, even %v, by-foot %v, payload %v, working %v, angle %v, class-a %v, surge %v, unbraked %v\n",
		w.EstimatedEmpty, w.EstimatedCenter, w.EstimatedTongue, w.RelabelLimit, w.TieDownNeed, w.TieDownPoints, w.TireSpeed, w.TagPayload, w.AxleCapacity, w.TireCapacity,
		w.TireReserve, w.TireReserveShare, w.WheelCapacity, w.EmptyAxleLoad, w.TongueAtGVWR, w.TongueShare, w.AxleLoadAtGVWR, w.EvenLoadPayload, w.TongueByFoot, w.Payload,
		w.WorkingPayload, w.LoadingAngle, w.ClassATruck, w.SurgeTruck, w.UnbrakedTruck)
	return b.String()
}
