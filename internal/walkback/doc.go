// Package walkback is the walk back to a trailer with a phone, after a recording became a unit
// file: which values to confirm, in the order of a walk around the trailer, and what the
// answers change in the file.
//
// It is pure: the bytes of a file and answers go in, lines to ask and the bytes of the new file
// come out. It knows no network, no clock and no folder. internal/walkpage shows the lines on a
// phone. A value is changed at its own place by internal/amend; it is read by internal/unit
// before that, so that nothing goes into a file that does not read there.
package walkback
