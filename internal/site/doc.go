// Package site runs the whole road from content/ to a site. Each stage takes values and
// returns values, and no stage goes back to an earlier one:
//
//	read      the files of a yard                       internal/unit
//	compute   the figures of each unit                  internal/compute
//	inspect   each unit, and the yard as a whole        internal/inspect
//	photos    make pictures; what fails is a finding    internal/photo
//	pages     make the pages                            internal/render
//	publish   put the site in its place                 internal/publish
//
// Inspect stops after the third stage, Build goes all the way, and Show keeps the site in
// memory for the showroom. What one run keeps for the next is in one place, the Store.
package site
