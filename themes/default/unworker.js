// The yard keeps nothing on phones any more: whoever has a copy loses it, and the worker
// with it.
self.addEventListener("install", function () { self.skipWaiting(); });
self.addEventListener("activate", function (e) {
	e.waitUntil(caches.keys().then(function (names) {
		return Promise.all(names.filter(function (n) { return n.indexOf("lot-") == 0; }).map(function (n) { return caches.delete(n); }));
	}).then(function () { return self.registration.unregister(); }));
});
