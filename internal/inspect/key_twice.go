package inspect

import (
	"tarepage/internal/unit"
)

var keyTwice = &Rule{
	Name: unit.KeyTwice, Severity: Stop,
	Title:  "no key is given twice",
	Why:    "Of two values one would be dropped in silence.",
	Source: "YAML 1.2.2, 3.2.1.1: mapping keys are unique",
	Remedy: "keep one of the two",
}
