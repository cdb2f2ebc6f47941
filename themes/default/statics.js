// The statics of internal/compute (loadwindow.go, stand.go, towmatch.go, license.go) and
// the rounding of internal/measure (round.go, print.go, system.go), for a load or a truck
// that only the customer knows. A test holds every word of it against the Go (internal/
// render/statics_test.go); where the two part, Go is right.
//
// A rig is one trailer as internal/render hands it over (rig.go has the same list), in
// pounds and inches, null for what is not known:
//   0 E   1 T0   2 A   3 front   4 length   5 gvwr   6 hold   7 which constraint holds
//   8 tongue limit   9 coupler   10 ball   11 least   12 most   13 payload
//   14 truck for its surge brakes   15 T0, weighed   16 couples to no ball
//   17 axles, 18 tires, 19 wheels hold, all of the group   20 has no brakes
// A truck is an object of pounds and inches, each left out where it is not known:
//   gvwr weight rear rearWeight front gcwr onLabel hitch tongue ball unbraked base behind
// The law is [Class A from, towed above, Class B from, commercial from], in pounds.
var Statics = (function () {
	"use strict";
	var KG = 0.45359237, MM = 25.4, MOST = 1e9, abs = Math.abs, max = Math.max;

	// internal/measure: round.go
	function away(v) { return v < 0 ? -Math.round(-v) : Math.round(v); }
	function step(v, by, round) {
		var n = v / by, r = away(n);
		return (abs(n - r) <= 1e-6 ? r : round(n)) * by;
	}
	function down(v, by) { return step(v, by, Math.floor); }
	function up(v, by) { return step(v, by, Math.ceil); }
	function near(v, by) { return away(v / by) * by; }
	function notOver(v, limit) { return v <= limit || v - limit <= 1e-9 * max(abs(v), abs(limit)); }
	function same(a, b) { return notOver(a, b) && notOver(b, a); }

	// print.go and system.go
	function group(s) {
		var dot = s.indexOf("."), i = dot < 0 ? s.length : dot;
		while ((i -= 3) > 0 && s[i - 1] != "-") s = s.slice(0, i) + "," + s.slice(i);
		return s;
	}
	function fixed(v, n) { return group((v || 0).toFixed(n)); }
	function trimmed(v, n) {
		var s = v.toFixed(n);
		if (n) s = s.replace(/\.?0+$/, "");
		return group(s == "-0" ? "0" : s);
	}
	function number(v) { return group(String(v)); }
	function fraction(v) {
		var whole = Math.floor(v), n = (v - whole) * 64, d = 64;
		if (!n) return number(whole);
		while (n % 2 == 0) { n /= 2; d /= 2; }
		return (whole ? number(whole) + "-" : "") + n + "/" + d;
	}
	function feet(v) {
		var sign = v < 0 ? "-" : "", f = Math.floor(abs(v) / 12), rest = abs(v) - f * 12;
		return sign + (f ? number(f) + " ft" + (rest ? " " : "") : "") + (rest || !f ? fraction(rest) + " in" : "");
	}
	function inches(v) {
		var mm = away(v * MM * 100) / 100;
		if (v * 64 == Math.trunc(v * 64) && abs(v) <= MOST) return feet(v);
		return mm <= MOST && mm / MM == v ? number(mm) + " mm" : number(v) + " in";
	}
	function meters(mm, n) { return fixed(mm / 1000, n) + " m"; }
	function kilos(v) { return abs(v) < 10 ? trimmed(near(v, 0.1), 1) : fixed(near(v, 1), 0); }
	function weight(p, si) { return si ? kilos(p * KG) + " kg" : trimmed(near(p, 0.1), 1) + " lb"; }
	function limit(p, si) { return si ? fixed(down(p * KG, 1), 0) + " kg" : fixed(down(p, 1), 0) + " lb"; }
	function load(p, si) { return si ? fixed(up(p * KG, 1), 0) + " kg" : fixed(up(p, 1), 0) + " lb"; }
	function length(v, si) { return si ? meters(near(v * MM, 10), 2) : abs(v) > MOST ? inches(v) : feet(near(v, 1 / 64)); }
	function atLeast(v, si) { return si ? meters(up(v * MM, 10), 2) : feet(up(v, 0.25)); }
	function atMost(v, si) { return si ? meters(down(v * MM, 10), 2) : feet(down(v, 0.25)); }
	function share(s) { return trimmed(near(s * 100, 0.1), 1) + "%"; }
	function stretch(first, last, si) {
		var coarse = si ? 10 : 0.25, fine = si ? 1 : 1 / 64;
		function write(v) { return si ? meters(v, near(v, 10) == v ? 2 : 3) : inches(v); }
		if (si) { first *= MM; last *= MM; }
		var from = up(first, coarse), to = down(last, coarse);
		if (from > to) { from = up(first, fine); to = down(last, fine); }
		if (from > to) return "only at " + write(near(first, fine));
		return from == to ? "only at " + write(from) : write(from) + " to " + write(to);
	}

	// product.go
	function part(s, p) {
		var v = s * 1e6, n = away(v);
		return abs(v - n) <= 1e-9 ? p * n / 1e6 : s * p;
	}
	function sensible(v) { return abs(v) <= MOST; }

	// loadwindow.go. A constraint is its number there.
	var NAMES = ["nothing", "the deck's front edge", "the deck's rear edge", "the load ahead of it", "the load behind it",
		"the least that should be on the tongue", "the most that should be on the tongue", "the coupler's tongue limit",
		"the axles", "the tires", "the wheels", "gvwr", "the coupler", "the ball", "no load at all",
		"the load's own measures", "the trailer's measures"];
	function rigSensible(r) {
		var E = r[0], T = r[1];
		return E > 0 && r[2] > 0 && r[4] > 0 && r[5] > 0 && r[6] > 0 && T <= E && T >= -E && r[8] >= 0 && r[9] >= 0 && r[10] >= 0 &&
			r[11] >= 0 && r[12] >= r[11] && r[12] <= 1 && [0, 2, 3, 4, 5, 6, 8, 9, 10].every(function (i) { return sensible(r[i]); });
	}
	function loadSensible(w, L) { return w >= 1 && L >= 0 && sensible(w) && sensible(L); }
	// Where the center of a load w of length L may stand: {room, first, last (behind the
	// deck's front edge), by (the two constraints that set or refuse it), leaves}.
	function window(r, w, L) {
		var E = r[0], T = r[1], A = r[2], F = r[3];
		function no(by, leaves) { return { room: false, w: w, L: L, by: by, leaves: max(leaves || 0, 0) }; }
		if (!rigSensible(r)) return no([16, 16]);
		if (!loadSensible(w, L)) return no([15, 15]);
		var most = r[5], by = 11;
		if (r[9] > 0 && r[9] < most) { most = r[9]; by = 12; }
		if (r[10] > 0 && r[10] < most) { most = r[10]; by = 13; }
		var left = most - E;
		if (!notOver(E + w, E + left)) return no([15, by], left);
		// A line is [at, slope, by]: it bounds the moment w x at + slope w.
		function band(s, by) {
			var of = part(s, E), free = T - of;
			return [(same(T, of) ? 0 : free) * A, A - s * A, by];
		}
		function moment(l) { return l[0] + w * l[1]; }
		function place(l) { return l[0] == 0 ? l[1] : l[1] + l[0] / w; }
		var half = L / 2, above = [[0, F + 0 + half, 1], band(r[12] == 0 ? 1 : r[12], 6)],
			below = [[0, F + r[4] - half, 2], band(r[11], 5), [(r[6] - (E - T)) * A, 0, r[7]]];
		if (r[8] > 0) above.push([(T - r[8]) * A, A, 7]);
		var front = above[0], rear = below[0];
		if (notOver(L, r[4])) {
			above.forEach(function (l) { if (moment(l) > moment(front)) front = l; });
			below.forEach(function (l) { if (moment(l) < moment(rear)) rear = l; });
		}
		var o = no([front[2], rear[2]]);
		o.first = place(front) - F;
		o.last = place(rear) - F;
		o.room = notOver(moment(front), moment(rear));
		if (o.room) o.last = max(o.last, o.first);
		return o;
	}
	function windowText(o, si) {
		var a = o.by[0], b = o.by[1];
		if (o.room) return stretch(o.first, o.last, si) + " behind the deck's front";
		if (a == 16) return "nowhere: weigh and measure the trailer again, its figures cannot all be right";
		if (a == 15) return "nowhere: " + (b == 15 ? "a load of " + weight(o.w, si) + " on " + length(o.L, si) + " is not a load" :
			weight(o.w, si) + " is more than the " + limit(o.leaves, si) + " that " + NAMES[b] + " leaves for a load");
		if (a < 5 && b < 5) return "nowhere: " + length(o.L, si) + " is longer than the room between " + NAMES[a] + " and " + NAMES[b];
		return "nowhere: " + NAMES[a] + " allows its center no farther forward than " + atLeast(o.first, si) +
			" behind the deck's front, " + NAMES[b] + " no farther back than " + atMost(o.last, si);
	}

	// stand.go: a load w of length L with its center so far behind the deck's front edge.
	function stand(r, w, L, behind) {
		var E = r[0], A = r[2], s = { total: E + w, tongue: 0, axles: 0, share: 0, margins: [], keeps: false };
		if (!(s.total > 0) || !A) return s;
		s.tongue = r[1] + w * (A - r[3] - behind) / A;
		s.axles = s.total - s.tongue;
		s.keeps = rigSensible(r) && loadSensible(w, L) && notOver(L / 2, behind) && notOver(behind + L / 2, r[4]);
		s.share = s.tongue / s.total;
		function add(by, limit, used, least) {
			var over = least ? !notOver(limit, used) : !notOver(used, limit);
			s.margins.push({ by: by, limit: limit, used: used, over: over, left: least ? used - limit : limit - used });
			if (over) s.keeps = false;
		}
		function known(by, limit, used) { if (limit > 0) add(by, limit, used); }
		add(5, part(r[11], s.total), s.tongue, true);
		add(6, part(r[12] == 0 ? 1 : r[12], s.total), s.tongue);
		known(7, r[8], s.tongue);
		[8, 9, 10].forEach(function (by) { known(by, r[by + 9], s.axles); });
		known(11, r[5], s.total);
		known(12, r[9], s.total);
		known(13, r[10], s.total);
		return s;
	}
	function marginText(m, si) {
		return m.over ? load(-m.left, si) + (m.by == 5 ? " short" : " over") : limit(max(m.left, 0), si) + " left";
	}

	// weights.go: what a load of length L may weigh with its center so far behind the front.
	function carried(r, L, behind) {
		var E = r[0], T = r[1], A = r[2], x = r[3] + behind, o = { room: false, least: 1, most: r[5] };
		if (!rigSensible(r) || !(L >= 0) || !notOver(L / 2, behind) || !notOver(behind + L / 2, r[4])) return o;
		o.room = true;
		if (r[9] > 0 && r[9] < o.most) o.most = r[9];
		if (r[10] > 0 && r[10] < o.most) o.most = r[10];
		o.most -= E;
		function hold(moment, arm, least) {
			if (!arm) { if (least ? moment > 0 : moment < 0) o.room = false; }
			else if (arm > 0 == least) o.least = max(o.least, moment / arm);
			else o.most = Math.min(o.most, moment / arm);
		}
		function band(s, least) {
			var of = part(s, E);
			hold((same(T, of) ? 0 : T - of) * A, x - (A - s * A), least);
		}
		band(r[12] == 0 ? 1 : r[12], true);
		if (r[8] > 0) hold((T - r[8]) * A, x - A, true);
		band(r[11], false);
		hold((r[6] - (E - T)) * A, x, false);
		o.room = o.room && o.least <= o.most;
		return o;
	}
	function weights(r, w, L, behind, si) {
		var o = carried(r, L, behind);
		if (!o.room) return "nothing of its length fits there";
		return "a load of its length may weigh " + (o.least > 1 ? load(o.least, si) + " to " : "up to ") + limit(o.most, si) + " there; this one " +
			(!notOver(w, o.most) ? "is " + load(w - o.most, si) + " too heavy" : !notOver(o.least, w) ? "is " + load(o.least - w, si) + " too light" :
				"leaves " + limit(max(o.most - w, 0), si));
	}
	// field draws every weight of a load of length L and where it may stand, as
	// internal/elevation draws it on the page of the figures, with one of them as a point.
	function field(r, w, L, x, si) {
		var top = r[5] - r[0], front = "", rear = "", k, o, most = 0, high;
		[9, 10].forEach(function (i) { if (r[i] > 0) top = Math.min(top, r[i] - r[0]); });
		function px(v) { return (8 + v / r[4] * 344).toFixed(1); }
		function py(v) { return (184 - v / high * 150).toFixed(1); }
		high = max(top, w);
		for (k = 0; k <= 96; k++) {
			var v = max(top * k / 96, 1);
			o = window(r, v, L);
			if (!o.room) continue;
			most = v;
			front += " " + px(o.first) + " " + py(v);
			rear = " " + px(o.last) + " " + py(v) + rear;
		}
		return '<svg class="el" viewBox="0 0 360 214" role="img" aria-label="Weight upward, place from front to back: the shaded field is allowed for a load ' + length(L, si) + ' long, the point is yours">' +
			(most ? '<path class="el-room" d="M' + front.slice(1) + rear + 'Z"/>' : "") +
			'<path fill="none" stroke="currentColor" stroke-width="2" d="M8 34V184H352V34"/><circle class="el-here" cx="' + px(x) + '" cy="' + py(w) + '" r="7"/>' +
			'<g fill="currentColor" font-size="14" font-family="system-ui,sans-serif"><text x="8" y="22">' + limit(high, si) + '</text><text x="8" y="206">front</text><text x="352" y="206" text-anchor="end">' +
			length(r[4], si) + " back</text></g></svg>";
	}

	// towmatch.go: the rig as a truck meets it with a load w standing on it as s says.
	function laden(r, w, s) {
		r = r.slice();
		r[0] = s.total;
		r[1] = s.tongue;
		if (r[13] != null) r[13] = max(r[13] - w, 0);
		if (r[15] != null) r[15] = s.tongue;
		return r;
	}

	// license.go
	var LICENSES = ["below the federal weights of Class A and Class B; passengers, placards and states have rules of their own: ask your state",
		"a federal Class B license may apply; ask your state", "a federal Class A license may apply; ask your state"];
	function license(law, pulls, towed, label) {
		var all = max(pulls + towed, towed > 0 ? label : 0);
		return { is: all >= law[0] && towed > law[1] ? 2 : pulls >= law[2] ? 1 : 0, business: all >= law[3] };
	}

	// towmatch.go
	function senseless(r, t, T, xc, si) {
		var E = r[0], B = t.behind, bad = "";
		function say(s) { bad = bad || s; }
		function check(write, least, list) {
			list.forEach(function (c) {
				var v = c[1], l = c[2] == null ? least : c[2];
				if (v != null && !(v >= l && sensible(v))) say(c[0] + " cannot be " + write(v, si));
			});
		}
		check(weight, 1, [["the trailer's empty weight", E], ["the trailer's GVWR", r[5]], ["the trailer's payload", r[13], 0],
			["the truck its surge brakes ask for", r[14], 0], ["the truck's GVWR", t.gvwr], ["the truck's weight", t.weight],
			["the rear axle's rating", t.rear], ["the weight on the rear axle", t.rearWeight, 0], ["the front axle's rating", t.front],
			["the truck's GCWR", t.gcwr], ["the hitch's rating", t.hitch], ["the hitch's tongue limit", t.tongue], ["the ball's rating", t.ball],
			["the truck's limit for trailers without brakes", t.unbraked]]);
		check(length, 1, [["the distance from the ball to the trailer's axles", r[2]],
			["the distance from the ball to the middle of the deck", xc, 0], ["the truck's wheelbase", t.base]]);
		if (T != null && !sensible(T)) say("the tongue weight cannot be " + weight(T, si));
		if (T != null && E != null && abs(T) > E) say("the tongue cannot weigh " + weight(T, si) + ", the whole trailer weighs " + weight(E, si));
		if (t.rearWeight != null && t.weight != null && t.rearWeight > t.weight) say("the rear axle cannot carry " + weight(t.rearWeight, si) + ", the whole truck weighs " + weight(t.weight, si));
		if (B != null && !sensible(B)) say("the ball cannot be " + length(B, si) + " from the rear axle");
		if (B != null && t.base != null && t.base + B <= 0) say("the ball cannot be " + length(-B, si) + " ahead of the rear axle, the wheelbase is " + length(t.base, si));
		return bad;
	}
	// The most that the trailer may carry behind the truck, evenly spread: {why, missing,
	// most, limits (lowest first, the first governs), tongue, license, notes, text}.
	function match(r, t, law, si) {
		var E = r[0], T = r[15], A = r[2], xc = r[3] != null && r[4] != null ? r[3] + r[4] / 2 : null,
			m = { why: senseless(r, t, T, xc, si), missing: [], limits: [], notes: [], most: 0, license: 0, incomplete: false };
		function done() { m.text = matchText(m, si); return m; }
		if (m.why) return done();
		function have(v, name) {
			if (v == null) m.missing.push(name);
			return v != null;
		}
		function enter(name, label, rating, base, rise) {
			var l = { name: name, label: label, rating: rating, used: base, rise: rise, allows: 0, empty: !notOver(base, rating) };
			if (!l.empty) {
				if (rise <= 0) l.free = true;
				else l.allows = max((rating - base) / rise, 0);
			}
			m.limits.push(l);
		}
		function effects(tongue) { return -(tongue * t.behind / t.base); }
		// unbrakedInCommerce
		function commerce() {
			if (r[5] != null && r[5] > max(3000, 1361 / KG)) {
				m.notes.push("commercial use: a trailer over 3,000 lb must have brakes (49 CFR 393.42(b)(3)); this one has none");
			} else if (ok && weighed && stands) {
				var tongue = T + part(rise, m.most), axles = E + m.most - tongue, under = t.weight + tongue;
				if (!notOver(axles * 5 / 2, under)) m.notes.push("commercial use: without brakes the trailer's axles may carry at most 40% of what the truck's axles carry (49 CFR 393.42(b)(3)); here they carry " +
					load(axles, si) + ", and the truck's " + limit(under, si));
			}
		}
		if (have(r[13], "the trailer's own payload")) enter("trailer", "the trailer's own payload", r[13], 0, 1);
		var weighed = have(E, "the trailer's empty weight"), stands = have(t.weight, "the truck's weight as it is");
		if (have(t.gcwr, "the truck's GCWR") && weighed && stands) enter("gcwr", "the truck's GCWR", t.gcwr, t.weight + E, 1);
		if (have(t.hitch, "the hitch's trailer rating") && weighed) enter("hitch", "the hitch on the truck", t.hitch, E, 1);
		if (r[20] && t.unbraked != null && weighed) enter("unbraked", "the truck maker's limit for a trailer without brakes", t.unbraked, E, 1);
		if (!(t.ball == null && r[16]) && have(t.ball, "the ball's rating") && weighed) enter("ball", "the ball on the truck", t.ball, E, 1);
		var ok = [have(T, "the trailer's tongue weight, empty"), have(A, "where the trailer's axles are"), have(xc, "where the trailer's deck is")].every(Boolean),
			rise = ok ? (A - xc) / A : 0;
		if (ok && (rise < 0 || T < 0)) enter("hitch-lift", "the load at which the hitch would lift", 0, -T, -rise);
		if (have(t.gvwr, "the truck's GVWR") && ok && stands) enter("truck-gvwr", "the truck's GVWR", t.gvwr, t.weight + T, rise);
		if (have(t.tongue, "the hitch's tongue limit") && ok) enter("hitch-tongue", "the tongue limit of the hitch on the truck", t.tongue, T, rise);
		var rated = have(t.rear, "the truck's rear axle rating"), rear = have(t.rearWeight, "the weight on the truck's rear axle"),
			based = have(t.base, "the truck's wheelbase"), placed = have(t.behind, "how far the ball is from the rear axle");
		if (ok && based && placed) {
			var lost = effects(T);
			if (rated && rear) enter("rear-axle", "the truck's rear axle", t.rear, t.rearWeight + (T - lost), rise * ((t.base + t.behind) / t.base));
			if (t.front != null && stands && rear) enter("front-axle", "the truck's front axle", t.front, t.weight - t.rearWeight + lost, rise * (-t.behind / t.base));
		}
		if (m.limits.every(function (l) { return l.free; })) {
			m.limits = [];
			m.incomplete = true;
			m.why = "nothing to go by: give the trailer's payload, or its empty weight and the truck's ratings";
			return done();
		}
		var first = true;
		m.limits.forEach(function (l) {
			if (!l.free && (first || l.allows < m.most)) { m.most = l.allows; first = false; }
			m.over = m.over || l.empty;
		});
		m.limits.forEach(function (l) {
			l.used += part(l.rise, m.most);
			l.margin = l.rating - l.used;
		});
		m.limits.sort(function (a, b) {
			if (a.empty != b.empty) return a.empty ? -1 : 1;
			if (a.empty) return a.margin - b.margin;
			if (!a.free != !b.free) return b.free ? -1 : 1;
			return a.allows - b.allows;
		});
		m.notes.push("evenly spread over the deck; a load farther forward puts more on the truck");
		if (r[14] != null && t.gvwr < r[14]) m.notes.push("its surge brakes ask for a truck rated " + load(r[14], si) + " or more (49 CFR 393.48(d)); this one is rated " + weight(t.gvwr, si));
		if (r[20]) commerce();
		if (ok) {
			m.tongue = T + part(rise, m.most);
			if (based && placed) {
				var gains = effects(m.tongue);
				if (gains < 0) m.notes.push("the front axle loses " + load(-gains, si) + ", so it steers and brakes with less; the truck's manual says when a weight-distributing hitch is due");
				if (gains > 0) m.notes.push("the front axle gains " + load(gains, si));
				if (stands && rear && t.weight - t.rearWeight + gains < 0) m.notes.push("by these figures the front axle would lift: weigh the truck's axles again");
			}
		}
		var l = license(law, max(t.gvwr || 0, t.weight || 0), max(r[5] || 0, weighed ? E + m.most : 0), t.onLabel && t.gcwr || 0);
		m.license = l.is;
		m.business = l.business;
		m.licenseKnown = l.is == 2 || t.gvwr != null && r[5] != null;
		m.incomplete = m.missing.length > 0;
		return done();
	}
	function matchText(m, si) {
		if (m.why) return m.why;
		var l = m.limits[0], s = l.empty ?
			"by these figures the empty trailer is over " + l.label + " by " + load(-l.margin, si) + ": weigh both, read the labels again, or look at a truck rated for more" :
			"up to " + limit(m.most, si) + ", evenly spread; what governs is " + l.label;
		return m.incomplete ? s + "; incomplete, for want of " + m.missing.join(", ") : s;
	}

	// What is asked of a truck: its key, its name, its unit and where it stands.
	var TRUCK = [
		["gvwr", "GVWR", "lb", "on the driver's door sticker"], ["weight", "It weighs as it stands", "lb", "on a scale, with people, fuel and gear in it"],
		["rear", "Rear axle rating", "lb", "GAWR RR on the door sticker"], ["rearWeight", "On its rear axle", "lb", "on a scale, the rear axle alone"],
		["gcwr", "GCWR", "lb", "in the owner's manual, towing"], ["hitch", "Hitch, trailer weight", "lb", "on the hitch's own label"],
		["tongue", "Hitch, tongue weight", "lb", "on the same label"], ["ball", "Ball", "lb", "stamped on the ball"],
		["unbraked", "Trailer without brakes", "lb", "in the owner's manual, towing; only for a trailer without brakes"],
		["base", "Wheelbase", "in", "from axle to axle, or in the manual"], ["behind", "Ball behind the rear axle", "in", "with a tape; a minus if it stands ahead of it"]
	];

	return {
		TRUCK: TRUCK, KG: KG, MM: MM, NAMES: NAMES, LICENSES: LICENSES,
		weight: weight, limit: limit, load: load, length: length, atLeast: atLeast, atMost: atMost, share: share, stretch: stretch, near: near, trimmed: trimmed,
		window: window, windowText: windowText, stand: stand, weights: weights, field: field, marginText: marginText, laden: laden, match: match
	};
})();
