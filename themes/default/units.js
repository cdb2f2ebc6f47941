// One switch for every figure of the page: each is there in pounds and feet and again in
// metric units (data-si, or the value of a data element; internal/render/metric.go), and
// the two change places. The choice stays on this phone. Other scripts pass what they write
// to units.show, and get the event "units" when the choice changes.
window.units = (function () {
	"use strict";
	var KEEP = "tarepage-units", all = { si: false, show: show };
	function show(root) {
		if (all.si) swap(root);
	}
	function swap(root) {
		[].forEach.call(root.querySelectorAll("[data-si],data"), function (e) {
			var name = e.localName == "data" ? "value" : "data-si", text = e.textContent;
			e.textContent = e.getAttribute(name);
			e.setAttribute(name, text);
		});
	}
	function label() {
		[].forEach.call(document.querySelectorAll(".units"), function (b) {
			b.textContent = all.si ? "lb, ft" : "kg, m";
		});
	}
	function turn() {
		all.si = !all.si;
		swap(document);
		label();
	}
	all.label = label;
	try { if (localStorage.getItem(KEEP)) turn(); } catch (e) { /* a phone that keeps nothing */ }
	document.addEventListener("click", function (e) {
		if (!e.target.closest(".units")) return;
		turn();
		try {
			if (all.si) localStorage.setItem(KEEP, '"kg"');
			else localStorage.removeItem(KEEP);
		} catch (e) { /* likewise */ }
		document.dispatchEvent(new Event("units"));
	});
	return all;
})();
