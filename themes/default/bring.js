// What a customer brings: a machine and a truck. Both are kept on this phone (localStorage)
// for every page of the yard, and travel in an address after "#bring=", which never reaches
// the host. window.Bring has what is known now, in pounds and inches:
//   state    {m: {k, w, l, s (how wide), r, h, b, c, o, u, fl where the class filled l, and y where what is doubtful was said to be right} or null, n, o and p: more machines, t: {keys of Statics.ASKED} or null, b: {keys of Statics.BARN} or null}
//   start(paths, then, failed)    loads the calculators, once
//   MACHINES                      the keys of the machines, front to rear
//   machine(which)                the machine "m", or one of the others, for Statics
//   machines(wrong)               those that are known, front to rear, without those of wrong
//   open(ticket, which, told, then)  opens a ticket's form of a key of the state, or shuts it, then
//                                 calls then; told(which, bad) is called where something changed,
//                                 bad says what typed cannot be read, "" where all can
//   again(ticket, which, told)    makes an open form again, for other units
//   label(ticket, which, key)     writes what is known into the ticket's first line
//   text(which)                   what is known, in one line
//   address()                     this page with what is brought
window.Bring = (function () {
	"use strict";
	var KEEP = { m: "tarepage-machine", n: "tarepage-second", o: "tarepage-third", p: "tarepage-fourth", t: "tarepage-truck", b: "tarepage-barn" }, U = window.units, S, B = { state: {}, MACHINES: ["m", "n", "o", "p"] };
	function make(tag, into, text, attributes) {
		var e = document.createElement(tag);
		if (text) e.textContent = text;
		for (var k in attributes) e.setAttribute(k, attributes[k]);
		if (into) into.appendChild(e);
		return e;
	}
	B.make = make;

	// What was kept or sent is not trusted: numbers stay numbers, and names are those of a list.
	function clean(v) {
		if (!v || typeof v != "object") return null;
		var out = {}, any = false;
		for (var k in v) {
			var is = v[k];
			if (!/^[a-zA-Z]{1,12}$/.test(k)) continue;
			// An older page filled in the usual weight of a class.
			if (k == "w" && v.fw || k == "fw") continue;
			if (typeof is == "number" && isFinite(is) && Math.abs(is) < 1e9 || is === true ||
				k == "kind" && /^(receiver|gooseneck|fifth-wheel|pintle)$/.test(is)) { out[k] = is; any = true; }
		}
		return any ? out : null;
	}
	function parsed(text) { try { return JSON.parse(text); } catch (e) { return null; } }
	// sent says what came with the address and is not what this phone keeps.
	var sent = {};
	function recall() {
		var at = /[#&]bring=([^&]*)/.exec(location.hash), all = null;
		try { all = at && parsed(decodeURIComponent(at[1])); } catch (e) { /* not an address of ours */ }
		Object.keys(KEEP).forEach(function (k) {
			var own = kept(k), other = all && clean(all[k]);
			sent[k] = other && JSON.stringify(other) != JSON.stringify(own);
			B.state[k] = other || own;
		});
	}
	function kept(k) {
		try { return clean(parsed(localStorage.getItem(KEEP[k]))); } catch (e) { return null; /* a phone that keeps nothing */ }
	}
	B.keep = function (k, v) {
		sent[k] = false;
		B.state[k] = v = clean(v);
		try {
			if (v) localStorage.setItem(KEEP[k], JSON.stringify(v));
			else localStorage.removeItem(KEEP[k]);
		} catch (e) { /* a phone that keeps nothing */ }
	};
	B.address = function () {
		var s = {}, k;
		for (k in KEEP) if (B.state[k]) s[k] = B.state[k];
		return location.href.replace(/#.*/, "") + (Object.keys(s)[0] ? "#bring=" + encodeURIComponent(JSON.stringify(s)) : "");
	};
	recall();
	window.addEventListener("hashchange", function () {
		if (!/[#&]bring=/.test(location.hash)) return;
		recall();
		document.dispatchEvent(new Event("brought"));
	});

	var asked = 0, waiting = [];
	B.start = function (paths, then, failed) {
		if (S) return then();
		waiting.push([then, failed]);
		if (asked) return;
		asked = 1;
		(function next(left) {
			if (!left.length) {
				S = window.Statics;
				return waiting.splice(0).forEach(function (w) { w[0](); });
			}
			var s = make("script", null, "", { src: left[0] });
			s.onload = function () { next(left.slice(1)); };
			s.onerror = function () {
				asked = 0;
				waiting.splice(0).forEach(function (w) { if (w[1]) w[1](); });
			};
			document.head.appendChild(s);
		})(paths);
	};

	function row(which) { return B.state[which] && window.MACHINES[B.state[which].k] || null; }
	B.machine = function (which) {
		var m = B.state[which || "m"], r = row(which || "m"), c;
		if (!m || !(m.w > 0) || !(m.l > 0)) return null;
		c = S.machine(r, m.fl ? null : m.l, !!m.r);
		c.w = m.w;
		c.shape = r ? r[9] : "";
		c.doubt = m.y ? "" : S.doubt(r, m, U.si);
		if (m.s) c.wide = [m.s, m.s];
		c.rear = !!m.r;
		c.base = m.b;
		c.under = m.c;
		c.over = m.o;
		c.tip = m.u;
		c.tall = m.h;
		return c;
	};
	B.machines = function (wrong) {
		return wrong.m ? [] : B.MACHINES.map(function (k) {
			// One without a weight or a length is there too, so that no answer leaves it out.
			var c = !wrong[k] && B.state[k] && (B.machine(k) || { w: 0, L: 0 });
			if (c) c.key = k;
			return c;
		}).filter(Boolean);
	};
	B.text = function (which) {
		var v = B.state[which], si = U.si, out = [];
		if (!v) return "";
		if (which == "b") S.BARN.forEach(function (k) { if (v[k]) out.push(S.length(v[k], si)); });
		else if (which != "t") {
			if (row(which)) out.push(row(which)[0]);
			if (v.w) out.push(S.weight(v.w, si));
			if (v.l) out.push(S.length(v.l, si));
			if (v.s) out.push(S.say("bring wide", S.length(v.s, si)));
			if (which == "m") return [out.join(", ")].concat(B.MACHINES.slice(1).map(B.text)).filter(Boolean).join(" + ");
		} else {
			if (v.kind) out.push(S.say("kind " + v.kind));
			if (v.gvwr) out.push("GVWR " + S.weight(v.gvwr, si));
		}
		return out.join(", ");
	};

	// A field shows under it what it understood, or why it cannot be read.
	// Its tell writes a value that nobody typed. A length has the keyboard of letters: on the one of
	// digits nobody can write 11 ft 6 in.
	function field(box, id, name, hint, unit, value, more, set) {
		var l = make("label", box, "", { "for": id }), i, said;
		make("span", l, name);
		make("small", l, hint || "");
		var line = make("span", box, "", { "class": "line" });
		i = make("input", line, "", { id: id, inputmode: more.signed || unit != "lb" ? "text" : "decimal", autocomplete: "off", enterkeyhint: "next", "aria-describedby": id + "-is" });
		make("span", line, "", { "class": "unit" }).textContent = S.unit({ unit: unit }, U.si);
		said = make("p", box, "", { id: id + "-is", "class": "understood", "aria-live": "polite" });
		function written(v) { return unit == "lb" ? S.weight(v, U.si) : S.length(v, U.si); }
		if (value != null) i.value = written(value);
		// What is typed takes the place of what is there.
		i.onfocus = function () { i.select(); };
		i.tell = function (v) { said.textContent = i.value = written(v); };
		// The phone's key for the next field goes there, past fields that are folded away.
		i.onkeydown = function (e) {
			if (e.key != "Enter") return;
			var all = [].filter.call(i.closest("[id$=form]").querySelectorAll("input, select"), function (o) { return o.offsetParent; }), next = all[all.indexOf(i) + 1];
			if (next) next.focus(); else i.blur();
		};
		i.addEventListener("input", function () {
			var r = S.read(i.value, { name: name, unit: unit, signed: more.signed, zero: more.zero }, U.si);
			said.textContent = "";
			i.removeAttribute("aria-invalid");
			if (r.is == "ok") said.textContent = r.echo;
			if (r.is == "bad" || r.is == "ask") {
				i.setAttribute("aria-invalid", "true");
				said.textContent = r.problem;
			}
			if (r.is == "ask") r.choices.forEach(function (c) {
				make("button", said, c.text, { type: "button" }).onclick = function () {
					i.value = c.text;
					i.dispatchEvent(new Event("input"));
					i.focus();
				};
			});
			set(r.is == "ok" ? r.value : null, r.problem);
		});
		return i;
	}

	B.label = function (ticket, which, key) {
		var b = ticket.querySelector(".change");
		ticket.classList.toggle("open", !formOf(ticket).hidden);
		ticket.querySelector("span").textContent = S.say(sent[which] ? "bring sent" : key) + (B.state[which] ? ": " + B.text(which) : "");
		b.textContent = S.say(b.getAttribute("aria-expanded") == "true" ? "bring done" : B.state[which] ? "bring change" : "bring fill");
		// All of a closed ticket opens it.
		ticket.onclick = function (e) { if (formOf(ticket).hidden && !e.target.closest("a, button")) b.click(); };
		ticket.style.cursor = formOf(ticket).hidden ? "pointer" : "";
	};
	function formOf(ticket) { return ticket.querySelector("[id$=form]"); }
	B.open = function (ticket, which, told, then) {
		var f = formOf(ticket), open = f.hidden;
		f.hidden = !open;
		ticket.querySelector(".change").setAttribute("aria-expanded", open);
		then();
		f.textContent = "";
		if (!open) return;
		B.again(ticket, which, told);
		f.querySelector("select, input").focus();
	};
	B.again = function (ticket, which, told) {
		if (!formOf(ticket).hidden) form(formOf(ticket), which, function (bad) { told(which, bad); });
	};

	function form(box, which, changed) {
		box.textContent = "";
		var v = {}, was = B.state[which], k, later, sure, wrong = {};
		for (k in was) v[k] = was[k];
		// No answer is given while something typed cannot be read. What was said to be right was said of
		// other numbers.
		function told(key, problem) {
			wrong[key] = problem;
			if (key != "y") delete v.y;
			clearTimeout(later);
			later = setTimeout(function () {
				asks();
				B.keep(which, v);
				changed(Object.keys(wrong).map(function (k) { return wrong[k]; }).filter(Boolean)[0] || "");
			}, 120);
		}
		function asks() {
			if (sure) sure.hidden = !v.y && !S.doubt(window.MACHINES[v.k], v, U.si);
		}
		function entry(into, key, name, hint, unit, more) {
			return field(into, which + "-" + key, name, hint, unit, v[key], more, function (n, problem) {
				if (n == null) delete v[key]; else v[key] = n;
				if (key == "l") delete v.fl;
				told(key, problem);
			});
		}
		function tick(into, key, name, hint) {
			var l = make("label", into, "", { "class": "tick" }), i = make("input", l, "", { type: "checkbox", id: which + "-" + key });
			make("span", l, name);
			if (hint) make("small", l, hint);
			i.checked = !!v[key];
			i.onchange = function () {
				if (i.checked) v[key] = true; else delete v[key];
				told(key);
			};
		}
		function choose(into, key, name, hint, options) {
			var l = make("label", into, "", { "for": which + "-" + key }), s = make("select", into, "", { id: which + "-" + key });
			make("span", l, name);
			if (hint) make("small", l, hint);
			options.forEach(function (o) { make("option", s, o[1], { value: o[0] }); });
			s.value = v[key] == null ? "" : v[key];
			return s;
		}
		if (which == "b") S.BARN.forEach(function (k) { entry(box, k, S.say("barn " + k), "", "ft", {}); });
		else if (which != "t") {
			var pick = choose(box, "k", S.say("bring kind"), "", [["", S.say("bring other")]].concat(window.MACHINES.map(function (m, i) { return [i, m[0]]; })));
			var about = make("p", box, "", { "class": "understood" });
			entry(box, "w", S.say("bring weight"), S.say("bring weight at"), "lb", {});
			var l = entry(box, "l", S.say("bring length"), "", "ft", {});
			entry(box, "s", S.say("bring width"), S.say("bring width at"), "in", {});
			tick(box, "r", S.say("bring rear"));
			entry(box, "h", S.say("bring height"), S.say("bring height at"), "ft", {});
			sure = make("div", box);
			tick(sure, "y", S.say("bring sure"));
			asks();
			var way = make("details", box);
			make("summary", way, S.say("bring way"));
			["b", "c", "o", "u"].forEach(function (k) { entry(way, k, S.say("way " + k), S.say("way " + k + " at"), "in", { zero: k == "c" || k == "u" }); });
			function tell(m) { about.textContent = m ? S.say("bring class", S.weight(m[1], U.si), S.weight(m[3], U.si), S.length(m[11], U.si), S.length(m[12], U.si)) : ""; }
			pick.onchange = function () {
				var m = window.MACHINES[pick.value];
				if (!m) delete v.k;
				else {
					v.k = +pick.value;
					// What was typed by hand is the customer's. The longest of a class is safe for all of it, but
					// no weight is: the customer types that.
					if (!l.value.trim() || v.fl) {
						l.tell(v.l = m[4] * 12);
						v.fl = true;
					}
				}
				tell(m);
				told("k");
			};
			tell(window.MACHINES[v.k]);
		} else {
			var more = make("details", null);
			make("summary", more, S.say("bring more"));
			S.ASKED.forEach(function (f) {
				var into = f[2] == "need" ? box : more, name = S.say("truck " + f[0]), hint = S.say("truck " + f[0] + " at");
				if (f[1] == "yes") return tick(into, f[0], name, hint);
				if (f[1] != "kind") return entry(into, f[0], name, hint, f[1], { signed: f[0] == "behind", zero: !f[3] });
				var s = choose(into, f[0], name, hint, [["", S.say("bring choose")]].concat(S.KINDS.map(function (k) { return [k, S.say("kind " + k)]; })));
				s.onchange = function () {
					if (s.value) v.kind = s.value; else delete v.kind;
					told("kind");
				};
			});
			box.appendChild(more);
		}
		var line = make("p", box, "", { "class": "turn" });
		make("button", line, S.say(sent[which] ? "bring mine" : "bring clear"), { type: "button" }).onclick = function () {
			B.keep(which, sent[which] ? kept(which) : null);
			changed("");
			form(box, which, changed);
			box.querySelector("input, select").focus();
		};
		make("small", box, S.say("bring stays"));
	}
	return B;
})();
