// Package media reads what a photo or a video says about itself, and plans the copy of a
// video that may be published.
//
// For a photo it reads the head only: the kind of file, the size, how to turn it, how much
// memory it takes to decode. It decodes no pixel.
//
// For a video it reads the index and makes a Copy: a new file that holds the pictures, the
// sound and the tables a player needs, and nothing else. The copy is built from a list of
// what is allowed, so a box that nobody has heard of yet stays behind. The parameter sets of a decoder
// are read number by number and end where the standard ends them, and a copy in which words
// are left anywhere is refused.
//
// The package never allocates what a file claims to need: a claim may be wrong, or may be
// meant to do harm. It does not open files and does not decide what is published.
// internal/unit gives it open files, internal/inspect judges what it reports, and
// internal/photo decodes the pictures.
package media
