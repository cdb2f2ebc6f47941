package inspect

import (
	"tarepage/internal/unit"
)

var fileIgnored = &Rule{
	Name: unit.FileIgnored, Severity: Remark,
	Title:  "every file in the units folder is a unit",
	Why:    "A file with another ending is not read, so a unit with the wrong file name stays off the site.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "make the file's name end in .md",
}
