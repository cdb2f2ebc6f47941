package unit

import "sort"

// A Problem is something in a file that cannot be read. The rules for its kinds are in
// internal/inspect.
type Problem struct {
	// Rule is the name of the rule that it breaks, one of the constants below.
	Rule string
	At   Pos
	// Related are the other places that matter.
	Related []Place
	// Message says what is wrong, lower case, with the bad value.
	Message string
	// Remedy says what to do about it.
	Remedy string
}

// A Place is a position with a text that says what is there.
type Place struct {
	At   Pos
	What string
}

// The rules that reading can break.
const (
	FileUnreadable  = "file-unreadable"
	UnknownKey      = "unknown-key"
	KeyTwice        = "key-twice"
	ValueUnreadable = "value-unreadable"
	CommaSplit      = "comma-splits-value"
	ModelUnknown    = "model-unknown"
	ModelUnfilled   = "model-unfilled"
	FileIgnored     = "file-ignored"
)

func sortProblems(ps []Problem) {
	sort.SliceStable(ps, func(i, j int) bool {
		if ps[i].At != ps[j].At {
			return ps[i].At.Before(ps[j].At)
		}
		return ps[i].Rule+ps[i].Message < ps[j].Rule+ps[j].Message
	})
}
