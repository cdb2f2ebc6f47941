// The page of every figure has each quantity in metric units once, in a list at its end, and marks
// where quantities are with i elements (internal/render/metric.go). This gives each of them its
// metric form, as units.js expects it, which follows in the same file.
(function () {
	"use strict";
	var list = document.getElementById("metric");
	list = list ? JSON.parse(list.textContent) : {};
	[].forEach.call(document.querySelectorAll("i"), function (e) {
		var si = list[e.textContent];
		if (si) e.setAttribute("data-si", si);
	});
})();
