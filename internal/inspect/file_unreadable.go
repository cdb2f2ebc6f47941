package inspect

import (
	"tarepage/internal/unit"
)

var fileUnreadable = &Rule{
	Name: unit.FileUnreadable, Severity: Stop,
	Title:  "the file can be read",
	Why:    "If the file cannot be read, a unit would be missing from the site without anybody noticing.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "fix the file at the place named above",
}
