// Package walkpage is the page of the showroom on which a unit is confirmed at the trailer, on
// a phone: the list of units, a page for each, and the requests by which the page sends answers.
//
// It writes what internal/walkback makes of the answers into the unit's own file, in one step,
// and keeps what the file was before in the folder "earlier". It publishes nothing: a build at
// the desk checks the unit as always. Who may ask is checked before, by internal/showroom.
package walkpage
