// The yard page: find by need, one screen at a time. Every number that it shows was worked
// out before and is in STOCK (internal/pagedata/columns.go says what each column holds).
// Where a machine fits and what a truck can pull is worked out by statics.js, which is
// loaded when somebody asks, as the search (search.js) is when somebody types a word.
// What is asked for is in the address after the #, so that Back goes back and an address
// can be sent; the truck's numbers stay on the phone.
(function () {
	"use strict";
	var panel = document.getElementById("find"), U = window.units;
	U.kg = kg;
	if (!panel) return;
	var STEP = 24;
	var byId = function (id) { return document.getElementById(id); };
	var list = byId("cards"), count = byId("count"), picked = byId("picked"), more = byId("more"), less = byId("less"), versus = byId("versus"), tray = byId("tray");
	var chips = [].slice.call(panel.querySelectorAll("[data-f]"));
	var D, N, M, order, facets, wanted = {}, shown, texts = {}, from = 0, to = list && list.children.length;
	var root = document.documentElement;

	function escape(s) {
		return String(s).replace(/[&<>"]/g, function (c) { return { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" }[c]; });
	}
	function group(n) { return String(n).replace(/\B(?=(\d{3})+(?!\d))/g, ","); }
	// What a quantity is in the other system of units, and a text that can change to it.
	var PER = { lb: .45359237, ft: .3048, in: 25.4 }, METRIC = { lb: "kg", ft: "m", in: "mm" };
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
	function some(n, one, many) { return group(n) + " " + (n == 1 ? one : many); }

	// A file of the site as a script; then is called once it is there.
	var files = {};
	function load(path, then) {
		var f = files[path];
		if (f && f.done) return then();
		if (f) return f.push(then);
		f = files[path] = [then];
		var s = document.createElement("script");
		s.src = path;
		s.onload = function () {
			f.done = true;
			f.forEach(function (g) { g(); });
		};
		s.onerror = function () {
			delete files[path];
			say("This part did not load. Try again when you have signal. The list below is complete.");
		};
		document.head.appendChild(s);
	}
	function say(text) { count.textContent = text; }

	function ready(then) {
		if (D) return then();
		load(panel.dataset.stock, function () {
			if (!D) unpack(window.STOCK);
			then();
		});
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
		facets = D.facets.map(function (f) {
			var of = f.of;
			return {
				name: f.name, values: f.values,
				of: Int16Array.from(f.by == "unit" ? of : D.model.map(function (m) { return of[m]; })),
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
	function tell() { count.focus(); }
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

	// find tells which trailers match, how many each chip would give, and how many each thing
	// asked for rules out alone. It goes down the columns: how many of the things asked for a
	// trailer fails, and which was the last, by its number in by.
	function find() {
		var by = facets.map(function (f) { return f.name; }).concat("load", "words", "mine", "pull"), F = facets.length;
		var fails = new Uint8Array(N), last = new Uint8Array(N), alone = {}, hits = [], i, k;
		var least = amount(wanted.load), words = texts.found, fits = fitting();
		function fail(i, k) { fails[i]++; last[i] = k; }
		facets.forEach(function (f, k) {
			var v = values(wanted, f.name);
			if (!v.length) return;
			var on = f.values.map(function (x) { return v.indexOf(x) >= 0; });
			for (var i = 0; i < N; i++) if (!on[f.of[i]]) fail(i, k);
		});
		if (least) for (i = 0; i < N; i++) if (!(D.load[i] >= least)) fail(i, F);
		if (words) for (i = 0; i < N; i++) if (!words[i]) fail(i, F + 1);
		for (k = 0; k < N; k++) {
			i = order[k];
			if (fits && fails[i] < 2 && !fits(i, !fails[i])) fail(i, by.indexOf(fits.by));
			if (!fails[i]) hits.push(i);
			else if (fails[i] == 1) alone[by[last[i]]] = (alone[by[last[i]]] || 0) + 1;
		}
		var counts = facets.map(function (f, k) {
			var n = f.values.map(function () { return 0; });
			for (var i = 0; i < N; i++) if ((!fails[i] || fails[i] == 1 && last[i] == k) && f.of[i] >= 0) n[f.of[i]]++;
			return n;
		});
		if (words) hits.sort(function (a, b) { return words[b] - words[a]; });
		return { hits: hits, counts: counts, alone: alone, unknown: fits ? fits.unknown : 0 };
	}

	// ---- my machine and my truck (bring.js, statics.js)

	var B, S, wrong = {};
	function machine() { return S && !wrong.m ? B.machine() : null; }
	function truck() { return S && !wrong.t ? B.state.t : null; }
	function rig(i) {
		var r = M.rig[D.model[i]];
		if (!r || D.tongue[i] == null) return null;
		r = r.slice();
		r[0] = D.empty[i];
		r[1] = D.tongue[i];
		r[13] = D.load[i];
		r[15] = D.weighed[i] ? D.tongue[i] : null;
		return r;
	}
	// answers are the verdicts for a trailer, {m, t}. A trailer without its measurements has
	// none: its own page says what is missing. One that is sold is never an answer.
	var known = {}, knownFor = "";
	function answers(i) {
		var c = machine(), t = truck(), key, r, o, m;
		if (!c && !t || sold(i)) return {};
		key = JSON.stringify([B.state, U.si]);
		if (key != knownFor) { known = {}; knownFor = key; }
		key = [D.model[i], D.empty[i], D.tongue[i], D.load[i], D.weighed[i]].join(" ");
		if (known[key]) return known[key];
		r = rig(i);
		o = { open: !r };
		if (r && c) o.m = m = S.carry(r, [c], U.si);
		if (r && t) o.t = S.pull(r, t, m && m.sets.length ? S.loaded(r, m.sets) : null, D.law, U.si);
		return known[key] = o;
	}
	// fitting is the filter "only those that": it keeps a YES alone.
	function fitting() {
		var m = wanted.mine && machine(), t = wanted.pull && truck();
		if (!m && !t) return null;
		var f = function (i, otherwise) {
			var o = answers(i);
			if (o.open && otherwise) f.unknown++;
			if (m && (!o.m || o.m.is != "yes")) { f.by = "mine"; return false; }
			if (t && (!o.t || o.t.is != "yes")) { f.by = "pull"; return false; }
			return true;
		};
		f.unknown = 0;
		return f;
	}
	// told is what a card says about the machine and the truck: the answer, and its weakest part.
	function told(i) {
		var o = answers(i);
		return [["m", "bring machine"], ["t", "bring truck"]].map(function (x) {
			var v = o[x[0]], over, why;
			if (!v && o.open && B.state[x[0]]) v = { is: "unknown", word: S.say("word unknown"), needs: [{ text: S.say("need trailer") }] };
			if (!v) return "";
			over = v.limits && v.limits.filter(function (l) { return l.over; })[0];
			why = v.is == "unknown" ? v.needs[0] && v.needs[0].text : v.is == "no" ? v.clash || over && over.label + ", " + over.text : "";
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
	function sold(i) { return D.states[D.state[i]] == "sold"; }
	function priceText(i) {
		if (sold(i)) return D.phrases.sold;
		return D.price[i] ? D.says["price " + i] || "$" + group(D.price[i]) : D.phrases.ask;
	}
	function address(i) { return "u/" + D.stock[i].toLowerCase() + ".html"; }
	function stateText(i) { return D.states[D.state[i]] + ", " + D.conditions[D.worn[i]]; }
	function card(i) {
		var c = blank.cloneNode(true), m = D.model[i], get = function (name) { return c.querySelector("." + name); };
		// A part without a text is not on the card.
		function part(name, text, into) {
			if (text) fillIn(into ? get(name).querySelector(into) : get(name), text);
			else get(name).remove();
		}
		c.classList.toggle("gone", sold(i));
		view(c.querySelector("svg"), i);
		if (D.photos[i]) {
			var shot = document.createElement("img"), is = { "class": "shot", alt: "", width: 300, height: 200, loading: "lazy", src: D.photos[i] };
			for (var k in is) shot.setAttribute(k, is[k]);
			c.prepend(shot);
		}
		var a = c.querySelector("a");
		a.href = address(i);
		fillIn(a, D.titles[D.title[i]]);
		part("here", stateText(i));
		part("stock", D.stock[i]);
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
		pick.insertAdjacentHTML("beforebegin", told(i));
		return c;
	}
	// inPage are the cards in the page, by trailer: one whose words stay the same stays. New
	// ones come eight at a time, more than a screen holds, each batch in a frame of its own.
	var inPage, wordsFor, laid, LOT = 8;
	function lay(units) {
		var now = JSON.stringify([machine(), truck(), U.si]), made = document.createElement("ul"), keep = {}, at = list.firstElementChild, next;
		if (!inPage) {
			inPage = {};
			if (now == JSON.stringify([null, null, U.si])) [].forEach.call(list.children, function (c) { inPage[D.stock.indexOf(c.querySelector(".pick").value)] = c; });
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

	var NAMES = { load: "payload", words: "words", mine: "my machine", pull: "my truck" };
	function heading(name) {
		var c = chips.filter(function (x) { return x.dataset.f == name; })[0];
		return c ? c.closest("[aria-label]").getAttribute("aria-label").toLowerCase() : NAMES[name];
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
		if (amount(wanted.load)) out.push({ by: "load", text: "payload " + inUnits(wanted.load, "lb") + " or more", drop: { load: "" } });
		if (wanted.words) out.push({ by: "words", text: "“" + wanted.words + "”", drop: { words: "" } });
		if (wanted.mine && machine()) out.push({ by: "mine", text: "carries my machine, " + B.text("m"), drop: { mine: "" } });
		if (wanted.pull && truck()) out.push({ by: "pull", text: "my truck can pull it", drop: { pull: "" } });
		return out;
	}
	function inUnits(text, unit) { return group(shownAs(amount(text), unit)) + " " + (U.si ? METRIC[unit] : unit); }
	function dropButton(a, text) {
		var b = document.createElement("button");
		b.type = "button";
		b.className = "drop";
		b.textContent = text || a.text;
		if (!text) b.setAttribute("aria-label", "Leave out " + a.text);
		b.onclick = function () { go(a.drop, false, tell); };
		return b;
	}

	function needs() {
		var parts = [];
		wanted.words && wordsOf(wanted.words).forEach(function (w) { var p = partOf(w); if (parts.indexOf(p) < 0) parts.push(p); });
		return { statics: !S && (wanted.mine || wanted.pull), parts: parts };
	}
	function draw(then) {
		wanted = read();
		if (wanted.words) wanted.words = wanted.words.replace(/\+/g, " ");
		fill();
		press();
		var any = Object.keys(wanted).length > (wanted.bring ? 1 : 0);
		if (!any && !shown && !D) return;
		ready(function () {
			var n = needs(), paths = n.parts.length ? [panel.dataset.search].concat(n.parts) : [];
			all(paths, function () {
				(n.statics ? begin : soon)(function () {
					show();
					if (then) then();
				});
			});
		});
	}
	function all(paths, then) {
		if (!paths.length) return then();
		load(paths[0], function () { all(paths.slice(1), then); });
	}
	function show() {
		texts.found = wanted.words ? search(wanted.words) : null;
		var found = find(), n = found.hits.length, at = Math.min(amount(wanted.from), Math.max(0, n - 1));
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
		say((n == N ? some(N, "trailer", "trailers") : some(n, "trailer", "trailers") + " " + matching(n == 1) + ", of " + group(N) + " in all") + "." +
			(n > STEP ? " Showing " + group(from + 1) + " to " + group(to) + "." : "") +
			(found.unknown ? " " + some(found.unknown, "more trailer is", "more trailers are") + " missing a measurement that this needs. Call us about " + (found.unknown == 1 ? "it." : "them.") : ""));
		picked.textContent = "";
		now.forEach(function (a) { picked.appendChild(dropButton(a)); });
		if (now.length > 1) picked.appendChild(dropButton({ drop: nothing() }, "Clear all"));
		lay(found.hits.slice(from, to));
		shown = true;
		if (!n) relax(now, found.alone);
		more.hidden = to >= n;
		more.textContent = "Show " + Math.min(STEP, n - to) + " more";
		less.hidden = !from;
		compare();
	}
	more.onclick = function () { turn(to, STEP); };
	less.onclick = function () { turn(from, 0); };
	// turn shows the screen from a number on, and goes to the card that comes first in it.
	function turn(start, nth) {
		go({ from: String(start) }, false, function () {
			var c = list.children[nth];
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
	function matching(one) {
		var m = wanted.mine && machine(), t = wanted.pull && truck();
		if (asked().some(function (a) { return a.by != "mine" && a.by != "pull"; }) || !m && !t) return one ? "matches" : "match";
		if (m) return t ? "can carry it, and your truck can pull " + (one ? "it" : "them") : "can carry it";
		return "your truck can pull";
	}
	// relax says which of the things asked for to give up.
	function relax(now, alone) {
		var best = "";
		for (var by in alone) if (!best || alone[by] > alone[best]) best = by;
		var li = document.createElement("li");
		li.className = "empty";
		if (best) {
			li.textContent = "No trailer here matches all of that. Without “" + heading(best) + "”, " + some(alone[best], "does", "do") + ": ";
			var drop = {};
			drop[best] = "";
			li.appendChild(dropButton({ drop: drop }, "Leave out " + heading(best)));
		} else {
			li.textContent = "No trailer here matches that, even with one thing left out. ";
			li.appendChild(dropButton({ drop: nothing() }, "Clear all"));
		}
		list.appendChild(li);
	}

	// ---- words: MiniSearch over an index that is made already (internal/pagedata/searchwords.go)

	var indexes = {};
	function wordsOf(text) { return text.toLowerCase().split(/[\n\r\p{Z}\p{P}]+/u).filter(Boolean).slice(0, 8); }
	function parts() { return texts.parts = texts.parts || JSON.parse(panel.dataset.words); }
	function partOf(word) {
		var p = parts(), at = 0;
		for (var i = 1; i < p.length; i++) if (p[i][0] <= word) at = i;
		return p[at][1];
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
	// search scores the trailers that have every word, or one that begins with it or is close.
	function search(text) {
		var found = null;
		wordsOf(text).forEach(function (w) {
			var next = {}, index = indexes[partOf(w)];
			index.search(w, {
				prefix: true, fuzzy: w.length > 4 && !/\d/.test(w) ? 1 : false, boost: { name: 6, kit: 2 }, weights: { prefix: .6, fuzzy: .2 },
				bm25: { k: 1.2, b: 0, d: .5 }, tokenize: function (s) { return [s]; }
			}).forEach(function (r) {
				if (!found || found[r.id]) next[r.id] = r.score + (found ? found[r.id] : 0);
			});
			found = next;
		});
		return found;
	}

	// ---- the forms

	var FIELDS = { load: byId("load"), words: byId("words") }, IN = { load: "lb" };
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
			var text = FIELDS[k].value.trim(), n = amount(text);
			// The address has what is asked for in pounds, feet and inches.
			type(k, IN[k] && U.si && n ? String(n / PER[IN[k]]) : text);
		});
	});
	function fill() {
		for (var k in FIELDS) if (FIELDS[k] != document.activeElement) FIELDS[k].value = IN[k] && amount(wanted[k]) ? shownAs(amount(wanted[k]), IN[k]) : wanted[k] || "";
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
			}, function () { say("This part did not load. Try again when you have signal. The list below is complete."); });
		});
	}
	var only = { m: byId("only-mine"), t: byId("only-pull") }, flags = { m: "mine", t: "pull" };
	function bringing() {
		[["mine", "m", "bring machine"], ["mytruck", "t", "bring truck"]].forEach(function (x) {
			var o = only[x[1]];
			B.label(byId(x[0]), x[1], x[2]);
			o.hidden = !(x[1] == "m" ? machine() : truck());
			set(o, "aria-pressed", !!wanted[flags[x[1]]]);
		});
	}
	function brought() {
		bringing();
		ready(show);
	}
	[["mine", "m"], ["mytruck", "t"]].forEach(function (x) {
		byId(x[0]).querySelector(".change").onclick = function () {
			begin(function () {
				B.open(byId(x[0]), x[1], function (which, bad) {
					wrong[which] = bad;
					brought();
				}, bringing);
			});
		};
		only[x[1]].onclick = function () {
			var change = {};
			change[flags[x[1]]] = wanted[flags[x[1]]] ? "" : "1";
			go(change);
		};
	});
	document.addEventListener("brought", function () { begin(brought); });
	// What was typed before is there when the page is idle.
	window.addEventListener("load", function () {
		var kept;
		try { kept = localStorage.getItem("tarepage-machine") || localStorage.getItem("tarepage-truck"); } catch (e) { /* keeps nothing */ }
		if (kept || /[#&]bring=/.test(location.hash)) (window.requestIdleCallback || setTimeout)(function () { begin(brought); });
	});

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
		else return say("You can compare four at a time. Take one out first.");
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
			(p.length > 1 ? '<button type="button" class="do" id="do">Compare ' + p.length + "</button>" : "<span>Choose one more to compare.</span>") +
			'<button type="button" class="drop" id="undo">Clear</button>';
		if (p.length > 1) byId("do").onclick = function () { go({ compare: "1", from: wanted.from }, false, function () { versus.focus(); }); };
		byId("undo").onclick = function () { go({ pick: "", compare: "", from: wanted.from }, false, tell); };
		root.classList.toggle("comparing", !!on);
		versus.hidden = !on;
		versus.innerHTML = on ? table(p) : "";
		U.show(versus);
		if (on) byId("back").onclick = function () { go({ compare: "", from: wanted.from }, false, tell); };
	}
	function table(p) {
		var rows = [["Price", priceText], ["Is it here?", stateText], ["Payload", loadText, function (i) { return data(escape(loadText(i)), escape(loadSI(i))); }], ["GVWR", function (i) { return M.gvwr[D.model[i]]; }],
			["Empty", emptyText, emptyBoth],
			["Length of what carries the load", function (i) { return M.long[D.model[i]]; }]];
		D.rows.forEach(function (name, k) { rows.push([name, function (i) { return M.facts[D.model[i]][k]; }]); });
		rows = rows.map(function (r) {
			var texts = p.map(function (i) { return r[1](i) || "not stated"; });
			return [r[0], texts, texts.map(function (t, k) { return r[2] && t != "not stated" ? r[2](p[k]) : both(escape(t)); })];
		});
		rows = rows.filter(function (r) { return r[1].some(function (t) { return t != "not stated"; }); });
		function part(title, differ) {
			var some = rows.filter(function (r) { return r[1].some(function (v) { return v != r[1][0]; }) == differ; });
			return some.length ? '<tr class="part"><th scope="rowgroup" colspan="' + (p.length + 1) + '">' + title + "</th></tr>" + some.map(function (r) {
				return '<tr><th scope="row">' + r[0] + "</th>" + r[2].map(function (v) { return "<td>" + v + "</td>"; }).join("") + "</tr>";
			}).join("") : "";
		}
		return '<button type="button" class="drop" id="back">Back to the list</button><h2>Side by side</h2><p class="scale">All drawn to the same scale. Differences come first.</p>' +
			'<table class="of' + p.length + '"><thead><tr><th scope="col">Trailer</th>' + p.map(function (i) {
				var s = view(blank.querySelector("svg").cloneNode(true), i);
				return '<th scope="col">' + (s ? s.outerHTML : "") + '<a href="' + escape(address(i)) + '">' + both(escape(D.titles[D.title[i]])) + "</a> " + escape(D.stock[i]) + "</th>";
			}).join("") + "</tr></thead><tbody>" + part("Different", true) + part("The same", false) + "</tbody></table>";
	}

	document.addEventListener("units", function () {
		if (shown) soon(show);
		if (S) bringing();
		fill();
	});
	// Back and an address that somebody types are drawn at once; a tap that still waits is dropped.
	["popstate", "hashchange"].forEach(function (e) {
		window.addEventListener(e, function () { waits = null; draw(); });
	});
	draw();
	// The data comes after everything else, before somebody needs it.
	window.addEventListener("load", function () { setTimeout(function () { ready(function () {}); }, 200); });
})();
