(function () {
	"use strict";
	var v = document.getElementById("walk");
	if (!v) return;
	var fold = v.closest("details");
	function to(s) {
		if (fold) fold.open = true;
		v.currentTime = s;
	}
	function named() { var m = /^#t=([0-9]+)$/.exec(location.hash); if (m) to(+m[1]); }
	document.addEventListener("click", function (e) {
		var a = e.target.closest && e.target.closest("a[data-t]");
		if (!a || e.button || e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
		e.preventDefault();
		to(+a.getAttribute("data-t"));
		v.scrollIntoView({ block: "nearest" });
		v.focus({ preventScroll: true });
		var p = v.play();
		if (p) p.catch(function () {});
	});
	window.addEventListener("hashchange", named);
	named();
})();
