package inspect

import (
	"tarepage/internal/unit"
)

var fileIgnored = &Rule{
	Name: unit.FileIgnored, Severity: Remark,
	Title:  "every trailer's file is in content/units, with a name that ends in .md",
	Why:    "A trailer whose file is in another folder, or has another ending, is not read and stays off the site.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "make the file's name end in .md",
}
