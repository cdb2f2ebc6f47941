// The statics of internal/compute (loadwindow.go, stand.go, spot.go), the verdicts of
// internal/oracle (carry.go, pull.go, license.go), the reader of typed quantities of internal/measure
// (typed.go) and the rounding of internal/measure (round.go, print.go, system.go), for a
// load or a truck that only the customer knows. A test holds every word of it against the
// Go (internal/render/statics_test.go); where the two differ, Go is right.
//
// WHAT A PAGE CALLS. si is true for metric units. Every text comes from the table of
// phrases (internal/phrases), which the build puts in front of this file as PHRASES.
//
//   Statics.say(key, 1st, 2nd ...)  a phrase of the table with its blanks filled in.
//
//   Statics.read(text, field, si)   what somebody typed. A field is {name, unit, signed, zero}:
//     name is what messages call it ("Weight"); unit is lb, ft or in, the default unit where
//     none is typed (kg, m or mm with si); signed lets it be below zero; zero lets it be zero.
//     Returns {is: "blank"}
//       or {is: "ok", value: pounds or inches, echo: "9,500 lb"}
//       or {is: "ask", problem: text, choices: [{text: "9,500 lb"}, {text: "4,750 kg"}]}, where
//          "t" or "ton" was typed: put the choice that is tapped into the field
//       or {is: "bad", code, problem: text}: show it, set aria-invalid, give no answer.
//   Statics.unit(field, si)         the default unit, to show next to the field: "lb", "kg" ...
//
//   Statics.machine(row, length, rear)  a machine for what follows: {w, L, a, m, head, tail}. row is
//     one of MACHINES, or null for what is not listed; length is in inches, or null for the
//     longest of its class; tall is its height, where it is known; wide is [least, most] inches across it, or null where nothing is known; rear is true where it backs on. w is its typical weight until you
//     set it, a is from its leading end back to its center of gravity, m how far that may be off;
//     head and tail name its leading and its following end.
//     MACHINES has [name, least lb, typical lb, most lb, longest ft, center and margin (shares of
//     the length, from its front), name of its front, name of its rear, shape, shortest ft, least and most width in inches].
//   Statics.doubt(row, typed, si)  a question where one of what was typed, {w, l, s, h} (bring.js), is far
//     outside the class, or cannot be of any, or ""
//   Statics.question(verdict, doubt)  the verdict, CANNOT SAY YET where there is a doubt and no limit is broken
//
//   Statics.answer(rig, machines, truck, law, si)  both answers below, {m, t}, each null where
//     nothing is known to ask it for. Cards and pages call this, so that they agree.
//   Statics.carry(rig, machines, si, truck)  WILL IT CARRY MINE: one machine, or several front to
//     rear. The best place keeps what is known of the truck too, where there is such a place.
//   Statics.pull(rig, truck, on, law, si)  CAN MY TRUCK PULL IT. on is null for a full
//     trailer, or {w, tongue, stand, held, carried} with tongue null where it is not known;
//     Statics.loaded gives it, and carried is the verdict of carry. It is never a yes where that is not one.
//   Statics.pullWith(rig, truck, verdict of carry or null, sets, law, si)  pull with the machines there.
//     Both return a verdict:
//       {is: "yes" | "no" | "unknown", word: "YES" | "NO" | "CANNOT SAY YET",
//        text: the whole answer, which begins with the word and names the weakest part,
//        needs: [{key, text}]  what is not known: a key of ASKED, or trailer, tongue, deck ...
//        limits: [{key, label, rating, used, left, over, text}]  the closest first,
//        notes: [text]}
//     carry adds spots (see below), sets (where each machine is best), best (bear of them), put
//     (sets, or where no place is known to be good, the middle of the deck), w (what all weigh) and, where
//     the truck bounds the places, rig (the trailer with that bound on its tongue);
//     pull adds most (the largest even load by all known limits, or null), license (0, 1, 2),
//     licenseKnown and business.
//
//   Statics.fits(size, barn, si)  DOES IT GO INTO MY BARN: a verdict. size is [width, height, length,
//     each over all, length as worked out, which a gate may add to] in inches, null for what nobody measured; barn has the
//     keys of BARN: how wide and how high its door is, and how deep it is inside.
//
//   Statics.spots(rig, machine, sets)  where the leading end of one more machine may be, among
//     others: [{is: "yes" | "close" | "no", first, last (whole inches or centimeters, rounded
//     inward, in inches), from, to (exact), by: [constraint, constraint], why}]. "close" has
//     room only if its center is where the table says: weigh it there. One entry for each gap
//     with room, or a single one without.
//   Statics.spotText(spot, machine, space, si)  "front of the bucket 4 ft 4 in to 5 ft 1 in behind
//     the front of the deck, then weigh the tongue"
//   Statics.bear(rig, sets)  the trailer with machines on it, for dragging: {total, tongue, axles,
//     share, margins: [{by, limit, used, over, left}], keeps, apart, alone}. A set is a machine with x,
//     its leading end behind the front of the deck, in inches. apart is false where two
//     overlap or one is over an end; alone is true where there is one set.
//   Statics.held(rig, sets)  what the way up and a short part of the deck are rated for, with
//     machines on it: [{by, limit, used, over, left}], as margins have them.
//   Statics.loaded(rig, sets)  {w, tongue, stand, held} for pull. stand is what bear says, null where the trailer lacks a measurement.
//   Statics.climb(angle, machine, si)  the way up of that many degrees: {is: "yes" | "no" |
//     "unknown", texts, drags (which of the texts say that it does)}, or null where nobody knows the angle. A machine may have base (its
//     wheelbase), under (the clearance there), over (its longest overhang) and tip (the
//     clearance under the end of it).
//   Statics.ASKED  what is asked of a truck: [key, unit, "need" | "better" | "more" (only for
//     those who have it)]; its name is the phrase "truck KEY", where to read it "truck KEY at". A
//     unit of "kind" has KINDS to choose from, "yes" is a box to tick.
//
// A rig is one trailer as internal/pagedata hands it over (calculator.go has the same list),
// in pounds and inches, null for what is not known:
//   0 E   1 T0   2 A   3 front   4 length   5 gvwr   6 hold   7 which constraint holds
//   8 tongue limit   9 coupler   10 ball   11 least   12 most   13 payload
//   14 truck for its surge brakes   15 T0, weighed   16 couples to no ball
//   17 axles, 18 tires, 19 wheels hold, all of the group   20 has no brakes
//   21 kind of its hitch   22 diameter of the ball that its coupler takes   23 degrees of the way up
//   24 takes no machine   25 what its way up holds   26 which constraint says so
//   27 what a short part of its deck holds   28 how long that part is
//   29 how wide a machine may be   30 how high its floor is
//   31 no way up to it is on file   32 how high a machine may be, 0 under a roof of no known height
// A truck is an object of the keys of ASKED, each left out where it is not known.
// The law is [Class A from, towed above, Class B from, commercial from], in pounds.
var Statics = (function () {
	"use strict";
	var KG = 0.45359237, MM = 25.4, MOST = 1e9, HIGHEST = 162, abs = Math.abs, max = Math.max, min = Math.min;
	var WORDS = typeof PHRASES == "undefined" ? {} : PHRASES;
	function say(key) {
		var given = arguments;
		return (WORDS[key] || key).replace(/\{(\d)\}/g, function (all, n) { return given[n]; });
	}

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
	function stretch(first, last, si, by) {
		var coarse = si ? 10 : by || 0.25, fine = si ? 1 : 1 / 64;
		function write(v) { return si ? meters(v, near(v, 10) == v ? 2 : 3) : inches(v); }
		if (si) { first *= MM; last *= MM; }
		var from = up(first, coarse), to = down(last, coarse);
		if (from > to) { from = up(first, fine); to = down(last, fine); }
		if (from > to) return say("only at", write(near(first, fine)));
		return from == to ? say("only at", write(from)) : say("from to", write(from), write(to));
	}

	// internal/measure/typed.go. A row is words, whether it is a weight, times, over.
	var UNITS = [
		[say("words lb"), 1, 1, 1], [say("words kg"), 1, 1, KG],
		[say("words tonne"), 1, 1000, KG], ["shortton", 1, 2000, 1],
		[say("words ft"), 0, 12, 1], [say("words in"), 0, 1, 1],
		[say("words mm"), 0, 1, MM], [say("words cm"), 0, 10, MM],
		[say("words m"), 0, 1000, MM]
	], METRIC = { lb: "kg", ft: "m", "in": "mm" };
	function unitOf(word) {
		for (var i = 0; i < UNITS.length; i++) if ((" " + UNITS[i][0] + " ").indexOf(" " + word + " ") >= 0) return UNITS[i];
	}
	function unit(f, si) { return si ? METRIC[f.unit] : f.unit; }
	function tidy(text) {
		return text.replace(/[\u00a0\u2007\u2009\u202f\t\r\n]/g, " ").replace(/[\u2018\u2019\u2032]/g, "'").replace(/[\u201d\u2033]/g, '"')
			.replace(/[\u2212\u2013\u2014]/g, "-").replace(/[\u00bd\u00bc\u00be\u215b-\u215e]/g, function (c) {
				return " " + { "\u00bd": "1/2", "\u00bc": "1/4", "\u00be": "3/4", "\u215b": "1/8", "\u215c": "3/8", "\u215d": "5/8", "\u215e": "7/8" }[c] + " ";
			}).replace(/[A-Z]/g, function (c) { return c.toLowerCase(); }).replace(/ +/g, " ").replace(/^ | $/g, "")
			.replace(/metric tons?/g, "tonne").replace(/(short|us) tons?/g, "shortton");
	}
	// One number with its unit, from the front of a text: {v, whole, unit, bare, rest}, or {code, what}.
	function part(s, heavy, usual) {
		var m = /^([\d,]*)(\.\d*)?/.exec(s), d = m[1], dec = m[2] || "", rest = s.slice(m[0].length), v, f, u, word, whole = !dec;
		function no(code, what) { return { code: code, what: what }; }
		if (dec == "." || !d && !dec) return no("number");
		if (d.indexOf(",") >= 0 && !/^\d{1,3}(,\d{3})+$/.test(d)) return no("commas", d + dec);
		if (heavy && dec.length == 4 && d.length < 4 && +d) return no("decimals", d + dec);
		v = parseFloat("0" + d.replace(/,/g, "") + dec);
		if (!(v <= MOST)) return no("large");
		if (!dec && (f = /^\/(\d*)/.exec(rest) || /^[ -](\d+)\/(\d*)/.exec(rest))) {
			var over = f.length > 2, n = over ? f[1] : d, den = f[f.length - 1];
			if (n.length > 2 || !/^(2|4|8|16|32|64)$/.test(den) || !(+n < +den)) return no("fraction", (over ? d + " " : "") + n + "/" + den);
			v = (over ? v : 0) + n / den;
			whole = false;
			rest = rest.slice(f[0].length);
		}
		if (heavy && (f = /^ ?(k|thousand|mil)(?![a-z])/.exec(rest))) {
			v *= 1000;
			rest = rest.slice(f[0].length);
		}
		f = /^ ?-?([a-zí]+|''|['"#])\.?/.exec(rest);
		if (!f) return { v: v, whole: whole, unit: unitOf(usual), bare: true, rest: rest };
		word = f[1];
		u = unitOf(word);
		if (heavy && /^(t|ton(elada)?s?)$/.test(word)) return { v: v, ton: word, rest: rest.slice(f[0].length) };
		if (!u || !u[1] == heavy) return no("unit", word);
		return { v: v, whole: whole, unit: u, rest: rest.slice(f[0].length) };
	}
	function read(text, f, si) {
		var s = tidy(text), heavy = f.unit == "lb", usual = unit(f, si), minus = s.charAt(0) == "-", p, q, v, mine, echo;
		var write = heavy ? weight : length;
		function no(code, what) {
			return { is: "bad", code: code, what: what || "", problem: say("typed " + code, f.name, text.trim(), what, say("typed like " + usual)) };
		}
		if (!s) return { is: "blank" };
		if (minus && !f.signed) return no("below");
		if (minus) s = s.slice(1).replace(/^ /, "");
		p = part(s, heavy, usual);
		if (p.code) return no(p.code, p.what);
		p.rest = p.rest.replace(/^ /, "");
		if (p.rest && p.unit && p.unit[2] == 12) {
			q = part(p.rest.replace(/^(-|, ?|and |y )/, ""), heavy, "in");
			if (q.code) return no(q.code, q.what);
			if (q.unit[2] / q.unit[3] != 1) return no("rest", p.rest);
			if (!p.whole || !(q.v < 12)) return no("inches", p.rest);
			p.rest = q.rest.replace(/^ /, "");
		}
		if (p.rest) return no("rest", p.rest);
		if (p.ton) {
			return { is: "ask", code: "ton", problem: say("typed ton", f.name, text.trim()), choices: [{ text: weight(p.v * 2000, false) }, { text: weight(p.v * 1000 / KG, true) }] };
		}
		v = p.v * p.unit[2] / p.unit[3] + (q ? q.v : 0);
		if (v > (heavy ? 3e5 : 2400)) return no("large");
		if (!v && !f.zero) return no("zero");
		if (minus) v = -v;
		mine = p.unit[3] != 1;
		echo = write(v, mine) + (mine == !!si ? "" : " = " + write(v, si));
		return { is: "ok", value: v, echo: echo };
	}

	// product.go
	function portion(s, p) {
		var v = s * 1e6, n = away(v);
		return abs(v - n) <= 1e-9 ? p * n / 1e6 : s * p;
	}
	function sensible(v) { return abs(v) <= MOST; }

	// loadwindow.go. A constraint is its number there.
	var NAMES = [];
	while (NAMES.length < 21) NAMES.push(say("by " + NAMES.length));
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
			var of = portion(s, E), free = T - of;
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
		if (o.room) return say("window", stretch(o.first, o.last, si));
		if (a == 16) return say("window trailer");
		if (a == 15 && b == 15) return say("window load", weight(o.w, si), length(o.L, si));
		if (a == 15) return say("window heavy", weight(o.w, si), limit(o.leaves, si), NAMES[b]);
		if (a < 5 && b < 5) return say("spot long", length(o.L, si), NAMES[a], NAMES[b]);
		return say("window none", NAMES[a], atLeast(o.first, si), NAMES[b], atMost(o.last, si));
	}

	// stand.go
	function margins(r, s) {
		s.share = s.tongue / s.total;
		function add(by, limit, used, least) {
			var over = least ? !notOver(limit, used) : !notOver(used, limit);
			s.margins.push({ by: by, limit: limit, used: used, over: over, left: least ? used - limit : limit - used });
			if (over) s.keeps = false;
		}
		function known(by, limit, used) { if (limit > 0) add(by, limit, used); }
		add(5, portion(r[11], s.total), s.tongue, true);
		add(6, portion(r[12] == 0 ? 1 : r[12], s.total), s.tongue);
		known(7, r[8], s.tongue);
		[8, 9, 10].forEach(function (by) { known(by, r[by + 9], s.axles); });
		known(11, r[5], s.total);
		known(12, r[9], s.total);
		known(13, r[10], s.total);
		return s;
	}
	function marginText(m, si) {
		return m.over ? say(m.by == 5 ? "short" : "over", load(-m.left, si)) : say("left", limit(max(m.left, 0), si));
	}

	// spot.go. A machine is {w, L, a, m, head, tail}; a set is one with x, its leading end.
	// The center of one that is as long as anybody's of its class may be off by the shortest of them too.
	function machine(row, long, rear) {
		var L = long || (row ? row[4] * 12 : 0), at = row ? row[5] : 0.5, names = row ? [row[7], row[8]] : [say("machine front"), say("machine rear")];
		if (rear) at = 1 - at;
		return { w: row ? row[2] : 0, L: L, a: at * L, m: (row ? row[6] : 0.1) * L + (long || !row ? 0 : at * (L - row[10] * 12)), head: names[rear ? 1 : 0], tail: names[rear ? 0 : 1], wide: row && [row[11], row[12]] };
	}
	function together(list) {
		var o = { w: 0, L: 0, a: 0, m: 0, head: list[0].head, tail: list[list.length - 1].tail };
		list.forEach(function (c) { o.a += c.w * (o.L + c.a); o.m += c.w * c.m; o.w += c.w; o.L += c.L; });
		o.a /= o.w;
		o.m /= o.w;
		return o;
	}
	function under(r, sets) {
		r = r.slice();
		sets.forEach(function (c) {
			r[0] += c.w;
			r[1] += c.w * (r[2] - r[3] - (c.x + c.a)) / r[2];
		});
		return r;
	}
	function gaps(r, sets) {
		var out = [], at = [0, 1];
		sets.slice().sort(function (a, b) { return a.x - b.x; }).forEach(function (c) {
			if (c.x > at[0]) out.push([at, [min(c.x, r[4]), 4]]);
			if (c.x + c.L > at[0]) at = [c.x + c.L, 3];
		});
		if (at[0] < r[4] || !out.length) out.push([at, [r[4], 2]]);
		return out;
	}
	function spots(r, c, sets) {
		var o = window(rigSensible(r) ? under(r, sets) : r, c.w, 0), out = [], none, longest = -2e9;
		gaps(r, sets).forEach(function (g) {
			var s = { is: "no", by: o.by, window: o }, a = g[0][0], wide = g[1][0] - a, b = g[1][0] - c.L, f, l;
			if (o.by[0] < 14) {
				f = o.first - c.a;
				l = o.last - c.a;
				s.loose = [max(a, f), min(b, l)];
				s.from = max(a, f + c.m);
				s.to = min(b, l - c.m);
				s.by = [f > a ? o.by[0] : g[0][1], l < b ? o.by[1] : g[1][1]];
				if (!notOver(c.L, wide)) s.by = [g[0][1], g[1][1]];
				else if (o.room && notOver(s.loose[0], s.loose[1])) {
					s.first = up(s.from, 1);
					s.last = down(s.to, 1);
					s.is = s.first <= s.last ? "yes" : "close";
				}
			}
			if (s.is != "no") out.push(s);
			if (wide > longest) { none = s; longest = wide; }
		});
		return out.length ? out : [none];
	}
	function spotText(s, c, space, si) {
		if (s.is == "yes") return say("spot", c.head, stretch(s.from, s.to, si, 1), space);
		if (s.is == "close") return say("spot close", c.head, stretch(s.loose[0], s.loose[1], si), space);
		if (s.by[0] > 13) return windowText(s.window, si);
		if (s.by[0] < 5 && s.by[1] < 5) return say("spot long", length(c.L, si), NAMES[s.by[0]], NAMES[s.by[1]]);
		return say("spot none", NAMES[s.by[0]], c.head, atLeast(s.loose[0], si), NAMES[s.by[1]], atMost(s.loose[1], si), space);
	}
	function bear(r, sets) {
		var f = under(r, sets), s = { total: f[0], tongue: f[1], axles: f[0] - f[1], share: 0, margins: [], keeps: true, apart: true, alone: sets.length == 1 }, end = 0;
		if (!(s.total > 0) || !r[2]) return { total: 0, tongue: 0, axles: 0, share: 0, margins: [], keeps: false, apart: false, alone: sets.length == 1 };
		sets.slice().sort(function (a, b) { return a.x - b.x; }).forEach(function (c) {
			s.keeps = s.keeps && loadSensible(c.w, c.L);
			s.apart = s.apart && notOver(end, c.x);
			end = max(end, c.x + c.L);
		});
		s.apart = s.apart && notOver(end, r[4]);
		s.keeps = s.keeps && s.apart && rigSensible(r);
		return margins(r, s);
	}
	// held.go
	function held(r, sets) {
		var out = [], heaviest = 0, most = 0, part = r[28] == null ? 1e9 : r[28];
		function add(by, limit, used) {
			if (limit != null) out.push({ by: by, limit: limit, used: used, over: !notOver(used, limit), left: limit - used });
		}
		function on(from, to) {
			var all = 0;
			sets.forEach(function (c) {
				var o = min(to, c.x + c.L) - max(from, c.x);
				if (o >= c.L) all += c.w;
				else if (o > 0) all += c.w * o / c.L;
			});
			most = max(most, all);
		}
		sets.forEach(function (c) {
			heaviest = max(heaviest, c.w);
			on(c.x, c.x + part);
			on(c.x + c.L - part, c.x + c.L);
		});
		add(r[26], r[25], heaviest);
		add(20, r[27], most);
		return out;
	}
	function whole(r) { return [0, 1, 2, 3, 4, 5, 6, 11].every(function (i) { return r[i] != null; }); }
	function loaded(r, sets) {
		var w = 0;
		sets.forEach(function (c) { w += c.w; });
		return { w: w, tongue: r[15] == null || !r[2] || r[3] == null ? null : under(r, sets)[1], stand: whole(r) ? bear(r, sets) : null, held: held(r, sets) };
	}

	// climb.go
	function climb(angle, c, si) {
		var t, v = { is: "unknown", texts: [], drags: [] };
		if (angle == null || !(angle > 0 && angle < 60)) return null;
		t = Math.tan(angle * Math.PI / 180);
		v.texts.push(say("climb way", say("degrees", trimmed(near(angle, 0.1), 1)), share(t)));
		function clears(key, need, has) {
			var drags = !notOver(need, has);
			if (drags) v.is = "no";
			else if (v.is == "unknown") v.is = "yes";
			v.drags[v.texts.length] = drags;
			v.texts.push(say("climb " + key + (drags ? " drags" : ""), atLeast(need, si), atMost(has, si)));
		}
		function known(a, b) { return a > 0 && b >= 0 && sensible(a) && sensible(b); }
		if (known(c.base, c.under)) clears("crest", c.base / 2 * Math.tan(angle * Math.PI / 360), c.under);
		if (known(c.over, c.tip)) clears("foot", c.over * t, c.tip);
		if (v.is == "unknown") v.texts.push(say("climb asks"));
		return v;
	}

	// oracle/pull.go: what both verdicts share.
	function limited(v, key, label, rating, used, write) {
		if (rating == null) return;
		var over = !notOver(used, rating), left = rating - used;
		v.limits.push({ key: key, label: label, rating: rating, used: used, left: left, over: over, part: rating > 0 ? used / rating : over ? 1e9 : 0,
			text: over ? say("over", write(-left, true)) : say("left", write(max(left, 0), false)) });
	}
	// What the trailer bears with the load where it is: no yes where that breaks a limit of the trailer,
	// or where the trailer's own answer for the machines is not a yes.
	function placed(v, r, on, si) {
		var broken, move = "", s = on.stand, weighed = on.tongue != null;
		(on.held || []).forEach(function (m) {
			if (!m.over) return;
			if (m.by == 20 && r[28] == null) needed(v, "part");
			else brokenBy(v, m, si);
		});
		if (on.carried) on.carried.needs.forEach(function (n) { needed(v, n.key, n.text); });
		if (!s || s.keeps) return;
		s.margins.forEach(function (m) {
			if (!m.over) return;
			broken = true;
			if (m.by < 11 && !weighed) {
				return needed(v, "tongue");
			}
			if (m.by < 11) move = move || (m.by == 6 || m.by == 7 ? "back" : "forward");
			brokenBy(v, m, si);
		});
		if (!s.apart) v.clash = say(s.alone ? "clash end" : "clash apart");
		else if (!broken) needed(v, "trailer");
		else if (move) v.notes.push(say("note move " + move));
	}
	function brokenBy(v, m, si) {
		var light = m.by == 5, a = light ? m.limit : m.used, b = light ? m.used : m.limit;
		v.limits.push({ key: "by" + m.by, label: light ? say("limit light") : NAMES[m.by], rating: m.limit, used: m.used, left: m.left, over: true,
			part: b > 0 ? a / b : 1e9, text: marginText(m, si) });
	}
	function needed(v, key, text) {
		if (!v.needs.some(function (n) { return n.key == key; })) v.needs.push({ key: key, text: text || say("need " + key) });
	}
	function broken(v) { return v.limits.filter(function (l) { return l.over; })[0]; }
	function settled(v, yes) {
		var l, over;
		v.limits.sort(function (a, b) { return b.part - a.part; });
		l = v.limits[0];
		over = l && v.limits.some(function (l) { return l.over; });
		v.is = v.clash || over ? "no" : v.needs.length ? "unknown" : "yes";
		v.word = say("word " + v.is);
		if (v.clash) v.text = say("verdict", v.word, v.clash);
		else if (over) {
			l = v.limits.filter(function (l) { return l.over; })[0];
			v.text = say("verdict no", v.word, l.label, l.text);
		} else if (v.is == "yes") v.text = say("verdict yes", v.word, yes, l.label, l.text);
		else v.text = say(v.limits.length ? "verdict so far" : "verdict unknown", v.word, v.needs.map(function (n) { return n.text; }).join(say("and")));
		return v;
	}

	// oracle/carry.go
	function inRow(list, x) {
		return list.map(function (c) {
			var o = {};
			for (var k in c) o[k] = c[k];
			o.x = x;
			x += c.L;
			return o;
		});
	}
	function best(s) {
		var mid = near((s.first + s.last) / 2, 1);
		return s.is == "close" ? min(max(mid, s.loose[0]), s.loose[1]) : mid;
	}
	function lengths(si) { return function (l, isLoad) { return (isLoad ? atLeast : atMost)(l, si); }; }
	function carry(r, list, si, t) {
		var v = { needs: [], limits: [], notes: [], spots: [], sets: [], put: [], best: null, w: null }, c, yes = "", row, s;
		function heavy(w, isLoad) { return (isLoad ? load : limit)(w, si); }
		if (!list.length || !list.every(function (c) { return loadSensible(c.w, c.L) && c.L > 0; })) {
			needed(v, "machine");
			return settled(v);
		}
		if (r[24]) {
			v.clash = say("clash space");
			return settled(v);
		}
		c = together(list);
		v.w = c.w;
		limited(v, "payload", say("limit payload"), r[13], c.w, heavy);
		limited(v, "deck", say("limit deck"), r[4], c.L, lengths(si));
		row = inRow(list, 0);
		held(r, row).forEach(function (m, i) {
			if (m.by == 20 && r[28] == null) return m.over && needed(v, "part");
			var alone = max.apply(null, row.map(function (c) { return held(r, [c])[i].used; }));
			limited(v, "by" + m.by, NAMES[m.by], m.limit, alone, heavy);
			if (m.over && notOver(alone, m.limit)) needed(v, "order");
		});
		wide(v, r[29], list, si);
		high(v, r[30], list, si);
		entry(v, r, list, si);
		if (r[13] == null) needed(v, "payload");
		if (r[15] == null) needed(v, "tongue");
		if (whole(r)) {
			v.spots = spots(r, c, []);
			if (t) behind(v, r, c, t, si);
			s = v.spots[0];
			v.put = inRow(list, s.is == "no" ? max(r[4] - c.L, 0) / 2 : best(s));
			if (s.is == "yes") {
				v.sets = v.put;
				v.best = bear(r, v.sets);
				v.best.margins.forEach(function (m) { if (m.by > 6) limited(v, "by" + m.by, NAMES[m.by], m.limit, m.used, heavy); });
				yes = spotText(s, c, say("space deck"), si);
			} else if (s.is == "close") needed(v, "center");
			else if (r[15] != null && !v.limits.some(function (l) { return l.over; })) {
				if (list.length > 1) needed(v, "order");
				else v.clash = spotText(s, c, say("space deck"), si);
			}
		} else needed(v, "trailer");
		if (!v.clash && list.some(function (c) { var w = climb(r[23], c, si); return w && w.is == "no"; })) v.clash = say("clash drags");
		return settled(v, yes);
	}

	// A class that may be narrower or wider than the trailer takes is neither a yes nor a no.
	function wide(v, space, list, si) {
		var most = 0, ask;
		if (space == null) return needed(v, "room");
		list.forEach(function (c) {
			var w = c.wide || [0, 1e9];
			if (notOver(w[1], space)) most = max(most, w[1]);
			else if (!notOver(w[0], space)) most = max(most, w[0]);
			else ask = true;
		});
		if (ask) needed(v, "width");
		if (most) limited(v, "width", say("limit width"), space, most, lengths(si));
		if (ask) v.notes.push(say("note width", atMost(space, si)));
	}
	// A load above what many states allow is not a yes.
	function high(v, floor, list, si) {
		var tall = max.apply(null, list.map(function (c) { return c.tall || 0; }));
		if (!(tall > 0 && floor > 0)) return;
		if (!notOver(floor + tall, HIGHEST)) needed(v, "top");
		v.notes.push(say("note top", atLeast(floor + tall, si)));
	}
	// How the machines get on, and under the roof.
	function entry(v, r, list, si) {
		var most = 0;
		list.forEach(function (c) {
			if (r[31] && c.shape != "freight") needed(v, "way");
			if (r[32] != null && !(c.tall > 0)) needed(v, "tall");
			most = max(most, c.tall || 0);
		});
		if (r[32] == 0) needed(v, "inside");
		else if (r[32] > 0 && most) limited(v, "inside", say("limit inside"), r[32], most, lengths(si));
	}
	// The best place keeps what is known of the truck too, where one does: v.rig is the trailer with that
	// limit on its tongue.
	function behind(v, r, c, t, si) {
		var most = contradiction(r, t, si) ? null : tongueMost(t), s;
		if (v.spots[0].is == "no" || most == null || r[8] > 0 && r[8] <= most) return;
		r = r.slice();
		r[8] = most;
		s = most > 0 ? spots(r, c, []) : v.spots;
		if (most > 0 && s[0].is == v.spots[0].is) {
			v.spots = s;
			v.rig = r;
			if (s[0].is == "yes") v.notes.push(say("note truck place"));
		} else v.notes.push(say("note truck nowhere", limit(max(most, 0), si)));
	}
	// The most that may come on the truck's hitch, by all that is known of the truck, or null.
	function tongueMost(t) {
		var most = null, spread = t.wd === false || t.kind != null && t.kind != "receiver" ? null : t.tongueWD, scaled = t.gvwr != null && t.weight != null, W = t.base, back;
		function upTo(v) { most = most == null ? v : min(most, v); }
		if (spread != null && (t.wd || t.tongue == null)) upTo(spread);
		else if (t.tongue != null) upTo(t.tongue);
		if (scaled) upTo(t.gvwr - t.weight);
		if (t.sticker != null && (t.people != null || !scaled)) upTo(t.sticker - (t.people || 0));
		back = rearShare(t);
		if (back > 0) {
			if (t.rear != null) upTo((t.rear - t.rearWeight) / back);
			if (t.tires != null) upTo((t.tires - t.rearWeight) / back);
		}
		if (t.front != null && t.weight != null && t.rearWeight != null && W != null && t.behind < 0) upTo((t.front - t.weight + t.rearWeight) / -(t.behind / W));
		return most;
	}
	// What comes on the rear axle of a pound on the hitch, or null where that is not known.
	function rearShare(t) {
		var levered = t.base != null && t.behind != null;
		if (t.rearWeight == null || !levered && t.kind != null && t.kind != "receiver" && t.kind != "pintle") return null;
		return levered ? (t.base + t.behind) / t.base : 1;
	}

	// oracle/doubt.go
	function doubt(row, typed, si) {
		var out = "";
		row = row || [];
		[["weight", typed.w, row[1], row[3], 50, 1e9, weight], ["length", typed.l, row[10] * 12, row[4] * 12, 24, 1e9, length],
			["width", typed.s, row[11], row[12], 24, 1e9, length], ["tall", typed.h, 0, 0, 12, HIGHEST, length]].forEach(function (q) {
			var v = q[1], least = q[2], write = q[6];
			if (out || !(v > 0)) return;
			if (least > 0) {
				if (v < least * 0.85 || v > q[3] * 2) out = say("doubt " + q[0], write(v, si), write(least, si), write(q[3], si));
			} else if (v < q[4] || v > q[5]) out = say("doubt " + q[0] + " alone", write(v, si));
		});
		return out;
	}
	function question(v, doubt) {
		if (!doubt || v.is == "no" && !v.limits.length || v.limits.some(function (l) { return l.over; })) return v;
		v.is = "unknown";
		v.word = say("word unknown");
		v.text = say("verdict", v.word, doubt);
		v.needs = [{ key: "sure", text: doubt }];
		return v;
	}

	// oracle/pull.go
	var KINDS = ["receiver", "gooseneck", "fifth-wheel", "pintle"];
	function contradiction(r, t, si) {
		var bad = "";
		function add(key, a, b) { bad = bad || say("wrong " + key, a, b); }
		function check(write, list) {
			list.forEach(function (c) { if (c[1] != null && !(c[1] >= c[2] && sensible(c[1]))) add("value", say("name " + c[0]), write(c[1], si)); });
		}
		check(weight, [["empty", r[0], 1], ["trailer", r[5], 1], ["payload", r[13], 0], ["surge", r[14], 0]].concat(
			ASKED.filter(function (f) { return f[1] == "lb"; }).map(function (f) { return [f[0], t[f[0]], f[3]]; }), [["front", t.front, 1]]));
		check(length, [["axles", r[2], 1], ["center", r[3] == null || r[4] == null ? null : r[3] + r[4] / 2, 0], ["base", t.base, 1]]);
		if (r[15] != null && !sensible(r[15])) add("value", say("name tongue-empty"), weight(r[15], si));
		if (r[15] != null && r[0] != null && abs(r[15]) > r[0]) add("tongue", weight(r[15], si), weight(r[0], si));
		if (t.rearWeight > t.weight) add("rear", weight(t.rearWeight, si), weight(t.weight, si));
		if (t.sticker >= t.gvwr) add("sticker", weight(t.sticker, si), weight(t.gvwr, si));
		if (t.gvwr > t.gcwr) add("gcwr", weight(t.gcwr, si), weight(t.gvwr, si));
		if (t.tongue > t.hitch) add("hitch", weight(t.tongue, si), weight(t.hitch, si));
		if (t.tongueWD > t.hitchWD) add("hitch", weight(t.tongueWD, si), weight(t.hitchWD, si));
		if (t.behind != null && !sensible(t.behind)) add("value", say("name behind"), length(t.behind, si));
		if (t.behind != null && t.base != null && t.base + t.behind <= 0) add("behind", length(-t.behind, si), length(t.base, si));
		return bad;
	}
	function pull(r, t, on, law, si) {
		var E = r[0], T = r[15], A = r[2], W = t.base, v = { needs: [], limits: [], notes: [], most: null }, p = on ? on.w : r[13],
			base = null, rise = 0, other = null, own = t.weight, lines = [], l, wd = t.kind == null || t.kind == "receiver" ? t.wd : false;
		v.license = 0;
		v.licenseKnown = v.business = false;
		function heavy(w, isLoad) { return (isLoad ? load : limit)(w, si); }
		function note(key, a, b, c) { v.notes.push(say("note " + key, a, b, c)); }
		v.clash = contradiction(r, t, si);
		if (v.clash) {
			v.is = "unknown";
			v.word = say("word unknown");
			v.text = say("verdict", v.word, v.clash);
			return v;
		}
		if (on && !(on.w >= 0 && sensible(on.w))) {
			needed(v, "machine");
			return settled(v);
		}
		if (p == null) needed(v, "payload");
		if (E == null) needed(v, "empty");
		p = p == null ? 0 : p;
		if (on && on.tongue != null) base = on.tongue;
		else if (!on && T != null && A != null && r[3] != null && r[4] != null) {
			base = T;
			rise = (A - (r[3] + r[4] / 2)) / A;
			// Nobody may pull it with less on the tongue than the least of its band: where an even load
			// puts less there, more of it goes to the front, and the truck must take that.
			if (r[11] > 0 && E != null) {
				other = [portion(r[11], E), r[11]];
				if (!notOver(other[0] + portion(other[1], p), base + portion(rise, p))) {
					other = [base, rise, base = other[0], rise = other[1]];
					note("least", share(r[11]));
				}
			}
		} else if (r[12] > 0 && E != null) {
			base = portion(r[12], E);
			rise = r[12];
			note("tongue", share(r[12]));
		} else needed(v, "tongue");
		if (own == null && t.gvwr != null && t.sticker != null && t.people != null) own = t.gvwr - t.sticker + t.people;
		if (on) placed(v, r, on, si);
		// With a load p, base + rise p comes on it.
		function enter(key, rating, base, rise, unsaid) { lines.push([key, rating, base, rise, unsaid]); }
		function gross(key, rating, more) { if (E != null) enter(key, rating, E + (more || 0), 1); }
		// Both loads of the tongue bound the most that may be on the trailer; the larger one is said.
		function onHitch(key, rating, more) {
			if (base == null) return;
			enter(key, rating, base + (more || 0), rise);
			if (other) enter(key, rating, other[0] + (more || 0), other[1], true);
		}
		function onAxle(key, rating, more, times) {
			if (rating == null || base == null) return;
			enter(key, rating, more + portion(times, base), rise * times);
			if (other) enter(key, rating, more + portion(times, other[0]), other[1] * times, true);
		}

		if (on && r[13] != null) enter("trailer", r[13], 0, 1);
		if (t.tow != null) gross("tow", t.tow);
		if (t.gcwr != null) gross("gcwr", t.gcwr, own || 0);
		if (t.tow == null && (t.gcwr == null || own == null)) needed(v, t.gcwr == null ? "tow" : "weight");
		else if (t.gcwr == null || own == null) note("tow");

		if (t.kind == null) needed(v, "kind");
		else if (!v.clash && r[21] && t.kind != (r[21] == "bumper-pull" ? "receiver" : r[21])) v.clash = say("clash kind", say("kind " + t.kind), say("trailer " + r[21]));
		function rated(key, enter, base, rise) {
			var plain = t[key], spread = t[key + "WD"], over = plain != null && base != null && !notOver(base + portion(rise, p), plain);
			if (wd === false) spread = null;
			if (spread != null && (wd || plain == null || over)) {
				if (!wd) needed(v, "wd");
				return enter(key + "WD", spread);
			}
			if (wd && spread == null && over) return needed(v, key + "WD");
			if (plain == null) return needed(v, key == "tongue" ? "tongue-rating" : key);
			enter(key, plain);
		}
		rated("hitch", gross, E, 1);
		rated("tongue", onHitch, base, rise);
		if (!r[16]) {
			if (t.ball == null) needed(v, "ball");
			else gross("ball", t.ball);
			if (t.size == null && r[22] > 0) needed(v, "size");
			else if (r[22] > 0 && abs(t.size - r[22]) > 0.02) v.clash = v.clash || say("clash ball", inches(r[22]), inches(t.size));
		}
		if (r[20]) {
			if (t.unbraked == null) needed(v, "unbraked");
			else gross("unbraked", t.unbraked);
			l = base + portion(rise, p);
			if (r[5] != null && r[5] > max(3000, 1361 / KG)) {
				needed(v, "state");
				note("unbraked");
			} else if (base != null && E != null && own != null && !notOver((E + p - l) * 5 / 2, own + l)) {
				needed(v, "state");
				note("share", load(E + p - l, si), limit(own + l, si), load((E + p - l) * 5 / 2, si));
			}
		}
		var even = other && other.length > 2 ? other : [base, rise];
		if (base != null && (even[1] < 0 || even[0] < 0)) enter("lift", 0, -even[0], -even[1]);

		var scaled = t.gvwr != null && t.weight != null;
		if (scaled) onHitch("gvwr", t.gvwr, t.weight);
		if (t.sticker != null && (t.people != null || !scaled)) onHitch("sticker", t.sticker, t.people);
		if (!scaled && (t.sticker == null || t.people == null)) {
			needed(v, t.sticker != null ? "people" : t.weight != null ? "gvwr" : t.gvwr > 10000 ? "scale" : "sticker");
		}
		var levered = W != null && t.behind != null, back = rearShare(t), carried = back != null;
		if (carried) {
			onAxle("rear", t.rear, t.rearWeight, back);
			onAxle("tires", t.tires, t.rearWeight, back);
		}
		if (!carried || t.rear == null) note("rear");
		else if (!levered) note("overhang");
		if (t.weight != null && t.rearWeight != null && levered) onAxle("front", t.front, t.weight - t.rearWeight, -(t.behind / W));

		lines.forEach(function (l) {
			var most = l[2] > l[1] ? 0 : l[3] > 0 ? (l[1] - l[2]) / l[3] : null;
			if (!l[4]) limited(v, l[0], say("limit " + l[0]), l[1], l[2] + portion(l[3], p), heavy);
			if (most != null && (v.most == null || most < v.most)) v.most = most;
		});
		if (v.most != null && r[13] != null) v.most = min(v.most, r[13]);
		if (on && on.carried && on.carried.is == "no" && !v.clash && !broken(v)) {
			l = broken(on.carried);
			v.clash = say("clash carried", on.carried.clash || l.label + ", " + l.text);
		}
		if (v.clash) v.most = null;
		settled(v, say(on ? "pulls it" : "pulls it full", heavy(p)));
		if (v.is == "no" && !on && v.most >= 1) v.text += " " + say(v.needs.length ? "not full so far" : "not full", heavy(v.most));

		if (p > 0) note(on ? "counts" : "counts-full", heavy(p));
		if (r[14] != null && t.gvwr < r[14]) note("surge", load(r[14], si), weight(t.gvwr, si));
		if (levered && base != null) {
			l = -((base + portion(rise, p)) * t.behind / W);
			if (l < 0) note("loses", load(-l, si));
			if (l > 0) note("gains", load(l, si));
			if (t.weight != null && t.rearWeight != null && t.weight - t.rearWeight + l < 0) note("lifts");
		}
		l = license(law, max(t.gvwr || 0, own || 0), max(r[5] || 0, E == null ? 0 : E + p), t.onLabel && t.gcwr || 0);
		v.license = l.is;
		v.business = l.business;
		v.licenseKnown = l.is == 2 || t.gvwr != null && r[5] != null;
		if (v.licenseKnown) note(["license-0", "license-1", "license-2"][l.is], load(l.pulls, si), load(l.towed, si), load(l.all, si));
		else note(t.gvwr == null ? "license-truck" : "license-trailer");
		return v;
	}
	// answer is both verdicts for what a customer brings: {m, t}, null where it is not known. With
	// several machines, another order counts where it is the first that fits. A machine with a doubt
	// is questioned (see question).
	function answer(r, list, t, law, si) {
		var o = { m: null, t: null };
		if (list.length) orders(list).some(function (row, i) {
			var v = carry(r, row, si, t);
			if (!i || v.is == "yes") o.m = v;
			return v.is == "yes";
		});
		if (o.m) {
			o.m.doubt = list.map(function (c) { return c.doubt; }).filter(Boolean)[0] || "";
			question(o.m, o.m.doubt);
		}
		if (t) o.t = pullWith(r, t, o.m, o.m && o.m.put, law, si);
		return o;
	}
	function orders(list) {
		return list.length ? [].concat.apply([], list.map(function (c, i) {
			return orders(list.filter(function (_, k) { return k != i; })).map(function (rest) { return [c].concat(rest); });
		})) : [[]];
	}
	// pullWith is pull with the machines of a verdict of carry at these places.
	function pullWith(r, t, m, sets, law, si) {
		var set = null, v;
		if (m && m.w != null) {
			set = loaded(r, sets);
			set.w = m.w;
			if (!sets.length) set.tongue = set.stand = null;
			set.carried = m;
		}
		v = pull(r, t, set, law, si);
		return v.is == "no" || !m ? v : question(v, m.doubt);
	}

	// oracle/fits.go
	function fits(size, barn, si) {
		var v = { needs: [], limits: [], notes: [] };
		BARN.forEach(function (key, i) {
			if (!(barn[key] > 0)) needed(v, key);
			else if (!(size[i] > 0)) {
				if (i < 2 || !(size[3] > 0)) needed(v, "over-" + key);
				else if (notOver(size[3], barn.deep)) needed(v, "over-deep-worked");
				else limited(v, key, say("limit " + key), barn.deep, size[3], lengths(si));
			} else limited(v, key, say("limit " + key), barn[key], size[i], lengths(si));
		});
		settled(v, say("goes in"));
		var over = v.limits.filter(function (l) { return l.over; }).map(function (l) { return l.label + ", " + l.text; });
		if (over[1]) v.text = say("verdict", v.word, over.join(say("and")));
		return v;
	}
	var BARN = ["wide", "high", "deep"];

	// license.go
	function license(law, pulls, towed, label) {
		var all = max(pulls + towed, towed > 0 ? label : 0);
		return { is: all >= law[0] && towed > law[1] ? 2 : pulls >= law[2] ? 1 : 0, business: all >= law[3], pulls: pulls, towed: towed, all: all };
	}

	// What is asked of a truck: its key, its unit, how much it matters, the least it can be.
	var ASKED = [
		["gvwr", "lb", "need", 1], ["sticker", "lb", "need", 1], ["people", "lb", "need", 75],
		["tow", "lb", "need", 1], ["gcwr", "lb", "better", 1], ["kind", "kind", "need"], ["hitch", "lb", "need", 1], ["tongue", "lb", "need", 1],
		["ball", "lb", "need", 1], ["size", "in", "need", 1], ["wd", "yes", "more"], ["hitchWD", "lb", "more", 1], ["tongueWD", "lb", "more", 1],
		["rear", "lb", "better", 1], ["weight", "lb", "better", 1], ["rearWeight", "lb", "better", 0], ["tires", "lb", "more", 1],
		["base", "in", "more", 1], ["behind", "in", "more"], ["unbraked", "lb", "more", 1]
	];

	return {
		ASKED: ASKED, KINDS: KINDS, NAMES: NAMES, KG: KG, MM: MM, say: say, read: read, unit: unit,
		machine: machine, spots: spots, spotText: spotText, bear: bear, held: held, loaded: loaded, climb: climb, carry: carry, pull: pull, answer: answer, pullWith: pullWith, fits: fits, BARN: BARN, doubt: doubt, question: question,
		weight: weight, limit: limit, load: load, length: length, atLeast: atLeast, atMost: atMost, share: share, stretch: stretch, near: near, trimmed: trimmed,
		window: window, windowText: windowText, marginText: marginText
	};
})();
