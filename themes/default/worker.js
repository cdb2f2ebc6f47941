// What a phone keeps for the lot (internal/render/lot.go writes KEEP and COPY before
// this). Network first: a kept page is shown where the network fails or is slow, and says
// from when it is. It never touches a recording, another host or what is not a plain GET.
(function () {
	"use strict";
	var SEEN = "lot-seen", MOST = 60, LARGEST = 250000, PATIENCE = 2500;
	var here = self.registration.scope;

	self.addEventListener("install", function (e) {
		e.waitUntil(caches.open(COPY).then(function (c) {
			return Promise.all(KEEP.map(function (path) {
				return fetch(here + path, { cache: "no-cache" }).then(function (r) {
					if (!r.ok) throw new Error(path + " did not come");
					return dated(r).then(function (d) { return c.put(here + path, d); });
				});
			}));
		}));
	});
	self.addEventListener("activate", function (e) {
		e.waitUntil(caches.keys().then(function (names) {
			return Promise.all(names.filter(function (n) { return /^lot-/.test(n) && n != COPY && n != SEEN; }).map(function (n) { return caches.delete(n); }));
		}));
	});

	// dated is an answer with the time at which it came.
	function dated(r) {
		return r.blob().then(function (body) {
			var h = new Headers(r.headers);
			h.set("x-kept", new Date().toISOString());
			return new Response(body, { status: 200, headers: h });
		});
	}
	function keep(url, r) {
		if (!r.ok || r.type != "basic" || +r.headers.get("content-length") > LARGEST) return;
		return dated(r.clone()).then(function (d) {
			return caches.open(SEEN).then(function (c) {
				// The last one seen is the last of the keys; the first ones go.
				return c.delete(url).then(function () { return c.put(url, d); }).then(function () { return c.keys(); }).then(function (keys) {
					return Promise.all(keys.slice(0, Math.max(0, keys.length - MOST)).map(function (k) { return c.delete(k); }));
				});
			});
		});
	}
	function kept(url) {
		return caches.open(SEEN).then(function (c) { return c.match(url); }).then(function (r) {
			return r || caches.open(COPY).then(function (c) { return c.match(url); });
		});
	}
	// stale is a kept page with its age said at its head.
	function stale(r) {
		return r.text().then(function (text) {
			var at = new Date(r.headers.get("x-kept")).toLocaleString("en-US", { month: "short", day: "numeric", hour: "numeric", minute: "2-digit" });
			var h = new Headers({ "content-type": "text/html; charset=utf-8" });
			return new Response(text.replace(/<main[^>]*>/, function (main) {
				return main + '<p class="safety" id="stale" role="status">Saved copy from ' + at + ". Price and availability may have changed.</p>";
			}), { headers: h });
		});
	}
	function page(e, url) {
		var asked = fetch(e.request).then(function (r) {
			e.waitUntil(Promise.resolve(keep(url, r)));
			return r;
		});
		return kept(url).then(function (old) {
			if (!old) return asked;
			return Promise.race([asked, new Promise(function (_, no) { setTimeout(no, PATIENCE); })]).catch(function () { return stale(old); });
		});
	}
	function file(e, url) {
		return kept(url).then(function (old) {
			return old || fetch(e.request).then(function (r) {
				e.waitUntil(Promise.resolve(keep(url, r)));
				return r;
			});
		});
	}
	self.addEventListener("fetch", function (e) {
		var r = e.request, url = r.url.replace(/[?#].*/, "");
		if (r.method != "GET" || url.indexOf(here) != 0 || r.headers.has("range") || r.destination == "video" || r.destination == "audio" || /\.(mp4|webm|mov|m4v)$/i.test(url)) return;
		if (url == here) url += "index.html";
		if (r.mode == "navigate") e.respondWith(page(e, url));
		// A file whose name changes with its bytes is never stale.
		else if (/-[0-9a-f]{8}\.[a-z0-9]+$/.test(url)) e.respondWith(file(e, url));
	});
})();
