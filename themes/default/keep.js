// "Save for the lot": keeps the yard page, what the customer brings, and the trailers that they
// chose, for places without a signal. A trailer's page has one button, "save"; the yard page
// has the section "kept" with everything that was chosen. Nothing is kept before somebody asks.
// Each kept page is in the cache CHOSEN with the time at which it came (x-kept), its name
// (x-name), the files that it shows (x-files), and the time at which the yard no longer listed
// it (x-gone). worker.js shows the copies. From a folder there is nothing to save, and without
// a secure address a browser keeps nothing: then all of this stays hidden.
(function () {
	"use strict";
	var phone = navigator.serviceWorker, WORDS = window.PHRASES || {}, CHOSEN = "lot-chosen";
	var byId = function (id) { return document.getElementById(id); };
	var save = byId("save"), box = byId("kept"), told = byId(save ? "bar-says" : "kept-says");
	if (!phone || !window.caches || !/^http/.test(location.protocol) || !save && !box) return;
	var home = new URL(document.querySelector(".yard-name").getAttribute("href"), location.href).href, root = home.replace(/[^\/]*$/, "");
	var here = location.href.replace(/[?#].*/, "");
	function say(key) {
		var blanks = arguments;
		return (key in WORDS ? WORDS[key] : key).replace(/\{(\d)\}/g, function (_, n) { return blanks[n]; });
	}
	function day(text) { return new Date(text).toLocaleDateString("en-US", { month: "long", day: "numeric" }); }
	function open() { return caches.open(CHOSEN); }
	function failed() { told.textContent = say("keep failed"); }
	function began() {
		return phone.register(root + "worker.js", { scope: root, updateViaCache: "none" }).then(function () { return phone.ready; });
	}
	// put keeps an answer with more headers.
	function put(c, url, r, more) {
		return r.blob().then(function (body) {
			var h = new Headers({ "content-type": r.headers.get("content-type") || "" });
			for (var k in more) if (more[k]) h.set(k, more[k]);
			return c.put(url, new Response(body, { status: 200, headers: h }));
		});
	}
	function bring(c, url) {
		return fetch(url, { cache: "no-cache" }).then(function (r) {
			if (!r.ok) throw new Error(url);
			return put(c, url, r, { "x-kept": new Date().toISOString() });
		});
	}
	function headers(r) {
		var out = {};
		["x-kept", "x-name", "x-files", "x-gone"].forEach(function (k) { out[k] = r.headers.get(k) || ""; });
		return out;
	}
	// chosen are the kept pages: {url, is, r}.
	function chosen() {
		return open().then(function (c) {
			return c.keys().then(function (keys) {
				return Promise.all(keys.map(function (k) { return c.match(k).then(function (r) { return { url: k.url, is: headers(r), r: r }; }); }));
			});
		}).then(function (all) { return all.filter(function (x) { return x.is["x-name"]; }); });
	}
	// drop forgets a page and the files that no other kept page shows.
	function drop(url) {
		return chosen().then(function (all) {
			var mine = all.filter(function (x) { return x.url == url; })[0], others = all.filter(function (x) { return x.url != url; });
			var used = others.map(function (x) { return x.is["x-files"]; }).join(" ").split(" ");
			return open().then(function (c) {
				var files = mine ? mine.is["x-files"].split(" ").filter(function (f) { return used.indexOf(f) < 0; }) : [];
				return Promise.all([url].concat(files).map(function (f) { return c.delete(f); }));
			});
		});
	}

	// ---- a trailer's page

	function shown(is) {
		save.hidden = false;
		save.setAttribute("aria-pressed", !!is);
		save.textContent = say(is ? "keep saved" : "bar save");
	}
	function filesHere() {
		var out = [];
		[].forEach.call(document.querySelectorAll("script[src],[data-bring],[data-keep],.reel img"), function (e) {
			[e.dataset.statics, e.dataset.machines, e.dataset.bring, e.dataset.keep, e.localName == "script" && e.getAttribute("src"), e.localName == "img" && (e.currentSrc || e.getAttribute("src"))].forEach(function (f) {
				if (f && !/^data:/.test(f)) out.push(new URL(f, location.href).href);
			});
		});
		return out.filter(function (f, i) { return f.indexOf(root) == 0 && out.indexOf(f) == i; }).slice(0, 16);
	}
	function choose() {
		var files = filesHere();
		return began().then(open).then(function (c) {
			return Promise.all([fetch(here, { cache: "no-cache" }).then(function (r) {
				if (!r.ok) throw new Error(here);
				return put(c, here, r, { "x-kept": new Date().toISOString(), "x-name": encodeURIComponent(document.querySelector("h1").textContent), "x-files": files.map(encodeURI).join(" ") });
			})].concat(files.map(function (f) { return bring(c, f).catch(function () { /* a photo fewer */ }); })));
		});
	}
	if (save) {
		open().then(function (c) { return c.match(here); }).then(function (r) { shown(r); });
		save.onclick = function () {
			var is = save.getAttribute("aria-pressed") == "true";
			save.disabled = true;
			(is ? drop(here) : choose()).then(function () {
				shown(!is);
				told.textContent = say(is ? "keep removed" : "keep done");
			}).catch(failed).then(function () { save.disabled = false; });
		};
		return;
	}

	// ---- the yard page

	var button = box.querySelector("button"), list = box.querySelector("ul"), has;
	function line(x) {
		var li = document.createElement("li"), a = document.createElement("a"), b = document.createElement("button"), s = document.createElement("span");
		a.href = x.url;
		a.textContent = decodeURIComponent(x.is["x-name"]);
		s.textContent = x.is["x-gone"] ? say("keep gone", day(x.is["x-gone"])) : say("keep day", day(x.is["x-kept"]));
		s.className = x.is["x-gone"] ? "is-no" : "";
		b.type = "button";
		b.className = "drop";
		b.textContent = say("keep remove");
		b.setAttribute("aria-label", say("keep remove this", a.textContent));
		b.onclick = function () { drop(x.url).then(draw); };
		li.append(a, s, b);
		return li;
	}
	function draw() {
		return Promise.all([phone.getRegistration(root), chosen()]).then(function (x) {
			has = !!x[0];
			box.hidden = false;
			button.textContent = say(has ? "keep forget" : "keep save");
			list.textContent = "";
			x[1].forEach(function (one) { list.appendChild(line(one)); });
			// What is no longer listed counts as sold (yard.js).
			window.GONE = {};
			x[1].forEach(function (one) { if (one.is["x-gone"]) window.GONE[one.url.slice(root.length)] = true; });
			if (Object.keys(window.GONE).length) document.dispatchEvent(new Event("gone"));
			return x[1];
		});
	}
	// again asks the yard for each kept page: it is newer then, or no longer listed.
	function again(all) {
		if (navigator.onLine === false) return;
		return open().then(function (c) {
			return Promise.all(all.map(function (x) {
				return fetch(x.url, { cache: "no-cache" }).then(function (r) {
					var is = x.is;
					if (r.ok) { is["x-kept"] = new Date().toISOString(); is["x-gone"] = ""; return put(c, x.url, r, is); }
					if ((r.status == 404 || r.status == 410) && !is["x-gone"]) { is["x-gone"] = new Date().toISOString(); return put(c, x.url, x.r, is); }
				}).catch(function () { /* no signal: the copy stays what it is */ });
			}));
		}).then(function () { if (all.length) return draw(); });
	}
	button.onclick = function () {
		button.disabled = true;
		(has ? phone.getRegistration(root).then(function (r) { return r && r.unregister(); }).then(function () { return caches.keys(); }).then(function (names) {
			return Promise.all(names.filter(function (n) { return n.indexOf("lot-") == 0; }).map(function (n) { return caches.delete(n); }));
		}) : began()).then(draw).then(function () { told.textContent = say(has ? "keep kept" : "keep forgotten"); }).catch(failed).then(function () { button.disabled = false; });
	};
	draw().then(function (all) {
		told.textContent = say(has ? "keep kept" : "keep what");
		return again(all);
	});
})();
