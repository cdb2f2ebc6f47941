package inspect

import "tarepage/internal/unit"

var siteAddress = &Rule{
	Name: "site-address", Severity: Stop,
	Title:  "the site's address leads to its folder",
	Why:    "The address is on every page, in the feeds and in the sitemap. A wrong one sends search engines and readers somewhere else.",
	Source: "RFC 3986, 3; RFC 9110, 4.2.2: https",
	Remedy: "write it like https://sawbuck.example/trailers/, or leave it out",
	checkYard: func(y *Yard, f *Findings) {
		a := y.Stock.Yard.Address
		if !a.Given() {
			return
		}
		if fault := unit.AddressFault(a.Value); fault != "" {
			f.add(a.Pos, "address %q: %s", a.Value, fault)
		}
	},
}
