package inspect

import (
	"tarepage/internal/unit"
)

var keyTwice = &Rule{
	Name: unit.KeyTwice, Severity: Stop,
	Title:  "no key is given twice",
	Why:    "One of the two values would be dropped without a word.",
	Source: "YAML 1.2.2, 3.2.1.1: mapping keys are unique",
	Remedy: "keep one of the two",
}
