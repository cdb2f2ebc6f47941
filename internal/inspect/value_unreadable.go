package inspect

import (
	"tarepage/internal/unit"
)

var valueUnreadable = &Rule{
	Name: unit.ValueUnreadable, Severity: Stop,
	Title:  "every value reads, with its unit",
	Why:    "A number without its unit can be pounds or kilograms, feet or inches.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "write the value with its unit",
}
