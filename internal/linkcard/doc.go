// Package linkcard draws the picture that a shared link shows (Open Graph, og:image): one
// trailer's photo, or its outline where it has none, with the figures a buyer asks for
// first and the reminder that the label governs.
//
// It may not know units, work anything out or round anything: it is given finished texts,
// a worked photo and an outline, and returns one file. It says nothing that the trailer's
// page does not say. The same face gives the same bytes on every machine.
package linkcard
