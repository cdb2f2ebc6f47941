// "Save for the lot": asks for the worker when a customer says so, and takes it back. It
// works from a host alone; a page out of a folder needs no saving.
(function () {
	"use strict";
	var box = document.getElementById("lot"), phone = navigator.serviceWorker;
	if (!box || !phone || !/^http/.test(location.protocol)) return;
	var button = box.querySelector("button"), told = box.querySelector("span"), has;
	function show(is, text) {
		has = is;
		box.hidden = false;
		button.textContent = is ? "Forget the saved copy" : "Save for the lot";
		told.textContent = text;
	}
	button.onclick = function () {
		button.disabled = true;
		(has ? phone.getRegistration().then(function (r) { return r && r.unregister(); }).then(function () { return caches.keys(); }).then(function (names) {
			return Promise.all(names.filter(function (n) { return n.indexOf("lot-") == 0; }).map(function (n) { return caches.delete(n); }));
		}).then(function () { show(false, "Forgotten."); }) :
			phone.register("worker.js", { updateViaCache: "none" }).then(function () { return phone.ready; }).then(function () {
				show(true, "Saved on this phone for now: this page and the trailers that you open.");
			})).catch(function () { told.textContent = "That did not work here. The page works without it."; }).then(function () { button.disabled = false; });
	};
	phone.getRegistration().then(function (r) { show(!!r, r ? "Saved on this phone for now." : "This page and the trailers that you open, for where there is no signal."); });
})();
