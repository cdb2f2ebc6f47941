// A trailer's page: the answers for what a customer brings (bring.js), the machine on the deck,
// and the bar. The arithmetic is in statics.js, which comes when the page is idle.
(function () {
	"use strict";
	var byId = function (id) { return document.getElementById(id); };
	var box = byId("try"), says = byId("bar-says"), U = window.units;

	// ---- the bar

	function copy(text, done, failed) {
		if (!navigator.clipboard) return failed();
		navigator.clipboard.writeText(text).then(done, failed);
	}
	function tell(text) { says.textContent = text; }
	var words = says.parentNode.dataset;
	if (byId("street")) byId("street").onclick = function () {
		var s = this.value;
		copy(s, function () { tell(words.copied.replace("{1}", s)); }, function () { tell(s); });
	};
	byId("share").onclick = function () {
		var url = window.Bring ? window.Bring.address() : location.href;
		if (navigator.share) return void navigator.share({ title: document.title, url: url }).catch(function () { /* put away */ });
		copy(url, function () { tell(words.shared); }, function () { tell(words.failed); });
	};
	function script(src, then, failed) {
		var s = document.createElement("script");
		s.src = src;
		s.onload = then;
		s.onerror = failed;
		document.head.appendChild(s);
	}
	var idle = window.requestIdleCallback || function (f) { setTimeout(f, 300); };
	function later(f) { window.addEventListener("load", function () { idle(f, { timeout: 2000 }); }); }
	// The script that keeps the page on a phone shows the button where it can work.
	if (byId("save")) later(function () { script(byId("save").dataset.keep); });
	if (!box) return;

	var data = box.dataset, R = JSON.parse(data.rig), law = JSON.parse(data.law), deck = byId("deck"), B, S, wrong = {};
	function missing() { byId("mine-is").textContent = data.missing; }
	window.addEventListener("online", begin);
	function begin(then) {
		if (S) return then && then.call && then();
		function go() {
			B = window.Bring;
			B.start([data.statics, data.machines], function () {
				var first = !S;
				S = window.Statics;
				if (first) all();
				if (then && then.call) then();
			}, missing);
		}
		if (window.Bring) go(); else script(data.bring, go, missing);
	}
	later(begin);

	// ---- the answers

	function verdict(into, v) {
		into.textContent = "";
		if (!v) return;
		B.make("b", into, v.word, { "class": "is-" + v.is });
		into.appendChild(document.createTextNode(v.text.slice(v.word.length)));
	}
	function spaced(text) {
		text = text.replace(/\bgvwr\b/g, "GVWR");
		return data.space == "deck" ? text : text.replace(/\bdeck\b/g, data.space);
	}
	function all() {
		machine();
		truck();
	}
	var sets = [], carried;
	function machine() {
		var c = B.machine();
		B.label(byId("mine"), "m", "bring machine");
		carried = c && !wrong.m ? S.carry(R, [c], U.si) : null;
		if (carried) carried.text = spaced(carried.text);
		verdict(byId("mine-is"), carried);
		if (!carried) byId("mine-is").textContent = wrong.m ? "" : S.say("bring say machine");
		place(c);
	}
	function truck() {
		var t = B.state.t, out = byId("truck-is"), notes = byId("truck-notes"), v;
		B.label(byId("mytruck"), "t", "bring truck");
		notes.textContent = "";
		if (!t || wrong.t) return void (out.textContent = wrong.t ? "" : S.say("bring say truck"));
		v = S.pull(R, t, sets.length ? S.loaded(R, sets) : null, law, U.si);
		verdict(out, v);
		v.notes.forEach(function (n) { B.make("li", notes, n); });
	}
	var tickets = [["mine", "m"], ["mytruck", "t"]];
	function told(which, bad) {
		wrong[which] = bad;
		all();
	}
	tickets.forEach(function (x) {
		byId(x[0]).querySelector(".change").onclick = function () {
			begin(function () { B.open(byId(x[0]), x[1], told, all); });
		};
	});
	document.addEventListener("brought", function () { if (S) all(); });
	document.addEventListener("units", function () {
		if (!S) return;
		all();
		tickets.forEach(function (x) { B.again(byId(x[0]), x[1], told); });
	});

	// ---- set it on the deck

	// Silhouettes in a box of 100 by 60, the front at the left. They are sketches, not to be measured.
	var SHAPES = {
		"skid steer": "M0 58h14v-8h8V22h6V4h34v18h14v22h6v14H24l-6-4H0zM34 10v14h20V10z", "track loader": "M0 58h12v-8h8V24h6V4h34v20h20v14h14v20H22l-4-4H0zM32 10v14h20V10z",
		excavator: "M0 58V40L22 6h8l14 20V8h26v20h24v12h6v18H36V44h-8L24 18 10 42v16z", tractor: "M4 58V34h30l4-26h30v26h12v-4h14v28zM44 14l-2 18h18V14z",
		car: "M2 50V38l18-6 16-16h34l16 18 12 4v12z", pickup: "M2 50V36l18-4 12-16h24v18h42v16z", boat: "M0 22h96l4 4-8 26H22z", freight: "M2 58V14h96v44z"
	};
	var svg = document.querySelector(".drawing svg[data-deck]"), P, wide, high, one, grab, strip, feet;
	if (svg) {
		P = svg.getAttribute("data-deck").split(" ").map(Number);
		wide = svg.viewBox.baseVal.width;
		high = svg.viewBox.baseVal.height;
	}
	function across(inches) { return (P[0] + inches * P[1]) / wide * 100; }
	function percent(e, left, w) {
		e.style.left = left + "%";
		e.style.width = w + "%";
	}
	function build() {
		var holder = svg.parentNode;
		strip = B.make("div", holder, "", { "class": "strip", "aria-hidden": "true" });
		grab = B.make("div", holder, "", { "class": "grab", role: "slider", tabindex: "0", "aria-label": S.say("deck slide"), "aria-orientation": "horizontal" });
		grab.innerHTML = '<svg viewBox="0 0 100 60" preserveAspectRatio="none" aria-hidden="true"><path fill-rule="evenodd"/></svg>';
		strip.style.top = P[2] / high * 100 + "%";
		feet = B.make("dl", deck, "", { "class": "feet" });
		var line = B.make("p", deck, "", { "class": "turn" });
		B.make("button", line, S.say("deck best"), { type: "button", "class": "do", id: "best" }).onclick = function () { moved(one.best); };
		B.make("button", line, "\u2190 " + S.say("deck forward"), { type: "button" }).onclick = function () { moved(one.x - 3); };
		B.make("button", line, S.say("deck back") + " \u2192", { type: "button" }).onclick = function () { moved(one.x + 3); };
		B.make("p", deck, "", { id: "deck-is", role: "status" });
		B.make("p", deck, S.say("deck drag"), { "class": "hint" });
		grab.addEventListener("keydown", function (e) {
			var by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageUp: 12, PageDown: -12 }[e.key];
			if (e.key == "Home") by = -one.x;
			if (e.key == "End") by = R[4];
			if (by == null) return;
			e.preventDefault();
			moved(one.x + by);
		});
		var from;
		grab.addEventListener("pointerdown", function (e) {
			from = { x: e.clientX, at: one.x };
			grab.setPointerCapture(e.pointerId);
			e.preventDefault();
			grab.focus({ preventScroll: true });
		});
		grab.addEventListener("pointermove", function (e) {
			if (from) moved(from.at + (e.clientX - from.x) * wide / svg.getBoundingClientRect().width / P[1]);
		});
		["pointerup", "pointercancel"].forEach(function (k) { grab.addEventListener(k, function () { from = null; }); });
	}
	function place(c) {
		sets = [];
		if (!deck || !P) return;
		var can = c && !wrong.m && R[0] != null && R[1] != null && R[2] != null && R[4] > 0;
		deck.hidden = !can;
		if (grab) grab.hidden = strip.hidden = !can;
		if (!can) return;
		if (!grab) build();
		var spots = S.spots(R, c, []), spot = spots[0], free = Math.max(R[4] - c.L, 0), keep = one && one.L == c.L && one.w == c.w && one.a == c.a;
		var best = spot.is == "no" ? free / 2 : Math.round((spot.first + spot.last) / 2);
		if (!isFinite(best)) best = (spot.from + spot.to) / 2 || 0;
		c.best = best;
		c.x = keep ? one.x : best;
		one = c;
		strip.textContent = "";
		percent(strip, across(0), across(R[4]) - across(0));
		spots.forEach(function (s) {
			if (s.is == "no") return;
			var a = Math.max(s.from, 0) / R[4] * 100, g = B.make("i", strip);
			percent(g, a, Math.max(s.to / R[4] * 100 - a, 1));
		});
		grab.querySelector("path").setAttribute("d", SHAPES[c.shape] || SHAPES.freight);
		grab.classList.toggle("backed", c.rear);
		var tall = Math.min(c.L * .6, 84) * P[1] / high * 100;
		grab.style.height = tall + "%";
		grab.style.top = P[2] / high * 100 - tall + "%";
		grab.setAttribute("aria-valuemin", 0);
		grab.setAttribute("aria-valuemax", Math.ceil(free));
		moved(one.x);
	}
	var paints;
	function moved(x) {
		one.x = Math.max(0, Math.min(x, Math.max(R[4] - one.L, 0)));
		sets = [one];
		if (paints) return;
		paints = requestAnimationFrame(function () {
			paints = 0;
			paint();
			truck();
		});
	}
	function paint() {
		var b = S.bear(R, sets), si = U.si, over = b.margins.filter(function (m) { return m.over; });
		percent(grab, across(one.x), one.L * P[1] / wide * 100);
		grab.classList.toggle("bad", !b.keeps);
		strip.classList.toggle("bad", !b.keeps);
		var at = spaced(S.say("deck here", one.head, S.length(Math.round(one.x), si), "deck"));
		grab.setAttribute("aria-valuenow", Math.round(one.x));
		grab.setAttribute("aria-valuetext", at);
		feet.textContent = "";
		function foot(name, text, bys) {
			var bad = over.some(function (m) { return bys.indexOf(m.by) >= 0; }), d = B.make("div", feet, "", bad ? { "class": "bad" } : {});
			B.make("dt", d, "\u2191 " + name);
			B.make("dd", d, text);
		}
		foot(S.say("deck hitch"), S.load(b.tongue, si) + ", " + S.share(b.share), [5, 6, 7]);
		foot(S.say("deck axles"), S.load(b.axles, si), [8, 9, 10]);
		byId("deck-is").textContent = at + ". " + (b.keeps ? S.say("deck keeps") : S.say("deck over", over.map(function (m) { return spaced(S.NAMES[m.by]); }).join(", "))) + ".";
	}
})();
