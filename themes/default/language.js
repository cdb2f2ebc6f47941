// A site in two languages: a visitor gets the language that they chose on this phone, and on the
// first visit that of the phone, if the site has it. Without scripts, and where the phone keeps
// nothing, the page stays and its link leads to the other. The address keeps what follows its #:
// machine, truck and filters.
(function (page) {
	"use strict";
	var KEEP = "tarepage-language", other = page.getElementById("other-language"), here = page.documentElement.lang;
	function keep(lang) {
		try { localStorage.setItem(KEEP, JSON.stringify(lang)); return true; } catch (e) { return false; }
	}
	function wanted() {
		try {
			var kept = JSON.parse(localStorage.getItem(KEEP));
			if (typeof kept == "string") return kept;
		} catch (e) { /* nothing is kept */ }
		return here.slice(0, 2) == "en" ? (navigator.languages || [navigator.language])[0] || "" : "";
	}
	if (wanted().slice(0, 2) == other.hreflang.slice(0, 2) && keep(other.hreflang)) location.replace(other.href + location.hash);
	page.addEventListener("click", function (e) {
		var a = e.target.closest("a.language");
		if (!a) return;
		keep(a.hreflang);
		a.hash = location.hash;
	});
})(document);
