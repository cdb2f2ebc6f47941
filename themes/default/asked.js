// asked reads the highest price, the load and the size out of what is searched for, {most: dollars,
// load: pounds, size: [width, length] in inches or null, words: the rest}, and what could be
// somebody's machine, {w, l, and k where a class is named} or null. 0 is not asked for. A number is one only as the fields read it:
// 10,000 or 10000, 9.5k, and never 10,00.
// S is Statics, and plain is yard.js's, which writes words alike. The yard page loads this with the
// first words that somebody looks for.
window.COLUMN("asked", function (S, text, plain) {
	"use strict";
	var say = S.say, KG = S.KG, MM = S.MM;
	var o = { most: 0, load: 0, size: null, machine: null, words: text }, rows, s, w, l;
	function units(of) { return of.map(function (u) { return say("words " + u); }).join(" ").replace(/ /g, "|"); }
	function any(key) { return "(?:" + say(key).replace(/[$|]/g, "\\$&").replace(/,/g, "|") + ")"; }
	var NUMBER = "(\\d{1,3}(?:,\\d{3})+|\\d+(?:\\.\\d+)?) ?(k|thousand)?", START = "(?:^|[\\s,;])", END = "(?=$|[\\s;?]|,(?!\\d))",
		BELOW = any("find below") + " ", DOLLARS = " ?" + any("find dollars"), UNIT = "[ -]?(" + units(["lb", "kg"]) + ")", OTHER = "(?![ -]?(?:" + units(["lb", "kg", "tonne", "ft", "in", "mm", "cm", "m"]) + "|t|tons?|gal|psi)(?![a-z]))", CARRY = any("find carry"), LEAST = "(?: " + any("find least") + ")?";
	rows = [
		["most", "(?:" + BELOW + ")?\\$ ?" + NUMBER], // under $10,000; $9.5k
		["most", "(?:" + BELOW + ")?" + NUMBER + DOLLARS], // 10,000 dollars
		["most", BELOW + NUMBER + OTHER], // under 10k
		["load", CARRY + LEAST + " " + NUMBER + UNIT], // carry at least 7,000 lb
		["load", NUMBER + UNIT + " " + CARRY] // 7,000 lb payload
	];
	function row(r) {
		var m = new RegExp(START + r[1] + END, "i").exec(o.words), n;
		if (!m || o[r[0]]) return;
		n = m[1].replace(/,/g, "") * (m[2] ? 1000 : 1);
		// Under 500 is a length or a year of a trailer, not its price.
		if (r[0] == "most" && n < 500) return;
		o[r[0]] = pounds(n, m[3] || "");
		o.words = (o.words.slice(0, m.index) + " " + o.words.slice(m.index + m[0].length)).trim();
	}
	rows.forEach(row);
	function pounds(n, unit) { return Math.round(((" " + say("words kg") + " ").indexOf(" " + unit.toLowerCase() + " ") >= 0 ? n / KG : n) * 100) / 100; }
	// 7x14 and 7' x 14' are feet; 83 x 14 is a width in inches.
	s = /(?:^|\s)(\d+(?:\.\d+)?)(?: ?(?:'|ft))? ?[x\u00d7] ?(\d+(?:\.\d+)?)(?: ?(?:'|ft))?(?=$|[\s,;?])/i.exec(o.words);
	if (s && (s[1] >= 3 && s[1] <= 10 || s[1] >= 36 && s[1] <= 120) && s[2] >= 4 && s[2] <= 60) {
		o.size = [s[1] * (s[1] < 36 ? 12 : 1), s[2] * 12];
		o.words = (o.words.slice(0, s.index) + " " + o.words.slice(s.index + s[0].length)).trim();
	}
	// A weight and a length together are those of a machine, as likely as a trailer's.
	w = new RegExp(START + NUMBER + UNIT + END, "i").exec(text);
	l = new RegExp(START + "(\\d+(?:\\.\\d+)?)[ -]?(?:(" + units(["m"]) + ")|(?:" + units(["ft"]) + ")(?: ?(\\d+) ?(?:" + units(["in"]) + "))?)" + END, "i").exec(text);
	o.machine = classOf(text);
	if (w && l) o.machine = { w: pounds(w[1].replace(/,/g, "") * (w[2] ? 1000 : 1), w[3]), l: l[2] ? l[1] * 1000 / MM : l[1] * 12 + +(l[3] || 0) };
	// A weight alone is what it must carry; next to other words it is looked for in the specs.
	// classOf is the machine that all words but one bare weight name, as MACHINES has them: "track loader
	// 9500" is the class of track loaders whose usual weight comes closest.
	function classOf(text) {
		var words = plain(text), weights = words.filter(function (w) { return /^\d{3,6}(\.\d+)?(lb|kg)?$/.test(w); }), names = words.filter(function (w) { return weights.indexOf(w) < 0; }), n, best = null, off;
		if (weights.length != 1 || !names[0]) return null;
		n = pounds(parseFloat(weights[0]), /kg$/.test(weights[0]) ? "kg" : "");
		(window.MACHINES || []).forEach(function (m, k) {
			var of = plain(m[0]);
			if (!names.every(function (w) { return of.indexOf(w) >= 0; }) || n < m[1] / 2 || n > m[3] * 2) return;
			var d = Math.abs(m[2] - n);
			if (best && off <= d) return;
			off = d;
			best = { k: k, w: n, l: m[4] * 12, fl: true };
		});
		return best;
	}
	var left = plain(o.words).filter(function (w) { return plain(say("find ignore") + " " + say("find carry").replace(/,/g, " ")).indexOf(w) < 0; });
	if (left.length == 1 && /^\d+(\.\d+)?(lb|kg)$/.test(left[0])) {
		row(["load", NUMBER + UNIT]);
		left = [];
	}
	if (!left.length && (o.most || o.load || o.size)) o.words = "";
	return o;
});
