// Package showroom shows the site live, on the computer and on phones, while somebody writes
// its files. It serves the pages from memory, has them made again whenever a watched folder
// changes, and tells the open pages to reload.
//
// It serves each page as it would be published, byte for byte, with three additions
// (dress.go): the script that waits for the next version, the permission for that script in
// the page's own policy, and, if something was found, a panel at the top of the page that
// says what to fix. Addresses below /showroom/ are its own.
//
// It does not make pages, compute figures or judge units. It calls a function that does, and
// shows the result or the error. It writes no file itself. It learns from the watched folders
// only that something changed, and reads from them only files that the site copies. It answers
// only to a host that is an IP address or localhost, so that no page on the web can read the
// yard through somebody's browser. It answers GET and HEAD and nothing else, except below
// WalkPath, where Room.Walk takes what a phone sends.
//
// This computer needs no key. Everybody else brings the key of the session (key.go); without
// it the network sees nothing. The key and the pages go over the network in the clear.
//
// The system tells of changes. Some network and shared folders do not, and neither does a
// symbolic link to a folder elsewhere; there, save a file that the system does report.
package showroom
