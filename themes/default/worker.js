// What a phone keeps for the lot (internal/render/lot.go writes PHRASES, KEEP and COPY before
// this). Network first, and past the phone's own cache: a kept page is shown where the network
// fails or is slow, and says in large type of which day it is. So does a page that a cache on
// the way kept for more than a day. A page that the yard took down is shown from the copy, as
// no longer listed. It never touches a recording, another host or what is not a plain GET.
(function () {
	"use strict";
	var CHOSEN = "lot-chosen", SEEN = "lot-seen", DAY = 864e5, MOST = 60, LARGEST = 250000, PATIENCE = 2500;
	var here = self.registration.scope;

	self.addEventListener("install", function (e) {
		e.waitUntil(caches.open(COPY).then(function (c) {
			return Promise.all(KEEP.map(function (path) {
				return fetch(here + path, { cache: "no-cache" }).then(function (r) {
					if (!r.ok) throw new Error(path);
					return dated(r).then(function (d) { return c.put(here + path, d); });
				});
			}));
		}));
	});
	self.addEventListener("activate", function (e) {
		e.waitUntil(caches.keys().then(function (names) {
			return Promise.all(names.filter(function (n) { return /^lot-/.test(n) && n != COPY && n != SEEN && n != CHOSEN; }).map(function (n) { return caches.delete(n); }));
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
	function say(key) {
		var blanks = arguments;
		return (key in PHRASES ? PHRASES[key] : key).replace(/\{(\d)\}/g, function (_, n) { return blanks[n]; });
	}
	// kept is the newest copy of a page or a file, and the cache that has it.
	function kept(url) {
		return Promise.all([CHOSEN, SEEN, COPY].map(function (name) {
			return caches.open(name).then(function (c) { return c.match(url, { ignoreVary: true }); }).then(function (r) { return r && { r: r, cache: name }; });
		})).then(function (all) {
			return all.filter(Boolean).sort(function (a, b) { return (b.r.headers.get("x-kept") || "") > (a.r.headers.get("x-kept") || "") ? 1 : -1; })[0];
		});
	}
	// renew makes a copy of a page that the customer chose newer, or marks it as gone.
	function renew(url, r, gone) {
		return caches.open(CHOSEN).then(function (c) {
			return c.match(url, { ignoreVary: true }).then(function (old) {
				if (!old) return;
				var h = new Headers(old.headers);
				h.delete("x-gone");
				if (gone) h.set("x-gone", old.headers.get("x-gone") || gone);
				else h.set("x-kept", new Date().toISOString());
				return (gone ? old : r).blob().then(function (body) { return c.put(url, new Response(body, { headers: h })); });
			});
		});
	}
	function written(at, more) {
		var is = { month: "long", day: "numeric" };
		for (var k in more) is[k] = more[k];
		return new Date(at).toLocaleString("en-US", is);
	}
	// stale is a page with its age, or that it is gone, said at its head in large type.
	function stale(r, at, gone) {
		return r.text().then(function (text) {
			var time = written(at, { hour: "numeric", minute: "2-digit" });
			var says = gone ? "<b>" + say("stale gone", written(gone)) + "</b> " + say("stale sold", time) : "<b>" + say("stale day", time) + "</b> " + say("stale may");
			if (gone) text = text.replace(/<html/, '<html class="delisted"');
			return new Response(text.replace(/<main[^>]*>/, function (main) { return main + '<p id="stale" role="status">' + says + "</p>"; }),
				{ headers: { "content-type": "text/html; charset=utf-8" } });
		});
	}
	function page(e, url) {
		var asked = fetch(e.request.url, { cache: "no-cache" }).then(function (r) {
			if (r.redirected) return Response.redirect(r.url);
			var gone = r.status == 404 || r.status == 410;
			if (gone) return kept(url).then(function (old) {
				if (!old) return r;
				var at = old.r.headers.get("x-gone") || new Date().toISOString();
				e.waitUntil(renew(url, null, at));
				return stale(old.r, old.r.headers.get("x-kept"), at);
			});
			var date = Date.parse(r.headers.get("date"));
			if (r.ok && Date.now() - date > DAY) return stale(r, date);
			if (r.ok) e.waitUntil(Promise.all([keep(url, r), renew(url, r.clone())]));
			return r;
		});
		return kept(url).then(function (old) {
			if (!old) return asked;
			return Promise.race([asked, new Promise(function (_, no) { setTimeout(no, PATIENCE); })]).catch(function () {
				return stale(old.r, old.r.headers.get("x-kept"), old.r.headers.get("x-gone"));
			});
		});
	}
	function file(e, url) {
		return kept(url).then(function (old) {
			return old ? old.r : fetch(e.request).then(function (r) {
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
