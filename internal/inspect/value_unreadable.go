package inspect

import (
	"tarepage/internal/unit"
)

var valueUnreadable = &Rule{
	Name: unit.ValueUnreadable, Severity: Stop,
	Title:  "every value can be read, with its unit",
	Why:    "A number without a unit can be pounds or kilograms, feet or inches.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "write the value with its unit",
}
