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
	// The script that keeps the page on a phone comes with the first tap, or where something is kept.
	var save = byId("save");
	if (save && navigator.serviceWorker && window.caches && /^http/.test(location.protocol)) {
		save.hidden = false;
		save.onclick = function () { script(save.dataset.keep, function () { save.click(); }, function () { tell(words.failed); }); };
		later(function () { window.caches.has("lot-chosen").then(function (is) { if (is) script(save.dataset.keep); }); });
	}
	// A mouse cannot swipe: next to it the photos have buttons, and the last is followed by the first.
	var reel = document.querySelector(".reel"), many = reel && reel.children.length;
	if (many > 1 && matchMedia("(hover: hover)").matches) [["left", "\u2190", many - 1], ["right", "\u2192", 1]].forEach(function (x) {
		var b = document.createElement("button");
		b.type = "button";
		b.className = "scripted";
		b.textContent = x[1];
		b.setAttribute("aria-label", x[1] + " " + reel.getAttribute("aria-label"));
		reel.parentNode.style.position = "relative";
		b.style.cssText = "position:absolute;top:42%;" + x[0] + ":.5rem;width:48px;height:48px;border:0;border-radius:3px;font:700 1.5rem sans-serif;background:#1d2228;color:#fff;cursor:pointer";
		b.onclick = function () { reel.scrollLeft = (Math.round(reel.scrollLeft / reel.clientWidth) + x[2]) % many * reel.clientWidth; };
		reel.parentNode.appendChild(b);
	});
	if (!box) return;

	var data = box.dataset, R = JSON.parse(data.rig), size = R.splice(33), deck = byId("deck"), B, S, wrong = {};
	// The machine's ticket has notes as the truck's does, and the barn's ticket is like the truck's.
	var mineNotes = byId("truck-notes").cloneNode();
	mineNotes.id = "mine-notes";
	byId("mine-is").after(mineNotes);
	var barn = byId("mytruck").cloneNode(true);
	barn.id = "barn";
	barn.querySelector("ul").remove();
	[].forEach.call(barn.querySelectorAll("[id]"), function (e) { e.id = e.id.replace("truck", "barn"); });
	barn.querySelector(".change").setAttribute("aria-controls", "barn-form");
	barn.querySelector("span").textContent = "";
	// The style keeps space for the barn's ticket within the truck's, until it is there.
	if (document.documentElement.matches(".known-t")) byId("mytruck").style.minHeight = "20rem";
	byId("mytruck").after(barn);
	function missing() { byId("mine-is").textContent = data.missing; }
	window.addEventListener("online", begin);
	// Whoever comes while the scripts load waits for them: a second copy of bring.js would have a
	// state of its own. Several taps on a ticket are one.
	var loading, waiting = [];
	function begin(then) {
		if (S) return then && then.call && then();
		if (then && then.call) waiting.push(then);
		if (loading) return;
		loading = true;
		function failed() {
			loading = false;
			waiting = [];
			tickets.forEach(function (x) { x[2] = false; });
			missing();
		}
		function go() {
			B = window.Bring;
			B.start([data.statics, data.machines], function () {
				S = window.Statics;
				all();
				waiting.splice(0).forEach(function (w) { w(); });
			}, failed);
		}
		if (window.Bring) go(); else script(data.bring, go, failed);
	}
	later(begin);

	// ---- the answers

	function verdict(into, v) {
		into.textContent = "";
		if (!v) return;
		B.make("b", into, v.word, { "class": "is-" + v.is });
		into.appendChild(document.createTextNode(v.text.slice(v.word.length)));
	}
	// What cannot be read takes the answer away, and says so in its place.
	function unread(problem) {
		var word = S.say("word unknown");
		return { is: "unknown", word: word, text: word + ": " + problem };
	}
	function spaced(text) {
		return data.space == "deck" ? text : text.replace(/\bdeck\b/g, data.space);
	}
	function all() {
		B.label(byId("mytruck"), "t", "bring truck");
		machine();
		truck();
		B.label(byId("barn"), "b", "bring barn");
		var b = wrong.b ? null : B.state.b;
		verdict(byId("barn-is"), wrong.b ? unread(wrong.b) : b && S.fits(size, b, U.si));
		if (!b && !wrong.b) byId("barn-is").textContent = S.say("bring say barn");
	}
	var sets = [], carried;
	// unreadable is what cannot be read of the machines, or "".
	function unreadable() { return B.MACHINES.map(function (k) { return wrong[k]; }).filter(Boolean)[0] || ""; }
	function machine() {
		var list = B.machines(wrong), notes = mineNotes;
		B.label(byId("mine"), "m", "bring machine");
		carried = S.answer(R, list, wrong.t ? null : B.state.t, window.LAW, U.si).m;
		place(list.filter(function (c) { return c.w; }));
		// What is over or not holds for the best place: the words below the deck tell of where it is.
		if (carried && sets.length && carried.is == "unknown" && !carried.doubt) carried.text = S.say("deck so far", carried.word, needs(carried));
		if (carried) carried.text = spaced(carried.text);
		verdict(byId("mine-is"), unreadable() ? unread(unreadable()) : carried);
		notes.textContent = "";
		if (carried) carried.notes.forEach(function (n) { B.make("li", notes, n); });
		if (!carried && !wrong.m) byId("mine-is").textContent = S.say("bring say machine");
	}
	function needs(v) { return v.needs.map(function (n) { return n.text; }).join(S.say("and")); }
	// pull is the truck's answer with the machines where they are. Where they keep the limits only if
	// their center is where the table says, it is not a yes, and a no tells of a place without one.
	function pull(t) {
		function at(x) { return S.pullWith(R, t, carried, x, window.LAW, U.si); }
		var v = at(sets.length ? sets : carried && carried.put);
		if (!sets.length) return v;
		if (v.is == "yes" && here() != "yes") return S.question(v, S.say("deck close"));
		if (v.is == "no" && at(carried.put).is != "no") v.notes.unshift(S.say("deck elsewhere"));
		if (v.is == "unknown" && v.needs[0] && !S.bear(R, sets).keeps) v.text = S.say("verdict unknown", v.word, needs(v));
		return v;
	}
	// While a machine is dragged the answer is worked out in each frame, and written where it changes.
	var answered, pulled;
	function truck() {
		var t = B.state.t, out = byId("truck-is"), notes = byId("truck-notes"), bad = wrong.t || t && unreadable(), v = null, now;
		if (t && !bad) v = pull(t);
		// What both answers need is said once.
		if (v && carried && v.is == "unknown" && carried.is == "unknown" && v.needs[0] && needs(v) == needs(carried)) v.text = S.say("verdict unknown", v.word, S.say("need same"));
		// The truck has an answer of its own, whatever the machine is.
		if (v && carried) v.notes.unshift(S.say("note alone", S.pull(R, t, null, window.LAW, U.si).text));
		pulled = v;
		now = JSON.stringify([v && v.text, v && v.notes, bad, B.text("t")]);
		if (v) v.text = spaced(v.text);
		if (now == answered) return;
		answered = now;
		notes.textContent = "";
		if (bad) return verdict(out, unread(bad));
		if (!v) return void (out.textContent = S.say("bring say truck"));
		verdict(out, v);
		v.notes.forEach(function (n) { B.make("li", notes, n); });
	}
	var tickets = [["mine", "m"], ["mytruck", "t"], ["barn", "b"]];
	function told(which, bad) {
		wrong[which] = bad;
		all();
	}
	tickets.forEach(function (x) {
		byId(x[0]).querySelector(".change").onclick = function () {
			if (!S && x[2]) return;
			x[2] = true;
			begin(function () { B.open(byId(x[0]), x[1], told, all); });
		};
	});
	if (window.tapped) window.tapped.querySelector(".change").click();
	document.addEventListener("brought", function () { if (S) all(); });
	document.addEventListener("units", function () {
		if (!S) return;
		all();
		tickets.forEach(function (x) { B.again(byId(x[0]), x[1], told); });
	});

	// ---- set it on the deck

	// grabs has a handle for each machine of sets, by its key of Bring; picked is the one that the
	// buttons move.
	// P has, in units of the drawing: where the deck begins, an inch, the heights of the floor, the
	// ground and the trailer's top, and where a fixed dovetail begins and how high its end is. above is the top of what is shown, high how much.
	var svg = document.querySelector(".drawing svg[data-deck]"), P, wide, full, above, high, grabs = {}, picked, strip, feet, climbs, others = { n: "second", o: "third", p: "fourth" };
	if (svg) {
		P = svg.getAttribute("data-deck").split(" ").map(Number);
		wide = svg.viewBox.baseVal.width;
		full = svg.viewBox.baseVal.height;
	}
	// A silhouette is as high as is usual for its length, or less, so that the drawing keeps its height.
	function tall(c) { return Math.min(Math.min(c.L * .6, 84) * P[1], Math.max(c.L * .3 * P[1], P[2] - P[3] - 14 + full - MEASURE)); }
	// While a machine is on the deck there are no dimension lines but that of its place, MEASURE high.
	// Their place below the ground goes to the machine.
	var MEASURE = 60;
	function frame(list) {
		var end = list.length ? P[3] + 14 : full;
		above = list.length ? Math.min(end - full, P[4] - 12) : 0;
		list.forEach(function (c) { above = Math.min(above, P[2] - tall(c) - MEASURE); });
		high = end - above;
		svg.setAttribute("viewBox", [0, above, wide, high].join(" "));
	}
	// On paper it has its dimensions again.
	window.addEventListener("beforeprint", function () { if (P) frame([]); });
	window.addEventListener("afterprint", function () { if (P) frame(sets); });
	function down(y) { return (y - above) / high * 100 + "%"; }
	function across(inches) { return P[0] + inches * P[1]; }
	// surface is the deck between two places on it, as a line that falls with a fixed dovetail.
	function surface(from, to) {
		var end = across(R[4]), a = across(from), b = across(to);
		function at(x) { return x + " " + (P[2] + 7 + (x > P[5] ? (P[6] - P[2]) * (x - P[5]) / (end - P[5]) : 0)); }
		return "M" + at(a) + (a < P[5] && P[5] < b ? "L" + at(P[5]) : "") + "L" + at(b);
	}
	function part(of, name, mark) { return of.appendChild(document.createElementNS(svg.namespaceURI, name)).setAttribute("class", mark), of.lastChild; }
	// named begins a sentence about one of several machines.
	function named(c) { return sets[1] ? B.text(c.key).split(",")[0] + ": " : ""; }
	function setOf(key) { return sets.filter(function (c) { return c.key == key; })[0]; }
	var base, maybe, good, measured, at, dragged;
	function build() {
		strip = part(svg, "g", "strip");
		base = part(strip, "path", "");
		maybe = part(strip, "path", "close");
		good = part(strip, "path", "yes");
		maybe.style.stroke = "var(--amber)";
		good.style.stroke = "var(--green)";
		measured = part(strip, "path", "measured");
		at = part(strip, "text", "el-dim-text");
		at.setAttribute("font-size", 39.6);
		feet = B.make("dl", deck, "", { "class": "feet" });
		var line = B.make("p", deck, "", { "class": "turn" });
		function button(text, attributes, f) {
			attributes.type = "button";
			B.make("button", line, text, attributes).onclick = f;
		}
		button(S.say("deck best"), { "class": "do", id: "best" }, function () {
			sets.forEach(function (c) { c.x = c.best; });
			dragged = false;
			moved();
		});
		button("\u2190 " + S.say("deck forward"), {}, function () { move(picked, setOf(picked).x - 3); });
		button(S.say("deck back") + " \u2192", {}, function () { move(picked, setOf(picked).x + 3); });
		B.make("p", deck, "", { id: "deck-is", role: "status" });
		climbs = B.make("ul", deck, "", { "class": "truck-notes", id: "climb" });
		Object.keys(others).forEach(function (k) {
			var id = others[k], ticket = B.make("div", deck, "", { "class": "bring second", id: id });
			line = B.make("p", ticket, "", { "class": "what" });
			B.make("span", line);
			button("", { "class": "change", "aria-expanded": "false", "aria-controls": id + "-form" }, function () { B.open(ticket, k, told, all); });
			B.make("div", ticket, "", { id: id + "-form" }).hidden = true;
			tickets.push([id, k]);
		});
		B.make("p", deck, S.say("deck drag"), { "class": "hint" });
	}
	function handle(key) {
		var grab = B.make("div", svg.parentNode, "", { "class": "grab", role: "slider", tabindex: "0", "aria-label": S.say(key == "m" ? "deck slide" : "deck slide another"), "aria-orientation": "horizontal" }), from;
		grab.innerHTML = '<svg viewBox="0 0 100 60" preserveAspectRatio="none" aria-hidden="true"><path fill-rule="evenodd"/></svg>';
		grab.onfocus = function () {
			if (picked == key) return;
			picked = key;
			moved();
		};
		grab.onkeydown = function (e) {
			var x = setOf(key).x, by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageUp: 12, PageDown: -12, Home: -x, End: R[4] }[e.key];
			if (by == null) return;
			e.preventDefault();
			move(key, x + by);
		};
		grab.onpointerdown = function (e) {
			from = { x: e.clientX, at: setOf(key).x, by: wide / svg.getBoundingClientRect().width / P[1] };
			grab.setPointerCapture(e.pointerId);
			e.preventDefault();
			grab.focus({ preventScroll: true });
		};
		grab.onpointermove = function (e) {
			if (from) move(key, from.at + (e.clientX - from.x) * from.by);
		};
		grab.onpointerup = grab.onpointercancel = function () { from = null; };
		return grabs[key] = grab;
	}
	// place sets the machines down: where somebody dragged them, or at their best places, which the
	// truck has a part in.
	function place(list) {
		var was = sets, k;
		sets = [];
		if (!deck || !P) return;
		var can = list.length && !wrong.m && R[0] != null && R[1] != null && R[2] != null && R[4] > 0;
		deck.hidden = !can;
		svg.parentNode.classList.toggle("held", !!can);
		if (strip) strip.toggleAttribute("hidden", !can);
		for (k in grabs) grabs[k].hidden = true;
		frame(can ? list : []);
		if (!can) return;
		if (!strip) build();
		base.setAttribute("d", surface(0, R[4]));
		Object.keys(others).forEach(function (k, i) {
			var ticket = byId(others[k]);
			ticket.hidden = !B.state[k] && i > 0 && !B.machine(B.MACHINES[i]);
			B.label(ticket, k, "deck another");
		});
		list.forEach(function (c, i) {
			var put = carried.put.filter(function (s) { return s.key == c.key; })[0];
			c.best = put ? put.x : i ? list[0].best + list[0].L : Math.max(R[4] - c.L, 0) / 2;
		});
		var same = was.length == list.length && list.every(function (c, i) { return was[i].key == c.key && was[i].L == c.L && was[i].w == c.w && was[i].a == c.a; });
		dragged = same && dragged;
		list.forEach(function (c, i) {
			var grab = grabs[c.key] || handle(c.key);
			c.x = dragged ? was[i].x : c.best;
			grab.hidden = false;
			// The silhouette is as long as the machine, whatever part of its box it takes.
			var path = grab.querySelector("path"), drawn;
			path.setAttribute("d", B.SHAPES[c.shape] || B.SHAPES.freight);
			drawn = path.getBBox();
			if (drawn.width) path.parentNode.setAttribute("viewBox", [drawn.x, 0, drawn.width, 60].join(" "));
			grab.classList.toggle("backed", c.rear);
			grab.style.height = tall(c) / high * 100 + "%";
			grab.style.top = down(P[2] - tall(c));
			grab.setAttribute("aria-valuemin", 0);
			grab.setAttribute("aria-valuemax", Math.ceil(Math.max(R[4] - c.L, 0)));
		});
		sets = list;
		if (!setOf(picked)) picked = list[0].key;
		climbs.textContent = "";
		list.forEach(function (c, k) {
			var v = S.climb(R[23], c, U.si);
			if (v) v.texts.forEach(function (t, i) {
				if (i || !k) B.make("li", climbs, (i ? named(c) : "") + t, v.drags[i] ? { "class": "is-no" } : {});
			});
		});
		moved();
	}
	function move(key, x) {
		var c = setOf(key);
		// To the inch, as its place is written.
		c.x = Math.max(0, Math.min(Math.round(x), Math.max(R[4] - c.L, 0)));
		dragged = true;
		moved();
	}
	var paints;
	function moved() {
		if (paints) return;
		paints = requestAnimationFrame(function () {
			paints = 0;
			if (!sets.length) return;
			truck();
			paint();
		});
	}
	// rangesNow are the parts of the deck on which the picked machine keeps every limit: sure has from
	// where to where its front may be, loose is wider and holds if its center is where the table says.
	// While it is dragged they do not change.
	var rangesFor, ranges;
	function rangesNow(c) {
		var now = JSON.stringify([c.key, carried.rig, carried.is, carried.needs, sets.map(function (o) { return [o.w, o.L, o.a, o.m, o != c && o.x]; })]);
		if (now != rangesFor) {
			rangesFor = now;
			ranges = rangesOf(c);
		}
		return ranges;
	}
	// here is "yes", "close" or "no": the color of the deck where the picked machine is.
	function here() {
		var c = setOf(picked);
		function within(key) {
			return rangesNow(c).some(function (r) { return r[key] && c.x >= r[key][0] - 1e-6 && c.x <= r[key][1] + 1e-6; });
		}
		return within("sure") ? "yes" : within("loose") ? "close" : "no";
	}
	// green shows the nearest of these parts: from where the front may be at the front to where the rear
	// may be at the rear.
	function green(c) {
		var least, near;
		rangesNow(c).forEach(function (r) {
			var off = Math.max(r.loose[0] - c.x, c.x - r.loose[1], 0);
			if (!near || off < least) {
				near = r;
				least = off;
			}
		});
		maybe.setAttribute("d", near ? surface(near.loose[0], near.loose[1] + c.L) : "");
		good.setAttribute("d", near && near.sure ? surface(near.sure[0], near.sure[1] + c.L) : "");
	}
	// measure draws how far the front of the machine is behind the front of the deck.
	function measure(c) {
		var a = across(0), b = across(c.x), y = P[2] - tall(c) - 10;
		measured.setAttribute("d", "M" + a + " " + y + "H" + b + "M" + a + " " + (P[2] - 6) + "V" + (y - 10) + "M" + b + " " + (P[2] - tall(c) * .3) + "V" + (y - 10));
		at.textContent = S.length(Math.round(c.x), U.si);
		at.setAttribute("x", Math.max((a + b) / 2, 90));
		at.setAttribute("y", y - 14);
	}
	function rangesOf(c) {
		// Which of the places keep the rating of a short part of the deck, next to another machine, is
		// not worked out: where some do not, none is green.
		// Neither is any where the trailer does not carry the machine at all: it is too wide.
		if (carried.is == "no" || carried.needs.some(function (n) { return n.key == "order"; })) return [];
		// The centers of the other machines may be off too: as moments, in this one's inches.
		var one = Object.assign({}, c), rest = sets.filter(function (o) { return o != c; });
		rest.forEach(function (o) { one.m += o.w * o.m / c.w; });
		return S.spots(carried.rig || R, one, rest).filter(function (s) { return s.is != "no"; }).map(function (s) {
			return { sure: s.is == "yes" && [s.from, s.to], loose: s.loose };
		});
	}
	// broken names the limits that are broken. The least of the tongue is not one that a load is over.
	function broken(over) {
		var out = [], names = [];
		over.forEach(function (m) {
			if (m.by == 5) out.push(S.say("deck light", S.marginText(m, U.si)));
			else names.push(spaced(S.NAMES[m.by]));
		});
		if (names.length || !out.length) out.push(S.say("deck over", names.join(", ")));
		return out.join(". ");
	}
	function paint() {
		var b = S.bear(R, sets), si = U.si, over = b.margins.concat(S.held(R, sets)).filter(function (m) { return m.over; }), keeps = b.keeps && !over.length, bad = !keeps || carried.is == "no", says = [],
			no = pulled && pulled.is == "no" && pulled.limits.filter(function (l) { return l.over; }),
			// The truck's limits on what comes on its hitch go by where the machine is.
			onTruck = no && no.some(function (l) { return /^(tongue|gvwr|sticker|rear|tires|front)/.test(l.key); }),
			is = here(), sure = carried.is == "yes" && is == "yes" && (!pulled || pulled.is == "yes");
		function own() {
			return carried.is == "no" ? carried.text.slice(0, -1) : S.say(sure ? "deck keeps" : is == "close" ? "deck close" : "deck own") + (no ? ". " + S.say("deck truck", spaced(pulled.clash || no[0].label + ", " + no[0].text)) : "");
		}
		sets.forEach(function (c) {
			var grab = grabs[c.key], at = spaced(S.say("deck here", c.head, S.length(Math.round(c.x), si), S.say("space deck")));
			grab.style.left = across(c.x) / wide * 100 + "%";
			grab.style.width = c.L * P[1] / wide * 100 + "%";
			grab.classList.toggle("bad", bad || onTruck);
			grab.setAttribute("aria-valuenow", Math.round(c.x));
			grab.setAttribute("aria-valuetext", at);
			says.push(named(c) + at);
		});
		strip.classList.toggle("bad", bad || onTruck);
		green(setOf(picked));
		measure(setOf(picked));
		feet.textContent = "";
		function foot(name, text, bys, also) {
			var bad = also || over.some(function (m) { return bys.indexOf(m.by) >= 0; }), d = B.make("div", feet, "", bad ? { "class": "bad" } : {});
			B.make("dt", d, "\u2191 " + name);
			B.make("dd", d, text);
		}
		// Where the machine cannot be, no weight comes on anything. What is not a YES is not green.
		if (b.apart) {
			foot(S.say("deck hitch"), S.load(b.tongue, si) + ", " + S.share(b.share), [5, 6, 7], onTruck);
			foot(S.say("deck axles"), S.load(b.axles, si), [8, 9, 10]);
		}
		feet.classList.toggle("open", !sure);
		says.push(keeps ? carried.doubt || own() : !b.apart ? spaced(S.say(sets[1] ? "deck apart" : "deck long", S.say("space deck"))) : broken(over));
		byId("deck-is").textContent = says.map(function (s) { return s[0].toUpperCase() + s.slice(1); }).join(". ") + ".";
	}
})();
