// Two to four trailers side by side, differences first. The yard page (yard.js) loads this when
// somebody compares, and hands over Y: its data and how it writes them. It returns HTML.
window.COLUMN("compare", function (Y, p) {
	"use strict";
	var D = Y.D, M = Y.M, say = Y.say, escape = Y.escape, data = Y.data;
	function verdict(i, which) {
		var o = Y.answers(i), v = o[which], why = v && !Y.twice(o, v) && Y.whyOf(v);
		return v ? v.word + (why ? ": " + why : "") : "";
	}
	// added is a cell of what is loaded for the comparison: text and the same in metric units.
	function added(i, of) {
		var d = Y.added(i);
		return d && of(d) || ["", ""];
	}
	var none = say("compare none");
	// Each row has a name, its text, and the text with its metric form where that is known.
	function one(name, of) { return [name, of, function (i) { return Y.both(escape(of(i))); }]; }
	function pair(name, of) {
		return [name, function (i) { return added(i, of)[0]; }, function (i) { var x = added(i, of); return x[1] ? data(escape(x[0]), escape(x[1])) : escape(x[0]); }];
	}
	var rows = [one(say("bring machine"), function (i) { return verdict(i, "m"); }), one(say(Y.machine() && !Y.alone() ? "bring truck with" : "bring truck full"), function (i) { return verdict(i, "t"); }),
		one(say("compare price"), Y.price), one(say("compare here"), Y.state),
		[say("compare payload"), Y.load, function (i) { return data(escape(Y.load(i)), escape(Y.loadSI(i))) + " (" + escape(D.shares[D.share[i]]) + ")"; }], one(say("find gvwr"), function (i) { return M.gvwr[D.model[i]]; }),
		[say("compare empty"), Y.empty, Y.emptyBoth],
		[say("compare tongue"), function (i) { return D.weighed[i] ? Y.group(D.tongue[i]) + " lb" : ""; }, function (i) { return data(Y.group(D.tongue[i]) + " lb", Y.kg(D.tongue[i])); }]];
	Y.keys.forEach(function (k, at) { rows.push(pair(say("first " + k), function (d) { return d.f[at]; })); });
	rows.push(one(say("compare length"), function (i) { return M.long[D.model[i]]; }));
	D.rows.forEach(function (name, k) { rows.push(one(name, function (i) { return M.facts[D.model[i]][k]; })); });
	rows.push([say("compare cautions"), function (i) { return added(i, function (d) { return [d.c.map(function (c) { return c[0]; }).join(" ")]; })[0]; }, function (i) {
		return added(i, function (d) { return ["<ul>" + d.c.map(function (c) { return "<li>" + data(escape(c[0]), escape(c[1])) + "</li>"; }).join("") + "</ul>"]; })[0];
	}]);
	rows = rows.map(function (r) {
		var texts = p.map(function (i) { return r[1](i) || none; });
		return [r[0], texts, texts.map(function (t, k) { return t == none ? escape(none) : r[2](p[k]); })];
	});
	rows = rows.filter(function (r) { return r[1].some(function (t) { return t != none; }); });
	function part(title, differ) {
		var some = rows.filter(function (r) { return r[1].some(function (v) { return v != r[1][0]; }) == differ; });
		return some.length ? '<tr class="part"><th scope="rowgroup" colspan="' + (p.length + 1) + '">' + escape(title) + "</th></tr>" + some.map(function (r) {
			return '<tr><th scope="row">' + escape(r[0]) + "</th>" + r[2].map(function (v) { return "<td>" + v + "</td>"; }).join("") + "</tr>";
		}).join("") : "";
	}
	return '<button type="button" class="drop" id="back">' + escape(say("compare back")) + '</button><h2>' + escape(say("yard compare")) + '</h2><p class="scale">' + escape(say("compare scale")) + "</p>" +
		'<table class="of' + p.length + '"><thead><tr><th scope="col">' + escape(say("compare trailer")) + "</th>" + p.map(function (i) {
			return '<th scope="col"><a href="' + escape(Y.address(i)) + '">' + Y.both(escape(D.titles[D.title[i]])) + "</a> " + escape(D.stock[i]) + "</th>";
		}).join("") + '</tr></thead><tbody><tr class="faces"><th scope="row">' + escape(say("compare picture")) + "</th>" + p.map(function (i) {
			return "<td>" + Y.picture(i) + "</td>";
		}).join("") + "</tr>" + part(say("compare different"), true) + part(say("compare same"), false) + "</tbody></table>";
});
