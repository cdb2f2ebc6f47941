// The yard page: find by need, one screen at a time. Every number that it shows was worked
// out before and is in STOCK (internal/pagedata/columns.go says what each column holds).
// Where a machine fits and what a truck can pull is worked out by statics.js, which comes when
// the page is idle. Words are looked for in STOCK at once, and in an index of what is written
// about the trailers (search.js) as soon as that is there. The page's own words are PHRASES
// (internal/phrases), which the build puts in front of this file.
// What is asked for is in the address after the #, so that Back goes back and an address
// can be sent; the truck's numbers stay on the phone.
(function () {
	"use strict";
	var panel = document.getElementById("find"), U = window.units;
	var WORDS = window.PHRASES || {};
	function say(key) {
		var blanks = arguments;
		return (key in WORDS ? WORDS[key] : key).replace(/\{(\d)\}/g, function (_, n) { return blanks[n]; });
	}
	// What a quantity is in the other system of units, and how units are written.
	var PER = { lb: .45359237, ft: .3048, in: 25.4 }, METRIC = { lb: "kg", ft: "m", in: "mm" };
	var UNITS = { inches: "in", inch: "in", "\"": "in", feet: "ft", foot: "ft", "'": "ft", pounds: "lb", pound: "lb", lbs: "lb", "#": "lb" };
	U.kg = kg;
	U.plain = plain;
	// A test holds what the yard page answers with against the unit's page.
	U.rigOf = function (stock, i) { unpack(stock); return rig(i); };
	if (!panel) return;
	var STEP = 12;
	var byId = function (id) { return document.getElementById(id); };
	var list = byId("cards"), count = byId("count"), picked = byId("picked"), more = byId("more"), less = byId("less"), versus = byId("versus"), tray = byId("tray");
	var chips = [].slice.call(panel.querySelectorAll("[data-f]"));
	var D, N, M, order, facets, wanted = {}, shown, texts = {}, from = 0, to = list && list.children.length;
	var root = document.documentElement;

	function escape(s) {
		return String(s).replace(/[&<>"]/g, function (c) { return { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" }[c]; });
	}
	function group(n) { return String(n).replace(/\B(?=(\d{3})+(?!\d))/g, ","); }
	// A text with a quantity can change to the other system of units.
	var QUANTITY = /\d[\d,.]*(?:[-\/]\d+)*[ \u00a0](?:ft[ \u00a0]\d[\d\/-]*[ \u00a0]in|[a-z]+)(?![\w\/])/g;
	function turned(text, write) {
		return text.replace(QUANTITY, function (q) {
			var si = D.si[q.replace(/\u00a0/g, " ")];
			return si ? write(q, si) : q;
		});
	}
	function both(text) { return turned(text, data); }
	function data(text, si) { return '<data value="' + si + '">' + text + "</data>"; }
	// fillIn writes a text into an element, with the same in metric units for units.js.
	function fillIn(e, text) {
		var si = turned(text, function (q, si) { return si; });
		e.textContent = text;
		if (si != text && e.tagName != "DATA") e.setAttribute("data-si", si); // data has its value
	}
	function shownAs(v, unit) { return v == null ? "" : String(Math.round(v * (U.si ? PER[unit] : 1) * 100) / 100); }
	// some is a number of things: the phrases have one for 1 and one for many.
	function some(what, n) { return say("count " + what + (n == 1 ? " one" : " many"), group(n)); }

	// A file of the site as a script; then is called once it is there, failed if it does not come.
	var files = {};
	function load(path, then, failed) {
		var f = files[path];
		if (f && f.done) return then();
		if (f) return f.push([then, failed]);
		f = files[path] = [[then, failed]];
		var s = document.createElement("script");
		s.src = path;
		s.onload = function () {
			f.done = true;
			f.forEach(function (g) { g[0](); });
		};
		s.onerror = function () {
			delete files[path];
			f.forEach(function (g) { (g[1] || missing)(); });
		};
		document.head.appendChild(s);
	}
	function missing() { tell(say("yard no signal")); }
	function tell(text) { count.textContent = text; }

	// What is loaded only when somebody asks for it, by its name: data (internal/pagedata/details.go)
	// and the scripts asked.js and compare.js.
	var columns = {}, MORE;
	window.COLUMN = function (name, value) { columns[name] = value; };
	function column(name, then) {
		MORE = MORE || JSON.parse(panel.dataset.more);
		if (columns[name]) return then();
		load(MORE[name], then, then);
	}

	function ready(then) {
		if (D) return then();
		load(panel.dataset.stock, function () {
			if (!D) unpack(window.STOCK);
			then();
		});
	}
	// sorting brings what the list is sorted by.
	function sorting(then) {
		if (wanted.sort == "newest") column("days", then);
		else if (wanted.sort == "fit" && !S) begin(then);
		else then();
	}

	function unpack(stock) {
		D = stock;
		M = D.models;
		N = D.model.length;
		var last = "";
		D.stock = D.stock.map(function (s) {
			if (typeof s == "number") {
				var digits = /\d+$/.exec(last)[0], n = String(+digits + s);
				while (n.length < digits.length) n = "0" + n;
				s = last.slice(0, -digits.length) + n;
			}
			return last = s;
		});
		// A model has its trailers' texts, and the weights of its first one.
		["title", "share", "empty", "tongue"].forEach(function (c, k) {
			D[c] = D[c].map(function (v, i) {
				var of = M[c][D.model[i]];
				return v == null ? v : k < 2 ? of[v] : of + v;
			});
		});
		// What the label leaves, less how far the payload is below it.
		D.load = D.load.map(function (v, i) {
			var full = M.full[D.model[i]];
			return v == null || full == null || D.empty[i] == null ? v : Math.round(full - D.empty[i] - v);
		});
		facets = D.facets.map(function (f) {
			var of = f.of, v = f.values;
			return {
				name: f.name, values: v,
				of: Int16Array.from(D[f.by].map(function (n) { return of ? of[n] : v.filter(function (from) { return n && n >= from; }).length - 1; })),
				chips: f.values.map(function (v) { return chips.filter(function (c) { return c.dataset.f == f.name && c.dataset.v == v; })[0]; })
			};
		});
		// What can be bought today first, then by kind: internal/render orders the page the same way.
		var kind = facets[0].of;
		order = D.model.map(function (_, i) { return i; }).sort(function (a, b) {
			return D.state[a] - D.state[b] || kind[a] - kind[b] || a - b;
		});
	}

	// ---- what is asked for

	function read() {
		var asked = {};
		location.hash.slice(1).split("&").forEach(function (part) {
			var at = part.indexOf("=");
			if (at < 1) return;
			try { asked[part.slice(0, at)] = decodeURIComponent(part.slice(at + 1)); } catch (e) { /* not an address of ours */ }
		});
		return asked;
	}
	function write(asked) {
		var s = Object.keys(asked).filter(function (k) { return asked[k]; }).sort().map(function (k) {
			return k + "=" + encodeURIComponent(asked[k]).replace(/%2C/g, ",").replace(/%20/g, "+");
		}).join("&");
		return s ? "#" + s : location.pathname + location.search;
	}
	// go changes what is asked for; typing does not fill the history letter by letter. A tap
	// is answered in the next frame, by the chip that it pressed. The address, the search and
	// then() follow after that frame, once for all the taps that came before it.
	var waits;
	function soon(then) {
		requestAnimationFrame(function () { setTimeout(then); });
	}
	function go(change, typing, then) {
		var asked = {};
		for (var k in wanted) asked[k] = wanted[k];
		if (!("from" in change)) delete asked.from;
		for (k in change) asked[k] = change[k];
		wanted = asked;
		press();
		if (!waits) soon(function () {
			var w = waits;
			waits = null;
			if (!w) return;
			history[w.push ? "pushState" : "replaceState"](null, "", write(wanted));
			draw(w.then);
		});
		waits = { push: !typing || waits && waits.push, then: then };
	}
	function toCount() { count.focus(); }
	function set(e, name, value) {
		if (e.getAttribute(name) != value) e.setAttribute(name, value);
	}
	function press() {
		chips.forEach(function (c) { set(c, "aria-pressed", values(wanted, c.dataset.f).indexOf(c.dataset.v) >= 0); });
		if (S) bringing();
	}
	function values(asked, name) { return asked[name] ? asked[name].split(",") : []; }
	function amount(text) {
		// An address has plain numbers; what else is typed is not an amount.
		var s = String(text || "").replace(/,(?=\d{3})/g, "").trim();
		return /^\d+(\.\d+)?$/.test(s) ? +s : 0;
	}

	// ---- finding

	// find tells which trailers match, from which on nobody can say yet (sure is how many surely do),
	// how many each chip would give, and how many each thing asked for rules out alone. It goes down the columns: how many of the things asked for a
	// trailer fails, and which was the last, by its number in by.
	function find() {
		var by = facets.map(function (f) { return f.name; }).concat("load", "words", "most", "mine", "pull"), F = facets.length;
		var fails = new Uint8Array(N), last = new Uint8Array(N), alone = {}, hits = [], may = [], i, k, clean;
		var least = amount(wanted.load), most = amount(wanted.most), words = texts.found, fits = fitting();
		function fail(i, k) { fails[i]++; last[i] = k; }
		facets.forEach(function (f, k) {
			var v = values(wanted, f.name);
			if (!v.length) return;
			var on = f.values.map(function (x) { return v.indexOf(x) >= 0; });
			for (var i = 0; i < N; i++) if (!on[f.of[i]]) fail(i, k);
		});
		if (least) for (i = 0; i < N; i++) if (!(D.load[i] >= least)) fail(i, F);
		var w = texts.wants;
		if (w) for (i = 0; i < N; i++) if (words && !words[i] || w.load && !(D.load[i] >= w.load) || w.most && !upTo(i, w.most) || w.size && !sized(D.model[i], w.size)) fail(i, F + 1);
		if (most) for (i = 0; i < N; i++) if (!upTo(i, most)) fail(i, F + 2);
		for (k = 0; k < N; k++) {
			i = order[k];
			clean = !fails[i];
			if (fits && fails[i] < 2) fits(i).forEach(function (name) { fail(i, by.indexOf(name)); });
			if (!fails[i]) hits.push(i);
			else if (clean && !fits.no) may.push(i);
			else if (fails[i] == 1) alone[by[last[i]]] = (alone[by[last[i]]] || 0) + 1;
		}
		var counts = facets.map(function (f, k) {
			var n = f.values.map(function () { return 0; });
			for (var i = 0; i < N; i++) if ((!fails[i] || fails[i] == 1 && last[i] == k) && f.of[i] >= 0) n[f.of[i]]++;
			return n;
		});
		[hits, may].forEach(function (l) {
			if (words && !wanted.sort) l.sort(function (a, b) { return words[b] - words[a]; });
			sort(l);
		});
		return { hits: hits.concat(may), sure: hits.length, counts: counts, alone: alone };
	}

	// A size as people say it is round: 83 in are 7 ft. Common practice, no source.
	function sized(m, s) { return M.wide[m] && Math.abs(M.wide[m] - s[0]) <= 3 && Math.abs(inches(M.long[m]) - s[1]) < 6; }
	function upTo(i, most) { return D.price[i] && D.price[i] <= most && !sold(i); }

	// ---- the order: what is sold comes last in every one

	// inches of a length as it is written: 20 ft 6-1/2 in.
	function inches(text) {
		var m = /(?:([\d,.]+) ft)?(?: ?([\d.]+)(?:-(\d+)\/(\d+))? in)?$/.exec(text || "");
		return m ? 12 * (m[1] || "0").replace(/,/g, "") + +(m[2] || 0) + (m[3] ? m[3] / m[4] : 0) : 0;
	}
	// Each gives a trailer's place, the least first; null is after all others.
	var ORDERS = {
		price: function (i) { return D.price[i] || null; },
		payload: function (i) { return D.load[i] == null ? null : -D.load[i]; },
		length: function (i) { return -inches(M.long[D.model[i]]) || null; },
		newest: function (i) { return columns.days ? -columns.days[i] || null : null; },
		fit: fit
	};
	// fit puts the trailer first that answers YES with the least to spare, then those that
	// need another number, then those that come nearest to a YES.
	function fit(i) {
		var o = answers(i), both = [o.m, o.t].filter(Boolean), is = function (w) { return both.some(function (v) { return v.is == w; }); };
		if (!both.length) return null;
		if (is("no")) return 2e9 - (D.load[i] || 0);
		return (is("unknown") ? 1e9 : 0) + (D.load[i] || 0);
	}
	function sort(hits) {
		var of = ORDERS[wanted.sort], at = {};
		if (!of) return;
		hits.forEach(function (i) {
			var v = of(i);
			at[i] = sold(i) ? 2e12 : v == null ? 1e12 : v;
		});
		hits.sort(function (a, b) { return at[a] - at[b]; });
	}

	// ---- my machine and my truck (bring.js, statics.js)

	var B, S, wrong = {};
	function machine() { return S && !wrong.m ? B.machine() : null; }
	function machines() { return S ? B.machines(wrong) : []; }
	function truck() { return S && !wrong.t ? B.state.t : null; }
	// own is what the calculators take of a trailer alone, and rig all of it.
	function own(i) { return D.own[i] || [D.empty[i], D.tongue[i], D.load[i], D.weighed[i] ? D.tongue[i] : null]; }
	function rig(i) {
		var r = M.rig[D.model[i]].slice();
		own(i).forEach(function (v, k) { r[[0, 1, 13, 15][k]] = v; });
		return r;
	}
	// answers are the verdicts for a trailer, {m, t}, as its own page gives them. One that is sold is
	// never an answer.
	var known = {}, knownFor = "";
	function answers(i) {
		var list = machines(), t = truck(), key;
		if (!list.length && !t || sold(i)) return {};
		key = JSON.stringify([B.state, U.si, alone()]);
		if (key != knownFor) { known = {}; knownFor = key; }
		key = [D.model[i], own(i)].join(" ");
		if (known[key]) return known[key];
		known[key] = S.answer(rig(i), list, t, window.LAW, U.si);
		if (alone()) known[key].t = S.answer(rig(i), [], t, window.LAW, U.si).t;
		return known[key];
	}
	// alone says whether the truck is asked about without the machine.
	function alone() { return !!wanted.pull && !wanted.mine; }
	// fitting is the filter "only those that": it names what is not a YES, and its no says whether
	// one of them is a NO.
	function fitting() {
		var m = wanted.mine && machine(), t = wanted.pull && truck();
		if (!m && !t) return null;
		return function f(i) {
			var o = answers(i);
			f.no = false;
			function out(v) {
				if (!v || v.is == "no") f.no = true;
				return !v || v.is != "yes";
			}
			return [m && out(o.m) ? "mine" : "", t && out(o.t) ? "pull" : ""].filter(Boolean);
		};
	}
	// whyOf is the weakest part of an answer.
	function whyOf(v) {
		var l = v.limits && (v.limits.filter(function (l) { return l.over; })[0] || v.is == "yes" && v.limits[0]);
		return v.is == "unknown" ? v.needs[0] && v.needs[0].text : v.clash || l && l.label + ", " + l.text;
	}
	// twice says whether the truck's answer needs just what the machine's answer says it needs.
	function twice(o, v) { return v == o.t && v.is == "unknown" && o.m && o.m.is == "unknown" && whyOf(v) == whyOf(o.m); }
	// told is what a card says about the machine and the truck: the answer, and its weakest part.
	function told(i) {
		var o = answers(i);
		return [["m", "bring machine"], ["t", o.m && o.m.w && !alone() ? "bring truck with" : "bring truck full"]].map(function (x) {
			var v = o[x[0]], why;
			if (!v) return "";
			why = twice(o, v) ? "" : whyOf(v);
			return '<span class="fit">' + escape(S.say(x[1])) + ' <b class="is-' + v.is + '">' + escape(v.word) + "</b>" + (why ? ": " + escape(why) : "") + "</span>";
		}).join("");
	}

	// ---- cards, from the template that the page carries (yard.html)

	var blank = byId("card") && byId("card").content.firstElementChild;
	function disk(x, y, r) { return "M" + x + " " + y + "m-" + r + " 0a" + r + " " + r + " 0 1 1 " + r + " " + r + "a" + r + " " + r + " 0 0 1-" + r + "-" + r; }
	// view fills the template's silhouette, or takes it away where there is none.
	function view(svg, i) {
		var s = M.shape[D.model[i]], p = s < 0 ? [] : D.shapes[s].split("|"), tires = "", rims = "";
		if (s < 0) return svg.remove();
		(p[3] ? p[3].split(",") : []).forEach(function (w) {
			w = w.split(" ");
			tires += disk(w[0], w[1], w[2]);
			rims += disk(w[0], w[1], w[3]);
		});
		[["solid", p[0]], ["slit", p[1]], ["tire", tires], ["rim", rims], ["guess", p[2]]].forEach(function (x) {
			var path = svg.querySelector(".el-" + x[0]);
			if (x[1]) path.setAttribute("d", x[1]);
			else path.remove();
		});
		return svg;
	}
	// kg writes pounds as internal/measure does, which a test holds it to: a limit down to the
	// whole kilogram, a weight to the nearest, below 10 kg to a tenth (system.go, round.go).
	function kg(lb, limit) {
		var v = lb * .45359237, n = Math.round(v);
		if (limit) n = Math.abs(v - n) > 1e-6 ? Math.floor(v) : n;
		else if (v < 10) n = (Math.round(v / .1) * .1).toFixed(1).replace(/\.0$/, "");
		return group(n) + " kg";
	}
	function loadText(i) { return D.load[i] == null ? "" : D.says["load " + i] || group(D.load[i]) + " lb"; }
	function loadSI(i) { return D.says["kg " + i] || kg(D.load[i], true); }
	function emptyText(i) { return D.says["empty " + i] || D.empty[i] != null && group(D.empty[i]) + " lb"; }
	function emptyBoth(i) { return D.says["empty " + i] ? both(escape(emptyText(i))) : data(emptyText(i), kg(D.empty[i])); }
	function sold(i) { return D.state[i] == 3 || !!(window.GONE && window.GONE[address(i)]); }
	function priceText(i) {
		if (sold(i)) return D.phrases.sold;
		return D.price[i] ? D.says["price " + i] || "$" + group(D.price[i]) : D.phrases.ask;
	}
	function address(i) { return "u/" + D.stock[i].toLowerCase() + ".html"; }
	function stateText(i) { return D.states[D.state[i]] + ", " + D.conditions[D.worn[i]]; }
	function shot(i) {
		var img = document.createElement("img"), is = { "class": "shot", alt: "", width: 300, height: 200, loading: "lazy", decoding: "async", src: D.photos[i] };
		for (var k in is) img.setAttribute(k, is[k]);
		return img;
	}
	function card(i) {
		if (i < 0) return B.make("li", null, some("may", -i), { "class": "empty" });
		var c = blank.cloneNode(true), m = D.model[i], get = function (name) { return c.querySelector("." + name); };
		// A part without a text is not on the card.
		function part(name, text, into) {
			if (text) fillIn(into ? get(name).querySelector(into) : get(name), text);
			else get(name).remove();
		}
		c.classList.toggle("gone", sold(i));
		c.classList.toggle("bare", !D.photos[i]);
		view(c.querySelector("svg"), i);
		if (D.photos[i]) {
			c.prepend(shot(i));
		}
		var a = c.querySelector("a");
		a.href = address(i);
		fillIn(a, D.titles[D.title[i]]);
		part("here", D.states[D.state[i]]);
		get("here").classList.toggle("avail-here", !D.state[i]);
		part("worn", D.conditions[D.worn[i]]);
		part("stock", D.stock[i]);
		part("share", D.shares[D.share[i]] || "-");
		part("carries", loadText(i), "data");
		if (D.load[i] != null) get("carries").querySelector("data").value = loadSI(i);
		part("gvwr", M.gvwr[m]);
		part("long", M.long[m] && (M.long[m] + " " + M.space[m]).replace(/ /g, "\u00a0"), "span");
		part("price", priceText(i));
		part("warned", D.phrases.cautions[D.careful[i]]);
		var pick = get("pick");
		pick.value = D.stock[i];
		pick.setAttribute("aria-label", pick.getAttribute("aria-label") + D.stock[i]);
		set(pick, "aria-pressed", picks().indexOf(D.stock[i]) >= 0);
		get("state").insertAdjacentHTML("afterend", told(i));
		return c;
	}
	// inPage are the cards in the page, by trailer: one whose words stay the same stays. New
	// ones come eight at a time, more than a screen holds, each batch in a frame of its own.
	var inPage, wordsFor, laid, LOT = 8;
	function lay(units) {
		var now = JSON.stringify([machines(), truck(), U.si, alone()]), made = document.createElement("ul"), keep = {}, at = list.firstElementChild, next;
		if (!inPage) {
			inPage = {};
			if (now == JSON.stringify([[], null, U.si, false])) [].forEach.call(list.children, function (c) { inPage[D.stock.indexOf(c.querySelector(".pick").value)] = c; });
		} else if (now != wordsFor) inPage = {};
		wordsFor = now;
		laid = units;
		var fresh = units.filter(function (i) { return !inPage[i]; }), rest = fresh.splice(LOT);
		fresh.forEach(function (i) { made.appendChild(inPage[i] = card(i)); });
		U.show(made);
		units.forEach(function (i) {
			var c = inPage[i];
			if (!c) return;
			keep[i] = c;
			if (c == at) at = at.nextElementSibling;
			else list.insertBefore(c, at);
		});
		for (; at; at = next) {
			next = at.nextElementSibling;
			at.remove();
		}
		inPage = keep;
		if (rest.length) soon(function () { if (laid == units) lay(units); });
	}

	// ---- drawing

	function heading(name) {
		var c = chips.filter(function (x) { return x.dataset.f == name; })[0];
		return c ? c.closest("[aria-label]").getAttribute("aria-label").toLowerCase() : say("asked " + name);
	}
	// asked are the things asked for, each with the change that drops it.
	function asked() {
		var out = [];
		facets.forEach(function (f) {
			f.values.forEach(function (v, k) {
				if (values(wanted, f.name).indexOf(v) < 0) return;
				var drop = {};
				drop[f.name] = values(wanted, f.name).filter(function (x) { return x != v; }).join(",");
				out.push({ by: f.name, text: f.chips[k].textContent, drop: drop });
			});
		});
		if (amount(wanted.load)) out.push({ by: "load", text: say("asked least", inUnits(wanted.load, "lb")), drop: { load: "" } });
		if (amount(wanted.most)) out.push({ by: "most", text: say("asked at most", "$" + group(amount(wanted.most))), drop: { most: "" } });
		if (wanted.words) out.push({ by: "words", text: "“" + wanted.words + "”" + wanting(texts.wants), drop: { words: "" } });
		if (wanted.mine && machine()) out.push({ by: "mine", text: say("asked carries", B.text("m")), drop: { mine: "" } });
		if (wanted.pull && truck()) out.push({ by: "pull", text: say(alone() ? "asked pulls full" : "asked pulls"), drop: { pull: "" } });
		return out;
	}
	// wanting says what was read out of the words that are searched for.
	function wanting(w) {
		var out = [];
		if (w && w.most) out.push(say("asked at most", "$" + group(w.most)));
		if (w && w.load) out.push(say("asked least", inUnits(String(w.load), "lb")));
		return out.length ? ": " + out.join(", ") : "";
	}
	function inUnits(text, unit) { return group(shownAs(amount(text), unit)) + " " + (U.si ? METRIC[unit] : unit); }
	function dropButton(a, text) {
		var b = document.createElement("button");
		b.type = "button";
		b.className = "drop";
		b.textContent = text || a.text;
		if (!text) b.setAttribute("aria-label", say("asked drop", a.text));
		b.onclick = function () { go(a.drop, false, toCount); };
		return b;
	}

	function draw(then) {
		wanted = read();
		if (wanted.words) wanted.words = wanted.words.replace(/\+/g, " ");
		fill();
		press();
		var any = Object.keys(wanted).length > (wanted.bring ? 1 : 0);
		if (!any && !shown && !D) return;
		ready(function () {
			sorting(function () {
				(!S && (wanted.mine || wanted.pull) ? begin : soon)(function () {
					show();
					if (then) then();
					if (wanted.words && !(columns.asked && S)) begin(function () { column("asked", show); });
					if (texts.wants && texts.wants.words) indexed(texts.wants.words, show);
				});
			});
		});
	}
	function show() {
		// Prices and weights among the words are read once the calculators are there.
		var w = texts.wants = !wanted.words ? null : columns.asked && S ? columns.asked(S, wanted.words, plain) : { words: wanted.words };
		texts.unseen = [];
		texts.found = w && w.words ? search(w.words) : null;
		var found = find(), n = found.hits.length, sure = found.sure, at = Math.min(amount(wanted.from), Math.max(0, n - 1));
		// One screen more keeps the one before it; no more than two are in the page.
		at -= at % STEP;
		from = Math.max(0, at - STEP);
		to = Math.min(n, at + STEP);
		facets.forEach(function (f, k) {
			f.values.forEach(function (v, j) {
				var c = f.chips[j], n = found.counts[k][j];
				set(c, "data-n", group(n));
				c.classList.toggle("none", !n && values(wanted, f.name).indexOf(v) < 0);
			});
		});
		var now = asked();
		tell((sure == N ? say("sentence", some("trailer", N)) : say("yard of all", some(matching(), sure), group(N))) +
			(sure < n ? " " + some("may", n - sure) : "") + (n > STEP ? " " + say("yard showing", group(from + 1), group(to)) : ""));
		picked.textContent = "";
		now.forEach(function (a) { picked.appendChild(dropButton(a)); });
		if (now.length > 1) picked.appendChild(dropButton({ drop: nothing() }, say("asked clear")));
		// Before those of which nobody can say yet comes a line, which stands for how many they are.
		now = found.hits.slice(from, to);
		if (sure < n && sure >= from && sure < to) now.splice(sure - from, 0, sure - n);
		lay(now);
		shown = true;
		if (!n) relax(found.alone);
		more.hidden = to >= n;
		more.textContent = say("yard more", group(Math.min(STEP, n - to)));
		less.hidden = !from;
		goButton.textContent = n == N && !asked().length ? say("yard show all", group(n)) : sure ? some("show", sure) : say("yard show none");
		compare();
	}
	more.onclick = function () { turn(to, STEP); };
	less.onclick = function () { turn(from, 0); };
	// turn shows the screen from a number on, and goes to the card that comes first in it.
	function turn(start, nth) {
		go({ from: String(start) }, false, function () {
			var c = list.querySelectorAll(".card")[nth];
			if (!c) return;
			c.querySelector("a").focus({ preventScroll: true });
			c.scrollIntoView();
		});
	}
	function nothing() {
		var drop = {};
		for (var k in wanted) if (k != "pick" && k != "bring") drop[k] = "";
		return drop;
	}
	// matching is what the trailers found have in common: "13 trailers can carry it".
	function matching() {
		var m = wanted.mine && machine(), t = wanted.pull && truck();
		if (asked().some(function (a) { return a.by != "mine" && a.by != "pull"; }) || !m && !t) return "match";
		return m ? t ? "both" : "carry" : "pull";
	}
	// relax says which of the things asked for to give up.
	function relax(alone) {
		var best = "", li = document.createElement("li");
		li.className = "empty";
		var w = texts.wants, mine = w && w.machine;
		if (mine) {
			// Somebody asks with what the machine weighs and how long it is.
			li.textContent = say("relax machine") + " ";
			li.appendChild(dropButton({ drop: { words: "", mine: "1" } }, say("asked carries", (mine.k == null ? "" : window.MACHINES[mine.k][0] + ", ") + S.weight(mine.w, U.si) + ", " + S.length(mine.l, U.si))))
				.addEventListener("click", function () { B.keep("m", mine); });
			return void list.appendChild(li);
		}
		if (w && texts.unseen[0]) B.make("p", li, say("relax word", texts.unseen.join(", ")));
		for (var by in alone) if (!best || alone[by] > alone[best]) best = by;
		if (best) {
			li.append(say("relax", heading(best), group(alone[best])) + " ");
			var drop = {};
			drop[best] = "";
			li.appendChild(dropButton({ drop: drop }, say("asked drop", heading(best))));
		} else {
			li.append(say("relax none") + " ");
			li.appendChild(dropButton({ drop: nothing() }, say("asked clear")));
		}
		list.appendChild(li);
	}

	// ---- words in what the page knows: stock numbers, titles, and the facts of a comparison

	// plain writes alike what is written in different ways: 7k lbs and 7,000 lb are 7000lb,
	// 2 5/16" is 2-5/16in, axles are axle. A quantity is one word.
	function plain(text) {
		return text.toLowerCase().replace(/[\u2019\u2032]/g, "'").replace(/[\u201d\u2033]/g, "\"").replace(/(\d),(?=\d{3}(?!\d))/g, "$1")
			.replace(/(\d+(?:\.\d+)?)k(?![a-z0-9])/g, function (_, n) { return " " + n * 1000; })
			.replace(/(\d)[\s-]+(?=\d+\/\d)/g, "$1-")
			.replace(/(\d)[\s-]*(inches|inch|in|"|feet|foot|ft|'|pounds|pound|lbs|lb|#|kg|gal|psi)(?![a-z0-9])/g, function (_, d, u) { return d + (UNITS[u] || u) + " "; })
			.split(/[^\p{L}\p{N}\/.-]+|\.(?!\d)|-(?=\p{L})(?<=\p{L}-)/u).map(function (w) { return w.replace(/^[-\/.]+|[-\/.]+$/g, "").replace(/(\p{L}{3,})s$/u, "$1"); }).filter(Boolean);
	}
	// wordsOf are the words of what is asked for, at most eight, each as the facts have it.
	var same, ignored;
	function wordsOf(text) {
		if (!same) {
			same = {};
			say("find same").split(" ").forEach(function (s) { s = s.split("="); same[s[0]] = s[1]; });
			ignored = plain(say("find ignore"));
		}
		var all = plain(text), some = all.filter(function (w) { return ignored.indexOf(w) < 0; });
		return (some.length ? some : all).slice(0, 8).map(function (w) { return same[w] || w; });
	}
	// oneOff says whether a word is another one except for one letter.
	function oneOff(a, b) {
		var i = 0;
		if (Math.abs(a.length - b.length) > 1) return false;
		while (i < a.length && a[i] == b[i]) i++;
		return a.slice(i + (a.length >= b.length)) == b.slice(i + (b.length >= a.length));
	}
	function has(words, w) {
		var digit = /\d/.test(w);
		return words.some(function (x) {
			return x.indexOf(w) == 0 || digit && w.length > 4 && x.indexOf(w) > 0 || !digit && w.length > 4 && oneOff(w, x);
		});
	}
	function maskOf(q, words) { return q.reduce(function (mask, w, k) { return has(words, w) ? mask | 1 << k : mask; }, 0); }
	var nouns;
	// linesOf are the facts of a model, a line each: the words of its name, and all its words.
	function linesOf(m) {
		return [[say("find gvwr"), M.gvwr[m]], [say("find length") + " " + M.space[m], M.long[m]]].concat(D.rows.map(function (name, k) { return [name, M.facts[m][k]]; }))
			.filter(function (l) { return l[1]; }).map(function (l) { return { name: plain(l[0]), all: plain(l[0] + " " + l[1]) }; });
	}
	// judged is which words a model's facts have, and which of them a fact of the name next to
	// it denies: with "7000 lb axles" a model of 7,000 lb GVWR and smaller axles.
	function judged(q, lines) {
		var r = { mask: 0, firm: 0, against: 0 };
		lines.forEach(function (l) { r.mask |= maskOf(q, l.all); });
		q.forEach(function (w, k) {
			if (nouns[w]) return;
			var named = lines.filter(function (l) { return [q[k - 1], q[k + 1]].some(function (n) { return nouns[n] && l.name.indexOf(n) >= 0; }); });
			if (named.some(function (l) { return has(l.all, w); })) r.firm++;
			else if (named.length) r.against |= 1 << k;
		});
		return r;
	}
	function key(s) { return s.toLowerCase().replace(/[^\p{L}\p{N}]/gu, ""); }
	// search scores the trailers that have every word.
	function search(text) {
		var q = wordsOf(text), all = (1 << q.length) - 1, found = {}, denied = {}, any = false, seen = 0;
		if (!M.lines) {
			M.lines = M.gvwr.map(function (_, m) { return linesOf(m); });
			D.words = D.titles.map(plain);
			D.keys = D.stock.map(key);
			nouns = {};
			M.lines.forEach(function (lines) { lines.forEach(function (l) { l.name.forEach(function (w) { nouns[w] = true; }); }); });
		}
		var models = M.lines.map(function (lines) { return judged(q, lines); }), titles = D.words.map(function (words) { return maskOf(q, words); }), worn = D.conditions.map(function (c) { return maskOf(q, plain(c)); });
		var keys = q.map(key), written = q.map(inIndex), serials = columns.serials;
		var lasts = keys.map(function (k) { return /^\d{3,}$/.test(k); }), inSerials = q.map(function (w) { return serials && isSerial(w); });
		for (var i = 0; i < N; i++) {
			var m = models[D.model[i]], t = titles[D.title[i]], mask = m.mask | t | worn[D.worn[i]], score = 1 + 6 * m.firm;
			for (var k = 0; k < q.length; k++) {
				var bit = 1 << k, x = written[k] && written[k][i] || 0;
				if (D.keys[i].indexOf(keys[k]) == 0 || lasts[k] && D.keys[i].slice(-keys[k].length) == keys[k]) { mask |= bit; score += 40; }
				else if (inSerials[k] && serials[i].toLowerCase().indexOf(keys[k]) >= 0) { mask |= bit; score += 40; }
				if (x) { mask |= bit; score += Math.min(x, 3); }
				if (t & bit) score += 4;
				if (m.mask & bit) score += 2;
			}
			seen |= mask;
			if (mask != all) continue;
			if (m.against & ~t) denied[i] = score;
			else { found[i] = score; any = true; }
		}
		texts.unseen = q.filter(function (w, k) { return !(seen >> k & 1); });
		return any ? found : denied;
	}

	// ---- words in the index of what is written: MiniSearch over parts that are made already
	// (internal/pagedata/searchwords.go)

	var indexes = {};
	function isSerial(w) { return w.length > 4 && /\d/.test(w) && !/[\/.]|\d(lb|ft|in|kg|gal|psi)$/.test(w); }
	// A word of one or two letters begins thousands of others: it is looked for in the facts alone.
	function isWord(w) { return w.length > 2 && !/^\d/.test(w); }
	function parts() { return texts.parts = texts.parts || JSON.parse(panel.dataset.words); }
	// partsOf are the parts in which the words are that begin with this one.
	function partsOf(w) {
		var p = parts();
		return p.filter(function (x, i) { return x[0] <= w + "\uffff" && (i + 1 == p.length || p[i + 1][0] > w); }).map(function (x) { return x[1]; }).slice(0, 6);
	}
	// indexed brings what a search needs and is not there yet, and calls again once it has come.
	function indexed(text, again) {
		var q = wordsOf(text), wait = 0, need = [];
		function done() {
			if (!--wait && texts.wants && texts.wants.words == text) again();
		}
		q.filter(isWord).forEach(function (w) { partsOf(w).forEach(function (p) { if (!indexes[p] && need.indexOf(p) < 0) need.push(p); }); });
		var serial = !columns.serials && q.some(function (w) { return isSerial(w) && !D.keys.some(function (s) { return s.indexOf(key(w)) >= 0; }); });
		wait = (need.length ? 1 : 0) + (serial ? 1 : 0);
		if (serial) column("serials", done);
		if (need.length) load(panel.dataset.search, function () {
			var left = need.length;
			need.forEach(function (p) { load(p, one, one); });
			function one() { if (!--left) done(); }
		}, function () { wait--; });
	}
	window.WORDS = function (n, names, posts) {
		var index = [], docs = {}, lengths = {}, word = "", at = 0;
		function digits() {
			var v = 0, shift = 0, c;
			do {
				c = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_".indexOf(posts[at++]);
				v |= (c & 31) << shift;
				shift += 5;
			} while (c & 32);
			return v;
		}
		names.split(" ").forEach(function (s) {
			word = word.slice(0, parseInt(s[0], 36)) + s.slice(1);
			var fields = {};
			for (var f = 0; f < 3; f++) {
				var k = digits(), last = 0, of = {};
				if (k) fields[f] = of;
				while (k--) of[last += digits()] = 1;
			}
			index.push([word, fields]);
		});
		for (var i = 0; i < N; i++) { docs[i] = i; lengths[i] = [1, 1, 1]; }
		indexes[parts()[n][1]] = window.MiniSearch.loadJS({
			documentCount: N, nextId: N, documentIds: docs, fieldIds: { name: 0, kit: 1, notes: 2 }, fieldLength: lengths,
			averageFieldLength: [1, 1, 1], storedFields: {}, dirtCount: 0, index: index, serializationVersion: 2
		}, { fields: ["name", "kit", "notes"] });
	};
	// inIndex scores the trailers about which a word is written, or one that begins with it or
	// is close, as far as the index is there.
	function inIndex(w) {
		var out = {};
		if (isWord(w)) partsOf(w).forEach(function (p) {
			if (indexes[p]) indexes[p].search(w, {
				prefix: true, fuzzy: w.length > 4 && !/\d/.test(w) ? 1 : false, boost: { name: 6, kit: 2 }, weights: { prefix: .6, fuzzy: .2 },
				bm25: { k: 1.2, b: 0, d: .5 }, tokenize: function (s) { return [s]; }
			}).forEach(function (r) { out[r.id] = Math.max(out[r.id] || 0, r.score); });
		});
		return out;
	}

	// ---- the forms

	var FIELDS = { load: byId("load"), most: byId("most"), words: byId("words") }, IN = { load: "lb" };
	// A field says under it what it understood. What it cannot read is refused, and asks for nothing.
	function understood(k, text, bad) {
		var said = byId(k + "-is");
		said.textContent = text;
		if (bad) FIELDS[k].setAttribute("aria-invalid", "true"); else FIELDS[k].removeAttribute("aria-invalid");
	}
	function readLoad(text) {
		begin(function () {
			if (FIELDS.load.value.trim() != text) return;
			var r = S.read(text, { name: say("asked load"), unit: "lb", zero: true }, U.si), bad = r.is == "bad" || r.is == "ask";
			understood("load", r.echo || r.problem || "", bad);
			type("load", r.is == "ok" ? String(Math.round(r.value * 100) / 100) : "");
		});
	}
	function readPrice(text) {
		var m = /^\$? ?(\d{1,3}(?:,\d{3})+|\d+) ?(k?)$/i.exec(text), n = m ? m[1].replace(/,/g, "") * (m[2] ? 1000 : 1) : 0;
		understood("most", n ? "$" + group(n) : text ? say("typed price", text) : "", text && !n);
		type("most", n ? String(n) : "");
	}
	var later, typed = {};
	// type takes what is typed and finds once the typing rests.
	function type(k, value) {
		typed[k] = value;
		clearTimeout(later);
		later = setTimeout(function () {
			var change = typed;
			typed = {};
			go(change, true);
		}, 250);
	}
	Object.keys(FIELDS).forEach(function (k) {
		FIELDS[k].addEventListener("input", function () {
			var text = FIELDS[k].value.trim();
			// The address has what is asked for in pounds and in dollars.
			if (k == "load") readLoad(text);
			else if (k == "most") readPrice(text);
			else type(k, text);
		});
	});
	function fill() {
		sorts.value = ORDERS[wanted.sort] ? wanted.sort : "";
		for (var k in FIELDS) if (FIELDS[k] != document.activeElement && FIELDS[k].getAttribute("aria-invalid") != "true") {
			FIELDS[k].value = IN[k] && amount(wanted[k]) ? shownAs(amount(wanted[k]), IN[k]) : wanted[k] || "";
		}
	}

	// begin loads the calculators; then is called once they are there.
	function begin(then) {
		if (S) return then();
		load(panel.dataset.bring, function () {
			B = window.Bring;
			B.start([panel.dataset.statics, panel.dataset.machines], function () {
				S = window.Statics;
				bringing();
				then();
			}, missing);
		});
	}
	byId("rest").onclick = function () { this.parentNode.classList.add("all"); };
	var tapped, only = { m: byId("only-mine"), t: byId("only-pull") }, fits = byId("fits"), sorts = byId("sort"), flags = { m: "mine", t: "pull" };
	function bringing() {
		[["mine", "m", "bring machine"], ["mytruck", "t", "bring truck"]].forEach(function (x) {
			var o = only[x[1]];
			B.label(byId(x[0]), x[1], x[2]);
			o.hidden = !(x[1] == "m" ? machine() : truck());
			set(o, "aria-pressed", !!wanted[flags[x[1]]]);
		});
		panel.querySelector(".bring").classList.toggle("filled", !!(B.state.m || B.state.t));
		var both = machine() && truck();
		fits.hidden = !both;
		set(fits, "aria-pressed", !!(both && wanted.mine && wanted.pull));
		sorts.querySelector("[value=fit]").hidden = !machine() && !truck();
	}
	fits.onclick = function () {
		var on = wanted.mine && wanted.pull ? "" : "1";
		go({ mine: on, pull: on, sort: on ? "fit" : "" });
	};
	sorts.onchange = function () { go({ sort: sorts.value }); };
	function brought() {
		bringing();
		ready(show);
	}
	[["mine", "m"], ["mytruck", "t"]].forEach(function (x) {
		byId(x[0]).querySelector(".change").onclick = function () {
			// Several taps while the calculators load are one.
			if (!S && tapped == x[0]) return;
			tapped = S || x[0];
			begin(function () {
				B.open(byId(x[0]), x[1], function (which, bad) {
					wrong[which] = bad;
					var flag = flags[which], change = {}, on = (which == "m" ? machine() : truck()) ? "1" : "";
					// What somebody fills in they look for: only what carries or pulls it stays.
					if (bad || (wanted[flag] || "") == on) return brought();
					change[flag] = on;
					bringing();
					go(change, true);
				}, bringing);
			});
		};
		only[x[1]].onclick = function () {
			var change = {};
			change[flags[x[1]]] = wanted[flags[x[1]]] ? "" : "1";
			go(change);
		};
	});
	if (window.tapped) window.tapped.querySelector(".change").click();
	document.addEventListener("brought", function () { begin(brought); });
	// The calculators come when the page is idle, so that a form that is opened later does not
	// wait for a signal. What was typed before is answered then.
	window.addEventListener("load", function () {
		setTimeout(function () {
			(window.requestIdleCallback || setTimeout)(function () {
				begin(function () { if (machine() || truck()) brought(); else bringing(); });
				if (byId("kept")) load(byId("kept").dataset.keep, function () {}, function () {});
			}, { timeout: 3000 });
		}, 300);
	});

	// "Show 6 trailers", in reach above the keyboard while somebody types or chooses.
	var goBar = byId("go"), goButton = goBar.querySelector("button"), folds = byId("needs"), eye = window.visualViewport;
	function busy() {
		var a = document.activeElement, typing = panel.contains(a) && /^(INPUT|SELECT)$/.test(a.tagName);
		goBar.hidden = !(typing || folds.open && panel.contains(a)) || root.classList.contains("comparing");
		if (eye) goBar.style.bottom = Math.max(0, innerHeight - eye.height - eye.offsetTop) + "px";
		if (goBar.hidden || goButton.textContent) return;
		if (D) goButton.textContent = some("show", N);
		else ready(function () { if (!goButton.textContent) goButton.textContent = some("show", N); });
	}
	["focusin", "focusout"].forEach(function (e) { panel.addEventListener(e, function () { setTimeout(busy); }); });
	folds.addEventListener("toggle", busy);
	if (eye) ["resize", "scroll"].forEach(function (e) { eye.addEventListener(e, busy); });
	goButton.onclick = function () {
		folds.open = false;
		[].forEach.call(panel.querySelectorAll("[aria-expanded=true]"), function (b) { b.click(); });
		goBar.hidden = true;
		count.focus({ preventScroll: true });
		count.scrollIntoView();
	};

	panel.addEventListener("click", function (e) {
		var c = e.target.closest("[data-f]");
		if (!c || e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
		e.preventDefault();
		var f = c.dataset.f, v = values(wanted, f), at = v.indexOf(c.dataset.v), change = {};
		if (at < 0) v.push(c.dataset.v); else v.splice(at, 1);
		change[f] = v.join(",");
		go(change);
	});
	chips.forEach(function (c) {
		if (c.href) {
			// Without scripts it leads to the kind's own page.
			c.setAttribute("role", "button");
			c.setAttribute("aria-pressed", "false");
			c.addEventListener("keydown", function (e) { if (e.key == " ") { e.preventDefault(); c.click(); } });
		}
	});

	// ---- comparing two to four

	function picks() { return values(wanted, "pick").slice(0, 4); }
	function pick(stock) {
		var p = picks(), at = p.indexOf(stock);
		if (at >= 0) p.splice(at, 1);
		else if (p.length < 4) p.push(stock);
		else return tell(say("compare most"));
		wanted.pick = p.join(",");
		picking();
		soon(function () {
			history.replaceState(null, "", write(wanted));
			ready(compare);
		});
	}
	document.addEventListener("click", function (e) {
		var b = e.target.closest(".pick");
		if (b) pick(b.value);
	});
	function picking() {
		var p = picks();
		[].forEach.call(list.querySelectorAll(".pick"), function (b) { set(b, "aria-pressed", p.indexOf(b.value) >= 0); });
	}
	function compare() {
		var p = picks().map(function (s) { return D.stock.indexOf(s); }).filter(function (i) { return i >= 0; });
		picking();
		var on = wanted.compare && p.length > 1;
		if (!p.length && tray.hidden && versus.hidden) return;
		tray.hidden = !p.length || on;
		tray.innerHTML = "<span>" + escape(p.map(function (i) { return D.stock[i]; }).join(", ")) + "</span>" +
			(p.length > 1 ? '<button type="button" class="do" id="do">' + escape(say("compare do", p.length)) + "</button>" : "<span>" + escape(say("compare another")) + "</span>") +
			'<button type="button" class="drop" id="undo">' + escape(say("compare clear")) + "</button>";
		if (p.length > 1) byId("do").onclick = function () { go({ compare: "1", from: wanted.from }, false, function () { versus.focus(); }); };
		byId("undo").onclick = function () { go({ pick: "", compare: "", from: wanted.from }, false, toCount); };
		var opens = on && versus.hidden;
		root.classList.toggle("comparing", !!on);
		versus.hidden = !on;
		versus.textContent = "";
		if (!on) return;
		lined(p);
		// It opens at its top, wherever the list was.
		if (opens) window.scrollTo(0, 0);
		Promise.all(["compare"].concat(p.map(function (i) { return "details" + (i >> 6); })).map(function (name) { return new Promise(function (done) { column(name, done); }); })).then(function () {
			if (!versus.hidden) lined(p);
		});
	}
	function lined(p) {
		if (!columns.compare) return;
		versus.innerHTML = columns.compare({
			D: D, M: M, S: S, say: say, escape: escape, both: both, data: data, group: group, kg: kg, answers: answers, whyOf: whyOf, twice: twice, alone: alone, machine: machine,
			added: function (i) { var part = columns["details" + (i >> 6)]; return part && part[i & 63]; },
			keys: panel.dataset.compared.split(","), price: priceText, state: stateText, load: loadText, loadSI: loadSI, empty: emptyText, emptyBoth: emptyBoth,
			address: address, picture: function (i) {
				var s = view(blank.querySelector("svg").cloneNode(true), i);
				return (D.photos[i] ? shot(i).outerHTML : "") + (s ? s.outerHTML : "");
			}
		}, p);
		U.show(versus);
		byId("back").onclick = function () { go({ compare: "", from: wanted.from }, false, toCount); };
	}
	document.addEventListener("units", function () {
		if (shown) soon(show);
		if (S) bringing();
		fill();
	});
	// What keep.js found to be no longer listed counts as sold.
	document.addEventListener("gone", function () {
		ready(function () {
			inPage = {};
			show();
		});
	});
	// Back and an address that somebody types are drawn at once; a tap that still waits is dropped.
	["popstate", "hashchange"].forEach(function (e) {
		window.addEventListener(e, function () { waits = null; draw(); });
	});
	draw();
	// The data comes after everything else, before somebody needs it.
	window.addEventListener("load", function () { setTimeout(function () { ready(function () {}); }, 200); });
})();
