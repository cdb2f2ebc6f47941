package inspect

import (
	"tarepage/internal/unit"
)

var fileIgnored = &Rule{
	Name: unit.FileIgnored, Severity: Remark,
	Title:  "every file among the units is a unit",
	Why:    "A file with another ending is not read; a unit under the wrong name stays off the site.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "end the file's name in .md",
}
