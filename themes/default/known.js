// Before the first picture of a page: is a machine (known-m) or a truck (known-t) known, by the
// address or on this phone? The styles then keep the space that its answers take, so that nothing
// moves when they come. bring.js reads and checks the same.
var tapped;
(function (root) {
	var sent = /[#&]bring=(.*)/.exec(location.hash), names = { m: "machine", t: "truck" }, k, v;
	try {
		for (k in names) {
			v = sent ? JSON.parse(decodeURIComponent(sent[1]))[k] : JSON.parse(localStorage.getItem("tarepage-" + names[k]));
			if (v && (k == "t" || v.w && v.l)) root.add("known-" + k);
		}
	} catch (e) { /* nothing is known */ }
	// A tap on a ticket before the scripts are there waits for them.
	onclick = function (e) { tapped = e.target.closest(".ticket"); };
})(document.documentElement.classList);
