// Package showroom shows the site live, on the desk and on phones, while its files are
// being written: it serves the pages from memory, has them made anew whenever a watched
// folder changes, and tells the pages that are open to load again.
//
// What it serves is the page as it would be published, byte for byte, but for three
// additions (dress.go): the script that waits for the next version, the place of that
// script in the page's own policy, and, where there are findings, a panel on top of the
// page that says what to mend. Addresses below /showroom/ are its own.
//
// It may not make pages, work out figures or judge units: it is handed a function that
// does, and shows what comes back, or the error. It writes no file and reads none; of
// the watched folders it learns only that something changed. It answers GET and HEAD
// and nothing else, and only to a host that is an IP address or localhost, so that no
// page on the web can read the yard through its reader's browser.
//
// Changes are learned from the system. Where it tells of none (some network and shared
// folders, a symbolic link whose target lies elsewhere), save a file that it does tell of.
package showroom
