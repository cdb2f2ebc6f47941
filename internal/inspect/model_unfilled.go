package inspect

import "tarepage/internal/unit"

var modelUnfilled = &Rule{
	Name: unit.ModelUnfilled, Severity: Remark,
	Title:  "a model that has no file is the maker's name for it",
	Why:    "Labels and invoices name a model. If a file was meant, nothing of it was filled in.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "nothing need be done; if a file in content/models was meant, write its name without .md",
}
