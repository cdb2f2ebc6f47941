package inspect

import (
	"tarepage/internal/unit"
)

var unknownKey = &Rule{
	Name: unit.UnknownKey, Severity: Stop,
	Title:  "every key is one that the format knows",
	Why:    "The value of a mistyped key would be dropped, and the page would be worked out without it.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "correct the key",
}
