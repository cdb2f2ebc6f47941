package inspect

import (
	"tarepage/internal/unit"
)

var fileUnreadable = &Rule{
	Name: unit.FileUnreadable, Severity: Stop,
	Title:  "the file can be read",
	Why:    "A file that does not read would leave a unit out of the site without anybody noticing.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "mend the file where the finding points",
}
