package inspect

import "tarepage/internal/unit"

var modelUnknown = &Rule{
	Name: unit.ModelUnknown, Severity: Stop,
	Title:  "the model that a unit names exists",
	Why:    "Everything that the model should fill in would be missing.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "name a file in content/models without its .md",
}
