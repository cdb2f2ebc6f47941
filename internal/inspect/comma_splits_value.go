package inspect

import (
	"tarepage/internal/unit"
)

var commaSplitsValue = &Rule{
	Name: unit.CommaSplit, Severity: Stop,
	Title:  "no comma inside { } cuts a value in two",
	Why:    "Inside { } a comma ends the value, so 20,000 lb becomes 20.",
	Source: "YAML 1.2.2, 7.4.2: flow mappings",
	Remedy: "quote the value, or put each key on its own line",
}
