package compute

import "tarepage/internal/measure"

// LightTrailer is the limit between FMVSS 110, which holds up to this GVWR, and FMVSS 120:
// 4,536 kg (10,000 lb), 49 CFR 571.110 S3 and 571.120 S3. A clause's 10,000 lb is its own
// 4,536 kg, which is a sixth of a pound more; a label may print either.
const LightTrailer = max(measure.Pounds(10000), 4536/measure.KilogramsPerPound)

// RelabelAt is the weight a dealer may add before the first retail sale without
// correcting the label: more than the lesser of 1.5% of the GVWR and 100 lb (45.4 kg)
// asks for it. It reports false above 10,000 lb, where the duty is on motor homes and RV
// trailers only (49 CFR 571.120 S10.5.1).
func RelabelAt(gvwr measure.Pounds) (measure.Pounds, bool) {
	if gvwr <= 0 || gvwr > LightTrailer {
		return 0, false
	}
	const part measure.Share = 0.015
	return min(part.Of(gvwr), 100), true
}

var relabelLimit = &Definition{
	Name: "relabel-limit", Label: "Added before a new label",
	What:    "How much the yard may fit to a trailer of 10,000 lb or less before its first sale without correcting the label.",
	Formula: "the lesser of 1.5% of GVWR and 100 lb",
	Unit:    "lb", Source: "49 CFR 571.110 S10.1 (2015)",
	work: func(p *calc) {
		u := p.Unit
		if !u.DealerAdded.Given() || u.Condition.Value != "new" {
			p.skip()
			return
		}
		gvwr := need(p, u.Weights.GVWR, "weights.gvwr")
		if !p.ready() {
			return
		}
		v, due := RelabelAt(gvwr)
		if !due {
			p.skip()
			return
		}
		p.RelabelLimit = p.limit(v, say("the lesser of 1.5%% x %s and 100 lb", gvwr))
	},
}

// Placard is the cargo weight as 49 CFR 571.110 S4.3.5 prints it: whole kilograms, then
// the same in whole pounds. Both are rounded so that neither passes the limit: the
// nearest kilogram to 1,003 lb is 455 kg, which is 1,003.1 lb and too much.
func Placard(limit measure.Pounds) (kilograms int, pounds measure.Pounds) {
	limit = max(limit, 0)
	kg := measure.Down(limit.InKilograms(), 1)
	pounds = measure.Nearest(measure.FromKilograms(float64(kg)), 1)
	return int(kg), min(pounds, measure.Down(limit, 1))
}

var cargoPlacard = &Definition{
	Name: "cargo-placard", Label: "Cargo on the placard",
	What:    "What the placard of a trailer of 10,000 lb or less says of its cargo, kilograms first. The placard on the trailer governs.",
	Formula: "GVWR - E in whole kilograms, down; then in whole pounds",
	Unit:    "lb", Source: "49 CFR 571.110 S4.3.5 (2015, amended 2016)",
	work: func(p *calc) {
		gvwr := need(p, p.Unit.Weights.GVWR, "weights.gvwr")
		if p.ready() && gvwr > LightTrailer {
			p.skip()
			return
		}
		most := rest(p, p.TagPayload, "tag-payload")
		if !p.ready() {
			return
		}
		kg, lb := Placard(most)
		p.note("in the placard's words: the weight of cargo should never exceed %s kilograms or %s pounds", count(kg), count(int(lb)))
		p.enter(float64(lb), lb.Limit(), 1, say("%s = %s kg, down; %s kg = %s", near{most}, number{most.Kilograms(), 2}, count(kg), limit(lb)))
	},
}
