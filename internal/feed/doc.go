// Package feed writes the files by which other programs follow a yard: the arrivals and
// changes of price as Atom and as JSON Feed, the sitemap, and what robots are told.
//
// It knows no clock: every date is one that the yard's files state, so that the same
// files give the same bytes. It writes no file and reads none, and it works nothing out:
// what an item says comes to it as finished words. It imports internal/unit for its days
// and nothing else of Tarepage.
package feed
