package inspect

import (
	"tarepage/internal/unit"
)

var unknownKey = &Rule{
	Name: unit.UnknownKey, Severity: Stop,
	Title:  "every key is one that is known",
	Why:    "A mistyped key would drop its value in silence, and the page would be figured without it.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "correct the key",
}
