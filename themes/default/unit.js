// What a customer tries on a trailer's page: a machine on its deck, a truck in front of it.
// The fields come when they are asked for; the arithmetic is in statics.js, loaded with
// them. The truck's numbers stay on this phone, under the same key as the yard page's;
// units.js keeps the choice of units.
(function () {
	"use strict";
	var box = document.getElementById("try");
	if (!box) return;
	var data = box.dataset, R = JSON.parse(data.rig), law = JSON.parse(data.law), KEEP = "tarepage-truck", U = window.units, S, si, at = {};
	var byId = function (id) { return document.getElementById(id); };

	function make(tag, into, text, attributes) {
		var e = document.createElement(tag);
		if (text) e.textContent = text;
		for (var k in attributes) e.setAttribute(k, attributes[k]);
		if (into) into.appendChild(e);
		return e;
	}
	function stored(key) { try { return JSON.parse(localStorage.getItem(key)); } catch (e) { return null; } }
	function store(key, v) {
		try { if (v == null) localStorage.removeItem(key); else localStorage.setItem(key, JSON.stringify(v)); } catch (e) { /* a phone that keeps nothing */ }
	}
	function load(paths, then, failed) {
		if (!paths.length) return then();
		var s = make("script", null, "", { src: paths[0] });
		s.onload = function () { load(paths.slice(1), then, failed); };
		s.onerror = failed;
		document.head.appendChild(s);
	}
	// A tap that opens a section is answered in the next frame; what it asks for comes after.
	function ready(into, then) {
		requestAnimationFrame(function () {
			setTimeout(function () {
				if (S) return then();
				load([data.statics, data.machines], function () { S = window.Statics; si = U.si; then(); },
					function () { say(into, "It did not load. Try again when you have signal."); });
			});
		});
	}
	function say(into, text) { (into.querySelector("[role=status]") || make("p", into, "", { role: "status" })).textContent = text; }
	// A number as it is typed. value() makes it pounds or inches, whichever system is chosen.
	function amount(text) {
		var n = parseFloat(String(text).replace(/[,\s]/g, "").replace(/^[\u2212\u2013]/, "-"));
		return isFinite(n) ? n : null;
	}
	var PER = { lb: [1, 1 / 0.45359237, "lb", "kg"], ft: [12, 1000 / 25.4, "ft", "m"], in: [1, 1 / 25.4, "in", "mm"] };
	function field(into, id, name, unit, hint) {
		var l = make("label", into), i;
		make("span", l, name, { "data-name": name, "data-unit": unit });
		i = make("input", l, "", { id: id, inputmode: "decimal", autocomplete: "off" });
		if (hint) make("small", l, hint);
		i.unit = unit;
		return i;
	}
	// What was not typed over is still exactly what it was, whatever is shown of it.
	function value(i) {
		var n = amount(i.value);
		return i.value === i.shown ? i.exact : n == null ? null : n * PER[i.unit][si ? 1 : 0];
	}
	function put(i, v) {
		i.exact = v;
		i.shown = i.value = v == null ? "" : String(Math.round(v / PER[i.unit][si ? 1 : 0] * 100) / 100);
	}
	function name() {
		[].forEach.call(box.querySelectorAll("[data-unit]"), function (s) {
			s.textContent = s.dataset.name + ", " + PER[s.dataset.unit][si ? 3 : 2];
		});
	}
	function units(into) {
		make("button", into, "", { type: "button", "class": "units" });
		U.label();
	}
	document.addEventListener("units", function () {
		if (!S) return;
		var list = [].slice.call(box.querySelectorAll("input[inputmode]")), were = list.map(value);
		si = U.si;
		name();
		list.forEach(function (i, k) { put(i, were[k]); });
		about();
		machine();
		truck();
	});
	function about() {
		var m = at.pick && window.MACHINES[at.pick.value];
		if (at.pick) at.about.textContent = m ? "This class weighs " + S.weight(m[1], si) + " to " + S.weight(m[3], si) + ". Read yours off its plate." : "";
		return m;
	}
	function row(table, cells, over) {
		var r = make("tr", table, "", over ? { "class": "over" } : {});
		make("th", r, cells[0], { scope: "row" });
		make("td", r, cells[1]);
		return r;
	}
	function spoken(text) { return text.replace(/deck's/g, data.space + "'s"); }

	// ---- my machine

	var mine = byId("mine"), stands;
	function machine() {
		if (!at.w) return;
		var w = value(at.w), L = value(at.l), out = byId("mine-is"), table = byId("mine-table"), o, s;
		table.textContent = at.field.textContent = "";
		stands = null;
		paint();
		byId("mine-at").hidden = true;
		if (!(w > 0) || !(L > 0)) return void (out.textContent = "Fill in its weight and its length.");
		o = S.window(R, w, L);
		if (!o.room) return void (out.textContent = spoken(S.windowText(o, si)).replace(/^n/, "N") + ".");
		byId("mine-at").hidden = false;
		if (at.for != w + " " + L) {
			at.for = w + " " + L;
			put(at.x, (o.first + o.last) / 2);
		}
		var x = value(at.x);
		if (x == null) x = (o.first + o.last) / 2;
		at.slide.min = Math.floor(L / 2);
		at.slide.max = Math.ceil(R[4] - L / 2);
		at.slide.value = x;
		s = S.stand(R, w, L, x);
		out.textContent = "Center it " + spoken(S.windowText(o, si)) + ". Where it is now, it is " +
			(s.keeps ? "within every limit on file for this trailer" : "over a limit, see below") + ": " + S.weights(R, w, L, x, si) + ".";
		at.field.innerHTML = S.field(R, w, L, x, si);
		row(table, ["On the truck", s.tongue < 0 ? "lifts the hitch by " + S.load(-s.tongue, si) : S.load(s.tongue, si) + ", " + S.share(s.share)]);
		row(table, ["On the axles", S.load(s.axles, si)]);
		s.margins.forEach(function (m) { row(table, ["Left before " + spoken(S.NAMES[m.by]), S.marginText(m, si)], m.over); });
		stands = { w: w, s: s };
		paint(o, L, x);
	}
	// paint shows on the drawing where the middle of the load can be, and where it is.
	function paint(o, L, x) {
		var svg = document.querySelector("svg[data-deck]"), p, old = svg && svg.querySelector(".el-try");
		if (old) old.remove();
		if (!svg || !o) return;
		p = svg.getAttribute("data-deck").split(" ").map(Number);
		function px(v) { return p[0] + v * p[1]; }
		var g = document.createElementNS(svg.namespaceURI, "g");
		g.setAttribute("class", "el-try");
		[["el-room", px(o.first), p[2] - 14, Math.max(px(o.last) - px(o.first), 4), 14], ["el-load", px(x - L / 2), p[2] - 84, L * p[1], 70], ["el-mid", px(x) - 2, p[2] - 84, 4, 84]].forEach(function (r) {
			var e = document.createElementNS(svg.namespaceURI, "rect");
			e.setAttribute("class", r[0]);
			["x", "y", "width", "height"].forEach(function (k, i) { e.setAttribute(k, r[i + 1].toFixed(1)); });
			g.appendChild(e);
		});
		svg.appendChild(g);
	}
	mine.addEventListener("toggle", function () {
		if (!mine.open || at.w) return;
		ready(mine, function () {
			var l = make("label", mine, "Common machines"), pick = make("select", l, "", { id: "m-kind" });
			at.pick = pick;
			make("option", pick, "not listed", { value: "" });
			window.MACHINES.forEach(function (m, k) { make("option", pick, m[0], { value: k }); });
			at.about = make("p", mine);
			at.w = field(mine, "m-w", "Weight", "lb", "with bucket, fuel and attachments; go by the machine's own plate");
			at.l = field(mine, "m-l", "Length on the deck", "ft");
			var where = make("div", mine, "", { id: "mine-at" });
			at.x = field(where, "m-x", "From the front of the " + data.space + " back to its middle", "ft");
			at.slide = make("input", where, "", { type: "range", step: 1, "aria-label": "Slide it along the " + data.space });
			units(mine);
			make("p", mine, "", { id: "mine-is", role: "status" });
			at.field = make("div", mine);
			make("table", mine, "", { id: "mine-table" });
			pick.onchange = function () {
				var m = about();
				if (m) { put(at.w, m[2]); put(at.l, m[4] * 12); }
				machine();
				truck();
			};
			[at.w, at.l, at.x].forEach(function (i) { i.addEventListener("input", function () { machine(); truck(); }); });
			at.slide.addEventListener("input", function () { put(at.x, +at.slide.value); machine(); truck(); });
			name();
			machine();
		});
	});

	// ---- my truck

	var mytruck = byId("mytruck"), inputs = null;
	var LEADS = { trailer: "carries", gcwr: "t-gcwr", hitch: "t-hitch", ball: "t-ball", "truck-gvwr": "t-gvwr", "hitch-tongue": "t-tongue", "rear-axle": "t-rear", "front-axle": "t-behind", "hitch-lift": "try" };
	function truck() {
		if (!inputs) return;
		var out = byId("truck-is"), table = byId("truck-table"), notes = byId("truck-notes"), t = {}, any = false, m, l;
		S.TRUCK.forEach(function (f) {
			var v = value(inputs[f[0]]);
			if (v != null && (f[0] == "behind" || v > 0)) { t[f[0]] = v; any = true; }
		});
		store(KEEP, any ? t : null);
		byId("forget").hidden = !any;
		table.textContent = notes.textContent = "";
		if (!any) return void (out.textContent = "Fill in what you know. The answer says which numbers are missing.");
		m = S.match(stands ? S.laden(R, stands.w, stands.s) : R, t, law, si);
		l = m.limits[0];
		if (m.why) return void (out.textContent = m.why.replace(/^./, function (c) { return c.toUpperCase(); }) + ".");
		var lacks = m.missing.length ? " Not checked, because the number is missing: " + m.missing.join(", ") + "." : "";
		out.textContent = !stands ? "By the numbers you gave: " + m.text.replace(/; incomplete.*/, "") + "." + lacks :
			m.over ? "With your machine where it is now, this is over " + l.label + " by " + S.load(-l.margin, si) + "." + lacks :
			(stands.s.keeps ? "With your machine where it is now, this is within every truck limit you gave. The closest is " + l.label + "." :
				"First move your machine: where it is now, the trailer is over a limit of its own (see above). The truck is within every limit you gave.") + lacks;
		m.limits.forEach(function (l, k) {
			// With a machine on it nothing more is loaded; without one, the most that can be.
			var margin = stands && !l.empty ? l.rating - l.used + l.rise * m.most : l.margin;
			var tr = row(table, ["", margin < 0 ? S.load(-margin, si) + " over" : S.limit(margin, si) + " left"], margin < 0), th = tr.firstChild;
			make("a", th, l.label, { href: "#" + (LEADS[l.name] || "try") });
			if (!k) make("span", th, stands ? " closest" : " governs", { "class": "mark" });
		});
		m.notes.concat("License: " + (m.licenseKnown ? S.LICENSES[m.license] : "fill in the truck's GVWR; your state decides"),
			m.business ? "If you tow for business, federal carrier rules may apply to this truck and trailer; ask your state" : []).forEach(function (n) {
			make("li", notes, n.charAt(0).toUpperCase() + n.slice(1) + ".");
		});
	}
	mytruck.addEventListener("toggle", function () {
		if (!mytruck.open || inputs) return;
		ready(mytruck, function () {
			var kept = stored(KEEP) || {};
			inputs = {};
			units(mytruck);
			S.TRUCK.forEach(function (f) {
				var i = inputs[f[0]] = field(mytruck, "t-" + f[0], f[1], f[2], f[3]);
				if (f[0] == "behind") i.inputMode = "text";
				put(i, kept[f[0]]);
				i.addEventListener("input", truck);
			});
			make("button", mytruck, "Forget my truck", { type: "button", id: "forget", "class": "drop" }).onclick = function () {
				for (var k in inputs) inputs[k].value = "";
				truck();
				byId("truck-is").focus();
			};
			make("p", mytruck, "", { id: "truck-is", role: "status", tabindex: -1 });
			make("table", mytruck, "", { id: "truck-table" });
			make("ul", mytruck, "", { id: "truck-notes" });
			name();
			truck();
		});
	});
})();
